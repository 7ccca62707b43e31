pub mod edit;
pub mod kinds;
pub mod ledger;
pub mod letters;
pub mod list;
pub mod names;
pub mod show;

/// A number as published or typed, with the decimal mark of the language.
fn decimal(number: impl ToString) -> String {
    crate::web::words::decimal(&number.to_string())
}
