//! The published tables and worked vectors of `tests/reference/standards/`; each row names its source.

use hilum_calc::compare::Two;
use hilum_calc::dilution::{Refusal, STRONG_PEROXIDE_PERCENT, dilute};
use hilum_calc::proportion::{clopper_pearson, wilson};
use hilum_calc::replicates::{Printed, published_range, range_limit};
use hilum_calc::timing::{Looks, Measure};
use hilum_calc::units::{percent, rounded_ratio, shown, teaspoons, unit};
use serde_json::Value;
use std::path::Path;

#[expect(clippy::disallowed_methods, reason = "the library reads no file, its tests do")]
fn read(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference/standards");
    std::fs::read_to_string(folder.join(name)).unwrap()
}

fn rows(name: &str) -> Vec<Vec<String>> {
    let text = read(name);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect()
}

fn near(what: &str, got: f64, want: f64) {
    assert!((got - want).abs() <= 1e-12 * want.abs().max(1.0), "{what}: want {want}, got {got}");
}

#[test]
fn tolerated_ranges() {
    let rows = rows("replicate_range_tolerance.csv");
    assert_eq!(rows.len(), 49);
    for row in rows {
        let (mean, mirror): (u64, u64) = (row[0].parse().unwrap(), row[1].parse().unwrap());
        for (replicates, law, exact) in [(4, &row[2], &row[6]), (2, &row[3], &row[7])] {
            let law = law.parse().ok().map(|limit| (limit, Printed::SeedLaw));
            let memory = || (replicates == 4).then(|| (row[4].parse().unwrap(), Printed::FromMemory));
            let want = law.or_else(|| if row[2].is_empty() { memory() } else { None });
            assert_eq!(published_range(mean, replicates), want, "{mean} % of {replicates}");
            assert_eq!(published_range(mirror, replicates), want, "{mirror} % of {replicates}");
            let computed = range_limit(mean as f64 / 100.0, replicates as u32, 100, 0.025);
            assert_eq!(computed.range, exact.parse::<u64>().unwrap(), "exact, {mean} % of {replicates}");
        }
    }
    for none in [0, 1, 100, 101, u64::MAX] {
        assert_eq!(published_range(none, 4), None, "no limit given for a mean of {none} %");
    }
    assert_eq!(published_range(80, 3), None);
}

#[test]
fn regeneration_thresholds_are_rounded_half_up() {
    for row in rows("regeneration_threshold.csv") {
        let initial: u64 = row[0].parse().unwrap();
        assert_eq!(rounded_ratio(85 * initial, 100).to_string(), row[1], "{initial}");
    }
}

#[test]
fn measures_of_volume() {
    let names = [
        ("US gallon", "gal_us"),
        ("US cup", "cup_us"),
        ("US fluid ounce", "floz_us"),
        ("US tablespoon", "tbsp_us"),
        ("US teaspoon", "tsp_us"),
        ("metric teaspoon", "tsp_metric"),
        ("metric tablespoon", "tbsp_metric"),
        ("metric cup", "cup_metric"),
        ("drop, 20 per ml", "drop"),
    ];
    let rows = rows("volume_units.csv");
    for (printed, name) in names {
        let row = rows.iter().find(|row| row[0] == printed).unwrap();
        let (got, want) = (unit(name).unwrap().ml, row[1].parse::<f64>().unwrap());
        assert!((got - want).abs() <= 1e-11 * want, "{printed}: want {want} (12 digits), got {got}");
    }
    assert_eq!(teaspoons(20.3), (4, 1), "20.3 ml is 4.12 teaspoons");
    assert_eq!(teaspoons(-1.0), (0, 0));
}

#[test]
fn dilutions() {
    for row in rows("dilution_checks.csv") {
        let field = |i: usize| row[i].parse::<f64>().unwrap();
        match dilute(field(0), field(1), field(2)) {
            Ok(mix) => {
                assert!(
                    (mix.stock_ml - field(3)).abs() < 1e-4 && (mix.diluent_ml - field(4)).abs() < 1e-4,
                    "{row:?}"
                );
            }
            Err(refusal) => {
                let want = if field(0) == 0.0 { Refusal::StockIsZero } else { Refusal::StrongerThanStock };
                assert_eq!(refusal, want);
                assert!(row[5].contains("must refuse"), "{row:?}");
            }
        }
        assert_eq!(row[5].contains("above 8%"), field(0) > STRONG_PEROXIDE_PERCENT, "{row:?}");
    }
}

fn measures(looks: &Looks, duration: f64) -> Vec<(&'static str, Measure)> {
    vec![
        ("final_pct", Ok(looks.final_percent())),
        ("MGT", looks.mean()),
        ("var", looks.variance()),
        ("CVt_pct", looks.variation_percent()),
        ("CVG", looks.kotowski()),
        ("T50_coolbear", looks.t50_coolbear()),
        ("T50_farooq", looks.t50_half()),
        ("maguire_counts", Ok(looks.maguire())),
        ("maguire_pct", Ok(looks.maguire_percent())),
        ("timson_sum_daily_cum_pct", Ok(looks.timson(duration as u32))),
        ("U_bits", looks.uncertainty()),
        ("Z", looks.synchrony()),
        ("PV", looks.peak_value()),
        ("MDG", looks.mean_daily(duration)),
    ]
}

#[test]
fn germination_indices() {
    let vectors: Value = serde_json::from_str(&read("index_vectors.json")).unwrap();
    for vector in vectors.as_array().unwrap() {
        let input = &vector["input"];
        let list = |key: &str| input[key].as_array().unwrap().iter();
        let days: Vec<f64> = list("days").map(|v| v.as_f64().unwrap()).collect();
        let counts: Vec<u64> = list("new").map(|v| v.as_u64().unwrap()).collect();
        let looks = Looks::new(input["N"].as_u64().unwrap(), &days, &counts).unwrap();
        for (name, measure) in measures(&looks, input["test_days"].as_f64().unwrap()) {
            match vector["expected"].get(name) {
                Some(Value::Null) => assert!(measure.is_err(), "{} {name}", vector["id"]),
                Some(want) => {
                    near(&format!("{} {name}", vector["id"]), measure.unwrap(), want.as_f64().unwrap())
                }
                None => {}
            }
        }
    }
}

/// 16 of 20, 10 of 10, 0 of 10: R `binom.test` and `prop.test`, five digits (checks.json C20).
#[test]
fn intervals_to_five_digits() {
    let cases = [
        (16, 20, (0.56339, 0.94267), (0.58398, 0.91934)),
        (10, 10, (0.69150, 1.0), (0.72247, 1.0)),
        (0, 10, (0.0, 0.30850), (0.0, 0.27753)),
    ];
    for (x, n, exact, score) in cases {
        for (got, want) in [(clopper_pearson(x, n, 0.95), exact), (wilson(x as f64, n as f64, 0.95), score)] {
            assert!(
                (got.low - want.0).abs() < 5.1e-6 && (got.high - want.1).abs() < 5.1e-6,
                "{x}/{n}: {got:?}"
            );
        }
    }
}

/// R 4.2.2: binom.test(123456, 1e6), prop.test(123456, 1e6, correct = FALSE), binom.test(0, 1e6),
/// binom.test(999999, 1e6, conf.level = 0.99).
#[test]
fn a_million_seeds() {
    near("low", clopper_pearson(123_456, 1_000_000, 0.95).low, 0.1228118416296297);
    near("high", clopper_pearson(123_456, 1_000_000, 0.95).high, 0.1241023402768027);
    near("Wilson", wilson(123_456.0, 1e6, 0.95).low, 0.1228126965314228);
    near("none", clopper_pearson(0, 1_000_000, 0.95).high, 3.688872650206486e-6);
    near("nearly all", clopper_pearson(999_999, 1_000_000, 0.99).low, 0.999992569894388);
}

#[test]
fn numbers_for_display() {
    for (x, places, want) in [
        (2.675, 2, "2.68"),
        (0.285, 2, "0.29"),
        (0.5, 0, "1"),
        (9.999, 2, "10.00"),
        (-0.004, 2, "0.00"),
        (-1.25, 1, "-1.3"),
        (166.66666666666666, 1, "166.7"),
        (1e21, 0, "1000000000000000000000"),
        (3.0, 2, "3.00"),
        (f64::NAN, 1, "\u{2013}"),
    ] {
        assert_eq!(shown(x, places), want, "{x} with {places}");
    }
    for (x, n, places, want) in [
        (1, 8, 0, "13"),
        (1, 8, 1, "12.5"),
        (2, 3, 2, "66.67"),
        (0, 7, 1, "0.0"),
        (49, 110, 1, "44.5"),
        (3, 0, 1, "\u{2013}"),
    ] {
        assert_eq!(percent(x, n, places), want, "{x} of {n} with {places}");
    }
}

/// R 4.2.2: fisher.test(matrix(c(x1, n1 - x1, x2, n2 - x2), 2)), p-value, estimate and interval with 16
/// digits; its odds are rough (see `conditional_odds_as_in_r`), the precise ones lie near them.
#[test]
fn fisher_with_many_seeds() {
    let cases = [
        (
            [5030, 10_000, 4900, 10_000],
            [0.06809194009822465, 1.053352308750409, 0.9961774673267871, 1.113874716314039],
        ),
        (
            [30, 100_000, 12, 100_000],
            [0.007909487121391999, 2.500579398039773, 1.243097023648255, 5.363292660183511],
        ),
        (
            [2, 17, 9, 12],
            [0.001255300631928108, 0.05202309271068207, 0.003644889348426222, 0.4110431037785078],
        ),
    ];
    for ([x1, n1, x2, n2], [p, estimate, low, high]) in cases {
        let two = Two { x1, n1, x2, n2 };
        assert!((two.exact_test().fisher - p).abs() < 1e-10 * p, "{two:?}");
        let (rough, precise) = (two.conditional_odds_as_in_r(0.95), two.conditional_odds(0.95));
        for (got, slack) in [(rough, 1e-7), (precise, 3e-2)] {
            for (got, want) in [(got.estimate, estimate), (got.interval.low, low), (got.interval.high, high)]
            {
                assert!((got - want).abs() <= slack * want, "{two:?}: want {want}, got {got}");
            }
        }
    }
}
