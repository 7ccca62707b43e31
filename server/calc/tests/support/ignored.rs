use serde_json::Value;

/// Whether `key` of this case is not compared.
pub fn ignored(case: &Value, key: &str) -> bool {
    let lists = [&case["ignore"], &case["tolerance"]["ignore"]];
    lists.iter().any(|l| l.as_array().is_some_and(|l| l.iter().any(|k| k == key)))
}
