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
pub struct Caution {
    pub head: &'static str,
    pub text: &'static str,
}

const OXIDISER: Caution = Caution {
    head: "Strong oxidiser.",
    text: "Peroxide above 8 % burns eyes and skin and can set other things alight. Wear goggles and gloves, keep it \
           in its own vented bottle away from heat, metal and anything that burns, and always pour it into water.",
};
const PEROXIDE: Caution = Caution {
    head: "Stronger than household peroxide.",
    text: "It burns skin and eyes. Wear gloves and eye protection, and have water at hand to rinse.",
};
const BLEACH: Caution = Caution {
    head: "Bleach.",
    text: "Never with acid (vinegar too), ammonia or peroxide: the gases are poisonous. Rinse vessels and seed well \
           before another agent follows. Open a window, wear gloves and eye protection.",
};
const HOT: Caution = Caution {
    head: "Hot water.",
    text: "It scalds, and a few degrees too many kill the seed. Measure with a thermometer, keep children away, and \
           keep cords and plugs out of reach of water.",
};
const TREATED: Caution = Caution {
    head: "Treated seed.",
    text: "The coat can hold a poison: gloves, no dust breathed in, nothing of it eaten or fed. Soaking washes it into \
           the water, which then may not go down the drain.",
};
const COATED: Caution = Caution {
    head: "Pelleted or primed seed.",
    text: "It is made to be sown as it is: a soak dissolves the pellet or undoes the priming, and there is no float tally.",
};
const PEPPER: Caution = Caution {
    head: "Pepper seed.",
    text: "Hot peppers leave their burn on seeds, water and fingers. Wear gloves and keep your hands off your eyes.",
};
const MAT: Caution = Caution {
    head: "Electricity near water.",
    text: "Heat mats and wet bags: use a mat made for it, behind a protective switch (RCD or GFCI), with dry hands at the plug.",
};
const DEFER: Caution = Caution {
    head: "First of all",
    text: "the label of your product, the rules where you live, and what licensed practice says. They come before this page.",
};

/// Cautions of one solution; strengths in percent, degrees C.
pub fn of_agent(agent: &str, strongest: f64, warmth_c: Option<f64>) -> Vec<Caution> {
    let agent = agent.to_lowercase();
    let holds = |words: &[&str]| words.iter().any(|w| agent.contains(w));
    let mut found = Vec::new();
    if holds(&["peroxide", "h2o2", "h₂o₂"]) {
        if strongest > STRONG_PEROXIDE_PERCENT {
            found.push(OXIDISER);
        } else if strongest > HOUSEHOLD_PEROXIDE_PERCENT {
            found.push(PEROXIDE);
        }
    }
    if holds(&["bleach", "hypochlorite", "chlorine"]) {
        found.push(BLEACH);
    }
    if warmth_c.is_some_and(|c| c >= HOT_C) {
        found.push(HOT);
    }
    found
}

/// Cautions of a routine's steps.
pub fn of_steps(steps: &[Step]) -> Vec<Caution> {
    let strongest = |s: &Step| s.stock_percent.unwrap_or(0.0).max(s.percent.unwrap_or(0.0));
    steps.iter().flat_map(|s| of_agent(&s.agent, strongest(s), s.temperature_c)).collect()
}

/// Cautions of seed of this state and kind.
pub fn of_seed(state: &str, kind: &str) -> Vec<Caution> {
    let state = match state {
        "treated" => Some(TREATED),
        "pelleted" | "primed" => Some(COATED),
        _ => None,
    };
    state.into_iter().chain(kind.to_lowercase().contains("pepper").then_some(PEPPER)).collect()
}

/// Cautions of a heat mat.
pub fn of_mat() -> Vec<Caution> {
    vec![MAT]
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
        once.push(DEFER);
    }
    once
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strength_and_agent_choose_the_caution() {
        let heads = |agent, x| said(of_agent(agent, x, None)).iter().map(|c| c.head).collect::<Vec<_>>();
        assert!(heads("hydrogen peroxide", 3.0).is_empty());
        assert_eq!(heads("Hydrogen Peroxide", 6.0), [PEROXIDE.head, DEFER.head]);
        assert_eq!(heads("peroxide", 8.0), [PEROXIDE.head, DEFER.head]);
        assert_eq!(heads("peroxide", 8.1), [OXIDISER.head, DEFER.head]);
        assert_eq!(heads("household bleach", 5.0), [BLEACH.head, DEFER.head]);
        assert!(heads("water", 100.0).is_empty());
    }

    /// The manual says them in the same words.
    #[test]
    fn each_caution_stands_in_the_manual() {
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let manual = plain(include_str!("../../templates/manual/care.md"));
        for caution in [OXIDISER, PEROXIDE, BLEACH, HOT, TREATED, COATED, PEPPER, MAT] {
            let told = format!("- **{}** {}", caution.head, plain(caution.text));
            assert!(manual.contains(&told), "{told}");
        }
        assert!(manual.contains(&format!("{} {}", DEFER.head, DEFER.text)));
    }

    #[test]
    fn heat_and_seed_choose_the_caution() {
        assert_eq!(of_agent("water", 0.0, Some(50.0)), [HOT]);
        assert!(of_agent("water", 0.0, Some(20.0)).is_empty());
        assert_eq!(said(of_seed("treated", "hot pepper")), [TREATED, PEPPER, DEFER]);
        assert_eq!(of_seed("primed", "onion"), [COATED]);
    }
}
