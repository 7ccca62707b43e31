//! Numbers that look drawn by lot, for invented clubs and simulations.

/// Draws the same numbers in each run: splitmix64 (Steele, Lea & Flood 2014), one row of numbers for each seed.
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The row of numbers of this seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The row of numbers that belongs to the `n`-th thing of a sort.
    #[must_use]
    pub fn of(sort: u64, n: usize) -> Self {
        let mut dice = Self(sort.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ n as u64);
        dice.next();
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 up to 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Whether something of probability `chance` happens.
    pub fn happens(&mut self, chance: f64) -> bool {
        self.share() < chance
    }

    /// A whole number from `least` to `most`, each as likely.
    pub fn among(&mut self, least: i64, most: i64) -> i64 {
        least + (self.share() * (most - least + 1) as f64) as i64
    }

    /// Roughly normal with mean 0 and standard deviation 1: the sum of twelve shares, less six.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }
}
