use arcstr::ArcStr;
use std::borrow::Borrow;
use std::collections::HashSet;
use std::fmt;
use std::ops::Deref;

/// What follows the name of a variety whose seed may be crossed: it is pooled apart.
pub const DOUBTFUL_CROSS: &str = " (doubtful cross)";

/// The name of a variety of the table as it is read.
pub fn read(variety: &str) -> String {
    match variety.strip_suffix(DOUBTFUL_CROSS) {
        None => variety.to_owned(),
        Some(named) => t!("rates-doubtful-cross", variety = named),
    }
}

/// A name that many bags share: kept once for all of them.
#[derive(Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(ArcStr);

impl Name {
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Deref for Name {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl PartialEq<str> for Name {
    fn eq(&self, other: &str) -> bool {
        *self.0 == *other
    }
}

impl PartialEq<&str> for Name {
    fn eq(&self, other: &&str) -> bool {
        *self.0 == **other
    }
}

impl Borrow<str> for Name {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl From<&str> for Name {
    fn from(text: &str) -> Self {
        Self(ArcStr::from(text))
    }
}

impl From<String> for Name {
    fn from(text: String) -> Self {
        Self(ArcStr::from(text))
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}

/// Every name once.
#[derive(Debug, Default)]
pub struct Names(HashSet<Name>);

impl Names {
    /// The one copy of `text`.
    pub fn one(&mut self, text: &str) -> Name {
        if let Some(known) = self.0.get(text) {
            return known.clone();
        }
        let new = Name::from(text);
        self.0.insert(new.clone());
        new
    }
}
