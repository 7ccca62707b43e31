//! Germination arithmetic and statistics: pure functions on plain numbers.
