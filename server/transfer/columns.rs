//! The columns of lists, and the headings under which people keep them, English and German.

use crate::stock::names::plain_key;

/// A column of a list.
#[derive(Debug, PartialEq, Eq)]
pub struct Column {
    /// Its heading in files of ours.
    pub name: &'static str,
    /// The field of the form it fills.
    pub field: &'static str,
    /// Headings, as plain keys, that are read as this column: English and German.
    headings: [&'static str; 2],
}

const fn column(
    name: &'static str,
    field: &'static str,
    english: &'static str,
    german: &'static str,
) -> Column {
    Column { name, field, headings: [english, german] }
}

impl Column {
    /// What people call it.
    pub fn words(&self) -> &'static str {
        words(self.name)
    }

    fn headings(&self) -> impl Iterator<Item = &'static str> {
        self.headings.into_iter().flat_map(|all| all.split(", "))
    }
}

/// What people call the column of that name; a heading of theirs stays as it is.
pub fn words(name: &str) -> &str {
    match name {
        "number" => t!("transfer-column-number"),
        "kind" => t!("transfer-column-kind"),
        "variety" => t!("transfer-column-variety"),
        "source" => t!("transfer-column-source"),
        "year" => t!("transfer-column-year"),
        "lot code" => t!("transfer-column-lot-code"),
        "seeds" => t!("transfer-column-seeds"),
        "grams" => t!("transfer-column-grams"),
        "seeds per gram" => t!("transfer-column-seeds-per-gram"),
        "place" => t!("transfer-column-place"),
        "state" => t!("transfer-column-state"),
        "species" => t!("transfer-column-species"),
        "note" => t!("transfer-column-note"),
        "genus" => t!("transfer-column-genus"),
        "subspecies" => t!("transfer-column-subspecies"),
        "bag" => t!("transfer-column-bag"),
        "date of the look" => t!("transfer-column-date"),
        "hours" => t!("transfer-column-hours"),
        "rooted" => t!("transfer-column-rooted"),
        "abnormal" => t!("transfer-column-abnormal"),
        "dead" => t!("transfer-column-dead"),
        "trial" => t!("transfer-column-trial"),
        "on paper" => t!("transfer-column-on-paper"),
        "routine" => t!("transfer-column-routine"),
        "warmth" => t!("transfer-column-warmth"),
        "soaked" => t!("transfer-column-soaked"),
        "floated" => t!("transfer-column-floated"),
        "closed" => t!("transfer-column-closed"),
        other => other,
    }
}

/// What both lists name alike.
const KIND: Column =
    column("kind", "kind", "kind, crop, vegetable, plant, type", "art, gemuese, gemueseart, kultur, pflanze");
const VARIETY: Column =
    column("variety", "variety", "variety, cultivar, name, variety name", "sorte, sortenname, bezeichnung");
const SOURCE: Column = column(
    "source",
    "source",
    "source, from, supplier, merchant, vendor, bought from, origin",
    "bezugsquelle, quelle, herkunft, lieferant, haendler, gekauft bei, bezogen von",
);
const YEAR: Column = column(
    "year",
    "year",
    "year, packed, harvest, harvest year, year packed, packed for, lot year, yr",
    "jahr, jahrgang, ernte, erntejahr, abgefuellt",
);

/// Those of a season list.
pub const PACKETS: &[Column] = &[
    column(
        "number",
        "number",
        "number, no, nr, num, mark, id, own number, packet",
        "nummer, lfd nr, laufende nummer, eigene nummer, kennzeichen, tuete",
    ),
    KIND,
    VARIETY,
    SOURCE,
    YEAR,
    column(
        "lot code",
        "code",
        "lot code, lot, code, batch, lot no, lot number",
        "partie, partie nr, partienummer, charge, chargennummer, los, losnummer",
    ),
    column(
        "seeds",
        "seeds",
        "seeds, count, seed count, quantity, qty, number of seeds, how many",
        "samen, anzahl, anzahl samen, menge, stueck, stueckzahl, koerner",
    ),
    column(
        "grams",
        "grams",
        "grams, g, weight, weight g, gram, weight in grams",
        "gramm, gewicht, gewicht g, gewicht in g, gewicht in gramm",
    ),
    column(
        "seeds per gram",
        "seeds_per_gram",
        "seeds per gram, seeds in a gram, seeds g, seeds per g, per gram",
        "samen je gramm, samen pro gramm, samen g, samen je g, samen pro g, je gramm, pro gramm",
    ),
    column(
        "place",
        "place",
        "place, kept in, storage, storage place, where, stored in, location",
        "ort, aufbewahrt in, aufbewahrung, lager, lagerort, platz",
    ),
    column("state", "state", "state, treatment", "zustand, behandlung"),
    column(
        "species",
        "species",
        "species, botanical name, latin name",
        "botanischer name, lateinischer name, wissenschaftlicher name, botanische art",
    ),
    column(
        "note",
        "note",
        "note, notes, comment, comments, remark, remarks",
        "notiz, notizen, bemerkung, bemerkungen, anmerkung, anmerkungen, kommentar",
    ),
    column("genus", "genus", "genus", "gattung"),
    column("subspecies", "subtaxon", "subspecies, subtaxon, subtaxa", "unterart"),
];
/// So many of them stand in files of ours; the rest are parts of the botanical name.
pub const SAVED: usize = 13;

/// Those of a list of counts: looks into bags that are here, or whole bags of seasons past.
pub const COUNTS: &[Column] = &[
    column(
        "bag",
        "bag",
        "bag, bag mark, mark, label, replicate",
        "beutel, kennzeichen, beutelkennzeichen, etikett, wiederholung",
    ),
    column(
        "date of the look",
        "date",
        "date, date of the look, look, looked on, counted on, day of count",
        "datum, tag, kontrolle, tag der kontrolle, datum der kontrolle, gezaehlt am",
    ),
    column("hours", "hours", "hours, hours on paper, h", "stunden, stunden auf papier, std"),
    column(
        "rooted",
        "rooted",
        "rooted, roots, root out, new roots, sprouted, germinated",
        "bewurzelt, neu bewurzelt, wurzeln, gekeimt",
    ),
    column("abnormal", "abnormal", "abnormal", "anomal, anormal"),
    column("dead", "dead", "dead, removed dead, rotten, mouldy", "tot, abgestorben, verfault, verschimmelt"),
    column("trial", "trial", "trial", "ansatz, versuch"),
    KIND,
    VARIETY,
    SOURCE,
    YEAR,
    column(
        "seeds",
        "seeds",
        "seeds, sown, seeds on paper, seed count, number of seeds, quantity, qty",
        "samen, samen auf papier, anzahl, anzahl samen, menge, stueckzahl, eingelegt",
    ),
    column(
        "on paper",
        "paper",
        "on paper, put on paper, date on paper, paper, began, start, started, day 0",
        "auf papier, auf papier seit, papier, beginn, begonnen, tag 0",
    ),
    column("routine", "routine", "routine, soak, method", "ablauf, einweichen, methode, verfahren"),
    column(
        "warmth",
        "warmth",
        "warmth, warmth c, temperature, temperature c, degrees c",
        "waerme, waerme c, temperatur, temperatur c, grad c",
    ),
    column("soaked", "soaked", "soaked, seeds soaked", "eingeweicht, samen eingeweicht"),
    column("floated", "floated", "floated, floaters", "geschwommen, schwimmer"),
    column("closed", "closed", "closed", "abgeschlossen, geschlossen"),
];

/// The place among `columns` that a heading means.
pub fn meant(columns: &[Column], heading: &str) -> Option<usize> {
    let bare = heading.trim();
    let key = if bare == "#" { "number".to_owned() } else { plain_key(bare) };
    columns.iter().position(|c| c.headings().any(|heading| heading == key))
}

/// The name of the column of a field.
pub fn of_field<'f>(columns: &[Column], field: &'f str) -> &'f str {
    match field {
        "letters" => "number",
        _ => columns.iter().find(|c| c.field == field).map_or(field, |c| c.name),
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
            let found = meant(PACKETS, heading);
            assert_eq!(found.is_some(), heading != "Seeds/gram", "{heading}");
            assert!(found.is_none_or(|i| i == column), "{heading}");
        }
        assert_eq!(meant(PACKETS, "colour"), None);
        for heading in ["STÜCKZAHL", "Stueckzahl", "Anzahl (Samen)"] {
            assert_eq!(meant(PACKETS, heading), Some(6), "{heading}");
        }
        assert_eq!(meant(COUNTS, "Wärme (°C)"), Some(14));
        assert_eq!(meant(COUNTS, "put_on_paper"), Some(12));
    }

    #[test]
    fn no_heading_means_two_columns() {
        for columns in [PACKETS, COUNTS] {
            let all: Vec<&str> = columns.iter().flat_map(Column::headings).collect();
            let distinct: std::collections::BTreeSet<&str> = all.iter().copied().collect();
            assert_eq!(all.len(), distinct.len());
        }
    }
}
