use super::passwords;
use crate::db::ids::{At, LinkId, MemberId};
use crate::texts::Language;
use crate::web::forms::Form;
use chrono_tz::{TZ_VARIANTS, Tz};
use sqlx::FromRow;

/// What a member may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    Grower,
    Organiser,
}

impl Role {
    /// Values of a form's field and their words.
    pub fn choices() -> [(&'static str, &'static str); 2] {
        [("grower", t!("accounts-role-grower")), ("organiser", t!("accounts-role-organiser"))]
    }

    pub fn parse(form: &mut Form) -> Self {
        if form.one_of("role", &["grower", "organiser"]) == "organiser" {
            Self::Organiser
        } else {
            Self::Grower
        }
    }

    pub fn word(self) -> &'static str {
        match self {
            Self::Grower => "grower",
            Self::Organiser => "organiser",
        }
    }
}

/// `grower`, `organiser`.
pub fn role_words(role: &str) -> &'static str {
    if role == "organiser" { t!("accounts-organiser") } else { t!("accounts-grower") }
}

/// `a grower`, `an organiser`.
pub fn with_article(role: &str) -> &'static str {
    if role == "organiser" { t!("accounts-an-organiser") } else { t!("accounts-a-grower") }
}

/// The time zones that are offered: those named by a place, since others mislead (Etc/GMT+2 is two hours behind UTC).
pub fn time_zones() -> impl Iterator<Item = Tz> {
    let of_place = |zone: &Tz| zone.name().contains('/') && !zone.name().starts_with("Etc/");
    TZ_VARIANTS.into_iter().filter(of_place).chain([Tz::UTC])
}

/// The time zone that somebody may mean: its name in the IANA list, or the town that ends it where only one zone has it
/// (of Australia/Perth, `perth`); case and spaces do not matter.
pub fn time_zone(typed: &str) -> Option<Tz> {
    let typed = typed.trim().replace(' ', "_");
    let is = |name: &str| name.eq_ignore_ascii_case(&typed);
    if let Some(zone) = time_zones().find(|zone| is(zone.name())) {
        return Some(zone);
    }
    let mut of_town =
        time_zones().filter(|zone| zone.name().rsplit_once('/').is_some_and(|(_, town)| is(town)));
    of_town.next().filter(|_| of_town.next().is_none())
}

/// A one-time link that is still good; `name` and `sign_in` are those of the member it is for.
#[derive(Debug, Clone, FromRow)]
pub struct Link {
    pub id: LinkId,
    pub purpose: String,
    pub role: String,
    pub member_id: Option<MemberId>,
    pub name: Option<String>,
    pub sign_in: Option<String>,
}

/// A link by which somebody joined.
#[derive(Debug, Clone, FromRow)]
pub struct UsedLink {
    pub sign_in_key: String,
    pub name: String,
}

/// A link that could still be used, as organisers see it.
#[derive(Debug, Clone, FromRow)]
pub struct OpenLink {
    pub id: LinkId,
    pub purpose: String,
    pub role: String,
    pub expires_at: At,
    pub made_by: String,
    pub member: String,
}

/// Who wants to join, as typed and checked.
#[derive(Debug)]
pub struct NewMember {
    pub name: String,
    pub sign_in: String,
    pub letters: String,
    pub password: String,
    pub role: String,
}

impl NewMember {
    /// Reads a form for a member of `club`.
    pub fn parse(form: &mut Form, role: &str, club: &str) -> Self {
        let name = form.must_text("name", 80);
        let sign_in = form.must_text("sign_in", 60);
        let letters = letters(form);
        let password = passwords::new(form, "password", &[club, &sign_in, &name]);
        Self { name, sign_in, letters, password, role: role.to_owned() }
    }
}

/// What members change about themselves.
#[derive(Debug)]
pub struct Settings {
    pub name: String,
    pub measures: &'static str,
    /// Tag of a language; empty for the browser's.
    pub language: &'static str,
}

impl Settings {
    /// Values of the field `measures` and their words.
    pub fn measures() -> [(&'static str, &'static str); 2] {
        [("metric", t!("accounts-measures-metric")), ("us", t!("accounts-measures-us"))]
    }

    /// Values of the field `language` and their words.
    pub fn languages() -> [(&'static str, &'static str); 3] {
        let [one, other] = Language::ALL.map(|language| (language.tag(), language.name()));
        [("", t!("web-language-of-browser")), one, other]
    }

    /// The words of a way of measuring or of a language.
    pub fn words(value: &str) -> Option<String> {
        let mut all = Self::measures().into_iter().chain(Self::languages());
        all.find(|(v, _)| *v == value).map(|(_, words)| words.to_owned())
    }

    pub fn parse(form: &mut Form) -> Self {
        Self {
            name: form.must_text("name", 80),
            measures: form.one_of("measures", &["metric", "us"]),
            language: form.one_of("language", &Self::languages().map(|(tag, _)| tag)),
        }
    }
}

/// A token to be made for a member's own program.
#[derive(Debug)]
pub struct NewToken {
    pub name: String,
    /// `read` or `record`.
    pub may: &'static str,
    /// After how many days it ends by itself; `None` for never.
    pub days: Option<i64>,
}

impl NewToken {
    /// Values of the field `may` and their words.
    pub fn may() -> [(&'static str, &'static str); 2] {
        [("read", t!("accounts-token-may-read")), ("record", t!("accounts-token-may-record"))]
    }

    /// Values of the field `lasts`, in days, and their words.
    pub fn lasts() -> [(&'static str, &'static str); 4] {
        [
            ("30", t!("accounts-token-30-days")),
            ("90", t!("accounts-token-90-days")),
            ("365", t!("accounts-token-a-year")),
            ("", t!("accounts-token-until-ended")),
        ]
    }

    pub fn parse(form: &mut Form) -> Self {
        let name = form.must_text("name", 80);
        let may = form.one_of("may", &Self::may().map(|(value, _)| value));
        let lasts = form.one_of("lasts", &Self::lasts().map(|(value, _)| value));
        Self { name, may, days: lasts.parse().ok() }
    }
}

/// 1 to 4 letters A to Z, in upper case.
pub fn letters(form: &mut Form) -> String {
    let typed = form.must_text("letters", 60).to_uppercase();
    let letters = (1..=4).contains(&typed.len()) && typed.bytes().all(|b| b.is_ascii_uppercase());
    if !typed.is_empty() && !letters {
        form.refuse("letters", t!("accounts-letters-please"));
    }
    typed
}

/// The name by which people are told apart when they sign in.
pub fn sign_in_key(sign_in: &str) -> String {
    sign_in.trim().to_lowercase()
}

/// A browser as it is kept, by what it says of itself: `Firefox on Android`. Nothing more of that is kept.
pub fn device(agent: &str) -> String {
    const BROWSERS: [(&str, &str); 6] = [
        ("Edg", "Edge"),
        ("OPR/", "Opera"),
        ("Firefox/", "Firefox"),
        ("FxiOS/", "Firefox"),
        ("Chrome/", "Chrome"),
        ("Safari/", "Safari"),
    ];
    const SYSTEMS: [(&str, &str); 7] = [
        ("iPhone", "an iPhone"),
        ("iPad", "an iPad"),
        ("Android", "Android"),
        ("Windows", "Windows"),
        ("Macintosh", "a Mac"),
        ("CrOS", "ChromeOS"),
        ("Linux", "Linux"),
    ];
    let of =
        |list: &[(&str, &'static str)]| list.iter().find(|(sign, _)| agent.contains(sign)).map(|(_, w)| *w);
    match (of(&BROWSERS), of(&SYSTEMS)) {
        (Some(browser), Some(system)) => format!("{browser} on {system}"),
        (Some(one), None) | (None, Some(one)) => one.to_owned(),
        (None, None) => String::new(),
    }
}

/// The words of a browser that was kept as [`device`] tells it.
pub fn device_words(kept: &str) -> String {
    match kept.split_once(" on ") {
        Some((browser, system)) => {
            t!("accounts-browser-on", browser = browser, system = system_words(system))
        }
        None if kept.is_empty() => t!("accounts-a-browser").to_owned(),
        None => system_words(kept).to_owned(),
    }
}

fn system_words(kept: &str) -> &str {
    match kept {
        "an iPhone" => t!("accounts-an-iphone"),
        "an iPad" => t!("accounts-an-ipad"),
        "a Mac" => t!("accounts-a-mac"),
        name => name,
    }
}

/// A path of ours to go on to after signing in; anything else leads home.
pub fn safe_next(next: &str) -> &str {
    let inside = next.starts_with('/')
        && !next.starts_with("//")
        && !next.contains('\\')
        && !next.contains(char::is_control);
    if inside { next } else { "/" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_browser_is_told_in_words() {
        // as these browsers say of themselves; from memory
        for (agent, words) in [
            ("Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0", "Firefox on Android"),
            (
                "Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36",
                "Chrome on Linux",
            ),
            (
                "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Version/18.0 Safari/604.1",
                "Safari on an iPhone",
            ),
            ("curl/8.0", ""),
            ("", ""),
        ] {
            assert_eq!(device(agent), words, "{agent}");
        }
    }

    // names by the IANA time zone database
    #[test]
    fn a_time_zone_is_found_by_its_name_or_its_town() {
        for typed in ["Europe/Berlin", "europe/berlin", " berlin "] {
            assert_eq!(time_zone(typed), Some(Tz::Europe__Berlin), "{typed}");
        }
        assert_eq!(time_zone("new york"), Some(Tz::America__New_York));
        // two zones end in West: which is meant is not guessed
        for not in ["", "Quedlinburg", "West", "Europe", "Europe/Quedlinburg", "GMT+2", "Etc/GMT+2", "CET"] {
            assert_eq!(time_zone(not), None, "{not}");
        }
    }

    #[test]
    fn only_our_own_paths_follow_signing_in() {
        assert_eq!(safe_next("/bags/1?x=2"), "/bags/1?x=2");
        for bad in ["//evil.test", "/\\evil.test", "https://evil.test", "", "/a\nb", "/\t/evil.test"] {
            assert_eq!(safe_next(bad), "/");
        }
    }
}
