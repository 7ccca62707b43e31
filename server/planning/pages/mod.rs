pub mod ageing;
pub mod enter;
pub mod line;
pub mod plan;
pub mod print;
pub mod season;
pub mod shopping;
pub mod weeks;
