use super::form::FoundForm;
use axum::http::{HeaderMap, StatusCode};
use scraper::{ElementRef, Html, Selector};

/// An answer, after redirects.
pub struct Page {
    pub path: String,
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub body: String,
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
        FoundForm::on(&self.body, action)
            .unwrap_or_else(|| panic!("no form '{action}' on {} ({}): {}", self.path, self.status, self.body))
    }
}
