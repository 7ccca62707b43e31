//! What every feature's pages share.

pub mod chrome;
pub mod forms;
pub mod headers;
pub mod once;
pub mod page;
pub mod said;
pub mod session;
pub mod static_files;
pub mod words;
