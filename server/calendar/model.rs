//! What is due as events: the end of each soak, and one all-day event for each sort of work on each day; planned starts
//! also of days to come.

use super::ical::{Event, When};
use crate::bags::model::Bag;
use crate::db::ids::{At, MemberId};
use crate::stock::handed::Waiting;
use crate::stock::promises::{self, Promise};
use crate::trials::model::{Due, Next};
use crate::web::{session, words};
use chrono::NaiveDate;
use chrono_tz::Tz;
use std::collections::BTreeMap;

/// Marks named in a title; the text below it has all.
const NAMED: usize = 6;

/// A mark and what the text below the title says of it.
type Line = (String, String);

/// What a member has to do.
pub struct Work {
    pub soaks: Vec<Due>,
    pub bags: Vec<Bag>,
    /// Of the plan, those that hold.
    pub promised: Vec<Promise>,
    /// Packets of ring trials that are not started.
    pub blind: Vec<Waiting>,
}

/// Everything due of `member`; what should have been done before today stands on today.
pub fn events(member: &MemberId, work: &Work, now: At, zone: Tz) -> Vec<Event> {
    let (soaks, bags, today) = (&work.soaks, &work.bags, now.day(zone));
    let mut events = outs(member, soaks);
    let waits = soaks.iter().filter(|s| !is_timed(s));
    let waits: Vec<Line> =
        waits.map(|s| (s.mark.clone(), format!("{}: {}", s.variety, waits_for(s)))).collect();
    events.extend(all_day(member, today, &t!("calendar-soaks-go-on", n = waits.len()), "waits", &waits));
    events.extend(looks(member, bags, today, zone));
    let plant: Vec<&Bag> = bags.iter().filter(|b| b.waiting() > 0).collect();
    let seeds: i64 = plant.iter().map(|b| b.waiting()).sum();
    let rooted = |b: &Bag| t!("calendar-rooted", variety = b.variety, n = b.waiting());
    let plant: Vec<Line> = plant.into_iter().map(|b| (b.mark.clone(), rooted(b))).collect();
    events.extend(all_day(member, today, &t!("calendar-plant", n = seeds), "plant", &plant));
    let close: Vec<Line> = bags.iter().filter(|b| b.is_open() && b.on_paper == 0).map(line).collect();
    events.extend(all_day(member, today, &t!("calendar-close", n = close.len()), "close", &close));
    events.extend(starts(member, &work.promised, today));
    let blind: Vec<Line> =
        work.blind.iter().map(|p| (p.mark.clone(), t!("calendar-ring-trial", name = p.ring))).collect();
    events.extend(all_day(member, today, &t!("calendar-start-blind", n = blind.len()), "blind", &blind));
    events
}

/// One event for each day on which the plan wants trials started.
fn starts(member: &MemberId, promised: &[Promise], today: NaiveDate) -> Vec<Event> {
    let gives = promises::gives(promised);
    let mut days: BTreeMap<NaiveDate, Vec<Line>> = BTreeMap::new();
    for promise in promised {
        let given = promises::given(promise, gives.get(&promise.id).copied().unwrap_or(promise.seeds));
        let line = (promise.mark.clone(), format!("{}: {given}", promise.variety));
        days.entry(promise.start_on.max(today)).or_default().push(line);
    }
    let event = |(day, lines): (NaiveDate, Vec<Line>)| {
        all_day(member, day, &t!("calendar-start-trials", n = lines.len()), "start", &lines)
    };
    days.into_iter().filter_map(event).collect()
}

fn is_timed(soak: &Due) -> bool {
    soak.next() == Next::Step && soak.minutes.unwrap_or(0) > 0
}

/// What a soak without an end waits for, within a line.
fn waits_for(soak: &Due) -> String {
    let act = match soak.next() {
        Next::Tally => return t!("calendar-float-tally").to_owned(),
        Next::Paper => return t!("calendar-on-paper").to_owned(),
        Next::Step => soak.act.as_deref().unwrap_or_default(),
    };
    let step = match act {
        "stand water" => t!("calendar-let-water-stand"),
        "sanitising soak" => t!("calendar-sanitising-soak"),
        "rinse" => t!("calendar-rinse"),
        "priming soak" => t!("calendar-priming-soak"),
        "drain" => t!("calendar-drain"),
        "rest" => t!("calendar-rest"),
        _ => t!("calendar-step"),
    };
    match soak.agent.as_deref() {
        None | Some("") => step.to_owned(),
        Some(agent) => t!("calendar-step-in", step = step, agent = agent),
    }
}

fn line(bag: &Bag) -> Line {
    (bag.mark.clone(), bag.variety.clone())
}

/// Vials that come out of the same step at the same moment are one event, with one alarm.
fn outs(member: &MemberId, soaks: &[Due]) -> Vec<Event> {
    let mut together: BTreeMap<(At, String), Vec<&Due>> = BTreeMap::new();
    for soak in soaks.iter().filter(|s| is_timed(s)) {
        together.entry((soak.due_at(), soak.words())).or_default().push(soak);
    }
    together.into_iter().map(|((at, step), soaks)| out(member, at, &step, &soaks)).collect()
}

fn out(member: &MemberId, at: At, step: &str, soaks: &[&Due]) -> Event {
    let lines: Vec<Line> = soaks.iter().map(|s| (s.mark.clone(), s.variety.clone())).collect();
    let stored = soaks.first().map_or([None, None], |s| [s.act.as_deref(), s.agent.as_deref()]);
    let stored = stored.map(Option::unwrap_or_default).join(" ");
    Event {
        uid: uid(member, &format!("out {} {stored}", at.0)),
        when: When::Moment(at),
        summary: t!("calendar-out-of-the-soak", marks = marks(&lines)),
        description: format!("{step}\n{}", listed(&lines)),
    }
}

/// One event for each day on which looks are due.
fn looks(member: &MemberId, bags: &[Bag], today: NaiveDate, zone: Tz) -> Vec<Event> {
    let mut days: BTreeMap<NaiveDate, Vec<Line>> = BTreeMap::new();
    for bag in bags {
        if let Some(day) = bag.look_due(zone) {
            days.entry(day.max(today)).or_default().push(line(bag));
        }
    }
    let event = |(day, lines): (NaiveDate, Vec<Line>)| {
        all_day(member, day, &t!("calendar-look-at", n = lines.len()), "look", &lines)
    };
    days.into_iter().filter_map(event).collect()
}

/// The work of one sort on one day; `None` where there is none.
fn all_day(member: &MemberId, day: NaiveDate, title: &str, sort: &str, lines: &[Line]) -> Option<Event> {
    (!lines.is_empty()).then(|| Event {
        uid: uid(member, &format!("{sort} {day}")),
        when: When::Day(day),
        summary: format!("{title}: {}", marks(lines)),
        description: listed(lines),
    })
}

/// `JB 1 a, JB 1 b and 4 more`.
fn marks(lines: &[Line]) -> String {
    let named: Vec<&str> = lines.iter().take(NAMED).map(|(mark, _)| mark.as_str()).collect();
    match lines.len() - named.len() {
        0 => words::and(&named),
        more => t!("calendar-and-more", marks = named.join(", "), n = more),
    }
}

fn listed(lines: &[Line]) -> String {
    let all: Vec<String> = lines.iter().map(|(mark, words)| format!("{mark}, {words}")).collect();
    all.join("\n")
}

/// The same for the same event in every language, different for every other, and telling nothing.
fn uid(member: &MemberId, event: &str) -> String {
    session::hash(&format!("calendar {member} {event}"))[..32].to_owned()
}

/// When the calendar last changed: with an entry, or at the midnight that made something due.
pub fn stamp(changed: Option<At>, now: At, zone: Tz) -> At {
    use chrono::TimeZone;
    let midnight = now.day(zone).and_hms_opt(0, 0, 0).and_then(|t| zone.from_local_datetime(&t).earliest());
    let midnight = midnight.map_or(now, |t| At(t.timestamp()));
    changed.map_or(midnight, |at| at.max(midnight))
}
