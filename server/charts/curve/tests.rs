use super::*;

fn step(day: f64, share: f64, low: f64, high: f64) -> Step {
    Step { day, share, low, high }
}

fn drawn(steps: &[Step]) -> StepCurve {
    StepCurve::new("rooting", "Share <rooted> of \"A & B\"".into(), steps).unwrap()
}

/// Every corner of a path of M, H and V.
fn corners(path: &str) -> Vec<(f64, f64)> {
    let mut at = (0.0, 0.0);
    let mut found = Vec::new();
    let spaced = path.replace('M', " M ").replace('H', " H ").replace('V', " V ").replace('Z', "");
    let mut words = spaced.split_whitespace();
    while let Some(word) = words.next() {
        let mut number = || words.next().unwrap().parse::<f64>().unwrap();
        match word {
            "M" => at = (number(), number()),
            "H" => at.0 = number(),
            _ => at.1 = number(),
        }
        found.push(at);
    }
    found
}

fn extremes() -> Vec<Vec<Step>> {
    vec![
        vec![step(0.0007, 0.2, 0.1, 0.4), step(6.0, 1.0, 0.8, 1.0)],
        vec![step(1.0, 0.0, 0.0, 0.3), step(9.5, 0.0, 0.0, 0.28)],
        vec![step(3.0, 1.0, 0.7, 1.0)],
        vec![step(0.0007, 1.0, 0.2, 1.0)],
        (1..=400).map(|i| f64::from(i) / 400.0).map(|p| step(365.0 * p, p, p * p, p.sqrt())).collect(),
    ]
}

#[test]
fn everything_is_drawn_inside_the_field() {
    let [left, top, right, bottom] = FIELD.map(f64::from);
    for steps in extremes() {
        let chart = drawn(&steps);
        for (x, y) in corners(&chart.line).into_iter().chain(corners(&chart.band)) {
            assert!((left..=right).contains(&x) && (top..=bottom).contains(&y), "{x} {y}: {steps:?}");
        }
        let end: (f64, f64) = (chart.end.x.parse().unwrap(), chart.end.y.parse().unwrap());
        assert_eq!(corners(&chart.line).last(), Some(&end));
        assert!(chart.frame.x.ticks.len() >= 2 && chart.frame.x.ticks.len() <= 6);
    }
}

#[test]
fn the_line_only_goes_right_and_up() {
    for steps in extremes() {
        let corners = corners(&drawn(&steps).line);
        assert_eq!(corners.len(), 1 + 2 * steps.len());
        assert!(corners.windows(2).all(|w| w[0].0 <= w[1].0 && w[0].1 >= w[1].1), "{corners:?}");
    }
}

#[test]
fn the_band_holds_the_line_and_closes() {
    let steps = [step(2.0, 0.25, 0.1, 0.5), step(4.0, 0.5, 0.25, 0.75)];
    let chart = drawn(&steps);
    // The field is 156 high and 254 wide: 25 % is 39 below the bottom, day 2 of 4 is the middle.
    assert_eq!(chart.line, "M36.0 184.0H163.0V145.0H290.0V106.0");
    assert_eq!(chart.band, "M36.0 184.0H163.0V106.0H290.0V67.0V145.0H290.0V168.4H163.0V184.0Z");
}

#[test]
fn title_description_and_table_say_the_same_in_words() {
    let html = drawn(&[step(2.0, 0.25, 0.1, 0.5), step(3.0, 0.25, 0.1, 0.5), step(4.0, 0.5, 0.25, 0.75)]);
    let html = html.render().unwrap();
    assert!(
        html.contains("<title id=\"rooting-title\">Share &#60;rooted&#62; of &#34;A &#38; B&#34;</title>")
    );
    assert!(!html.contains("<rooted>") && !html.contains("style="));
    assert!(html.contains("aria-labelledby=\"rooting-title rooting-desc\""));
    assert!(html.contains("rises in steps from 0 % on day 0 and ends on day 4.0 at 50 %"));
    assert!(html.contains("<th scope=\"row\">2.0</th><td>25 %</td><td>10 to 50 %</td>"));
    assert!(!html.contains("<th scope=\"row\">3.0</th>"), "nothing changed on day 3");
    assert!(html.contains("<th scope=\"row\">4.0</th><td>50 %</td><td>25 to 75 %</td>"));
}

#[test]
fn nothing_rooted_and_no_look_at_all() {
    let html = drawn(&extremes()[1]).render().unwrap();
    assert!(html.contains("stays at 0 % and ends on day 9.5 at 0 %"));
    assert!(StepCurve::new("none", String::new(), &[]).is_none());
}
