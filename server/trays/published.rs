//! The published tray geometries and outer sizes, as they stand in the files beside this one.

use crate::trays::cells::Geometry;
use std::sync::LazyLock;

const TRAYS: &str = include_str!("published/plug_trays.csv");
const SIZES: &str = include_str!("published/tray_outer_sizes.csv");

/// A published grid of cells. The long side runs down, so that a phone has few columns to show.
#[derive(Debug, Clone)]
pub struct Published {
    pub geometry: Geometry,
    pub origin: Origin,
}

/// A published outer size, as printed in its source.
#[derive(Debug, Clone)]
pub struct Size {
    pub name: String,
    pub size: String,
    pub origin: Origin,
}

/// Where a size was found, and how that is known.
#[derive(Debug, Clone)]
pub struct Origin {
    source: String,
    known: String,
}

/// Every published tray that is a plain grid (offset rows are not).
pub static GRIDS: LazyLock<Vec<Published>> = LazyLock::new(|| rows(TRAYS).iter().filter_map(grid).collect());

pub static OUTER: LazyLock<Vec<Size>> = LazyLock::new(|| {
    let size = |r: &csv::StringRecord| Size {
        name: r[0].to_owned(),
        size: r[1].to_owned(),
        origin: origin(&r[2], &r[3]),
    };
    rows(SIZES).iter().map(size).collect()
});

fn rows(text: &str) -> Vec<csv::StringRecord> {
    csv::Reader::from_reader(text.as_bytes()).records().filter_map(Result::ok).collect()
}

fn grid(r: &csv::StringRecord) -> Option<Published> {
    let (cells, cols, rows): (i64, i64, i64) = (r[0].parse().ok()?, r[1].parse().ok()?, r[2].parse().ok()?);
    let geometry = Geometry { rows, cols };
    (geometry.cells() == cells).then(|| Published { geometry, origin: origin(&r[5], &r[6]) })
}

fn origin(source: &str, known: &str) -> Origin {
    Origin { source: source.to_owned(), known: known.to_owned() }
}

impl Origin {
    pub fn words(&self) -> String {
        let source = match self.source.as_str() {
            "common layouts" => t!("trays-common-layouts"),
            "grower supply catalogue pages" => t!("trays-grower-supply-catalogues"),
            "catalogue" => t!("trays-catalogue"),
            "catalogue/trade" => t!("trays-catalogue-and-trade"),
            own => own,
        };
        match self.known.as_str() {
            "fetched" => source.to_owned(),
            "memory" => t!("trays-from-memory", source = source),
            other => format!("{source}, {other}"),
        }
    }
}

impl Published {
    /// What the form sends: rows and columns.
    pub fn value(&self) -> String {
        format!("{}x{}", self.geometry.rows, self.geometry.cols)
    }

    /// `72 cells: 6 across, 12 down`
    pub fn words(&self) -> String {
        let g = self.geometry;
        t!("trays-grid", n = g.cells(), across = g.cols, down = g.rows)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_plain_grid_of_the_table_is_offered() {
        assert_eq!(GRIDS.len(), 17, "18 lines, one of them with offset rows");
        let big = GRIDS.iter().find(|p| p.geometry.cells() == 128).unwrap();
        assert_eq!((big.geometry.cols, big.geometry.rows), (8, 16));
        assert_eq!(OUTER.len(), 5);
    }

    #[test]
    fn the_copies_are_the_reference_files() {
        assert_eq!(TRAYS, include_str!("../../tests/reference/standards/plug_trays.csv"));
        assert_eq!(SIZES, include_str!("../../tests/reference/standards/tray_outer_sizes.csv"));
    }
}
