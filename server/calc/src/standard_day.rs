//! The published day of the final count by kind, from 7 CFR 201.58(c) Table 2 (from memory but for
//! pepper; basil from the AOSA rules, from memory). It is a day for normal seedlings, not for roots.

use crate::kinds::kind_key;

const DAYS: &[(&str, f64)] = &[
    ("basil sweet", 14.0),
    ("bean garden", 8.0),
    ("bean lima", 9.0),
    ("beet", 14.0),
    ("broccoli", 10.0),
    ("brussels sprouts", 10.0),
    ("cabbage", 10.0),
    ("carrot", 14.0),
    ("cauliflower", 10.0),
    ("celery", 21.0),
    ("chard swiss", 14.0),
    ("collards", 10.0),
    ("corn sweet", 7.0),
    ("cucumber", 7.0),
    ("aubergine", 14.0),
    ("kale", 10.0),
    ("kohlrabi", 10.0),
    ("lettuce", 7.0),
    ("melon", 10.0),
    ("okra", 14.0),
    ("onion", 10.0),
    ("parsley", 28.0),
    ("pea", 8.0),
    ("pepper", 14.0),
    ("pumpkin", 7.0),
    ("radish", 6.0),
    ("spinach", 21.0),
    ("squash", 7.0),
    ("tomato", 14.0),
    ("tomato husk", 28.0),
    ("watermelon", 14.0),
];

/// Days from paper to the final count of `kind`, under any of its usual names; `None` where none is known.
#[must_use]
pub fn final_count_day(kind: &str) -> Option<f64> {
    let key = kind_key(kind);
    DAYS.iter().find(|(name, _)| *name == key).map(|(_, day)| *day)
}
