use super::{MOST, named_and_dated};
use crate::api::record::{Pairs, Recording, Subject};
use crate::api::table::{Table, Words};
use crate::api::values::{Moment, SaveId, one_of};
use crate::bags::model::{ENDINGS, EVENTS, LEAVES};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

const GROUP: &str = "Bags";

/// One look into a bag: what is new since the last one.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Count {
    id: SaveId,
    /// When you looked; now where it is left out. A look may be told late, between others.
    at: Option<Moment>,
    /// Seeds whose root came out since the last look, by 2 mm or more.
    #[schemars(range(min = 0, max = MOST))]
    rooted: Option<i64>,
    /// Dead seeds that were taken out.
    #[schemars(range(min = 0, max = MOST))]
    dead: Option<i64>,
    /// Says that you looked and nothing is new. A count without numbers and without this is no look.
    #[serde(default)]
    nothing: bool,
    /// How many seeds the bag held from the start, where that was written wrong.
    #[schemars(range(min = 0, max = MOST))]
    there_were: Option<i64>,
    #[serde(default)]
    mould: bool,
    #[serde(default)]
    damped: bool,
    #[serde(default)]
    paper_changed: bool,
    #[schemars(length(max = 2000))]
    note: Option<String>,
}

impl Recording for Count {
    const SUBJECT: Subject = Subject::Bag;
    const WRITES: (&'static str, &'static str) = ("look", "bags");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/bags/{id}/count")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().maybe("rooted", self.rooted).maybe("dead", self.dead);
        let pairs = pairs.tick("nothing", self.nothing).maybe("there_were", self.there_were);
        let pairs = pairs.tick("mould", self.mould).tick("damped", self.damped);
        pairs.tick("paper", self.paper_changed).maybe("note", self.note.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let told = |rooted, dead| Self { id: SaveId::example(), rooted, dead, ..Self::default() };
        vec![
            ("count", "2 rooted, 1 dead", 201, told(Some(2), Some(1))),
            ("nothing", "Looked, nothing new", 201, Self { nothing: true, ..told(None, None) }),
            ("over", "More than are on paper", 422, told(Some(50), None)),
            (
                "ahead",
                "A moment in the future",
                422,
                Self { at: Some(Moment("2035-03-02T07:30:00+01:00".into())), ..told(Some(1), None) },
            ),
        ]
    }
}

/// Something that happened to a bag.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Happening {
    id: SaveId,
    /// When it happened; now where it is left out.
    at: Option<Moment>,
    #[schemars(schema_with = "events")]
    happened: String,
    /// With `mouldy removed`: how many.
    #[schemars(range(min = 1, max = MOST))]
    removed: Option<i64>,
    /// With `moved`: where to.
    #[schemars(length(max = 80))]
    place: Option<String>,
    /// With `moved`: degrees C.
    #[schemars(range(min = -30.0, max = 60.0))]
    warmth_c: Option<f64>,
    /// With `into holder`: the id of your holder.
    holder: Option<String>,
    /// With `handed on`: the id of the member.
    to: Option<String>,
    /// Needed with `in doubt`, `resolved` and `note`.
    #[schemars(length(max = 2000))]
    note: Option<String>,
}

fn events(_: &mut SchemaGenerator) -> Schema {
    one_of(EVENTS.map(|(sort, _)| sort))
}

impl Recording for Happening {
    const SUBJECT: Subject = Subject::Bag;
    const WRITES: (&'static str, &'static str) = ("bag event", "bags");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/bags/{id}/happened")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("happened", &self.happened).maybe("removed", self.removed);
        let pairs = pairs.maybe("place", self.place.as_ref()).maybe("warmth", self.warmth_c);
        let pairs = pairs.maybe("holder", self.holder.as_ref()).maybe("member", self.to.as_ref());
        pairs.maybe("note", self.note.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let event =
            |happened: &str| Self { id: SaveId::example(), happened: happened.into(), ..Self::default() };
        let moved = Self { place: Some("windowsill".into()), warmth_c: Some(21.5), ..event("moved") };
        vec![
            ("moved", "To the windowsill at 21.5 °C", 201, moved),
            ("damped", "Damped again", 201, event("damped")),
            ("nowhere", "Moved, without saying where to", 422, event("moved")),
        ]
    }
}

/// The final count, keeping on, or giving up.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Closing {
    id: SaveId,
    /// When it was closed; now where it is left out.
    at: Option<Moment>,
    /// With `final count` the numbers must use up every seed still on paper. With `kept on` the bag stays open and is
    /// looked at weekly.
    #[schemars(schema_with = "endings")]
    ending: String,
    #[schemars(range(min = 0, max = MOST))]
    fresh: Option<i64>,
    #[schemars(range(min = 0, max = MOST))]
    hard: Option<i64>,
    /// Dead by pressing.
    #[schemars(range(min = 0, max = MOST))]
    dead: Option<i64>,
    #[schemars(range(min = 0, max = MOST))]
    abnormal: Option<i64>,
    #[schemars(range(min = 0, max = MOST))]
    not_examined: Option<i64>,
    #[schemars(range(min = 0, max = MOST))]
    lost: Option<i64>,
    /// Needed with `abandoned`.
    #[schemars(length(max = 2000))]
    why: Option<String>,
}

fn endings(_: &mut SchemaGenerator) -> Schema {
    one_of(ENDINGS.map(|(ending, _)| ending))
}

impl Recording for Closing {
    const SUBJECT: Subject = Subject::Bag;
    const WRITES: (&'static str, &'static str) = ("closing", "bags");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/bags/{id}/close")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("ending", &self.ending).maybe("fresh", self.fresh);
        let pairs = pairs.maybe("hard", self.hard).maybe("dead", self.dead).maybe("abnormal", self.abnormal);
        let pairs = pairs.maybe("not_examined", self.not_examined).maybe("lost", self.lost);
        pairs.maybe("why", self.why.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let close = |ending: &str, fresh, dead| Self {
            id: SaveId::example(),
            ending: ending.into(),
            fresh,
            dead,
            ..Self::default()
        };
        vec![
            ("final", "2 fresh, 3 dead by pressing", 201, close("final count", Some(2), Some(3))),
            ("missing", "Seeds that are not told of", 422, close("final count", Some(1), None)),
            ("unexplained", "Abandoned without a reason", 422, close("abandoned", None, None)),
        ]
    }
}

/// Seeds that leave a bag without a look, and rooted seeds that are not planted.
#[derive(Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BagLeft {
    id: SaveId,
    /// When it happened; now where it is left out.
    at: Option<Moment>,
    #[schemars(schema_with = "leaves")]
    went: String,
    #[schemars(range(min = 1, max = MOST))]
    seeds: i64,
    /// With `moved`: the id of another open bag of the same trial.
    other: Option<String>,
}

fn leaves(_: &mut SchemaGenerator) -> Schema {
    one_of(LEAVES.map(|(sort, _)| sort))
}

impl Recording for BagLeft {
    const SUBJECT: Subject = Subject::Bag;
    const WRITES: (&'static str, &'static str) = ("rooted end", "bags");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/bags/{id}/elsewhere")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("went", &self.went).with("seeds", self.seeds);
        pairs.maybe("other", self.other.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let gone =
            |went: &str, seeds| Self { id: SaveId::example(), went: went.into(), seeds, ..Self::default() };
        vec![
            ("surplus", "2 rooted seeds are not needed", 201, gone("surplus", 2)),
            ("more", "More than are on paper", 422, gone("lost", 90)),
        ]
    }
}

pub fn add(table: Table) -> Table {
    let words = |name, summary, about| Words { name, group: GROUP, summary, about };
    table
        .save::<Count>(
            "/bags/{id}/counts",
            words(
                "recordCount",
                "Count a bag",
                "What is new since the last look: not what was counted before.",
            ),
        )
        .save::<Happening>("/bags/{id}/events", words("recordEvent", "Something happened to a bag", ""))
        .save::<Closing>("/bags/{id}/closings", words("closeBag", "Close a bag, or keep it on", ""))
        .save::<BagLeft>("/bags/{id}/leavings", words("recordBagLeaving", "Seeds leave a bag", ""))
}
