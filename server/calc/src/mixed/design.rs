use super::places::{Named, Places};
use super::term::{Sd, Term, Terms};
use std::ops::Range;

const MOST_CROSSED: usize = 1_000;
const MOST_FIXED: usize = 1_000;
const MOST_LINKS: usize = 4_000_000;

/// One trial: `x` rooted of `n` seeds. Counts may be fractions where the curve stood in for a look.
#[derive(Debug, Clone, Copy, Default)]
pub struct Trial<'a> {
    /// Names the variety's kind and variety; cells are nested in it.
    pub variety: &'a str,
    /// Names variety and source.
    pub cell: &'a str,
    /// Who the seed came from, the same for all trials of a cell; `None` everywhere leaves the term out.
    pub source: Option<&'a str>,
    /// Names the lot within its cell; `None` everywhere leaves the term out.
    pub lot: Option<&'a str>,
    /// Who grew it.
    pub grower: &'a str,
    /// The club of the grower; `None` everywhere, or one everywhere, leaves the term out.
    pub club: Option<&'a str>,
    /// Seeds rooted, 0 to `n`.
    pub x: f64,
    /// Seeds.
    pub n: f64,
}

/// The fixed part of the model.
#[derive(Debug, Clone)]
pub enum Fixed {
    /// One effect for each cell, no intercept.
    Cells,
    /// Columns of numbers; row-major, one row for each trial.
    Columns {
        /// Number of columns.
        width: usize,
        /// `width` numbers for each trial, in the order of the trials.
        values: Vec<f64>,
    },
}

/// Trials in canonical order with their places in each term.
#[derive(Debug, Clone)]
pub struct Design {
    pub(super) x: Vec<f64>,
    pub(super) n: Vec<f64>,
    pub(super) fixed: Fixed,
    /// Of each trial, which pair it belongs to: grower and lot, or cell where there are no lots.
    pub(super) pair: Vec<usize>,
    /// Of each pair, the number of its cell.
    pub(super) cell_of: Vec<usize>,
    pub(super) places: Places,
    /// Names in alphabetical order, as the effects are ordered.
    pub cells: Vec<String>,
    /// Names of varieties.
    pub varieties: Vec<String>,
    /// Names of growers.
    pub growers: Vec<String>,
    /// Names of clubs; empty where the term is left out.
    pub clubs: Vec<String>,
    /// Names of sources; empty where the term is left out.
    pub sources: Vec<String>,
}

impl Design {
    /// Brings the trials into an order that does not depend on theirs. Trials without seeds are left out.
    #[must_use]
    pub fn new(trials: &[Trial], fixed: &Fixed) -> Self {
        let row = |i: usize| match fixed {
            Fixed::Cells => &[][..],
            Fixed::Columns { width, values } => &values[i * width..(i + 1) * width],
        };
        let mut order: Vec<usize> = (0..trials.len()).filter(|i| trials[*i].n > 0.0).collect();
        order.sort_by(|&a, &b| {
            let (s, t) = (&trials[a], &trials[b]);
            let names = (s.cell, s.lot, s.grower, s.club).cmp(&(t.cell, t.lot, t.grower, t.club));
            let columns = || row(a).iter().zip(row(b)).map(|(u, v)| u.total_cmp(v)).find(|o| o.is_ne());
            let counts = s.n.total_cmp(&t.n).then(s.x.total_cmp(&t.x));
            names.then(counts).then_with(|| columns().unwrap_or(std::cmp::Ordering::Equal))
        });
        let sorted: Vec<&Trial> = order.iter().map(|i| &trials[*i]).collect();
        let named = Named::of(&sorted);
        let fixed = match fixed {
            Fixed::Cells => Fixed::Cells,
            Fixed::Columns { width, .. } => Fixed::Columns {
                width: *width,
                values: order.iter().flat_map(|i| row(*i)).copied().collect(),
            },
        };
        let (x, n) = sorted.iter().map(|t| (t.x.clamp(0.0, t.n), t.n)).unzip();
        Self {
            x,
            n,
            fixed,
            pair: named.pair,
            cell_of: named.cell_of,
            places: named.places,
            cells: named.cells,
            varieties: named.varieties,
            growers: named.growers,
            clubs: named.clubs,
            sources: named.sources,
        }
    }

    /// Says in plain words where a club is too large for a fit within a minute and 300 MB.
    pub fn check(&self) -> Result<(), String> {
        let crossed = if self.sources.is_empty() { "growers" } else { "growers and sources" };
        for (n, most, what) in [
            (self.places.crossed(), MOST_CROSSED, crossed),
            (self.width(), MOST_FIXED, "fixed effects"),
            (self.places.links.len(), MOST_LINKS, "growers by source and variety"),
        ] {
            if n > most {
                return Err(format!("has {n} {what}, the model takes up to {most}"));
            }
        }
        Ok(())
    }

    /// Number of fixed effects.
    #[must_use]
    pub fn width(&self) -> usize {
        match &self.fixed {
            Fixed::Cells => self.cells.len(),
            Fixed::Columns { width, .. } => *width,
        }
    }

    /// The fixed part of each trial's logit.
    pub(super) fn fixed_part(&self, beta: &[f64]) -> Vec<f64> {
        match &self.fixed {
            Fixed::Cells => self.pair.iter().map(|p| beta[self.cell_of[*p]]).collect(),
            Fixed::Columns { width, values } => {
                let dot = |row: &[f64]| row.iter().zip(beta).map(|(x, b)| x * b).sum();
                if *width == 0 { vec![0.0; self.n.len()] } else { values.chunks(*width).map(dot).collect() }
            }
        }
    }

    /// Sum over trials of the fixed columns times `by`.
    pub(super) fn fixed_sums(&self, by: &[f64]) -> Vec<f64> {
        let mut sums = vec![0.0; self.width()];
        match &self.fixed {
            Fixed::Cells => {
                for (p, v) in self.pair.iter().zip(by) {
                    sums[self.cell_of[*p]] += v;
                }
            }
            Fixed::Columns { width, values } => {
                for (row, v) in values.chunks((*width).max(1)).zip(by) {
                    sums.iter_mut().zip(row).for_each(|(s, x)| *s += x * v);
                }
            }
        }
        sums
    }

    /// Column `j` of the fixed part.
    pub(super) fn column(&self, j: usize) -> Vec<f64> {
        match &self.fixed {
            Fixed::Cells => self.pair.iter().map(|p| f64::from(u8::from(self.cell_of[*p] == j))).collect(),
            Fixed::Columns { width, values } => values.chunks(*width).map(|row| row[j]).collect(),
        }
    }

    /// Sums of `by` over the trials of each pair.
    pub(super) fn pair_sums(&self, by: impl Iterator<Item = f64>) -> Vec<f64> {
        let mut sums = vec![0.0; self.cell_of.len()];
        for (p, v) in self.pair.iter().zip(by) {
            sums[*p] += v;
        }
        sums
    }

    /// The terms of `asked` that the design has.
    pub(super) fn having(&self, asked: Terms) -> Terms {
        let missing = |term: &Term| *term != Term::Trial && self.places.of(*term).is_empty();
        asked.list().filter(missing).fold(asked, |terms, term| terms.with(term, false))
    }

    /// The sd of each effect.
    pub(super) fn scale(&self, sd: &Sd) -> Vec<f64> {
        self.places.terms.iter().flat_map(|(term, range)| vec![sd.of(*term); range.len()]).collect()
    }

    /// Sums of `by`, given by pair, for each effect, times its sd.
    pub(super) fn gathered(&self, scale: &[f64], by: &[f64]) -> Vec<f64> {
        self.places.sums(by).iter().zip(scale).map(|(sum, sd)| sum * sd).collect()
    }

    /// The logit of each pair: sum of its effects, each times its sd.
    pub(super) fn scattered(&self, scale: &[f64], effects: &[f64]) -> Vec<f64> {
        let scaled: Vec<f64> = effects.iter().zip(scale).map(|(u, sd)| u * sd).collect();
        self.places.spread(&scaled)
    }

    /// The effects that make each cell's seed what it is: variety, source and the two together.
    pub(super) fn seed_effects(&self, cell: usize) -> Vec<usize> {
        let pair = self.cell_of.partition_point(|c| *c < cell) * self.places.width();
        let meet = self.places.meet[pair..].iter().zip(&self.places.terms);
        let of_seed = |term: Term| matches!(term, Term::Cell | Term::Variety | Term::Source);
        meet.filter(|(_, (term, _))| of_seed(*term)).map(|(effect, _)| *effect).collect()
    }

    pub(super) fn range(&self, term: Term) -> Range<usize> {
        self.places.of(term)
    }
}
