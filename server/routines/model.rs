use crate::db::FromRow;
use crate::db::ids::{At, RoutineId, RoutineVersionId};
use hilum_calc::units;

/// What a step does, and its words.
pub const ACTS: [(&str, &str); 6] = [
    ("stand water", "Let tap water stand"),
    ("sanitising soak", "Sanitising soak"),
    ("rinse", "Rinse"),
    ("priming soak", "Priming soak"),
    ("drain", "Drain"),
    ("rest", "Rest"),
];

/// A routine with its newest version.
#[derive(Debug, Clone, FromRow)]
pub struct Routine {
    pub id: RoutineId,
    pub name: String,
    pub made_by: Option<String>,
    pub made_by_name: Option<String>,
    pub retired_at: Option<At>,
    pub version_id: RoutineVersionId,
    pub number: i64,
    pub note: String,
    pub frozen: bool,
    pub steps: i64,
}

/// One step: strengths in percent, temperature in degrees C.
#[derive(Debug, Clone, Default, PartialEq, FromRow)]
pub struct Step {
    pub position: i64,
    pub act: String,
    pub agent: String,
    pub stock_percent: Option<f64>,
    pub percent: Option<f64>,
    pub dose: String,
    pub minutes: i64,
    pub temperature_c: Option<f64>,
    pub place: String,
    pub note: String,
}

impl Step {
    /// `Sanitising soak in hydrogen peroxide 1.5 %, 30 min, at 20 °C`.
    pub fn words(&self, us: bool) -> String {
        let mut text = act_words(&self.act).to_owned();
        let strength = self.percent.map(percent).unwrap_or_default();
        let agent = [self.agent.as_str(), strength.as_str()].join(" ").trim().to_owned();
        if !agent.is_empty() {
            text.push_str(&format!(" in {agent}"));
        }
        if self.minutes > 0 {
            text.push_str(&format!(", {}", duration(self.minutes)));
        }
        if let Some(c) = self.temperature_c {
            text.push_str(&format!(", at {}", warmth(c, us)));
        }
        for part in [&self.dose, &self.place].into_iter().filter(|p| !p.is_empty()) {
            text.push_str(&format!(", {part}"));
        }
        text
    }
}

/// The words of an act.
pub fn act_words(act: &str) -> &'static str {
    ACTS.iter().find(|(name, _)| *name == act).map_or("Step", |(_, words)| words)
}

/// The name by which routines are told apart.
pub fn name_key(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// `30 min`, `12 h`, `1 h 30 min`.
pub fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, m) => format!("{m} min"),
        (h, 0) => format!("{h} h"),
        (h, m) => format!("{h} h {m} min"),
    }
}

/// `1.5 %`, without idle zeros.
pub fn percent(x: f64) -> String {
    format!("{} %", plain(x))
}

/// A number with at most two decimals and no idle zeros.
pub fn plain(x: f64) -> String {
    units::shown(x, 2).trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Degrees in the member's habit: `28 °C` or `82 °F`.
pub fn warmth(c: f64, us: bool) -> String {
    format!("{} {}", degrees(c, us), unit(us))
}

/// The member's unit of temperature.
pub fn unit(us: bool) -> &'static str {
    if us { "°F" } else { "°C" }
}

/// Degrees C as the number the member would write.
pub fn degrees(c: f64, us: bool) -> String {
    if us { plain((c * 1.8 + 32.0).round()) } else { plain((c * 10.0).round() / 10.0) }
}

/// What the member wrote, in degrees C.
pub fn celsius(typed: f64, us: bool) -> f64 {
    if us { (typed - 32.0) / 1.8 } else { typed }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_said_in_one_line() {
        let step = Step {
            act: "sanitising soak".into(),
            agent: "hydrogen peroxide".into(),
            percent: Some(1.5),
            minutes: 30,
            temperature_c: Some(20.0),
            ..Step::default()
        };
        assert_eq!(step.words(false), "Sanitising soak in hydrogen peroxide 1.5 %, 30 min, at 20 °C");
        assert!(step.words(true).ends_with("at 68 °F"));
        assert_eq!(duration(750), "12 h 30 min");
    }

    #[test]
    fn degrees_go_there_and_back() {
        for f in [32.0, 70.0, 82.0, 90.0] {
            assert_eq!(degrees(celsius(f, true), true), plain(f));
        }
        assert_eq!(plain(100.0), "100");
    }
}
