//! The precision matrix of the standardised effects given the trials' weights. A nested effect meets
//! only what it lies in and the crossed effects of its own trials, so that it is eliminated by hand;
//! only the crossed effects, growers, clubs and sources, need a dense factor.

use super::dense::{Cholesky, dot};
use super::places::Places;

/// The factored precision matrix.
pub struct Arrow<'d> {
    places: &'d Places,
    /// Of nested effects, inner ones eliminated: diagonal, and links by place.
    diagonal: Vec<f64>,
    link: Vec<f64>,
    crossed: Cholesky,
}

impl<'d> Arrow<'d> {
    /// `scale` holds the sd of each effect, `weight` the sums of the trials' weights by pair.
    pub fn factor(places: &'d Places, scale: &[f64], weight: &[f64]) -> Self {
        let size = places.crossed();
        let mut dense = vec![0.0; size * size];
        let whole = places.sums(weight);
        let mut diagonal: Vec<f64> = whole.iter().zip(scale).map(|(w, sd)| 1.0 + sd * sd * w).collect();
        let mut link = vec![0.0; places.links.len()];
        let met = places.met.len() / weight.len().max(1);
        for (pair, w) in places.met.chunks(met.max(1)).zip(weight) {
            pair.iter().for_each(|place| link[*place] += w);
        }
        for (row, sd) in places.rows.iter().zip(scale) {
            let others = &places.links[row.clone()];
            link[row.clone()].iter_mut().zip(others).for_each(|(a, other)| *a *= sd * scale[*other]);
        }
        for (pair, w) in places.meet.chunks(places.width()).zip(weight) {
            let crossed = &pair[pair.partition_point(|effect| *effect < places.nested)..];
            for (i, one) in crossed.iter().enumerate() {
                for later in &crossed[i + 1..] {
                    let place = (later - places.nested) * size + one - places.nested;
                    dense[place] += scale[*later] * scale[*one] * w;
                }
            }
        }
        let crossed = diagonal.split_off(places.nested);
        crossed.iter().enumerate().for_each(|(i, d)| dense[i * (size + 1)] = *d);
        let mut arrow = Self { places, diagonal, link, crossed: Cholesky::factor(Vec::new(), 0) };
        (0..places.nested).for_each(|effect| arrow.eliminate(effect, &mut dense));
        arrow.crossed = Cholesky::factor(dense, size);
        arrow
    }

    fn eliminate(&mut self, effect: usize, dense: &mut [f64]) {
        let (places, size, row) = (self.places, self.places.crossed(), self.places.rows[effect].clone());
        let (links, diagonal) = (&places.links[row.clone()], self.diagonal[effect]);
        let (done, later) = self.link.split_at_mut(row.end);
        let own = &done[row.clone()];
        let outer = links.partition_point(|link| *link < places.nested);
        for i in (0..outer).filter(|i| own[*i] != 0.0) {
            let factor = own[i] / diagonal;
            self.diagonal[links[i]] -= factor * own[i];
            for j in i + 1..own.len() {
                later[places.climbed(row.start + j, i + 1) - row.end] -= factor * own[j];
            }
        }
        let (links, own) = (&links[outer..], &own[outer..]);
        for (i, link) in links.iter().enumerate().filter(|(i, _)| own[*i] != 0.0) {
            let (factor, place) = (own[i] / diagonal, link - places.nested);
            let into = &mut dense[place * size..=place * size + place];
            links[..=i].iter().zip(own).for_each(|(j, a)| into[j - places.nested] -= factor * a);
        }
    }

    /// ln of the determinant.
    pub fn log_det(&self) -> f64 {
        self.diagonal.iter().map(|x| x.ln()).sum::<f64>() + self.crossed.log_det()
    }

    fn row(&self, effect: usize) -> impl Iterator<Item = (&usize, &f64)> {
        let row = self.places.rows[effect].clone();
        self.places.links[row.clone()].iter().zip(&self.link[row])
    }

    /// Solves in place.
    pub fn solve(&self, b: &mut [f64]) {
        let nested = self.places.nested;
        for effect in 0..nested {
            let part = b[effect] / self.diagonal[effect];
            self.row(effect).for_each(|(other, a)| b[*other] -= a * part);
        }
        self.crossed.solve(&mut b[nested..]);
        for effect in (0..nested).rev() {
            let known: f64 = self.row(effect).map(|(other, a)| a * b[*other]).sum();
            b[effect] = (b[effect] - known) / self.diagonal[effect];
        }
    }

    /// The covariances of the effects that meet in each pair.
    pub fn meetings(&self, scale: &[f64]) -> Meetings {
        let (places, inverse) = (self.places, self.inverse());
        let (width, size) = (places.width(), places.crossed());
        let mut meetings = Meetings { width, covariance: vec![0.0; places.meet.len()], variance: Vec::new() };
        let met = places.met.len() / (places.meet.len() / width).max(1);
        let pairs = places.meet.chunks(width).zip(places.met.chunks(met.max(1)));
        for ((pair, met), into) in pairs.zip(meetings.covariance.chunks_mut(width)) {
            let mut met = met.iter();
            for (i, effect) in pair.iter().enumerate() {
                into[i] += scale[*effect] * inverse.own[*effect];
                for (j, later) in pair.iter().enumerate().skip(i + 1) {
                    let both = if *effect < places.nested {
                        met.next().map_or(0.0, |place| inverse.link[*place])
                    } else {
                        inverse.crossed[(effect - places.nested) * size + later - places.nested]
                    };
                    into[i] += scale[*later] * both;
                    into[j] += scale[*effect] * both;
                }
            }
            meetings.variance.push(pair.iter().zip(&*into).map(|(effect, c)| scale[*effect] * c).sum());
        }
        meetings
    }

    /// The entries of the inverse where the matrix has entries (Takahashi's recursion), outer effects first.
    fn inverse(&self) -> Inverse {
        let (places, size) = (self.places, self.places.crossed());
        let crossed = self.crossed.inverse();
        let own = (0..places.effects).map(|i| match i.checked_sub(places.nested) {
            Some(i) => crossed[i * (size + 1)],
            None => 1.0,
        });
        let mut inverse = Inverse { own: own.collect(), link: vec![0.0; places.links.len()], crossed };
        for effect in (0..places.nested).rev() {
            let row = places.rows[effect].clone();
            let own = &self.link[row.clone()];
            if own.iter().any(|a| *a != 0.0) {
                let found: Vec<f64> = (0..own.len())
                    .map(|j| -inverse.along(places, &row, own, j) / self.diagonal[effect])
                    .collect();
                inverse.own[effect] = (1.0 - dot(own, &found)) / self.diagonal[effect];
                inverse.link[row].copy_from_slice(&found);
            } else {
                inverse.own[effect] = 1.0 / self.diagonal[effect];
            }
        }
        inverse
    }
}

struct Inverse {
    own: Vec<f64>,
    link: Vec<f64>,
    crossed: Vec<f64>,
}

impl Inverse {
    /// Sum over the links of one row of `own` times the inverse's entry for each link and link `j`.
    fn along(&self, places: &Places, row: &std::ops::Range<usize>, own: &[f64], j: usize) -> f64 {
        let (links, size) = (&places.links[row.clone()], places.crossed());
        let outer = links.partition_point(|link| *link < places.nested);
        let entry = |i: usize, j: usize| match i.cmp(&j) {
            std::cmp::Ordering::Equal => self.own[links[i]],
            std::cmp::Ordering::Less => self.link[places.climbed(row.start + j, i + 1)],
            std::cmp::Ordering::Greater => self.link[places.climbed(row.start + i, j + 1)],
        };
        if j < outer {
            return own.iter().enumerate().map(|(i, a)| a * entry(i, j)).sum();
        }
        let nested: f64 = own[..outer].iter().enumerate().map(|(i, a)| a * entry(i, j)).sum();
        let at = (links[j] - places.nested) * size;
        let of = &self.crossed[at..at + size];
        let crossed = links[outer..].iter().zip(&own[outer..]);
        nested + crossed.map(|(i, a)| a * of[i - places.nested]).sum::<f64>()
    }
}

/// For each pair the covariances of its standardised effects with the logit there, and its variance.
pub struct Meetings {
    width: usize,
    covariance: Vec<f64>,
    pub variance: Vec<f64>,
}

impl Meetings {
    /// Of the effect of the term at place `term`.
    pub fn covariance(&self, pair: usize, term: usize) -> f64 {
        self.covariance[pair * self.width + term]
    }
}
