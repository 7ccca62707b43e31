pub mod outcomes;
pub mod plant;
pub mod trays;
