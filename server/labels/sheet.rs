//! A page of labels, or of their outlines, as one SVG with one unit to the mm.

use super::draw::{Drawn, escape};
use super::measures::{Measures, mm};
use std::fmt::Write;

/// Browsers round a page to whole pixels, which may take this much off its end; a drawing as high as the page
/// would then begin a second one.
const ROUNDED_OFF: f64 = 0.3;
/// Points to the mm, and the whole points of which some number is a whole number of dots at 300 dpi.
const POINT: f64 = 72.0 / 25.4;
const EVEN: f64 = 6.0;
/// An arm of the crosses at the corners.
const ARM: f64 = 1.5;
/// The width of a character as a share of the size, on the safe side.
const TEXT_CHAR: f64 = 0.56;
/// 9 pt.
const TEXT: f64 = 3.175;
/// Lengths of the rule, the first that fits.
const RULES: [u32; 3] = [100, 50, 20];

/// The side of a page to ask a browser for, in mm. Chromium rounds a side to whole points and then to dots of a
/// 300th of an inch; where that goes up, it shrinks what is on the page by up to a point (measured). The nearest side
/// of which it does not is less than 1 mm away.
pub fn asked_for(side: f64) -> f64 {
    let points = (side * POINT).round();
    let moved = match points % EVEN {
        r if r > 4.5 => 1.0,
        r if r > 2.5 => 2.0 - r,
        _ => return side,
    };
    ((points + moved) / POINT * 100.0).round() / 100.0
}

/// One page; `labels` are what is on it from its first place on, `None` where that is used already. With `lines`
/// each label has an outline, to be cut from plain paper.
pub fn page(m: &Measures, labels: &[Option<(String, Drawn)>], lines: bool) -> String {
    let mut out = begun(m, t!("labels-labels"));
    for (n, label) in labels.iter().enumerate() {
        let Some((title, drawn)) = label else { continue };
        let (x, y) = m.corner(n);
        if lines {
            outline(&mut out, m, (x, y));
        }
        let _ = write!(
            out,
            r#"<svg class="one" x="{x:.3}" y="{y:.3}" width="{w}" height="{h}" viewBox="0 0 {w} {h}"><title>{}</title>{}</svg>"#,
            escape(title),
            drawn.svg,
            w = m.width,
            h = m.height,
        );
    }
    out.push_str("</svg>");
    out
}

/// The test page: every outline, a cross at each of its corners, and a rule.
pub fn test_page(m: &Measures) -> String {
    let mut out = begun(m, t!("labels-outlines-with-a-rule"));
    for n in 0..m.labels() {
        let (x, y) = m.corner(n);
        outline(&mut out, m, (x, y));
        for (x, y) in [(x, y), (x + m.width, y), (x, y + m.height), (x + m.width, y + m.height)] {
            let _ = write!(
                out,
                r#"<path d="M{:.3} {y:.3}h{}M{x:.3} {:.3}v{}" stroke="black" stroke-width=".2"/>"#,
                x - ARM,
                2.0 * ARM,
                y - ARM,
                2.0 * ARM
            );
        }
    }
    rule(&mut out, m);
    out.push_str("</svg>");
    out
}

fn begun(m: &Measures, title: &str) -> String {
    let (w, h) = (asked_for(m.page_width), asked_for(m.page_height) - ROUNDED_OFF);
    format!(
        r#"<svg class="on-paper" width="{w}mm" height="{h:.2}mm" viewBox="0 0 {w} {h:.2}" role="img"><title>{title}</title>"#
    )
}

fn outline(out: &mut String, m: &Measures, (x, y): (f64, f64)) {
    let _ = write!(
        out,
        r#"<rect x="{x:.3}" y="{y:.3}" width="{}" height="{}" fill="none" stroke="black" stroke-width=".1"/>"#,
        m.width, m.height
    );
}

/// A rule through the middle of a label halfway down the page, with a stroke for each mm.
fn rule(out: &mut String, m: &Measures) {
    let fits = |l: &&u32| f64::from(**l) <= m.page_width - 8.0;
    let length = RULES.iter().find(fits).copied().unwrap_or(20);
    let middle = usize::try_from(m.down / 2 * m.across).unwrap_or(0);
    let y = m.corner(middle).1 + m.height / 2.0;
    let x = (m.page_width - f64::from(length)) / 2.0;
    let _ = write!(out, r#"<path class="rule" d="M{x:.3} {y:.3}h{length}"#);
    for mm in 0..=length {
        let tall = match mm {
            n if n % 10 == 0 => 3.0,
            n if n % 5 == 0 => 2.0,
            _ => 1.2,
        };
        let _ = write!(out, "M{:.3} {y:.3}v-{tall}", x + f64::from(mm));
    }
    out.push_str(r#"" fill="none" stroke="black" stroke-width=".15"/>"#);
    let words = t!("labels-rule", length = length, right = mm(m.nudge_x), down = mm(m.nudge_y));
    let wide = words.chars().count() as f64 * TEXT_CHAR * TEXT;
    let (x, y) = (clear(m, x, wide), y + 0.3 * TEXT);
    let _ = write!(
        out,
        r#"<path d="M{x:.3} {y:.3}h{wide:.3}v{:.3}h-{wide:.3}z" fill="white"/><text x="{x:.3}" y="{:.3}" font-size="{TEXT}">{words}</text>"#,
        1.2 * TEXT,
        y + TEXT
    );
}

/// Where words so wide begin below a rule that begins at `x`: there, or past the first edge of a label that would
/// strike through them.
fn clear(m: &Measures, x: f64, wide: f64) -> f64 {
    let across = usize::try_from(m.across).unwrap_or(0);
    let edges = (0..across).map(|n| m.corner(n).0).flat_map(|left| [left, left + m.width]);
    let struck = edges.filter(|edge| (x - ARM..x + wide + ARM).contains(edge)).reduce(f64::max);
    struck.map(|edge| edge + 2.0 * ARM).filter(|x| x + wide < m.page_width).unwrap_or(x)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::labels::measures::presets;

    #[test]
    fn a_side_that_browsers_would_shrink_is_asked_for_a_little_otherwise() {
        for kept in [210.0, 297.0, 215.9, 279.4, 62.0, 57.0, 30.0] {
            assert!((asked_for(kept) - kept).abs() < 1e-9, "{kept}");
        }
        for tenths in 120..6000 {
            let side = f64::from(tenths) / 10.0;
            let points = (asked_for(side) * POINT).round();
            assert!(points % EVEN < 2.5 && (asked_for(side) - side).abs() < 1.0, "{side}");
        }
    }

    #[test]
    fn used_places_stay_empty() {
        let m = &presets()[0].measures;
        let label = || Some(("Label".to_owned(), Drawn { svg: "<path/>".into(), left_off: false }));
        let svg = page(m, &[None, None, None, None, label(), label()], false);
        assert!(svg.contains(r#"<svg class="one" x="70.000" y="37.500""#), "{svg}");
        assert_eq!((svg.matches(r#"class="one""#).count(), svg.matches("<rect").count()), (2, 0));
        assert_eq!(page(m, &[label()], true).matches("<rect").count(), 1);
    }

    #[test]
    fn the_length_of_the_rule_is_struck_through_by_no_line() {
        let wide = 19.0 * TEXT_CHAR * TEXT;
        for preset in presets() {
            let m = &preset.measures;
            let svg = test_page(m);
            let words = svg.split("<text x=\"").nth(1).unwrap();
            let x: f64 = words.split('"').next().unwrap().parse().unwrap();
            for left in (0..m.labels()).map(|n| m.corner(n).0) {
                let struck = [left, left + m.width].into_iter().find(|edge| (x..x + wide).contains(edge));
                assert_eq!(struck, None, "{} from {x}", preset.id);
            }
            assert!(x + wide < m.page_width, "{}", preset.id);
        }
    }

    #[test]
    fn the_test_page_has_every_outline_and_the_longest_rule_that_fits() {
        for (preset, rule) in presets().iter().zip([100, 100, 100, 100, 100, 50, 20]) {
            let svg = test_page(&preset.measures);
            assert_eq!(svg.matches("<rect").count(), preset.measures.labels(), "{}", preset.id);
            assert!(svg.contains(&format!("{rule} mm; nudge 0 / 0")), "{}", preset.id);
        }
    }
}
