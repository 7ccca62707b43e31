//! Balanced designs that can be written down: complete blocks, all subsets, cyclic difference families
//! (Bose 1939, Annals of Eugenics 9:353-399), lines of affine planes, and what follows from these.

const MOST_SUBSETS: usize = 200;
const MOST_TRIES: usize = 100_000;

/// A balanced design; `None` where none of these is one.
pub fn blocks(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    if each == lots {
        return Some(vec![(0..lots).collect(); growers]);
    }
    let once = (1..=growers).filter(|n| growers.is_multiple_of(*n)).find_map(|n| single(lots, n, each))?;
    Some(once.iter().cycle().take(growers).cloned().collect())
}

/// How many growers any two lots share in a balanced design; `None` where the counts do not come out whole.
pub fn shared(lots: usize, growers: usize, each: usize) -> Option<usize> {
    let bags = growers * each;
    let pairs = bags / lots * (each - 1);
    (bags.is_multiple_of(lots) && pairs.is_multiple_of(lots - 1)).then(|| pairs / (lots - 1))
}

fn single(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    shared(lots, growers, each)?;
    let rest = lots - each;
    direct(lots, growers, each).or_else(|| {
        let left_out = direct(lots, growers, rest).filter(|_| rest < each)?;
        let others = |block: &Vec<usize>| (0..lots).filter(|lot| !block.contains(lot)).collect();
        Some(left_out.iter().map(others).collect())
    })
}

fn direct(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    subsets(lots, growers, each)
        .or_else(|| affine(lots, growers, each))
        .or_else(|| Family::new(lots, growers, each)?.blocks())
}

/// Every subset of `each` lots, where there are as many as growers.
fn subsets(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..each {
        let longer = |s: &Vec<usize>| {
            let from = s.last().map_or(0, |last| last + 1);
            (from..lots).map(|lot| [s.as_slice(), &[lot]].concat()).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(longer).collect();
        if all.len() > MOST_SUBSETS * lots {
            return None;
        }
    }
    (all.len() == growers).then_some(all)
}

/// The lines of the affine plane over the integers modulo a prime `each`.
fn affine(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    let q = each;
    let prime = q > 1 && (2..q).all(|d| !q.is_multiple_of(d));
    if !prime || lots != q * q || growers != q * q + q {
        return None;
    }
    let sloped = (0..q).flat_map(|a| (0..q).map(move |b| (a, b)));
    let sloped = sloped.map(|(a, b)| (0..q).map(|x| x * q + (a * x + b) % q).collect());
    let upright = (0..q).map(|x| (0..q).map(|y| x * q + y).collect());
    Some(sloped.chain(upright).collect())
}

/// Base blocks whose differences modulo `lots` are each there equally often; moved round they are a design.
struct Family {
    lots: usize,
    each: usize,
    bases: usize,
    shared: usize,
    counts: Vec<usize>,
    found: Vec<Vec<usize>>,
    tries: usize,
}

impl Family {
    fn new(lots: usize, growers: usize, each: usize) -> Option<Self> {
        let shared = shared(lots, growers, each).filter(|_| each > 1 && growers.is_multiple_of(lots))?;
        let (bases, counts) = (growers / lots, vec![0; lots]);
        Some(Self { lots, each, bases, shared, counts, found: vec![vec![0]], tries: 0 })
    }

    fn blocks(mut self) -> Option<Vec<Vec<usize>>> {
        if !self.complete() {
            return None;
        }
        let (lots, bases) = (self.lots, self.found);
        let moved = |base: &Vec<usize>, by| base.iter().map(|lot| (lot + by) % lots).collect();
        Some(bases.iter().flat_map(|base| (0..lots).map(move |by| moved(base, by))).collect())
    }

    /// Fills the last base block, then the next; takes back what leads nowhere.
    fn complete(&mut self) -> bool {
        let base = self.found.last().cloned().unwrap_or_default();
        if base.len() == self.each {
            if self.found.len() == self.bases {
                return true;
            }
            self.found.push(vec![0]);
            let done = self.complete();
            if !done {
                self.found.pop();
            }
            return done;
        }
        let from = base.last().map_or(0, |last| last + 1);
        for lot in from..self.lots {
            self.tries += 1;
            if self.tries > MOST_TRIES {
                return false;
            }
            if self.put(&base, lot) && self.complete() {
                return true;
            }
            self.take(&base, lot);
        }
        false
    }

    fn differences(&self, base: &[usize], lot: usize) -> Vec<usize> {
        base.iter().flat_map(|other| [lot - other, self.lots - (lot - other)]).collect()
    }

    /// Whether no difference is there too often with `lot` added.
    fn put(&mut self, base: &[usize], lot: usize) -> bool {
        for d in self.differences(base, lot) {
            self.counts[d] += 1;
        }
        if let Some(last) = self.found.last_mut() {
            last.push(lot);
        }
        self.counts.iter().all(|n| *n <= self.shared)
    }

    fn take(&mut self, base: &[usize], lot: usize) {
        for d in self.differences(base, lot) {
            self.counts[d] -= 1;
        }
        if let Some(last) = self.found.last_mut() {
            last.pop();
        }
    }
}
