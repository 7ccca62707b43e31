use super::catalogue::filled;
use askama::FastWritable;
use askama::filters::{Html, HtmlSafe, escape};
use fluent_bundle::FluentValue;
use std::fmt;

/// A text with HTML of ours in it.
#[derive(Debug, Clone)]
pub struct Markup(String);

impl HtmlSafe for Markup {}

impl fmt::Display for Markup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl FastWritable for Markup {
    fn write_into(&self, to: &mut dyn fmt::Write, _: &dyn askama::Values) -> askama::Result<()> {
        Ok(to.write_str(&self.0)?)
    }
}

/// The message with its values escaped.
pub fn marked(id: &'static str, values: &[(&'static str, FluentValue)]) -> Markup {
    let safe: Vec<(&'static str, FluentValue)> = values.iter().map(|(name, v)| (*name, safe(v))).collect();
    Markup(filled(id, &safe))
}

fn safe<'v>(value: &'v FluentValue) -> FluentValue<'v> {
    match value {
        FluentValue::String(text) => {
            let text = escape(text.as_ref(), Html).map_or_else(|_| String::new(), |safe| safe.to_string());
            FluentValue::from(text)
        }
        other => other.clone(),
    }
}
