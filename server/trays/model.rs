//! What a tray and a planting are, and how they are said.

use crate::db::FromRow;
use crate::db::ids::{At, BagId, PlantingId, TrayId};
use crate::trays::cells::Geometry;

/// A tray of the member who asks.
#[derive(Debug, Clone, FromRow)]
pub struct Tray {
    pub id: TrayId,
    pub mark: String,
    pub mark_key: String,
    pub name: String,
    pub tray_rows: i64,
    pub tray_cols: i64,
    pub place: String,
    pub made_at: At,
    pub finished_at: Option<At>,
    pub planted: i64,
}

impl Tray {
    pub fn geometry(&self) -> Geometry {
        Geometry { rows: self.tray_rows, cols: self.tray_cols }
    }

    pub fn free(&self) -> i64 {
        self.geometry().cells() - self.planted
    }

    /// `JB T1, big one, 60 of 72 cells free, propagator`
    pub fn words(&self) -> String {
        let cells = t!("trays-cells-free-of", free = self.free(), n = self.geometry().cells());
        let parts = [self.mark.as_str(), self.name.as_str(), cells.as_str(), self.place.as_str()];
        parts.iter().filter(|p| !p.is_empty()).copied().collect::<Vec<_>>().join(", ")
    }

    /// `JB T1, 6 cells across, 12 down`
    pub fn grid_words(&self) -> String {
        t!("trays-tray-across-down", tray = self.mark, across = self.tray_cols, down = self.tray_rows)
    }
}

/// The seeds in one cell.
#[derive(Debug, Clone, FromRow)]
pub struct Planting {
    pub id: PlantingId,
    pub tray_id: TrayId,
    pub cell: i64,
    pub bag_id: BagId,
    pub bag: String,
    pub variety: String,
    pub source: String,
    pub unrooted: bool,
    pub planted_at: At,
    pub seeds: i64,
    pub up: i64,
    pub lost: i64,
    pub thinned: i64,
    pub potted: i64,
    pub ended_at: Option<At>,
    pub end_why: String,
    /// Seeds noted as never having come up.
    pub never: i64,
    /// Whether it is in its cell now.
    pub here: bool,
}

impl Planting {
    /// Seeds not lost, thinned or potted on yet.
    pub fn left(&self) -> i64 {
        self.seeds - self.lost - self.thinned - self.potted
    }

    /// Seeds of which it is not known whether they came up.
    pub fn may_come(&self) -> i64 {
        (self.seeds - self.up - self.never).max(0)
    }

    /// Seedlings that are up and still there, as far as is noted.
    pub fn standing(&self) -> i64 {
        (self.up - self.thinned - self.potted).min(self.left()).max(0)
    }

    /// Whether nothing was noted yet.
    pub fn untouched(&self) -> bool {
        self.ended_at.is_none() && self.up + self.lost + self.thinned + self.potted == 0
    }

    /// The state in a word or two: `waiting, 2 seeds`, `2 of 3 up`, `lost: damped off`, `potted on`.
    pub fn state(&self) -> String {
        if self.ended_at.is_some() {
            return self.ending();
        }
        if self.untouched() {
            return match self.seeds {
                1 => t!("trays-waiting").to_owned(),
                n => t!("trays-waiting-seeds", n = n),
            };
        }
        let parts = [
            (self.up > 0).then(|| match self.seeds {
                1 => t!("trays-up").to_owned(),
                n => t!("trays-so-many-up", up = self.up, n = n),
            }),
            (self.lost > 0).then(|| t!("trays-so-many-lost", n = self.lost)),
            (self.thinned > 0).then(|| t!("trays-so-many-thinned", n = self.thinned)),
            (self.potted > 0).then(|| t!("trays-so-many-potted-on", n = self.potted)),
        ];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    fn ending(&self) -> String {
        match (self.potted, self.lost == self.seeds) {
            (1.., _) if self.seeds == 1 => t!("trays-potted-on").to_owned(),
            (1.., _) => t!("trays-so-many-potted-on", n = self.potted),
            (_, true) => t!("trays-lost-why", why = reason(&self.end_why)),
            _ => t!("trays-ended-why", why = reason(&self.end_why)),
        }
    }
}

/// Why seeds or seedlings are lost; "other" asks for words.
pub const LOST: [&str; 6] = ["damped off", "did not come up", "eaten", "broke", "dried", "other"];

/// Why plantings end where nobody said.
pub const REPLANTED: &str = "replanted";
pub const EMPTIED: &str = "tray emptied";

/// How a reason reads: a usual one in words of ours, another one as it was written.
pub fn reason(why: &str) -> &str {
    match why {
        "damped off" => t!("trays-why-damped-off"),
        NEVER_UP => t!("trays-why-did-not-come-up"),
        "eaten" => t!("trays-why-eaten"),
        "broke" => t!("trays-why-broke"),
        "dried" => t!("trays-why-dried"),
        "other" => t!("trays-why-other"),
        REPLANTED => t!("trays-why-replanted"),
        EMPTIED => t!("trays-why-tray-emptied"),
        own => own,
    }
}

/// The reason that also says something about the seeds: they were never seen above ground.
pub use crate::notebook::planting::NEVER_UP;

/// One of the outcomes of seeds in a cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// `up`, `lost`, `thinned`, `potted on` or `ended`.
    pub sort: &'static str,
    pub seeds: i64,
    pub why: String,
}

impl Found {
    pub fn new(sort: &'static str, seeds: i64, why: &str) -> Self {
        Self { sort, seeds, why: why.to_owned() }
    }
}

/// What is thinned or potted on has come up: notes as up what was not noted so far, first.
pub fn with_up(p: &Planting, found: &[Found]) -> Vec<Found> {
    let sum = |sort: &str| found.iter().filter(|f| f.sort == sort).map(|f| f.seeds).sum::<i64>();
    let out = p.thinned + p.potted + sum("thinned") + sum("potted on");
    let missing = out - p.up - sum("up");
    let first = (missing > 0).then(|| Found::new("up", missing, ""));
    let mut all: Vec<Found> = found.iter().filter(|f| f.sort == "up").cloned().collect();
    all.extend(first);
    all.extend(found.iter().filter(|f| f.sort != "up").cloned());
    all
}

/// It was not noted how many came up.
#[derive(Debug, PartialEq, Eq)]
pub struct Unnoted;

/// What one ticked cell of a tray gets for `sort`, if anything is left of it; an error where a guess would
/// be needed.
pub fn for_ticked(p: &Planting, sort: &'static str, why: &str) -> Result<Option<Found>, Unnoted> {
    let seeds = match sort {
        "up" => p.may_come().min(p.left()),
        "lost" if why == NEVER_UP => p.may_come().min(p.left()),
        "lost" => p.left(),
        _ if p.up == 0 && p.seeds > 1 => return Err(Unnoted),
        _ if p.up == 0 => p.left(),
        _ => p.standing(),
    };
    Ok((seeds > 0).then(|| Found::new(sort, seeds, why)))
}

/// A tray with plantings that nothing was noted of for a week or more.
#[derive(Debug, Clone, FromRow)]
pub struct Waiting {
    pub id: TrayId,
    pub mark: String,
    pub name: String,
    pub place: String,
    /// How many cells wait.
    pub cells: i64,
    /// When the first of them was planted.
    pub since: At,
}

/// One bag's seeds in a tray.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    pub bag_id: BagId,
    pub bag: String,
    pub variety: String,
    pub source: String,
    pub cells: Vec<i64>,
    pub seeds: i64,
    pub first: At,
    pub last: At,
}

/// The lots in the cells now, in the order of their first cell.
pub fn lots<'a>(plantings: impl Iterator<Item = &'a Planting>) -> Vec<Lot> {
    let mut lots: Vec<Lot> = Vec::new();
    let mut here: Vec<&Planting> = plantings.filter(|p| p.here).collect();
    here.sort_by_key(|p| p.cell);
    for p in here {
        if let Some(lot) = lots.iter_mut().find(|l| l.bag_id == p.bag_id) {
            lot.cells.push(p.cell);
            lot.seeds += p.seeds;
            lot.first = lot.first.min(p.planted_at);
            lot.last = lot.last.max(p.planted_at);
            continue;
        }
        lots.push(Lot {
            bag_id: p.bag_id.clone(),
            bag: p.bag.clone(),
            variety: p.variety.clone(),
            source: p.source.clone(),
            cells: vec![p.cell],
            seeds: p.seeds,
            first: p.planted_at,
            last: p.planted_at,
        });
    }
    lots
}

#[cfg(test)]
mod tests {
    use super::*;

    fn planting(seeds: i64, up: i64) -> Planting {
        Planting {
            id: PlantingId("p".into()),
            tray_id: TrayId("t".into()),
            cell: 1,
            bag_id: BagId("b".into()),
            bag: "JB 1 a".into(),
            variety: String::new(),
            source: String::new(),
            unrooted: false,
            planted_at: At(0),
            seeds,
            up,
            lost: 0,
            thinned: 0,
            potted: 0,
            ended_at: None,
            end_why: String::new(),
            never: 0,
            here: true,
        }
    }

    #[test]
    fn states_are_words_with_numbers() {
        assert_eq!(planting(1, 0).state(), "waiting");
        assert_eq!(planting(2, 0).state(), "waiting, 2 seeds");
        assert_eq!(planting(1, 1).state(), "up");
        assert_eq!(Planting { thinned: 1, ..planting(3, 2) }.state(), "2 of 3 up, 1 thinned");
        let gone =
            Planting { lost: 1, ended_at: Some(At(9)), end_why: "damped off".into(), ..planting(1, 0) };
        assert_eq!(gone.state(), "lost: damped off");
        assert_eq!(Planting { lost: 0, end_why: "replanted".into(), ..gone }.state(), "ended: replanted");
    }

    #[test]
    fn potted_on_has_come_up() {
        let found = [Found::new("potted on", 1, "")];
        assert_eq!(with_up(&planting(1, 1), &found), found);
        assert_eq!(with_up(&planting(3, 0), &found)[0], Found::new("up", 1, ""));
    }

    #[test]
    fn a_ticked_cell_never_guesses() {
        assert_eq!(for_ticked(&planting(3, 1), "up", ""), Ok(Some(Found::new("up", 2, ""))));
        assert_eq!(for_ticked(&planting(1, 1), "up", ""), Ok(None));
        assert_eq!(for_ticked(&planting(3, 2), "potted on", ""), Ok(Some(Found::new("potted on", 2, ""))));
        assert!(for_ticked(&planting(3, 0), "potted on", "").is_err());
        let some = Planting { lost: 1, never: 1, ..planting(3, 1) };
        assert_eq!(for_ticked(&some, "lost", NEVER_UP), Ok(Some(Found::new("lost", 1, NEVER_UP))));
    }
}
