use super::spread::{Alike, Cell, Spread};
use super::state::Horizon;
use super::{Bag, Options, Place, Row, cell, counts, enters, groups, horizons, rate, sorted};
use std::collections::BTreeMap;
use std::thread;

/// The bags that enter, by source, with their part in the rates.
pub struct Reading<'a> {
    bags: Vec<Bag<'a>>,
    horizons: BTreeMap<&'a str, Horizon>,
    cells: Vec<(Place<'a>, Vec<usize>, Cell<'a>)>,
}

/// One trial on paper at the chosen time: what the models are fitted to.
#[derive(Debug, Clone, Copy)]
pub struct Count<'a> {
    /// Kind, variety and source.
    pub place: Place<'a>,
    /// Whose trial.
    pub grower: &'a str,
    /// Name of the trial.
    pub trial: &'a str,
    /// Seeds rooted; a fraction where the curve stood in for a look.
    pub rooted: f64,
    /// Seeds on paper, less what open seeds leave unknown.
    pub seeds: f64,
}

impl<'a> Reading<'a> {
    /// Sorts the bags and reads them at the chosen time.
    #[must_use]
    pub fn new(bags: Vec<Bag<'a>>, options: &Options) -> Self {
        let bags = sorted(bags);
        let horizons = horizons(&bags, options);
        let mut places: BTreeMap<Place, Vec<usize>> = BTreeMap::new();
        for (i, bag) in bags.iter().enumerate().filter(|(_, b)| enters(b, &horizons[b.kind], options)) {
            places.entry((bag.kind, bag.variety, bag.source)).or_default().push(i);
        }
        let places: Vec<(Place, Vec<usize>)> = places.into_iter().collect();
        let of = options.of;
        let cells = side_by_side(&places, |(place, members)| {
            let chosen: Vec<&Bag> = members.iter().map(|i| &bags[*i]).collect();
            cell(&chosen, &horizons[place.0], of)
        });
        let cells = places.into_iter().zip(cells).map(|((place, members), cell)| (place, members, cell));
        Self { cells: cells.collect(), horizons, bags }
    }

    fn members(&self, members: &[usize]) -> Vec<&Bag<'a>> {
        members.iter().map(|i| &self.bags[*i]).collect()
    }

    /// The group of each source of a variety; see [`groups`].
    #[must_use]
    pub fn groups(&self) -> BTreeMap<Place<'a>, usize> {
        let members = self.cells.iter().flat_map(|(_, members, _)| self.members(members));
        groups(members.map(|b| (b.kind, b.variety, b.source, b.grower)))
    }

    /// The rows of the club table.
    #[must_use]
    pub fn rows(&self) -> Vec<Row> {
        let groups = self.groups();
        let spread = Spread::of_club(self.cells.iter().map(|c| &c.2));
        let row = |(place, members, cell): &(Place<'a>, Vec<usize>, Cell)| {
            let mut row = counts(&self.members(members), &self.horizons[place.0]);
            row.group = groups[place];
            rate(&mut row, cell, &spread);
            row
        };
        self.cells.iter().map(row).collect()
    }

    /// How alike the seeds of one bag are, over all sources with two trials or more.
    #[must_use]
    pub fn alike(&self) -> Alike {
        Alike::of_club(self.cells.iter().map(|c| &c.2))
    }

    /// The trials that enter, sorted by place and trial. Of a bag whose open seeds leave much unknown
    /// only the known part counts; a bag that the curve does not reach is left out.
    #[must_use]
    pub fn trials(&self) -> Vec<Count<'a>> {
        self.trials_of(|_| true)
    }

    /// The same of some of the bags only.
    #[must_use]
    pub fn trials_of(&self, which: impl Fn(&Bag) -> bool) -> Vec<Count<'a>> {
        let mut trials: Vec<Count> = Vec::new();
        for (place, members, cell) in &self.cells {
            let members = self.members(members);
            let known = members.iter().zip(cell.known()).filter(|(bag, _)| which(bag));
            for (bag, (rooted, seeds)) in known {
                match trials.last_mut().filter(|t| t.place == *place && t.trial == bag.trial) {
                    Some(trial) => (trial.rooted, trial.seeds) = (trial.rooted + rooted, trial.seeds + seeds),
                    None => {
                        let (place, grower, trial) = (*place, bag.grower, bag.trial);
                        trials.push(Count { place, grower, trial, rooted, seeds });
                    }
                }
            }
        }
        trials.retain(|t| t.seeds > 0.0);
        trials
    }
}

/// Fewer sources than this are not worth a second thread.
const FEW: usize = 64;
const MOST_THREADS: usize = 4;

/// `f` of every item, in their order, on several processors: each curve stands alone.
fn side_by_side<T: Sync, R: Send>(items: &[T], f: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let threads = thread::available_parallelism().map_or(1, |n| n.get().min(MOST_THREADS));
    if threads == 1 || items.len() < FEW {
        return items.iter().map(f).collect();
    }
    thread::scope(|scope| {
        let f = &f;
        let every =
            |first: usize| move || items.iter().skip(first).step_by(threads).map(f).collect::<Vec<R>>();
        let running: Vec<_> = (0..threads).map(|first| scope.spawn(every(first))).collect();
        let join = |thread: thread::ScopedJoinHandle<'_, Vec<R>>| {
            thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        };
        let mut parts: Vec<_> = running.into_iter().map(|thread| join(thread).into_iter()).collect();
        (0..items.len()).filter_map(|i| parts[i % threads].next()).collect()
    })
}
