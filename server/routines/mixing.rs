//! Amounts of stock and water for the vessels in use, in the member's habit first.

use super::model::{Solution, plain};
use crate::web::forms::Form;
use hilum_calc::dilution::{self, Refusal};
use hilum_calc::units::{self, DROPS_PER_ML, TEASPOON_ML};

/// Measures of a vessel: what the form sends, and its words.
pub fn measures() -> [(&'static str, &'static str); 3] {
    [("ml", "ml"), ("tsp_us", t!("routines-us-teaspoons")), ("floz_us", t!("routines-us-fluid-ounces"))]
}

/// What is to be mixed; strengths in percent.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Wanted {
    pub agent: String,
    pub stock: f64,
    pub strength: f64,
    pub vessels: i64,
    pub each_ml: f64,
}

impl Wanted {
    pub fn parse(form: &mut Form) -> Self {
        let agent = form.must_text("agent", 60);
        let stock = strength(form, "stock");
        let wanted = strength(form, "strength");
        let vessels = form.must_whole("vessels", 1..=1000);
        let size = form.decimal("size", 0.1..=20_000.0);
        if size.is_none() && form.error("size").is_empty() {
            form.refuse("size", t!("routines-give-a-number"));
        }
        let measure = form.one_of("measure", &measures().map(|(name, _)| name));
        let each_ml = size.unwrap_or(1.0) * units::unit(measure).map_or(1.0, |u| u.ml);
        Self { agent, stock, strength: wanted, vessels, each_ml }
    }

    /// Stock and water for one vessel and for all; refused as `hilum_calc::dilution` says.
    pub fn mix(&self) -> Result<Amounts, Refusal> {
        let each = dilution::dilute(self.stock, self.strength, self.each_ml)?;
        let n = self.vessels as f64;
        let all = dilution::dilute(self.stock, self.strength, self.each_ml * n)?;
        Ok(Amounts {
            each: (each.stock_ml, each.diluent_ml, each.total_ml()),
            all: (all.stock_ml, all.diluent_ml, all.total_ml()),
            parts: each.parts_diluent().unwrap_or(0.0),
        })
    }
}

/// Why it cannot be mixed.
pub fn reason(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::NoVolume => t!("routines-no-volume"),
        Refusal::StrongerThanStock => t!("routines-not-above-its-strength"),
        Refusal::NotReachable => t!("routines-not-reachable"),
        Refusal::StockIsZero => t!("routines-stock-is-zero"),
    }
}

fn strength(form: &mut Form, name: &str) -> f64 {
    let typed = form.decimal(name, 0.01..=100.0);
    if typed.is_none() && form.error(name).is_empty() {
        form.refuse(name, t!("routines-give-a-number"));
    }
    typed.unwrap_or(1.0)
}

/// Stock, water and both together, in ml; parts of water to one of stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amounts {
    pub each: (f64, f64, f64),
    pub all: (f64, f64, f64),
    pub parts: f64,
}

impl Amounts {
    /// `equal parts`, `1 part of stock to 3.67 parts of water`, `stock as it is`.
    pub fn proportion(&self) -> String {
        if self.parts == 0.0 {
            t!("routines-stock-as-it-is").to_owned()
        } else if (self.parts - 1.0).abs() < 1e-9 {
            t!("routines-equal-parts").to_owned()
        } else {
            t!("routines-parts-of-water", parts = plain(self.parts))
        }
    }
}

/// `15 ml (3 tsp, 300 drops)`, or `3 tsp (15 ml, 300 drops)` where the member measures in US units.
pub fn amount(ml: f64, us: bool) -> String {
    let (metric, spoons) = (format!("{} ml", plain(ml)), teaspoons(ml));
    let drops = t!("routines-drops", n = (ml * DROPS_PER_ML).round() as i64);
    if us { format!("{spoons} ({metric}, {drops})") } else { format!("{metric} ({spoons}, {drops})") }
}

/// `3 1/8 tsp`, to the nearest eighth.
fn teaspoons(ml: f64) -> String {
    let (whole, eighths) = units::teaspoons(ml);
    let part = match eighths {
        0 => "",
        2 => "1/4",
        4 => "1/2",
        6 => "3/4",
        1 => "1/8",
        3 => "3/8",
        5 => "5/8",
        _ => "7/8",
    };
    match (whole, part) {
        (0, "") if ml > 0.0 => t!("routines-less-than-a-teaspoon", share = plain(ml / TEASPOON_ML)),
        (whole, "") => t!("routines-teaspoons", n = whole),
        (0, part) => t!("routines-teaspoons", n = part),
        (whole, part) => t!("routines-teaspoons", n = format!("{whole} {part}")),
    }
}

/// What to know before a solution is used again.
pub fn warnings(solution: &Solution, now: crate::db::ids::At) -> Vec<&'static str> {
    let past = solution.discard_at.is_some_and(|at| at < now).then(|| t!("routines-past-its-discard-day"));
    past.into_iter().chain((solution.used > 0).then(|| t!("routines-used-before"))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Equal parts of 3 % peroxide and water make 1.5 %: common practice, no source; the rest is C1V1 = C2V2.
    #[test]
    fn equal_parts_halve_the_strength() {
        let wanted = Wanted { agent: "p".into(), stock: 3.0, strength: 1.5, vessels: 4, each_ml: 30.0 };
        let amounts = wanted.mix().unwrap();
        assert_eq!(amounts.each, (15.0, 15.0, 30.0));
        assert_eq!(amounts.all, (60.0, 60.0, 120.0));
        assert_eq!(amounts.proportion(), "equal parts of stock and water");
        let above = Wanted { strength: 3.1, ..wanted };
        assert_eq!(above.mix(), Err(Refusal::StrongerThanStock));
    }

    #[test]
    fn amounts_come_in_the_habit_of_the_member() {
        assert_eq!(amount(15.0, false), "15 ml (3 tsp, 300 drops)");
        assert_eq!(amount(4.93, true), "1 tsp (4.93 ml, 99 drops)");
        assert_eq!(amount(2.46, true), "1/2 tsp (2.46 ml, 49 drops)");
        assert!(amount(0.2, true).starts_with("less than 1/8 tsp"));
    }
}
