use super::{MOST, named_and_dated};
use crate::api::record::{self, Pairs, Recording, Subject};
use crate::api::table::{Table, Words};
use crate::api::values::{Moment, SaveId, example_id, one_of, one_or_none};
use crate::trials::model::{FLOATERS, LEAVES, NOTES};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

const GROUP: &str = "Trials";

/// A trial to be started: seeds of one packet in one routine.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NewTrial {
    id: SaveId,
    /// When the soak began; now where it is left out.
    at: Option<Moment>,
    /// The id of your packet.
    packet: String,
    /// The id of the routine, as /routines lists it.
    routine: String,
    #[schemars(range(min = 1, max = MOST))]
    seeds: i64,
    /// How many were in the packet before, where somebody counted: also where fewer are there by the book.
    #[schemars(range(min = 0, max = MOST))]
    recount: Option<i64>,
}

impl Recording for NewTrial {
    const SUBJECT: Subject = Subject::Nothing;
    const WRITES: (&'static str, &'static str) = ("trial seeds", "trials");
    named_and_dated!();

    fn form(_: &str) -> String {
        "/trials/new".into()
    }

    fn fields(&self) -> Pairs {
        let (seeds, recount) = (format!("seeds_{}", self.packet), format!("recount_{}", self.packet));
        let pairs = Pairs::default().with("packet", &self.packet).with("routine", &self.routine);
        pairs.with(&seeds, self.seeds).maybe(&recount, self.recount)
    }

    fn pointer(field: &str) -> String {
        record::pointer(field.split('_').next().unwrap_or_default())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let of = |seeds| Self {
            id: SaveId::example(),
            at: None,
            packet: example_id("packets"),
            routine: example_id("routines"),
            seeds,
            recount: None,
        };
        vec![
            ("started", "20 seeds into the soak", 201, of(20)),
            ("short", "More than the packet holds by the book", 422, of(500)),
        ]
    }
}

/// The running step is done, or skipped.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StepDone {
    id: SaveId,
    /// When it ended; now where it is left out.
    at: Option<Moment>,
    /// Which step, from 1: it must be the running one.
    #[schemars(range(min = 1, max = 99))]
    step: i64,
    #[serde(default)]
    skipped: bool,
    /// How long it really took; since the step before it where it is left out.
    #[schemars(range(min = 0, max = 43_200))]
    minutes: Option<i64>,
    /// The strength really used.
    #[schemars(range(min = 0.01, max = 100.0))]
    percent: Option<f64>,
    #[schemars(length(max = 2000))]
    note: Option<String>,
}

impl Recording for StepDone {
    const SUBJECT: Subject = Subject::Trial;
    const WRITES: (&'static str, &'static str) = ("step", "trials");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/trials/{id}/step")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("step", self.step).tick("skipped", self.skipped);
        let pairs = pairs.maybe("minutes", self.minutes).maybe("percent", self.percent);
        pairs.maybe("note", self.note.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let done = |step| Self {
            id: SaveId::example(),
            at: None,
            step,
            skipped: false,
            minutes: Some(30),
            percent: None,
            note: None,
        };
        vec![
            ("done", "The first step took 30 minutes", 201, done(1)),
            ("later", "A step that is not running", 422, done(9)),
        ]
    }
}

/// The float check at the end of the soak.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Tally {
    id: SaveId,
    /// When you looked; now where it is left out.
    at: Option<Moment>,
    #[schemars(range(min = 0, max = MOST))]
    sank: i64,
    #[schemars(range(min = 0, max = MOST))]
    floated: i64,
    /// What became of the floaters; needed where any floated.
    #[schemars(schema_with = "floaters")]
    floaters: Option<String>,
    /// Says that so many there were, where the book has another number soaking.
    #[serde(default)]
    recount: bool,
}

fn floaters(_: &mut SchemaGenerator) -> Schema {
    one_or_none(FLOATERS)
}

impl Recording for Tally {
    const SUBJECT: Subject = Subject::Trial;
    const WRITES: (&'static str, &'static str) = ("float tally", "trials");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/trials/{id}/tally")
    }

    fn fields(&self) -> Pairs {
        let pairs = Pairs::default().with("sank", self.sank).with("floated", self.floated);
        pairs.maybe("floaters", self.floaters.as_ref()).tick("recount", self.recount)
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let told = |sank, floaters: Option<&str>| Self {
            id: SaveId::example(),
            at: None,
            sank,
            floated: 3,
            floaters: floaters.map(str::to_owned),
            recount: false,
        };
        vec![
            ("tally", "27 sank, 3 floated and stay in", 201, told(27, Some("kept in"))),
            ("sum", "Not as many as are soaking", 422, told(20, Some("kept in"))),
        ]
    }
}

/// Seeds that go on damp paper.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OnPaper {
    id: SaveId,
    /// When they went on paper; now where it is left out.
    at: Option<Moment>,
    /// The bags to be made.
    #[schemars(length(min = 1, max = 12))]
    bags: Vec<NewBag>,
    /// Says that so many there were, where the book has fewer soaking.
    #[serde(default)]
    recount: bool,
}

/// One bag to be made.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NewBag {
    /// Seeds in it.
    #[schemars(range(min = 1, max = MOST))]
    seeds: i64,
    /// It holds the floaters.
    #[serde(default)]
    floaters: bool,
    /// Where it lies.
    #[schemars(length(max = 80))]
    place: Option<String>,
    /// Degrees C.
    #[schemars(range(min = -30.0, max = 60.0))]
    warmth_c: Option<f64>,
    /// Of these seeds, rooted during the soak; left out where nobody looked.
    #[schemars(range(min = 0, max = MOST))]
    rooted: Option<i64>,
}

impl Recording for OnPaper {
    const SUBJECT: Subject = Subject::Trial;
    const WRITES: (&'static str, &'static str) = ("bag seeds", "trials");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/trials/{id}/paper")
    }

    fn fields(&self) -> Pairs {
        let mut pairs = Pairs::default().with("rows", self.bags.len()).tick("recount", self.recount);
        for (n, bag) in self.bags.iter().enumerate() {
            let name = |field: &str| format!("{field}_{}", n + 1);
            pairs = pairs
                .with(&name("seeds"), bag.seeds)
                .tick(&name("floaters"), bag.floaters)
                .maybe(&name("place"), bag.place.as_ref())
                .maybe(&name("warmth"), bag.warmth_c)
                .maybe(&name("rooted"), bag.rooted);
        }
        pairs
    }

    fn pointer(field: &str) -> String {
        let row = field.rsplit_once('_').and_then(|(name, n)| Some((name, n.parse::<usize>().ok()?)));
        match row {
            Some((name, n)) => format!("/bags/{}{}", n.saturating_sub(1), record::pointer(name)),
            None => record::pointer(field),
        }
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let bag = |seeds| NewBag {
            seeds,
            floaters: false,
            place: Some("mat".into()),
            warmth_c: Some(28.0),
            rooted: None,
        };
        let of =
            |seeds| Self { id: SaveId::example(), at: None, bags: vec![bag(10), bag(seeds)], recount: false };
        vec![
            ("paper", "Two bags of 10 on the mat", 201, of(10)),
            ("more", "More than are soaking", 422, of(90)),
        ]
    }
}

/// Seeds that leave the soak, but not onto paper.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SoakLeft {
    id: SaveId,
    /// When it happened; now where it is left out.
    at: Option<Moment>,
    /// Where they went; `returned` seeds are back in the packet.
    #[schemars(schema_with = "leaves")]
    sort: String,
    #[schemars(range(min = 1, max = MOST))]
    seeds: i64,
}

fn leaves(_: &mut SchemaGenerator) -> Schema {
    one_of(LEAVES)
}

impl Recording for SoakLeft {
    const SUBJECT: Subject = Subject::Trial;
    const WRITES: (&'static str, &'static str) = ("trial seeds", "trials");
    named_and_dated!();

    fn form(id: &str) -> String {
        format!("/trials/{id}/seeds")
    }

    fn fields(&self) -> Pairs {
        Pairs::default().with("sort", &self.sort).with("seeds", self.seeds)
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let gone = |sort: &str, seeds| Self { id: SaveId::example(), at: None, sort: sort.into(), seeds };
        vec![
            ("lost", "2 were lost in the rinse", 201, gone("lost", 2)),
            ("more", "More than are soaking", 422, gone("returned", 90)),
        ]
    }
}

/// A note on a trial, or that its seeds were treated again.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TrialNote {
    id: SaveId,
    #[schemars(schema_with = "notes")]
    sort: String,
    /// Needed with `note`.
    #[schemars(length(max = 2000))]
    text: Option<String>,
}

fn notes(_: &mut SchemaGenerator) -> Schema {
    one_of(NOTES)
}

impl Recording for TrialNote {
    const SUBJECT: Subject = Subject::Trial;
    const WRITES: (&'static str, &'static str) = ("trial event", "trials");

    fn form(id: &str) -> String {
        format!("/trials/{id}/note")
    }

    fn id(&self) -> &SaveId {
        &self.id
    }

    fn at(&self) -> Option<&Moment> {
        None
    }

    fn fields(&self) -> Pairs {
        Pairs::default().with("sort", &self.sort).maybe("text", self.text.as_ref())
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let noted = |text: Option<&str>| Self {
            id: SaveId::example(),
            sort: "note".into(),
            text: text.map(str::to_owned),
        };
        vec![
            ("noted", "The fridge was at 8 °C", 201, noted(Some("fridge at 8 °C overnight"))),
            ("empty", "A note without words", 422, noted(None)),
        ]
    }
}

pub fn add(table: Table) -> Table {
    let words = |name, summary, about| Words { name, group: GROUP, summary, about };
    table
        .save::<NewTrial>("/trials", words("startTrial", "Start a trial", ""))
        .save::<StepDone>("/trials/{id}/steps", words("recordStep", "The running step is done", ""))
        .save::<Tally>("/trials/{id}/tallies", words("recordTally", "The float tally", ""))
        .save::<OnPaper>(
            "/trials/{id}/bags",
            words("putOnPaper", "Seeds onto damp paper", "Each bag gets a mark of its own."),
        )
        .save::<SoakLeft>("/trials/{id}/leavings", words("recordLeaving", "Seeds leave the soak", ""))
        .save::<TrialNote>("/trials/{id}/notes", words("noteTrial", "A note on a trial", ""))
}
