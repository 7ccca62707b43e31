//! The precision matrix of the standardised effects given the trials' weights: cells are diagonal
//! and lie in one variety each, so both are eliminated by hand; only growers need a dense factor.

use super::Sd;
use super::dense::{Cholesky, dot};
use super::design::Design;

/// A value for each effect of each term but the trials.
#[derive(Debug, Clone, Default)]
pub struct Effects {
    pub cell: Vec<f64>,
    pub variety: Vec<f64>,
    pub grower: Vec<f64>,
}

impl Effects {
    pub fn zeros(design: &Design) -> Self {
        Self {
            cell: vec![0.0; design.cells.len()],
            variety: vec![0.0; design.varieties.len()],
            grower: vec![0.0; design.growers.len()],
        }
    }

    /// Sums over the trials of each effect times its sd: `by` holds sums by (cell, grower).
    pub fn gathered(design: &Design, sd: &Sd, by: &[f64]) -> Self {
        let mut sums = Self::zeros(design);
        for ((cell, grower), v) in design.pairs.iter().zip(by) {
            sums.cell[*cell] += sd.cell * v;
            sums.variety[design.variety_of[*cell]] += sd.variety * v;
            sums.grower[*grower] += sd.grower * v;
        }
        sums
    }

    /// The logit of each (cell, grower): sum of effect times sd.
    pub fn scattered(&self, design: &Design, sd: &Sd) -> Vec<f64> {
        let at = |&(cell, grower): &(usize, usize)| {
            sd.cell * self.cell[cell]
                + sd.variety * self.variety[design.variety_of[cell]]
                + sd.grower * self.grower[grower]
        };
        design.pairs.iter().map(at).collect()
    }

    pub fn dot(&self, other: &Self) -> f64 {
        dot(&self.cell, &other.cell) + dot(&self.variety, &other.variety) + dot(&self.grower, &other.grower)
    }

    /// Adds `length` times `step`.
    pub fn moved(&self, step: &Self, length: f64) -> Self {
        let add = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a + length * b).collect();
        Self {
            cell: add(&self.cell, &step.cell),
            variety: add(&self.variety, &step.variety),
            grower: add(&self.grower, &step.grower),
        }
    }
}

/// The factored precision matrix.
pub struct Arrow<'d> {
    design: &'d Design,
    /// Of cells: diagonal, link to the variety; links to growers by pair.
    cell: Vec<f64>,
    cell_variety: Vec<f64>,
    cell_grower: Vec<f64>,
    /// Of varieties, cells eliminated: diagonal and links to growers (varieties x growers).
    variety: Vec<f64>,
    variety_grower: Vec<f64>,
    grower: Cholesky,
}

impl<'d> Arrow<'d> {
    /// `weight` holds the sums of the trials' weights by (cell, grower).
    pub fn factor(design: &'d Design, sd: &Sd, weight: &[f64]) -> Self {
        let (v, g) = (design.varieties.len(), design.growers.len());
        let mut arrow = Self {
            design,
            cell: Vec::with_capacity(design.cells.len()),
            cell_variety: Vec::with_capacity(design.cells.len()),
            cell_grower: weight.iter().map(|w| sd.cell * sd.grower * w).collect(),
            variety: vec![1.0; v],
            variety_grower: vec![0.0; v * g],
            grower: Cholesky::factor(Vec::new(), 0),
        };
        let mut dense = vec![0.0; g * g];
        (0..g).for_each(|i| dense[i * g + i] = 1.0);
        for (c, span) in design.span.iter().enumerate() {
            arrow.eliminate_cell(c, span.clone(), sd, weight, &mut dense);
        }
        for (row, diagonal) in arrow.variety_grower.chunks(g.max(1)).zip(&arrow.variety) {
            let used: Vec<usize> = (0..g).filter(|i| row[*i] != 0.0).collect();
            for &i in &used {
                let factor = row[i] / diagonal;
                used.iter().take_while(|j| **j <= i).for_each(|&j| dense[i * g + j] -= factor * row[j]);
            }
        }
        arrow.grower = Cholesky::factor(dense, g);
        arrow
    }

    fn eliminate_cell(
        &mut self,
        c: usize,
        span: std::ops::Range<usize>,
        sd: &Sd,
        weight: &[f64],
        dense: &mut [f64],
    ) {
        let (g, v) = (self.design.growers.len(), self.design.variety_of[c]);
        let whole: f64 = weight[span.clone()].iter().sum();
        let diagonal = 1.0 + sd.cell * sd.cell * whole;
        let up = sd.cell * sd.variety * whole;
        self.cell.push(diagonal);
        self.cell_variety.push(up);
        self.variety[v] += sd.variety * sd.variety * whole - up * up / diagonal;
        for p in span.clone() {
            let (grower, link) = (self.design.pairs[p].1, self.cell_grower[p]);
            dense[grower * g + grower] += sd.grower * sd.grower * weight[p];
            self.variety_grower[v * g + grower] += sd.variety * sd.grower * weight[p] - up * link / diagonal;
            if link == 0.0 {
                continue;
            }
            let (factor, row) = (link / diagonal, &mut dense[grower * g..=grower * g + grower]);
            for q in span.start..=p {
                row[self.design.pairs[q].1] -= factor * self.cell_grower[q];
            }
        }
    }

    /// ln of the determinant.
    pub fn log_det(&self) -> f64 {
        let ln = |d: &Vec<f64>| d.iter().map(|x| x.ln()).sum::<f64>();
        ln(&self.cell) + ln(&self.variety) + self.grower.log_det()
    }

    fn variety_row(&self, v: usize) -> &[f64] {
        let g = self.design.growers.len();
        &self.variety_grower[v * g..(v + 1) * g]
    }

    /// Solves in place.
    pub fn solve(&self, b: &mut Effects) {
        let design = self.design;
        for (c, span) in design.span.iter().enumerate() {
            let part = b.cell[c] / self.cell[c];
            b.variety[design.variety_of[c]] -= self.cell_variety[c] * part;
            span.clone().for_each(|p| b.grower[design.pairs[p].1] -= self.cell_grower[p] * part);
        }
        for v in 0..b.variety.len() {
            let part = b.variety[v] / self.variety[v];
            b.grower.iter_mut().zip(self.variety_row(v)).for_each(|(b, a)| *b -= a * part);
        }
        self.grower.solve(&mut b.grower);
        for v in 0..b.variety.len() {
            b.variety[v] = (b.variety[v] - dot(self.variety_row(v), &b.grower)) / self.variety[v];
        }
        for (c, span) in design.span.iter().enumerate() {
            let links: f64 = span.clone().map(|p| self.cell_grower[p] * b.grower[design.pairs[p].1]).sum();
            let up = self.cell_variety[c] * b.variety[design.variety_of[c]];
            b.cell[c] = (b.cell[c] - links - up) / self.cell[c];
        }
    }

    /// The covariances of the effects that meet in each (cell, grower).
    pub fn meetings(&self, sd: &Sd) -> Vec<Meeting> {
        let (design, g) = (self.design, self.design.growers.len());
        let inverse = self.grower.inverse();
        let row = |i: usize| &inverse[i * g..(i + 1) * g];
        let mut by_variety = vec![0.0; self.variety_grower.len()];
        for (v, into) in by_variety.chunks_mut(g.max(1)).enumerate() {
            let links = self.variety_row(v);
            into.iter_mut().enumerate().for_each(|(i, x)| *x = -dot(links, row(i)) / self.variety[v]);
        }
        let mut meetings = Vec::with_capacity(design.pairs.len());
        for (c, span) in design.span.iter().enumerate() {
            let v = design.variety_of[c];
            let (links, up, d) = (&self.cell_grower[span.clone()], self.cell_variety[c], self.cell[c]);
            let to = &by_variety[v * g..(v + 1) * g];
            let vv = (1.0 - dot(self.variety_row(v), to)) / self.variety[v];
            let place = |p: usize| design.pairs[p].1;
            let gathered = |of: &[f64]| -> f64 {
                if up == 0.0 && sd.cell == 0.0 {
                    return 0.0;
                }
                links.iter().zip(span.clone()).map(|(a, p)| a * of[place(p)]).sum()
            };
            let cv = -(up * vv + gathered(to)) / d;
            let cg: Vec<f64> =
                span.clone().map(|p| -(up * to[place(p)] + gathered(row(place(p)))) / d).collect();
            let cc = (1.0 - up * cv - dot(links, &cg)) / d;
            meetings.extend(span.clone().zip(&cg).map(|(p, cg)| {
                let (gg, vg) = (row(place(p))[place(p)], to[place(p)]);
                Meeting {
                    cell: sd.cell * cc + sd.variety * cv + sd.grower * cg,
                    variety: sd.cell * cv + sd.variety * vv + sd.grower * vg,
                    grower: sd.cell * cg + sd.variety * vg + sd.grower * gg,
                }
            }));
        }
        meetings
    }
}

/// Covariance of each standardised effect of one (cell, grower) with the logit there.
#[derive(Debug, Clone, Copy)]
pub struct Meeting {
    pub cell: f64,
    pub variety: f64,
    pub grower: f64,
}

impl Meeting {
    /// Variance of the logit.
    pub fn variance(&self, sd: &Sd) -> f64 {
        sd.cell * self.cell + sd.variety * self.variety + sd.grower * self.grower
    }
}
