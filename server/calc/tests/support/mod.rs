//! The oracle files, for the tests that read them.

use serde_json::Value;
use std::path::{Path, PathBuf};

/// Which oracle file holds the cases of which method.
pub const FILES: &[(&str, &str)] = &[
    ("rate", "m1_one_proportion"),
    ("two-rates", "m2_two_proportions"),
    ("times", "m3_time_metrics"),
    ("curve", "m4_turnbull"),
    ("event-time", "m5_cure"),
    ("pooled", "m6_glmm"),
    ("pooled", "m17_published_mixed"),
    ("sow", "m7_sowing"),
    ("power", "m8_power"),
    ("warmth", "m9_temperature"),
    ("ageing", "m10_ageing"),
    ("replicates", "m11_replicates"),
    ("mix", "m12_dilution"),
    ("shrink", "m13_shrinkage"),
    ("linked", "m14_connectivity"),
    ("club", "m15_partial_pooling"),
    ("club", "m16_source_term"),
    ("club", "m18_clubs"),
];

/// The folder of reference values.
pub fn reference() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference")
}

/// One oracle file.
#[expect(clippy::disallowed_methods, reason = "the library reads no file, its tests do")]
pub fn oracle(file: &str) -> Value {
    let path = reference().join("oracles").join(format!("{file}.json"));
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}
