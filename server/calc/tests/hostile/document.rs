//! What must hold for any answer of `analyse`, and for the faults of a file.

use crate::answer;
use hilum_calc::analyse::{Analysis, Fault};
use serde_json::Value;

pub fn faults_of(analysis: &Analysis) -> Vec<String> {
    let document = analysis.json();
    let mut faults = answer::faults_of(&document, 0.95);
    for (key, value) in document.as_object().unwrap() {
        if !(value.is_array() || (key == "model" && (value.is_null() || value.is_object()))) {
            faults.push(format!("{key} is no list"));
        }
    }
    let rows = document["table"].as_array().map_or(0, Vec::len);
    let sheet = analysis.table_csv();
    let lines = csv::Reader::from_reader(sheet.as_bytes()).into_records().filter(Result::is_ok).count();
    if lines != rows {
        faults.push("the sheet has not one line for each row".to_owned());
    }
    let whole = |bag: &Value, key: &str| bag[key].as_u64().unwrap_or(u64::MAX / 8);
    for bag in document["bags"].as_array().unwrap() {
        let parts = ["rooted", "abnormal", "dead", "left"].map(|key| whole(bag, key));
        if parts.iter().sum::<u64>() != whole(bag, "seeds") {
            faults.push("a bag does not add up".to_owned());
        }
    }
    faults
}

pub fn faults_of_faults(faults: &[Fault]) -> Vec<String> {
    let unclear = |f: &Fault| f.line == 0 || f.error.is_empty() || f.error.chars().count() > 500;
    let nameless = |f: &Fault| f.column.trim().is_empty();
    let mut wrong = Vec::new();
    if faults.is_empty() {
        wrong.push("no faults, no answer".to_owned());
    }
    if faults.iter().any(unclear) {
        wrong.push("fault without line or words".to_owned());
    }
    if faults.iter().any(nameless) {
        wrong.push("fault without a column".to_owned());
    }
    wrong
}
