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
        form.refuse(
            what,
            format!("{name} would be new, and is near {} in spelling. Which is meant?", near[0]),
        );
        open.push(Question { what, field, name: name.clone(), near });
    };
    let kind = kind_key(&naming.kind);
    let near = if known.kinds.contains_key(&kind) { Vec::new() } else { known.near_kinds(&naming.kind) };
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
