//! Household measures, and numbers rounded for display.

/// A measure of volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// The short name that forms and files use.
    pub name: &'static str,
    /// The name for people.
    pub label: &'static str,
    /// Millilitres in one.
    pub ml: f64,
}

const fn unit_of(name: &'static str, label: &'static str, ml: f64) -> Unit {
    Unit { name, label, ml }
}

/// US teaspoon: the US gallon is 231 cubic inches (NIST Handbook 44, appendix C), the inch 2.54 cm.
pub const TEASPOON_ML: f64 = 4.928_921_593_75;
/// Customary pharmacy value; a dropper gives 18 to 22 (USP 1101), so drops are approximate.
pub const DROPS_PER_ML: f64 = 20.0;

/// Every measure. The US ones follow from the gallon; the metric cup of 250 ml is from memory.
pub const UNITS: &[Unit] = &[
    unit_of("ml", "ml", 1.0),
    unit_of("l", "litre", 1000.0),
    unit_of("drop", "drop (20 to the ml)", 1.0 / DROPS_PER_ML),
    unit_of("tsp_us", "US teaspoon", TEASPOON_ML),
    unit_of("tbsp_us", "US tablespoon", 14.786_764_781_25),
    unit_of("floz_us", "US fluid ounce", 29.573_529_562_5),
    unit_of("fl_oz_us", "US fluid ounce", 29.573_529_562_5),
    unit_of("cup_us", "US cup", 236.588_236_5),
    unit_of("pint_us", "US pint", 473.176_473),
    unit_of("quart_us", "US quart", 946.352_946),
    unit_of("gal_us", "US gallon", 3_785.411_784),
    unit_of("tsp_metric", "metric teaspoon", 5.0),
    unit_of("tbsp_metric", "metric tablespoon", 15.0),
    unit_of("cup_metric", "metric cup", 250.0),
];

/// The measure called `name`.
pub fn unit(name: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|u| u.name == name)
}

/// `amount` of one measure in another.
pub fn convert(amount: f64, from: &Unit, to: &Unit) -> f64 {
    amount * from.ml / to.ml
}

/// a / b rounded half up, exactly; `b` above 0.
pub fn rounded_ratio(a: u64, b: u64) -> u64 {
    let (a, b) = (u128::from(a), u128::from(b.max(1)));
    ((2 * a + b) / (2 * b)) as u64
}

/// x of n in percent with `places` decimals (at most 9), rounded half up from the whole numbers
/// themselves: 1 of 8 with 0 places is "13"; `n` = 0 gives a dash.
pub fn percent(x: u64, n: u64, places: u32) -> String {
    if n == 0 {
        return "\u{2013}".to_owned();
    }
    let scale = 10_u128.pow(places.min(9));
    let (x, n) = (u128::from(x) * 100 * scale, u128::from(n));
    let units = (2 * x + n) / (2 * n);
    if places == 0 {
        units.to_string()
    } else {
        format!("{}.{:0width$}", units / scale, units % scale, width = places.min(9) as usize)
    }
}

/// `x` with `places` decimals, rounded half away from 0 on the digits a person would write for it:
/// 2.675 with 2 places is "2.68". Not finite gives a dash.
pub fn shown(x: f64, places: usize) -> String {
    if !x.is_finite() {
        return "\u{2013}".to_owned();
    }
    let written = format!("{}", x.abs());
    let (whole, part) = written.split_once('.').unwrap_or((&written, ""));
    let mut digits: Vec<u8> =
        whole.bytes().chain(part.bytes().chain(std::iter::repeat(b'0')).take(places)).collect();
    if part.as_bytes().get(places).is_some_and(|next| *next >= b'5') {
        carry(&mut digits);
    }
    let point = digits.len() - places;
    let text: String = digits.iter().map(|d| char::from(*d)).collect();
    let sign = if x < 0.0 && digits.iter().any(|d| *d != b'0') { "-" } else { "" };
    if places == 0 { format!("{sign}{text}") } else { format!("{sign}{}.{}", &text[..point], &text[point..]) }
}

fn carry(digits: &mut Vec<u8>) {
    for digit in digits.iter_mut().rev() {
        if *digit < b'9' {
            *digit += 1;
            return;
        }
        *digit = b'0';
    }
    digits.insert(0, b'1');
}

/// A volume in whole and eighth US teaspoons, the nearest a set of spoons measures: (4, 1) is 4 1/8.
pub fn teaspoons(ml: f64) -> (u64, u64) {
    let eighths = (ml.max(0.0) / TEASPOON_ML * 8.0).round() as u64;
    (eighths / 8, eighths % 8)
}
