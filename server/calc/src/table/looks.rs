use super::packed::Packed;
use std::borrow::Cow;
use std::cmp::Ordering;

/// One look into a bag: what is new since the look before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Hours since the bag went on paper, more than 0.
    pub hours: f64,
    /// Seeds whose root came out.
    pub rooted: u32,
    /// Seeds judged abnormal; they never count as rooted later.
    pub abnormal: u32,
    /// Dead seeds removed.
    pub dead: u32,
}

/// All looks into one bag.
#[derive(Debug, Clone, PartialEq)]
pub enum Looks<'a> {
    /// In any order.
    Listed(Cow<'a, [Look]>),
    /// As a large club holds them.
    Packed(&'a Packed),
}

impl Looks<'_> {
    /// In order of time. Those of one hour stand by their counts, so that the order they came in never matters.
    #[must_use]
    pub fn in_order(&self) -> Cow<'_, [Look]> {
        match self {
            Self::Listed(looks) if looks.is_sorted_by(|a, b| by_time(a, b).is_le()) => Cow::Borrowed(looks),
            Self::Listed(looks) => Cow::Owned(ordered(looks)),
            Self::Packed(looks) => Cow::Owned(looks.to_vec()),
        }
    }
}

impl From<Vec<Look>> for Looks<'_> {
    fn from(looks: Vec<Look>) -> Self {
        Self::Listed(Cow::Owned(looks))
    }
}

impl<'a> From<&'a [Look]> for Looks<'a> {
    fn from(looks: &'a [Look]) -> Self {
        Self::Listed(Cow::Borrowed(looks))
    }
}

impl<'a> From<&'a Packed> for Looks<'a> {
    fn from(looks: &'a Packed) -> Self {
        Self::Packed(looks)
    }
}

fn by_time(a: &Look, b: &Look) -> Ordering {
    let counts = |l: &Look| (l.rooted, l.abnormal, l.dead);
    a.hours.total_cmp(&b.hours).then_with(|| counts(a).cmp(&counts(b)))
}

/// A copy in order of time.
pub fn ordered(looks: &[Look]) -> Vec<Look> {
    let mut looks = looks.to_vec();
    looks.sort_by(by_time);
    looks
}
