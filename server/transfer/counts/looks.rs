//! Rows about bags that are here.

use super::super::fault::Fault;
use super::super::sheet::Called;
use super::super::store::{self, KnownLook};
use super::read::Row;
use super::{Counts, NewLook};
use crate::bags;
use crate::bags::model::Bag;
use crate::db::Conn;
use crate::db::ids::{At, BagId, MemberId};
use crate::error::AppError;
use chrono::{NaiveDate, NaiveTime, TimeZone};
use chrono_tz::Tz;
use std::collections::BTreeMap;

/// Who brings the counts in, where and when.
#[derive(Clone, Copy)]
pub struct Who<'a> {
    pub member: &'a MemberId,
    pub zone: Tz,
    pub now: At,
    pub row: Called,
}

/// A bag with its looks, read once.
struct Here {
    bag: Bag,
    looks: Vec<KnownLook>,
}

/// The bags of a list that are here, by what stands on their mark.
#[derive(Default)]
pub struct Bags(BTreeMap<String, Option<Here>>);

impl Bags {
    /// Takes the row where its bag is here, into `counts`; true where that is so.
    pub async fn take(
        &mut self,
        conn: &mut Conn,
        who: Who<'_>,
        row: &Row,
        counts: &mut Counts,
    ) -> Result<bool, AppError> {
        let Some(marked) = crate::marks::find(conn, &row.bag).await? else { return Ok(false) };
        if marked.thing != "bag" {
            let message = not_of_a_bag(&marked.shown, &marked.thing);
            counts.faults.push(Fault::new(row.line, "bag", message));
            return Ok(true);
        }
        if !self.0.contains_key(&marked.thing_id) {
            let here = here(conn, who.member, &BagId(marked.thing_id.clone())).await?;
            self.0.insert(marked.thing_id.clone(), here);
        }
        match self.0.get_mut(&marked.thing_id).and_then(Option::as_mut) {
            Some(here) => here.look(who, row, counts),
            None => {
                let message = t!("transfer-anothers-bag", mark = marked.shown);
                counts.faults.push(Fault::new(row.line, "bag", message));
            }
        }
        Ok(true)
    }
}

fn not_of_a_bag(mark: &str, thing: &str) -> String {
    match thing {
        "tray" => t!("transfer-mark-of-tray", mark = mark),
        "holder" => t!("transfer-mark-of-holder", mark = mark),
        _ => t!("transfer-mark-of-packet", mark = mark),
    }
}

async fn here(conn: &mut Conn, member: &MemberId, id: &BagId) -> Result<Option<Here>, AppError> {
    match bags::store::bag(conn, member, id).await {
        Ok(bag) if !bag.voided => Ok(Some(Here { looks: store::looks(conn, id).await?, bag })),
        Ok(_) | Err(AppError::NotFound) => Ok(None),
        Err(other) => Err(other),
    }
}

impl Here {
    fn look(&mut self, who: Who<'_>, row: &Row, counts: &mut Counts) {
        let at = match moment(who, self.bag.on_paper_at, row) {
            Ok(at) => at,
            Err((column, message)) => return counts.faults.push(Fault::new(row.line, column, message)),
        };
        let same_time = |l: &&KnownLook| match row.hours {
            Some(_) => l.at.0 / 60 == at.0 / 60,
            None if row.date.is_some_and(|(_, time)| time.is_some()) => l.at.0 / 60 == at.0 / 60,
            None => l.at.day(who.zone) == at.day(who.zone),
        };
        match self.looks.iter().find(same_time) {
            Some(known) if known.look() == row.look => counts.here += 1,
            Some(_) => {
                let message = t!("transfer-other-numbers", mark = self.bag.mark);
                counts.faults.push(Fault::new(row.line, "date of the look", message));
            }
            None => {
                self.looks.push(KnownLook::of(at, row.look));
                let (bag, trial, mark) =
                    (self.bag.id.clone(), self.bag.trial_id.clone(), self.bag.mark.clone());
                counts.looks.push(NewLook { line: row.line, bag, trial, mark, at, look: row.look });
            }
        }
    }
}

/// The moment of a look, or what is wrong with it.
pub fn moment(who: Who<'_>, paper: At, row: &Row) -> Result<At, (&'static str, &'static str)> {
    if let Some(hours) = row.hours {
        let at = At(paper.0 + (hours * 3600.0).round() as i64);
        return if at > who.now { Err(("hours", t!("transfer-in-the-future"))) } else { Ok(at) };
    }
    let column = "date of the look";
    let Some((day, time)) = row.date else { return Err((column, t!("transfer-when-was-this-look"))) };
    let at = of_day(who.zone, day, time);
    if day > who.now.day(who.zone) || (time.is_some() && at > who.now) {
        return Err((column, t!("transfer-in-the-future")));
    }
    if day < paper.day(who.zone) || (time.is_some() && at.0 / 60 < paper.0 / 60) {
        return Err((column, t!("transfer-not-on-paper-yet")));
    }
    Ok(at.min(who.now).max(paper))
}

/// Noon where no time of day is told.
pub fn of_day(zone: Tz, day: NaiveDate, time: Option<NaiveTime>) -> At {
    let noon = NaiveTime::from_hms_opt(12, 0, 0).unwrap_or_default();
    let local = zone.from_local_datetime(&day.and_time(time.unwrap_or(noon))).earliest();
    At(local.map_or_else(|| day.and_time(noon).and_utc().timestamp(), |t| t.timestamp()))
}
