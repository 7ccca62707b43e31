use serde::{Deserialize, Serialize};

/// One random term.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Term {
    /// Lots within variety by source.
    Lot,
    /// Variety by source.
    Cell,
    /// Varieties.
    Variety,
    /// Growers.
    Grower,
    /// Clubs that growers belong to.
    Club,
    /// Sources across varieties.
    Source,
    /// Trials.
    Trial,
}

impl Term {
    /// Nested terms first, from the innermost out; then the crossed ones; trials last.
    pub const ALL: [Self; 7] =
        [Self::Lot, Self::Cell, Self::Variety, Self::Grower, Self::Club, Self::Source, Self::Trial];

    /// Whether each of its effects lies within one effect of the next nested term.
    pub(super) fn is_nested(self) -> bool {
        matches!(self, Self::Lot | Self::Cell | Self::Variety)
    }
}

/// Which random terms the model has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Terms {
    /// Varieties.
    pub variety: bool,
    /// Variety by source.
    pub cell: bool,
    /// Lots within variety by source.
    pub lot: bool,
    /// Growers.
    pub grower: bool,
    /// Clubs; as far as the trials are of more than one.
    pub club: bool,
    /// Sources across varieties.
    pub source: bool,
    /// Trials.
    pub trial: bool,
}

impl Terms {
    /// Those of a club's model: all but lots and sources across varieties.
    pub const CLUB: Self =
        Self { variety: true, cell: true, lot: false, grower: true, club: true, source: false, trial: true };

    /// Whether `term` is among them.
    #[must_use]
    pub fn has(mut self, term: Term) -> bool {
        *self.place(term)
    }

    /// The same with `term` in or out.
    #[must_use]
    pub fn with(mut self, term: Term, on: bool) -> Self {
        *self.place(term) = on;
        self
    }

    pub(super) fn list(self) -> impl Iterator<Item = Term> {
        Term::ALL.into_iter().filter(move |term| self.has(*term))
    }

    fn place(&mut self, term: Term) -> &mut bool {
        match term {
            Term::Lot => &mut self.lot,
            Term::Cell => &mut self.cell,
            Term::Variety => &mut self.variety,
            Term::Grower => &mut self.grower,
            Term::Club => &mut self.club,
            Term::Source => &mut self.source,
            Term::Trial => &mut self.trial,
        }
    }
}

/// A standard deviation on the logit scale for each random term.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Sd {
    /// Of varieties.
    pub variety: f64,
    /// Of variety by source.
    pub cell: f64,
    /// Of lots within variety by source; 0 where the model has none.
    #[serde(default)]
    pub lot: f64,
    /// Of growers.
    pub grower: f64,
    /// Of clubs; 0 where the model has none.
    #[serde(default, skip_serializing_if = "none")]
    pub club: f64,
    /// Of sources across varieties; 0 where the model has none.
    #[serde(default)]
    pub source: f64,
    /// Of trials.
    pub trial: f64,
}

impl Sd {
    /// The one of `term`.
    #[must_use]
    pub fn of(mut self, term: Term) -> f64 {
        *self.place(term)
    }

    /// The same with that of `term` set.
    #[must_use]
    pub fn with(mut self, term: Term, sd: f64) -> Self {
        *self.place(term) = sd;
        self
    }

    pub(super) fn each(f: impl Fn(Term) -> f64) -> Self {
        Term::ALL.into_iter().fold(Self::default(), |sd, term| sd.with(term, f(term)))
    }

    fn place(&mut self, term: Term) -> &mut f64 {
        match term {
            Term::Lot => &mut self.lot,
            Term::Cell => &mut self.cell,
            Term::Variety => &mut self.variety,
            Term::Grower => &mut self.grower,
            Term::Club => &mut self.club,
            Term::Source => &mut self.source,
            Term::Trial => &mut self.trial,
        }
    }
}

fn none(sd: &f64) -> bool {
    *sd == 0.0
}

/// Fixed effects and standard deviations.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// Fixed effects.
    pub beta: Vec<f64>,
    /// Standard deviations.
    pub sd: Sd,
}

impl Point {
    pub(super) fn flat(&self, terms: Terms) -> Vec<f64> {
        let sds = terms.list().map(|term| self.sd.of(term));
        self.beta.iter().copied().chain(sds).collect()
    }

    pub(super) fn with(&self, flat: &[f64], terms: Terms) -> Self {
        let (beta, rest) = flat.split_at(self.beta.len());
        let sd = terms.list().zip(rest).fold(self.sd, |sd, (term, value)| sd.with(term, *value));
        Self { beta: beta.to_vec(), sd }
    }
}
