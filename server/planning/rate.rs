//! Which rates a line is reckoned with: the club's for that variety and source where there are any, and so on down to
//! the published standard; always said.

use crate::rates::known::{Grown, Known};
use crate::stock::published;
use crate::web::words::{decimal, percent};
use hilum_calc::club::{Adjusted, Model, Standing};
use hilum_calc::shrinkage::{Status, beta_binomial};
use hilum_calc::sowing::{Rate, Tested};
use hilum_calc::special::two_sided_z;

/// From so many rows on, rows of a kind say how unlike varieties and sources are (our own choice, no source).
const ENOUGH_ROWS: usize = 3;
/// Fewer rows of a kind tell of another variety no more than a test of so many seeds (our own choice, no source).
const FEW_TELL: u64 = 10;
/// So few rooted seeds in cells tell nothing yet (our own choice, no source).
const ENOUGH_PLANTED: u64 = 10;
/// (16 sqrt 3 / (15 pi))^2: a mean over effects on the logit lies nearer to one half by this (Zeger, Liang and
/// Albert 1988, Biometrics 44:1049-1060).
const NEARER: f64 = 0.345_8;

/// A rate and where it is from.
#[derive(Debug, Clone, PartialEq)]
pub struct Based {
    pub rate: Rate,
    /// In short, for a table: `club’s adjusted rate`.
    pub sign: &'static str,
    pub words: String,
}

/// What the club and the published lists know.
#[derive(Debug, Default)]
pub struct Club<'c> {
    /// The standing, where its numbers may be shown.
    pub standing: Option<&'c Standing>,
    /// Why there is no standing; empty where there is.
    pub unsettled: &'static str,
    pub rates: &'c [Known],
    pub grown: &'c [Grown],
}

impl Club<'_> {
    /// How many seeds root; `None` where nobody knows.
    pub fn rooting(&self, (kind, variety, source): (&str, &str, Option<&str>)) -> Option<Based> {
        let of_source = source.and_then(|source| {
            self.adjusted(kind, variety, source).or_else(|| self.raw(kind, variety, source))
        });
        of_source
            .or_else(|| self.of_variety(kind, variety))
            .or_else(|| self.of_kind(kind))
            .or_else(|| standard(kind))
    }

    fn adjusted(&self, kind: &str, variety: &str, source: &str) -> Option<Based> {
        let standing = self.standing?;
        let found = standing.adjusted((kind, variety, source))?;
        Some(Based {
            rate: one_more_trial(found, standing.model.as_ref()?),
            sign: t!("planning-club-adjusted"),
            words: t!(
                "planning-club-adjusted-words",
                variety = variety,
                source = source,
                rate = percent(found.rate),
                low = percent(found.low),
                high = percent(found.high)
            ),
        })
    }

    fn raw(&self, kind: &str, variety: &str, source: &str) -> Option<Based> {
        let found = self
            .rates
            .iter()
            .find(|r| (r.kind.as_str(), r.variety.as_str(), r.source.as_str()) == (kind, variety, source))?;
        let (x, n) = found.as_test();
        let words = t!(
            "planning-club-own-words",
            variety = variety,
            source = source,
            rate = percent(found.rate),
            seeds = found.seeds,
            test = n
        );
        Some(Based {
            rate: Rate::Tested(Tested { x, n }),
            sign: t!("planning-club-own"),
            words: format!("{words} {}", self.unsettled),
        })
    }

    fn of_variety(&self, kind: &str, variety: &str) -> Option<Based> {
        let rows: Vec<(u64, u64)> = self
            .rates
            .iter()
            .filter(|r| r.kind == kind && r.variety == variety)
            .map(Known::as_test)
            .collect();
        let (x, n) = sum(&rows)?;
        Some(Based {
            rate: Rate::Tested(Tested { x, n }),
            sign: t!("planning-club-variety"),
            words: t!(
                "planning-club-variety-words",
                variety = variety,
                n = rows.len(),
                rate = percent(x as f64 / n as f64)
            ),
        })
    }

    fn of_kind(&self, kind: &str) -> Option<Based> {
        let rows: Vec<(u64, u64)> =
            self.rates.iter().filter(|r| r.kind == kind).map(Known::as_test).collect();
        let (x, n) = sum(&rows)?;
        let mean = x as f64 / n as f64;
        let among = beta_binomial(&rows);
        let (rate, told) = if rows.len() >= ENOUGH_ROWS && among.status == Status::Ok {
            let (a, b) = among.shapes();
            (Rate::Beta(a, b), t!("planning-unlike-allowed-for").to_owned())
        } else {
            let n = n.min(FEW_TELL);
            let x = (mean * n as f64).round() as u64;
            (Rate::Tested(Tested { x, n }), t!("planning-so-few-tell", n = n))
        };
        let words = t!("planning-club-kind-words", kind = kind, rate = percent(rate.mean()), n = rows.len());
        Some(Based { rate, sign: t!("planning-club-kind"), words: format!("{words} {told}") })
    }

    /// How many rooted seeds become plants; `None` where no tray tells.
    pub fn growing(&self, (kind, variety, source): (&str, &str, Option<&str>)) -> Option<Based> {
        let places: [(Takes<'_>, Says<'_>); 4] = [
            (&|g| g.kind == kind && g.variety == variety && Some(g.source.as_str()) == source, &|x, n| {
                t!("planning-trays-of-source", variety = variety, grown = x, planted = n)
            }),
            (&|g| g.kind == kind && g.variety == variety, &|x, n| {
                t!("planning-trays-of-variety", variety = variety, grown = x, planted = n)
            }),
            (&|g| g.kind == kind, &|x, n| t!("planning-trays-of-kind", kind = kind, grown = x, planted = n)),
            (&|_| true, &|x, n| t!("planning-trays-of-all", grown = x, planted = n)),
        ];
        places.into_iter().find_map(|(takes, says)| {
            let found = self.grown.iter().filter(takes);
            let (x, n) = found.fold((0, 0), |(x, n), g| (x + g.grown, n + g.planted));
            (n >= ENOUGH_PLANTED).then(|| Based {
                rate: Rate::Tested(Tested { x, n }),
                sign: t!("planning-club-trays"),
                words: says(x, n),
            })
        })
    }
}

/// Which rows count.
type Takes<'a> = &'a dyn Fn(&&Grown) -> bool;
/// What so many plants of so many rooted seeds tell.
type Says<'a> = &'a dyn Fn(u64, u64) -> String;

fn sum(rows: &[(u64, u64)]) -> Option<(u64, u64)> {
    let (x, n) = rows.iter().fold((0, 0), |sum, row| (sum.0 + row.0, sum.1 + row.1));
    (n > 0).then_some((x, n))
}

/// What one more trial of the source may root, by whichever grower and lot: the rate's own uncertainty, with that of
/// trials, growers and lots, added up on the logit.
fn one_more_trial(adjusted: &Adjusted, model: &Model) -> Rate {
    let logit = |p: f64| (p.clamp(1e-6, 1.0 - 1e-6) / (1.0 - p.clamp(1e-6, 1.0 - 1e-6))).ln();
    let error = (logit(adjusted.high) - logit(adjusted.low)) / (2.0 * two_sided_z(0.95));
    let sd = model.sd;
    let effects = sd.trial.powi(2) + sd.grower.powi(2) + sd.lot.powi(2);
    let mean = 1.0 / (1.0 + (-logit(adjusted.rate) / (1.0 + NEARER * effects).sqrt()).exp());
    Rate::spread(mean, (error * error + effects).sqrt())
}

fn standard(kind: &str) -> Option<Based> {
    let fact = published::of(kind)?.standard_percent.as_ref()?;
    Some(Based {
        rate: Rate::Known(fact.value / 100.0),
        sign: t!("planning-published-standard"),
        words: t!(
            "planning-published-standard-words",
            kind = kind,
            rate = decimal(&fact.value.to_string()),
            source = fact.source
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known(variety: &str, source: &str, rate: f64, independent: f64) -> Known {
        Known {
            kind: "pepper".into(),
            variety: variety.into(),
            source: source.into(),
            rate,
            low: 0.0,
            high: 1.0,
            seeds: 40,
            bags: 2,
            growers: 1,
            independent,
        }
    }

    #[test]
    fn the_nearest_rate_is_taken_and_named() {
        let rates = [known("Kestrel", "Testwood", 0.8, 20.0), known("Kestrel", "Other", 0.5, 10.0)];
        let club = Club { rates: &rates, ..Club::default() };
        let sign = |place| club.rooting(place).map(|b| b.sign);
        assert_eq!(sign(("pepper", "Kestrel", Some("Testwood"))), Some("club’s own count"));
        assert_eq!(sign(("pepper", "Kestrel", Some("Third"))), Some("club’s count of the variety"));
        assert_eq!(sign(("pepper", "Merlin", None)), Some("club’s count of the kind"));
        assert_eq!(sign(("tomato", "Wren", None)), Some("published standard"));
        assert_eq!(sign(("moonflower", "Wide", None)), None);
        // two rows of the kind: 21 of 30, heard as a test of 10
        let kind = club.rooting(("pepper", "Merlin", None)).unwrap();
        assert_eq!(kind.rate, Rate::Tested(Tested { x: 7, n: 10 }));
        // 7 CFR 201.31: tomato 75 %
        assert_eq!(club.rooting(("tomato", "Wren", None)).unwrap().rate, Rate::Known(0.75));
    }

    #[test]
    fn what_trials_differ_by_makes_a_rate_less_sure() {
        let adjusted = Adjusted {
            kind: String::new(),
            variety: String::new(),
            source: String::new(),
            rate: 0.8,
            low: 0.7,
            high: 0.87,
        };
        let model = |trial: f64| {
            let sd = serde_json::json!({"variety": 0.0, "cell": 0.0, "lot": 0.0, "grower": 0.0, "source": 0.0, "trial": trial});
            let model = serde_json::json!({"fit": "", "status": "ok", "intercept": null, "sd": sd, "lots": false, "loglik": 0.0, "effects": []});
            serde_json::from_value::<Model>(model).unwrap()
        };
        let [alike, unlike] = [0.0, 0.8].map(|trial| one_more_trial(&adjusted, &model(trial)));
        assert!((alike.mean() - 0.8).abs() < 1e-9);
        assert!(unlike.mean() < 0.8 && unlike.mean() > 0.77, "{}", unlike.mean());
        let needed = |first| hilum_calc::sowing::Stages { first, second: None }.seeds(20, 0.9).seeds.unwrap();
        assert!(needed(unlike) > needed(alike));
    }

    #[test]
    fn trays_tell_from_the_nearest_that_tells_enough() {
        let grown = |variety: &str, grown, planted| Grown {
            kind: "pepper".into(),
            variety: variety.into(),
            source: "T".into(),
            grown,
            planted,
        };
        let rows = [grown("Kestrel", 3, 4), grown("Merlin", 18, 20)];
        let club = Club { grown: &rows, ..Club::default() };
        let found = club.growing(("pepper", "Kestrel", Some("T"))).unwrap();
        assert_eq!(found.rate, Rate::Tested(Tested { x: 21, n: 24 }));
        assert!(found.words.contains("all pepper"));
        assert!(Club::default().growing(("pepper", "Kestrel", None)).is_none());
    }
}
