//! Log-likelihood of capacity and time with first and second derivatives, in the numbers
//! logit p, ln t50 and ln steepness (w = steepness x ln(t/t50)).

use super::climb::Local;
use super::form::{Form, ln_minus, ln_one_plus_exp};
use super::{Fate, Removed, Seeds};
use std::sync::Arc;

/// Seeds prepared for one form: logarithms of times; rows alike merged, in an order of their own.
#[derive(Debug, Clone)]
pub(super) struct Likelihood {
    pub form: Form,
    rows: Arc<[(Part, f64)]>,
}

#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
enum Part {
    /// Rooted by the look at ln time.
    By(f64),
    /// Rooted between two looks.
    Between(f64, f64),
    /// Not rooted by ln time.
    NotBy(f64),
    /// Never to root.
    Never,
}

/// Capacity in full digits at both ends.
#[derive(Clone, Copy)]
struct Capacity {
    ln_p: f64,
    ln_q: f64,
    p: f64,
    q: f64,
}

impl Capacity {
    fn of(logit: f64) -> Self {
        let (ln_p, ln_q) = (-ln_one_plus_exp(-logit), -ln_one_plus_exp(logit));
        Self { ln_p, ln_q, p: ln_p.exp(), q: ln_q.exp() }
    }
}

/// Derivatives of one row in logit p and in the w of its one or two times.
#[derive(Default)]
struct Pull {
    value: f64,
    p: f64,
    pp: f64,
    w: [f64; 2],
    pw: [f64; 2],
    ww: [[f64; 2]; 2],
}

impl Likelihood {
    pub(super) fn of<'a>(seeds: impl IntoIterator<Item = &'a Seeds>, form: Form, removed: Removed) -> Self {
        let part = |s: &Seeds| match s.fate {
            Fate::Rooted { l, r } if l > 0.0 => Part::Between(l.ln(), r.ln()),
            Fate::Rooted { r, .. } => Part::By(r.ln()),
            Fate::Removed { .. } if removed == Removed::Never => Part::Never,
            Fate::OnPaper { l } | Fate::Removed { l } => {
                Part::NotBy(if l > 0.0 { l.ln() } else { f64::NEG_INFINITY })
            }
        };
        let mut rows: Vec<(Part, f64)> = seeds.into_iter().map(|s| (part(s), s.count)).collect();
        rows.retain(|(part, _)| *part != Part::NotBy(f64::NEG_INFINITY));
        rows.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
        rows.dedup_by(|row, kept| {
            let same = row.0 == kept.0;
            if same {
                kept.1 += row.1;
            }
            same
        });
        Self { form, rows: rows.into() }
    }

    /// The same seeds, held once, for another form.
    pub(super) fn of_form(&self, form: Form) -> Self {
        Self { form, rows: self.rows.clone() }
    }

    /// At (logit p, ln t50, ln steepness); logit p may be infinite (p = 1).
    pub(super) fn at(&self, theta: &[f64; 3]) -> Local<3> {
        let [logit, mu, log_a] = *theta;
        let (capacity, a) = (Capacity::of(logit), log_a.exp());
        let mut out = Local { value: 0.0, gradient: [0.0; 3], hessian: [[0.0; 3]; 3] };
        for (part, count) in self.rows.iter() {
            let w = match *part {
                Part::By(x) | Part::NotBy(x) => [a * (x - mu), 0.0],
                Part::Between(l, r) => [a * (r - mu), a * (l - mu)],
                Part::Never => [0.0, 0.0],
            };
            gather(&mut out, &self.pull(*part, &capacity, &w), (&w, a), *count);
        }
        out
    }

    fn pull(&self, part: Part, capacity: &Capacity, w: &[f64; 2]) -> Pull {
        let Capacity { ln_p, ln_q, p, q } = *capacity;
        match part {
            Part::Never => Pull { value: ln_q, p: -p, pp: -p * q, ..Pull::default() },
            Part::By(_) => {
                let at = self.form.at(w[0]);
                let rate = (at.ln_pdf - at.ln_cdf).exp();
                let ww = [[rate * (at.bend - rate), 0.0], [0.0; 2]];
                Pull { value: ln_p + at.ln_cdf, p: q, pp: -p * q, w: [rate, 0.0], pw: [0.0; 2], ww }
            }
            Part::Between(..) => Pull { p: q, pp: -p * q, ..self.between(ln_p, w) },
            Part::NotBy(_) => {
                let at = self.form.at(w[0]);
                let ln_live = ln_p + at.ln_sf;
                let value = ln_live.max(ln_q) + (-(ln_live - ln_q).abs()).exp().ln_1p();
                let (live, spent) = ((ln_live - value).exp(), (ln_q - value).exp());
                let hazard = (at.ln_pdf - at.ln_sf).exp();
                let ww = live * hazard * (spent * hazard - at.bend - hazard);
                Pull {
                    value,
                    p: live - p,
                    pp: live * spent - p * q,
                    w: [-live * hazard, 0.0],
                    pw: [-live * spent * hazard, 0.0],
                    ww: [[ww, 0.0], [0.0; 2]],
                }
            }
        }
    }

    fn between(&self, ln_p: f64, w: &[f64; 2]) -> Pull {
        let (r, l) = (self.form.at(w[0]), self.form.at(w[1]));
        let ln_share = if w[1] > 0.0 { ln_minus(l.ln_sf, r.ln_sf) } else { ln_minus(r.ln_cdf, l.ln_cdf) };
        let (up, down) = ((r.ln_pdf - ln_share).exp(), (l.ln_pdf - ln_share).exp());
        let ww = [[up * (r.bend - up), up * down], [up * down, -down * (l.bend + down)]];
        Pull { value: ln_p + ln_share, w: [up, -down], ww, ..Pull::default() }
    }
}

/// Adds a row by the chain rule: dw/d(ln t50) = -a, dw/d(ln a) = w.
fn gather(out: &mut Local<3>, pull: &Pull, (w, a): (&[f64; 2], f64), count: f64) {
    let Local { value, gradient, hessian } = out;
    *value += count * pull.value;
    gradient[0] += count * pull.p;
    hessian[0][0] += count * pull.pp;
    for i in 0..2 {
        gradient[1] -= count * pull.w[i] * a;
        gradient[2] += count * pull.w[i] * w[i];
        hessian[1][2] -= count * pull.w[i] * a;
        hessian[2][2] += count * pull.w[i] * w[i];
        hessian[0][1] -= count * pull.pw[i] * a;
        hessian[0][2] += count * pull.pw[i] * w[i];
        for j in 0..2 {
            hessian[1][1] += count * pull.ww[i][j] * a * a;
            hessian[1][2] -= count * pull.ww[i][j] * a * w[j];
            hessian[2][2] += count * pull.ww[i][j] * w[i] * w[j];
        }
    }
    hessian[1][0] = hessian[0][1];
    hessian[2][0] = hessian[0][2];
    hessian[2][1] = hessian[1][2];
}
