use serde_json::{Map, Value};

/// What is wrong with an input, and in which field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The field, as a path such as `rows[3].n`.
    pub field: String,
    /// The fault in plain words.
    pub error: String,
}

impl Fault {
    /// A fault of `field`, said in plain words.
    pub fn new(field: impl Into<String>, error: impl Into<String>) -> Self {
        Self { field: field.into(), error: error.into() }
    }

    /// The JSON that the command prints.
    pub fn json(&self) -> Value {
        serde_json::json!({ "error": self.error, "field": self.field })
    }
}

/// Reads typed fields of one JSON object; every fault names the field by its path.
pub struct Fields<'a> {
    map: &'a Map<String, Value>,
    path: String,
}

impl<'a> Fields<'a> {
    /// The fields of `value`, which must be an object; `path` is empty at the top.
    pub fn of(value: &'a Value, path: impl Into<String>) -> Result<Self, Fault> {
        let path = path.into();
        match value {
            Value::Object(map) => Ok(Self { map, path }),
            _ if path.is_empty() => Err(Fault::new("input", "must be an object")),
            _ => Err(Fault::new(path, "must be an object")),
        }
    }

    /// The full path of field `name`.
    pub fn at(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// The raw value; missing and `null` are both `None`.
    pub fn maybe(&self, name: &str) -> Option<&'a Value> {
        self.map.get(name).filter(|v| !v.is_null())
    }

    fn must(&self, name: &str) -> Result<&'a Value, Fault> {
        self.maybe(name).ok_or_else(|| Fault::new(self.at(name), "is missing"))
    }

    /// A finite number. A number written as text ("0.5") is taken too.
    pub fn number(&self, name: &str) -> Result<f64, Fault> {
        finite(self.must(name)?, || self.at(name))
    }

    /// A finite number, or `default` where the field is missing.
    pub fn number_or(&self, name: &str, default: f64) -> Result<f64, Fault> {
        self.maybe(name).map_or(Ok(default), |v| finite(v, || self.at(name)))
    }

    /// A whole number, 0 or more, up to 10^12.
    pub fn whole(&self, name: &str) -> Result<u64, Fault> {
        whole(self.must(name)?, || self.at(name))
    }

    /// Text.
    pub fn text(&self, name: &str) -> Result<&'a str, Fault> {
        self.must(name)?.as_str().ok_or_else(|| Fault::new(self.at(name), "must be text"))
    }

    /// A list.
    pub fn list(&self, name: &str) -> Result<&'a [Value], Fault> {
        self.must(name)?
            .as_array()
            .map(Vec::as_slice)
            .ok_or_else(|| Fault::new(self.at(name), "must be a list"))
    }

    /// A list of finite numbers.
    pub fn numbers(&self, name: &str) -> Result<Vec<f64>, Fault> {
        let item = |(i, v)| finite(v, || format!("{}[{i}]", self.at(name)));
        self.list(name)?.iter().enumerate().map(item).collect()
    }

    /// A list of whole numbers.
    pub fn wholes(&self, name: &str) -> Result<Vec<u64>, Fault> {
        let item = |(i, v)| whole(v, || format!("{}[{i}]", self.at(name)));
        self.list(name)?.iter().enumerate().map(item).collect()
    }

    /// A list of objects, each as [`Fields`] that know their place.
    pub fn rows(&self, name: &str) -> Result<Vec<Fields<'a>>, Fault> {
        let item = |(i, v)| Fields::of(v, format!("{}[{i}]", self.at(name)));
        self.list(name)?.iter().enumerate().map(item).collect()
    }

    /// The confidence level `conf`, 0.95 where missing; strictly between 0 and 1.
    pub fn conf(&self) -> Result<f64, Fault> {
        let conf = self.number_or("conf", 0.95)?;
        if conf > 0.0 && conf < 1.0 {
            Ok(conf)
        } else {
            Err(Fault::new(self.at("conf"), "must lie strictly between 0 and 1"))
        }
    }
}

fn finite(value: &Value, path: impl Fn() -> String) -> Result<f64, Fault> {
    let x = match value {
        Value::Number(n) => n.as_f64(),
        Value::String(s) => s.trim().parse().ok(),
        _ => None,
    };
    x.filter(|x| x.is_finite()).ok_or_else(|| Fault::new(path(), "must be a number"))
}

fn whole(value: &Value, path: impl Fn() -> String) -> Result<u64, Fault> {
    let x = finite(value, &path)?;
    if x.fract() == 0.0 && (0.0..=1e12).contains(&x) {
        Ok(x as u64)
    } else {
        Err(Fault::new(path(), "must be a whole number, 0 or more"))
    }
}
