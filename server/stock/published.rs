//! Published facts about kinds: count days and temperatures, the standard percentage, seeds in a gram, storage
//! life. Each with where it was published and whether we read it there or wrote it down from memory.

use std::collections::BTreeMap;
use std::sync::LazyLock;
use unicode_normalization::UnicodeNormalization;

const COUNTS: &str = include_str!("published/fsa_201_58_table2_vegetables.csv");
const STANDARDS: &str = include_str!("published/fsa_201_31_standards.csv");
const WEIGHTS: &str = include_str!("published/seed_weights.csv");
const STORAGE: &str = include_str!("published/storage_life_years.csv");

/// Rows of the published lists that are not one kind.
const NOT_A_KIND: &[&str] = &["Any vegetable", "Chile, certified"];
const KEPT_CAPITAL: &[&str] = &["Brussels", "Chinese"];

/// A published value and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact<T> {
    pub value: T,
    pub source: String,
    /// Written down from memory, not read in the source.
    pub from_memory: bool,
}

/// First and final count of the laboratory test; temperature in degrees C (`20-30`: alternating).
#[derive(Debug, Clone, PartialEq)]
pub struct Counts {
    pub first_day: i64,
    pub final_day: i64,
    pub temperature: String,
    pub directions: String,
}

/// What is published about one kind.
#[derive(Debug, Clone, Default)]
pub struct Published {
    pub name: String,
    pub counts: Option<Fact<Counts>>,
    /// Least percentage of normal seedlings; not of root emergence.
    pub standard_percent: Option<Fact<f64>>,
    pub seeds_per_gram: Option<Fact<f64>>,
    /// Years of storage life, from each list that names the kind.
    pub storage_years: Vec<Fact<i64>>,
}

static ALL: LazyLock<BTreeMap<String, Published>> = LazyLock::new(read);

/// The names of all kinds with published facts.
pub fn names() -> impl Iterator<Item = &'static str> {
    ALL.values().map(|p| p.name.as_str())
}

/// What is published about a kind, by name or id, under any of its usual names.
pub fn of(kind: &str) -> Option<&'static Published> {
    ALL.get(&kind_key(kind))
}

/// The day of the final count of the kind's laboratory test, which is of normal seedlings.
pub fn final_count_day(kind: &str) -> Option<i64> {
    of(kind)?.counts.as_ref().map(|c| c.value.final_day)
}

/// Seeds in a gram.
pub fn seeds_per_gram(kind: &str) -> Option<f64> {
    of(kind)?.seeds_per_gram.as_ref().map(|f| f.value)
}

/// The key of a kind's name, however its letters are put together.
pub fn kind_key(name: &str) -> String {
    hilum_calc::kinds::kind_key(&name.nfc().collect::<String>())
}

type Row = BTreeMap<String, String>;

fn rows(csv: &str) -> Vec<Row> {
    csv::Reader::from_reader(csv.as_bytes()).deserialize().filter_map(Result::ok).collect()
}

fn read() -> BTreeMap<String, Published> {
    let mut all = BTreeMap::new();
    let listed = [rows(COUNTS), rows(STANDARDS)].concat();
    for row in listed.iter().filter(|r| !NOT_A_KIND.iter().any(|n| r["kind"].starts_with(n))) {
        let published = Published { name: shown(&row["kind"]), ..Published::default() };
        all.entry(kind_key(&row["kind"])).or_insert(published);
    }
    add(&mut all, COUNTS, |p, row| p.counts = counts(row));
    add(&mut all, STANDARDS, |p, row| p.standard_percent = fact(row, "min_germination_pct"));
    add(&mut all, WEIGHTS, |p, row| p.seeds_per_gram = weight(row));
    add(&mut all, STORAGE, |p, row| p.storage_years = storage(row));
    all
}

fn add(all: &mut BTreeMap<String, Published>, csv: &str, set: impl Fn(&mut Published, &Row)) {
    for row in &rows(csv) {
        if let Some(published) = all.get_mut(&kind_key(&row["kind"])) {
            set(published, row);
        }
    }
}

fn shown(kind: &str) -> String {
    if kind_key(kind) == "aubergine" {
        return "aubergine".to_owned();
    }
    let keeps = KEPT_CAPITAL.iter().any(|word| kind.starts_with(word));
    let mut letters = kind.chars();
    match letters.next() {
        Some(first) if !keeps => first.to_lowercase().chain(letters).collect(),
        _ => kind.to_owned(),
    }
}

fn fact<T: std::str::FromStr>(row: &Row, column: &str) -> Option<Fact<T>> {
    let value = row.get(column)?.parse().ok()?;
    let from_memory = row["how_known"].contains("memory");
    Some(Fact { value, source: row["source"].clone(), from_memory })
}

fn counts(row: &Row) -> Option<Fact<Counts>> {
    let first: Fact<i64> = fact(row, "first_count_day")?;
    let value = Counts {
        first_day: first.value,
        final_day: row["final_count_day"].parse().ok()?,
        temperature: row["temp_C"].clone(),
        directions: row["additional_directions"].clone(),
    };
    Some(Fact { value, source: first.source, from_memory: first.from_memory })
}

/// The list gives seeds in a gram from the law's table; its source names both columns, ours is the second.
fn weight(row: &Row) -> Option<Fact<f64>> {
    let found: Fact<f64> = fact(row, "seeds_per_g_fsa_table1_memory")?;
    Some(Fact { source: "7 CFR 201.46 Table 1".to_owned(), from_memory: true, ..found })
}

/// Two lists stand side by side; their sources are parted by a semicolon.
fn storage(row: &Row) -> Vec<Fact<i64>> {
    let (first, second) = row["source"].split_once("; ").unwrap_or((&row["source"], ""));
    [("years_extension_favourable", first), ("years_watts_vegetable_gardening", second)]
        .into_iter()
        .filter_map(|(column, source)| {
            let found: Fact<i64> = fact(row, column)?;
            Some(Fact { source: source.to_owned(), ..found })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The embedded lists are the ones of the reference folder, byte for byte.
    #[test]
    fn the_lists_are_those_of_the_reference_folder() {
        assert_eq!(COUNTS, include_str!("../../tests/reference/standards/fsa_201_58_table2_vegetables.csv"));
        assert_eq!(STANDARDS, include_str!("../../tests/reference/standards/fsa_201_31_standards.csv"));
        assert_eq!(WEIGHTS, include_str!("../../tests/reference/standards/seed_weights.csv"));
        assert_eq!(STORAGE, include_str!("../../tests/reference/standards/storage_life_years.csv"));
    }

    /// `hilum analyse` knows the same days without a database.
    #[test]
    fn the_club_table_uses_the_same_days() {
        for kind in names() {
            let calc = hilum_calc::standard_day::final_count_day(kind);
            assert_eq!(calc, final_count_day(kind).map(|day| day as f64), "{kind}");
        }
    }

    /// 7 CFR 201.58(c) Table 2 and 201.31, as in the reference folder.
    #[test]
    fn facts_are_found_under_every_usual_name() {
        assert_eq!(final_count_day("pepper"), Some(14));
        assert_eq!(final_count_day("Onion"), Some(10));
        assert_eq!(final_count_day("Eggplant"), final_count_day("aubergine"));
        assert_eq!(final_count_day("bean-garden"), Some(8));
        assert_eq!(final_count_day("artichoke"), None);
        assert_eq!(final_count_day("Möhre"), final_count_day("carrot"));
        assert_eq!(of("pepper").unwrap().standard_percent.as_ref().unwrap().value, 55.0);
        assert_eq!(of("pepper").unwrap().storage_years.len(), 2);
        assert_eq!(seeds_per_gram("aubergine"), Some(230.0));
    }

    #[test]
    fn every_row_of_every_list_reaches_a_kind() {
        let lists = [COUNTS, STANDARDS, WEIGHTS, STORAGE];
        let kinds = lists.iter().flat_map(|csv| rows(csv)).map(|r| r["kind"].clone());
        let lost: Vec<String> =
            kinds.filter(|k| of(k).is_none() && !NOT_A_KIND.iter().any(|n| k.starts_with(n))).collect();
        assert_eq!(lost, Vec::<String>::new());
        assert_eq!(names().count(), 69);
    }
}
