/// Numbers that look drawn by lot; the same again from the same seed (Steele, Lea and Flood 2014: SplitMix, from
/// memory).
pub struct Chance(u64);

impl Chance {
    /// From a seed that is told, so that a failure can be run again.
    pub fn new(what: &str) -> Self {
        let seed = uuid::Uuid::new_v4().as_u64_pair().0;
        println!("{what}: seed {seed}");
        Self(seed)
    }

    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number from 0 to `most` less one.
    pub fn below(&mut self, most: usize) -> usize {
        (self.draw() % most as u64) as usize
    }
}
