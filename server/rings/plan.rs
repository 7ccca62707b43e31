//! How a ring trial is sized: what the club knows, what the plan takes, what it can show.

use super::model::{Lot, MOST_BAGS, Ring};
use super::store::Numbers;
use super::store::counts::Closed;
use crate::web::words;
use hilum_calc::blocks::{Design, Fault};
use hilum_calc::ring_trial::{Aim, alike};
use std::collections::BTreeMap;

/// Fewer seeds than this do not tell a rate.
const FEW_SEEDS: i64 = 30;
/// Fewer degrees of freedom than this do not tell how unlike bags are.
const FEW_BAGS: u64 = 20;
const USUAL_RATE: f64 = 0.8;
/// What is taken of bags before the club's own tell; our assumption, no source.
const USUAL_RHO: f64 = 0.05;
const USUAL_BAG: i64 = 10;
/// Lots do not differ by more than this share.
const NEVER: f64 = 0.85;

/// What the club's counts say of the variety and of bags.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    pub rate: f64,
    pub rate_words: String,
    pub rho: f64,
    pub rho_words: String,
    /// Seeds of a usual bag of the kind.
    pub bag: i64,
}

impl Known {
    pub fn of(closed: &[Closed], variety: &str, kind: &str) -> Self {
        let of_kind: Vec<&Closed> = closed.iter().filter(|c| c.kind_id == kind).collect();
        let (rate, rate_words) = rate(&of_kind, variety);
        let (rho, rho_words) = likeness(closed);
        Self { rate, rate_words, rho, rho_words, bag: usual_bag(&of_kind) }
    }
}

fn rate(of_kind: &[&Closed], variety: &str) -> (f64, String) {
    let of_variety = of_kind.iter().filter(|c| c.variety_id == variety);
    let sums = |(rooted, seeds): (i64, i64), c: &&Closed| (rooted + c.rooted, seeds + c.seeds);
    let own = of_variety.fold((0, 0), sums);
    let kind = of_kind.iter().fold((0, 0), sums);
    let share = |(rooted, seeds): (i64, i64)| {
        let share = rooted as f64 / seeds as f64;
        (share, format!("{:.0}", 100.0 * share))
    };
    if own.1 >= FEW_SEEDS {
        let (share, percent) = share(own);
        (share, t!("rings-rate-of-variety", percent = percent, seeds = own.1))
    } else if kind.1 >= FEW_SEEDS {
        let (share, percent) = share(kind);
        (share, t!("rings-rate-of-kind", percent = percent, seeds = kind.1))
    } else {
        (USUAL_RATE, t!("rings-rate-assumed").to_owned())
    }
}

fn likeness(closed: &[Closed]) -> (f64, String) {
    let mut groups: BTreeMap<(&str, &str), Vec<(u64, u64)>> = BTreeMap::new();
    for c in closed {
        let counts = (c.rooted.unsigned_abs(), c.seeds.unsigned_abs());
        groups.entry((&c.packet_id, &c.version_id)).or_default().push((counts.0.min(counts.1), counts.1));
    }
    let groups: Vec<Vec<(u64, u64)>> = groups.into_values().collect();
    let bags: usize = groups.iter().map(Vec::len).filter(|n| *n > 1).sum();
    match alike(&groups).filter(|found| found.df >= FEW_BAGS) {
        Some(found) => (found.rho, t!("rings-likeness-measured", n = bags)),
        None => (USUAL_RHO, t!("rings-likeness-assumed").to_owned()),
    }
}

/// The middle one of the bags of the kind, within 5 and 25 seeds.
fn usual_bag(of_kind: &[&Closed]) -> i64 {
    let mut sizes: Vec<i64> = of_kind.iter().map(|c| c.seeds).collect();
    sizes.sort_unstable();
    sizes.get(sizes.len() / 2).map_or(USUAL_BAG, |n| (*n).clamp(5, 25))
}

/// Which growers test which lots, with the numbers of a plan.
#[derive(Debug, Clone)]
pub struct Plan {
    pub design: Design,
    pub known: Known,
    pub numbers: Numbers,
    aim: Aim,
}

/// How many seeds a lot needs and has.
#[derive(Debug, Clone)]
pub struct Need {
    pub lot: Lot,
    pub most_growers: i64,
    pub seeds: i64,
    pub short: i64,
}

impl Plan {
    /// The plan with bags as proposed; the design is searched, so this is not for a thread that serves others.
    /// The refusal is for the field of the lots of a grower.
    pub fn propose(
        (lots, growers, each): (usize, usize, usize),
        (difference, certainty): (i64, i64),
        known: Known,
    ) -> Result<Self, String> {
        let design = Design::find(lots, growers, each).map_err(|f| fault(f, lots, growers, each))?;
        let lots_each = i64::try_from(each).unwrap_or(2);
        let numbers = Numbers { difference, certainty, lots_each, bags: 1, bag_seeds: known.bag };
        let mut plan = Self::new(design, numbers, known);
        let each_grower = plan.aim.seeds() / plan.fewest_growers() as f64;
        let bags = (each_grower / plan.numbers.bag_seeds as f64).ceil();
        plan.numbers.bags = (bags as i64).clamp(2, MOST_BAGS);
        Ok(plan)
    }

    /// The plan of a ring trial as it is kept.
    pub fn of(ring: &Ring, lots: usize, growers: usize, known: Known) -> Result<Self, String> {
        let each = usize::try_from(ring.lots_each).unwrap_or(2);
        let design = Design::find(lots, growers, each).map_err(|f| fault(f, lots, growers, each))?;
        Ok(Self::new(design, numbers(ring), known))
    }

    pub fn new(design: Design, numbers: Numbers, known: Known) -> Self {
        let aim = Aim {
            rate: known.rate,
            difference: numbers.difference as f64 / 100.0,
            certainty: numbers.certainty as f64 / 100.0,
            lots: design.growers_of_lots().len() as u64,
            bag: numbers.bag_seeds.unsigned_abs(),
            rho: known.rho,
            efficiency: design.efficiency(),
        };
        Self { design, known, numbers, aim }
    }

    fn fewest_growers(&self) -> i64 {
        self.design.growers_of_lots().into_iter().min().map_or(1, |n| n as i64)
    }

    fn most_growers(&self) -> i64 {
        self.design.growers_of_lots().into_iter().max().map_or(1, |n| n as i64)
    }

    fn seeds_each(&self) -> i64 {
        self.numbers.bags * self.numbers.bag_seeds
    }

    /// What the numbers do: what is found how surely.
    pub fn sure(&self) -> String {
        self.sure_of(self.seeds_each())
    }

    fn sure_of(&self, each: i64) -> String {
        let all = (each * self.fewest_growers()) as f64;
        if self.aim.difference_of(all) > NEVER {
            return t!("rings-too-little-to-show").to_owned();
        }
        let least = (100.0 * self.aim.difference_of(all)).ceil() as i64;
        let Numbers { difference, certainty, .. } = self.numbers;
        match 100.0 * self.aim.certainty_of(all) {
            ..10.0 => {
                t!("rings-hardly-ever-seen", difference = difference, certainty = certainty, least = least)
            }
            99.0.. => {
                t!("rings-seen-nearly-always", difference = difference, certainty = certainty, least = least)
            }
            seen => t!(
                "rings-seen-in",
                difference = difference,
                n = format!("{seen:.0}"),
                certainty = certainty,
                least = least
            ),
        }
    }

    /// What would be enough for the difference asked for, where the numbers are not.
    pub fn enough(&self) -> Option<String> {
        let each = self.aim.seeds() / self.fewest_growers() as f64;
        let bags = (each / self.numbers.bag_seeds as f64).ceil();
        (bags > self.numbers.bags as f64)
            .then(|| t!("rings-it-takes", bags = bags as i64, seeds = self.numbers.bag_seeds))
    }

    /// What each lot needs, in their order: the most that the draw can ask of it.
    pub fn needs(&self, lots: &[Lot]) -> Vec<Need> {
        let (growers, each) = (self.most_growers(), self.seeds_each());
        let need = |lot: &Lot| {
            let seeds = growers * each;
            Need { lot: lot.clone(), most_growers: growers, seeds, short: (seeds - lot.balance).max(0) }
        };
        lots.iter().map(need).collect()
    }

    /// What the seeds that the packets hold could show, where they are too few.
    pub fn as_held(&self, lots: &[Lot]) -> String {
        let Some((bags, size)) = self.held(lots) else {
            return t!("rings-not-one-seed-each").to_owned();
        };
        let held = t!("rings-bags-of-seeds", bags = bags, seeds = size);
        t!("rings-they-hold", bags = held, sure = self.sure_of(bags * size))
    }

    /// Bags and seeds of a bag that the packets hold for every grower.
    pub fn held(&self, lots: &[Lot]) -> Option<(i64, i64)> {
        let each = lots.iter().map(|l| l.balance / self.most_growers()).min().filter(|n| *n > 0)?;
        let size = each.min(self.numbers.bag_seeds);
        Some(((each / size).min(MOST_BAGS), size))
    }

    /// How lots meet growers, in sentences.
    pub fn design_words(&self) -> Vec<String> {
        let (lots, each) = (self.design.growers_of_lots().len(), self.numbers.lots_each);
        let (fewest, most) = self.design.fewest_and_most();
        let uneven =
            || t!("rings-each-grower-uneven", each = each, lots = lots, fewest = fewest, most = most);
        let mut said = vec![if each as usize == lots {
            t!("rings-every-grower-all", lots = lots, n = fewest)
        } else if self.design.is_balanced() {
            t!("rings-each-grower-balanced", each = each, lots = lots, n = fewest)
        } else if fewest > 0 {
            uneven()
        } else {
            format!("{} {}", uneven(), t!("rings-through-the-others"))
        }];
        if self.design.is_linked() {
            said.push(t!("rings-all-are-linked").to_owned());
        }
        if self.design.efficiency() < 0.995 {
            let worth = format!("{:.0}", 100.0 * self.design.efficiency());
            said.push(t!("rings-splitting-costs", n = worth));
        }
        said
    }

    /// Every two lots by name, and how many growers share them.
    pub fn pairs(&self, names: &[String]) -> Vec<(String, usize)> {
        let pairs = names.iter().enumerate().flat_map(|(i, a)| {
            names.iter().enumerate().skip(i + 1).map(move |(j, b)| ((i, j), words::and(&[a, b])))
        });
        pairs.map(|((i, j), name)| (name, self.design.meetings(i, j))).collect()
    }

    /// How unlike bags are, in words.
    pub fn bags_words(&self) -> String {
        let cost = hilum_calc::power::design_effect(self.numbers.bag_seeds as f64, self.known.rho);
        let worth = (100.0 / cost).round() as i64;
        t!("rings-bags-share-luck", size = self.numbers.bag_seeds, n = worth, why = self.known.rho_words)
    }
}

/// The numbers as kept.
pub fn numbers(ring: &Ring) -> Numbers {
    Numbers {
        difference: ring.difference,
        certainty: ring.certainty,
        lots_each: ring.lots_each,
        bags: ring.bags,
        bag_seeds: ring.bag_seeds,
    }
}

/// The numbers as a page shows them: a draw is of the numbers that were seen.
pub fn stamp(ring: &Ring) -> String {
    let n = numbers(ring);
    format!("{}-{}-{}-{}-{}", n.difference, n.certainty, n.lots_each, n.bags, n.bag_seeds)
}

/// Why there is no such design, in words; empty where there is one.
pub fn fault_words(found: &Result<Design, Fault>, lots: usize, growers: usize, each: usize) -> String {
    found.as_ref().err().map_or_else(String::new, |f| fault(*f, lots, growers, each))
}

fn fault(fault: Fault, lots: usize, growers: usize, each: usize) -> String {
    match fault {
        Fault::NotLinked => {
            let more = (lots - 1).div_ceil(growers) + 1;
            let people = (lots - 1).div_ceil(each - 1);
            t!("rings-cannot-link", growers = growers, each = each, lots = lots, more = more, people = people)
        }
        Fault::LotsEach => t!("rings-from-two-lots", lots = lots),
        Fault::TooLarge => t!("rings-too-large").to_owned(),
        Fault::Nothing => t!("rings-nothing-to-plan").to_owned(),
    }
}
