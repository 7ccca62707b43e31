//! Days to emergence in soil by its temperature (Harrington & Minges 1954): the guess of a club that has no bags of
//! a kind yet. It is of seedlings that are up; a root is out some days before.

use hilum_calc::kinds::kind_key;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Copied from the reference folder, where each row names its source.
const EMERGENCE: &str = include_str!("published/emergence_by_soil_temperature.csv");

#[derive(Deserialize)]
struct Row {
    kind: String,
    #[serde(rename = "temp_C")]
    temp_c: f64,
    days_to_emergence: Option<f64>,
}

/// Degrees C and days, in order of degrees; `None` where nothing came up or nothing was tested.
type Days = Vec<(f64, Option<f64>)>;

static TABLE: LazyLock<BTreeMap<String, Days>> = LazyLock::new(|| {
    let mut table: BTreeMap<String, Days> = BTreeMap::new();
    let rows = csv::Reader::from_reader(EMERGENCE.as_bytes()).into_deserialize::<Row>();
    for row in rows.filter_map(Result::ok) {
        table.entry(key(&row.kind)).or_default().push((row.temp_c, row.days_to_emergence));
    }
    table.values_mut().for_each(|days| days.sort_by(|a, b| a.0.total_cmp(&b.0)));
    table
});

/// The table's snap bean is the law's garden bean.
fn key(kind: &str) -> String {
    if kind == "Bean, snap" { kind_key("bean") } else { kind_key(kind) }
}

/// Days from sowing to emergence at a warmth in degrees C, between two tabled temperatures by their rates (1/days);
/// `None` outside those at which seedlings came up.
pub fn days_to_emergence(kind: &str, warmth_c: f64) -> Option<f64> {
    let days = TABLE.get(&kind_key(kind))?;
    days.windows(2).find_map(|pair| {
        let ((colder, at_colder), (warmer, at_warmer)) = (pair[0], pair[1]);
        if !(colder..=warmer).contains(&warmth_c) {
            return None;
        }
        let part = (warmth_c - colder) / (warmer - colder);
        match (at_colder, at_warmer) {
            (Some(a), _) if part == 0.0 => Some(a),
            (_, Some(b)) if part == 1.0 => Some(b),
            (Some(a), Some(b)) => Some(1.0 / ((1.0 - part) / a + part / b)),
            _ => None,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_that_of_the_reference_folder() {
        let reference = include_str!("../../tests/reference/standards/emergence_by_soil_temperature.csv");
        assert_eq!(EMERGENCE, reference);
        assert_eq!(TABLE.len(), 24);
        assert!(TABLE.values().all(|days| days.len() == 9));
    }

    /// Rows of the table: pepper 25, 13, 8, 8, 9 days at 15 to 35 degrees C, none at 10 and 40; snap bean 8 at 25.
    #[test]
    fn tabled_days_come_back_and_lie_between_elsewhere() {
        assert_eq!(days_to_emergence("pepper", 25.0), Some(8.0));
        assert_eq!(days_to_emergence("chilli", 15.0), Some(25.0));
        assert_eq!(days_to_emergence("Bean", 25.0), Some(8.0));
        assert_eq!(days_to_emergence("aubergine", 30.0), Some(5.0));
        let between = days_to_emergence("pepper", 22.5).unwrap();
        assert!((between - 1.0 / (0.5 / 13.0 + 0.5 / 8.0)).abs() < 1e-12);
        for out in [-5.0, 10.0, 12.0, 37.0, 41.0] {
            assert_eq!(days_to_emergence("pepper", out), None, "{out}");
        }
        assert_eq!(days_to_emergence("moonflower", 25.0), None);
    }
}
