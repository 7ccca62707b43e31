use super::hundred::Hundred;
use crate::web::words::percent;
use hilum_calc::club::{Estimate, Pair};

/// Below this a Holm-adjusted p-value stands when all pairs of a variety are read together.
const FALSE_ALARMS: f64 = 0.05;

/// How far a difference is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finding {
    /// It stands though several pairs are read at once.
    Shown,
    /// It stands for this pair read alone.
    Probable,
    NotShown,
    /// The whole club says one thing, the growers who had both another.
    Unsettled,
}

/// What the growers who had both found, beside the whole club.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// Nobody had both.
    Nobody,
    Same,
    /// The same way, but by themselves they do not show it.
    Leans,
    /// The other way, but by themselves they do not show it.
    LeansAgainst,
    Opposite,
}

/// Two sources of one variety that can be compared; `better` is the one that the whole club puts first.
#[derive(Debug, Clone)]
pub struct Contrast<'c> {
    pub better: &'c str,
    pub worse: &'c str,
    /// What the whole club says.
    pub whole: Hundred,
    /// The probability that `better` roots better, 0.5 to 1.
    pub chance: f64,
    /// What the growers who had both found.
    pub within: Option<Hundred>,
    /// How many had both.
    pub growers: usize,
    /// The whole club's number allows for the lots of one source being unlike.
    lots: bool,
    /// The whole club by itself leaves no room for no difference.
    clear: bool,
    pub finding: Finding,
    agreement: Agreement,
}

impl<'c> Contrast<'c> {
    /// Of a pair whose sources have these adjusted rates; `None` where the two cannot be compared.
    /// `middle` is the logit around which the rates of the growers who had both lie.
    pub fn of(pair: &'c Pair, (growers, middle): (usize, f64), lots: bool) -> Option<Self> {
        let whole = pair.whole?;
        let turned = whole.log_odds_ratio.value < 0.0;
        let seen =
            |e: Estimate| if turned { Estimate { value: -e.value, low: -e.high, high: -e.low } } else { e };
        let (difference, within) = (Hundred::of(&seen(whole.difference)), pair.within_growers.map(seen));
        let clear = seen(whole.log_odds_ratio).low > 0.0 && difference.low > 0.0;
        let (first, second) = (pair.a.as_str(), pair.b.as_str());
        let (better, worse) = if turned { (second, first) } else { (first, second) };
        let agreement = agreement(within.as_ref());
        Some(Self {
            better,
            worse,
            whole: difference,
            chance: if turned { 1.0 - whole.probability_a_better } else { whole.probability_a_better },
            within: within.map(|w| Hundred::around(middle, &w)),
            growers,
            lots,
            clear,
            finding: finding(clear, whole.p_holm < FALSE_ALARMS, (agreement, growers)),
            agreement,
        })
    }

    /// Whether these two are compared.
    pub fn is_of(&self, one: &str, other: &str) -> bool {
        (self.better, self.worse) == (one, other) || (self.better, self.worse) == (other, one)
    }

    /// Whether a difference may be acted on.
    pub fn differs(&self) -> bool {
        matches!(self.finding, Finding::Shown | Finding::Probable)
    }

    /// "A probably roots better than B: 12 more of 100 seeds (2 to 21), chance 98 %", and what growers who had both
    /// say to it. Where only they show it, they come first.
    pub fn sentence(&self) -> String {
        let (better, worse, how) = (self.better, self.worse, self.how());
        if let Some(within) = self.within.filter(|_| !self.clear) {
            let (n, found) = (self.growers, within.words());
            return if self.lots {
                t!(
                    "compare-probable-by-both-of-lots",
                    better = better,
                    worse = worse,
                    n = n,
                    found = found,
                    how = how
                )
            } else {
                t!(
                    "compare-probable-by-both",
                    better = better,
                    worse = worse,
                    n = n,
                    found = found,
                    how = how
                )
            };
        }
        let both = self.beside();
        match self.finding {
            Finding::Shown => t!("compare-shown", better = better, worse = worse, how = how, both = both),
            _ => t!("compare-probable", better = better, worse = worse, how = how, both = both),
        }
    }

    /// Of two that are not told apart: who is ahead, and what the growers who had both say to it.
    pub fn undecided(&self) -> String {
        let (better, worse, how, both) = (self.better, self.worse, self.how(), self.beside());
        match self.finding {
            Finding::Unsettled => {
                t!("compare-unsettled", better = better, worse = worse, how = how, both = both)
            }
            _ => t!("compare-if-anything", better = better, worse = worse, how = how, both = both),
        }
    }

    fn how(&self) -> String {
        t!("compare-found-with-chance", found = self.whole.words(), chance = percent(self.chance))
    }

    /// What the growers who had both say to it.
    pub fn beside(&self) -> String {
        let found = self.within.map_or_else(String::new, |w| w.words());
        let n = self.growers;
        match self.agreement {
            Agreement::Nobody => t!("compare-nobody-had-both").to_owned(),
            Agreement::Same if n == 1 && !self.clear => t!("compare-one-is-not-enough", found = found),
            Agreement::Same => t!("compare-both-found-the-same", n = n, found = found),
            Agreement::Leans if self.within.is_some_and(|w| w.value.round() == 0.0) => {
                t!("compare-both-saw-no-difference", n = n, found = found)
            }
            Agreement::Leans => t!("compare-both-lean-the-same", n = n, found = found),
            Agreement::LeansAgainst => t!("compare-both-lean-against", n = n, found = found),
            Agreement::Opposite => t!("compare-both-found-the-opposite", n = n, found = found),
        }
    }

    /// Whether the growers who had both say otherwise than the whole club.
    pub fn disagrees(&self) -> bool {
        matches!(self.agreement, Agreement::LeansAgainst | Agreement::Opposite)
    }

    /// The verdict in a few words, for a table.
    pub fn verdict(&self) -> &'static str {
        match self.finding {
            Finding::Shown => t!("compare-verdict-shown"),
            Finding::Probable if !self.clear => t!("compare-verdict-by-both"),
            Finding::Probable if self.disagrees() => t!("compare-verdict-by-club"),
            Finding::Probable => t!("compare-verdict-probable"),
            Finding::NotShown => t!("compare-verdict-not-shown"),
            Finding::Unsettled => t!("compare-verdict-unsettled"),
        }
    }
}

fn agreement(within: Option<&Estimate>) -> Agreement {
    match within {
        None => Agreement::Nobody,
        Some(w) if w.low > 0.0 => Agreement::Same,
        Some(w) if w.high < 0.0 => Agreement::Opposite,
        Some(w) if w.value >= 0.0 => Agreement::Leans,
        Some(_) => Agreement::LeansAgainst,
    }
}

/// The growers who had both come first: what two or more of them show is probable though the rest of the club does
/// not show it, and nothing is shown against them.
fn finding(clear: bool, together: bool, (agreement, growers): (Agreement, usize)) -> Finding {
    match agreement {
        Agreement::Opposite => Finding::Unsettled,
        Agreement::LeansAgainst if clear => Finding::Probable,
        _ if clear && together => Finding::Shown,
        _ if clear => Finding::Probable,
        Agreement::Same if growers > 1 => Finding::Probable,
        _ => Finding::NotShown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_growers_who_had_both_found_weighs_first() {
        assert_eq!(finding(true, true, (Agreement::Nobody, 0)), Finding::Shown);
        assert_eq!(finding(true, false, (Agreement::Leans, 3)), Finding::Probable);
        assert_eq!(finding(true, true, (Agreement::LeansAgainst, 3)), Finding::Probable);
        assert_eq!(finding(true, true, (Agreement::Opposite, 3)), Finding::Unsettled);
        assert_eq!(finding(false, false, (Agreement::Same, 2)), Finding::Probable);
        assert_eq!(finding(false, false, (Agreement::Same, 1)), Finding::NotShown);
        assert_eq!(finding(false, false, (Agreement::Leans, 2)), Finding::NotShown);
    }
}
