//! Writes a drawn club with few statements. Kept sums come from the notebook's own replay of the entries written;
//! `tests/http/scale.rs` compares every table with what ordinary code makes of the same club.

mod paper;

use super::club::{Club, Packet};
use super::rows::{Rows, Table};
use super::trial::Trial;
use crate::db::ids::{ActId, At, BagId, EntryId, LotId, MemberId, PacketId, TrayId, TrialId};
use crate::db::{Arg, Db};
use crate::error::AppError;
use crate::notebook::{self, About, Act, Broken, trial};
use crate::routines::model::{Routine, Step};
use crate::{args, marks};
use anyhow::anyhow;
use std::collections::HashMap;

/// Trials of one transaction: so that the log of a large club does not grow as large as the club.
const AT_ONCE: usize = 5000;

/// What every row of a member's rests on.
pub struct Ground {
    pub members: Vec<MemberId>,
    /// By variety, source and year.
    pub lots: HashMap<(usize, usize, i64), LotId>,
    pub routines: Vec<Routine>,
    pub steps: Vec<Vec<Step>>,
}

/// The rows of one club, with ids by rule that come before those of any later save.
pub struct Loader<'a> {
    club: &'a Club,
    ground: &'a Ground,
    rows: Rows,
    next: u64,
    packets: HashMap<(usize, usize), Known>,
    trays: Vec<Option<TrayId>>,
}

struct Known {
    id: PacketId,
    mark: String,
    bags: usize,
}

/// One trial, while its rows are made.
struct Of<'a, 'd> {
    drawn: &'d Trial,
    owner: &'a MemberId,
    packet: PacketId,
    trial: TrialId,
}

impl Of<'_, '_> {
    fn about(&self) -> About<'_> {
        About { packet: Some(&self.packet), trial: Some(&self.trial), ..About::default() }
    }
}

impl<'a> Loader<'a> {
    pub fn new(club: &'a Club, ground: &'a Ground) -> Self {
        let trays = vec![None; club.members.len()];
        Self { club, ground, rows: Rows::default(), next: 0, packets: HashMap::new(), trays }
    }

    /// Writes every packet, trial, bag and tray of the club.
    pub async fn all(&mut self, db: &Db) -> Result<(), AppError> {
        let mut conn = db.write().await?;
        for member in 0..self.club.members.len() {
            for nth in 0..self.club.packets_of(member) {
                self.packet(&self.club.packet(member, nth))?;
                self.rows.write_some(&mut conn).await?;
            }
        }
        for n in 0..self.club.size.trials {
            if n % AT_ONCE == AT_ONCE - 1 {
                self.rows.write(&mut conn).await?;
                conn.commit().await?;
                conn = db.write().await?;
            }
            self.trial(&self.club.trial(n, &self.ground.steps))?;
            self.rows.write_some(&mut conn).await?;
        }
        self.rows.write(&mut conn).await?;
        Ok(conn.commit().await?)
    }

    fn id(&mut self) -> String {
        self.next += 1;
        format!("{:032x}", self.next)
    }

    /// As the ids that the program gives, which begin with the milliseconds of their making.
    fn id_of(&mut self, now: At) -> String {
        self.next += 1;
        format!("{:012x}{:020x}", now.0 * 1000, self.next)
    }

    fn act(&mut self, member: &'a MemberId, at: At) -> Act<'a> {
        Act { id: ActId(self.id()), member, save_key: "", at, now: at }
    }

    fn mark(&mut self, shown: &str, thing: &str, id: &str, at: At) -> String {
        let key = marks::fold(shown);
        self.rows.put(Table::Marks, args![&key, shown, thing, id, at]);
        key
    }

    /// An entry as the notebook writes it; each act is a save of its own. Its particulars follow after its id.
    fn entry(
        &mut self,
        act: &Act<'_>,
        about: About<'_>,
        (what, note): (&str, &str),
        table: (Table, Vec<Arg>),
    ) -> String {
        let id = EntryId(self.id_of(act.now));
        let save_key = format!("scale {}", act.id);
        let act = Act { save_key: &save_key, ..act.clone() };
        self.rows.put(Table::Entries, notebook::entry_row(&id, &act, what, about, note));
        let mut particulars = args![&id];
        particulars.extend(table.1);
        self.rows.put(table.0, particulars);
        id.0
    }

    fn packet(&mut self, p: &Packet) -> Result<(), AppError> {
        let ground = self.ground;
        let (owner, lot) = (&ground.members[p.member], ground.lots.get(&p.lot()));
        let lot = lot.ok_or_else(|| anyhow!("a packet has no lot"))?;
        let id = PacketId(self.id());
        let mark = format!("{} {}", self.club.members[p.member].letters, p.number);
        let key = self.mark(&mark, "packet", &id.0, p.received_at);
        let balance = p.seeds - self.club.taken(p);
        let row =
            args![&id, lot, owner, key, &mark, "", "plain", false, "", "", balance, p.received_at, 1_i64];
        self.rows.put(Table::Packets, row);
        let act = self.act(owner, p.received_at);
        let about = About { packet: Some(&id), ..About::default() };
        self.entry(&act, about, ("ledger", ""), (Table::Ledger, args!["received", p.seeds]));
        self.packets.insert((p.member, p.number - 1), Known { id, mark, bags: 0 });
        Ok(())
    }

    fn trial(&mut self, drawn: &Trial) -> Result<(), AppError> {
        let packet = self.packets.get(&(drawn.member, drawn.packet)).map(|p| p.id.clone());
        let packet = packet.ok_or_else(|| anyhow!("a trial has no packet"))?;
        let owner = &self.ground.members[drawn.member];
        let of = Of { drawn, owner, packet, trial: TrialId(self.id()) };
        let mut entries = self.soak(&of);
        for bag in &drawn.bags {
            let to_paper = self.on_paper(&of, bag)?;
            entries.push(to_paper);
        }
        let s = trial::replay(drawn.began, &entries).map_err(broken)?;
        let version = &self.ground.routines[drawn.routine].version_id;
        let started = args![&of.trial, &of.packet, of.owner, version, drawn.began, s.voided, false];
        self.rows.put(Table::Trials, [started, s.kept(), args![1_i64]].concat());
        Ok(())
    }

    /// The start, the steps and the float tally.
    fn soak(&mut self, of: &Of<'a, '_>) -> Vec<trial::Entry> {
        let t = of.drawn;
        let act = self.act(of.owner, t.began);
        self.entry(&act, of.about(), ("ledger", ""), (Table::Ledger, args!["taken", -t.seeds]));
        let mut out = vec![self.seeds(of, &act, None, ("taken", t.seeds))];
        let mut began = t.began;
        for (position, at) in &t.steps {
            let act = self.act(of.owner, *at);
            let percent =
                self.ground.steps[t.routine].iter().find(|s| s.position == *position).and_then(|s| s.percent);
            let step = (Table::StepsDone, args![*position, false, began, percent]);
            let id = self.entry(&act, of.about(), ("step", ""), step);
            out.push(trial::Entry {
                id,
                at: at.0,
                what: "step".into(),
                position: Some(*position),
                ..Default::default()
            });
            began = *at;
        }
        if let Some(tally) = &t.tally {
            let act = self.act(of.owner, tally.at);
            let row = (Table::FloatTallies, args![tally.sank, tally.floated, tally.floaters()]);
            let id = self.entry(&act, of.about(), ("float tally", ""), row);
            out.push(trial::Entry {
                id,
                at: tally.at.0,
                what: "float tally".into(),
                sank: Some(tally.sank),
                floated: Some(tally.floated),
                floaters: Some(tally.floaters().into()),
                ..Default::default()
            });
            if tally.thrown_out {
                out.push(self.seeds(of, &act, None, ("thrown out", tally.floated)));
            }
        }
        out
    }

    fn seeds(
        &mut self,
        of: &Of<'_, '_>,
        act: &Act<'_>,
        bag: Option<&BagId>,
        (sort, seeds): (&str, i64),
    ) -> trial::Entry {
        let about = About { bag, ..of.about() };
        let id = self.entry(act, about, ("trial seeds", ""), (Table::TrialSeeds, args![sort, seeds]));
        let (what, sort) = ("trial seeds".into(), Some(sort.to_owned()));
        trial::Entry { id, at: act.at.0, what, sort, seeds: Some(seeds), ..Default::default() }
    }
}

fn broken(broken: Broken) -> AppError {
    AppError::Internal(anyhow!("entry {} of a drawn club does not come out: {}", broken.entry, broken.why))
}
