//! Capacity and time of rooting by maximum likelihood: F(t) = p G(t), where p is the share of seeds
//! that will ever root and G the time of those that do. Looks at intervals, seeds still on paper,
//! seeds taken out dead (Ritz, Pipper & Streibig 2013, Eur. J. Agron. 45:1-6; Onofri, Mesgaran & Ritz
//! 2022, Weed Sci. 70:259-271).

mod climb;
mod fit;
mod forecast;
mod form;
mod likelihood;
mod profile;

pub use fit::{Errors, Fit};
pub use forecast::{Chance, GivingUp, giving_up};
pub use form::Form;

/// What became of seeds, on one clock from paper; any unit of time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fate {
    /// Rooted after look `l` (0: the start) and by look `r`.
    Rooted {
        /// The last look that found them not rooted.
        l: f64,
        /// The look that found them rooted.
        r: f64,
    },
    /// Not rooted when last seen at `l`.
    OnPaper {
        /// The last look.
        l: f64,
    },
    /// Taken out mouldy at `l`.
    Removed {
        /// The look that took them out.
        l: f64,
    },
}

/// Seeds of one bag with one fate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seeds {
    /// What became of them.
    pub fate: Fate,
    /// How many, 0 or more.
    pub count: f64,
    /// Which bag, for errors that allow for bags being unlike each other.
    pub bag: usize,
}

impl Seeds {
    /// Whether there are seeds and the times are in order.
    pub fn is_sound(&self) -> bool {
        let times = match self.fate {
            Fate::Rooted { l, r } => l >= 0.0 && r > l && r.is_finite(),
            Fate::OnPaper { l } | Fate::Removed { l } => l >= 0.0 && l.is_finite(),
        };
        times && self.count > 0.0 && self.count.is_finite()
    }
}

/// What a seed taken out mouldy says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Removed {
    /// Only that it had not rooted by then.
    Censored,
    /// That it would never have rooted.
    Never,
}

/// How a fit ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// A maximum inside the range of all three numbers.
    Ok,
    /// The likelihood rises up to p = 1: the looks do not yet show that any seed would not root.
    BoundaryP1,
    /// The looks do not determine the numbers: none rooted, or all between too few looks.
    NotEstimable,
}

impl Status {
    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::BoundaryP1 => "boundary_p_1",
            Self::NotEstimable => "not_estimable",
        }
    }
}
