//! An edit that meets another one: nobody's values are overwritten unread.

use super::Form;
use crate::web::session;

/// The hidden field that tells how each value stood when the page was drawn.
const WAS: &str = "was";
/// How many rows a page has is no value of its own.
const ROWS: &str = "rows";
/// The most that is told of a long value, in characters.
const MOST: usize = 300;

impl Form {
    /// The form of what stands in the book, to be drawn for an edit; it remembers how each value stood.
    pub fn remembered(self) -> Self {
        let was = self.marks();
        self.with(WAS, was)
    }

    /// How each value stood when the page was drawn, for the page itself to send along; empty where nothing is edited.
    pub fn was(&self) -> &str {
        self.value(WAS)
    }

    /// Compares what was typed with what stands now, under a lock. Where a value was changed since the page was drawn,
    /// both are told beside the field, by the name of whoever changed it where that is known; values that were left
    /// alone follow. True where there is something to tell: then nothing is to be saved, and the same form sent again
    /// knows what it replaces. `words` says how a value reads, where that is not how it is written.
    pub fn meets(
        &mut self,
        stands: &Self,
        by: Option<&str>,
        words: impl Fn(&str, &str) -> Option<String>,
    ) -> bool {
        let was: Vec<(String, String)> = self.was().split(' ').filter_map(mark_of).collect();
        let mut told = false;
        for name in names(stands, &was) {
            let (typed, now) = (plain(self.value(&name)), plain(stands.value(&name)));
            let stood = was.iter().find(|(n, _)| *n == name).map(|(_, mark)| mark.clone());
            // a row that is new since then was empty; a page that tells nothing may have shown anything
            let stood = stood.or_else(|| (!was.is_empty()).then(|| mark("")));
            if typed == now || stood.as_deref() == Some(&mark(&now)) {
                continue;
            }
            told = true;
            let tick = typed == "yes" || now == "yes";
            let read = |value: &str| words(&name, value).unwrap_or_else(|| read(value, tick));
            if stood.as_deref() == Some(&mark(&typed)) {
                self.refuse(&name, followed(by, &read(&now)));
                self.put(&name, &now);
            } else {
                self.refuse(&name, both(&read(&typed), by, &read(&now)));
            }
        }
        self.put(WAS, &stands.marks());
        told
    }

    /// Sets field `name` to `value`.
    pub fn put(&mut self, name: &str, value: &str) {
        self.pairs.retain(|(n, _)| n != name);
        self.pairs.push((name.to_owned(), value.to_owned()));
    }

    fn marks(&self) -> String {
        let values = self.pairs().filter(|(n, _)| n != WAS && n != ROWS);
        let marks: Vec<String> = values.map(|(n, v)| format!("{n}:{}", mark(&plain(v)))).collect();
        marks.join(" ")
    }
}

/// The fields that stand now or stood when the page was drawn.
fn names(stands: &Form, was: &[(String, String)]) -> Vec<String> {
    let now = stands.pairs().map(|(n, _)| n.clone()).filter(|n| n != WAS && n != ROWS);
    let mut names: Vec<String> = now.collect();
    let gone: Vec<String> = was.iter().map(|(n, _)| n.clone()).filter(|n| !names.contains(n)).collect();
    names.extend(gone);
    names
}

fn mark_of(pair: &str) -> Option<(String, String)> {
    pair.split_once(':').map(|(name, mark)| (name.to_owned(), mark.to_owned()))
}

fn mark(value: &str) -> String {
    session::hash(value)[..12].to_owned()
}

/// As it comes back from a browser.
fn plain(value: &str) -> String {
    value.trim().replace("\r\n", "\n")
}

/// That a value left alone follows what stands now.
fn followed(by: Option<&str>, now: &str) -> String {
    match by {
        Some(name) => t!("web-meanwhile-by", name = name, now = now),
        None => t!("web-meanwhile", now = now),
    }
}

/// What was typed and what stands now.
fn both(typed: &str, by: Option<&str>, now: &str) -> String {
    match by {
        Some(name) => t!("web-typed-meanwhile-by", typed = typed, name = name, now = now),
        None => t!("web-typed-meanwhile", typed = typed, now = now),
    }
}

fn read(value: &str, tick: bool) -> String {
    match value {
        "yes" if tick => t!("web-ticked").to_owned(),
        "" if tick => t!("web-not-ticked").to_owned(),
        "" => t!("web-empty").to_owned(),
        long if long.chars().count() > MOST => {
            t!("web-quoted-cut", text = long.chars().take(MOST).collect::<String>())
        }
        text => t!("web-quoted", text = text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stands(place: &str, note: &str) -> Form {
        Form::new().with("place", place).with("note", note).remembered()
    }

    fn sent(drawn: &Form, place: &str, note: &str) -> Form {
        Form::new().with(WAS, drawn.was()).with("place", place).with("note", note)
    }

    fn meets(form: &mut Form, now: &Form) -> bool {
        form.meets(now, Some("Agnes"), |_, _| None)
    }

    #[test]
    fn both_values_are_told_and_the_second_save_knows() {
        let (drawn, now) = (stands("tin", ""), stands("fridge", ""));
        let mut form = sent(&drawn, "shed", "");
        assert!(meets(&mut form, &now));
        let told = "You typed “shed”; meanwhile Agnes made it “fridge”. Save again to let yours stand.";
        assert_eq!((form.error("place"), form.value("place"), form.error("note")), (told, "shed", ""));
        let mut again = sent(&form, "shed", "");
        assert!(!meets(&mut again, &now) && !again.failed());
    }

    #[test]
    fn a_value_left_alone_follows_what_stands() {
        let (drawn, now) = (stands("tin", ""), stands("fridge", ""));
        let mut form = sent(&drawn, "tin", "dry");
        assert!(meets(&mut form, &now));
        assert_eq!((form.value("place"), form.value("note")), ("fridge", "dry"));
        assert_eq!(form.error("place"), "Meanwhile Agnes made it “fridge”, which stands here now.");
    }

    #[test]
    fn nothing_is_told_where_nothing_or_the_same_was_changed() {
        let drawn = stands("tin", "a\nb");
        assert!(!meets(&mut sent(&drawn, "shed", "a\r\nb "), &drawn));
        assert!(!meets(&mut sent(&drawn, "fridge", "a\nb"), &stands("fridge", "a\nb")));
    }

    #[test]
    fn a_page_that_tells_nothing_overwrites_nothing() {
        assert!(meets(&mut sent(&Form::new(), "shed", ""), &stands("fridge", "")));
        assert!(!meets(&mut sent(&Form::new(), "fridge", ""), &stands("fridge", "")));
    }

    #[test]
    fn rows_that_came_or_went_are_told() {
        let one = Form::new().with("rows", 4).with("act_1", "rinse").remembered();
        let two = Form::new().with("rows", 5).with("act_1", "rinse").with("act_2", "soak").remembered();
        let typed = |drawn: &Form, second: &str| {
            Form::new().with(WAS, drawn.was()).with("act_1", "rinse").with("act_2", second)
        };
        let mut form = typed(&one, "");
        assert!(meets(&mut form, &two) && form.value("act_2") == "soak");
        let mut form = typed(&two, "priming");
        assert!(meets(&mut form, &one));
        assert!(form.error("act_2").starts_with("You typed “priming”; meanwhile Agnes made it empty."));
        assert!(!meets(&mut typed(&one, "priming"), &one));
    }
}
