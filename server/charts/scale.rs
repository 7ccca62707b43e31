/// A stretch of numbers laid along a stretch of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    numbers: (f64, f64),
    drawn: (f64, f64),
}

impl Scale {
    /// `numbers` from low to high; where they are one and the same, or not finite, the stretch is 1 long.
    pub fn new(numbers: (f64, f64), drawn: (f64, f64)) -> Self {
        let low = if numbers.0.is_finite() { numbers.0 } else { 0.0 };
        let high = if numbers.1.is_finite() && numbers.1 > low { numbers.1 } else { low + 1.0 };
        Self { numbers: (low, high), drawn }
    }

    /// Where `number` is drawn; what lies outside the stretch is drawn at its end.
    pub fn at(&self, number: f64) -> f64 {
        let ((low, high), (start, end)) = (self.numbers, self.drawn);
        let part = if number.is_nan() { 0.0 } else { ((number - low) / (high - low)).clamp(0.0, 1.0) };
        start + part * (end - start)
    }

    /// Round numbers on the stretch, 1, 2 or 5 times a power of ten apart, at most `most` (2 or more) of them.
    pub fn round(&self, most: usize) -> Vec<f64> {
        let (low, high) = self.numbers;
        let least = (high - low) / most.max(2) as f64;
        let power = 10_f64.powf(least.log10().floor());
        let apart = [1.0, 2.0, 5.0, 10.0].map(|n| n * power).into_iter().find(|apart| *apart > least);
        let apart = apart.unwrap_or(10.0 * power);
        let (first, last) = ((low / apart).ceil(), (high / apart + 1e-9).floor());
        (0..=(last - first).max(0.0) as usize).map(|i| (first + i as f64) * apart).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_outside_are_drawn_at_the_ends() {
        let scale = Scale::new((0.0, 10.0), (30.0, 130.0));
        let drawn = [-5.0, 0.0, 5.0, 10.0, 99.0, f64::NAN].map(|n| scale.at(n));
        assert_eq!(drawn, [30.0, 30.0, 80.0, 130.0, 130.0, 30.0]);
        assert_eq!(Scale::new((3.0, 3.0), (0.0, 1.0)).at(3.5), 0.5);
        assert_eq!(Scale::new((0.0, f64::INFINITY), (0.0, 1.0)).at(0.5), 0.5);
    }

    #[test]
    fn round_numbers_are_few_and_on_the_stretch() {
        assert_eq!(Scale::new((0.0, 18.0), (0.0, 1.0)).round(6), [0.0, 5.0, 10.0, 15.0]);
        assert_eq!(Scale::new((0.0, 100.0), (0.0, 1.0)).round(5), [0.0, 50.0, 100.0]);
        assert_eq!(Scale::new((3.2, 7.9), (0.0, 1.0)).round(6), [4.0, 5.0, 6.0, 7.0]);
        for high in [0.01, 0.7, 1.0, 9.99, 41.0, 365.0, 1e9] {
            let round = Scale::new((0.0, high), (0.0, 1.0)).round(6);
            assert!((2..=6).contains(&round.len()), "{high}: {round:?}");
            assert!(round.iter().all(|n| (0.0..=high * 1.000_001).contains(n)), "{high}: {round:?}");
        }
    }
}
