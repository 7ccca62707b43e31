use crate::api::record::{Pairs, Recording, Subject};
use crate::api::table::{Table, Words};
use crate::api::values::{Moment, SaveId};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Takes an entry back, with all that was written in the same act.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Void {
    id: SaveId,
    #[schemars(length(min = 1, max = 500))]
    why: String,
}

impl Recording for Void {
    const SUBJECT: Subject = Subject::Entry;
    const WRITES: (&'static str, &'static str) = ("", "bags");

    fn form(id: &str) -> String {
        format!("/entries/{id}/void")
    }

    fn id(&self) -> &SaveId {
        &self.id
    }

    fn at(&self) -> Option<&Moment> {
        None
    }

    fn fields(&self) -> Pairs {
        Pairs::default().with("why", &self.why)
    }

    fn examples() -> Vec<(&'static str, &'static str, u16, Self)> {
        let void = |why: &str| Self { id: SaveId::example(), why: why.into() };
        vec![
            ("voided", "Counted in the wrong bag", 201, void("counted in the wrong bag")),
            ("unexplained", "Without a reason", 422, void("")),
        ]
    }
}

pub fn add(table: Table) -> Table {
    let words = Words {
        name: "voidEntry",
        group: "Entries",
        summary: "Take an entry back",
        about: "Entries are never changed or deleted: this says who took it back, when and why. What later entries \
                stand on is refused.",
    };
    table.save::<Void>("/entries/{id}/voids", words)
}
