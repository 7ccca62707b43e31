//! A whole season put together: every line with its rates, days, packets and promises. A fixed number of questions to
//! the database, however many lines there are.

use super::model::{Entry, Line, Plan, Take};
use super::rate::Club;
use super::reckon::{Reckoned, With};
use super::store;
use crate::app::App;
use crate::db::ids::{LineId, PacketId, PromiseId};
use crate::error::AppError;
use crate::outlook::{self, Outlook, Sought};
use crate::rates::known::{self, Grown, Known};
use crate::rates::standing::{self, Kept};
use crate::stock::model::Packet;
use crate::stock::promises::{self, Promise};
use crate::stock::store as stock;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A member's plan with everything reckoned.
pub struct Season {
    pub plan: Plan,
    /// Every plan of the member, the newest first.
    pub plans: Vec<Plan>,
    /// By the day they should be ready.
    pub entries: Vec<Entry>,
    /// The member's packets that can serve a plan, in the order to use them.
    pub packets: Vec<Packet>,
    /// Why there are no adjusted rates; empty where there are.
    pub unsettled: &'static str,
    /// Whether every line's days could be asked of the club's bags.
    pub asked: bool,
    pub today: NaiveDate,
}

/// What the club knows, owned, so that it can be reckoned with on a thread of its own.
struct Knowledge {
    kept: Option<Arc<Kept>>,
    rates: Vec<Known>,
    grown: Vec<Grown>,
}

impl Season {
    /// The plan that `query` names, else the newest; `None` where the member has none.
    pub async fn read(
        app: &App,
        chrome: &Chrome,
        query: &[(String, String)],
    ) -> Result<Option<Self>, AppError> {
        let named = query.iter().find(|(name, v)| name == "plan" && !v.is_empty()).map(|(_, v)| v.as_str());
        let mut conn = app.db.read().await?;
        let plans = store::plans(&mut conn, &chrome.member.id).await?;
        let plan = match named {
            Some(id) => Some(plans.iter().find(|p| p.id.0 == id).cloned().ok_or(AppError::NotFound)?),
            None => plans.first().cloned(),
        };
        drop(conn);
        match plan {
            Some(plan) => Ok(Some(Self::of(app, chrome, plan, plans).await?)),
            None => Ok(None),
        }
    }

    /// The plan of a line of the member's.
    pub async fn of_line(app: &App, chrome: &Chrome, id: &LineId) -> Result<(Self, usize), AppError> {
        let line = store::line(&mut app.db.read().await?, &chrome.member.id, id).await?;
        let query = [("plan".to_owned(), line.plan_id.0)];
        let season = Self::read(app, chrome, &query).await?.ok_or(AppError::NotFound)?;
        let place = season.entries.iter().position(|e| e.line.id == *id).ok_or(AppError::NotFound)?;
        Ok((season, place))
    }

    async fn of(app: &App, chrome: &Chrome, plan: Plan, plans: Vec<Plan>) -> Result<Self, AppError> {
        let (zone, member) = (chrome.member.zone(), &chrome.member.id);
        let mut conn = app.db.read().await?;
        let lines = store::lines(&mut conn, member, &plan.id).await?;
        let promised = promises::of_plan(&mut conn, &plan.id).await?;
        let gives = promises::gives(&promises::open(&mut conn, member).await?);
        let packets = usable(stock::packets(&mut conn, member).await?);
        drop(conn);
        let known = Knowledge {
            kept: standing::latest(app, false).await?,
            rates: known::rates(app, zone, chrome.now).await?,
            grown: known::all_grown(app, chrome.now).await?,
        };
        let unsettled = standing::settled(known.kept.as_deref()).err().unwrap_or_default();
        let sought = lines.iter().map(|line| sought(line, &plan)).collect();
        let outlooks = outlook::paces(app, zone, sought).await;
        let asked = outlooks.iter().all(|(_, ready)| *ready);
        let us = chrome.member.us();
        let work = {
            let (plan, packets) = (plan.clone(), packets.clone());
            move || entries(&plan, (lines, promised, gives, outlooks), &packets, &known, us)
        };
        let entries = away(work).await?;
        let today = chrome.now.day(zone);
        Ok(Self { plan, plans, entries, packets, unsettled, asked, today })
    }

    /// Packets of the line's variety and source, in the order to use them.
    pub fn packets_for<'s>(&'s self, line: &'s Line) -> impl Iterator<Item = &'s Packet> {
        self.packets.iter().filter(|p| serves(p, line))
    }
}

/// Packets that can serve a plan, oldest seed first; a doubtful cross is not pooled with the named variety, and a blind
/// packet has no name.
fn usable(packets: Vec<Packet>) -> Vec<Packet> {
    let mut found: Vec<Packet> = packets
        .into_iter()
        .filter(|p| !p.blind && !p.doubtful_cross && (p.balance > 0 || p.promised > 0))
        .collect();
    found.sort_by_key(|p| if p.year == 0 { i64::MAX } else { p.year });
    found
}

pub fn serves(packet: &Packet, line: &Line) -> bool {
    packet.kind_id == line.kind_id
        && packet.counts_as == line.variety
        && line.source.as_ref().is_none_or(|source| *source == packet.source_counts_as)
}

fn sought(line: &Line, plan: &Plan) -> Sought {
    Sought {
        kind_id: line.kind_id.0.clone(),
        variety: line.variety.clone(),
        warmth_c: line.warmth_c.unwrap_or(plan.warmth_c),
    }
}

/// Seeds that the packets can give to each promise that holds.
type Gives = BTreeMap<PromiseId, i64>;
type Read = (Vec<Line>, Vec<Promise>, Gives, Vec<(Option<Arc<Outlook>>, bool)>);

fn entries(
    plan: &Plan,
    (lines, promised, gives, outlooks): Read,
    packets: &[Packet],
    known: &Knowledge,
    us: bool,
) -> Vec<Entry> {
    let mut of_line: BTreeMap<LineId, Vec<Promise>> = BTreeMap::new();
    for promise in promised {
        of_line.entry(promise.line_id.clone()).or_default().push(promise);
    }
    let settled = standing::settled(known.kept.as_deref());
    let club = Club {
        standing: settled.as_ref().ok().map(|kept| &kept.standing),
        unsettled: settled.as_ref().err().copied().unwrap_or_default(),
        rates: &known.rates,
        grown: &known.grown,
    };
    let mut entries: Vec<Entry> = lines
        .into_iter()
        .zip(outlooks)
        .map(|(line, (outlook, _))| {
            let promises = of_line.remove(&line.id).unwrap_or_default();
            let place = (line.kind.as_str(), line.variety.as_str(), source(&line, packets));
            let with = With {
                plan,
                rooting: club.rooting(place),
                growing: club.growing(place),
                outlook: outlook.as_deref(),
                promised: standing_promise(&promises),
                us,
            };
            let reckoned = Reckoned::of(&line, with);
            Entry { line, promises, reckoned, takes: Vec::new(), short: 0 }
        })
        .collect();
    allot(&mut entries, packets, &gives);
    entries
}

/// The source that a line's seed is from: the one it names, else that of the packet to use first.
fn source<'s>(line: &'s Line, packets: &'s [Packet]) -> Option<&'s str> {
    let first = || packets.iter().find(|p| serves(p, line)).map(|p| p.source_counts_as.as_str());
    line.source.as_deref().or_else(first)
}

/// Seeds promised or started, and the first day of them.
fn standing_promise(promises: &[Promise]) -> Option<(i64, NaiveDate)> {
    let standing = || promises.iter().filter(|r| r.holds() || r.is_started());
    let start = standing().map(|r| r.start_on).min()?;
    Some((standing().map(|r| r.seeds).sum(), start))
}

/// Says from which packets each line takes its seeds: what they can give of what is promised, and for lines not yet accepted what is still
/// free, in the order they start.
fn allot(entries: &mut [Entry], packets: &[Packet], gives: &Gives) {
    let mut free: BTreeMap<&PacketId, i64> = packets.iter().map(|p| (&p.id, p.free())).collect();
    let mut order: Vec<usize> = (0..entries.len()).collect();
    order.sort_by_key(|i| entries[*i].reckoned.start);
    for i in order {
        let entry = &mut entries[i];
        if !entry.is_open() {
            (entry.takes, entry.short) = promised(entry, gives);
            continue;
        }
        let Some(mut wanted) = entry.reckoned.seeds else { continue };
        for packet in packets.iter().filter(|p| serves(p, &entry.line)) {
            let left = free.entry(&packet.id).or_default();
            let seeds = wanted.min(*left);
            if seeds > 0 {
                *left -= seeds;
                wanted -= seeds;
                entry.takes.push(Take { packet: packet.id.clone(), mark: packet.mark.clone(), seeds });
            }
        }
        entry.short = wanted;
    }
}

/// What the packets give of a line's standing promises, and how many of the seeds are short.
fn promised(entry: &Entry, gives: &Gives) -> (Vec<Take>, i64) {
    let (mut takes, mut short) = (Vec::new(), 0);
    for r in entry.standing() {
        let seeds = if r.holds() { gives.get(&r.id).copied().unwrap_or(r.seeds) } else { r.seeds };
        short += r.seeds - seeds;
        if seeds > 0 {
            takes.push(Take { packet: r.packet_id.clone(), mark: r.mark.clone(), seeds });
        }
    }
    (takes, short)
}
