//! The long table of counts, one line for each look into a bag: what `hilum analyse` reads.

use super::book::{Book, Counted};
use super::choice::Choice;
use super::unnamed::Numbers;
use hilum_calc::analyse;
use hilum_calc::table::Look;
use std::borrow::Borrow;
use std::sync::Arc;

/// So many bags make a piece.
const AT_ONCE: usize = 500;

pub const HEADER: [&str; 19] = [
    "kind",
    "variety",
    "source",
    "grower",
    "trial",
    "bag",
    "seeds",
    "hours",
    "rooted",
    "abnormal",
    "dead",
    "soaked",
    "floated",
    "lot_year",
    "routine",
    "warmth_c",
    "age_years",
    "put_on_paper",
    "closed",
];

/// The chosen bags that count, as CSV (RFC 4180, UTF-8, with a header); with `numbers` in the place of names. Piece by
/// piece: the counts of a large club are more than memory should hold at once.
pub fn pieces(
    book: Arc<Book>,
    choice: Choice,
    mut numbers: Option<Numbers>,
) -> impl Iterator<Item = Result<String, anyhow::Error>> {
    let pieces = book.bags.len().div_ceil(AT_ONCE).max(1);
    (0..pieces).map(move |n| {
        let bags = book.bags.iter().skip(n * AT_ONCE).take(AT_ONCE).map(AsRef::as_ref);
        let bags = bags.filter(|bag| choice.counts(bag));
        match &mut numbers {
            None => lines(bags, n == 0),
            Some(numbers) => lines(bags.map(|bag| numbers.number(bag)), n == 0),
        }
    })
}

/// These bags, a line for each look.
pub fn written<'b>(bags: impl Iterator<Item = &'b Counted>) -> Result<String, anyhow::Error> {
    lines(bags, true)
}

fn lines<B: Borrow<Counted>>(bags: impl Iterator<Item = B>, header: bool) -> Result<String, anyhow::Error> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    if header {
        writer.write_record(HEADER)?;
    }
    for bag in bags {
        let bag = bag.borrow();
        for look in &bag.looks {
            writer.write_record(cells(bag, &look))?;
        }
    }
    Ok(String::from_utf8(writer.into_inner()?)?)
}

fn cells(b: &Counted, look: &Look) -> [String; 19] {
    let flag = |yes: bool| if yes { "1" } else { "0" }.to_owned();
    [
        safe(&b.kind),
        safe(&b.variety),
        safe(&b.source),
        safe(&b.grower),
        safe(&b.trial),
        safe(&b.bag),
        b.seeds.to_string(),
        look.hours.to_string(),
        look.rooted.to_string(),
        look.abnormal.to_string(),
        look.dead.to_string(),
        b.soaked.to_string(),
        flag(b.floated),
        maybe(b.lot_year),
        safe(&b.routine),
        maybe(b.warmth_c),
        maybe(b.age_years),
        b.on_paper.to_string(),
        flag(b.closed),
    ]
}

fn maybe(value: Option<impl ToString>) -> String {
    value.map_or_else(String::new, |v| v.to_string())
}

/// Text that a spreadsheet would run as a formula gets an apostrophe before it.
fn safe(text: &str) -> String {
    if analyse::is_risky(text) { format!("'{text}") } else { text.to_owned() }
}
