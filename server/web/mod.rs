//! What every feature's pages share.

pub mod address;
pub mod again;
pub mod away;
pub mod chrome;
pub mod code;
pub mod forms;
pub mod headers;
pub mod held;
pub mod help;
pub mod log;
pub mod made;
pub mod once;
pub mod outbox;
pub mod pace;
pub mod page;
pub mod qr;
pub mod said;
pub mod scripts;
pub mod session;
pub mod static_files;
pub mod words;
