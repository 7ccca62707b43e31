pub mod care;
mod group;
pub mod report;
pub mod source;
pub mod variety;
