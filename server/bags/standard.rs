//! The published day of the final count for a kind: 7 CFR 201.58(c), Table 2, from the table kept with the tests.

use std::collections::BTreeMap;
use std::sync::LazyLock;

const TABLE: &str = include_str!("../../tests/reference/standards/fsa_201_58_table2_vegetables.csv");

static DAYS: LazyLock<BTreeMap<String, i64>> = LazyLock::new(|| read(TABLE));

#[derive(serde::Deserialize)]
struct Row {
    kind: String,
    final_count_day: String,
}

fn read(text: &str) -> BTreeMap<String, i64> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows = reader.deserialize::<Row>().filter_map(Result::ok);
    rows.filter_map(|r| Some((r.kind.to_lowercase(), r.final_count_day.parse().ok()?))).collect()
}

/// Days from sowing to the final count of normal seedlings; `None` for a kind without a published day.
pub fn final_day(kind: &str) -> Option<i64> {
    DAYS.get(&kind.to_lowercase()).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_read_whole() {
        // 7 CFR 201.58(c) Table 2: pepper 6 and 14, onion 6 and 10 (first and final count)
        assert_eq!((final_day("Pepper"), final_day("onion")), (Some(14), Some(10)));
        assert_eq!(final_day("moonflower"), None);
        assert_eq!(DAYS.len(), TABLE.lines().count() - 1);
    }
}
