pub mod end;
pub mod hand_out;
pub mod plan;
