pub mod edit;
pub mod kinds;
pub mod ledger;
pub mod letters;
pub mod names;
