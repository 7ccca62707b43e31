use super::language::{Language, spoken};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

macro_rules! texts {
    ($language:literal, $($name:literal),*) => {
        &[$(($name, include_str!(concat!("../../templates/texts/", $language, "/", $name, ".ftl")))),*]
    };
}

/// The same files for each language.
macro_rules! files {
    ($language:literal) => {
        texts!(
            $language,
            "accounts",
            "ageing",
            "api",
            "backups",
            "bags",
            "calculators",
            "calendar",
            "cards",
            "charts",
            "compare",
            "due",
            "holders",
            "labels",
            "manual",
            "notebook",
            "outlook",
            "own",
            "phone",
            "photos",
            "planning",
            "rates",
            "rings",
            "routines",
            "scripts",
            "stock",
            "transfer",
            "trays",
            "trials",
            "web",
            "words"
        )
    };
}

/// Names and texts of the files of a language.
fn files(language: Language) -> &'static [(&'static str, &'static str)] {
    match language {
        Language::English => files!("en"),
        Language::German => files!("de"),
    }
}

type Bundle = FluentBundle<FluentResource>;

static BUNDLES: LazyLock<[Bundle; Language::ALL.len()]> = LazyLock::new(|| Language::ALL.map(bundle));

/// The messages of a language. What is wrong in a file is left out here, and a test names it.
fn bundle(language: Language) -> Bundle {
    let tag = language.tag().parse().expect("a tag of ours is one");
    let mut bundle = Bundle::new_concurrent(vec![tag]);
    bundle.set_use_isolating(false);
    for (_, text) in files(language) {
        let file = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(file, _)| file);
        let _ = bundle.add_resource(file);
    }
    bundle
}

/// The message in the language of the request, in English where it has none, which a test rules out.
fn message(id: &str, args: Option<&FluentArgs>) -> Option<Cow<'static, str>> {
    let bundles = &*BUNDLES;
    [spoken(), Language::English].into_iter().find_map(|language| {
        let bundle = &bundles[language as usize];
        let pattern = bundle.get_message(id)?.value()?;
        Some(bundle.format_pattern(pattern, args, &mut Vec::new()))
    })
}

/// The text of a message that holds no values.
pub fn plain(id: &'static str) -> &'static str {
    match message(id, None) {
        Some(Cow::Borrowed(text)) => text,
        _ => id,
    }
}

/// The text of a message with these values.
pub fn filled(id: &'static str, values: &[(&'static str, FluentValue)]) -> String {
    let args: FluentArgs = values.iter().map(|(name, value)| (*name, value.clone())).collect();
    message(id, Some(&args)).map_or_else(|| id.to_owned(), Cow::into_owned)
}

/// What scripts may fill into their messages.
const SCRIPT_VALUES: [&str; 5] = ["n", "total", "text", "time", "name"];
const OF_SCRIPTS: &str = "scripts";

/// The messages of `scripts.ftl`, by their names without the file's; where one has a value it stands as `{n}`.
pub fn of_scripts(language: Language) -> BTreeMap<&'static str, String> {
    let text = files(language).iter().find(|(name, _)| *name == OF_SCRIPTS).map_or("", |(_, text)| text);
    let args: FluentArgs = SCRIPT_VALUES.iter().map(|name| (*name, format!("{{{name}}}"))).collect();
    let bundle = &BUNDLES[language as usize];
    let ids = text.lines().filter_map(|line| line.split_once(" =")).map(|(id, _)| id);
    let said = ids.filter_map(|id| {
        let name = id.strip_prefix(OF_SCRIPTS)?.strip_prefix('-')?;
        let pattern = bundle.get_message(id)?.value()?;
        Some((name, bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()))
    });
    said.collect()
}

/// What may be filled into a message.
pub trait Value {
    fn value(&self) -> FluentValue<'_>;
}

macro_rules! numbers {
    ($($number:ty),*) => {
        $(impl Value for $number {
            fn value(&self) -> FluentValue<'_> {
                FluentValue::from(*self)
            }
        })*
    };
}

numbers!(i32, i64, u8, u16, u32, u64, usize);

impl Value for str {
    fn value(&self) -> FluentValue<'_> {
        FluentValue::from(self)
    }
}

impl Value for String {
    fn value(&self) -> FluentValue<'_> {
        FluentValue::from(self.as_str())
    }
}

impl Value for Cow<'_, str> {
    fn value(&self) -> FluentValue<'_> {
        FluentValue::from(self.as_ref())
    }
}

impl<T: Value + ?Sized> Value for &T {
    fn value(&self) -> FluentValue<'_> {
        (**self).value()
    }
}
