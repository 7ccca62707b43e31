//! The heaviest inputs that are taken still end soon.

use hilum_calc::reckon;
use serde_json::json;

/// Generous, since this runs without optimisation and beside other work; a release build takes a tenth.
const SECONDS: f64 = 20.0;

#[test]
#[expect(clippy::disallowed_types, reason = "the library has no clock, this test needs one")]
fn the_heaviest_inputs_end() {
    let billion = 1_000_000_000_u64;
    let edges: Vec<_> = (0..3000)
        .map(|i| json!({ "grower": format!("g{}", i % 70), "source": format!("s{}", i % 499) }))
        .collect();
    let heavy = [
        ("rate", json!({ "x": billion / 2, "n": billion, "conf": 0.999_999 })),
        (
            "two-rates",
            json!({ "kind": "two", "x1": billion / 2, "n1": billion, "x2": billion / 2, "n2": billion }),
        ),
        ("sow", json!({ "kind": "known", "k": 400_000_000, "p": 0.5, "conf": 0.95 })),
        ("sow", json!({ "kind": "beta", "k": 1, "x": 0, "n": billion, "conf": 0.95 })),
        ("sow", json!({ "kind": "beta", "k": 90_000, "x": 9, "n": 10, "conf": 0.95 })),
        ("sow", json!({ "kind": "two_stage", "k": 2, "x1": 0, "n1": 99, "x2": 1, "n2": 99, "conf": 0.9 })),
        ("power", json!({ "p1": 0.5, "p2": 0.5455, "alpha": 0.05, "power": 0.8 })),
        ("power", json!({ "p1": 0.5, "p2": 0.509, "alpha": 0.05, "power": 0.8 })),
        ("replicates", json!({ "kind": "range_limit", "percent": 50, "replicates": 1000, "n": 100_000 })),
        ("linked", json!({ "edges": edges })),
    ];
    for (method, input) in heavy {
        let start = std::time::Instant::now();
        let out = reckon::run(method, &input).unwrap().to_string();
        let took = start.elapsed().as_secs_f64();
        let asked = input.to_string();
        println!("{took:7.3} s  {method} {:.90}  gives {out:.160}", asked);
        assert!(took < SECONDS, "{took} s for {method} {asked:.200}");
    }
}
