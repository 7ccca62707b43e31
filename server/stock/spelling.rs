//! New names that are near known ones in spelling: which is meant?

use super::known::Known;
use super::model::Naming;
use super::names;
use super::published::kind_key;
use crate::web::forms::Form;

/// A new name with others near it.
pub struct Question {
    pub what: &'static str,
    /// The field that holds the answer: the name that is meant, the new one itself included.
    pub field: String,
    pub name: String,
    pub near: Vec<String>,
}

impl Question {
    pub fn legend(&self) -> String {
        named(self.what, &self.name)
    }
}

/// `The variety Kestrel`: `what` is `kind`, `variety` or `source`.
pub fn named(what: &str, name: &str) -> String {
    match what {
        "kind" => t!("stock-the-kind", name = name),
        "variety" => t!("stock-the-variety", name = name),
        _ => t!("stock-the-source", name = name),
    }
}

/// Asks which name is meant: the new one, or the known one near it.
pub fn which_is_meant(name: &str, near: &str) -> String {
    t!("stock-which-is-meant", name = name, near = near)
}

/// Puts the answers that the form holds into `naming`. What is not answered yet is refused beside its field and
/// given back.
pub fn settle(known: &Known, form: &mut Form, naming: &mut Naming) -> Vec<Question> {
    let mut open = Vec::new();
    let mut settle = |what: &'static str, name: &mut String, near: Vec<String>| {
        let field = format!("meant_{what}");
        let answer = form.value(&field).to_owned();
        if near.is_empty() || answer == *name {
            return;
        }
        if near.contains(&answer) {
            *name = answer;
            return;
        }
        form.refuse(what, which_is_meant(name, &near[0]));
        open.push(Question { what, field, name: name.clone(), near });
    };
    let kind = kind_key(&naming.kind);
    let there = known.kinds.get(&kind);
    if let Some(name) = there.filter(|name| kind_key(name) != kind) {
        naming.kind.clone_from(name);
    }
    let near = if there.is_some() { Vec::new() } else { known.near_kinds(&naming.kind) };
    settle("kind", &mut naming.kind, near);
    let variety = (kind_key(&naming.kind), names::key(&naming.variety));
    let there = known.varieties.contains_key(&variety);
    let near = if there { Vec::new() } else { known.near_varieties(&naming.kind, &naming.variety) };
    settle("variety", &mut naming.variety, near);
    let there = naming.own.is_some() || known.sources.contains_key(&names::key(&naming.source));
    let near = if there { Vec::new() } else { known.near_sources(&naming.source) };
    settle("source", &mut naming.source, near);
    open
}
