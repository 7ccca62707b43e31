//! Names of kinds: each kind goes by one key, whatever a packet or a list calls it.

use std::collections::HashMap;
use std::sync::LazyLock;

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
    ("courgette", "squash"),
    ("summer squash", "squash"),
    ("winter squash", "pumpkin"),
    ("fava bean", "broadbean"),
    ("broad bean", "broadbean"),
    ("runner bean", "bean runner"),
    ("lima bean", "bean lima"),
    ("radicchio", "chicory"),
    // in German
    ("peperoni", "pepper"),
    ("kopfsalat", "lettuce"),
    ("weißkohl", "cabbage"),
    ("rotkohl", "cabbage"),
    ("buschbohne", "bean garden"),
    ("stangenbohne", "bean garden"),
    ("karotte", "carrot"),
    ("mais", "corn sweet"),
    ("rettich", "radish"),
    ("radieschen", "radish"),
    ("kohl", "cabbage"),
    ("wirsing", "cabbage"),
    ("spitzkohl", "cabbage"),
    ("pflücksalat", "lettuce"),
    ("eissalat", "lettuce"),
    ("eierfrucht", "aubergine"),
    ("melanzani", "aubergine"),
    ("zucchini", "squash"),
    ("gartenkürbis", "pumpkin"),
    ("bohne", "bean garden"),
    ("saubohne", "broadbean"),
    ("puffbohne", "broadbean"),
    ("stangensellerie", "celery"),
    ("bleichsellerie", "celery"),
    ("rote beete", "beet"),
    ("rote rübe", "beet"),
    ("chicorée", "chicory"),
    ("barbarakraut", "cress upland"),
    ("schnittkohl", "kale siberian"),
    ("kai lan", "kale chinese"),
    ("kardy", "cardoon"),
    ("porree", "leek"),
    ("ackerbohne", "broadbean"),
    ("kohlrübe", "rutabaga"),
];

/// The German names of the kinds that have published facts (common use, from memory): (key, German).
const GERMAN: &[(&str, &str)] = &[
    ("aubergine", "Aubergine"),
    ("artichoke", "Artischocke"),
    ("asparagus", "Spargel"),
    ("asparagusbean", "Spargelbohne"),
    ("basil sweet", "Basilikum"),
    ("bean garden", "Gartenbohne"),
    ("bean lima", "Limabohne"),
    ("bean runner", "Feuerbohne"),
    ("beet", "Rote Bete"),
    ("broadbean", "Dicke Bohne"),
    ("broccoli", "Brokkoli"),
    ("brussels sprouts", "Rosenkohl"),
    ("burdock great", "Große Klette"),
    ("cabbage", "Kopfkohl"),
    ("cabbage tronchuda", "Portugiesischer Kohl"),
    ("cardoon", "Kardone"),
    ("carrot", "Möhre"),
    ("cauliflower", "Blumenkohl"),
    ("celeriac", "Knollensellerie"),
    ("celery", "Sellerie"),
    ("chard swiss", "Mangold"),
    ("chicory", "Zichorie"),
    ("chinese cabbage", "Chinakohl"),
    ("chives", "Schnittlauch"),
    ("citron", "Zitronatmelone"),
    ("collards", "Blattkohl"),
    ("corn sweet", "Zuckermais"),
    ("cornsalad", "Feldsalat"),
    ("cowpea", "Augenbohne"),
    ("cress garden", "Gartenkresse"),
    ("cress upland", "Winterkresse"),
    ("cress water", "Brunnenkresse"),
    ("cucumber", "Gurke"),
    ("dandelion", "Löwenzahn"),
    ("dill", "Dill"),
    ("endive", "Endivie"),
    ("kale", "Grünkohl"),
    ("kale chinese", "Chinesischer Brokkoli"),
    ("kale siberian", "Sibirischer Kohl"),
    ("kohlrabi", "Kohlrabi"),
    ("leek", "Lauch"),
    ("lettuce", "Salat"),
    ("melon", "Melone"),
    ("mustard india", "Brauner Senf"),
    ("mustard spinach", "Senfspinat"),
    ("okra", "Okra"),
    ("onion", "Zwiebel"),
    ("onion welsh", "Winterheckenzwiebel"),
    ("pak choi", "Pak Choi"),
    ("parsley", "Petersilie"),
    ("parsnip", "Pastinake"),
    ("pea", "Erbse"),
    ("pepper", "Paprika"),
    ("pumpkin", "Kürbis"),
    ("radish", "Rettich und Radieschen"),
    ("rhubarb", "Rhabarber"),
    ("rutabaga", "Steckrübe"),
    ("sage", "Salbei"),
    ("salsify", "Haferwurzel"),
    ("savory summer", "Bohnenkraut"),
    ("sorrel", "Sauerampfer"),
    ("soybean", "Sojabohne"),
    ("spinach", "Spinat"),
    ("spinach new zealand", "Neuseelandspinat"),
    ("squash", "Zucchini und Sommerkürbis"),
    ("tomato", "Tomate"),
    ("tomato husk", "Tomatillo"),
    ("turnip", "Speiserübe"),
    ("watermelon", "Wassermelone"),
];

/// Endings of plurals, in English and German.
const PLURALS: [&str; 6] = ["s", "es", "n", "en", "e", "se"];

/// The key of a kind's name, one for all its usual names, in the plural too and with umlauts spelled out: lower case,
/// words parted by single spaces.
#[must_use]
pub fn kind_key(name: &str) -> String {
    let plain = name.to_lowercase().replace(['\'', '’', '‘', '`'], "");
    let words: Vec<&str> = plain.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    let key = words.join(" ");
    let umlauts = key.replace("ae", "ä").replace("oe", "ö").replace("ue", "ü");
    let known = [&key, &umlauts].into_iter().find_map(|key| known(key).or_else(|| singular(key)));
    known.map_or(key, str::to_owned)
}

fn singular(key: &str) -> Option<&'static str> {
    PLURALS.iter().filter_map(|ending| key.strip_suffix(ending)).find_map(known)
}

/// Every name in lower case, with the key of its kind.
static KNOWN: LazyLock<HashMap<String, &'static str>> = LazyLock::new(|| {
    let own =
        GERMAN.iter().flat_map(|(key, german)| [((*key).to_owned(), *key), (german.to_lowercase(), *key)]);
    OTHER_NAMES.iter().map(|(other, key)| ((*other).to_owned(), *key)).chain(own).collect()
});

/// The key of the kind that is called just so.
fn known(name: &str) -> Option<&'static str> {
    KNOWN.get(name).copied()
}

/// What the kind is called in German, under any of its usual names; `None` where no name is known.
#[must_use]
pub fn german(kind: &str) -> Option<&'static str> {
    let key = kind_key(kind);
    GERMAN.iter().find(|(ours, _)| *ours == key).map(|(_, german)| *german)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_german_name_leads_back_to_its_kind() {
        for (key, name) in GERMAN {
            assert_eq!(kind_key(name), *key);
            assert_eq!(german(name), Some(*name));
        }
        for (name, key) in
            [("Chilis", "pepper"), ("Paprikas", "pepper"), ("carrots", "carrot"), ("Karotten", "carrot")]
        {
            assert_eq!(kind_key(name), key);
        }
        for (name, key) in
            [("Moehre", "carrot"), ("Kürbisse", "pumpkin"), ("Gruenkohl", "kale"), ("Bohnen", "bean garden")]
        {
            assert_eq!(kind_key(name), key);
        }
        for name in ["Quinoa", "Physalis", "As", "Erdbeeren"] {
            assert_eq!(kind_key(name), name.to_lowercase(), "nobody knows it by that name");
        }
        assert_eq!(german("Yacón"), None);
    }
}
