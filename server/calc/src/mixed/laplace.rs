//! The Laplace approximation of the likelihood at given fixed effects and standard deviations, and
//! its gradient. The effects are standardised, so a standard deviation of 0 is no special place.

use super::arrow::{Arrow, Effects, Meeting};
use super::design::Design;
use super::rows::State;
use super::{Point, Sd};

/// Where the effects have settled: the start for the next point.
#[derive(Debug, Clone)]
pub struct Mode {
    pub effects: Effects,
    pub states: Vec<State>,
}

impl Mode {
    pub fn start(design: &Design) -> Self {
        Self { effects: Effects::zeros(design), states: vec![State::default(); design.n.len()] }
    }
}

/// The approximation at one point.
pub struct Laplace<'d> {
    pub design: &'d Design,
    pub sd: Sd,
    pub mode: Mode,
    pub arrow: Arrow<'d>,
    /// Log-likelihood without the binomial coefficients.
    pub loglik: f64,
}

const STEPS: usize = 100;
const STILL: f64 = 1e-13;

impl<'d> Laplace<'d> {
    /// Settles the effects by Newton steps from `mode` and evaluates the approximation.
    pub fn at(design: &'d Design, point: &Point, mode: &Mode) -> Self {
        let sd = point.sd;
        let fixed = design.fixed_part(&point.beta);
        let mut mode = mode.clone();
        let mut height = mode.settle(design, &fixed, &sd);
        let mut arrow = mode.arrow(design, &sd);
        for _ in 0..STEPS {
            let mut step = mode.gradient(design, &sd);
            let slope = step.clone();
            arrow.solve(&mut step);
            if slope.dot(&step) < STILL {
                break;
            }
            let Some((next, higher)) = mode.climbed(design, &fixed, &sd, &step, height) else { break };
            (mode, height) = (next, higher);
            arrow = mode.arrow(design, &sd);
        }
        let spreads: f64 = mode.states.iter().map(|s| s.spread.ln()).sum();
        let loglik = height - 0.5 * (spreads + arrow.log_det());
        Self { design, sd, mode, arrow, loglik }
    }

    /// The gradient of the log-likelihood in the fixed effects and the standard deviations.
    pub fn gradient(&self) -> Point {
        let (design, sd) = (self.design, &self.sd);
        let meetings = self.arrow.meetings(sd);
        let (pull, lift) = self.bend(&meetings);
        let logit = lift.scattered(design, sd);
        let mut beta = Vec::with_capacity(design.n.len());
        let (mut trial, mut sums) = (0.0, PairSums::zeros(design.pairs.len()));
        for (t, (state, p)) in self.mode.states.iter().zip(&design.pair).enumerate() {
            let own = sd.trial * state.residual;
            let own_lift = sd.trial * (pull[t] - state.weight * logit[*p]) / state.spread;
            let back = pull[t] - state.weight * (logit[*p] + sd.trial * own_lift);
            let variance = meetings[*p].variance(sd);
            let spread = state.spread;
            let widen = state.weight * sd.trial * (1.0 - state.weight * variance / spread) / spread;
            beta.push(state.residual - 0.5 * back);
            trial += own * state.residual - widen - 0.5 * (own * back + own_lift * state.residual);
            sums.residual[*p] += state.residual;
            sums.back[*p] += back;
            sums.weight[*p] += state.outer();
        }
        let effects = &self.mode.effects;
        let term = |u: &dyn Fn(usize) -> f64, q: &dyn Fn(usize) -> f64, m: fn(&Meeting) -> f64| -> f64 {
            let at = |p: usize| {
                let half = 0.5 * (u(p) * sums.back[p] + q(p) * sums.residual[p]);
                u(p) * sums.residual[p] - sums.weight[p] * m(&meetings[p]) - half
            };
            (0..design.pairs.len()).map(at).sum()
        };
        let cell = |p: usize| design.pairs[p].0;
        let variety = |p: usize| design.variety_of[cell(p)];
        let grower = |p: usize| design.pairs[p].1;
        Point {
            beta: design.fixed_sums(&beta),
            sd: Sd {
                variety: term(&|p| effects.variety[variety(p)], &|p| lift.variety[variety(p)], |m| m.variety),
                cell: term(&|p| effects.cell[cell(p)], &|p| lift.cell[cell(p)], |m| m.cell),
                grower: term(&|p| effects.grower[grower(p)], &|p| lift.grower[grower(p)], |m| m.grower),
                trial,
            },
        }
    }

    /// The log-determinant's derivative in each trial's logit, and the effects it pulls along.
    fn bend(&self, meetings: &[Meeting]) -> (Vec<f64>, Effects) {
        let (design, sd) = (self.design, &self.sd);
        let own = sd.trial * sd.trial;
        let pull: Vec<f64> = self
            .mode
            .states
            .iter()
            .zip(&design.pair)
            .map(|(s, p)| {
                let variance = (own + meetings[*p].variance(sd) / s.spread) / s.spread;
                variance * s.bend
            })
            .collect();
        let outer = self.mode.states.iter().zip(&pull).map(|(s, a)| a / s.spread);
        let mut lift = Effects::gathered(design, sd, &design.pair_sums(outer));
        self.arrow.solve(&mut lift);
        (pull, lift)
    }
}

struct PairSums {
    residual: Vec<f64>,
    back: Vec<f64>,
    weight: Vec<f64>,
}

impl PairSums {
    fn zeros(n: usize) -> Self {
        Self { residual: vec![0.0; n], back: vec![0.0; n], weight: vec![0.0; n] }
    }
}

impl Mode {
    /// Settles every trial's own effect; returns the height of the joint log-likelihood.
    fn settle(&mut self, design: &Design, fixed: &[f64], sd: &Sd) -> f64 {
        let logit = self.effects.scattered(design, sd);
        let variance = sd.trial * sd.trial;
        let mut height = -0.5 * self.effects.dot(&self.effects);
        for (t, state) in self.states.iter_mut().enumerate() {
            let (x, n) = (design.x[t], design.n[t]);
            *state = state.settle(fixed[t] + logit[design.pair[t]], x, n, variance);
            height += state.loglik(x, n, variance);
        }
        height
    }

    fn arrow<'d>(&self, design: &'d Design, sd: &Sd) -> Arrow<'d> {
        Arrow::factor(design, sd, &design.pair_sums(self.states.iter().map(State::outer)))
    }

    fn gradient(&self, design: &Design, sd: &Sd) -> Effects {
        let residuals = design.pair_sums(self.states.iter().map(|s| s.residual));
        Effects::gathered(design, sd, &residuals).moved(&self.effects, -1.0)
    }

    /// The longest of ever halved steps that does not lose height.
    fn climbed(
        &self,
        design: &Design,
        fixed: &[f64],
        sd: &Sd,
        step: &Effects,
        height: f64,
    ) -> Option<(Self, f64)> {
        let mut length = 1.0;
        for _ in 0..30 {
            let mut next = Self { effects: self.effects.moved(step, length), states: self.states.clone() };
            let higher = next.settle(design, fixed, sd);
            if higher >= height - 1e-11 * height.abs() {
                return Some((next, higher));
            }
            length *= 0.5;
        }
        None
    }
}
