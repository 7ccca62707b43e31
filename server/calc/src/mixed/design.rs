use std::collections::BTreeMap;

const MOST_GROWERS: usize = 1_000;
const MOST_FIXED: usize = 1_000;
const MOST_LINKS: usize = 4_000_000;

/// One trial: `x` rooted of `n` seeds. Counts may be fractions where the curve stood in for a look.
#[derive(Debug, Clone, Copy)]
pub struct Trial<'a> {
    /// Names the variety's kind and variety; cells are nested in it.
    pub variety: &'a str,
    /// Names variety and source.
    pub cell: &'a str,
    /// Who grew it.
    pub grower: &'a str,
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
    /// Of each trial, which (cell, grower) it belongs to.
    pub(super) pair: Vec<usize>,
    /// (cell, grower) that occur, by cell.
    pub(super) pairs: Vec<(usize, usize)>,
    /// The range of each cell's pairs.
    pub(super) span: Vec<std::ops::Range<usize>>,
    pub(super) variety_of: Vec<usize>,
    /// Names in alphabetical order, as the effects are ordered.
    pub cells: Vec<String>,
    /// Names of varieties.
    pub varieties: Vec<String>,
    /// Names of growers.
    pub growers: Vec<String>,
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
            let names = (s.cell, s.grower).cmp(&(t.cell, t.grower));
            let columns = || row(a).iter().zip(row(b)).map(|(u, v)| u.total_cmp(v)).find(|o| o.is_ne());
            let counts = s.n.total_cmp(&t.n).then(s.x.total_cmp(&t.x));
            names.then(counts).then_with(|| columns().unwrap_or(std::cmp::Ordering::Equal))
        });
        let sorted: Vec<&Trial> = order.iter().map(|i| &trials[*i]).collect();
        let places = Places::of(&sorted);
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
            pair: places.pair,
            span: spans(&places.pairs, places.cells.len()),
            pairs: places.pairs,
            variety_of: places.variety_of,
            cells: places.cells,
            varieties: places.varieties,
            growers: places.growers,
        }
    }

    /// Says in plain words where a club is too large for a fit within a minute and 300 MB.
    pub fn check(&self) -> Result<(), String> {
        let links = self.varieties.len() * self.growers.len();
        for (n, most, what) in [
            (self.growers.len(), MOST_GROWERS, "growers"),
            (self.width(), MOST_FIXED, "fixed effects"),
            (links, MOST_LINKS, "varieties times growers"),
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
            Fixed::Cells => self.pair.iter().map(|p| beta[self.pairs[*p].0]).collect(),
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
                    sums[self.pairs[*p].0] += v;
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
            Fixed::Cells => self.pair.iter().map(|p| f64::from(u8::from(self.pairs[*p].0 == j))).collect(),
            Fixed::Columns { width, values } => values.chunks(*width).map(|row| row[j]).collect(),
        }
    }

    /// Sums of `by` over the trials of each (cell, grower).
    pub(super) fn pair_sums(&self, by: impl Iterator<Item = f64>) -> Vec<f64> {
        let mut sums = vec![0.0; self.pairs.len()];
        for (p, v) in self.pair.iter().zip(by) {
            sums[*p] += v;
        }
        sums
    }
}

struct Places {
    pair: Vec<usize>,
    pairs: Vec<(usize, usize)>,
    variety_of: Vec<usize>,
    cells: Vec<String>,
    varieties: Vec<String>,
    growers: Vec<String>,
}

impl Places {
    /// `trials` sorted by cell and grower.
    fn of(trials: &[&Trial]) -> Self {
        let (growers, grower_at) = numbered(trials.iter().map(|t| t.grower));
        let (varieties, variety_at) = numbered(trials.iter().map(|t| t.variety));
        let (cells, cell_at) = numbered(trials.iter().map(|t| t.cell));
        let mut variety_of = vec![0; cells.len()];
        let mut pairs: Vec<(usize, usize)> = Vec::new();
        let mut pair = Vec::with_capacity(trials.len());
        for t in trials {
            let place = (cell_at[t.cell], grower_at[t.grower]);
            variety_of[place.0] = variety_at[t.variety];
            if pairs.last() != Some(&place) {
                pairs.push(place);
            }
            pair.push(pairs.len() - 1);
        }
        Self { pair, pairs, variety_of, cells, varieties, growers }
    }
}

fn numbered<'a>(names: impl Iterator<Item = &'a str>) -> (Vec<String>, BTreeMap<&'a str, usize>) {
    let mut at: BTreeMap<&str, usize> = names.map(|name| (name, 0)).collect();
    at.values_mut().enumerate().for_each(|(i, place)| *place = i);
    (at.keys().map(|name| (*name).to_owned()).collect(), at)
}

fn spans(pairs: &[(usize, usize)], cells: usize) -> Vec<std::ops::Range<usize>> {
    (0..cells).map(|c| pairs.partition_point(|p| p.0 < c)..pairs.partition_point(|p| p.0 <= c)).collect()
}
