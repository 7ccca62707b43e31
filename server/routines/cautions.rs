//! The usual cautions, chosen by agent, strength, temperature and seed. Common practice, no source, but for the
//! strength from which peroxide is an oxidiser (see `hilum_calc::dilution`). They always end by deferring to
//! the label, local rules and licensed practice.

use super::model::Step;
use hilum_calc::dilution::STRONG_PEROXIDE_PERCENT;

/// Peroxide as sold for the household, in percent.
pub const HOUSEHOLD_PEROXIDE_PERCENT: f64 = 3.0;
/// Water from here on scalds in seconds, degrees C.
const HOT_C: f64 = 45.0;

/// What can go wrong, and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    Oxidiser,
    Peroxide,
    Bleach,
    Hot,
    Treated,
    Coated,
    Pepper,
    Mat,
    /// What comes before all the others.
    Defer,
}

impl Caution {
    pub fn head(self) -> &'static str {
        match self {
            Self::Oxidiser => t!("routines-oxidiser"),
            Self::Peroxide => t!("routines-peroxide"),
            Self::Bleach => t!("routines-bleach"),
            Self::Hot => t!("routines-hot-water"),
            Self::Treated => t!("routines-treated-seed"),
            Self::Coated => t!("routines-coated-seed"),
            Self::Pepper => t!("routines-pepper-seed"),
            Self::Mat => t!("routines-electricity"),
            Self::Defer => t!("routines-first-of-all"),
        }
    }

    pub fn text(self) -> &'static str {
        match self {
            Self::Oxidiser => t!("routines-oxidiser-what-to-do"),
            Self::Peroxide => t!("routines-peroxide-what-to-do"),
            Self::Bleach => t!("routines-bleach-what-to-do"),
            Self::Hot => t!("routines-hot-water-what-to-do"),
            Self::Treated => t!("routines-treated-seed-what-to-do"),
            Self::Coated => t!("routines-coated-seed-what-to-do"),
            Self::Pepper => t!("routines-pepper-seed-what-to-do"),
            Self::Mat => t!("routines-electricity-what-to-do"),
            Self::Defer => t!("routines-first-of-all-what"),
        }
    }
}

/// How members write peroxide, bleach and peppers in the languages of the pages.
const PEROXIDES: [&str; 4] = ["peroxid", "peroxyd", "h2o2", "h₂o₂"];
const BLEACHES: [&str; 7] =
    ["bleach", "hypochlorit", "chlorine", "bleich", "chlorreinig", "chlorlauge", "javel"];
const PEPPERS: [&str; 5] = ["pepper", "paprika", "chili", "peperoni", "pfefferoni"];

/// Cautions of one solution; strengths in percent, degrees C.
pub fn of_agent(agent: &str, strongest: f64, warmth_c: Option<f64>) -> Vec<Caution> {
    let mut found = Vec::new();
    if holds(agent, &PEROXIDES) {
        if strongest > STRONG_PEROXIDE_PERCENT {
            found.push(Caution::Oxidiser);
        } else if strongest > HOUSEHOLD_PEROXIDE_PERCENT {
            found.push(Caution::Peroxide);
        }
    }
    if holds(agent, &BLEACHES) || is_chlorine(agent) {
        found.push(Caution::Bleach);
    }
    if warmth_c.is_some_and(|c| c >= HOT_C) {
        found.push(Caution::Hot);
    }
    found
}

fn holds(text: &str, words: &[&str]) -> bool {
    let text = text.to_lowercase();
    words.iter().any(|word| text.contains(word))
}

/// As a word of its own: in German, chlorides begin with it.
fn is_chlorine(agent: &str) -> bool {
    agent.to_lowercase().split(|c: char| !c.is_alphanumeric()).any(|word| word == "chlor")
}

/// Cautions of a routine's steps.
pub fn of_steps(steps: &[Step]) -> Vec<Caution> {
    let strongest = |s: &Step| s.stock_percent.unwrap_or(0.0).max(s.percent.unwrap_or(0.0));
    steps.iter().flat_map(|s| of_agent(&s.agent, strongest(s), s.temperature_c)).collect()
}

/// Cautions of seed of this state and kind.
pub fn of_seed(state: &str, kind: &str) -> Vec<Caution> {
    let state = match state {
        "treated" => Some(Caution::Treated),
        "pelleted" | "primed" => Some(Caution::Coated),
        _ => None,
    };
    state.into_iter().chain(holds(kind, &PEPPERS).then_some(Caution::Pepper)).collect()
}

/// Cautions of a heat mat.
pub fn of_mat() -> Vec<Caution> {
    vec![Caution::Mat]
}

/// Each caution once, ending with what comes before all of them; nothing where there is nothing to say.
pub fn said(found: Vec<Caution>) -> Vec<Caution> {
    let mut once: Vec<Caution> = Vec::new();
    for caution in found {
        if !once.contains(&caution) {
            once.push(caution);
        }
    }
    if !once.is_empty() {
        once.push(Caution::Defer);
    }
    once
}

#[cfg(test)]
mod tests {
    use super::Caution::*;
    use super::*;

    #[test]
    fn strength_and_agent_choose_the_caution() {
        let of = |agent, x| said(of_agent(agent, x, None));
        assert!(of("hydrogen peroxide", 3.0).is_empty());
        assert_eq!(of("Hydrogen Peroxide", 6.0), [Peroxide, Defer]);
        assert_eq!(of("peroxide", 8.0), [Peroxide, Defer]);
        assert_eq!(of("peroxide", 8.1), [Oxidiser, Defer]);
        assert_eq!(of("household bleach", 5.0), [Bleach, Defer]);
        assert!(of("water", 100.0).is_empty());
    }

    #[test]
    fn german_agents_and_kinds_choose_the_same_cautions() {
        let of = |agent, x| of_agent(agent, x, None);
        assert_eq!(of("Wasserstoffperoxid", 6.0), [Peroxide]);
        assert_eq!(of("Wasserstoffperoxid", 12.0), [Oxidiser]);
        for bleach in ["Chlorbleiche", "Natriumhypochlorit", "Bleichmittel", "Chlor, 2,8 %"] {
            assert_eq!(of(bleach, 2.8), [Bleach], "{bleach}");
        }
        assert!(of("Calciumchlorid", 1.0).is_empty());
        for kind in ["Paprika", "Chili", "Spitzpaprika", "Peperoni"] {
            assert_eq!(of_seed("plain", kind), [Pepper], "{kind}");
        }
    }

    /// The manual says them in the same words.
    #[test]
    fn each_caution_stands_in_the_manual() {
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let manual = plain(include_str!("../../templates/manual/care.md"));
        for caution in [Oxidiser, Peroxide, Bleach, Hot, Treated, Coated, Pepper, Mat] {
            let told = format!("- **{}** {}", caution.head(), plain(caution.text()));
            assert!(manual.contains(&told), "{told}");
        }
        assert!(manual.contains(&format!("{} {}", Defer.head(), Defer.text())));
    }

    #[test]
    fn heat_and_seed_choose_the_caution() {
        assert_eq!(of_agent("water", 0.0, Some(50.0)), [Hot]);
        assert!(of_agent("water", 0.0, Some(20.0)).is_empty());
        assert_eq!(said(of_seed("treated", "hot pepper")), [Treated, Pepper, Defer]);
        assert_eq!(of_seed("primed", "onion"), [Coated]);
    }
}
