use crate::trays::cells::{Geometry, letters};

/// A part of a tray that stands on one page: rows and columns from 0, the end not included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tile {
    pub top: i64,
    pub bottom: i64,
    pub left: i64,
    pub right: i64,
}

impl Tile {
    pub fn rows(self) -> i64 {
        self.bottom - self.top
    }

    pub fn cols(self) -> i64 {
        self.right - self.left
    }

    /// Whether the cell at `row`, `col` stands in it.
    pub fn holds(self, (row, col): (i64, i64)) -> bool {
        (self.top..self.bottom).contains(&row) && (self.left..self.right).contains(&col)
    }

    /// `rows 1 to 8, columns A to L`
    pub fn words(self) -> String {
        let (left, right) = (letters(self.left), letters(self.right - 1));
        format!("rows {} to {}, columns {left} to {right}", self.top + 1, self.bottom)
    }
}

/// Cuts a tray into the fewest even tiles of at most `most` cells, row of tiles by row of tiles.
pub fn cut(g: Geometry, most: i64) -> Vec<Tile> {
    let part = |whole: i64, parts: i64| (whole + parts - 1) / parts;
    let ways = (1..=g.rows).flat_map(|down| (1..=g.cols).map(move |across| (down, across)));
    let fits = ways.filter(|(d, a)| part(g.rows, *d) * part(g.cols, *a) <= most);
    let unlike = |(d, a): (i64, i64)| (part(g.rows, d) - part(g.cols, a)).abs();
    let (down, across) = fits.min_by_key(|w| (w.0 * w.1, unlike(*w))).unwrap_or((g.rows, g.cols));
    let (high, broad) = (part(g.rows, down), part(g.cols, across));
    let starts = |whole: i64, step: i64| (0..whole).step_by(usize::try_from(step).unwrap_or(1));
    starts(g.rows, high)
        .flat_map(|top| starts(g.cols, broad).map(move |left| (top, left)))
        .map(|(top, left)| Tile {
            top,
            bottom: (top + high).min(g.rows),
            left,
            right: (left + broad).min(g.cols),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tiles_cover_every_cell_once() {
        for (rows, cols, pages) in [(16, 8, 1), (20, 10, 2), (24, 12, 3), (28, 14, 4), (32, 16, 4)] {
            let tiles = cut(Geometry { rows, cols }, 128);
            assert_eq!(tiles.len(), pages, "{rows} x {cols}");
            for row in 0..rows {
                for col in 0..cols {
                    assert_eq!(tiles.iter().filter(|t| t.holds((row, col))).count(), 1);
                }
            }
            assert!(tiles.iter().all(|t| t.rows() * t.cols() <= 128));
        }
    }
}
