/// Where the names of a row lead.
#[derive(Debug, Clone)]
pub struct Links {
    pub variety: String,
    pub source: String,
}

impl Links {
    /// Of (kind, variety, source); the pages they lead to count by the same day.
    pub fn of((kind, variety, source): (&str, &str, &str), at_close: bool) -> Self {
        let at: &[(&str, &str)] = if at_close { &[("at", "close")] } else { &[] };
        let variety = [&[("kind", kind), ("variety", variety)], at].concat();
        let source = [&[("source", source)], at].concat();
        Self { variety: address("/table/variety", &variety), source: address("/table/source", &source) }
    }
}

fn address(path: &str, pairs: &[(&str, &str)]) -> String {
    serde_html_form::to_string(pairs).map_or_else(|_| path.to_owned(), |query| format!("{path}?{query}"))
}
