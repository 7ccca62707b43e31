//! Hilum.
