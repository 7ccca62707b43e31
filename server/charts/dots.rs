use super::{Axis, Frame, Scale, place};
use crate::web::words::percent;
use askama::Template;

/// Height of one entry, and how far below its top its name, its dot and what it rests on stand.
const EACH: u32 = 64;
const LINES: [f64; 3] = [18.0, 32.0, 51.0];
const LEFT: u32 = 14;
const RIGHT: u32 = 326;
const TOP: u32 = 12;
const BELOW: u32 = 44;
const SHAPES: usize = 5;

/// One rate with its interval.
#[derive(Debug, Clone, PartialEq)]
pub struct Dot {
    pub name: String,
    /// The share, 0 to 1, with the ends of its interval.
    pub share: f64,
    pub low: f64,
    pub high: f64,
    /// The same before anything was evened out; a cross.
    pub raw: Option<f64>,
    /// What it rests on: "41 seeds, 3 growers".
    pub behind: String,
}

/// An entry as it is drawn.
#[derive(Debug)]
struct Entry {
    dot: Dot,
    words: String,
    /// Name, dot, what it rests on.
    y: [String; 3],
    x: [String; 3],
    /// The cross of the raw rate, and its words.
    raw: Option<(String, String)>,
    /// Path of the shape around the dot.
    shape: String,
    /// Which series, from 1.
    series: usize,
}

/// Rates with their intervals in one column, in the order given.
#[derive(Debug, Template)]
#[template(path = "charts/dots.html")]
pub struct Dots {
    /// Unique on the page.
    id: String,
    title: String,
    desc: String,
    frame: Frame,
    entries: Vec<Entry>,
    has_raw: bool,
}

impl Dots {
    /// `None` without any.
    pub fn new(id: String, title: String, dots: Vec<Dot>) -> Option<Self> {
        let (first, last) = (dots.first()?, dots.last()?);
        let desc = t!(
            "charts-dots-with-whiskers",
            n = dots.len(),
            first = first.name,
            first_share = percent(first.share),
            last = last.name,
            last_share = percent(last.share),
        );
        let bottom = TOP + EACH * u32::try_from(dots.len()).unwrap_or(1);
        let field = [LEFT, TOP, RIGHT, bottom];
        let frame = Frame {
            width: Frame::WIDTH,
            height: bottom + BELOW,
            field,
            x: Axis::percent((f64::from(LEFT), f64::from(RIGHT)), t!("charts-per-cent-rooted")),
            y: Axis { scale: Scale::new((0.0, 1.0), (0.0, 1.0)), ticks: Vec::new(), words: "" },
        };
        let has_raw = dots.iter().any(|d| d.raw.is_some());
        let entries = dots.into_iter().enumerate().map(|(i, dot)| Entry::new(&frame, i, dot)).collect();
        Some(Self { id, title, desc, frame, entries, has_raw })
    }
}

impl Entry {
    fn new(frame: &Frame, i: usize, dot: Dot) -> Self {
        let at = |share: f64| frame.x.scale.at(share);
        let top = f64::from(TOP) + f64::from(EACH) * i as f64;
        let y = top + LINES[1];
        let raw = |raw: f64| (cross(at(raw), y), t!("charts-raw-share", share = percent(raw)));
        Self {
            words: t!(
                "charts-share-with-interval",
                share = percent(dot.share),
                low = percent(dot.low),
                high = percent(dot.high),
            ),
            y: LINES.map(|line| place(top + line)),
            x: [dot.low, dot.share, dot.high].map(|share| place(at(share))),
            raw: dot.raw.map(raw),
            shape: shape(i % SHAPES, at(dot.share), y),
            series: i % 7 + 1,
            dot,
        }
    }
}

fn cross(x: f64, y: f64) -> String {
    let ends = [x - 4.5, x + 4.5, y - 4.5, y + 4.5].map(place);
    let [left, right, up, down] = &ends;
    format!("M{left} {up}L{right} {down}M{left} {down}L{right} {up}")
}

/// Circle, square, triangle, diamond, triangle on its point.
fn shape(which: usize, x: f64, y: f64) -> String {
    const R: f64 = 6.0;
    let corners: &[(f64, f64)] = match which {
        0 => {
            let (left, right, y) = (place(x - R), place(x + R), place(y));
            return format!("M{left} {y}A6 6 0 1 1 {right} {y}A6 6 0 1 1 {left} {y}Z");
        }
        1 => &[(-5.5, -5.5), (5.5, -5.5), (5.5, 5.5), (-5.5, 5.5)],
        2 => &[(0.0, -7.0), (6.5, 5.0), (-6.5, 5.0)],
        3 => &[(0.0, -7.5), (7.5, 0.0), (0.0, 7.5), (-7.5, 0.0)],
        _ => &[(-6.5, -5.0), (6.5, -5.0), (0.0, 7.0)],
    };
    let points = corners.iter().map(|(dx, dy)| format!("{} {}", place(x + dx), place(y + dy)));
    format!("M{}Z", points.collect::<Vec<_>>().join("L"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use scraper::{Html, Selector};

    fn dot(name: &str, share: f64, raw: Option<f64>) -> Dot {
        let (low, high) = ((share - 0.1).max(0.0), (share + 0.1).min(1.0));
        Dot { name: name.into(), share, low, high, raw, behind: "40 seeds, 2 growers".into() }
    }

    fn drawn(dots: Vec<Dot>) -> Html {
        let chart = Dots::new("d".into(), "Ember".into(), dots).unwrap();
        Html::parse_fragment(&chart.render().unwrap())
    }

    fn all(html: &Html, selector: &str, name: &str) -> Vec<String> {
        let selector = Selector::parse(selector).unwrap();
        html.select(&selector).filter_map(|e| e.value().attr(name).map(str::to_owned)).collect()
    }

    #[test]
    fn a_dot_stands_where_its_share_is_and_whiskers_where_they_end() {
        let html = drawn(vec![dot("a & b", 0.5, Some(1.0)), dot("c", 1.0, None)]);
        assert_eq!(all(&html, ".whisker", "d"), ["M138.8 44.0H201.2", "M294.8 108.0H326.0"]);
        assert!(all(&html, ".dot", "d")[0].starts_with("M164.0 44.0A"), "the middle of 14 and 326 is 170");
        assert_eq!(all(&html, ".raw", "d").len(), 1);
        assert_eq!(all(&html, "svg", "aria-labelledby"), ["d-title d-desc"]);
    }

    #[test]
    fn the_table_has_the_numbers_and_names_are_escaped() {
        let html = drawn(vec![dot("a & <b>", 0.5, Some(0.7))]);
        let cells: Vec<String> =
            html.select(&Selector::parse("tbody :is(th, td)").unwrap()).map(|e| e.text().collect()).collect();
        assert_eq!(cells, ["a & <b>", "50 % (40 to 60)", "70 %", "40 seeds, 2 growers"]);
        assert!(Dots::new("d".into(), "t".into(), Vec::new()).is_none());
    }

    #[test]
    fn neighbours_differ_by_shape() {
        let shapes: std::collections::BTreeSet<String> = (0..SHAPES).map(|i| shape(i, 0.0, 0.0)).collect();
        assert_eq!(shapes.len(), SHAPES);
    }
}
