//! Hilum: numbered seed lots from packet to labelled tray cell, and the club's germination table.

pub mod db;
