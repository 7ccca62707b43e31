use scraper::{ElementRef, Html, Selector};

/// A form as a browser would send it untouched.
pub struct FoundForm {
    pub action: String,
    pub method: String,
    pairs: Vec<(String, String)>,
    names: Vec<String>,
}

impl FoundForm {
    /// The first form of this action on a page.
    pub fn on(page: &str, action: &str) -> Option<Self> {
        let html = Html::parse_document(page);
        let forms = Selector::parse("form").unwrap();
        let found = html.select(&forms).find(|f| f.value().attr("action").unwrap_or_default() == action);
        found.map(Self::read)
    }

    fn read(form: ElementRef) -> Self {
        let attr = |e: &ElementRef, name: &str| e.value().attr(name).unwrap_or_default().to_owned();
        let mut found = Self {
            action: attr(&form, "action"),
            method: attr(&form, "method").to_lowercase(),
            pairs: Vec::new(),
            names: Vec::new(),
        };
        if found.method.is_empty() {
            found.method = "get".into();
        }
        for field in form.select(&Selector::parse("input, textarea, select, button").unwrap()) {
            let name = attr(&field, "name");
            if !name.is_empty() {
                found.names.push(name.clone());
                found.pairs.extend(value(&field).map(|v| (name, v)));
            }
        }
        found
    }

    /// The pairs to send, with `fields` filled in. A field that is not in the form is a mistake of the test.
    #[track_caller]
    pub fn filled(&self, fields: &[(&str, &str)]) -> Vec<(String, String)> {
        for (name, _) in fields {
            assert!(
                self.names.iter().any(|n| n == name),
                "no field '{name}' in the form; there are {:?}",
                self.names
            );
        }
        let untouched = self.pairs.iter().filter(|(n, _)| !fields.iter().any(|(name, _)| name == n)).cloned();
        untouched.chain(fields.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned()))).collect()
    }
}

fn value(field: &ElementRef) -> Option<String> {
    let e = field.value();
    match (e.name(), e.attr("type").unwrap_or_default()) {
        // a button counts only when it is pressed
        ("button", _) => None,
        ("textarea", _) => Some(field.text().collect()),
        ("select", _) => {
            let options: Vec<ElementRef> = field.select(&Selector::parse("option").unwrap()).collect();
            let chosen = options.iter().find(|o| o.value().attr("selected").is_some()).or(options.first())?;
            Some(chosen.value().attr("value").unwrap_or_default().to_owned())
        }
        (_, "checkbox" | "radio") if e.attr("checked").is_none() => None,
        _ => Some(e.attr("value").unwrap_or_default().to_owned()),
    }
}
