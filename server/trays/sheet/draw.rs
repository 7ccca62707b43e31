//! Draws the cells of a tray as inline SVG, one unit to the mm, so that it prints to scale.

use super::{AXIS, CHAR, MARK_CHAR, Paper};
use crate::trays::cells::{Geometry, letters};
use std::fmt::Write;

/// 9 pt.
const TEXT: f64 = 3.175;
const LABEL: f64 = 4.6;
const POINT: f64 = 1.6;

/// What a cell holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held {
    pub row: i64,
    pub col: i64,
    pub mark: String,
    /// Below the mark where there is room.
    pub note: String,
    /// The number of its lot in the list, which stands for a mark that does not fit; empty where lots have none.
    pub number: String,
}

/// A drawing, and whether any text in it had to be smaller than 9 pt.
pub struct Drawing {
    pub svg: String,
    pub tiny: bool,
}

/// Width of a cell that takes a label of `chars` characters at 9 pt.
pub fn label_width(chars: usize) -> f64 {
    chars as f64 * MARK_CHAR + POINT + 2.6
}

struct Pen {
    out: String,
    tiny: bool,
    width: f64,
    height: f64,
}

/// Draws the tray with the cells in `held` (row by row), cells `height` mm high.
pub fn tray(paper: Paper, g: Geometry, height: f64, held: &[Held], title: &str) -> Drawing {
    let width = paper.cell_width(g.cols);
    let (w, h) = (paper.size().0, AXIS + height * g.rows as f64 + 0.3);
    let mut pen = Pen { out: String::new(), tiny: false, width, height };
    pen.grid(g);
    let mut rest = held;
    while let [first, after @ ..] = rest {
        let run = 1 + after.iter().zip(1..).take_while(|(c, n)| follows(first, c, *n)).count();
        let used = pen.held(first, run);
        rest = &rest[used..];
    }
    let svg = format!(
        r#"<svg class="tray-drawn" width="{w}mm" height="{h:.2}mm" viewBox="0 0 {w} {h:.2}" role="img"><title>{}</title>{}</svg>"#,
        escape(title),
        pen.out
    );
    Drawing { svg, tiny: pen.tiny }
}

fn follows(first: &Held, cell: &Held, n: i64) -> bool {
    cell.row == first.row && cell.col == first.col + n && cell.mark == first.mark
}

impl Pen {
    fn grid(&mut self, g: Geometry) {
        let (right, bottom) = (AXIS + self.width * g.cols as f64, AXIS + self.height * g.rows as f64);
        for row in 0..=g.rows {
            let y = AXIS + self.height * row as f64;
            self.line(AXIS, y, right, y, row == 0 || row == g.rows);
            if row < g.rows {
                let middle = y + self.height / 2.0;
                self.text((AXIS - 0.8, middle), TEXT.min(self.height * 0.9), "end", &(row + 1).to_string());
            }
        }
        for col in 0..=g.cols {
            let x = AXIS + self.width * col as f64;
            self.line(x, AXIS, x, bottom, col == 0 || col == g.cols);
            if col < g.cols {
                let name = letters(col);
                let size = TEXT.min(self.width * 0.9 / name.len() as f64 * 1.3);
                self.text((x + self.width / 2.0, AXIS / 2.0), size, "middle", &name);
            }
        }
    }

    fn line(&mut self, x: f64, y: f64, to_x: f64, to_y: f64, edge: bool) {
        let stroke = if edge { 0.5 } else { 0.2 };
        let _ = write!(
            self.out,
            r#"<path d="M{x:.2} {y:.2}L{to_x:.2} {to_y:.2}" stroke="black" stroke-width="{stroke}" stroke-linecap="square"/>"#
        );
    }

    /// Text with its middle at height `y`.
    fn text(&mut self, (x, y): (f64, f64), size: f64, anchor: &str, words: &str) {
        self.tiny |= size < TEXT - 0.01;
        let y = y + size * 0.35;
        let _ = write!(
            self.out,
            r#"<text x="{x:.2}" y="{y:.2}" font-size="{size:.3}" text-anchor="{anchor}">{}</text>"#,
            escape(words)
        );
    }

    /// Draws one cell, or a run of cells of one lot under one label; how many cells that covered. In this order:
    /// a label in the cell, one label for the run, two lines, the bare mark flat or upright, the lot's number; and
    /// smaller than 9 pt where even that does not fit.
    fn held(&mut self, cell: &Held, run: usize) -> usize {
        let x = AXIS + self.width * cell.col as f64;
        let y = AXIS + self.height * cell.row as f64;
        let chars = cell.mark.chars().count();
        let (needs, high) = (label_width(chars), self.height >= LABEL + 0.8);
        if needs <= self.width {
            self.label(x, y, cell, high);
            return 1;
        }
        if run > 1 && needs <= self.width * run as f64 {
            self.span((x + needs, x + self.width * run as f64 - 0.8), y + self.height / 2.0);
            self.label(x, y, &Held { note: String::new(), ..cell.clone() }, high);
            return run;
        }
        if self.two_lines(x, y, &cell.mark) {
            return 1;
        }
        let fits = |text: &str| self.bare(text.chars().count()) >= TEXT - 0.01;
        let number = !cell.number.is_empty() && !fits(&cell.mark);
        let text = if number { &cell.number } else { &cell.mark };
        self.small(x, y, text);
        1
    }

    /// The size of a text of so many characters in a cell: flat, or upright where that is larger.
    fn bare(&self, chars: usize) -> f64 {
        let (flat, upright) = self.sizes(chars);
        flat.max(upright)
    }

    fn sizes(&self, chars: usize) -> (f64, f64) {
        let size_in =
            |long: f64, short: f64| TEXT.min((long - 0.6) / (chars as f64 * 0.605)).min(short * 0.85);
        (size_in(self.width, self.height), size_in(self.height, self.width))
    }

    /// A line from a label to the end of its run, so that the cells under it do not look free.
    fn span(&mut self, (from, to): (f64, f64), y: f64) {
        let _ = write!(
            self.out,
            r#"<path d="M{from:.2} {y:.2}H{to:.2}m0 -1v2" fill="none" stroke="black" stroke-width=".4"/>"#
        );
    }

    fn label(&mut self, x: f64, y: f64, cell: &Held, outlined: bool) {
        let note_fits = cell.note.chars().count() as f64 * CHAR <= self.width - 1.6;
        let noted = !cell.note.is_empty() && note_fits && self.height >= LABEL + TEXT + 1.6;
        let middle = y + (self.height - if noted { TEXT + 0.6 } else { 0.0 }) / 2.0;
        let width = cell.mark.chars().count() as f64 * MARK_CHAR + 1.2;
        if outlined {
            let (top, half) = (middle - LABEL / 2.0, LABEL / 2.0);
            let _ = write!(
                self.out,
                r#"<path d="M{:.2} {top:.2}h{width:.2}l{POINT} {half}l-{POINT} {half}h-{width:.2}z" fill="white" stroke="black" stroke-width=".3"/>"#,
                x + 0.7
            );
        } else {
            // no line of the grid runs through a mark that is wider than its cell
            let (top, high) = (middle - TEXT * 0.45, TEXT * 0.9);
            let _ = write!(
                self.out,
                r#"<rect x="{:.2}" y="{top:.2}" width="{width:.2}" height="{high:.2}" fill="white"/>"#,
                x + 0.7
            );
        }
        self.mark((x + 1.3, middle), TEXT, "start", &cell.mark);
        if noted {
            self.text((x + 0.9, middle + LABEL / 2.0 + 0.5 + TEXT / 2.0), TEXT, "start", &cell.note);
        }
    }

    fn mark(&mut self, (x, y): (f64, f64), size: f64, anchor: &str, words: &str) {
        self.out.push_str(r#"<g class="m">"#);
        self.text((x, y), size, anchor, words);
        self.out.push_str("</g>");
    }

    fn two_lines(&mut self, x: f64, y: f64, mark: &str) -> bool {
        let Some((upper, lower)) = mark.rsplit_once(' ') else { return false };
        let longest = upper.chars().count().max(lower.chars().count());
        if longest as f64 * MARK_CHAR + 0.6 > self.width || self.height < 2.0 * TEXT + 1.0 {
            return false;
        }
        let (across, middle) = (x + self.width / 2.0, y + self.height / 2.0);
        self.mark((across, middle - TEXT * 0.55), TEXT, "middle", upper);
        self.mark((across, middle + TEXT * 0.55), TEXT, "middle", lower);
        true
    }

    fn small(&mut self, x: f64, y: f64, mark: &str) {
        let (across, middle) = (x + self.width / 2.0, y + self.height / 2.0);
        let (flat, upright) = self.sizes(mark.chars().count());
        if flat >= upright {
            return self.mark((across, middle), flat, "middle", mark);
        }
        let _ = write!(self.out, r#"<g transform="rotate(-90 {across:.2} {middle:.2})">"#);
        self.mark((across, middle), upright, "middle", mark);
        self.out.push_str("</g>");
    }
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    const A4: Paper = Paper { letter: false, wide: false };

    fn cell(col: i64, mark: &str, number: &str) -> Held {
        Held { row: 0, col, mark: mark.into(), note: String::new(), number: number.into() }
    }

    fn row(n: i64, mark: &str) -> Vec<Held> {
        (0..n).map(|col| cell(col, mark, "")).collect()
    }

    fn drawn(cols: i64, height: f64, held: &[Held]) -> Drawing {
        tray(A4, Geometry { rows: 2, cols }, height, held, "Tray")
    }

    #[test]
    fn every_cell_has_its_mark_where_it_fits() {
        let drawing = drawn(8, 10.0, &row(8, "JB 42 a"));
        assert_eq!(drawing.svg.matches("JB 42 a").count(), 8);
        assert!(!drawing.tiny);
    }

    #[test]
    fn a_run_of_narrow_cells_carries_one_label() {
        let drawing = drawn(16, 10.0, &row(4, "KRA 142 b"));
        assert_eq!(drawing.svg.matches("KRA 142 b").count(), 1, "four cells, one label");
    }

    #[test]
    fn what_does_not_fit_at_9_points_goes_by_its_number_and_else_is_smaller_and_says_so() {
        let mark = "KRA 142 b";
        assert!(!drawn(10, 10.0, &row(1, mark)).tiny, "two lines");
        let numbered = drawn(16, 4.2, &[cell(0, mark, "128")]);
        assert!(!numbered.tiny && numbered.svg.contains(">128<") && !numbered.svg.contains(mark));
        assert!(drawn(16, 4.2, &row(1, mark)).tiny);
        assert!(drawn(60, 2.5, &[cell(0, mark, "128")]).tiny);
    }

    #[test]
    fn names_cannot_break_out_of_the_drawing() {
        assert!(drawn(2, 10.0, &row(1, "<b>&")).svg.contains("&lt;b&gt;&amp;"));
    }
}
