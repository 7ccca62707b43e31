//! The order of rows does not matter, to the last byte; and big inputs end.

use crate::random::Random;
use hilum_calc::floaters::{Finding, LotFloat, judge};
use hilum_calc::linked::Links;
use hilum_calc::reckon;
use serde_json::{Value, json};
use std::collections::BTreeSet;

fn shuffled(random: &mut Random, rows: &[Value]) -> Vec<Value> {
    let mut rows = rows.to_vec();
    random.shuffle(&mut rows);
    rows
}

fn reckoned(method: &str, input: &Value) -> String {
    reckon::run(method, input).unwrap().to_string()
}

#[test]
fn strata_in_any_order() {
    let mut random = Random::new(11);
    for _ in 0..30 {
        let mut cell = || random.below(60);
        let rows: Vec<Value> =
            (0..9).map(|_| json!({ "a": cell(), "b": cell(), "c": cell(), "d": cell() })).collect();
        let one = reckoned("two-rates", &json!({ "kind": "stratified", "strata": rows }));
        let other = json!({ "kind": "stratified", "strata": shuffled(&mut random, &rows) });
        assert_eq!(one, reckoned("two-rates", &other));
    }
}

#[test]
fn bags_in_any_order() {
    let mut random = Random::new(12);
    for _ in 0..30 {
        let bags: Vec<Value> = (0..7).map(|_| json!(random.below(20))).collect();
        let ask = |x: &[Value]| reckoned("replicates", &json!({ "kind": "index", "x": x, "n": vec![20; 7] }));
        let turned = shuffled(&mut random, &bags);
        assert_eq!(ask(&bags), ask(&turned));
    }
}

#[test]
fn edges_in_any_order_and_repeated() {
    let mut random = Random::new(13);
    let edge = |g: u64, s: u64| json!({ "grower": format!("g{g}"), "source": format!("s{s}") });
    for _ in 0..30 {
        let mut rows: Vec<Value> = (0..12).map(|_| edge(random.below(6), random.below(8))).collect();
        let one = reckoned("linked", &json!({ "edges": rows }));
        rows.push(rows[3].clone());
        assert_eq!(one, reckoned("linked", &json!({ "edges": shuffled(&mut random, &rows) })));
    }
}

fn groups_without(edges: &[(String, String)], grower: &str) -> usize {
    let mut parts: Vec<BTreeSet<String>> = Vec::new();
    for (g, s) in edges {
        let mut part = BTreeSet::from([format!("source {s}")]);
        if g != grower {
            part.insert(format!("grower {g}"));
        }
        let (touching, apart): (Vec<_>, Vec<_>) = parts.into_iter().partition(|p| !p.is_disjoint(&part));
        part.extend(touching.into_iter().flatten());
        parts = apart;
        parts.push(part);
    }
    parts.len()
}

#[test]
fn a_linking_grower_is_one_whose_absence_makes_more_groups() {
    let mut random = Random::new(14);
    for _ in 0..200 {
        let size = 2 + random.below(14);
        let edges: Vec<(String, String)> =
            (0..size).map(|_| (format!("g{}", random.below(6)), format!("s{}", random.below(7)))).collect();
        let links = Links::new(edges.iter().map(|(g, s)| (g.as_str(), s.as_str())));
        let all = groups_without(&edges, "nobody");
        assert_eq!(links.groups().len(), all);
        let growers: BTreeSet<String> = edges.iter().map(|e| e.0.clone()).collect();
        let want: Vec<String> = growers.into_iter().filter(|g| groups_without(&edges, g) > all).collect();
        assert_eq!(links.linking_growers(), want, "{edges:?}");
    }
}

#[test]
fn a_long_chain_of_growers_ends() {
    let names: Vec<String> = (0..100_001).map(|i| format!("{i:06}")).collect();
    let chain =
        names.windows(2).flat_map(|w| [(w[0].as_str(), w[0].as_str()), (w[0].as_str(), w[1].as_str())]);
    let links = Links::new(chain);
    assert_eq!(links.groups().len(), 1);
    assert_eq!(links.linking_growers().len(), 100_000);
    assert_eq!(links.steps(0)[100_000], Some(100_000));
}

/// R 4.2.2: a <- array(c(9,3,14,54, 4,4,6,46, 11,2,30,57, 1,5,2,22), c(2,2,4)); mantelhaen.test(a);
/// prop.test(25, 39, correct = FALSE); prop.test(179, 231, correct = FALSE). The lots are made.
#[test]
fn floaters_judged_by_lot() {
    let lot = |cells: [u64; 4]| LotFloat {
        floated_failed: cells[0],
        floated_rooted: cells[1],
        sank_failed: cells[2],
        sank_rooted: cells[3],
    };
    let mut lots = [[9, 3, 14, 54], [4, 4, 6, 46], [11, 2, 30, 57], [1, 5, 2, 22]].map(lot);
    let found = judge(&lots, 0.95);
    let near = |got: f64, want: f64| assert!((got - want).abs() <= 1e-12 * want, "want {want}, got {got}");
    near(found.common.odds_ratio.unwrap(), 8.687892376681614);
    near(found.common.interval.unwrap().low, 3.799868017308274);
    near(found.common.interval.unwrap().high, 19.86370937227187);
    near(found.common.test.unwrap().chi2_corrected, 30.14358598234492);
    near(found.common.test.unwrap().p_corrected, 4.012119168255924e-8);
    let (rate, interval) = found.floated_failed.rate.unwrap();
    near(rate, 0.6410256410256411);
    near(interval.low, 0.4841814855954855);
    near(interval.high, 0.7725791454100713);
    near(found.sank_rooted.rate.unwrap().1.low, 0.7167895774334209);
    assert_eq!(found.finding, Finding::Foretells);
    lots.reverse();
    assert_eq!(judge(&lots, 0.95), found);
    assert_eq!(judge(&lots[..1], 0.95).finding, Finding::NotShown);
    assert_eq!(judge(&[lot([0, 0, 3, 9]), lot([0, 0, 0, 0])], 0.95).finding, Finding::NoComparison);
    assert_eq!(judge(&[], 0.95).floated_failed.rate, None);
    let swapped = lots.map(|l| lot([l.sank_failed, l.sank_rooted, l.floated_failed, l.floated_rooted]));
    assert_eq!(judge(&swapped, 0.95).finding, Finding::Contrary);
}
