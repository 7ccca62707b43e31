//! Lines of a plan as they are typed or pasted: variety, plants, the day they should be ready, and a source if one is
//! meant.

use super::model::{MOST_LINES, MOST_PLANTS};
use super::sentences;
use crate::db::ids::{KindId, SourceId, VarietyId};
use crate::stock::names;
use crate::stock::published::kind_key;
use crate::stock::store::{Kind, Source, Variety};
use crate::web::words::or;
use chrono::{Datelike, NaiveDate};

/// Plans reach no further ahead than so many days.
const FURTHEST_DAYS: i64 = 3 * 366;
const LONGEST_NAME: usize = 120;
/// Names of months that are written otherwise in German, and how they are read.
const GERMAN: [(&[&str], &str); 9] = [
    (&["januar", "jän", "jänner"], "Jan"),
    (&["februar"], "Feb"),
    (&["märz", "maerz", "mär", "mrz"], "Mar"),
    (&["mai"], "May"),
    (&["juni"], "Jun"),
    (&["juli"], "Jul"),
    (&["sept"], "Sep"),
    (&["okt", "oktober"], "Oct"),
    (&["dez", "dezember"], "Dec"),
];
/// The fields of a line, in the order they are pasted in.
pub const FIELDS: [&str; 4] = ["variety", "plants", "ready", "source"];

/// One line as typed, field by field as in [`FIELDS`].
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Typed(pub [String; 4]);

/// A variety as named in a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Named {
    Known(VarietyId),
    /// One that the club does not have yet, of a kind that it has.
    New {
        kind: KindId,
        name: String,
    },
}

/// A line to be added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewLine {
    pub variety: Named,
    pub source: Option<SourceId>,
    pub plants: i64,
    pub ready_on: NaiveDate,
}

/// What is wrong with which field.
pub type Fault = (&'static str, String);

/// The names that lines are read with.
pub struct Names {
    pub kinds: Vec<Kind>,
    pub varieties: Vec<Variety>,
    pub sources: Vec<Source>,
    pub today: NaiveDate,
    /// Whether dates with strokes begin with the month.
    pub us: bool,
}

impl Typed {
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|cell| cell.trim().is_empty())
    }
}

/// Pasted text as lines with their numbers, from 1. Tabs, else semicolons, else commas part the fields of a line; a
/// line of headings and empty lines are left out.
pub fn pasted(text: &str) -> Vec<(usize, Typed)> {
    let text = text.trim_start_matches('\u{feff}');
    let numbered = text.lines().enumerate().map(|(i, line)| (i + 1, cells(line)));
    numbered
        .filter(|(n, typed)| !typed.is_empty() && (*n != 1 || !is_heading(typed)))
        .take(MOST_LINES + 1)
        .collect()
}

fn cells(line: &str) -> Typed {
    let sign = [b'\t', b';'].into_iter().find(|sign| line.as_bytes().contains(sign)).unwrap_or(b',');
    let reader = csv::ReaderBuilder::new()
        .delimiter(sign)
        .has_headers(false)
        .flexible(true)
        .from_reader(line.as_bytes());
    let record = reader.into_records().next().and_then(Result::ok).unwrap_or_default();
    Typed([0, 1, 2, 3].map(|i| record.get(i).unwrap_or_default().trim().to_owned()))
}

fn is_heading(typed: &Typed) -> bool {
    let says = |i: usize, words: [&str; 2]| {
        let key = names::key(&typed.0[i]);
        words.iter().any(|word| key.contains(&names::key(word)))
    };
    says(0, ["variety", t!("planning-variety")]) && says(1, ["plants", t!("planning-plants")])
}

impl Names {
    /// The line that is meant, or every fault of it.
    pub fn read(&self, typed: &Typed) -> Result<NewLine, Vec<Fault>> {
        let [variety, plants, ready, source] = &typed.0;
        let (variety, source) = (self.variety(variety), self.source(source));
        let (plants, ready) = (whole(plants), self.ready(ready));
        match (variety, plants, ready, source) {
            (Ok(variety), Ok(plants), Ok(ready_on), Ok(source)) => {
                Ok(NewLine { variety, source, plants, ready_on })
            }
            (variety, plants, ready, source) => {
                let faults = [variety.err(), plants.err(), ready.err(), source.err()];
                Err(FIELDS
                    .into_iter()
                    .zip(faults)
                    .filter_map(|(field, fault)| Some((field, fault?)))
                    .collect())
            }
        }
    }

    fn variety(&self, typed: &str) -> Result<Named, String> {
        let (kind, name) = match typed.split_once(':') {
            Some((kind, name)) => (Some(self.kind(kind)?), name.trim()),
            None => (None, typed.trim()),
        };
        let key = names::key(name);
        if key.is_empty() {
            return Err(t!("planning-which-variety").to_owned());
        }
        if name.chars().count() > LONGEST_NAME {
            return Err(t!("planning-most-characters", n = LONGEST_NAME));
        }
        let of_kind = |v: &&Variety| kind.is_none_or(|k| v.kind_id == k.id);
        let found: Vec<&Variety> =
            self.varieties.iter().filter(of_kind).filter(|v| v.name_key == key).collect();
        match (&found[..], kind) {
            ([one], _) => Ok(Named::Known(one.id.clone())),
            ([], Some(kind)) => Ok(Named::New { kind: kind.id.clone(), name: name.to_owned() }),
            ([], None) => Err(self.unknown_variety(name, &key)),
            (several, _) => {
                let named: Vec<String> = several.iter().map(|v| format!("{}: {}", v.kind, v.name)).collect();
                Err(t!("planning-which-of-them", names = or(&named)))
            }
        }
    }

    fn unknown_variety(&self, name: &str, key: &str) -> String {
        let all = self.varieties.iter().map(|v| v.name_key.as_str()).enumerate();
        let near: Vec<&str> =
            names::nearest(key, all).into_iter().map(|i| self.varieties[i].name.as_str()).collect();
        let none = t!("planning-no-variety", name = name);
        unknown(none, &near, t!("planning-write-its-kind", name = name))
    }

    fn kind(&self, typed: &str) -> Result<&Kind, String> {
        let key = kind_key(typed);
        self.kinds
            .iter()
            .find(|k| k.name_key == key)
            .ok_or_else(|| t!("planning-no-kind", name = typed.trim()))
    }

    fn source(&self, typed: &str) -> Result<Option<SourceId>, String> {
        let key = names::key(typed);
        if key.is_empty() {
            return Ok(None);
        }
        if let Some(found) = self.sources.iter().find(|s| s.name_key == key) {
            return Ok(Some(found.id.clone()));
        }
        let all = self.sources.iter().map(|s| s.name_key.as_str()).enumerate();
        let near: Vec<&str> =
            names::nearest(&key, all).into_iter().map(|i| self.sources[i].name.as_str()).collect();
        let none = t!("planning-no-source", name = typed.trim());
        Err(unknown(none, &near, t!("planning-empty-for-any").to_owned()))
    }

    fn ready(&self, typed: &str) -> Result<NaiveDate, String> {
        if typed.trim().is_empty() {
            return Err(t!("planning-ready-which-day").to_owned());
        }
        let day = day(typed, self.us, self.today).ok_or_else(|| t!("planning-a-date"))?;
        match (day - self.today).num_days() {
            ..0 => Err(t!("planning-is-past", day = day.to_string())),
            0..=FURTHEST_DAYS => Ok(day),
            _ => Err(t!("planning-is-too-far", day = day.to_string())),
        }
    }
}

/// A number of plants.
fn whole(typed: &str) -> Result<i64, String> {
    match typed.trim().parse::<i64>() {
        Ok(n) if (1..=MOST_PLANTS).contains(&n) => Ok(n),
        _ if typed.trim().is_empty() => Err(t!("planning-how-many-plants").to_owned()),
        _ => Err(t!("planning-a-whole-number", most = MOST_PLANTS)),
    }
}

/// That a name is not known, which may be meant, and what else to do.
fn unknown(none: String, near: &[&str], advice: String) -> String {
    let meant = (!near.is_empty()).then(|| t!("planning-did-you-mean", names = or(near)));
    sentences([Some(none), meant, Some(advice)])
}

/// `2026-05-20`, `20.5.2026`, `20/5/2026` (`5/20/2026` by US habit), `20 May 2026`, `20 May`, `20. Mai`: the next such
/// day. A year of two digits is one of this century.
pub fn day(typed: &str, us: bool, today: NaiveDate) -> Option<NaiveDate> {
    let text = in_english(typed.trim().trim_end_matches('.'));
    let strokes = if us { "%m/%d/%Y" } else { "%d/%m/%Y" };
    let whole = ["%Y-%m-%d", "%d.%m.%Y", strokes, "%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y"];
    if let Some(day) = whole.iter().find_map(|form| NaiveDate::parse_from_str(&text, form).ok()) {
        let year = if day.year() < 100 { day.year() + 2000 } else { day.year() };
        return day.with_year(year).filter(|d| d.year() > 1900);
    }
    let of_year = |year: i32| {
        let dated = format!("{text} {year}");
        ["%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y"]
            .iter()
            .find_map(|form| NaiveDate::parse_from_str(&dated, form).ok())
    };
    of_year(today.year()).filter(|d| *d >= today).or_else(|| of_year(today.year() + 1))
}

/// `20. März 2027` as `20 Mar 2027`.
fn in_english(day: &str) -> String {
    let words = day.split_whitespace().map(|word| {
        let plain = word.trim_end_matches('.');
        let month = plain.to_lowercase();
        GERMAN.iter().find(|(names, _)| names.contains(&month.as_str())).map_or(plain, |(_, english)| english)
    });
    words.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    const TODAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();

    fn kind(name: &str) -> Kind {
        Kind {
            id: KindId(name.into()),
            name: name.into(),
            name_key: name.into(),
            built_in: true,
            varieties: 1,
        }
    }

    fn variety(id: &str, kind: &str, name: &str) -> Variety {
        Variety {
            id: VarietyId(id.into()),
            name: name.into(),
            name_key: names::key(name),
            species: String::new(),
            kind_id: KindId(kind.into()),
            kind: kind.into(),
            root_id: VarietyId(id.into()),
            counts_as: name.into(),
            lots: 0,
            packets: 0,
        }
    }

    fn names() -> Names {
        Names {
            kinds: vec![kind("pepper"), kind("tomato")],
            varieties: vec![
                variety("k", "pepper", "Kestrel"),
                variety("w1", "pepper", "Wren"),
                variety("w2", "tomato", "Wren"),
            ],
            sources: Vec::new(),
            today: TODAY,
            us: false,
        }
    }

    fn faults(line: &str) -> Vec<Fault> {
        names().read(&cells(line)).err().unwrap_or_default()
    }

    #[test]
    fn lists_are_pasted_with_commas_semicolons_or_tabs() {
        let text = "Variety, Plants, Ready date\nKestrel, 24, 2026-05-20\n\nWren;6;20 May;Testwood\n\"Red, early\"\t3\t1.6.2026\n";
        let read = pasted(text);
        assert_eq!(read.iter().map(|(n, _)| *n).collect::<Vec<_>>(), [2, 4, 5]);
        assert_eq!(read[0].1.0, ["Kestrel", "24", "2026-05-20", ""].map(str::to_owned));
        assert_eq!(read[1].1.0[3], "Testwood");
        assert_eq!(read[2].1.0[0], "Red, early");
    }

    #[test]
    fn days_are_read_as_people_write_them() {
        let day = |typed, us| day(typed, us, TODAY).map(|d| d.to_string());
        for (typed, us, expected) in [
            ("2026-05-20", false, "2026-05-20"),
            ("20.5.2026", false, "2026-05-20"),
            ("15.05.27", false, "2027-05-15"),
            ("20/5/2026", false, "2026-05-20"),
            ("5/20/2026", true, "2026-05-20"),
            ("20 May 2026", false, "2026-05-20"),
            ("20 May", false, "2026-05-20"),
            ("May 20", true, "2026-05-20"),
            ("20. Mai", false, "2026-05-20"),
            ("1. März 2027", false, "2027-03-01"),
            ("3. Dez.", false, "2026-12-03"),
            ("1 March", false, "2027-03-01"),
        ] {
            assert_eq!(day(typed, us).as_deref(), Some(expected), "{typed}");
        }
        for typed in ["soon", "31/31/2026", "2026-02-30", "5/20/2026", ""] {
            assert_eq!(day(typed, false), None, "{typed}");
        }
    }

    #[test]
    fn lines_name_known_varieties_or_new_ones_of_a_known_kind() {
        let read = |line| names().read(&cells(line));
        let known = read("kestrel, 24, 20 May").unwrap();
        assert_eq!(
            (known.variety, known.plants, known.source),
            (Named::Known(VarietyId("k".into())), 24, None)
        );
        assert_eq!(read("tomato: Wren, 2, 20 May").unwrap().variety, Named::Known(VarietyId("w2".into())));
        let new = Named::New { kind: KindId("tomato".into()), name: "Curlew".into() };
        assert_eq!(read("tomato: Curlew, 2, 20 May").unwrap().variety, new);
    }

    #[test]
    fn every_fault_is_said_with_its_field() {
        let fields = |line| faults(line).iter().map(|(field, _)| *field).collect::<Vec<_>>();
        assert_eq!(fields(",,"), ["variety", "plants", "ready"]);
        assert_eq!(fields("Kestrel, 0, 1 March 2026, Nowhere"), ["plants", "ready", "source"]);
        assert!(faults("Kestrl, 1, 20 May")[0].1.contains("Did you mean Kestrel?"));
        assert!(faults("Wren, 1, 20 May")[0].1.contains("pepper: Wren or tomato: Wren"));
        assert!(faults("moon: Wren, 1, 20 May")[0].1.contains("no kind moon"));
        assert!(faults("Kestrel, 1, 2039-01-01")[0].1.contains("too far ahead"));
    }
}
