//! The Laplace approximation of the likelihood at given fixed effects and standard deviations, and
//! its gradient. The effects are standardised, so a standard deviation of 0 is no special place.

use super::arrow::{Arrow, Meetings};
use super::dense::dot;
use super::design::Design;
use super::rows::State;
use super::term::{Point, Sd, Term};

/// Where the effects have settled: the start for the next point.
#[derive(Debug, Clone)]
pub struct Mode {
    pub effects: Vec<f64>,
    pub states: Vec<State>,
}

impl Mode {
    pub fn start(design: &Design) -> Self {
        Self { effects: vec![0.0; design.places.effects], states: vec![State::default(); design.n.len()] }
    }
}

/// The approximation at one point.
pub struct Laplace<'d> {
    pub design: &'d Design,
    pub sd: Sd,
    /// The sd of each effect.
    pub scale: Vec<f64>,
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
        let scale = design.scale(&point.sd);
        let given = Given { design, fixed: design.fixed_part(&point.beta), scale, trial: point.sd.trial };
        let mut mode = mode.clone();
        let mut height = mode.settle(&given);
        let mut arrow = mode.arrow(design, &given.scale);
        for _ in 0..STEPS {
            let mut step = mode.gradient(&given);
            let slope = step.clone();
            arrow.solve(&mut step);
            if dot(&slope, &step) < STILL {
                break;
            }
            let Some((next, higher)) = mode.climbed(&given, &step, height) else { break };
            (mode, height) = (next, higher);
            arrow = mode.arrow(design, &given.scale);
        }
        let spreads: f64 = mode.states.iter().map(|s| s.spread.ln()).sum();
        let loglik = height - 0.5 * (spreads + arrow.log_det());
        Self { design, sd: point.sd, scale: given.scale, mode, arrow, loglik }
    }

    /// What the trials say of each effect of a term: the inverse variance of the noise it is seen through.
    pub fn weights(&self, term: Term) -> Vec<f64> {
        let (places, states) = (&self.design.places, &self.mode.states);
        match term {
            Term::Trial => states.iter().map(|s| s.weight).collect(),
            _ => {
                let sums = places.sums(&self.design.pair_sums(states.iter().map(State::outer)));
                sums[places.of(term)].to_vec()
            }
        }
    }

    /// What the sum of some random effects takes of each standardised effect.
    pub fn contrast(&self, random: &[usize]) -> Vec<f64> {
        let mut contrast = vec![0.0; self.scale.len()];
        random.iter().for_each(|effect| contrast[*effect] = self.scale[*effect]);
        contrast
    }

    /// The gradient of the log-likelihood in the fixed effects and the standard deviations.
    pub fn gradient(&self) -> Point {
        let design = self.design;
        let meetings = self.arrow.meetings(&self.scale);
        let (pull, lift) = self.bend(&meetings);
        let logit = design.scattered(&self.scale, &lift);
        let mut beta = Vec::with_capacity(design.n.len());
        let (mut trial, own_sd) = (0.0, self.sd.trial);
        let mut sums = PairSums::zeros(meetings.variance.len());
        for (t, (state, p)) in self.mode.states.iter().zip(&design.pair).enumerate() {
            let own = own_sd * state.residual;
            let own_lift = own_sd * (pull[t] - state.weight * logit[*p]) / state.spread;
            let back = pull[t] - state.weight * (logit[*p] + own_sd * own_lift);
            let (variance, spread) = (meetings.variance[*p], state.spread);
            let widen = state.weight * own_sd * (1.0 - state.weight * variance / spread) / spread;
            beta.push(state.residual - 0.5 * back);
            trial += own * state.residual - widen - 0.5 * (own * back + own_lift * state.residual);
            sums.residual[*p] += state.residual;
            sums.back[*p] += back;
            sums.weight[*p] += state.outer();
        }
        let slopes = self.slopes(&sums, &meetings, &lift);
        let of = |term: Term| slopes.iter().find(|(of, _)| *of == term).map_or(0.0, |(_, slope)| *slope);
        let sd = Sd::each(|term| if term == Term::Trial { trial } else { of(term) });
        Point { beta: design.fixed_sums(&beta), sd }
    }

    /// The derivative in the sd of each term.
    fn slopes(&self, sums: &PairSums, meetings: &Meetings, lift: &[f64]) -> Vec<(Term, f64)> {
        let (places, effects) = (&self.design.places, &self.mode.effects);
        let mut slopes: Vec<(Term, f64)> = places.terms.iter().map(|(term, _)| (*term, 0.0)).collect();
        for (p, meet) in places.meet.chunks(places.width()).enumerate() {
            for (k, (effect, (_, slope))) in meet.iter().zip(&mut slopes).enumerate() {
                let (u, q) = (effects[*effect], lift[*effect]);
                let half = 0.5 * (u * sums.back[p] + q * sums.residual[p]);
                *slope += u * sums.residual[p] - sums.weight[p] * meetings.covariance(p, k) - half;
            }
        }
        slopes
    }

    /// The log-determinant's derivative in each trial's logit, and the effects it pulls along.
    fn bend(&self, meetings: &Meetings) -> (Vec<f64>, Vec<f64>) {
        let own = self.sd.trial * self.sd.trial;
        let states = self.mode.states.iter().zip(&self.design.pair);
        let pull = states.map(|(s, p)| (own + meetings.variance[*p] / s.spread) / s.spread * s.bend);
        let pull: Vec<f64> = pull.collect();
        let outer = self.mode.states.iter().zip(&pull).map(|(s, a)| a / s.spread);
        let mut lift = self.design.gathered(&self.scale, &self.design.pair_sums(outer));
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

/// What stays while the effects settle: the fixed part of each trial's logit and the sds.
struct Given<'d> {
    design: &'d Design,
    fixed: Vec<f64>,
    scale: Vec<f64>,
    trial: f64,
}

impl Mode {
    /// Settles every trial's own effect; returns the height of the joint log-likelihood.
    fn settle(&mut self, given: &Given) -> f64 {
        let design = given.design;
        let logit = design.scattered(&given.scale, &self.effects);
        let variance = given.trial * given.trial;
        let mut height = -0.5 * dot(&self.effects, &self.effects);
        for (t, state) in self.states.iter_mut().enumerate() {
            let (x, n) = (design.x[t], design.n[t]);
            *state = state.settle(given.fixed[t] + logit[design.pair[t]], x, n, variance);
            height += state.loglik(x, n, variance);
        }
        height
    }

    fn arrow<'d>(&self, design: &'d Design, scale: &[f64]) -> Arrow<'d> {
        let weight = design.pair_sums(self.states.iter().map(State::outer));
        Arrow::factor(&design.places, scale, &weight)
    }

    fn gradient(&self, given: &Given) -> Vec<f64> {
        let residuals = given.design.pair_sums(self.states.iter().map(|s| s.residual));
        let gathered = given.design.gathered(&given.scale, &residuals);
        gathered.iter().zip(&self.effects).map(|(sum, u)| sum - u).collect()
    }

    /// The longest of ever halved steps that does not lose height.
    fn climbed(&self, given: &Given, step: &[f64], height: f64) -> Option<(Self, f64)> {
        let mut length = 1.0;
        for _ in 0..30 {
            let effects = self.effects.iter().zip(step).map(|(u, s)| u + length * s).collect();
            let mut next = Self { effects, states: self.states.clone() };
            let higher = next.settle(given);
            if higher >= height - 1e-11 * height.abs() {
                return Some((next, higher));
            }
            length *= 0.5;
        }
        None
    }
}
