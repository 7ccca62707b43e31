use super::Analysis;
use super::cells::is_risky;
use crate::club::Adjusted;
use crate::table::Row;

/// The columns of the club table as a file.
pub const HEADER: [&str; 18] = [
    "kind",
    "variety",
    "source",
    "growers",
    "trials",
    "bags",
    "seeds",
    "soaked",
    "rooted",
    "rate",
    "low",
    "high",
    "design_effect",
    "adjusted_rate",
    "adjusted_low",
    "adjusted_high",
    "median_days",
    "group",
];

/// The club table as CSV with a header (RFC 4180).
pub fn table_csv(analysis: &Analysis) -> String {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    // Writing into memory cannot fail.
    let _ = writer.write_record(HEADER);
    for row in &analysis.club.rows {
        let _ = writer.write_record(cells(row, analysis.adjusted_of(row)));
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// A row under [`HEADER`]. A number that does not exist is an empty cell; text that a spreadsheet would run as a formula
/// gets a leading apostrophe.
#[must_use]
pub fn cells(row: &Row, adjusted: Option<&Adjusted>) -> [String; 18] {
    let number = |x: Option<f64>| x.filter(|x| x.is_finite()).map_or_else(String::new, |x| x.to_string());
    [
        guarded(&row.kind),
        guarded(&row.variety),
        guarded(&row.source),
        row.growers.to_string(),
        row.trials.to_string(),
        row.bags.to_string(),
        row.seeds.to_string(),
        row.soaked.to_string(),
        row.rooted.to_string(),
        number(row.rate),
        number(Some(row.low)),
        number(Some(row.high)),
        number(Some(row.design_effect)),
        number(adjusted.map(|a| a.rate)),
        number(adjusted.map(|a| a.low)),
        number(adjusted.map(|a| a.high)),
        number(row.median_days),
        row.group.to_string(),
    ]
}

fn guarded(text: &str) -> String {
    if is_risky(text) { format!("'{text}") } else { text.to_owned() }
}
