//! Clubs made by chance, with what is true of each of their sources.

use super::dice::Dice;
use hilum_calc::club::{Care, Club};
use hilum_calc::mixed::expit;
use hilum_calc::special::{normal_cdf, normal_quantile};
use hilum_calc::table::{At, Bag, Look, Of, Options};

const SD_VARIETY: f64 = 0.6;
const SD_CELL: f64 = 0.5;
/// Logit of the middle variety of each kind.
const KINDS: [(&str, f64); 2] = [("pepper", 1.0), ("lettuce", 1.6)];
/// From so many sources on a club grows two kinds.
const TWO_KINDS: usize = 12;

/// How the growers of a club differ; standard deviations on the logit scale.
#[derive(Debug, Clone, Copy)]
pub struct Manner {
    pub name: &'static str,
    pub growers: f64,
    pub trials: f64,
    /// Careful growers choose the better sources.
    pub choosy: bool,
}

/// How many growers try how many sources.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    pub growers: usize,
    pub cells: usize,
}

/// A source of one variety, and what is true of it.
pub struct Source {
    kind: &'static str,
    variety: String,
    name: String,
    /// With a grower and a trial of average care.
    pub logit: f64,
    /// Of the variety's and the source's effect together, 0 the poorest.
    pub tenth: usize,
    /// Of the source's effect within its variety.
    pub tenth_within: usize,
}

struct Sheet {
    source: usize,
    grower: String,
    trial: String,
    bag: &'static str,
    seeds: u32,
    rooted: u32,
}

/// A made club.
pub struct Made {
    manner: Manner,
    pub sources: Vec<Source>,
    sheets: Vec<Sheet>,
}

fn normal(dice: &mut Dice) -> f64 {
    normal_quantile(dice.unit().max(f64::EPSILON))
}

fn tenth(z: f64) -> usize {
    ((10.0 * normal_cdf(z)) as usize).min(9)
}

impl Made {
    /// The club of one seed.
    pub fn new(size: Size, manner: Manner, seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        (0..20).for_each(|_| {
            dice.unit();
        });
        let (sources, odd) = sources(size, &mut dice);
        let care: Vec<f64> = (0..size.growers).map(|_| normal(&mut dice)).collect();
        let busy: Vec<f64> = (0..size.growers).map(|_| 0.05 + dice.unit().powi(2)).collect();
        let mut made = Self { manner, sources, sheets: Vec::new() };
        for (source, odd) in odd.iter().enumerate() {
            let liking = |(care, busy): (&f64, &f64)| {
                if manner.choosy { busy * (0.8 * care * odd).exp() } else { *busy }
            };
            let liking: Vec<f64> = care.iter().zip(&busy).map(liking).collect();
            for grower in chosen(liking, &mut dice) {
                made.grow(source, grower, manner.growers * care[grower], &mut dice);
            }
        }
        dice.shuffle(&mut made.sheets);
        made
    }

    /// The trials of one source by one grower: most have one, with 5 to 100 seeds in one to three bags.
    fn grow(&mut self, source: usize, grower: usize, care: f64, dice: &mut Dice) {
        for _ in 0..[1, 1, 1, 2, 3][dice.below(5)] {
            let p = expit(self.sources[source].logit + care + self.manner.trials * normal(dice));
            let seeds = 5 + (96.0 * dice.unit().powi(3)) as u32;
            let trial = format!("t{:04}", self.sheets.len());
            let bags = 1 + dice.below(3) as u32;
            for (bag, name) in (0..bags).zip(["a", "b", "c"]) {
                let seeds = (seeds + bag) / bags;
                let rooted = (0..seeds).filter(|_| dice.unit() < p).count() as u32;
                let (trial, grower) = (trial.clone(), format!("g{grower:02}"));
                self.sheets.push(Sheet { source, grower, trial, bag: name, seeds, rooted });
            }
        }
    }

    /// What the app computes of it: closed bags, three looks, the last on the standard day.
    pub fn club(&self) -> Club {
        let bags: Vec<Bag> = self.sheets.iter().map(|sheet| self.bag(sheet)).collect();
        let care = |s| Care {
            trial: s,
            seeds: 1,
            routine: None,
            warmth_c: None,
            age_years: None,
            club: None,
            lot: None,
        };
        let cares: Vec<Care> = bags.iter().map(|bag| care(bag.trial)).collect();
        let day = |_: &str| Some(14.0);
        Club::of(bags, cares, &Options { of: Of::Started, at: At::Day, as_of: None, standard_day: &day })
    }

    fn bag<'a>(&'a self, sheet: &'a Sheet) -> Bag<'a> {
        let source = &self.sources[sheet.source];
        let (first, second) = (sheet.rooted / 2, sheet.rooted / 3);
        let looks = [(120.0, first), (216.0, second), (336.0, sheet.rooted - first - second)];
        let look = |(hours, rooted)| Look { hours, rooted, abnormal: 0, dead: 0 };
        Bag {
            kind: source.kind,
            variety: &source.variety,
            source: &source.name,
            grower: &sheet.grower,
            trial: &sheet.trial,
            bag: sheet.bag,
            seeds: sheet.seeds,
            soaked: sheet.seeds,
            floated: false,
            put_on_paper: None,
            closed: true,
            looks: looks.map(look).to_vec().into(),
        }
    }

    /// The rate of a source with a grower and a trial of average care: both effects at 0.
    pub fn average_grower(&self, source: usize) -> f64 {
        expit(self.sources[source].logit)
    }

    /// The mean rate of a source over all growers and trials there could be: the integral of the
    /// logistic curve over their normal effects, by the trapezoidal rule on -8 to 8 standard deviations.
    pub fn grower_averaged(&self, source: usize) -> f64 {
        let sd = self.manner.growers.hypot(self.manner.trials);
        let point = |i: i32| {
            let z = 0.05 * f64::from(i);
            let weight = (-0.5 * z * z).exp();
            (weight * expit(self.sources[source].logit + sd * z), weight)
        };
        let (sum, weights) = (-160..=160).map(point).fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        sum / weights
    }

    /// The source that a row of the table is about.
    pub fn source(&self, variety: &str, name: &str) -> Option<usize> {
        self.sources.iter().position(|s| s.variety == variety && s.name == name)
    }
}

/// The sources, one to four for each variety, and how odd each is in its own right.
fn sources(size: Size, dice: &mut Dice) -> (Vec<Source>, Vec<f64>) {
    let (mut sources, mut oddities) = (Vec::new(), Vec::new());
    for v in 0..size.cells {
        let (kind, middle) = KINDS[if size.cells < TWO_KINDS { 0 } else { v % 2 }];
        let variety = SD_VARIETY * normal(dice);
        for s in 0..(1 + dice.below(4)).min(size.cells - sources.len()) {
            let odd = normal(dice);
            let effect = variety + SD_CELL * odd;
            sources.push(Source {
                kind,
                variety: format!("v{v:02}"),
                name: format!("s{s}"),
                logit: middle + effect,
                tenth: tenth(effect / SD_VARIETY.hypot(SD_CELL)),
                tenth_within: tenth(odd),
            });
            oddities.push(odd);
        }
    }
    (sources, oddities)
}

/// One grower for every fourth source, else two to six, by their liking.
fn chosen(mut liking: Vec<f64>, dice: &mut Dice) -> Vec<usize> {
    let many = if dice.below(4) == 0 { 1 } else { 2 + dice.below(liking.len().min(6) - 1) };
    let mut chosen = Vec::with_capacity(many);
    for _ in 0..many {
        let mut left = dice.unit() * liking.iter().sum::<f64>();
        let pick = liking.iter().position(|l| {
            left -= l;
            left < 0.0
        });
        let pick = pick.unwrap_or(0);
        liking[pick] = 0.0;
        chosen.push(pick);
    }
    chosen
}
