mod list;
mod measures;
mod new;
mod rooting;
mod show;
mod soak;

pub use list::list;
pub use new::new;
pub use show::show;
pub use soak::{paper, seeds, tally};

pub(super) use new::{MOST_ROWS, WITHOUT, draw as draw_new, ended_meanwhile, pair_rows};
pub(super) use show::draw as draw_show;
pub(super) use soak::{draw_paper, draw_seeds, draw_tally, paper_rows};
