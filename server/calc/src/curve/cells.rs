use super::Interval;

/// Seeds whose interval covers the cells `from..to`; `weight` is their share of all seeds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub from: usize,
    pub to: usize,
    pub weight: f64,
}

/// The looks reduced to innermost stretches ("cells"): only these can carry mass.
#[derive(Debug, Clone)]
pub(super) struct Problem {
    pub cells: Vec<(f64, Option<f64>)>,
    pub rows: Vec<Row>,
    /// Every finite end point once, in order.
    pub ends: Vec<f64>,
    pub seeds: f64,
}

impl Problem {
    pub(super) fn of(rows: &[Interval]) -> Self {
        let sound: Vec<&Interval> = rows.iter().filter(|row| row.is_sound()).collect();
        let cells = innermost(&sound);
        let mut covers: Vec<Row> = sound.iter().map(|row| cover(&cells, row)).collect();
        covers.sort_by(|a, b| (a.from, a.to).cmp(&(b.from, b.to)).then(a.weight.total_cmp(&b.weight)));
        let seeds: f64 = covers.iter().map(|row| row.weight).sum();
        let mut merged: Vec<Row> = Vec::new();
        for row in covers {
            match merged.last_mut().filter(|last| (last.from, last.to) == (row.from, row.to)) {
                Some(last) => last.weight += row.weight,
                None => merged.push(row),
            }
        }
        merged.iter_mut().for_each(|row| row.weight /= seeds);
        let mut ends: Vec<f64> = sound.iter().flat_map(|row| [Some(row.l), row.r]).flatten().collect();
        ends.sort_by(f64::total_cmp);
        ends.dedup();
        Self { cells, rows: merged, ends, seeds }
    }
}

/// (after, upto] with a left end at `after`, a right end at `upto` and no end between.
fn innermost(rows: &[&Interval]) -> Vec<(f64, Option<f64>)> {
    let mut ends: Vec<(f64, bool)> =
        rows.iter().flat_map(|row| [(row.r.unwrap_or(f64::INFINITY), false), (row.l, true)]).collect();
    ends.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let inner = |pair: &[(f64, bool)]| match pair {
        [(l, true), (r, false)] => Some((*l, r.is_finite().then_some(*r))),
        _ => None,
    };
    ends.windows(2).filter_map(inner).collect()
}

fn cover(cells: &[(f64, Option<f64>)], row: &Interval) -> Row {
    let from = cells.partition_point(|c| c.0 < row.l);
    let to = match row.r {
        None => cells.len(),
        Some(r) => cells.partition_point(|c| c.1.is_some_and(|upto| upto <= r)),
    };
    Row { from, to, weight: row.count }
}
