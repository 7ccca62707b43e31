use axum::extract::Request;
use axum::http::HeaderMap;
use axum::http::header::ACCEPT_LANGUAGE;
use axum::middleware::Next;
use axum::response::Response;
use std::cell::Cell;

/// A language that pages are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Language {
    English,
    German,
}

impl Language {
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// As HTML and browsers name it (BCP 47).
    pub fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// As its speakers name it.
    pub fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
        }
    }

    pub fn of_tag(tag: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|language| language.tag() == tag)
    }

    /// What the browser asks for (RFC 9110, section 12.5.4); English where it asks for none of ours.
    fn asked(headers: &HeaderMap) -> Self {
        let lines = headers.get_all(ACCEPT_LANGUAGE).iter().filter_map(|v| v.to_str().ok());
        let wishes = lines.flat_map(|line| line.split(',')).filter_map(wish);
        // of two wishes alike the first
        let best = wishes.reduce(|best, wish| if wish.1 > best.1 { wish } else { best });
        best.map_or(Self::English, |(language, _)| language)
    }
}

/// `de-CH;q=0.8`: a language of ours, and how much it is wanted.
fn wish(range: &str) -> Option<(Language, f32)> {
    let (range, weight) = range.split_once(";q=").unwrap_or((range, "1"));
    let primary = range.trim().split('-').next().unwrap_or_default().to_ascii_lowercase();
    let weight: f32 = weight.trim().parse().ok().filter(|weight| *weight > 0.0)?;
    Some((Language::of_tag(&primary)?, weight))
}

tokio::task_local! {
    static SPOKEN: Cell<Language>;
}

/// The language of the request that is being answered; English outside of one.
pub fn spoken() -> Language {
    SPOKEN.try_with(Cell::get).unwrap_or(Language::English)
}

/// From here on the request is answered in this language.
pub fn speak(language: Language) {
    let _ = SPOKEN.try_with(|spoken| spoken.set(language));
}

/// The same, for whoever chose the language with this tag; without one it stays as it is.
pub fn speak_as(tag: &str) {
    Language::of_tag(tag).into_iter().for_each(speak);
}

/// The same, where none is chosen as their browser asks.
pub fn speak_to(tag: &str, headers: &HeaderMap) {
    speak(Language::of_tag(tag).unwrap_or_else(|| Language::asked(headers)));
}

/// What the work gives in this language, whatever the request's.
pub fn speaking<T>(language: Language, work: impl FnOnce() -> T) -> T {
    SPOKEN.sync_scope(Cell::new(language), work)
}

/// Work for another thread or task, which speaks as this one does.
pub fn same<T>(work: impl FnOnce() -> T) -> impl FnOnce() -> T {
    let language = spoken();
    move || speaking(language, work)
}

/// Answers in the language that the browser asks for, until it is known who asks.
pub async fn listen(request: Request, next: Next) -> Response {
    let language = Language::asked(request.headers());
    SPOKEN.scope(Cell::new(language), next.run(request)).await
}

/// Answers in English: what programs read does not depend on who asks.
pub async fn in_english(request: Request, next: Next) -> Response {
    SPOKEN.scope(Cell::new(Language::English), next.run(request)).await
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(header: &str) -> Language {
        Language::asked(&HeaderMap::from_iter([(ACCEPT_LANGUAGE, header.parse().unwrap())]))
    }

    #[test]
    fn the_language_wanted_most_is_spoken() {
        assert_eq!(asked("de-CH, de;q=0.9, en;q=0.8"), Language::German);
        assert_eq!(asked("fr, en;q=0.5, DE;q=0.7"), Language::German);
        assert_eq!(asked("en-GB, de"), Language::English);
        assert_eq!(asked("fr, de;q=0, *;q=0.1"), Language::English);
        assert_eq!(asked("de;q=x"), Language::English);
        assert_eq!(Language::asked(&HeaderMap::new()), Language::English);
    }

    #[tokio::test]
    async fn another_thread_speaks_the_same() {
        let there = SPOKEN.scope(Cell::new(Language::English), async {
            speak(Language::German);
            tokio::task::spawn_blocking(same(spoken)).await.unwrap()
        });
        assert_eq!((there.await, spoken()), (Language::German, Language::English));
    }
}
