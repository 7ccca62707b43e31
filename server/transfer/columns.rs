//! The columns of a season list, and the headings under which growers keep them.

use crate::stock::names::key;

/// Column, field of the packet form, headings (as keys) that are read as this column.
type Column = (&'static str, &'static str, &'static [&'static str]);

pub const COLUMNS: [Column; 13] = [
    ("number", "number", &["number", "no", "nr", "num", "mark", "id", "own number", "packet"]),
    ("kind", "kind", &["kind", "crop", "vegetable", "plant"]),
    ("variety", "variety", &["variety", "cultivar", "name", "variety name"]),
    ("source", "source", &["source", "from", "supplier", "merchant", "vendor", "bought from", "origin"]),
    ("year", "year", &["year", "packed", "harvest", "harvest year", "year packed", "packed for"]),
    ("lot code", "code", &["lot code", "lot", "code", "batch", "lot no", "lot number"]),
    ("seeds", "seeds", &["seeds", "count", "seed count", "quantity", "qty", "number of seeds", "how many"]),
    ("grams", "grams", &["grams", "g", "weight", "weight g", "gram", "weight in grams"]),
    (
        "seeds per gram",
        "seeds_per_gram",
        &["seeds per gram", "seeds in a gram", "seeds g", "seeds per g", "per gram"],
    ),
    ("place", "place", &["place", "kept in", "storage", "storage place", "where", "stored in", "location"]),
    ("state", "state", &["state", "treatment"]),
    ("species", "species", &["species", "botanical name", "latin name"]),
    ("note", "note", &["note", "notes", "comment", "comments", "remark", "remarks"]),
];

/// The place in [`COLUMNS`] that a heading means.
pub fn meant(heading: &str) -> Option<usize> {
    let bare = heading.trim();
    let key = if bare == "#" { "number".to_owned() } else { key(bare) };
    COLUMNS.iter().position(|(_, _, known)| known.contains(&key.as_str()))
}

/// What people call the column of a field.
pub fn of_field(field: &str) -> &str {
    match field {
        "letters" => "number",
        _ => COLUMNS.iter().find(|(_, f, _)| *f == field).map_or(field, |(column, _, _)| column),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_are_matched_forgivingly() {
        for (heading, column) in
            [(" LOT-CODE ", 5), ("Seeds/gram", 8), ("Seeds per Gram", 8), ("#", 0), ("Weight (g)", 7)]
        {
            let found = meant(heading);
            assert_eq!(found.is_some(), heading != "Seeds/gram", "{heading}");
            assert!(found.is_none_or(|i| i == column), "{heading}");
        }
        assert_eq!(meant("colour"), None);
    }

    #[test]
    fn no_heading_means_two_columns() {
        let all: Vec<&str> = COLUMNS.iter().flat_map(|(_, _, known)| known.iter().copied()).collect();
        let distinct: std::collections::BTreeSet<&str> = all.iter().copied().collect();
        assert_eq!(all.len(), distinct.len());
    }
}
