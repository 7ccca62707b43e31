//! Names of kinds: each kind goes by one key, whatever a packet or a list calls it.

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
    ("peperoni", "pepper"),
    ("chilis", "pepper"),
    ("tomaten", "tomato"),
    ("gurken", "cucumber"),
    ("zwiebeln", "onion"),
    ("kopfsalat", "lettuce"),
    ("weißkohl", "cabbage"),
    ("rotkohl", "cabbage"),
    ("bohnen", "bean garden"),
    ("buschbohne", "bean garden"),
    ("stangenbohne", "bean garden"),
    ("erbsen", "pea"),
    ("möhren", "carrot"),
    ("karotte", "carrot"),
    ("mais", "corn sweet"),
    ("rettich", "radish"),
    ("porree", "leek"),
    ("ackerbohne", "broadbean"),
    ("saubohne", "broadbean"),
    ("stangensellerie", "celery"),
    ("kohlrübe", "rutabaga"),
];

/// The German names of the kinds that have published facts (common use, from memory): (key, German).
const GERMAN: &[(&str, &str)] = &[
    ("aubergine", "Aubergine"),
    ("artichoke", "Artischocke"),
    ("asparagus", "Spargel"),
    ("asparagusbean", "Spargelbohne"),
    ("basil sweet", "Basilikum"),
    ("bean garden", "Bohne"),
    ("bean lima", "Limabohne"),
    ("bean runner", "Feuerbohne"),
    ("beet", "Rote Bete"),
    ("broadbean", "Dicke Bohne"),
    ("broccoli", "Brokkoli"),
    ("brussels sprouts", "Rosenkohl"),
    ("burdock great", "Große Klette"),
    ("cabbage", "Kohl"),
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
    ("cress upland", "Barbarakraut"),
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
    ("radish", "Radieschen"),
    ("rhubarb", "Rhabarber"),
    ("rutabaga", "Steckrübe"),
    ("sage", "Salbei"),
    ("salsify", "Haferwurzel"),
    ("savory summer", "Bohnenkraut"),
    ("sorrel", "Sauerampfer"),
    ("soybean", "Sojabohne"),
    ("spinach", "Spinat"),
    ("spinach new zealand", "Neuseelandspinat"),
    ("squash", "Zucchini"),
    ("tomato", "Tomate"),
    ("tomato husk", "Tomatillo"),
    ("turnip", "Speiserübe"),
    ("watermelon", "Wassermelone"),
];

/// The key of a kind's name, one for all its usual names: lower case, words parted by single spaces.
#[must_use]
pub fn kind_key(name: &str) -> String {
    let plain = name.to_lowercase().replace(['\'', '’', '‘', '`'], "");
    let words: Vec<&str> = plain.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    let key = words.join(" ");
    let other = OTHER_NAMES.iter().find(|(other, _)| *other == key).map(|(_, ours)| *ours);
    let german = || GERMAN.iter().find(|(_, german)| german.to_lowercase() == key).map(|(ours, _)| *ours);
    other.or_else(german).map_or(key, str::to_owned)
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
        assert_eq!(kind_key("Chilis"), "pepper");
        assert_eq!(german("Yacón"), None);
    }
}
