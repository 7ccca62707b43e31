//! A packet as typed: one reading for the form and for the rows of an imported list.

use super::model::{Details, MOST_SEEDS, Naming, NewPacket, OwnSeed, Packet, SORTS, STATES};
use super::{names, published};
use crate::db::ids::PacketId;
use crate::web::forms::Form;
use chrono::{Datelike, NaiveDate};

/// What an edit may change, by field and label.
fn edited() -> [(&'static str, &'static str); 15] {
    [
        ("kind", t!("stock-kind")),
        ("variety", t!("stock-variety")),
        ("species", t!("stock-species")),
        ("source", t!("stock-source")),
        ("year", t!("stock-year")),
        ("code", t!("stock-lot-code")),
        ("seeds_per_gram", t!("stock-seeds-in-a-gram")),
        ("rough", t!("stock-rough-count")),
        ("place", t!("stock-kept-in")),
        ("state", t!("stock-state")),
        ("received_on", t!("stock-received-on")),
        ("through", t!("stock-came-through")),
        ("pollination", t!("stock-pollination")),
        ("doubtful_cross", t!("stock-doubtful-cross-label")),
        ("note", t!("stock-note")),
    ]
}

/// Reads a whole new packet. Errors stand on the form, beside their field. Nothing is later than `today`.
pub fn new_packet(form: &mut Form, today: NaiveDate) -> NewPacket {
    let own = own_seed(form);
    let naming = naming(form, today, own);
    let (seeds, by_weight) = seeds(form, &naming.kind);
    let mut details = details(form, today);
    details.rough |= by_weight;
    if by_weight && details.seeds_per_gram.is_none() {
        details.seeds_per_gram = published::seeds_per_gram(&naming.kind);
    }
    let letters = form.text("letters", 6);
    NewPacket { naming, details, letters, number: form.whole("number", 1..=999_999), seeds }
}

/// Reads what the lot is. The source of `own` seed is not asked for.
pub fn naming(form: &mut Form, today: NaiveDate, own: Option<OwnSeed>) -> Naming {
    let kind = named(form, "kind", 80);
    let variety = named(form, "variety", 120);
    let source = if own.is_some() { String::new() } else { named(form, "source", 120) };
    let sort = if form.value("sort").is_empty() { SORTS[0] } else { form.one_of("sort", &SORTS[..3]) };
    Naming {
        kind,
        variety,
        species: form.text("species", 120),
        source,
        sort: sort.to_owned(),
        year: form.whole("year", 1900..=i64::from(today.year()) + 1).unwrap_or(0),
        code: form.text("code", 60),
        own,
    }
}

fn named(form: &mut Form, field: &str, longest: usize) -> String {
    let text = form.must_text(field, longest);
    if names::key(&text).is_empty() {
        form.refuse(field, t!("stock-name-with-letters-or-digits"));
    }
    if text.contains(['\n', '\r', '\t']) {
        form.refuse(field, t!("stock-one-line"));
    }
    text
}

fn own_seed(form: &mut Form) -> Option<OwnSeed> {
    let parent = form.value("parent").to_owned();
    (!parent.is_empty()).then(|| saved_from(form, PacketId(parent)))
}

/// Reads how seed saved from the packet `parent` came about.
pub fn saved_from(form: &mut Form, parent: PacketId) -> OwnSeed {
    let pollination = form.one_of("pollination", &["open", "isolated"]).to_owned();
    OwnSeed { parent, pollination, doubtful_cross: form.ticked("doubtful_cross") }
}

/// Reads the particulars of one packet.
pub fn details(form: &mut Form, today: NaiveDate) -> Details {
    let state = if form.value("state").is_empty() { STATES[0] } else { form.one_of("state", &STATES) };
    Details {
        place: form.text("place", 80),
        received_on: received_on(form, today),
        seeds_per_gram: per_gram(form),
        state: state.to_owned(),
        rough: form.ticked("rough"),
        through: form.text("through", 80),
        note: form.text("note", 2000),
    }
}

fn received_on(form: &mut Form, today: NaiveDate) -> Option<NaiveDate> {
    let day = form.day("received_on");
    if day.is_some_and(|day| day > today) {
        form.refuse("received_on", t!("stock-came-in-the-future"));
    }
    day
}

fn per_gram(form: &mut Form) -> Option<f64> {
    form.decimal("seeds_per_gram", 0.01..=1_000_000.0)
}

/// Seeds by count, or by weight with seeds in a gram (the published figure where none is typed); and whether by
/// weight.
fn seeds(form: &mut Form, kind: &str) -> (i64, bool) {
    let counted = form.whole("seeds", 0..=MOST_SEEDS);
    let grams = form.decimal("grams", 0.001..=100_000.0);
    match (counted, grams) {
        (Some(_), Some(_)) => form.refuse("grams", t!("stock-seeds-or-grams")),
        (Some(n), None) => return (n, false),
        (None, Some(grams)) => return (weighed(form, kind, grams), true),
        (None, None) if form.error("seeds").is_empty() && form.error("grams").is_empty() => {
            form.refuse("seeds", t!("stock-how-many-seeds"));
        }
        (None, None) => {}
    }
    (0, false)
}

fn weighed(form: &mut Form, kind: &str, grams: f64) -> i64 {
    let Some(per_gram) = per_gram(form).or_else(|| published::seeds_per_gram(kind)) else {
        form.refuse("seeds_per_gram", t!("stock-how-many-in-a-gram"));
        return 0;
    };
    let seeds = (grams * per_gram).round();
    if seeds > MOST_SEEDS as f64 {
        form.refuse("grams", t!("stock-more-than-most-seeds", most = MOST_SEEDS));
        return 0;
    }
    seeds as i64
}

/// The form that edits a packet, as the packet stands.
pub fn to_edit(packet: &Packet) -> Form {
    let text = |v: Option<String>| v.unwrap_or_default();
    let values = [
        packet.kind.clone(),
        packet.variety.clone(),
        packet.species.clone(),
        packet.source.clone(),
        packet.year_words(),
        packet.code.clone(),
        text(packet.seeds_per_gram.map(|x| x.to_string())),
        ticked(packet.rough),
        packet.place.clone(),
        packet.state.clone(),
        text(packet.received_on.map(|d| d.to_string())),
        packet.through.clone(),
        packet.pollination.clone(),
        ticked(packet.doubtful_cross),
        packet.note.clone(),
    ];
    let form =
        edited().iter().zip(values).fold(Form::new(), |form, ((field, _), value)| form.with(field, value));
    form.remembered()
}

/// Tells beside each field what was saved of the packet since its page was drawn; true where there is something to tell.
pub fn meets(form: &mut Form, stands: &Packet) -> bool {
    let told = form.meets(&to_edit(stands), None, |_, _| None);
    for (name, label) in edited() {
        form.about(name, label);
    }
    told
}

fn ticked(yes: bool) -> String {
    if yes { "yes".to_owned() } else { String::new() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(fields: &[(&str, &str)]) -> (NewPacket, Form) {
        let base = [("kind", "pepper"), ("variety", "Kestrel"), ("source", "Testwood")];
        let mut form = Form::new();
        for (name, value) in base.iter().chain(fields) {
            form = form.with(name, value);
        }
        (new_packet(&mut form, NaiveDate::from_ymd_opt(2026, 3, 2).unwrap()), form)
    }

    #[test]
    fn weight_becomes_a_rough_number() {
        // 165 seeds of pepper in a gram: 7 CFR 201.46 Table 1
        let (packet, form) = read(&[("grams", "0,5")]);
        assert!(!form.failed(), "{:?}", form.errors());
        assert_eq!((packet.seeds, packet.details.rough), (83, true));
        assert_eq!(packet.details.seeds_per_gram, Some(165.0));
        assert_eq!(read(&[("grams", "2"), ("seeds_per_gram", "150")]).0.seeds, 300);
    }

    #[test]
    fn seeds_are_asked_for_once() {
        assert_eq!(read(&[]).1.errors()[0].0, "seeds");
        assert_eq!(read(&[("seeds", "5"), ("grams", "1")]).1.errors()[0].0, "grams");
        assert_eq!(read(&[("seeds", "-1")]).1.errors().len(), 1);
        assert_eq!(read(&[("grams", "100000"), ("seeds_per_gram", "900")]).1.errors()[0].0, "grams");
    }
}
