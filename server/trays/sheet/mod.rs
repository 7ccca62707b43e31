//! The printed tray sheet: which cells and which lots stand on which page. All lengths in mm.

pub mod draw;
pub mod tiles;

use crate::trays::cells::Geometry;
use tiles::Tile;

/// One page holds a tray of up to this many cells.
pub const ONE_PAGE: i64 = 128;
/// Mark, name and code.
pub const HEAD: f64 = 24.0;
const FOOT: f64 = 10.0;
const AXIS: f64 = 5.5;
const GAP: f64 = 3.0;
const TALLEST_CELL: f64 = 22.0;
/// A cell of this height still takes a 9 pt mark in its outline.
const LOW_CELL: f64 = 6.0;
/// A 9 pt line of the list; what stands between two entries.
const LINE: f64 = 4.4;
const BETWEEN: f64 = 0.8;
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

    /// Columns of the list of lots.
    pub fn columns(self) -> usize {
        if self.wide { 3 } else { 2 }
    }

    fn column(self) -> f64 {
        let n = self.columns() as f64;
        (self.size().0 - (n - 1.0) * COLUMN_GAP) / n
    }

    /// Width of a cell where `cols` stand side by side.
    pub fn cell_width(self, cols: i64) -> f64 {
        (self.size().0 - AXIS) / cols as f64
    }

    /// Width and height that the marks of a tile may have, as shares of what a 9 pt label needs.
    fn comfort(self, tile: Tile, longest: usize) -> f64 {
        let width = self.cell_width(tile.cols()) / draw::label_width(longest);
        let height = (self.body() * 0.6 / tile.rows() as f64) / LOW_CELL;
        width.min(1.0) * height.min(1.0)
    }
}

/// One printed page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// The cells on it; `None` on a page that goes on with the list of lots.
    pub tile: Option<Tile>,
    pub cell_height: f64,
    /// Which of the tile's lots stand in which column.
    pub columns: Vec<Vec<usize>>,
    /// Whether the list goes on on the next page.
    pub goes_on: bool,
}

/// Portrait unless the marks stand better in landscape.
pub fn paper(letter: bool, tiles: &[Tile], longest: usize) -> Paper {
    let upright = Paper { letter, wide: false };
    let wide = Paper { letter, wide: true };
    let Some(tile) = tiles.first() else { return upright };
    if wide.comfort(*tile, longest) > upright.comfort(*tile, longest) + 0.01 { wide } else { upright }
}

/// The tiles of a tray: one up to [`ONE_PAGE`] cells.
pub fn tiles(g: Geometry) -> Vec<Tile> {
    tiles::cut(g, ONE_PAGE)
}

/// Pages for one tile; `lots` are the widths of the pieces of each entry of its list. The cells shrink to leave room for the list;
/// only a list that does not fit then goes on on a further page.
pub fn pages(paper: Paper, tile: Tile, lots: &[Vec<f64>]) -> Vec<Page> {
    let body = paper.body();
    let rows = tile.rows() as f64;
    let heights: Vec<f64> = lots.iter().map(|pieces| entry_height(paper, pieces)).collect();
    // a tray of very many rows takes at most seven tenths of the page
    let lowest = LOW_CELL.min((body - AXIS - GAP) * 0.7 / rows);
    let room = body - AXIS - GAP - lowest * rows;
    let wanted = needed(&heights, paper.columns());
    let list = wanted.min(room);
    let cell_height = ((body - AXIS - GAP - list) / rows).clamp(lowest, TALLEST_CELL);
    let (columns, mut done) = fill(&heights, 0, paper.columns(), list);
    let mut pages = vec![Page { tile: Some(tile), cell_height, columns, goes_on: done < heights.len() }];
    while done < heights.len() {
        let (columns, next) = fill(&heights, done, paper.columns(), body);
        if next == done {
            break;
        }
        done = next;
        pages.push(Page { tile: None, cell_height, columns, goes_on: done < heights.len() });
    }
    pages
}

/// Height of an entry whose pieces (words, or marks with their words) do not break.
fn entry_height(paper: Paper, pieces: &[f64]) -> f64 {
    let (mut lines, mut used) = (1.0, 0.0);
    for piece in pieces {
        if used > 0.0 && used + piece > paper.column() {
            lines += 1.0;
            used = 0.0;
        }
        // a piece wider than a column breaks after all
        lines += (piece / paper.column()).ceil().max(1.0) - 1.0;
        used += piece + CHAR;
    }
    BETWEEN + lines * LINE
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

    fn sheet(rows: i64, cols: i64, lots: usize, letter: bool) -> Vec<Page> {
        let tiles = tiles(Geometry { rows, cols });
        let paper = paper(letter, &tiles, 9);
        tiles.iter().flat_map(|t| pages(paper, *t, &vec![vec![9.0; 8]; lots])).collect()
    }

    #[test]
    fn up_to_128_cells_are_one_page() {
        for (rows, cols) in [(3, 2), (10, 5), (12, 6), (14, 7), (16, 8), (8, 16), (60, 2), (2, 60), (1, 60)] {
            for letter in [false, true] {
                assert_eq!(sheet(rows, cols, 20, letter).len(), 1, "{rows} x {cols}");
            }
        }
    }

    #[test]
    fn a_long_list_shrinks_the_cells_before_it_goes_on() {
        let few = &sheet(16, 8, 6, false)[0];
        let many = &sheet(16, 8, 40, false)[0];
        assert!(few.cell_height > many.cell_height && many.cell_height >= LOW_CELL);
        assert!(!many.goes_on);
        let all = sheet(16, 8, 128, false);
        assert!(all[0].goes_on && all.len() == 2);
        let listed: usize = all.iter().flat_map(|p| &p.columns).map(Vec::len).sum();
        assert_eq!(listed, 128, "no lot is left out");
    }

    #[test]
    fn what_a_page_holds_is_not_higher_than_the_page() {
        for lots in [0, 1, 7, 30, 60, 128] {
            for (rows, cols) in [(12, 6), (16, 8), (60, 2), (2, 60), (24, 12), (60, 60)] {
                let tiles = tiles(Geometry { rows, cols });
                let paper = paper(true, &tiles, 9);
                let page = &pages(paper, tiles[0], &vec![vec![9.0; 16]; lots])[0];
                let heights = |c: &Vec<usize>| c.len() as f64 * entry_height(paper, &[9.0; 16]);
                let list = page.columns.iter().map(heights).fold(0.0, f64::max);
                let grid = AXIS + page.cell_height * tiles[0].rows() as f64;
                assert!(grid + GAP + list <= paper.body() + 0.01, "{rows} x {cols}, {lots} lots");
            }
        }
    }
}
