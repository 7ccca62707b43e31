//! What is stored of the stock. Find-or-make functions are safe when two people add the same name at once.

mod blind;
mod joins;
mod kinds;
mod lots;
mod merges;
mod packets;
mod sources;
mod varieties;

pub use blind::{blind_lot, open_blind};
pub use joins::join;
pub use kinds::{
    Kind, find_kind, insert_kind, kind, kinds, leading, make_kind, name_kind, own_kind, rename_kind,
};
pub use lots::{correct_parents, find_or_make_lot};
pub use merges::{Merge, about, merge, merges_of, unmerge};
pub use packets::{
    Other, Row, Trial, add_packet, any_packet, change, children, give, insert_marked, insert_packet,
    other_members, packet, packets, packets_after, pass_on, set_rough, trials_of,
};
pub use sources::{Saved, Source, find_or_make_source, saved, saved_by, source, sources};
pub use varieties::{Variety, find_or_make_variety, note_species, varieties, variety};

use crate::db::FromRow;

/// Every SQL text of the stock.
pub fn all_sql() -> Vec<&'static str> {
    [blind::ALL, joins::ALL, kinds::ALL, lots::ALL, merges::ALL, packets::ALL, sources::ALL, varieties::ALL]
        .concat()
}

#[derive(FromRow)]
struct Id {
    id: String,
}
