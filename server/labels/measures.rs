//! A sheet of labels, told by its measures in mm.

use super::draw::Stock;
use crate::db::FromRow;
use crate::web::forms::Form;
use crate::web::words;

pub const A4: (f64, f64) = (210.0, 297.0);
pub const LETTER: (f64, f64) = (215.9, 279.4);
/// The least a label measures, so that any mark stands on it at 9 pt.
const LEAST: (f64, f64) = (28.0, 12.0);
/// What many printers leave free at the edges of a page, beside and above.
const UNPRINTED: (f64, f64) = (5.0, 4.5);
/// What stays free at the edges of a label at the least; a large one has no more than this share of it.
const INSET: f64 = 1.5;
const SHARE: f64 = 0.1;
/// Sizes are compared with this much play.
const PLAY: f64 = 0.05;

/// Where the labels of a page are. Every number is in mm but for the two counts.
#[derive(Debug, Clone, PartialEq, FromRow)]
pub struct Measures {
    pub page_width: f64,
    pub page_height: f64,
    /// From the edges of the page to the first label.
    pub from_left: f64,
    pub from_top: f64,
    pub width: f64,
    pub height: f64,
    /// From one label to the next, from edge to the same edge.
    pub pitch_x: f64,
    pub pitch_y: f64,
    pub across: i64,
    pub down: i64,
    /// What the printer is off by, taken back: to the right and down.
    pub nudge_x: f64,
    pub nudge_y: f64,
}

impl Measures {
    /// Labels of `size` in the middle of `page`, `gap` from one to the next.
    pub fn centred(page: (f64, f64), size: (f64, f64), (across, down): (i64, i64), gap: (f64, f64)) -> Self {
        let whole = |n: i64, one: f64, gap: f64| n as f64 * (one + gap) - gap;
        Self {
            page_width: page.0,
            page_height: page.1,
            from_left: (page.0 - whole(across, size.0, gap.0)) / 2.0,
            from_top: (page.1 - whole(down, size.1, gap.1)) / 2.0,
            width: size.0,
            height: size.1,
            pitch_x: size.0 + gap.0,
            pitch_y: size.1 + gap.1,
            across,
            down,
            nudge_x: 0.0,
            nudge_y: 0.0,
        }
    }

    /// Labels on a page.
    pub fn labels(&self) -> usize {
        usize::try_from(self.across * self.down).unwrap_or(1).max(1)
    }

    /// Where label `n` (from 0, along the rows) has its left upper corner on the page, nudged.
    pub fn corner(&self, n: usize) -> (f64, f64) {
        let across = usize::try_from(self.across).unwrap_or(1).max(1);
        let (row, column) = ((n / across) as f64, (n % across) as f64);
        (
            self.from_left + column * self.pitch_x + self.nudge_x,
            self.from_top + row * self.pitch_y + self.nudge_y,
        )
    }

    /// A label, and what stays free at its edges: more where they lie at the edge of the page.
    pub fn stock(&self) -> Stock {
        let right = self.page_width - self.from_left - self.spans().0;
        let below = self.page_height - self.from_top - self.spans().1;
        let inset = |unprinted: f64, margin: f64, size: f64| {
            // the only label of a page is on a roll, and its printer prints to the edge
            let free = if self.labels() == 1 { 0.0 } else { unprinted - margin };
            free.min(size * SHARE).max(INSET.min(size * SHARE))
        };
        Stock {
            width: self.width,
            height: self.height,
            beside: inset(UNPRINTED.0, self.from_left.min(right), self.width),
            above: inset(UNPRINTED.1, self.from_top.min(below), self.height),
        }
    }

    /// From the first label's left edge to the last one's right edge, and so down.
    fn spans(&self) -> (f64, f64) {
        let span = |n: i64, pitch: f64, size: f64| (n - 1) as f64 * pitch + size;
        (span(self.across, self.pitch_x, self.width), span(self.down, self.pitch_y, self.height))
    }

    /// `A4, 3 by 8, 70 × 37 mm`; of a roll `1 label, 62 × 29 mm`.
    pub fn words(&self) -> String {
        let by = |width, height| format!("{} × {} mm", mm(width), mm(height));
        let size = by(self.width, self.height);
        let page = match self.page_words() {
            "" if self.labels() == 1 => return t!("labels-one-label", size = size),
            "" => by(self.page_width, self.page_height),
            known => known.to_owned(),
        };
        t!("labels-page-with-labels", page = page, across = self.across, down = self.down, size = size)
    }

    /// `A4`, `US Letter`, or nothing for another page.
    fn page_words(&self) -> &'static str {
        let is = |page: (f64, f64)| {
            (self.page_width - page.0).abs() < PLAY && (self.page_height - page.1).abs() < PLAY
        };
        match (is(A4), is(LETTER)) {
            (true, _) => "A4",
            (_, true) => "US Letter",
            _ => "",
        }
    }

    /// Reads the form's measures; what is wrong is noted beside its field.
    pub fn parse(form: &mut Form) -> Self {
        let (page_width, page_height) = page(form);
        let width = must(form, "width", LEAST.0..=500.0);
        let height = must(form, "height", LEAST.1..=1000.0);
        let measures = Self {
            page_width,
            page_height,
            from_left: must(form, "from_left", 0.0..=500.0),
            from_top: must(form, "from_top", 0.0..=1000.0),
            width,
            height,
            pitch_x: form.decimal("pitch_x", 1.0..=500.0).unwrap_or(width),
            pitch_y: form.decimal("pitch_y", 1.0..=1000.0).unwrap_or(height),
            across: form.must_whole("across", 1..=20),
            down: form.must_whole("down", 1..=60),
            nudge_x: form.decimal("nudge_x", -10.0..=10.0).unwrap_or(0.0),
            nudge_y: form.decimal("nudge_y", -10.0..=10.0).unwrap_or(0.0),
        };
        if !form.failed() {
            measures.check(form);
        }
        measures
    }

    /// Labels must not lie on one another, and must lie on the page.
    fn check(&self, form: &mut Form) {
        let (across, down) = self.spans();
        if self.pitch_x < self.width - 1e-9 {
            form.refuse("pitch_x", t!("labels-on-one-another-wide", size = mm(self.width)));
        }
        if self.pitch_y < self.height - 1e-9 {
            form.refuse("pitch_y", t!("labels-on-one-another-high", size = mm(self.height)));
        }
        let (right, below) = (self.from_left + across, self.from_top + down);
        if right > self.page_width + PLAY {
            let (end, page) = (words::fixed(right, 1), mm(self.page_width));
            form.refuse("across", t!("labels-page-too-narrow", end = end, page = page));
        }
        if below > self.page_height + PLAY {
            let (end, page) = (words::fixed(below, 1), mm(self.page_height));
            form.refuse("down", t!("labels-page-too-low", end = end, page = page));
        }
    }

    /// The measures as the form asks for them.
    pub fn fill(&self, form: Form) -> Form {
        let page = match self.page_words() {
            "A4" => "a4",
            "US Letter" => "letter",
            _ => "own",
        };
        let mut form = form.with("page", page).with("across", self.across).with("down", self.down);
        for (name, value) in self.fields() {
            form = form.with(name, mm(rounded(value)));
        }
        form
    }

    fn fields(&self) -> [(&'static str, f64); 10] {
        [
            ("page_width", self.page_width),
            ("page_height", self.page_height),
            ("from_left", self.from_left),
            ("from_top", self.from_top),
            ("width", self.width),
            ("height", self.height),
            ("pitch_x", self.pitch_x),
            ("pitch_y", self.pitch_y),
            ("nudge_x", self.nudge_x),
            ("nudge_y", self.nudge_y),
        ]
    }
}

/// A number of mm as it is read and typed.
pub fn mm(length: f64) -> String {
    words::decimal(&length.to_string())
}

/// To the thousandth of a mm, without needless zeros.
fn rounded(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0
}

fn must(form: &mut Form, name: &str, range: std::ops::RangeInclusive<f64>) -> f64 {
    if form.value(name).trim().is_empty() {
        form.refuse(name, t!("labels-give-a-number-of-mm"));
    }
    form.decimal(name, range).unwrap_or(0.0)
}

fn page(form: &mut Form) -> (f64, f64) {
    match form.one_of("page", &["a4", "letter", "own"]) {
        "a4" => A4,
        "letter" => LETTER,
        _ => (must(form, "page_width", 20.0..=500.0), must(form, "page_height", 12.0..=1000.0)),
    }
}

/// A sheet that comes with the program: no one's, named by its measures.
pub struct Preset {
    pub id: &'static str,
    pub measures: Measures,
}

/// Common sheets; dimensions from memory of the trade. The first is for A4, the second for US Letter.
pub fn presets() -> Vec<Preset> {
    let on =
        |id, page, size, counts, gap| Preset { id, measures: Measures::centred(page, size, counts, gap) };
    let roll = |id, size| on(id, size, size, (1, 1), (0.0, 0.0));
    vec![
        on("a4-3x8", A4, (70.0, 37.0), (3, 8), (0.0, 0.0)),
        on("letter-3x10", LETTER, (66.675, 25.4), (3, 10), (3.175, 0.0)),
        on("a4-3x7", A4, (63.5, 38.1), (3, 7), (2.54, 0.0)),
        on("a4-2x7", A4, (99.1, 38.1), (2, 7), (2.5, 0.0)),
        on("a4-5x13", A4, (38.1, 21.2), (5, 13), (2.54, 0.0)),
        roll("roll-62x29", (62.0, 29.0)),
        roll("roll-57x32", (57.0, 32.0)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_preset_passes_its_own_form_unchanged() {
        for preset in presets() {
            let mut form = preset.measures.fill(Form::new());
            let read = Measures::parse(&mut form);
            assert!(!form.failed(), "{}: {:?}", preset.id, form.errors());
            for n in 0..read.labels() {
                let ((x, y), (a, b)) = (read.corner(n), preset.measures.corner(n));
                assert!((x - a).abs() < 0.02 && (y - b).abs() < 0.02, "{}: {n}", preset.id);
            }
        }
    }

    #[test]
    fn labels_go_along_the_rows_and_are_nudged() {
        let m = Measures { nudge_x: 0.5, nudge_y: -0.2, ..presets()[1].measures.clone() };
        let (x, y) = m.corner(4);
        assert!(
            (x - (4.7625 + 69.85 + 0.5)).abs() < 1e-9 && (y - (12.7 + 25.4 - 0.2)).abs() < 1e-9,
            "{x} {y}"
        );
        assert_eq!(m.words(), "US Letter, 3 by 10, 66.675 × 25.4 mm");
        assert_eq!(presets()[5].measures.words(), "1 label, 62 × 29 mm");
    }

    #[test]
    fn the_edge_of_the_page_stays_free() {
        assert_eq!(
            presets()[0].measures.stock(),
            Stock { width: 70.0, height: 37.0, beside: 5.0, above: 3.7 }
        );
        let inner = presets()[1].measures.stock();
        assert!((inner.beside - 1.5).abs() < 1e-9 && (inner.above - 1.5).abs() < 1e-9, "{inner:?}");
    }

    #[test]
    fn what_does_not_fit_is_refused_beside_its_field() {
        let of = |name: &str, value: &str| {
            let pairs = presets()[0].measures.fill(Form::new());
            let pairs = pairs.pairs().filter(|(n, _)| n != name).cloned().collect::<Vec<_>>();
            let mut form = Form::from_pairs(pairs).with(name, value);
            Measures::parse(&mut form);
            form.errors().iter().map(|(n, _)| n.clone()).collect::<Vec<_>>()
        };
        assert_eq!(of("width", "80"), ["pitch_x", "across"]);
        assert_eq!(of("pitch_y", "36.9"), ["pitch_y"]);
        assert_eq!(of("down", "9"), ["down"]);
        assert_eq!(of("from_left", "0.2"), ["across"]);
        assert_eq!(of("height", "11"), ["height"]);
        assert_eq!(of("nudge_x", "11"), ["nudge_x"]);
        assert_eq!(of("page", "a3"), ["page"]);
        assert_eq!(of("across", ""), ["across"]);
        assert!(of("from_left", "0").is_empty());
    }
}
