//! Where the random effects stand in one list, and which of them meet: nested ones first, from lots
//! up to varieties, then the crossed ones: growers, clubs and sources.

use super::design::Trial;
use super::term::Term;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// The effects of a design and who meets whom.
#[derive(Debug, Clone)]
pub struct Places {
    /// Each term with the range of its effects.
    pub terms: Vec<(Term, Range<usize>)>,
    /// The nested effects are 0 to this.
    pub nested: usize,
    /// Number of effects.
    pub effects: usize,
    /// The effects that meet in each pair, one of each term; row-major.
    pub meet: Vec<usize>,
    /// For each pair, the place in `links` of each two of its effects of which the first is nested.
    pub met: Vec<usize>,
    /// Of each nested effect, its range in `links`.
    pub rows: Vec<Range<usize>>,
    /// Later effects that each nested effect meets, ascending: first those it lies in.
    pub links: Vec<usize>,
    /// The place of the same effect among the links of the row's first.
    pub above: Vec<usize>,
}

impl Places {
    /// `terms` with their number of effects, in the order of [`Term::ALL`]; `meet` holds their numbers
    /// within each term, row-major by pair.
    pub fn new(terms: &[(Term, usize)], mut meet: Vec<usize>) -> Self {
        let mut effects = 0;
        let mut nested = 0;
        let range = |&(term, size): &(Term, usize)| {
            effects += size;
            nested += if term.is_nested() { size } else { 0 };
            (term, effects - size..effects)
        };
        let terms: Vec<(Term, Range<usize>)> = terms.iter().map(range).collect();
        for pair in meet.chunks_mut(terms.len()) {
            pair.iter_mut().zip(&terms).for_each(|(effect, (_, range))| *effect += range.start);
        }
        let mut sets = vec![BTreeSet::new(); nested];
        each_two(&meet, &terms, |effect, later| {
            sets[effect].insert(later);
        });
        let mut places = Self {
            terms,
            nested,
            effects,
            met: Vec::new(),
            rows: Vec::new(),
            links: Vec::new(),
            above: Vec::new(),
            meet: Vec::new(),
        };
        for set in sets {
            places.rows.push(places.links.len()..places.links.len() + set.len());
            places.links.extend(set);
        }
        let mut met = Vec::new();
        each_two(&meet, &places.terms, |effect, later| met.push(places.find(effect, later)));
        places.above = places.rows.iter().flat_map(|row| places.in_first(row)).collect();
        Self { met, meet, ..places }
    }

    fn find(&self, effect: usize, later: usize) -> usize {
        let row = self.rows[effect].clone();
        row.start + self.links[row].partition_point(|link| *link < later)
    }

    fn in_first(&self, row: &Range<usize>) -> Vec<usize> {
        let links = &self.links[row.clone()];
        let first = links.first().copied().filter(|first| *first < self.nested);
        links.iter().map(|link| first.map_or(0, |first| self.find(first, *link))).collect()
    }

    /// Where the link at `place` of one row stands in the row of the effect that is `steps` further
    /// out: 1 for the effect that the row's own lies in, 2 for the one around that.
    pub fn climbed(&self, place: usize, steps: usize) -> usize {
        (0..steps).fold(place, |place, _| self.above[place])
    }

    /// How many terms there are, and effects meet in each pair.
    pub fn width(&self) -> usize {
        self.terms.len()
    }

    /// Number of crossed effects.
    pub fn crossed(&self) -> usize {
        self.effects - self.nested
    }

    /// The range of a term's effects; empty where the design has no such term.
    pub fn of(&self, term: Term) -> Range<usize> {
        self.terms.iter().find(|(of, _)| *of == term).map_or(0..0, |(_, range)| range.clone())
    }

    /// For each effect the sum of `by` over the pairs it takes part in.
    pub fn sums(&self, by: &[f64]) -> Vec<f64> {
        let mut sums = vec![0.0; self.effects];
        for (pair, v) in self.meet.chunks(self.width()).zip(by) {
            pair.iter().for_each(|effect| sums[*effect] += v);
        }
        sums
    }

    /// For each pair the sum of its effects' values.
    pub fn spread(&self, of: &[f64]) -> Vec<f64> {
        self.meet.chunks(self.width()).map(|pair| pair.iter().map(|effect| of[*effect]).sum()).collect()
    }
}

fn each_two(meet: &[usize], terms: &[(Term, Range<usize>)], mut f: impl FnMut(usize, usize)) {
    for pair in meet.chunks(terms.len()) {
        for (i, effect) in pair.iter().enumerate().filter(|(i, _)| terms[*i].0.is_nested()) {
            pair[i + 1..].iter().for_each(|later| f(*effect, *later));
        }
    }
}

/// The names of each term's effects in alphabetical order, and the pairs of the trials.
pub struct Named {
    /// Of each trial.
    pub pair: Vec<usize>,
    /// Of each pair, the number of its cell.
    pub cell_of: Vec<usize>,
    pub cells: Vec<String>,
    pub varieties: Vec<String>,
    pub growers: Vec<String>,
    /// Empty where all are of one.
    pub clubs: Vec<String>,
    pub sources: Vec<String>,
    pub places: Places,
}

impl Named {
    /// `trials` sorted by cell, lot, grower and club. A cell lies in the variety and has the source of its
    /// last trial.
    pub fn of(trials: &[&Trial]) -> Self {
        let (growers, grower_at) = numbered(trials.iter().map(|t| t.grower));
        let (varieties, variety_at) = numbered(trials.iter().map(|t| t.variety));
        let (cells, cell_at) = numbered(trials.iter().map(|t| t.cell));
        let with_source = trials.iter().any(|t| t.source.is_some());
        let (sources, source_at) =
            numbered(trials.iter().filter(|_| with_source).map(|t| t.source.unwrap_or_default()));
        let last: BTreeMap<&str, &Trial> = trials.iter().map(|t| (t.cell, *t)).collect();
        let (mut clubs, club_at) = numbered(trials.iter().map(|t| t.club.unwrap_or_default()));
        let with_club = clubs.len() > 1;
        clubs.retain(|_| with_club);
        let with_lot = trials.iter().any(|t| t.lot.is_some());
        let (mut lots, mut before, mut pair) = (0, None, Vec::with_capacity(trials.len()));
        let (mut cell_of, mut meet) = (Vec::new(), Vec::new());
        for t in trials {
            let here = (t.cell, t.lot, t.grower, t.club);
            let lot = |(cell, lot, _, _): (_, _, _, _)| (cell, lot);
            lots += usize::from(before.map(lot) != Some(lot(here)));
            if before.replace(here) != Some(here) {
                let (cell, of) = (cell_at[t.cell], last[t.cell]);
                cell_of.push(cell);
                meet.extend(with_lot.then(|| lots - 1));
                meet.extend([cell, variety_at[of.variety], grower_at[t.grower]]);
                meet.extend(with_club.then(|| club_at[t.club.unwrap_or_default()]));
                meet.extend(with_source.then(|| source_at[of.source.unwrap_or_default()]));
            }
            pair.push(cell_of.len() - 1);
        }
        let mut terms = vec![(Term::Lot, lots), (Term::Cell, cells.len()), (Term::Variety, varieties.len())];
        terms.extend([
            (Term::Grower, growers.len()),
            (Term::Club, clubs.len()),
            (Term::Source, sources.len()),
        ]);
        terms.retain(|(term, _)| match term {
            Term::Lot => with_lot,
            Term::Club => with_club,
            Term::Source => with_source,
            _ => true,
        });
        let places = Places::new(&terms, meet);
        Self { pair, cell_of, cells, varieties, growers, clubs, sources, places }
    }
}

fn numbered<'a>(names: impl Iterator<Item = &'a str>) -> (Vec<String>, BTreeMap<&'a str, usize>) {
    let mut at: BTreeMap<&str, usize> = names.map(|name| (name, 0)).collect();
    at.values_mut().enumerate().for_each(|(i, place)| *place = i);
    (at.keys().map(|name| (*name).to_owned()).collect(), at)
}
