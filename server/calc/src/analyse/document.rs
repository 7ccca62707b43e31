use super::Analysis;
use super::bags::BagFile;
use crate::club::{Effect, Estimate, Linked, Model, Pair, SourceStanding};
use crate::reckon::{number, times};
use crate::table::Row;
use crate::timing::Looks;
use serde_json::{Map, Value, json};

/// The whole document.
pub fn document(analysis: &Analysis) -> Value {
    let bags = analysis.bags.iter().map(bag).collect();
    Value::Object([("bags".to_owned(), bags)].into_iter().chain(rest(analysis)).collect())
}

fn rest(analysis: &Analysis) -> Map<String, Value> {
    let standing = &analysis.club.standing;
    let parts = [
        ("linked_groups", standing.linked.iter().map(linked).collect()),
        ("model", json!(standing.model.as_ref().map(model))),
        ("pairs", standing.pairs.iter().map(pair).collect()),
        ("sources", standing.sources.iter().map(source).collect()),
        ("table", analysis.club.rows.iter().map(|row| table_row(analysis, row)).collect()),
    ];
    parts.into_iter().map(|(key, value)| (key.to_owned(), value)).collect()
}

/// The same document as text, one bag at a time: a large club's is never whole in memory.
pub fn text(analysis: &Analysis) -> String {
    let mut text = String::from("{\"bags\":[");
    for (i, file) in analysis.bags.iter().enumerate() {
        text.push_str(if i == 0 { "" } else { "," });
        text.push_str(&bag(file).to_string());
    }
    let rest = Value::Object(rest(analysis)).to_string();
    text.push_str("],");
    text.push_str(&rest[1..]);
    text
}

fn bag(file: &BagFile) -> Value {
    let sum = |of: fn(&crate::table::Look) -> u32| file.looks.iter().map(of).map(u64::from).sum::<u64>();
    let (rooted, abnormal, dead) = (sum(|l| l.rooted), sum(|l| l.abnormal), sum(|l| l.dead));
    let seeds = u64::from(file.first.seeds);
    let days: Vec<f64> = file.looks.iter().map(|l| l.hours / 24.0).collect();
    let counts: Vec<u64> = file.looks.iter().map(|l| u64::from(l.rooted)).collect();
    let mut map = Looks::new(seeds, &days, &counts).map_or_else(|_| Map::new(), |looks| times(&looks));
    let own = [
        ("trial", json!(*file.first.trial)),
        ("bag", json!(*file.first.bag)),
        ("grower", json!(*file.first.grower)),
        ("seeds", json!(seeds)),
        ("rooted", json!(rooted)),
        ("abnormal", json!(abnormal)),
        ("dead", json!(dead)),
        ("left", json!(seeds - rooted - abnormal - dead)),
    ];
    map.extend(own.map(|(key, value)| (key.to_owned(), value)));
    Value::Object(map)
}

fn maybe(x: Option<f64>) -> Value {
    x.map_or(Value::Null, number)
}

fn table_row(analysis: &Analysis, row: &Row) -> Value {
    let adjusted = analysis
        .adjusted_of(row)
        .map(|a| json!({ "rate": number(a.rate), "low": number(a.low), "high": number(a.high) }));
    json!({
        "kind": row.kind, "variety": row.variety, "source": row.source,
        "growers": row.growers, "trials": row.trials, "bags": row.bags,
        "seeds": row.seeds, "soaked": row.soaked, "rooted": row.rooted,
        "rate": maybe(row.rate), "low": number(row.low), "high": number(row.high),
        "design_effect": number(row.design_effect),
        "adjusted": adjusted,
        "median_days": maybe(row.median_days), "group": row.group,
        "day": maybe(row.day), "club_day": row.club_day, "estimated": row.estimated,
        "closed_early": row.closed_early, "running": row.running, "threw_floaters": row.threw_floaters,
    })
}

fn estimate(name: &str, e: &Estimate) -> Map<String, Value> {
    let pairs = [(name, e.value), ("low", e.low), ("high", e.high)];
    pairs.into_iter().map(|(key, x)| (key.to_owned(), number(x))).collect()
}

fn model(model: &Model) -> Value {
    let effect = |effect: &Effect| {
        let mut map = estimate("estimate", &effect.estimate);
        map.insert("name".to_owned(), json!(effect.name));
        let within = effect.within_growers.as_ref().map(|e| estimate("estimate", e));
        map.insert("within_growers".to_owned(), json!(within));
        Value::Object(map)
    };
    let sd = &model.sd;
    let mut document = json!({
        "fit": model.fit, "status": model.status, "intercept": maybe(model.intercept),
        "sd_variety": number(sd.variety), "sd_cell": number(sd.cell),
        "sd_grower": number(sd.grower), "sd_trial": number(sd.trial),
        "loglik": number(model.loglik),
        "effects": model.effects.iter().map(effect).collect::<Vec<_>>(),
    });
    if model.lots {
        document["sd_lot"] = number(sd.lot);
    }
    if model.clubs {
        document["sd_club"] = number(sd.club);
    }
    document
}

fn pair(pair: &Pair) -> Value {
    let whole = pair.whole.as_ref();
    let ratio = |of: fn(&Estimate) -> f64| maybe(whole.map(|w| of(&w.log_odds_ratio)));
    let within = pair.within_growers.as_ref().map(|e| estimate("log_odds_ratio", e));
    json!({
        "kind": pair.kind, "variety": pair.variety, "a": pair.a, "b": pair.b, "linked": pair.linked,
        "log_odds_ratio": ratio(|e| e.value), "low": ratio(|e| e.low), "high": ratio(|e| e.high),
        "probability_a_better": maybe(whole.map(|w| w.probability_a_better)),
        "p_holm": maybe(whole.map(|w| w.p_holm)),
        "within_growers": within,
    })
}

fn source(source: &SourceStanding) -> Value {
    let effect = source.effect.as_ref();
    json!({
        "source": source.source, "varieties": source.varieties, "growers": source.growers, "seeds": source.seeds,
        "effect": effect.map(|e| estimate("estimate", e)),
        "probability_better": maybe(source.probability_better),
    })
}

fn linked(linked: &Linked) -> Value {
    json!({ "kind": linked.kind, "variety": linked.variety, "groups": linked.groups })
}
