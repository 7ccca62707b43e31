mod soak;
mod start;
mod step;

pub use soak::{paper, seeds, tally};
pub use start::start;
pub use step::{note, step};

use crate::web::forms::Form;

/// The same form with `more` rows, at most `most`, when that was asked for.
fn more_rows(form: &Form, rows: i64, most: i64) -> Option<Form> {
    form.ticked("more").then(|| {
        let start =
            Form::from_pairs(vec![("key".into(), form.key().into())]).with("rows", (rows + 2).min(most));
        let kept = form.pairs().filter(|(name, _)| name != "more" && name != "rows");
        kept.fold(start, |form, (name, value)| form.with(name, value))
    })
}
