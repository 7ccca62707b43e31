pub mod line;
pub mod lines;
pub mod season;
