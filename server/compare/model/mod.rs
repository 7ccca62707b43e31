mod answer;
pub mod care;
mod contrast;
mod hundred;
pub mod source;
mod variety;
mod why;

pub use answer::Answer;
pub use contrast::Contrast;
pub use hundred::Hundred;
pub use variety::{Source, Variety};
pub use why::Reasons;
