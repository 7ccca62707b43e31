//! Counts without the names of members: growers, trials and bags by number, own seed by the number of who saved it.

use super::book::Counted;
use super::name::Name;
use crate::stock::store::Saved;
use data_encoding::HEXLOWER;
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The numbers of one file.
#[derive(Debug)]
pub struct Numbers {
    growers: HashMap<String, usize>,
    /// Who saved the seed that counts under this name.
    saved: HashMap<String, String>,
    trials: HashMap<Name, (usize, usize)>,
    /// Whose bags keep their names.
    own: Option<String>,
}

impl Numbers {
    /// Of the growers of these bags and of own seed. They follow a digest of `salt` and member, so that they are the
    /// same next time and tell nothing of who came first.
    pub fn new<'b>(bags: impl Iterator<Item = &'b Counted>, saved: &[Saved], salt: &str) -> Self {
        let digest = |id: &str| HEXLOWER.encode(&Sha256::digest(format!("{salt} {id}")));
        let members = bags.map(|b| b.grower_id.as_str()).chain(saved.iter().map(|s| s.member_id.as_str()));
        let members: BTreeSet<&str> = members.collect();
        let order: BTreeMap<String, &str> = members.into_iter().map(|id| (digest(id), id)).collect();
        Self {
            growers: order.into_values().map(str::to_owned).zip(1..).collect(),
            saved: saved.iter().map(|s| (s.name.clone(), s.member_id.clone())).collect(),
            trials: HashMap::new(),
            own: None,
        }
    }

    /// The same, but what is of this member stays as it is.
    pub fn but_for(self, member: &str) -> Self {
        Self { own: Some(member.to_owned()), ..self }
    }

    /// The source under which own seed counts, without a name.
    pub fn source(&self, name: &str) -> Option<String> {
        let by = self.saved.get(name).filter(|by| self.own.as_ref() != Some(*by))?;
        Some(format!("saved by grower {}", self.grower(by)))
    }

    /// The bag with grower, trial, bag and own seed numbered.
    pub fn number(&mut self, bag: &Counted) -> Counted {
        let mut bag = bag.clone();
        if let Some(source) = self.source(&bag.source) {
            bag.source = source.into();
        }
        if self.own.as_deref() == Some(bag.grower_id.as_str()) {
            return bag;
        }
        let next = self.trials.len() + 1;
        let (trial, of_trial) = self.trials.entry(std::mem::take(&mut bag.trial)).or_insert((next, 0));
        *of_trial += 1;
        bag.trial = format!("trial {trial}").into();
        bag.bag = format!("bag {of_trial}").into();
        bag.grower = format!("grower {}", self.grower(&bag.grower_id)).into();
        bag
    }

    fn grower(&self, id: &str) -> usize {
        self.growers.get(id).copied().unwrap_or(0)
    }
}
