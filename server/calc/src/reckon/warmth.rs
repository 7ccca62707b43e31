use super::bounds::{ends, maybe};
use super::{Fault, Fields};
use crate::thermal::{Line, Warmth};
use serde_json::{Value, json};

/// `T` in degrees C and `t50` in days: base temperature and thermal time.
pub fn warmth(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let (celsius, t50) = (fields.numbers("T")?, fields.numbers("t50")?);
    if celsius.len() != t50.len() {
        return Err(Fault::new("t50", "must have one value for each temperature"));
    }
    if let Some(i) = t50.iter().position(|t| !(1e-6..=1e6).contains(t)) {
        return Err(Fault::new(format!("t50[{i}]"), "must be above 0, to 10^6 days"));
    }
    if let Some(i) = celsius.iter().position(|t| t.abs() > 200.0) {
        return Err(Fault::new(format!("T[{i}]"), "must be -200 to 200 degrees C"));
    }
    let points: Vec<Warmth> =
        celsius.iter().zip(&t50).map(|(&celsius, &t50)| Warmth { celsius, t50 }).collect();
    let line = Line::fit(&points, fields.conf()?);
    let (base, thermal) = (line.base, line.thermal_time);
    Ok(json!({
        "status": line.status.name(),
        "n": line.n,
        "intercept": maybe(line.intercept),
        "slope": maybe(line.slope),
        "r_squared": maybe(line.r_squared),
        "residual_sd": maybe(line.errors.map(|e| e.residual_sd)),
        "se_intercept": maybe(line.errors.map(|e| e.se_intercept)),
        "se_slope": maybe(line.errors.map(|e| e.se_slope)),
        "t_quantile": maybe(line.errors.map(|e| e.t_quantile)),
        "base_temperature": maybe(base.map(|b| b.value)),
        "se_base_delta": maybe(base.and_then(|b| b.se)),
        "base_ci_delta": ends(base.and_then(|b| b.delta)),
        "base_ci_fieller": ends(base.and_then(|b| b.exact)),
        "thermal_time": maybe(thermal.map(|t| t.value)),
        "se_thermal_delta": maybe(thermal.and_then(|t| t.se)),
        "thermal_ci_delta": ends(thermal.and_then(|t| t.delta)),
        "thermal_ci_inverse_slope": ends(thermal.and_then(|t| t.exact)),
    }))
}
