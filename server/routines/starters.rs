use super::model::{NewRoutine, Step};
use super::said::{
    DRY, EQUAL_PARTS, OPEN_JAR, OVERNIGHT, PEROXIDE, PEROXIDE_BATH, REFRIGERATOR, SOURCE, STANDING,
    TAP_WATER, THREE_WATERS, WATER,
};
use super::store;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;

/// Puts the ready routines in where they are missing; made by nobody. Safe to run at every start.
pub async fn ensure_starters(conn: &mut Conn, now: At) -> Result<(), AppError> {
    for starter in starters() {
        store::insert_missing(conn, &starter, now).await?;
    }
    Ok(())
}

fn starters() -> Vec<NewRoutine> {
    vec![
        routine(PEROXIDE_BATH, vec![peroxide(), rinse(), overnight(5.0, REFRIGERATOR)]),
        routine(OVERNIGHT, vec![overnight(20.0, "")]),
        routine(STANDING, vec![standing(), overnight(20.0, "")]),
        routine(DRY, vec![]),
    ]
}

fn routine(name: &str, mut steps: Vec<Step>) -> NewRoutine {
    for (place, step) in (1..).zip(&mut steps) {
        step.position = place;
    }
    NewRoutine { name: name.into(), note: SOURCE.into(), steps }
}

fn peroxide() -> Step {
    Step {
        act: "sanitising soak".into(),
        agent: PEROXIDE.into(),
        stock_percent: Some(3.0),
        percent: Some(1.5),
        dose: EQUAL_PARTS.into(),
        minutes: 30,
        ..Step::default()
    }
}

fn rinse() -> Step {
    Step {
        act: "rinse".into(),
        agent: WATER.into(),
        dose: THREE_WATERS.into(),
        minutes: 5,
        ..Step::default()
    }
}

fn overnight(temperature: f64, place: &str) -> Step {
    Step {
        act: "priming soak".into(),
        agent: WATER.into(),
        minutes: 12 * 60,
        temperature_c: Some(temperature),
        place: place.into(),
        ..Step::default()
    }
}

fn standing() -> Step {
    Step {
        act: "stand water".into(),
        agent: TAP_WATER.into(),
        minutes: 24 * 60,
        note: OPEN_JAR.into(),
        ..Step::default()
    }
}
