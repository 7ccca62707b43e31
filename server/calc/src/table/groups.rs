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
    let mut growers: BTreeMap<Place, Vec<Place>> = BTreeMap::new();
    let mut parent: BTreeMap<Place, Place> = BTreeMap::new();
    for (kind, variety, source, grower) in edges {
        let place = (kind, variety, source);
        parent.insert(place, place);
        growers.entry((kind, variety, grower)).or_default().push(place);
    }
    for sources in growers.values() {
        for pair in sources.windows(2) {
            let (a, b) = (root(&parent, pair[0]), root(&parent, pair[1]));
            parent.insert(a.max(b), a.min(b));
        }
    }
    let mut numbers: BTreeMap<Place, usize> = BTreeMap::new();
    let mut last = ("", "", 0);
    let mut number = |place: &Place<'a>| {
        let top = root(&parent, *place);
        if (last.0, last.1) != (place.0, place.1) {
            last = (place.0, place.1, 0);
        }
        *numbers.entry(top).or_insert_with(|| {
            last.2 += 1;
            last.2
        })
    };
    parent.keys().map(|place| (*place, number(place))).collect()
}

fn root<'a>(parent: &BTreeMap<Place<'a>, Place<'a>>, mut place: Place<'a>) -> Place<'a> {
    while parent[&place] != place {
        place = parent[&place];
    }
    place
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
