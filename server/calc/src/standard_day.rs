//! The published day of the final count by kind, from 7 CFR 201.58(c) Table 2 (from memory but for
//! pepper; basil from the AOSA rules, from memory). It is a day for normal seedlings, not for roots.

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

/// Other names of a kind, in the published lists and in daily use (common practice, no source): (other, ours), both as
/// keys.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("eggplant", "aubergine"),
    ("brinjal", "aubergine"),
    ("cantaloupe", "melon"),
    ("muskmelon", "melon"),
    ("basil", "basil sweet"),
    ("bean", "bean garden"),
    ("collard", "collards"),
    ("corn", "corn sweet"),
    ("sweet corn", "corn sweet"),
    ("corn salad", "cornsalad"),
    ("mustard", "mustard india"),
    ("new zealand spinach", "spinach new zealand"),
    ("swiss chard", "chard swiss"),
    ("chard", "chard swiss"),
    ("tomatillo", "tomato husk"),
    ("capsicum", "pepper"),
    ("chile", "pepper"),
    ("chili", "pepper"),
    ("chilli", "pepper"),
    ("hot pepper", "pepper"),
    ("sweet pepper", "pepper"),
    ("peppers", "pepper"),
    ("tomatoes", "tomato"),
    ("onions", "onion"),
    ("courgette", "squash"),
    ("zucchini", "squash"),
    // in German
    ("paprika", "pepper"),
    ("peperoni", "pepper"),
    ("chilis", "pepper"),
    ("tomate", "tomato"),
    ("tomaten", "tomato"),
    ("gurke", "cucumber"),
    ("gurken", "cucumber"),
    ("melone", "melon"),
    ("wassermelone", "watermelon"),
    ("kürbis", "pumpkin"),
    ("zwiebel", "onion"),
    ("zwiebeln", "onion"),
    ("salat", "lettuce"),
    ("kopfsalat", "lettuce"),
    ("feldsalat", "cornsalad"),
    ("kohl", "cabbage"),
    ("weißkohl", "cabbage"),
    ("rotkohl", "cabbage"),
    ("brokkoli", "broccoli"),
    ("blumenkohl", "cauliflower"),
    ("rosenkohl", "brussels sprouts"),
    ("grünkohl", "kale"),
    ("bohne", "bean garden"),
    ("bohnen", "bean garden"),
    ("buschbohne", "bean garden"),
    ("stangenbohne", "bean garden"),
    ("limabohne", "bean lima"),
    ("erbse", "pea"),
    ("erbsen", "pea"),
    ("sellerie", "celery"),
    ("petersilie", "parsley"),
    ("spinat", "spinach"),
    ("rote bete", "beet"),
    ("mangold", "chard swiss"),
    ("möhre", "carrot"),
    ("möhren", "carrot"),
    ("karotte", "carrot"),
    ("mais", "corn sweet"),
    ("zuckermais", "corn sweet"),
    ("radieschen", "radish"),
    ("rettich", "radish"),
    ("basilikum", "basil sweet"),
];

/// The key of a kind's name, one for all its usual names: lower case, words parted by single spaces.
#[must_use]
pub fn kind_key(name: &str) -> String {
    let plain = name.to_lowercase().replace(['\'', '’', '‘', '`'], "");
    let words: Vec<&str> = plain.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    let key = words.join(" ");
    OTHER_NAMES.iter().find(|(other, _)| *other == key).map_or(key, |(_, ours)| (*ours).to_owned())
}

/// Days from paper to the final count of `kind`, under any of its usual names; `None` where none is known.
#[must_use]
pub fn final_count_day(kind: &str) -> Option<f64> {
    let key = kind_key(kind);
    DAYS.iter().find(|(name, _)| *name == key).map(|(_, day)| *day)
}
