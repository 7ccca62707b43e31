use axum::http::{HeaderMap, StatusCode};
use scraper::{ElementRef, Html, Selector};

/// An answer, after redirects.
pub struct Page {
    pub path: String,
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub body: String,
}

/// A form as a browser would send it untouched.
pub struct FoundForm {
    pub action: String,
    pub method: String,
    pairs: Vec<(String, String)>,
    names: Vec<String>,
}

impl Page {
    pub fn new(path: String, status: StatusCode, headers: HeaderMap, body: String) -> Self {
        Self { path, status, headers, body }
    }

    pub fn html(&self) -> Html {
        Html::parse_document(&self.body)
    }

    /// The text of the page, with single spaces.
    pub fn text(&self) -> String {
        let html = self.html();
        let text: Vec<&str> = html.root_element().text().flat_map(str::split_whitespace).collect();
        text.join(" ")
    }

    /// Panics unless `text` stands on the page and the status is 200.
    #[track_caller]
    pub fn says(&self, text: &str) -> &Self {
        assert_eq!(self.status, StatusCode::OK, "{}: {}", self.path, self.text());
        assert!(self.text().contains(text), "'{text}' is not on {}: {}", self.path, self.text());
        self
    }

    #[track_caller]
    pub fn says_not(&self, text: &str) -> &Self {
        assert!(!self.text().contains(text), "'{text}' is on {}: {}", self.path, self.text());
        self
    }

    /// Panics unless the page came back as 422 with `error` beside field `name`.
    #[track_caller]
    pub fn refuses(&self, name: &str, error: &str) -> &Self {
        assert_eq!(self.status, StatusCode::UNPROCESSABLE_ENTITY, "{}: {}", self.path, self.text());
        let beside = self.all(&format!("#f-{name}-error")).join(" ");
        assert!(beside.contains(error), "error of {name} is '{beside}', not '{error}': {}", self.text());
        self
    }

    /// The text of every element that `selector` finds.
    pub fn all(&self, selector: &str) -> Vec<String> {
        let selector = Selector::parse(selector).unwrap();
        let words = |e: ElementRef| e.text().flat_map(str::split_whitespace).collect::<Vec<_>>().join(" ");
        self.html().select(&selector).map(words).collect()
    }

    /// The address of the first link that reads `words` (or contains it).
    #[track_caller]
    pub fn link(&self, words: &str) -> String {
        let html = self.html();
        let selector = Selector::parse("a[href]").unwrap();
        let found = html.select(&selector).find(|a| a.text().collect::<String>().contains(words));
        let found = found.unwrap_or_else(|| panic!("no link '{words}' on {}: {}", self.path, self.text()));
        found.value().attr("href").unwrap().to_owned()
    }

    /// The form with this action.
    #[track_caller]
    pub fn form(&self, action: &str) -> FoundForm {
        let html = self.html();
        let selector = Selector::parse("form").unwrap();
        let found = html.select(&selector).find(|f| f.value().attr("action").unwrap_or_default() == action);
        let form = found.unwrap_or_else(|| {
            panic!("no form '{action}' on {} ({}): {}", self.path, self.status, self.body)
        });
        FoundForm::read(form)
    }
}

impl FoundForm {
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
        for field in form.select(&Selector::parse("input, textarea, select").unwrap()) {
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
