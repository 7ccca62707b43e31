//! Questions about the names of a list that nobody but its owner can answer; nothing is chosen beforehand.

use crate::stock::spelling;
use crate::web::forms::Form;

/// What [`Choice::what`] says where kind and variety may have changed places.
pub const ORDER: &str = "order";

/// A new name with others near it in spelling, or a kind and variety that look swapped: which one is meant?
#[derive(Debug, Clone)]
pub struct Choice {
    /// Field of the form that holds the answer: the name that is meant, the new one itself included.
    pub field: String,
    /// `variety`, `source`, `kind` or [`ORDER`].
    pub what: &'static str,
    pub name: String,
    pub near: Vec<String>,
}

impl Choice {
    pub fn legend(&self) -> String {
        match self.what {
            ORDER => t!("transfer-the-row-with", names = self.name),
            what => spelling::named(what, &self.name),
        }
    }

    /// What is said of the name as it stands.
    pub fn as_it_stands(&self) -> &'static str {
        if self.what == ORDER { t!("transfer-is-right") } else { t!("stock-is-a-new-one") }
    }

    /// ` checked` where the form answers with `name`.
    pub fn checked(&self, form: &Form, name: &str) -> &'static str {
        if form.value(&self.field) == name { " checked" } else { "" }
    }

    /// Whether the form says which one is meant.
    pub fn answered(&self, form: &Form) -> bool {
        let answer = form.value(&self.field);
        answer == self.name || self.near.iter().any(|n| n == answer)
    }

    fn question(&self) -> String {
        let Self { name, near, .. } = self;
        let near = near.first().map_or("", String::as_str);
        if self.what == ORDER {
            return t!("transfer-or-is-it", names = name, other = near);
        }
        spelling::which_is_meant(name, near)
    }
}

/// Refuses each choice that the form leaves open, beside it; whether there was none.
pub fn all_answered(choices: &[Choice], form: &mut Form) -> bool {
    let open: Vec<&Choice> = choices.iter().filter(|c| !c.answered(form)).collect();
    for choice in &open {
        form.refuse(&choice.field, choice.question());
    }
    open.is_empty()
}

/// A kind and variety in words, and the other way round; in the language of whoever is asked.
pub fn orders(kind: &str, variety: &str) -> [String; 2] {
    let words = |kind: &str, variety: &str| t!("transfer-kind-and-variety", kind = kind, variety = variety);
    [words(kind, variety), words(variety, kind)]
}
