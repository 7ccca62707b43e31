//! What the club trusts the program with, tried by force: crashes, power cuts, faults, backups, upgrades, many at once.
//! Each harness runs short here; an environment variable named in its first lines lets it go on for longer, and
//! `tests/endure/figures.md` keeps the long runs' results. SQLite by default; `TEST_DATABASE_URL=postgres://...`
//! runs the same on PostgreSQL.

mod support;

mod away;
mod backups;
mod broken_disk;
mod clocks;
mod crashes;
mod damaged;
mod fuzz;
mod load;
mod moving;
mod outgoing;
mod parallel;
mod power_cuts;
mod races;
mod reached;
mod restore;
mod schemas;
mod senders;
mod steady;
mod syncs;
mod troubles;
mod two;
mod upgrades;
mod wire;
