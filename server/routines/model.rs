use super::said;
use crate::db::FromRow;
use crate::db::ids::{At, RoutineId, RoutineVersionId, SolutionId};
use crate::web::forms::Form;
use crate::web::words;
use chrono::NaiveDate;
use hilum_calc::units;

pub use super::cautions::Caution;

pub const MOST_STEPS: i64 = 20;
const MOST_MINUTES: f64 = 43_200.0;

/// What a step does, as stored.
pub const ACTS: [&str; 6] = ["stand water", "sanitising soak", "rinse", "priming soak", "drain", "rest"];

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

impl Routine {
    pub fn shown_name(&self) -> &str {
        said::name(&self.name)
    }

    /// `by Agnes`; `ready starter` where nobody made it.
    pub fn maker(&self) -> String {
        match &self.made_by_name {
            Some(name) => t!("routines-by", name = name),
            None => t!("routines-ready-starter").to_owned(),
        }
    }
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
        let mut parts = vec![act_in(&self.act, &with_strength(&self.agent, self.percent))];
        if self.minutes > 0 {
            parts.push(duration(self.minutes));
        }
        if let Some(c) = self.temperature_c {
            parts.push(t!("routines-at-warmth", warmth = warmth(c, us)));
        }
        let more = [&self.dose, &self.place].into_iter().filter(|p| !p.is_empty());
        parts.extend(more.map(|p| said::text(p).to_owned()));
        parts.join(", ")
    }
}

/// One version of a routine.
#[derive(Debug, Clone, FromRow)]
pub struct Version {
    pub id: RoutineVersionId,
    pub number: i64,
    pub note: String,
    pub frozen: bool,
    pub made_at: At,
    pub made_by_name: Option<String>,
    pub trials: i64,
}

/// A solution as it was made; strengths in percent.
#[derive(Debug, Clone, FromRow)]
pub struct Solution {
    pub id: SolutionId,
    pub agent: String,
    pub stock_percent: Option<f64>,
    pub percent: Option<f64>,
    pub opened_on: Option<NaiveDate>,
    pub volume_ml: f64,
    pub vials: i64,
    pub discard_at: Option<At>,
    pub note: String,
    pub made_at: At,
    /// In how many steps it was used.
    pub used: i64,
}

impl Solution {
    /// `hydrogen peroxide 1.5 %`.
    pub fn name(&self) -> String {
        with_strength(&self.agent, self.percent)
    }
}

fn with_strength(agent: &str, strength: Option<f64>) -> String {
    let strength = strength.map(percent).unwrap_or_default();
    format!("{} {strength}", said::text(agent)).trim().to_owned()
}

/// A routine as typed and checked.
#[derive(Debug, Clone, Default)]
pub struct NewRoutine {
    pub name: String,
    pub note: String,
    pub steps: Vec<Step>,
}

impl NewRoutine {
    pub fn parse(form: &mut Form, us: bool) -> Self {
        let name = said::stored_name(form.must_text("name", 80));
        let note = said::stored_text(form.text("note", 2000));
        let mut steps: Vec<Step> = (1..=rows(form)).filter_map(|n| step(form, n, us)).collect();
        for (place, step) in (1..).zip(&mut steps) {
            step.position = place;
        }
        Self { name, note, steps }
    }
}

/// How many step rows the form has.
pub fn rows(form: &Form) -> i64 {
    form.value("rows").parse().unwrap_or(4).clamp(1, MOST_STEPS)
}

/// Row `n` of the form; `None` where it is empty.
fn step(form: &mut Form, n: i64, us: bool) -> Option<Step> {
    let name = |field: &str| format!("{field}_{n}");
    let text = |form: &mut Form, field: &str, most| said::stored_text(form.text(&name(field), most));
    let typed = ["agent", "stock", "strength", "dose", "time", "warmth", "place", "step_note"];
    if form.value(&name("act")).is_empty() {
        if typed.iter().any(|field| !form.value(&name(field)).trim().is_empty()) {
            form.refuse(&name("act"), t!("routines-choose-the-act"));
        }
        return None;
    }
    let step = Step {
        position: n,
        act: form.one_of(&name("act"), &ACTS).to_owned(),
        agent: text(form, "agent", 60),
        stock_percent: form.decimal(&name("stock"), 0.01..=100.0),
        percent: form.decimal(&name("strength"), 0.01..=100.0),
        dose: text(form, "dose", 120),
        minutes: minutes(form, n),
        temperature_c: read_warmth(form, &name("warmth"), us, 100.0),
        place: text(form, "place", 60),
        note: text(form, "step_note", 500),
    };
    if step.stock_percent.zip(step.percent).is_some_and(|(stock, wanted)| wanted > stock) {
        form.refuse(&name("strength"), t!("routines-stronger-than-the-stock"));
    }
    Some(step)
}

fn minutes(form: &mut Form, n: i64) -> i64 {
    let unit = if form.value(&format!("unit_{n}")) == "hours" { 60.0 } else { 1.0 };
    let typed = form.decimal(&format!("time_{n}"), 0.0..=MOST_MINUTES / unit);
    (typed.unwrap_or(0.0) * unit).round() as i64
}

/// Degrees in the member's habit, from -30 °C to `most_c`; given back in degrees C.
pub fn read_warmth(form: &mut Form, name: &str, us: bool, most_c: f64) -> Option<f64> {
    let range = if us { -22.0..=most_c * 1.8 + 32.0 } else { -30.0..=most_c };
    form.decimal(name, range).map(|typed| celsius(typed, us))
}

/// The form that shows a routine for editing.
pub fn filled(name: &str, note: &str, steps: &[Step], us: bool) -> Form {
    let rows = (steps.len() as i64 + 2).clamp(4, MOST_STEPS);
    let mut form =
        Form::new().with("name", said::name(name)).with("note", said::text(note)).with("rows", rows);
    for s in steps {
        let n = s.position;
        let hours = s.minutes >= 120 && s.minutes % 60 == 0;
        let time = if hours { s.minutes / 60 } else { s.minutes };
        form = form
            .with(&format!("act_{n}"), &s.act)
            .with(&format!("agent_{n}"), said::text(&s.agent))
            .with(&format!("stock_{n}"), s.stock_percent.map(plain).unwrap_or_default())
            .with(&format!("strength_{n}"), s.percent.map(plain).unwrap_or_default())
            .with(&format!("dose_{n}"), said::text(&s.dose))
            .with(&format!("time_{n}"), if time == 0 { String::new() } else { time.to_string() })
            .with(&format!("unit_{n}"), if hours { "hours" } else { "minutes" })
            .with(&format!("warmth_{n}"), s.temperature_c.map(|c| degrees(c, us)).unwrap_or_default())
            .with(&format!("place_{n}"), said::text(&s.place))
            .with(&format!("step_note_{n}"), said::text(&s.note));
    }
    form
}

/// What the fields of a step are about, for errors that are read apart from them.
pub fn fields() -> [(&'static str, &'static str); 10] {
    [
        ("act", t!("routines-field-act")),
        ("agent", t!("routines-field-agent")),
        ("stock", t!("routines-field-stock")),
        ("strength", t!("routines-field-strength")),
        ("dose", t!("routines-field-dose")),
        ("time", t!("routines-field-time")),
        ("unit", t!("routines-field-unit")),
        ("warmth", t!("routines-field-warmth")),
        ("place", t!("routines-field-place")),
        ("step_note", t!("routines-field-note")),
    ]
}

/// The words of an act.
pub fn act_words(act: &str) -> &'static str {
    match act {
        "stand water" => t!("routines-act-stand-water"),
        "sanitising soak" => t!("routines-act-sanitising-soak"),
        "rinse" => t!("routines-act-rinse"),
        "priming soak" => t!("routines-act-priming-soak"),
        "drain" => t!("routines-act-drain"),
        "rest" => t!("routines-act-rest"),
        _ => t!("routines-act-step"),
    }
}

/// `Sanitising soak in hydrogen peroxide`; the act alone where no agent is told.
pub fn act_in(act: &str, agent: &str) -> String {
    match said::text(agent) {
        "" => act_words(act).to_owned(),
        agent => t!("routines-act-in", act = act_words(act), agent = agent),
    }
}

/// The name by which routines are told apart.
pub fn name_key(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// `30 min`, `12 h`, `1 h 30 min`.
pub fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, m) => t!("words-minutes", n = m),
        (h, 0) => t!("words-hours", n = h),
        (h, m) => t!("words-hours-minutes", hours = h, minutes = m),
    }
}

/// `1.5 %`, without idle zeros.
pub fn percent(x: f64) -> String {
    format!("{} %", plain(x))
}

/// A number with at most two decimals and no idle zeros, as the member would write it.
pub fn plain(x: f64) -> String {
    words::decimal(units::shown(x, 2).trim_end_matches('0').trim_end_matches('.'))
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
