use crate::linked::Links;
use std::collections::BTreeMap;

/// Kind, variety and source.
pub type Place<'a> = (&'a str, &'a str, &'a str);

/// The group of each (kind, variety, source), from 1 within its variety: sources are in one group
/// where a chain of shared growers links them. Groups are numbered by their first source.
///
/// `edges` are (kind, variety, source, grower), in any order, repeats allowed.
#[must_use]
pub fn groups<'a>(
    edges: impl Iterator<Item = (&'a str, &'a str, &'a str, &'a str)>,
) -> BTreeMap<Place<'a>, usize> {
    let mut varieties: BTreeMap<(&str, &str), Vec<(&str, &str)>> = BTreeMap::new();
    for (kind, variety, source, grower) in edges {
        varieties.entry((kind, variety)).or_default().push((grower, source));
    }
    let mut numbers = BTreeMap::new();
    for ((kind, variety), tried) in varieties {
        let groups = Links::new(tried.iter().copied()).groups();
        let number = |source: &str| groups.iter().position(|g| g.sources.iter().any(|s| s == source));
        for (_, source) in tried {
            numbers.entry((kind, variety, source)).or_insert_with(|| number(source).map_or(0, |i| i + 1));
        }
    }
    numbers
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chain_of_growers_links_and_varieties_do_not() {
        let edges = [
            ("pepper", "Dusk", "c", "ann"),
            ("pepper", "Dusk", "a", "ann"),
            ("pepper", "Dusk", "b", "bo"),
            ("pepper", "Dusk", "d", "cy"),
            ("pepper", "Dusk", "d", "bo"),
            ("pepper", "Ember", "b", "ann"),
        ];
        let got = groups(edges.into_iter());
        let of = |v: &'static str, s: &'static str| got[&("pepper", v, s)];
        assert_eq!([of("Dusk", "a"), of("Dusk", "b"), of("Dusk", "c"), of("Dusk", "d")], [1, 2, 1, 2]);
        assert_eq!(of("Ember", "b"), 1);
        let reversed = groups(edges.into_iter().rev());
        assert_eq!(got, reversed);
    }
}
