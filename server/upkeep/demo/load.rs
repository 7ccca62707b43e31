use super::files::{self, Trial};
use super::plants;
use crate::accounts;
use crate::app::App;
use crate::args;
use crate::db::ids::{At, BagId, MemberId, PacketId, RoutineId, TrialId};
use crate::db::{Conn, FromRow};
use crate::notebook::{About, Act, bag};
use crate::trials::model::{NewTrial, Paper, StepDone, Tally};
use crate::{marks, routines, stock, transfer, trials};
use anyhow::{Context, anyhow};
use chrono::{Days, TimeZone};
use std::collections::HashMap;

pub(super) const SAVE: &str = "the invented club";
/// The hour by which a day's looks are made: before it, the newest day of the files is yesterday, and nothing lies in
/// the future.
const LAST_LOOK: i64 = 17;
/// The season lists were entered this many days before the demo starts.
const LISTED_DAYS_AGO: i64 = 360;
const MEASURES: &str = "UPDATE members SET measures = $2 WHERE id = $1";
const ROUTINE: &str = "SELECT id FROM routines WHERE name = $1";

pub(crate) const ALL: &[&str] = &[MEASURES, ROUTINE];

/// A trial of the invented club, once it is in the database.
pub(super) struct Loaded {
    pub trial: TrialId,
    pub owner: MemberId,
    pub paper_at: At,
    pub bags: Vec<BagId>,
}

/// Fills an empty database with the invented club, in one transaction.
pub async fn club(app: &App) -> anyhow::Result<()> {
    let mut conn = app.db.write().await?;
    let now = app.now();
    let club = files::club();
    accounts::store::make_club(&mut conn, &club.name, &club.time_zone, now).await?;
    stock::ensure_kinds(&mut conn, now).await?;
    routines::ensure_starters(&mut conn, now).await?;
    let members = members(app, &mut conn).await?;
    let zone = accounts::store::zone(&mut conn).await?;
    let mut loaded = HashMap::new();
    for row in files::trials() {
        let owner = members.get(&row.letters).context("a trial names a member")?;
        let began = began(&row, now, zone)?;
        loaded.insert(
            row.trial.clone(),
            one(&mut conn, &row, owner, began, now).await.with_context(|| row.trial.clone())?,
        );
    }
    looks(&mut conn, &loaded, now).await?;
    closings(&mut conn, &loaded, now).await?;
    plants::trays(&mut conn, &members, &loaded, now).await?;
    conn.commit().await?;
    Ok(())
}

async fn members(app: &App, conn: &mut Conn) -> anyhow::Result<HashMap<String, MemberId>> {
    let hash = accounts::passwords::hashed(app, super::PASSWORD.to_owned()).await?;
    let listed = app.now().plus_days(-LISTED_DAYS_AGO);
    let mut ids = HashMap::new();
    for m in files::members() {
        let new = accounts::model::NewMember {
            name: m.name,
            sign_in: m.sign_in,
            letters: m.letters.clone(),
            password: String::new(),
            role: m.role,
        };
        let id = accounts::store::add(conn, &new, &hash, listed).await?;
        conn.run(MEASURES, args![&id, &m.measures]).await?;
        let list = transfer::import_season_list(
            conn,
            &id,
            &m.letters,
            (files::list(&m.letters).as_bytes(), ""),
            listed,
        )
        .await;
        list?.map_err(|faults| anyhow!("season list of {}: {faults:?}", m.letters))?;
        ids.insert(m.letters, id);
    }
    Ok(ids)
}

/// When a trial began: on the day and hour of the file, or not long ago where it is still soaking.
fn began(row: &Trial, now: At, zone: chrono_tz::Tz) -> anyhow::Result<At> {
    if row.days_ago == 0 {
        let spread: i64 = row.trial.bytes().map(i64::from).sum();
        return Ok(now.plus_minutes(-(10 + spread * 37 % 700)));
    }
    let day = now.plus_minutes(-LAST_LOOK * 60).day(zone) - Days::new(row.days_ago.unsigned_abs());
    let evening = day.and_hms_opt(row.hour.try_into()?, 0, 0).context("an hour of the day")?;
    let local = zone.from_local_datetime(&evening).earliest().context("an hour that exists")?;
    Ok(At(local.timestamp()))
}

async fn one(conn: &mut Conn, row: &Trial, owner: &MemberId, began: At, now: At) -> anyhow::Result<Loaded> {
    let mark = format!("{} {}", row.letters, row.number);
    let packet = marks::find(conn, &mark).await?.context("a trial names a packet")?;
    let routine: Id = conn.one(ROUTINE, args![&row.routine]).await?;
    let new = NewTrial {
        packet: PacketId(packet.thing_id),
        routine: RoutineId(routine.id),
        seeds: row.seeds,
        recount: None,
        pair: None,
        plan: String::new(),
    };
    let made = trials::store::start(conn, &Act::new(owner, SAVE, began, now), &[new]).await?;
    let trial = made.into_iter().next().context("one trial was started")?;
    let papers: Vec<files::Bag> = files::bags().into_iter().filter(|b| b.trial == row.trial).collect();
    let paper_at = papers.first().map_or(now, |b| began.plus_minutes(b.hours_after_start * 60));
    let until = if papers.is_empty() { now } else { paper_at.plus_minutes(-10) };
    steps(conn, owner, &trial, (began, until), now).await?;
    let bags = paper(conn, row, owner, &trial, (&papers, paper_at), now).await?;
    Ok(Loaded { trial, owner: owner.clone(), paper_at, bags })
}

#[derive(FromRow)]
struct Id {
    id: String,
}

/// Ticks off the steps that fit between the two moments; a step that would end later is still running.
async fn steps(
    conn: &mut Conn,
    owner: &MemberId,
    trial: &TrialId,
    (began, until): (At, At),
    now: At,
) -> anyhow::Result<()> {
    let version = trials::store::trial(conn, owner, trial).await?.version_id;
    let mut at = began;
    for step in routines::store::steps(conn, &version).await? {
        at = at.plus_minutes(step.minutes);
        if at > until {
            break;
        }
        let done = StepDone { position: step.position, percent: step.percent, ..StepDone::default() };
        trials::store::step_done(conn, &Act::new(owner, SAVE, at, now), trial, &done).await?;
    }
    Ok(())
}

async fn paper(
    conn: &mut Conn,
    row: &Trial,
    owner: &MemberId,
    trial: &TrialId,
    (papers, at): (&[files::Bag], At),
    now: At,
) -> anyhow::Result<Vec<BagId>> {
    if papers.is_empty() {
        return Ok(Vec::new());
    }
    let has_steps = trials::store::trial(conn, owner, trial).await?.step > 1;
    if let (true, Some(sank), Some(floated)) = (has_steps, row.sank, row.floated) {
        let tally = Tally { sank, floated, floaters: row.floaters.clone(), recount: false };
        trials::store::tally(conn, &Act::new(owner, SAVE, at.plus_minutes(-5), now), trial, &tally).await?;
    }
    let papers: Vec<Paper> = papers
        .iter()
        .map(|b| Paper {
            seeds: b.seeds,
            floaters: b.floaters == 1,
            place: b.place.clone(),
            warmth_c: Some(b.warmth_c),
            rooted: None,
        })
        .collect();
    Ok(trials::store::put_on_paper(conn, &Act::new(owner, SAVE, at, now), trial, &papers, false).await?)
}

async fn looks(conn: &mut Conn, loaded: &HashMap<String, Loaded>, now: At) -> anyhow::Result<()> {
    for row in files::looks() {
        let (t, id) = bag_of(loaded, &row.trial, row.bag)?;
        let at = t.paper_at.plus_minutes(row.hours * 60);
        let about = About { trial: Some(&t.trial), bag: Some(id), ..About::default() };
        let look = bag::Look { rooted: row.rooted, abnormal: row.abnormal, dead: row.dead };
        bag::add_look(conn, &Act::new(&t.owner, SAVE, at, now), about, look, "").await?;
    }
    for id in loaded.values().flat_map(|t| &t.bags) {
        bag::keep(conn, id).await?;
    }
    Ok(())
}

async fn closings(conn: &mut Conn, loaded: &HashMap<String, Loaded>, now: At) -> anyhow::Result<()> {
    for row in files::closings() {
        let (t, id) = bag_of(loaded, &row.trial, row.bag)?;
        let at = t.paper_at.plus_minutes(row.hours * 60);
        let about = About { trial: Some(&t.trial), bag: Some(id), ..About::default() };
        let closing = bag::Closing {
            ending: "final count",
            fresh: row.fresh,
            hard: row.hard,
            dead: row.dead,
            ..bag::Closing::default()
        };
        bag::add_closing(conn, &Act::new(&t.owner, SAVE, at, now), about, closing, "").await?;
        bag::keep(conn, id).await?;
    }
    Ok(())
}

pub(super) fn bag_of<'a>(
    loaded: &'a HashMap<String, Loaded>,
    trial: &str,
    bag: usize,
) -> anyhow::Result<(&'a Loaded, &'a BagId)> {
    let t = loaded.get(trial).with_context(|| format!("no trial {trial}"))?;
    let id = t.bags.get(bag.wrapping_sub(1)).with_context(|| format!("no bag {bag} in {trial}"))?;
    Ok((t, id))
}
