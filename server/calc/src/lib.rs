//! Germination arithmetic and statistics: pure functions on plain numbers.
//!
//! No input or output, no clock, no environment. The pages of the server and the commands `reckon`
//! and `analyse` call the same functions.

pub mod curve;
pub mod mixed;
pub mod reckon;
pub mod shrinkage;
pub mod special;
pub mod table;
