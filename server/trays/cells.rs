//! Cells of a tray: their names, and which of them a planting takes. Cells count from 1, row by row.

use std::collections::BTreeMap;

/// Rows and columns of a tray.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Geometry {
    pub rows: i64,
    pub cols: i64,
}

/// The most rows or columns a tray may have.
pub const LONGEST: i64 = 60;

impl Geometry {
    /// How many cells there are.
    pub fn cells(self) -> i64 {
        self.rows * self.cols
    }

    /// Row and column of `cell`, each from 0.
    pub fn at(self, cell: i64) -> (i64, i64) {
        ((cell - 1) / self.cols, (cell - 1) % self.cols)
    }

    /// The name of `cell`: letter of the column, number of the row, such as `B3`.
    pub fn name(self, cell: i64) -> String {
        let (row, col) = self.at(cell);
        format!("{}{}", letters(col), row + 1)
    }

    /// The cell that was typed: `B3`, `3b`, or its number counted row by row.
    pub fn read(self, typed: &str) -> Option<i64> {
        let plain: String = typed.chars().filter(|c| !c.is_whitespace()).collect::<String>().to_uppercase();
        let digits: String = plain.chars().filter(char::is_ascii_digit).collect();
        let column: String = plain.chars().filter(char::is_ascii_uppercase).collect();
        let in_order = plain == format!("{column}{digits}") || plain == format!("{digits}{column}");
        let number: i64 = digits.parse().ok().filter(|_| in_order)?;
        if column.is_empty() {
            return (1..=self.cells()).contains(&number).then_some(number);
        }
        let col = (0..self.cols).find(|c| letters(*c) == column)?;
        (1..=self.rows).contains(&number).then(|| (number - 1) * self.cols + col + 1)
    }

    /// `cells` in words, in their order: `B3 to E3, A5`; long lists say how many, from which to which.
    pub fn words(self, cells: &[i64]) -> String {
        let mut runs: Vec<(i64, i64)> = Vec::new();
        for cell in cells {
            match runs.last_mut() {
                Some((_, last)) if *last + 1 == *cell => *last = *cell,
                _ => runs.push((*cell, *cell)),
            }
        }
        if let (Some((first, _)), Some((_, last)), 5..) = (runs.first(), runs.last(), runs.len()) {
            let (first, last) = (self.name(*first), self.name(*last));
            return t!("trays-cells-between", n = cells.len(), first = first, last = last);
        }
        let said = runs.iter().map(|(first, last)| match (self.name(*first), self.name(*last)) {
            (first, last) if first == last => first,
            (first, last) => t!("trays-cells-from-to", first = first, last = last),
        });
        said.collect::<Vec<_>>().join(", ")
    }
}

/// A, B ... Z, AA, AB ... for columns from 0.
pub fn letters(col: i64) -> String {
    let one = char::from(b'A' + u8::try_from(col % 26).unwrap_or(0));
    if col < 26 { one.to_string() } else { format!("{}{one}", letters(col / 26 - 1)) }
}

/// Why cells could not be chosen.
#[derive(Debug, PartialEq, Eq)]
pub enum Unfit {
    /// The cell that was asked for holds this planting.
    Taken(String),
    /// Only so many cells are there.
    Short(usize),
}

/// Which cells `want` cells of planting take: the next free ones, from `from` on where it is given. The cell
/// asked for must be free; the ones after it skip what is taken. With `over` every cell counts as free.
pub fn choose(
    total: i64,
    taken: &BTreeMap<i64, String>,
    from: Option<i64>,
    want: usize,
    over: bool,
) -> Result<Vec<i64>, Unfit> {
    if let Some(holds) = from.and_then(|cell| taken.get(&cell)).filter(|_| !over) {
        return Err(Unfit::Taken(holds.clone()));
    }
    let free = (from.unwrap_or(1)..=total).filter(|c| over || !taken.contains_key(c));
    let cells: Vec<i64> = free.take(want).collect();
    if cells.len() < want { Err(Unfit::Short(cells.len())) } else { Ok(cells) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TRAY: Geometry = Geometry { rows: 12, cols: 6 };

    #[test]
    fn cells_are_named_and_read_back() {
        assert_eq!((TRAY.name(1), TRAY.name(6), TRAY.name(7)), ("A1".into(), "F1".into(), "A2".into()));
        for cell in 1..=TRAY.cells() {
            assert_eq!(TRAY.read(&TRAY.name(cell)), Some(cell));
        }
        assert_eq!(TRAY.read(" 3 b"), TRAY.read("B3"));
        assert_eq!(TRAY.read("72"), Some(72));
        for bad in ["", "0", "73", "G1", "A13", "B3C", "1A1", "--", "99999999999999999999"] {
            assert_eq!(TRAY.read(bad), None, "{bad}");
        }
        let wide = Geometry { rows: 2, cols: 60 };
        assert_eq!((wide.name(27), wide.name(60)), ("AA1".into(), "BH1".into()));
        assert_eq!(wide.read("bh2"), Some(120));
    }

    #[test]
    fn runs_of_cells_are_said_as_runs() {
        assert_eq!(TRAY.words(&[2, 3, 4]), "B1 to D1");
        assert_eq!(TRAY.words(&[6, 7, 9]), "F1 to A2, C2");
        assert_eq!(TRAY.words(&[1, 3, 5, 7, 9]), "5 cells between A1 and C2");
    }

    #[test]
    fn only_a_cell_that_was_asked_for_must_be_free() {
        let taken = BTreeMap::from([(1, "one".to_owned()), (3, "three".to_owned())]);
        assert_eq!(choose(6, &taken, None, 2, false), Ok(vec![2, 4]));
        assert_eq!(choose(6, &taken, Some(4), 2, false), Ok(vec![4, 5]));
        assert_eq!(choose(6, &taken, Some(3), 1, false), Err(Unfit::Taken("three".into())));
        assert_eq!(choose(6, &taken, Some(3), 2, true), Ok(vec![3, 4]));
        assert_eq!(choose(6, &taken, Some(5), 3, false), Err(Unfit::Short(2)));
    }
}
