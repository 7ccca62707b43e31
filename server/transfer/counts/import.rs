//! A list of counts against what is here, and the import itself: all of it or nothing.

use super::super::columns::{COUNTS, PACKETS, of_field};
use super::super::dates::Order;
use super::super::fault::Fault;
use super::super::matching::{Matching, worth};
use super::super::season::Season;
use super::super::sheet::{self, Sheet};
use super::super::store as kept;
use super::looks::{Bags, Who};
use super::past::gather;
use super::read::read;
use super::{Counts, NewLook, PastBag, PastTrial};
use crate::accounts;
use crate::db::Conn;
use crate::db::ids::{At, BagId, MemberId, TrialId};
use crate::error::AppError;
use crate::notebook::bag::{self, Closing};
use crate::notebook::{About, Act};
use crate::stock::model::NewPacket;
use crate::trials::model::{NewTrial, Paper, Tally};
use crate::trials::store as trials;
use crate::web::forms::Form;
use crate::{routines, stock};
use std::collections::BTreeSet;

impl Counts {
    /// Reads the rows and compares them with the bags that are here. `answers` holds the letters and the choices.
    pub async fn plan(
        conn: &mut Conn,
        member: &MemberId,
        (sheet, matching): (&Sheet, &Matching),
        (answers, usual): (&Form, Order),
        now: At,
    ) -> Result<(Self, Order), AppError> {
        let who = Who { member, zone: accounts::store::zone(conn).await?, now, row: sheet.row };
        let rows = read(sheet, matching, answers, usual);
        let digest = sheet.digest("counts");
        let standing = kept::standing(conn, member, &digest).await?;
        let season = Season::weighed(conn, member, Default::default(), answers).await?;
        let mut counts =
            Self { looks: Vec::new(), past: Vec::new(), season, faults: rows.faults, here: 0, digest };
        let (mut bags, mut past) = (Bags::default(), Vec::new());
        for row in rows.rows {
            if standing.contains(&row.line) {
                counts.here += 1;
            } else if !bags.take(conn, who, &row, &mut counts).await? {
                past.push(row);
            }
        }
        counts.faults.retain(|f| !standing.contains(&f.line));
        let all = routines::store::routines(conn).await?;
        let gathered = gather(who, answers.value("letters"), &past, &all);
        counts.season = Season::weighed(conn, member, gathered.packets, answers).await?;
        counts.past = gathered.trials;
        counts.faults.extend(gathered.faults);
        counts.faults.extend(counts.season.list.faults.clone());
        counts.faults.sort_by_key(|f| f.line);
        let mut said = BTreeSet::new();
        counts.faults.retain(|f| said.insert((f.line, f.column.clone(), f.message.clone())));
        if counts.faults.is_empty() && counts.number() == 0 {
            counts.faults.push(Fault::new(0, "", t!("transfer-nothing-left")));
        }
        Ok((counts, rows.order))
    }

    /// Adds everything in one go; or gives the first thing that does not come out.
    pub async fn import(
        &self,
        conn: &mut Conn,
        member: &MemberId,
        save_key: &str,
        now: At,
    ) -> Result<Result<usize, Fault>, AppError> {
        let by = By { member, save_key, now, digest: &self.digest };
        for (trial, row) in self.past.iter().zip(&self.season.list.rows) {
            if let Some(fault) = told(by.trial(conn, trial, &row.packet).await, trial.line, PACKETS)? {
                return Ok(Err(fault));
            }
        }
        let mut looked: BTreeSet<&BagId> = BTreeSet::new();
        for look in &self.looks {
            by.look(conn, look).await?;
            looked.insert(&look.bag);
        }
        for id in looked {
            let line = self.looks.iter().filter(|l| l.bag == *id).map(|l| l.line).max().unwrap_or(0);
            if let Some(fault) = told(bag::keep(conn, id).await.map(drop), line, COUNTS)? {
                return Ok(Err(fault));
            }
        }
        Ok(Ok(self.number()))
    }
}

/// A rule that the notebook would not have broken, as a fault of the row; other errors pass on.
fn told(
    result: Result<(), AppError>,
    line: u64,
    columns: &[super::super::columns::Column],
) -> Result<Option<Fault>, AppError> {
    match result {
        Ok(()) => Ok(None),
        Err(AppError::Refused { field: "entry", message }) => Ok(Some(Fault::new(line, "", message))),
        Err(AppError::Refused { field, message }) => {
            Ok(Some(Fault::new(line, of_field(columns, field), message)))
        }
        Err(other) => Err(other),
    }
}

/// Who brings what in.
struct By<'a> {
    member: &'a MemberId,
    save_key: &'a str,
    now: At,
    digest: &'a str,
}

impl By<'_> {
    fn act(&self, at: At) -> Act<'_> {
        Act::new(self.member, self.save_key, at, self.now)
    }

    async fn look(&self, conn: &mut Conn, look: &NewLook) -> Result<(), AppError> {
        let about = About { trial: Some(&look.trial), bag: Some(&look.bag), ..About::default() };
        let entry = bag::add_look(conn, &self.act(look.at), about, look.look, "").await?;
        kept::note(conn, self.member, (self.digest, look.line), Some(&entry)).await
    }

    async fn trial(&self, conn: &mut Conn, trial: &PastTrial, packet: &NewPacket) -> Result<(), AppError> {
        let packet_id = stock::store::add_packet(conn, &self.act(trial.paper), packet).await?;
        let new = NewTrial {
            packet: packet_id,
            routine: trial.routine.clone(),
            seeds: packet.seeds,
            recount: None,
            pair: None,
            plan: String::new(),
        };
        let started = trials::start(conn, &self.act(trial.paper), &[new]).await?;
        let Some(id) = started.first() else { return Ok(()) };
        if trial.thrown > 0 {
            let sank = packet.seeds - trial.thrown;
            let floaters = "thrown out".to_owned();
            let tally = Tally { sank, floated: trial.thrown, floaters, recount: false };
            trials::tally(conn, &self.act(trial.paper), id, &tally).await?;
        }
        let paper = |b: &PastBag| Paper {
            seeds: b.seeds,
            floaters: b.floated,
            warmth_c: b.warmth_c,
            ..Paper::default()
        };
        let papers: Vec<Paper> = trial.bags.iter().map(paper).collect();
        let bags = trials::put_on_paper(conn, &self.act(trial.paper), id, &papers, false).await?;
        for (b, bag_id) in trial.bags.iter().zip(&bags) {
            self.bag(conn, id, bag_id, b).await?;
        }
        Ok(())
    }

    async fn bag(&self, conn: &mut Conn, trial: &TrialId, id: &BagId, b: &PastBag) -> Result<(), AppError> {
        let about = About { trial: Some(trial), bag: Some(id), ..About::default() };
        for l in &b.looks {
            let entry = bag::add_look(conn, &self.act(l.at), about, l.look, "").await?;
            kept::note(conn, self.member, (self.digest, l.line), Some(&entry)).await?;
        }
        let sums = bag::keep(conn, id).await?;
        if let (true, Some(last)) = (b.closed, b.looks.last()) {
            let closing =
                Closing { ending: "final count", not_examined: sums.on_paper, ..Closing::default() };
            bag::add_closing(conn, &self.act(last.at), about, closing, "").await?;
            bag::keep(conn, id).await?;
        }
        Ok(())
    }
}

/// Imports a list of counts as it stands: near spellings are new names, days are read day first. All or nothing.
pub async fn import_counts(
    conn: &mut Conn,
    member: &MemberId,
    letters: &str,
    (file, sheet): (&[u8], &str),
    now: At,
) -> Result<Result<usize, Vec<Fault>>, AppError> {
    let read = sheet::open(file.to_vec()).and_then(|mut book| book.sheet(sheet, |s| worth(s, COUNTS)));
    let sheet = match read {
        Ok(sheet) => sheet,
        Err(why) => return Ok(Err(vec![Fault::new(1, "", why)])),
    };
    let answers = Form::new().with("letters", letters);
    let matching = Matching::of(&sheet, COUNTS, &answers);
    let read = (&sheet, &matching);
    let (counts, _) = Counts::plan(conn, member, read, (&answers, Order::DayFirst), now).await?;
    if !counts.faults.is_empty() {
        return Ok(Err(counts.faults));
    }
    let done = counts.import(conn, member, answers.key(), now).await?;
    Ok(done.map_err(|fault| vec![fault]))
}
