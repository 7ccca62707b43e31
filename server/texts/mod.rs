//! Every text that people read on pages, in each language: Fluent messages under `templates/texts`, one folder for a
//! language and in it one file for each noun. [`t!`](crate::t) and [`h!`](crate::h) say them in the language of the
//! request. The command line, the log, the API and files for other programs speak English.

mod catalogue;
mod language;
mod markup;

pub use catalogue::{Value, filled, of_scripts, plain};
pub use language::{Language, in_english, listen, same, speak, speak_as, speak_to, speaking, spoken};
pub use markup::{Markup, marked};

/// The text with this name in the language of the request: `t!("bags-close")` is a `&'static str`,
/// `t!("bags-seeds", n = bag.seeds)` a `String`. Numbers are whole ones; others come as text, as [`crate::web::words`]
/// writes them.
#[macro_export]
macro_rules! t {
    ($id:literal) => { $crate::texts::plain($id) };
    ($id:literal, $($name:ident = $value:expr),+ $(,)?) => {
        $crate::texts::filled($id, &[$((stringify!($name), $crate::texts::Value::value(&$value))),+])
    };
}

/// As [`t!`](crate::t) where the message holds HTML: `h!("bags-from", source = bag.source)` in a template. What is
/// filled in is escaped.
#[macro_export]
macro_rules! h {
    ($id:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::texts::marked($id, &[$((stringify!($name), $crate::texts::Value::value(&$value))),*])
    };
}
