pub mod audit;
pub mod me;
pub mod members;
pub mod outside;
pub mod passkeys;
pub mod proof;
pub mod tokens;

use crate::web::forms::Form;

/// One of a member's own means of coming in, as it is listed (`accounts/_listed.html`); its form has a key of its own.
struct Listed {
    path: String,
    name: String,
    words: String,
    /// What its button says.
    button: &'static str,
    end: Form,
}
