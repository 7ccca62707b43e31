use super::bounds::unknown_kind;
use super::{Fault, Fields, number};
use crate::dilution::{Mix, Refusal, Strength, add_stock, dilute, powder_mg, strength};
use crate::units::{DROPS_PER_ML, TEASPOON_ML, UNITS, Unit, convert, unit};
use serde_json::{Value, json};

const KINDS: &str = "dilute_to_volume, add_stock_to_water, final_strength, ratio, powder, convert";

/// Below it a powder is no powder of the substance, in percent.
const LEAST_PURITY: f64 = 1e-6;

/// `{kind, ...}` with amounts as numbers or decimal text: solution amounts and household units.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    match fields.text("kind")? {
        "dilute_to_volume" => to_volume(&fields),
        "add_stock_to_water" => to_water(&fields),
        "final_strength" => final_strength(&fields),
        "ratio" => ratio(&fields),
        "powder" => powder(&fields),
        "convert" => conversion(&fields),
        other => Err(unknown_kind(&fields, other, KINDS)),
    }
}

fn to_volume(fields: &Fields) -> Result<Value, Fault> {
    let mix = dilute(percent(fields, "stock")?, percent(fields, "wanted")?, ml(fields, "volume", "unit")?);
    Ok(answer(
        mix,
        &["stock_ml", "diluent_ml", "stock_tsp_us", "stock_drops", "parts_diluent_per_part_stock"],
        |m| {
            let drops = number(m.stock_ml * DROPS_PER_ML);
            vec![number(m.stock_ml), number(m.diluent_ml), teaspoons(m), drops, parts(m)]
        },
    ))
}

fn to_water(fields: &Fields) -> Result<Value, Fault> {
    let mix = add_stock(percent(fields, "stock")?, percent(fields, "wanted")?, ml(fields, "water", "unit")?);
    Ok(answer(mix, &["stock_ml", "total_ml", "stock_tsp_us"], |m| {
        vec![number(m.stock_ml), number(m.total_ml()), teaspoons(m)]
    }))
}

fn final_strength(fields: &Fields) -> Result<Value, Fault> {
    let stock = ml(fields, "stock_amount", "stock_unit")?;
    Ok(strong(strength(percent(fields, "stock")?, stock, ml(fields, "water", "water_unit")?)))
}

fn ratio(fields: &Fields) -> Result<Value, Fault> {
    let parts = |name| amount(fields, name, 1e9);
    Ok(strong(strength(percent(fields, "stock")?, parts("parts_stock")?, parts("parts_water")?)))
}

fn powder(fields: &Fields) -> Result<Value, Fault> {
    let ppm = amount(fields, "ppm", 1e6)?;
    let purity =
        if fields.maybe("purity_percent").is_some() { percent(fields, "purity_percent")? } else { 100.0 };
    if purity > 0.0 && purity < LEAST_PURITY {
        return Err(Fault::new(fields.at("purity_percent"), format!("must be 0 or at least {LEAST_PURITY}")));
    }
    let mg = powder_mg(ppm, ml(fields, "volume", "unit")?, purity);
    Ok(answer(mg, &["mg"], |mg| vec![number(*mg)]))
}

fn conversion(fields: &Fields) -> Result<Value, Fault> {
    let value = convert(amount(fields, "amount", 1e12)?, measure(fields, "from")?, measure(fields, "to")?);
    Ok(json!({ "value": number(value) }))
}

fn strong(strength: Result<Strength, Refusal>) -> Value {
    answer(strength, &["strength", "dilution_factor"], |s| vec![number(s.percent), json!(s.factor)])
}

fn teaspoons(mix: &Mix) -> Value {
    number(mix.stock_ml / TEASPOON_ML)
}

fn parts(mix: &Mix) -> Value {
    json!(mix.parts_diluent())
}

/// The keys with their values, or all null with the status and the reason.
fn answer<T>(result: Result<T, Refusal>, keys: &[&str], values: impl Fn(&T) -> Vec<Value>) -> Value {
    let (status, values) = match &result {
        Ok(found) => ("ok", values(found)),
        Err(refusal) => (refusal.status(), vec![Value::Null; keys.len()]),
    };
    let mut out: Value =
        keys.iter().map(|key| (*key).to_owned()).zip(values).collect::<serde_json::Map<_, _>>().into();
    out["status"] = json!(status);
    if let Err(refusal) = result {
        out["reason"] = json!(refusal.reason());
    }
    out
}

fn amount(fields: &Fields, name: &str, most: f64) -> Result<f64, Fault> {
    let x = fields.number(name)?;
    if x < 0.0 {
        Err(Fault::new(fields.at(name), "must be 0 or more"))
    } else if x > most {
        Err(Fault::new(fields.at(name), format!("must be at most {most}")))
    } else {
        Ok(x)
    }
}

fn percent(fields: &Fields, name: &str) -> Result<f64, Fault> {
    amount(fields, name, 100.0)
}

fn ml(fields: &Fields, amount_name: &str, unit_name: &str) -> Result<f64, Fault> {
    Ok(amount(fields, amount_name, 1e9)? * measure(fields, unit_name)?.ml)
}

fn measure(fields: &Fields, name: &str) -> Result<&'static Unit, Fault> {
    let text = fields.text(name)?;
    unit(text).ok_or_else(|| {
        let known: Vec<&str> = UNITS.iter().map(|u| u.name).collect();
        Fault::new(fields.at(name), format!("there is no measure '{text}'; there are: {}", known.join(", ")))
    })
}
