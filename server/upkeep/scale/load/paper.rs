//! Bags and what is planted from them.

use super::super::trial::{Bag, Planted, TRAY};
use super::{Loader, Of, Table, broken};
use crate::args;
use crate::db::Arg;
use crate::db::ids::{At, BagId, PlantingId, TrayId};
use crate::error::AppError;
use crate::marks;
use crate::notebook::{About, Act, bag, planting, trial};
use anyhow::anyhow;

impl<'a> Loader<'a> {
    /// A bag with its looks, its closing and what was planted; gives what its trial has to know of it.
    pub(super) fn on_paper(&mut self, of: &Of<'a, '_>, drawn: &Bag) -> Result<trial::Entry, AppError> {
        let id = BagId(self.id());
        let act = self.act(of.owner, drawn.at);
        let to_paper = self.seeds(of, &act, Some(&id), ("to paper", drawn.seeds));
        let about = About { bag: Some(&id), ..of.about() };
        let row = (Table::BagSeeds, args!["on paper", drawn.seeds]);
        let entry = self.entry(&act, about, ("bag seeds", ""), row);
        let mut entries =
            vec![bag::Entry { seeds: Some(drawn.seeds), ..told(entry, &act, "bag seeds", "on paper") }];
        entries.push(self.moved(of, &act, about));
        entries.extend(self.looks(of, drawn, &id));
        if let Some(planted) = &drawn.planted {
            self.plant(of, &id, planted, &mut entries)?;
        }
        if let Some((at, seeds)) = drawn.given {
            let act = self.act(of.owner, at);
            let row = (Table::RootedEnds, args!["given", seeds]);
            let entry = self.entry(&act, About { packet: None, ..about }, ("rooted end", ""), row);
            entries.push(bag::Entry { seeds: Some(seeds), ..told(entry, &act, "rooted end", "given") });
        }
        let sums = bag::replay(&of.owner.0, of.drawn.began.0, &entries).map_err(broken)?;
        self.bag(of, &id, drawn.at, sums)?;
        Ok(to_paper)
    }

    fn moved(&mut self, of: &Of<'_, '_>, act: &Act<'_>, about: About<'_>) -> bag::Entry {
        let member = &self.club.members[of.drawn.member];
        let (place, warmth) = (member.place, member.warmth_c);
        let entry =
            self.entry(act, about, ("bag event", ""), (Table::BagEvents, args!["moved", place, warmth]));
        bag::Entry {
            place: Some(place.into()),
            warmth_c: Some(warmth),
            ..told(entry, act, "bag event", "moved")
        }
    }

    fn looks(&mut self, of: &Of<'a, '_>, drawn: &Bag, id: &BagId) -> Vec<bag::Entry> {
        let about = About { trial: Some(&of.trial), bag: Some(id), ..About::default() };
        let mut out = Vec::new();
        for l in &drawn.looks {
            let act = self.act(of.owner, l.at);
            let row = (Table::Looks, args![l.rooted, l.abnormal, l.dead]);
            let entry = self.entry(&act, about, ("look", ""), row);
            let (rooted, abnormal, dead) = (l.rooted, l.abnormal, l.dead);
            out.push(bag::Entry { rooted, abnormal, dead, ..told(entry, &act, "look", "") });
        }
        if let Some(c) = &drawn.closing {
            let act = self.act(of.owner, c.at);
            let row = args![c.ending(), c.fresh, 0_i64, c.dead, 0_i64, c.not_examined, 0_i64];
            let entry = self.entry(&act, about, ("closing", c.why()), (Table::Closings, row));
            let (fresh, dead, not_examined) = (c.fresh, c.dead, c.not_examined);
            out.push(bag::Entry { fresh, dead, not_examined, ..told(entry, &act, "closing", c.ending()) });
        }
        out
    }

    fn bag(&mut self, of: &Of<'_, '_>, id: &BagId, at: At, s: bag::Sums) -> Result<(), AppError> {
        let packet = self.packets.get_mut(&(of.drawn.member, of.drawn.packet));
        let packet = packet.ok_or_else(|| anyhow!("a bag has no packet"))?;
        let mark = marks::of_bag(&packet.mark, packet.bags);
        packet.bags += 1;
        let key = self.mark(&mark, "bag", &id.0, at);
        let state = args![
            id,
            &of.trial,
            of.owner,
            key,
            mark,
            false,
            s.on_paper_at,
            &s.place,
            s.warmth_c,
            s.weekly,
            s.in_doubt,
            s.voided
        ];
        let closed = args![s.looked_at, s.closed_at, &s.ending, 1_i64];
        self.rows.put(Table::Bags, [state, s.kept(), closed].concat());
        Ok(())
    }

    /// The member's one tray, made when it is first needed.
    fn tray(&mut self, of: &Of<'_, '_>) -> TrayId {
        let member = of.drawn.member;
        if let Some(tray) = &self.trays[member] {
            return tray.clone();
        }
        let id = TrayId(self.id());
        let (mark, at) = (format!("{} T1", self.club.members[member].letters), self.club.trays_made());
        let key = self.mark(&mark, "tray", &id.0, at);
        let row = args![&id, of.owner, key, mark, "", TRAY.0, TRAY.1, "", at, 1_i64];
        self.rows.put(Table::Trays, row);
        self.trays[member] = Some(id.clone());
        id
    }

    fn plant(
        &mut self,
        of: &Of<'a, '_>,
        bag_id: &BagId,
        planted: &Planted,
        entries: &mut Vec<bag::Entry>,
    ) -> Result<(), AppError> {
        let tray = self.tray(of);
        for n in 0..planted.seeds {
            let (id, cell) = (PlantingId(self.id()), planted.cell + n);
            let act = self.act(of.owner, planted.at);
            let about = About {
                trial: Some(&of.trial),
                bag: Some(bag_id),
                tray: Some(&tray),
                planting: Some(&id),
                ..About::default()
            };
            let entry =
                self.entry(&act, about, ("rooted end", ""), (Table::RootedEnds, args!["planted", 1_i64]));
            entries.push(bag::Entry { seeds: Some(1), ..told(entry, &act, "rooted end", "planted") });
            let found = self.outcome(of, About { trial: None, ..about }, planted.fate(n));
            let s = planting::replay(1, planted.at.0, &found).map_err(broken)?;
            if s.ended_at.is_none() {
                self.rows.put(Table::TrayCells, args![&tray, cell, &id]);
            }
            let place: Vec<Arg> = args![&id, &tray, cell, bag_id, false, planted.at, s.voided, 1_i64];
            let sums = args![s.up, s.lost, s.thinned, s.potted, s.ended_at, s.end_why];
            self.rows.put(Table::Plantings, [place, sums].concat());
        }
        Ok(())
    }

    fn outcome(
        &mut self,
        of: &Of<'a, '_>,
        about: About<'_>,
        fate: Option<(At, &'static str, &'static str)>,
    ) -> Vec<planting::Entry> {
        let Some((at, sort, why)) = fate else { return Vec::new() };
        let act = self.act(of.owner, at);
        let id = self.entry(&act, about, ("outcome", ""), (Table::Outcomes, args![sort, 1_i64, why]));
        vec![planting::Entry { id, at: at.0, sort: sort.into(), seeds: 1, why: why.into() }]
    }
}

/// An entry as the replay reads it, without its numbers.
fn told(id: String, act: &Act<'_>, what: &str, sort: &str) -> bag::Entry {
    bag::Entry { id, at: act.at.0, what: what.into(), sort: Some(sort.into()), ..bag::Entry::default() }
}
