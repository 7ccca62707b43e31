//! The exchange search: lots change places between growers, worse for a while where chance allows it
//! (annealing), until all pairs meet as evenly as can be. The seed is fixed and the work bounded.

use super::dice::Dice;
use super::efficiency;

const SEED: u64 = 20_260_302;
const ROUNDS: usize = 8;
const MOST_STEPS: usize = 20_000;
/// Bounds steps x lots of a grower in one round.
const MOST_WORK: usize = 300_000;

/// The most even linked design found; `None` where no linked one was.
pub fn blocks(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    let start = start(lots, growers, each)?;
    let goal = most_even(lots, growers, each);
    let mut dice = Dice::new(SEED);
    let mut best = Found::new(lots, start.clone());
    for _ in 0..ROUNDS {
        let found = Found::new(lots, Exchange::new(lots, start.clone()).anneal(&mut dice, goal));
        if found.beats(&best) {
            best = found;
        }
        if best.score == goal && best.balanced(lots) {
            break;
        }
    }
    Some(best.blocks)
}

struct Found {
    blocks: Vec<Vec<usize>>,
    score: i64,
    efficiency: f64,
}

impl Found {
    fn new(lots: usize, blocks: Vec<Vec<usize>>) -> Self {
        let efficiency = efficiency::average(lots, &blocks);
        Self { score: Exchange::new(lots, blocks.clone()).score(), blocks, efficiency }
    }

    fn beats(&self, other: &Self) -> bool {
        let linked = self.efficiency > 0.0;
        linked
            && (self.score < other.score || self.score == other.score && self.efficiency > other.efficiency)
    }

    fn balanced(&self, lots: usize) -> bool {
        let each = self.blocks.first().map_or(2, Vec::len);
        super::known::shared(lots, self.blocks.len(), each).is_some()
    }
}

/// The sum of squared meetings where all pairs meet as evenly as the numbers allow.
fn most_even(lots: usize, growers: usize, each: usize) -> i64 {
    let (meetings, pairs) = (growers * each * (each - 1) / 2, lots * (lots - 1) / 2);
    let (low, more) = (meetings / pairs, meetings % pairs);
    ((pairs - more) * low * low + more * (low + 1) * (low + 1)) as i64
}

/// The lots in turn, which is even; where that leaves some apart, a chain of growers, each sharing a lot with the
/// one before, evened out.
fn start(lots: usize, growers: usize, each: usize) -> Option<Vec<Vec<usize>>> {
    let stepping = |by: usize| {
        let block = move |g: usize| (0..each).map(|i| (g * by + i) % lots).collect();
        (0..growers).map(block).collect::<Vec<Vec<usize>>>()
    };
    let mut blocks = stepping(each);
    if linked(lots, &blocks) {
        return Some(blocks);
    }
    blocks = stepping(each - 1);
    while let Some(better) = evened(lots, &blocks) {
        blocks = better;
    }
    linked(lots, &blocks).then_some(blocks)
}

/// One step toward every lot being tested equally often, with all lots still linked.
fn evened(lots: usize, blocks: &[Vec<usize>]) -> Option<Vec<Vec<usize>>> {
    let mut counts = vec![0_usize; lots];
    blocks.iter().flatten().for_each(|lot| counts[*lot] += 1);
    let mut order: Vec<usize> = (0..lots).collect();
    order.sort_by_key(|lot| counts[*lot]);
    for many in order.iter().rev() {
        for few in order.iter().take_while(|few| counts[**few] + 1 < counts[*many]) {
            let could = |b: &Vec<usize>| b.contains(many) && !b.contains(few);
            for g in (0..blocks.len()).filter(|g| could(&blocks[*g])) {
                let mut next = blocks.to_vec();
                next[g].iter_mut().filter(|lot| *lot == many).for_each(|lot| *lot = *few);
                if linked(lots, &next) {
                    return Some(next);
                }
            }
        }
    }
    None
}

/// Whether a chain of growers links all lots.
fn linked(lots: usize, blocks: &[Vec<usize>]) -> bool {
    let mut group: Vec<usize> = (0..lots).collect();
    for block in blocks {
        let into = group[block[0]];
        let joined: Vec<usize> = block.iter().map(|lot| group[*lot]).collect();
        group.iter_mut().filter(|g| joined.contains(g)).for_each(|g| *g = into);
    }
    group.iter().all(|g| *g == group[0])
}

/// Blocks with how often each pair of lots meets.
struct Exchange {
    lots: usize,
    blocks: Vec<Vec<usize>>,
    meetings: Vec<i64>,
}

impl Exchange {
    fn new(lots: usize, blocks: Vec<Vec<usize>>) -> Self {
        let mut new = Self { lots, blocks, meetings: vec![0; lots * lots] };
        for block in new.blocks.clone() {
            for (i, a) in block.iter().enumerate() {
                for b in &block[i + 1..] {
                    new.meet(*a, *b, 1);
                }
            }
        }
        new
    }

    fn score(&self) -> i64 {
        self.meetings.iter().map(|n| n * n).sum::<i64>() / 2
    }

    /// Changes how often two lots meet; gives the change of the score.
    fn meet(&mut self, a: usize, b: usize, by: i64) -> i64 {
        let n = self.meetings[a * self.lots + b];
        self.meetings[a * self.lots + b] = n + by;
        self.meetings[b * self.lots + a] = n + by;
        (n + by) * (n + by) - n * n
    }

    /// Puts `new` in the place `at` of grower `g`; gives the change of the score.
    fn put(&mut self, g: usize, at: usize, new: usize) -> i64 {
        let old = std::mem::replace(&mut self.blocks[g][at], new);
        let others: Vec<usize> = self.blocks[g].iter().copied().filter(|lot| *lot != new).collect();
        others.into_iter().map(|lot| self.meet(old, lot, -1) + self.meet(new, lot, 1)).sum()
    }

    fn anneal(mut self, dice: &mut Dice, goal: i64) -> Vec<Vec<usize>> {
        let each = self.blocks[0].len();
        let steps = (MOST_WORK / each).min(MOST_STEPS);
        let mut score = self.score();
        let mut best = (score, self.blocks.clone());
        for step in 0..steps {
            let heat = 2.5 * (1.0 - step as f64 / steps as f64) + 0.05;
            let (g, h) = (dice.below(self.blocks.len()), dice.below(self.blocks.len()));
            let (i, j) = (dice.below(each), dice.below(each));
            let (a, b) = (self.blocks[g][i], self.blocks[h][j]);
            let refused = self.blocks[g].contains(&b) || self.blocks[h].contains(&a);
            if g == h || refused {
                continue;
            }
            let change = self.put(g, i, b) + self.put(h, j, a);
            if change <= 0 || dice.share() < (-(change as f64) / heat).exp() {
                score += change;
            } else {
                self.put(g, i, a);
                self.put(h, j, b);
            }
            // the hot half only stirs
            if score < best.0 && 2 * step > steps && linked(self.lots, &self.blocks) {
                best = (score, self.blocks.clone());
                if score == goal {
                    break;
                }
            }
        }
        best.1
    }
}
