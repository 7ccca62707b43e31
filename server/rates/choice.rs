use super::book::{Book, Counted, Standing};
use crate::routines::said;
use crate::web::forms::Form;
use chrono::Datelike;
use hilum_calc::table::{At, Of};
use std::collections::BTreeSet;

pub const FILTERS: [&str; 6] = ["of", "at", "kind", "season", "grower", "routine"];

/// What a reader asked the table for. Empty text: any.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Choice {
    /// Of seeds on paper, not of seeds started.
    pub of_paper: bool,
    /// At the close, not by the standard day.
    pub at_close: bool,
    pub kind: String,
    /// Year of going on paper.
    pub season: Option<i32>,
    pub grower: String,
    pub routine: String,
}

impl Choice {
    /// Reads the filters; faults are noted on the form.
    pub fn read(form: &mut Form) -> Self {
        let of = one_of(form, "of", ["started", "paper"]);
        let at = one_of(form, "at", ["day", "close"]);
        let season = form.whole("season", 1900..=2200).and_then(|y| i32::try_from(y).ok());
        Self {
            of_paper: of == "paper",
            at_close: at == "close",
            kind: form.text("kind", 80),
            season,
            grower: form.text("grower", 80),
            routine: form.text("routine", 80),
        }
    }

    pub fn of(&self) -> Of {
        if self.of_paper { Of::Paper } else { Of::Started }
    }

    pub fn at(&self) -> At {
        if self.at_close { At::Close } else { At::Day }
    }

    /// Whether the bag is one that was asked for.
    pub fn takes(&self, bag: &Counted) -> bool {
        let any = |wanted: &str, id: &str| wanted.is_empty() || wanted == id;
        any(&self.kind, &bag.kind_id)
            && any(&self.grower, &bag.grower_id)
            && any(&self.routine, &bag.routine_id)
            && self.season.is_none_or(|year| year == bag.on_paper.year())
    }

    /// Whether no season, grower or routine is chosen: then the whole club's adjusted rates stand beside the raw ones.
    pub fn is_whole(&self) -> bool {
        self.season.is_none() && self.grower.is_empty() && self.routine.is_empty()
    }

    /// The bags that were asked for and count.
    pub fn counting<'b>(&self, book: &'b Book) -> impl Iterator<Item = &'b Counted> {
        book.own().filter(|b| self.counts(b))
    }

    /// Whether the bag was asked for and counts.
    pub fn counts(&self, bag: &Counted) -> bool {
        self.takes(bag) && bag.standing == Standing::Counts
    }
}

fn one_of(form: &mut Form, name: &str, choices: [&'static str; 2]) -> &'static str {
    if form.value(name).is_empty() { choices[0] } else { form.one_of(name, &choices) }
}

/// What there is to choose from, as pairs of value and words.
#[derive(Debug, Default, Clone)]
pub struct Offers {
    pub kinds: Vec<(String, String)>,
    pub seasons: Vec<(String, String)>,
    pub growers: Vec<(String, String)>,
    pub routines: Vec<(String, String)>,
}

impl Offers {
    pub fn of(book: &Book) -> Self {
        let year = |b: &Counted| b.on_paper.year();
        let years: BTreeSet<String> =
            book.own().map(year).collect::<BTreeSet<_>>().iter().map(i32::to_string).collect();
        Self {
            kinds: offered(book.own().map(|b| (b.kind.as_str(), b.kind_id.as_str()))),
            seasons: offered(years.iter().map(|y| (y.as_str(), y.as_str()))),
            growers: offered(book.own().map(|b| (b.grower.as_str(), b.grower_id.as_str()))),
            routines: offered(book.own().map(|b| (b.routine.as_str(), b.routine_id.as_str()))),
        }
    }

    /// Each after "any" and ready routines by the names they are shown by, in the language of the request.
    pub fn or_any(&self) -> Self {
        let any = (String::new(), t!("rates-any").to_owned());
        let after = |all: &[(String, String)]| std::iter::once(&any).chain(all).cloned().collect();
        let routine = |(id, name): &(String, String)| (id.clone(), said::name(name).to_owned());
        let routines: Vec<(String, String)> = self.routines.iter().map(routine).collect();
        Self {
            kinds: after(&self.kinds),
            seasons: after(&self.seasons),
            growers: after(&self.growers),
            routines: after(&routines),
        }
    }
}

/// Of words and values: each once, by the words.
fn offered<'b>(all: impl Iterator<Item = (&'b str, &'b str)>) -> Vec<(String, String)> {
    let found: BTreeSet<(&str, &str)> = all.collect();
    found.into_iter().map(|(words, value)| (value.to_owned(), words.to_owned())).collect()
}

/// `path` with the fields of `form` named in `keep`, then `more`.
pub fn address(path: &str, form: &Form, keep: &[&str], more: &[(&str, String)]) -> String {
    let kept = keep.iter().map(|name| (*name, form.value(name).to_owned())).filter(|(_, v)| !v.is_empty());
    let pairs: Vec<(&str, String)> = kept.chain(more.iter().map(|(n, v)| (*n, v.clone()))).collect();
    match serde_html_form::to_string(&pairs) {
        Ok(query) if !query.is_empty() => format!("{path}?{query}"),
        _ => path.to_owned(),
    }
}
