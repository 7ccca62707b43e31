//! Which grower tests which lots: incomplete blocks, a block for each grower.
//!
//! A design is balanced where every pair of lots meets at equally many growers (Yates 1936, Annals of
//! Eugenics 7:121-140). Where none is found the exchange search gives one whose pairs meet as evenly as it
//! can; either way every lot is linked to every other through shared growers.

mod dice;
mod efficiency;
mod known;
mod search;

use crate::linked::Links;
use dice::Dice;

/// Most lots of one design.
pub const MAX_LOTS: usize = 40;
/// Most growers of one design.
pub const MAX_GROWERS: usize = 200;

/// Why there is no design.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// Fewer than two lots or no grower.
    Nothing,
    /// More than [`MAX_LOTS`] or [`MAX_GROWERS`].
    TooLarge,
    /// A grower tests at least two lots and at most all.
    LotsEach,
    /// So few growers with so few lots each cannot link all lots.
    NotLinked,
}

/// Which lots (from 0) each grower tests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Design {
    lots: usize,
    blocks: Vec<Vec<usize>>,
}

impl Design {
    /// A design as it stands; lots are numbered from 0 to `lots` - 1.
    #[must_use]
    pub fn new(lots: usize, mut blocks: Vec<Vec<usize>>) -> Self {
        blocks.iter_mut().for_each(|b| b.sort_unstable());
        Self { lots, blocks }
    }

    /// Finds the design for `lots` lots and `growers` growers with `each` lots each: complete, balanced where
    /// one is found, else as even as the search makes it. The same arguments give the same design.
    pub fn find(lots: usize, growers: usize, each: usize) -> Result<Self, Fault> {
        if lots < 2 || growers < 1 {
            return Err(Fault::Nothing);
        }
        if lots > MAX_LOTS || growers > MAX_GROWERS {
            return Err(Fault::TooLarge);
        }
        if each < 2 || each > lots {
            return Err(Fault::LotsEach);
        }
        if growers * (each - 1) < lots - 1 {
            return Err(Fault::NotLinked);
        }
        let blocks = known::blocks(lots, growers, each)
            .or_else(|| search::blocks(lots, growers, each))
            .ok_or(Fault::NotLinked)?;
        Ok(Self::new(lots, blocks))
    }

    /// The same design with lots, growers and the lots of each grower in an order that `seed` decides.
    #[must_use]
    pub fn shuffled(&self, seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let mut names: Vec<usize> = (0..self.lots).collect();
        dice.shuffle(&mut names);
        let mut blocks: Vec<Vec<usize>> =
            self.blocks.iter().map(|b| b.iter().map(|lot| names[*lot]).collect()).collect();
        dice.shuffle(&mut blocks);
        blocks.iter_mut().for_each(|b| dice.shuffle(b));
        Self { lots: self.lots, blocks }
    }

    /// The lots of each grower.
    #[must_use]
    pub fn blocks(&self) -> &[Vec<usize>] {
        &self.blocks
    }

    /// How many growers test each lot.
    #[must_use]
    pub fn growers_of_lots(&self) -> Vec<usize> {
        let mut counts = vec![0; self.lots];
        self.blocks.iter().flatten().for_each(|lot| counts[*lot] += 1);
        counts
    }

    /// How many growers test both lots.
    #[must_use]
    pub fn meetings(&self, a: usize, b: usize) -> usize {
        self.blocks.iter().filter(|block| block.contains(&a) && block.contains(&b)).count()
    }

    /// The fewest and the most growers that any two lots share.
    #[must_use]
    pub fn fewest_and_most(&self) -> (usize, usize) {
        let pairs = (0..self.lots).flat_map(|a| (a + 1..self.lots).map(move |b| (a, b)));
        let meetings: Vec<usize> = pairs.map(|(a, b)| self.meetings(a, b)).collect();
        (meetings.iter().copied().min().unwrap_or(0), meetings.iter().copied().max().unwrap_or(0))
    }

    /// Whether every two lots share equally many growers, at least one.
    #[must_use]
    pub fn is_balanced(&self) -> bool {
        let (fewest, most) = self.fewest_and_most();
        fewest == most && fewest > 0
    }

    /// Whether a chain of shared growers links every lot to every other.
    #[must_use]
    pub fn is_linked(&self) -> bool {
        let growers: Vec<String> = (0..self.blocks.len()).map(|g| g.to_string()).collect();
        let lots: Vec<String> = (0..self.lots).map(|l| l.to_string()).collect();
        let tried = self.blocks.iter().zip(&growers).flat_map(|(block, grower)| {
            block.iter().map(|lot| (grower.as_str(), lots[*lot].as_str())).collect::<Vec<_>>()
        });
        let links = Links::new(tried);
        links.sources().len() == self.lots && links.groups().len() == 1
    }

    /// Average efficiency factor, above 0 and at most 1: how much of the information of as many seeds, with
    /// every grower testing all lots, is kept for comparing lots within growers. 0 where not linked.
    #[must_use]
    pub fn efficiency(&self) -> f64 {
        efficiency::average(self.lots, &self.blocks)
    }
}
