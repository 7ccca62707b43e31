//! `analyse` on files: every fault is said, the same numbers whatever the order of the lines, and a
//! model that finds again what the made clubs were made with.

#[path = "support/dice.rs"]
mod dice;
mod support;

use dice::Dice;
use hilum_calc::analyse::{Options, run};
use hilum_calc::table::{At, Of};
use serde_json::Value;
use std::fmt::Write;
use support::{FILES, oracle};

const HEADER: &str = "kind,variety,source,grower,trial,bag,seeds,hours,rooted,abnormal,dead";

fn faults(text: &str) -> Vec<String> {
    run(text, Options::default()).err().unwrap().iter().map(ToString::to_string).collect()
}

#[test]
fn a_small_file_by_hand() {
    let text = format!(
        "{HEADER},soaked\r\npepper,\"Dusk, long\",Anna's,ann,T1,a,10,330,7,1,0,12\r\n\
         pepper,\"Dusk, long\",Anna's,ann,T1,b,10,120,4,0,0,\r\npepper,\"Dusk, long\",Anna's,ann,T1,b,10,336,4,0,1,\r\n"
    );
    let document = run(&text, Options::default()).unwrap().json();
    let row = &document["table"][0];
    assert_eq!(row["variety"], "Dusk, long");
    assert_eq!(
        (row["seeds"].as_u64(), row["soaked"].as_u64(), row["rooted"].as_u64()),
        (Some(20), Some(22), Some(15))
    );
    assert!((row["rate"].as_f64().unwrap() - 15.0 / 22.0).abs() < 1e-12);
    let bag = &document["bags"][1];
    assert_eq!(
        (bag["left"].as_u64(), bag["dead"].as_u64(), bag["germinated"].as_u64()),
        (Some(1), Some(1), Some(8))
    );
    // (4 x 5 + 4 x 14) / 8 days
    assert!((bag["mgt"].as_f64().unwrap() - 9.5).abs() < 1e-12);
    assert_eq!(document["linked_groups"][0]["groups"], serde_json::json!([["Anna's"]]));
    let sheet = run(&text, Options::default()).unwrap().table_csv();
    assert!(sheet.contains("pepper,\"Dusk, long\",Anna's,1,1,2,20,22,15,0.68"), "{sheet}");
}

#[test]
fn every_fault_is_said_with_line_and_column() {
    let text = format!(
        "{HEADER},closed,put_on_paper\n\
         pepper,Dusk,s,ann,T1,a,10,0,1,0,0,1,2024-02-30\n\
         pepper,,s,ann,T1,a,x,24,1.5,0,-1,2,\n\
         pepper,Dusk,s,bo,T2,a,10,24,6,0,0,,\n\
         pepper,Dusk,s,ann,T2,a,11,48,6,0,0,,\n\
         pepper,Dusk,s,bo,T2,a,10,24,0,0,0,,\n\
         pepper,Dusk\n"
    );
    let said = faults(&text);
    for expected in [
        "line 2, column hours: must be more than 0",
        "line 2, column put_on_paper: must be a date",
        "line 3, column variety: is empty",
        "line 3, column seeds: must be a whole number from 1",
        "line 3, column rooted: must be a whole number",
        "line 3, column dead: must be a whole number",
        "line 3, column closed: must be 0 or 1",
        "line 5, column grower: must be the same for the whole trial 'T2', see line 4",
        "line 5, column seeds: must be the same on all lines of bag 'a', see line 4",
        "line 6, column hours: this bag has a look at the same hour on line 4",
        "line 5, column rooted: up to this look more seeds rooted",
        "line 7, column source: the line has 2 cells, the header has 13",
    ] {
        assert!(said.iter().any(|fault| fault.starts_with(expected)), "{expected}\n{}", said.join("\n"));
    }
    assert!(said.iter().all(|fault| fault.starts_with("line ")));
}

#[test]
fn headers_quotes_and_empty_files() {
    assert!(faults("")[0].contains("the file is empty"));
    assert_eq!(
        faults("kind,variety,source,grower,trial,bag,seeds,hours,rooted,abnormal\n"),
        ["line 1, column dead: this column is missing"]
    );
    let open = format!("{HEADER}\n\"pepper,Dusk,s,ann,T1,a,10,24,1,0,0\n");
    assert!(faults(&open).iter().any(|f| f.contains("quotation mark is not closed")));
    let nothing = run(&format!("{HEADER}\n"), Options::default()).unwrap().json();
    assert_eq!((&nothing["table"], &nothing["model"]), (&serde_json::json!([]), &Value::Null));
}

#[test]
fn text_that_a_spreadsheet_would_run_is_guarded_and_read_back() {
    let file = |source: &str| format!("{HEADER}\npepper,Dusk,{source},ann,T1,a,10,336,7,0,0\n");
    let sheet = run(&file("=1+1"), Options::default()).unwrap().table_csv();
    assert!(sheet.contains(",'=1+1,"), "{sheet}");
    let back = run(&file("'=1+1"), Options::default()).unwrap().json();
    assert_eq!(back["table"][0]["source"], "=1+1");
}

/// A standard normal deviate (Box and Muller 1958).
fn normal(dice: &mut Dice) -> f64 {
    let (u, v) = (1.0 - dice.unit(), dice.unit());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

struct Made {
    varieties: usize,
    sources: usize,
    growers: usize,
    trials: usize,
    spread: f64,
}

/// A made club: growers and sources differ by `spread` on the logit scale.
fn club(dice: &mut Dice, made: &Made) -> Vec<String> {
    let draw = |n: usize, dice: &mut Dice| (0..n).map(|_| made.spread * normal(dice)).collect::<Vec<_>>();
    let (growers, cells) = (draw(made.growers, dice), draw(made.varieties * made.sources, dice));
    let mut lines = Vec::new();
    for trial in 0..made.trials {
        let (g, c) = (dice.below(made.growers), dice.below(cells.len()));
        let logit = 0.8 + growers[g] + cells[c] + 0.4 * normal(dice);
        let p = 1.0 / (1.0 + (-logit).exp());
        for bag in 0..=dice.below(2) {
            let seeds = 10 + dice.below(20);
            let (mut left, mut rooted) = (seeds, 0);
            for (look, hours) in [96, 192, 288, 336].iter().enumerate() {
                let mut new = 0;
                for _ in 0..left {
                    new += usize::from(dice.unit() < p / (4.0 - look as f64 * p));
                }
                left -= new;
                rooted += new;
                let (v, s) = (c / made.sources, c % made.sources);
                let mut line = String::new();
                write!(line, "pepper,V{v},S{s},g{g},t{trial},{bag},{seeds},{hours},{new},0,0").unwrap();
                lines.push(line);
            }
            assert!(rooted <= seeds);
        }
    }
    lines
}

fn file(lines: &[String]) -> String {
    format!("{HEADER}\n{}\n", lines.join("\n"))
}

#[test]
fn order_of_lines_never_matters() {
    let mut dice = Dice::new(3);
    let made = Made { varieties: 3, sources: 3, growers: 5, trials: 60, spread: 0.7 };
    let mut lines = club(&mut dice, &made);
    for (of, at) in [(Of::Started, At::Day), (Of::Paper, At::Close)] {
        let options = Options { of, at, as_of: None };
        let first = run(&file(&lines), options).unwrap().json().to_string();
        assert!(!first.contains("NaN"));
        assert_eq!(first, run(&file(&lines), options).unwrap().json_text());
        dice.shuffle(&mut lines);
        assert_eq!(first, run(&file(&lines), options).unwrap().json().to_string());
    }
}

#[test]
fn the_model_finds_what_the_club_was_made_with() {
    let mut dice = Dice::new(17);
    let made = Made { varieties: 8, sources: 4, growers: 20, trials: 600, spread: 0.6 };
    let document = run(&file(&club(&mut dice, &made)), Options::default()).unwrap().json();
    let model = &document["model"];
    assert_eq!((model["fit"].as_str(), model["status"].as_str()), (Some("partial pooling"), Some("ok")));
    let sd = |name: &str| model[name].as_f64().unwrap();
    assert!((sd("sd_grower") - 0.6).abs() < 0.25 && (sd("sd_trial") - 0.4).abs() < 0.15, "{model}");
    assert!((sd("sd_cell").hypot(sd("sd_variety")) - 0.6).abs() < 0.25, "{model}");
    assert_eq!(document["pairs"].as_array().unwrap().len(), 8 * 6);
    for pair in document["pairs"].as_array().unwrap() {
        let [low, at, high] = ["low", "log_odds_ratio", "high"].map(|key| pair[key].as_f64().unwrap());
        assert!(low < at && at < high);
        let within = &pair["within_growers"];
        assert!(within.is_null() || (within["log_odds_ratio"].as_f64().unwrap() - at).abs() < 1.5, "{pair}");
    }
    for row in document["table"].as_array().unwrap() {
        let [low, rate, high] = ["low", "rate", "high"].map(|key| row["adjusted"][key].as_f64().unwrap());
        assert!(0.0 < low && low < rate && rate < high && high < 1.0);
    }
}

/// The reference clubs of `club` (R 4.2.2, lme4 1.1-31 glmer, see the oracle file) written as counts.
#[test]
fn the_model_of_a_file_is_the_reference_model() {
    let (_, name) = FILES.iter().find(|(method, _)| *method == "club").unwrap();
    for case in oracle(name)["cases"].as_array().unwrap() {
        let text = |row: &Value, key: &str| row[key].as_str().unwrap().to_owned();
        let line = |row: &Value| {
            let [v, s, g, t] = ["variety", "source", "grower", "trial"].map(|key| text(row, key));
            format!("pepper,{v},{s},{g},{t},a,{},336,{},0,0", row["n"], row["x"])
        };
        let lines: Vec<String> = case["input"]["rows"].as_array().unwrap().iter().map(line).collect();
        let document = run(&file(&lines), Options::default()).unwrap().json();
        assert_eq!(document["model"]["fit"], "partial pooling");
        for key in ["intercept", "loglik", "sd_variety", "sd_cell", "sd_grower", "sd_trial"] {
            let number = |v: &Value| v[key].as_f64().unwrap();
            let (got, want) = (number(&document["model"]), number(&case["expected"]));
            assert!((got - want).abs() < 1e-3 * want.abs().max(1.0), "{key}: {got} {want}");
        }
    }
}

#[test]
fn sources_that_no_grower_links_get_no_number() {
    let mut lines = Vec::new();
    for (source, grower) in [("a", "ann"), ("b", "ann"), ("c", "bo")] {
        for trial in 0..3 {
            lines.push(format!("pepper,Dusk,{source},{grower},{source}{trial},a,20,336,{},0,0", 12 + trial));
        }
    }
    let document = run(&file(&lines), Options::default()).unwrap().json();
    assert_eq!(document["linked_groups"][0]["groups"], serde_json::json!([["a", "b"], ["c"]]));
    let pair = |i: usize| &document["pairs"][i];
    assert_eq!((pair(0)["linked"].as_bool(), pair(0)["log_odds_ratio"].is_number()), (Some(true), true));
    assert!(pair(0)["within_growers"]["low"].as_f64().unwrap() < 0.0);
    assert_eq!((pair(1)["linked"].as_bool(), &pair(1)["log_odds_ratio"]), (Some(false), &Value::Null));
}

#[test]
fn sources_across_varieties_and_lots_are_in_the_document() {
    let mut dice = Dice::new(29);
    let made = Made { varieties: 5, sources: 4, growers: 8, trials: 300, spread: 0.5 };
    let lines = club(&mut dice, &made);
    // The club's sources are alike but for one whose seeds hardly root.
    let spoilt = |line: &String| {
        let mut cells: Vec<&str> = line.split(',').collect();
        if cells[2] == "S3" && cells[7] != "96" {
            cells[8] = "0";
        }
        cells.join(",")
    };
    let lines: Vec<String> = lines.iter().map(spoilt).collect();
    let plain = run(&file(&lines), Options::default()).unwrap().json();
    let sources = plain["sources"].as_array().unwrap();
    assert_eq!(sources.iter().map(|s| &s["source"]).collect::<Vec<_>>(), ["S0", "S1", "S2", "S3"]);
    assert_eq!((&sources[3]["varieties"], &sources[3]["growers"]), (&5.into(), &8.into()));
    assert!(sources[3]["effect"]["high"].as_f64().unwrap() < 0.0, "{}", sources[3]);
    assert!(sources[3]["probability_better"].as_f64().unwrap() < 0.025 && sources[3]["seeds"].is_u64());
    assert!(sources[0]["effect"]["estimate"].as_f64().unwrap() > 0.0);
    assert_eq!(plain["model"].get("sd_lot"), None);
    let with_year = |line: &String| {
        let trial: usize = line.split(',').nth(4).unwrap()[1..].parse().unwrap();
        format!("{line},{}", 2020 + trial % 2)
    };
    let lines: Vec<String> = lines.iter().map(with_year).collect();
    let text = format!("{HEADER},lot_year\n{}\n", lines.join("\n"));
    let lots = run(&text, Options::default()).unwrap().json();
    // Made alike: the lots' own spread is small.
    assert!(lots["model"]["sd_lot"].as_f64().unwrap() < 0.3, "{}", lots["model"]);
}

#[test]
fn care_is_adjusted_for_and_named() {
    let mut dice = Dice::new(23);
    let made = Made { varieties: 4, sources: 3, growers: 8, trials: 200, spread: 0.4 };
    let lines: Vec<String> = club(&mut dice, &made)
        .iter()
        .map(|line| {
            let trial: usize = line.split(',').nth(4).unwrap()[1..].parse().unwrap();
            format!("{line},{},{}", ["soak", "dry"][trial % 2], 20 + trial % 7)
        })
        .collect();
    let text = format!("{HEADER},routine,warmth_c\n{}\n", lines.join("\n"));
    let document = run(&text, Options::default()).unwrap().json();
    let effects = document["model"]["effects"].as_array().unwrap();
    assert_eq!(effects.len(), 2, "{effects:?}");
    for effect in effects {
        // Made without any effect: 5 standard errors would be a wonder.
        let [low, at, high] = ["low", "estimate", "high"].map(|key| effect[key].as_f64().unwrap());
        assert!(at.abs() < 2.5 * (high - low) / 2.0, "{effect}");
        assert!(effect["within_growers"]["low"].is_number());
    }
}

#[test]
fn hostile_files_end_without_panic() {
    let mut dice = Dice::new(41);
    let base = file(&club(&mut dice, &Made { varieties: 2, sources: 2, growers: 2, trials: 6, spread: 0.5 }));
    let cuts = [",", "\"", "\n", "0", "9999999999", "NaN", "é", "-", "1e9", "\0"];
    for _ in 0..300 {
        let mut text: Vec<char> = base.chars().collect();
        for _ in 0..=dice.below(3) {
            let at = dice.below(text.len());
            text.splice(at..(at + dice.below(6)).min(text.len()), cuts[dice.below(cuts.len())].chars());
        }
        let text: String = text.into_iter().collect();
        match run(&text, Options::default()) {
            Ok(analysis) => assert!(!analysis.json().to_string().contains("NaN")),
            Err(faults) => assert!(!faults.is_empty()),
        }
    }
}
