/// One trial with its own effect taken at its most likely value.
#[derive(Debug, Clone, Copy, Default)]
pub struct State {
    /// Logit, the trial's effect included.
    pub logit: f64,
    /// x - n p: the derivative of the log-likelihood.
    pub residual: f64,
    /// n p (1 - p), and its derivative.
    pub weight: f64,
    pub bend: f64,
    /// 1 + variance of the trial effect x weight; 0 where nothing is known yet.
    pub spread: f64,
    /// exp(-|logit|).
    tail: f64,
}

impl State {
    /// Weight of the trial on the other effects, its own effect eliminated.
    pub fn outer(&self) -> f64 {
        self.weight / self.spread
    }

    fn at(logit: f64, x: f64, n: f64, variance: f64) -> Self {
        let tail = (-logit.abs()).exp();
        let p = (if logit < 0.0 { tail } else { 1.0 }) / (1.0 + tail);
        let weight = n * p * (1.0 - p);
        Self {
            logit,
            residual: x - n * p,
            weight,
            bend: weight * (1.0 - 2.0 * p),
            spread: 1.0 + variance * weight,
            tail,
        }
    }

    /// Finds the trial's own effect for the logit `mean` of the other effects: the root of
    /// logit = mean + variance x residual, by Newton inside a bracket. Starts from `self`, and stops
    /// at a step whose square is lost.
    pub fn settle(&self, mean: f64, x: f64, n: f64, variance: f64) -> Self {
        if variance == 0.0 {
            return Self::at(mean, x, n, 0.0);
        }
        let (mut low, mut high) = (mean - variance * (n - x), mean + variance * x);
        let mut state = if self.spread > 0.0 && self.logit > low && self.logit < high {
            Self { spread: 1.0 + variance * self.weight, ..*self }
        } else {
            Self::at(self.logit.clamp(low, high), x, n, variance)
        };
        for _ in 0..100 {
            let gap = state.logit - mean - variance * state.residual;
            if gap > 0.0 {
                high = state.logit;
            } else {
                low = state.logit;
            }
            let newton = state.logit - gap / state.spread;
            let inside = (low..=high).contains(&newton);
            let next = if inside { newton } else { f64::midpoint(low, high) };
            let moved = (next - state.logit).abs();
            state = Self::at(next, x, n, variance);
            if moved <= if inside { 1e-6 } else { 1e-12 } {
                break;
            }
        }
        state
    }

    /// Log-likelihood of the counts and of the trial's effect, without constants.
    pub fn loglik(&self, x: f64, n: f64, variance: f64) -> f64 {
        let softplus = self.logit.max(0.0) + self.tail.ln_1p();
        x * self.logit - n * softplus - 0.5 * variance * self.residual * self.residual
    }
}

/// 1 / (1 + exp(-x)).
pub fn expit(x: f64) -> f64 {
    if x >= 0.0 {
        1.0 / (1.0 + (-x).exp())
    } else {
        let e = x.exp();
        e / (1.0 + e)
    }
}

/// Mean and variance of the rate where its logit is normal around `logit` with `sd`: summed over the
/// normal distribution in 400 steps of +-9 sd.
#[must_use]
pub fn averaged(logit: f64, sd: f64) -> (f64, f64) {
    let (mut sum, mut squares, mut whole) = (0.0, 0.0, 0.0);
    for k in -200..=200 {
        let z = f64::from(k) * 0.045;
        let (weight, rate) = ((-0.5 * z * z).exp(), expit(logit + sd * z));
        sum += weight * rate;
        squares += weight * rate * rate;
        whole += weight;
    }
    let mean = sum / whole;
    (mean, (squares / whole - mean * mean).max(0.0))
}
