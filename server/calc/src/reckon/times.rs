use super::bounds::whole;
use super::{Fault, Fields, number};
use crate::proportion::MAX_SEEDS;
use crate::timing::{LookFault, Looks, Measure};
use serde_json::{Map, Value, json};

/// `{sown, days, counts}`: the germination-time measures of one bag. Under `undefined` stands why a
/// measure is null.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let sown = whole(&fields, "sown", 1, MAX_SEEDS)?;
    let (days, counts) = (fields.numbers("days")?, fields.wholes("counts")?);
    let looks = Looks::new(sown, &days, &counts).map_err(|fault| in_words(fault, &fields))?;
    Ok(Value::Object(answer(&looks)))
}

/// Every measure of one bag by its key.
pub fn answer(looks: &Looks) -> Map<String, Value> {
    let mut out = Map::new();
    out.insert("germinated".into(), json!(looks.germinated()));
    out.insert("final_percent".into(), number(looks.final_percent()));
    out.insert("maguire_seeds_per_day".into(), number(looks.maguire()));
    out.insert("maguire_percent_per_day".into(), number(looks.maguire_percent()));
    let mut undefined = Map::new();
    for (name, measure) in measures(looks) {
        if let Err(why) = measure {
            undefined.insert(name.into(), json!(why.to_string()));
        }
        out.insert(name.into(), measure.map_or(Value::Null, number));
    }
    out.insert("undefined".into(), Value::Object(undefined));
    out
}

fn measures(looks: &Looks) -> [(&'static str, Measure); 12] {
    [
        ("mgt", looks.mean()),
        ("mgt_variance", looks.variance()),
        ("mgt_se", looks.standard_error()),
        ("cv_percent", looks.variation_percent()),
        ("t50_half", looks.t50_half()),
        ("t50_coolbear", looks.t50_coolbear()),
        ("first_day", looks.first()),
        ("last_day", looks.last()),
        ("kotowski", looks.kotowski()),
        ("synchrony_z", looks.synchrony()),
        ("uncertainty_bits", looks.uncertainty()),
        ("peak_percent_per_day", looks.peak_value()),
    ]
}

fn in_words(fault: LookFault, fields: &Fields) -> Fault {
    match fault {
        LookFault::NoSeeds => Fault::new(fields.at("sown"), "must be 1 or more"),
        LookFault::Lengths => Fault::new(fields.at("counts"), "must be as many as days"),
        LookFault::Time(i) => Fault::new(
            format!("{}[{i}]", fields.at("days")),
            "must be above 0, above the day before and at most 10^9",
        ),
        LookFault::TooMany => Fault::new(fields.at("counts"), "add up to more than were sown"),
    }
}
