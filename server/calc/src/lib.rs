//! Germination arithmetic and statistics: pure functions on plain numbers.
//!
//! No input or output, no clock, no environment. The pages of the server and the commands `reckon`
//! and `analyse` call the same functions.

pub mod ageing;
pub mod analyse;
pub mod blocks;
pub mod club;
pub mod compare;
pub mod curve;
pub mod dice;
pub mod dilution;
pub mod event_time;
pub mod floaters;
pub mod kinds;
pub mod linked;
pub mod mixed;
pub mod power;
pub mod proportion;
pub mod reckon;
pub mod replicates;
pub mod retest;
pub mod ring_trial;
pub mod roots;
pub mod shrinkage;
pub mod sowing;
pub mod special;
pub mod standard_day;
pub mod strata;
pub mod table;
pub mod tails;
pub mod thermal;
pub mod timing;
pub mod units;
pub mod viability;
