use super::model::{NewRoutine, Step};
use super::store;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;

const SOURCE: &str = "Common practice, no source.";
const PEROXIDE: &str = "hydrogen peroxide";
const EQUAL_PARTS: &str = "equal parts of 3 % peroxide and water";
const WATER: &str = "water";
const THREE_WATERS: &str = "three waters";
const TAP_WATER: &str = "tap water";
const OPEN_JAR: &str = "In an open jar; the seeds stay dry until the next step.";
const REFRIGERATOR: &str = "refrigerator";

/// What the ready routines hold, in the language of the request; what members wrote stays as it is.
pub fn said(text: &str) -> &str {
    match text {
        SOURCE => t!("routines-common-practice"),
        PEROXIDE => t!("routines-hydrogen-peroxide"),
        EQUAL_PARTS => t!("routines-equal-parts-of-peroxide"),
        WATER => t!("routines-water"),
        THREE_WATERS => t!("routines-three-waters"),
        TAP_WATER => t!("routines-tap-water"),
        OPEN_JAR => t!("routines-open-jar"),
        REFRIGERATOR => t!("routines-refrigerator"),
        own => own,
    }
}

/// Puts the ready routines in where they are missing; made by nobody. Safe to run at every start.
pub async fn ensure_starters(conn: &mut Conn, now: At) -> Result<(), AppError> {
    for starter in starters() {
        store::insert_missing(conn, &starter, now).await?;
    }
    Ok(())
}

fn starters() -> Vec<NewRoutine> {
    vec![
        routine(
            "Peroxide soak, then overnight in the cold",
            vec![peroxide(), rinse(), overnight(5.0, REFRIGERATOR)],
        ),
        routine("Plain water overnight", vec![overnight(20.0, "")]),
        routine("Standing water, then overnight", vec![standing(), overnight(20.0, "")]),
        routine("Dry seed, straight to paper", vec![]),
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
