use super::{Fault, Fields, number};
use crate::curve::{Band, Curve, Interval, Point, Support};
use serde_json::{Value, json};

/// `rows` of {l, r, count}: the curve without an assumed form.
pub fn curve(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let rows = fields.rows("rows")?;
    let rows: Vec<Interval> = rows.iter().map(interval).collect::<Result<_, _>>()?;
    if !rows.iter().any(Interval::is_sound) {
        return Err(Fault::new("rows", "must hold at least one seed"));
    }
    let curve = Curve::fit(&rows);
    let support = |s: &Support| json!({ "after": s.after, "upto": s.upto, "mass": number(s.mass) });
    let point = |p: &Point| json!({ "t": p.t, "F": number(p.share) });
    let band =
        |b: &Band| json!({ "t": b.t, "se": b.se.map(number), "low": number(b.low), "high": number(b.high) });
    Ok(json!({
        "loglik": number(curve.loglik()),
        "support": curve.support().iter().map(support).collect::<Vec<_>>(),
        "curve": curve.points().iter().map(point).collect::<Vec<_>>(),
        "masses_unique": true,
        "median_of_rooting": curve.median_of_rooting().map(|m| json!({ "low": m.low, "high": m.high, "mid": number(m.mid) })),
        "band": curve.band(fields.conf()?).iter().map(band).collect::<Vec<_>>(),
        "gap": number(curve.gap()),
    }))
}

/// The latest time taken, in any unit.
pub(super) const LATEST: f64 = 1e9;

/// One row {l, r, count}; `r` missing or null: not rooted when last seen at `l`.
pub(super) fn interval(row: &Fields) -> Result<Interval, Fault> {
    let l = row.number("l")?;
    if !(0.0..=LATEST).contains(&l) {
        return Err(Fault::new(row.at("l"), "must be 0 to 10^9"));
    }
    let r = row.maybe("r").map(|_| row.number("r")).transpose()?;
    if r.is_some_and(|r| r <= l) {
        return Err(Fault::new(row.at("r"), "must be later than l"));
    }
    if r.is_some_and(|r| !(1e-9..=LATEST).contains(&r)) {
        return Err(Fault::new(row.at("r"), "must be 10^-9 to 10^9"));
    }
    Ok(Interval { l, r, count: row.whole("count")? as f64 })
}
