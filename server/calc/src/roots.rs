//! Zeros of functions of one variable.

/// A zero of `f` between `a` and `b`, to within `tolerance`; the ends must differ in sign, otherwise the
/// end nearer to 0 comes back. Brent's method (1973), step for step as in R's `uniroot`, at most 1000 steps.
pub fn brent(f: impl Fn(f64) -> f64, a: f64, b: f64, tolerance: f64) -> f64 {
    let mut s = State { a, b, c: a, fa: f(a), fb: f(b), fc: 0.0 };
    s.fc = s.fa;
    if s.fa == 0.0 {
        return a;
    }
    for _ in 0..1000 {
        let before = s.b - s.a;
        s.best_last();
        let least = 2.0 * f64::EPSILON * s.b.abs() + tolerance / 2.0;
        let half = (s.c - s.b) / 2.0;
        if half.abs() <= least || s.fb == 0.0 || s.fb.is_nan() {
            break;
        }
        let step = s.interpolated(before, least).unwrap_or(half);
        let step = if step.abs() < least { least.copysign(step) } else { step };
        (s.a, s.fa) = (s.b, s.fb);
        s.b += step;
        s.fb = f(s.b);
        if (s.fb > 0.0 && s.fc > 0.0) || (s.fb < 0.0 && s.fc < 0.0) {
            (s.c, s.fc) = (s.a, s.fa);
        }
    }
    s.b
}

/// The last two points and one, `c`, across the zero from `b`.
struct State {
    a: f64,
    b: f64,
    c: f64,
    fa: f64,
    fb: f64,
    fc: f64,
}

impl State {
    fn best_last(&mut self) {
        if self.fc.abs() < self.fb.abs() {
            (self.a, self.b, self.c) = (self.b, self.c, self.b);
            (self.fa, self.fb, self.fc) = (self.fb, self.fc, self.fb);
        }
    }

    /// A step by secant or inverse parabola, where it is safe.
    fn interpolated(&self, before: f64, least: f64) -> Option<f64> {
        if before.abs() < least || self.fa.abs() <= self.fb.abs() {
            return None;
        }
        let across = self.c - self.b;
        let t2 = self.fb / self.fa;
        let (p, q) = if self.a == self.c {
            (across * t2, 1.0 - t2)
        } else {
            let (q, t1) = (self.fa / self.fc, self.fb / self.fc);
            let p = t2 * (across * q * (q - t1) - (self.b - self.a) * (t1 - 1.0));
            (p, (q - 1.0) * (t1 - 1.0) * (t2 - 1.0))
        };
        let (p, q) = if p > 0.0 { (p, -q) } else { (-p, q) };
        let safe = p < 0.75 * across * q - (least * q).abs() / 2.0 && p < (before * q / 2.0).abs();
        safe.then(|| p / q)
    }
}
