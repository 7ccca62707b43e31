use super::bounds::{ends, maybe};
use super::{Fault, Fields, number};
use crate::event_time::{Fate, Fit, Form, Removed, Seeds, giving_up};
use serde_json::{Map, Value, json};

/// What is asked beside the seeds.
struct Asked {
    now: f64,
    horizon: f64,
    left: f64,
    conf: f64,
}

/// `rows` of {l, r, count, kind}: capacity and time of rooting in three forms, and what is to come.
pub fn event_time(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let rows = fields.rows("rows")?;
    let bags = bags(&rows)?;
    let seeds: Vec<Seeds> =
        rows.iter().zip(&bags).map(|(row, bag)| seeds(row, *bag)).collect::<Result<_, _>>()?;
    if !seeds.iter().any(Seeds::is_sound) {
        return Err(Fault::new("rows", "must hold at least one seed"));
    }
    let asked = asked(&fields, &seeds)?;
    let removed = seeds.iter().any(|s| s.is_sound() && matches!(s.fate, Fate::Removed { .. }));
    Ok(if removed {
        json!({
            "removed_as_censored": forms(&seeds, Removed::Censored, &asked),
            "removed_as_never": forms(&seeds, Removed::Never, &asked),
        })
    } else {
        json!({ "fit": forms(&seeds, Removed::Censored, &asked) })
    })
}

fn asked(fields: &Fields, seeds: &[Seeds]) -> Result<Asked, Fault> {
    let last = seeds.iter().map(last_seen).fold(0.0, f64::max);
    let (now, horizon) = (fields.number_or("now", last)?, fields.number_or("horizon", 7.0)?);
    for (name, x) in [("now", now), ("horizon", horizon)] {
        if !(0.0..=super::curve::LATEST).contains(&x) {
            return Err(Fault::new(name, "must be 0 to 10^9"));
        }
    }
    let on_paper = seeds.iter().filter(|s| matches!(s.fate, Fate::OnPaper { .. }));
    Ok(Asked { now, horizon, left: on_paper.map(|s| s.count).sum(), conf: fields.conf()? })
}

fn last_seen(s: &Seeds) -> f64 {
    match s.fate {
        Fate::Rooted { r, .. } => r,
        Fate::OnPaper { l } | Fate::Removed { l } => l,
    }
}

/// Number of each row's `bag` by its name in order; rows without a name are one bag.
fn bags(rows: &[Fields]) -> Result<Vec<usize>, Fault> {
    let name =
        |row: &Fields| row.maybe("bag").map_or(Ok(String::new()), |_| row.text("bag").map(str::to_owned));
    let names: Vec<String> = rows.iter().map(name).collect::<Result<_, _>>()?;
    let mut sorted = names.clone();
    sorted.sort();
    sorted.dedup();
    Ok(names.iter().map(|n| sorted.partition_point(|s| s < n)).collect())
}

fn seeds(row: &Fields, bag: usize) -> Result<Seeds, Fault> {
    let interval = super::curve::interval(row)?;
    let fate = match (row.text("kind")?, interval.r) {
        ("germinated", Some(r)) => Fate::Rooted { l: interval.l, r },
        ("germinated", None) => return Err(Fault::new(row.at("r"), "is missing")),
        ("ungerminated", None) => Fate::OnPaper { l: interval.l },
        ("removed_dead", None) => Fate::Removed { l: interval.l },
        ("ungerminated" | "removed_dead", Some(_)) => {
            return Err(Fault::new(row.at("r"), "must be empty unless the seeds germinated"));
        }
        _ => return Err(Fault::new(row.at("kind"), "must be germinated, ungerminated or removed_dead")),
    };
    Ok(Seeds { fate, count: interval.count, bag })
}

fn forms(seeds: &[Seeds], removed: Removed, asked: &Asked) -> Value {
    let fits = Form::ALL.map(|form| Fit::of(seeds, form, removed));
    let mut out = Map::new();
    for fit in &fits {
        let mut one = estimates(fit, asked.conf);
        let by_bag = fit.errors_by_bag(seeds, removed);
        let by_bag =
            by_bag.map(|e| json!({ "p": maybe(e.p), "t50": number(e.t50), "shape": number(e.shape) }));
        one.insert("se_by_bag".into(), json!(by_bag));
        one.insert("prediction".into(), prediction(fit, asked));
        one.insert("F".into(), shares(fit, seeds));
        out.insert(fit.form.name().into(), Value::Object(one));
    }
    let best = fits.iter().filter_map(|f| Some((f.aic()?, f.form.name()))).min_by(|a, b| a.0.total_cmp(&b.0));
    out.insert("best_aic".into(), json!(best.map(|(_, name)| name)));
    let giving_up = giving_up(seeds, removed, (asked.now, asked.left), 0.5, asked.conf);
    out.insert(
        "giving_up".into(),
        json!({
            "supported": giving_up.supported,
            "most_to_come": number(giving_up.most_to_come),
            "from": maybe(giving_up.from),
        }),
    );
    Value::Object(out)
}

fn estimates(fit: &Fit, conf: f64) -> Map<String, Value> {
    let errors = fit.errors();
    let mut out = Map::new();
    let mut put = |key: &str, value: Value| out.insert(key.into(), value);
    put("status", json!(fit.status.name()));
    put("p", maybe(fit.p()));
    put("t50", maybe(fit.t50()));
    put("shape", maybe(fit.shape()));
    put("loglik", maybe(fit.p().map(|_| fit.loglik)));
    put("aic", maybe(fit.aic()));
    put("se_p", maybe(errors.and_then(|e| e.p)));
    put("se_t50", maybe(errors.map(|e| e.t50)));
    put("se_shape", maybe(errors.map(|e| e.shape)));
    put("p_ci_logit", ends(fit.p_interval(conf)));
    put("t50_ci", ends(fit.t50_interval(conf)));
    put("p_ci_profile", ends(fit.p_profile(conf)));
    if fit.form == Form::Weibull {
        put("scale", maybe(fit.scale()));
    }
    out
}

fn prediction(fit: &Fit, asked: &Asked) -> Value {
    let Asked { now, horizon, left, conf } = *asked;
    let (ever, within) = (fit.ever(now, conf), fit.within(now, horizon));
    json!({
        "now": now,
        "still_ungerminated": left,
        "horizon": horizon,
        "prob_ever": maybe(ever.map(|e| e.chance)),
        "se_prob_ever": maybe(ever.and_then(|e| e.se)),
        "prob_ever_ci_logit": ever.filter(|e| e.se.is_some()).map(|e| pair(e.interval)),
        "prob_ever_ci_profile": ends(fit.ever_profile(now, conf)),
        "prob_within_horizon": maybe(within.map(|w| w.chance)),
        "se_prob_within_horizon": maybe(within.and_then(|w| w.se)),
        "expected_further": maybe(ever.map(|e| left * e.chance)),
        "expected_within_horizon": maybe(within.map(|w| left * w.chance)),
        "next_look": maybe(fit.next_look(now, left, 0.8)),
    })
}

/// [t, F(t)] at every end point later than 0.
fn shares(fit: &Fit, seeds: &[Seeds]) -> Value {
    let ends = |s: &Seeds| match s.fate {
        Fate::Rooted { l, r } => [l, r],
        Fate::OnPaper { l } | Fate::Removed { l } => [l, l],
    };
    let mut times: Vec<f64> =
        seeds.iter().filter(|s| s.is_sound()).flat_map(ends).filter(|t| *t > 0.0).collect();
    times.sort_by(f64::total_cmp);
    times.dedup();
    times.into_iter().map(|t| json!([t, maybe(fit.share(t))])).collect()
}

/// Two ends, both null where there is an estimate but nothing is known of its ends.
fn pair(ends: Option<(f64, f64)>) -> Value {
    json!([maybe(ends.map(|e| e.0)), maybe(ends.map(|e| e.1))])
}
