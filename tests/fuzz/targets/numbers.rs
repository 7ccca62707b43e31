//! What `hilum reckon` and `hilum analyse` take.

use hilum_calc::analyse::{Options, day_number, run};
use hilum_calc::reckon::{self, METHODS};
use hilum_calc::table::{At, Of};

/// The first line names a method, or its first byte stands for one; the rest is its input in JSON.
pub fn reckon(data: &[u8]) {
    let (head, body) = super::first_line(data);
    let Ok(input) = serde_json::from_slice(body) else { return };
    let named = METHODS.iter().map(|(name, _)| *name).find(|name| name.as_bytes() == head);
    let method =
        named.unwrap_or_else(|| METHODS[usize::from(head.first().copied().unwrap_or(0)) % METHODS.len()].0);
    match reckon::run(method, &input) {
        Ok(answer) => assert!(answer.is_object(), "{answer}"),
        Err(fault) => assert!(!fault.field.is_empty() && !fault.error.is_empty(), "{fault:?}"),
    }
}

/// The first byte chooses the options; the rest is the table of counts.
pub fn analyse(data: &[u8]) {
    let Some((choice, text)) = data.split_first() else { return };
    let Ok(text) = std::str::from_utf8(text) else { return };
    let options = Options {
        of: if choice & 1 == 0 { Of::Started } else { Of::Paper },
        at: if choice & 2 == 0 { At::Day } else { At::Close },
        as_of: (choice & 4 != 0).then(|| day_number("2026-03-02")).flatten(),
    };
    match run(text, options) {
        Ok(analysis) => {
            assert!(!analysis.table_csv().is_empty());
            assert!(serde_json::from_str::<serde_json::Value>(&analysis.json_text()).is_ok());
        }
        Err(faults) => assert!(!faults.is_empty()),
    }
}
