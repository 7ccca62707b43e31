//! The printed tray sheet: how large its cells are, and which lots stand where below them. All lengths in mm.

pub mod draw;

use crate::trays::cells::Geometry;

/// Mark, name and code.
pub const HEAD: f64 = 24.0;
const FOOT: f64 = 10.0;
const AXIS: f64 = 5.5;
const GAP: f64 = 3.0;
const TALLEST_CELL: f64 = 22.0;
/// A cell of this height still takes a 9 pt mark in its outline.
const LOW_CELL: f64 = 6.0;
/// A cell of this height still takes a line of 9 pt.
const LOWEST_CELL: f64 = 4.2;
/// Of a page the cells take no more than this where they are very many.
const MOST: f64 = 0.7;
const COLUMN_GAP: f64 = 6.0;
/// Mean width of a character at 9 pt, on the safe side of the widest of our fonts (measured).
pub const CHAR: f64 = 1.7;
/// Width of a character of a mark at 9 pt: 0.602 em.
pub const MARK_CHAR: f64 = 1.92;

/// Paper as `print.css` sets it up: what the margins leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    pub letter: bool,
    pub wide: bool,
}

impl Paper {
    /// Width and height between the margins.
    pub fn size(self) -> (f64, f64) {
        match (self.letter, self.wide) {
            (false, false) => (186.0, 272.0),
            (false, true) => (273.0, 185.0),
            (true, false) => (190.5, 253.0),
            (true, true) => (254.0, 189.5),
        }
    }

    fn body(self) -> f64 {
        self.size().1 - HEAD - FOOT
    }

    /// Width of a cell where `cols` stand side by side.
    pub fn cell_width(self, cols: i64) -> f64 {
        (self.size().0 - AXIS) / cols as f64
    }

    /// Width and height that the marks may have, as shares of what a 9 pt label needs.
    fn comfort(self, g: Geometry, longest: usize) -> f64 {
        let width = self.cell_width(g.cols) / draw::label_width(longest);
        let height = (self.body() * 0.6 / g.rows as f64) / LOW_CELL;
        width.min(1.0) * height.min(1.0)
    }
}

/// How much the list below the cells tells, from all to the least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Telling {
    /// By variety and source: each mark with its seeds and days.
    All,
    /// By variety: the marks.
    Varieties,
    /// The marks alone, in dense columns.
    Marks,
}

impl Telling {
    pub const EACH: [Self; 3] = [Self::All, Self::Varieties, Self::Marks];

    /// Columns of the list, as `print.css` sets them.
    fn columns(self, paper: Paper) -> usize {
        match (self, paper.wide) {
            (Self::Marks, false) => 5,
            (Self::Marks, true) => 7,
            (_, false) => 2,
            (_, true) => 3,
        }
    }

    fn column(self, paper: Paper) -> f64 {
        let n = self.columns(paper) as f64;
        (paper.size().0 - (n - 1.0) * COLUMN_GAP) / n
    }

    /// A 9 pt line of the list, and what stands between two entries.
    fn line(self) -> (f64, f64) {
        if self == Self::Marks { (4.0, 0.0) } else { (4.4, 0.8) }
    }

    fn lowest(self, paper: Paper, rows: f64) -> f64 {
        let low = if self == Self::All { LOW_CELL } else { LOWEST_CELL };
        low.min((paper.body() - AXIS - GAP) * MOST / rows)
    }
}

/// One printed page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// `None` on a page that goes on with the list of lots.
    pub cell_height: Option<f64>,
    /// Which of the lots stand in which column.
    pub columns: Vec<Vec<usize>>,
    /// Whether the list goes on on the next page.
    pub goes_on: bool,
}

/// Portrait unless the marks stand better in landscape.
pub fn paper(letter: bool, g: Geometry, longest: usize) -> Paper {
    let upright = Paper { letter, wide: false };
    let wide = Paper { letter, wide: true };
    if wide.comfort(g, longest) > upright.comfort(g, longest) + 0.01 { wide } else { upright }
}

/// Whether a cell is too narrow for a mark of `longest` characters, so that lots go by numbers too.
pub fn by_number(paper: Paper, g: Geometry, longest: usize) -> bool {
    draw::label_width(longest) > paper.cell_width(g.cols)
}

/// Pages for a tray; `lots` are the widths of the pieces of each entry of its list. The cells shrink to leave room
/// for the list; only a list that does not fit then goes on on a further page.
pub fn pages(paper: Paper, g: Geometry, telling: Telling, lots: &[Vec<f64>]) -> Vec<Page> {
    let (body, rows) = (paper.body(), g.rows as f64);
    let heights: Vec<f64> = lots.iter().map(|pieces| entry_height(paper, telling, pieces)).collect();
    let (lowest, columns) = (telling.lowest(paper, rows), telling.columns(paper));
    let room = body - AXIS - GAP - lowest * rows;
    let list = needed(&heights, columns).min(room);
    let cell_height = ((body - AXIS - GAP - list) / rows).clamp(lowest, TALLEST_CELL);
    let (filled, mut done) = fill(&heights, 0, columns, list);
    let mut pages =
        vec![Page { cell_height: Some(cell_height), columns: filled, goes_on: done < heights.len() }];
    while done < heights.len() {
        let (filled, next) = fill(&heights, done, columns, body);
        if next == done {
            break;
        }
        done = next;
        pages.push(Page { cell_height: None, columns: filled, goes_on: done < heights.len() });
    }
    pages
}

/// Height of an entry whose pieces (words, or marks with their words) do not break.
fn entry_height(paper: Paper, telling: Telling, pieces: &[f64]) -> f64 {
    let (mut lines, mut used) = (1.0, 0.0);
    let (column, (line, between)) = (telling.column(paper), telling.line());
    for piece in pieces {
        if used > 0.0 && used + piece > column {
            lines += 1.0;
            used = 0.0;
        }
        // a piece wider than a column breaks after all
        lines += (piece / column).ceil().max(1.0) - 1.0;
        used += piece + CHAR;
    }
    between + lines * line
}

/// The least height at which all lots fit into `columns`.
fn needed(heights: &[f64], columns: usize) -> f64 {
    let total: f64 = heights.iter().sum();
    let mut height = (total / columns as f64).max(heights.iter().copied().fold(0.0, f64::max));
    while fill(heights, 0, columns, height).1 < heights.len() {
        height += 1.0;
    }
    height
}

/// Fills columns of `height` from lot `from` on; the columns, and the first lot that found no room.
fn fill(heights: &[f64], from: usize, columns: usize, height: f64) -> (Vec<Vec<usize>>, usize) {
    let mut filled = Vec::new();
    let mut next = from;
    for _ in 0..columns {
        let (mut column, mut used) = (Vec::new(), 0.0);
        while next < heights.len() && used + heights[next] <= height + 1e-9 {
            used += heights[next];
            column.push(next);
            next += 1;
        }
        filled.push(column);
    }
    (filled, next)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trays::published::GRIDS;

    fn g(rows: i64, cols: i64) -> Geometry {
        Geometry { rows, cols }
    }

    /// Entries of one lot each: a name and its words, or the mark alone.
    fn sheet(g: Geometry, lots: usize, letter: bool, telling: Telling) -> (Paper, Vec<Page>) {
        let paper = paper(letter, g, 9);
        let entry = if telling == Telling::Marks { vec![30.1] } else { vec![9.0; 8] };
        (paper, pages(paper, g, telling, &vec![entry; lots]))
    }

    #[test]
    fn every_published_tray_is_one_page_with_the_marks_of_a_lot_for_every_six_cells() {
        for grid in GRIDS.iter() {
            for letter in [false, true] {
                let lots = usize::try_from(grid.geometry.cells() / 6 + 1).unwrap();
                let (_, pages) = sheet(grid.geometry, lots, letter, Telling::Marks);
                assert_eq!(pages.len(), 1, "{:?} {letter}", grid.geometry);
                assert!(pages[0].cell_height.unwrap() >= LOWEST_CELL, "{:?} {letter}", grid.geometry);
            }
        }
    }

    #[test]
    fn a_long_list_shrinks_the_cells_before_it_goes_on() {
        let few = sheet(g(16, 8), 6, false, Telling::All).1[0].cell_height.unwrap();
        let many = sheet(g(16, 8), 40, false, Telling::All).1;
        let low = many[0].cell_height.unwrap();
        assert!(few > low && low >= LOW_CELL && !many[0].goes_on);
        let all = sheet(g(16, 8), 128, false, Telling::All).1;
        assert!(all[0].goes_on && all.len() == 2);
        let listed: usize = all.iter().flat_map(|p| &p.columns).map(Vec::len).sum();
        assert_eq!(listed, 128, "no lot is left out");
        assert_eq!(sheet(g(16, 8), 128, false, Telling::Marks).1.len(), 1, "a lot in every cell");
    }

    #[test]
    fn what_a_page_holds_is_not_higher_than_the_page() {
        for lots in [0, 1, 7, 30, 60, 128] {
            for (rows, cols) in [(12, 6), (16, 8), (60, 2), (2, 60), (24, 12), (32, 16), (60, 60)] {
                for telling in Telling::EACH {
                    let (paper, pages) = sheet(g(rows, cols), lots, true, telling);
                    let entry: &[f64] = if telling == Telling::Marks { &[30.1] } else { &[9.0; 8] };
                    let heights = |c: &Vec<usize>| c.len() as f64 * entry_height(paper, telling, entry);
                    let list = pages[0].columns.iter().map(heights).fold(0.0, f64::max);
                    let grid = AXIS + pages[0].cell_height.unwrap() * rows as f64;
                    assert!(grid + GAP + list <= paper.body() + 0.01, "{rows} x {cols}, {lots} lots");
                }
            }
        }
    }
}
