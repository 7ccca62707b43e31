//! Markdown as HTML in the look of the app: anchors on headings, links and pictures as the server has them, tables that
//! fit a phone. Raw HTML in the text is left out.

use crate::web::static_files;
use pulldown_cmark::{CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html};
use std::slice::Iter;

/// A page of the manual.
pub struct Page {
    pub name: &'static str,
    pub title: String,
    pub html: String,
    /// Anchors and words of the headings below the title.
    pub contents: Vec<(String, String)>,
}

impl Page {
    /// The headings carry these anchors, one after the other.
    pub fn read(name: &'static str, text: &str, anchors: &[String]) -> Self {
        let (title, events) = parsed(text);
        let placed = headings(&events).zip(anchors).filter(|((level, _), _)| *level == HeadingLevel::H2);
        Self {
            name,
            title: title.to_owned(),
            contents: placed.map(|((_, words), anchor)| (anchor.clone(), words)).collect(),
            html: pushed(&events, anchors),
        }
    }

    /// The address of the page.
    pub fn path(&self) -> String {
        address(self.name)
    }
}

fn address(name: &str) -> String {
    if name == super::text::FIRST { "/help".to_owned() } else { format!("/help/{name}") }
}

/// The HTML of a part without a title and headings.
pub fn body(text: &str) -> String {
    pushed(&events(text), &[])
}

/// The anchors of the headings below the title, as they are where a page is in English.
pub fn anchors(text: &str) -> Vec<String> {
    headings(&parsed(text).1).map(|(_, words)| slug(&words)).collect()
}

/// The anchor of a heading, as the usual sites that show Markdown make it: both then know the same links.
pub fn slug(title: &str) -> String {
    let kept = title.trim().to_lowercase();
    let kept = kept.chars().filter(|c| c.is_alphanumeric() || " -_".contains(*c));
    kept.map(|c| if c == ' ' { '-' } else { c }).collect()
}

/// The title, and what stands below it.
fn parsed(text: &str) -> (&str, Vec<Event<'_>>) {
    let (title, rest) = text.split_once('\n').unwrap_or((text, ""));
    (title.trim_start_matches("# "), events(rest))
}

fn events(text: &str) -> Vec<Event<'_>> {
    let parsed = Parser::new_ext(text, Options::ENABLE_TABLES);
    parsed.filter(|e| !matches!(e, Event::Html(_) | Event::InlineHtml(_))).collect()
}

fn pushed(events: &[Event], anchors: &[String]) -> String {
    let mut out = String::new();
    let changed = Changed { anchors: anchors.iter(), ..Changed::default() };
    html::push_html(&mut out, changed.all(events).into_iter());
    out
}

/// Rank and words of each heading.
fn headings(events: &[Event]) -> impl Iterator<Item = (HeadingLevel, String)> {
    events.iter().enumerate().filter_map(|(place, event)| match event {
        Event::Start(Tag::Heading { level, .. }) => Some((*level, words(&events[place + 1..]))),
        _ => None,
    })
}

/// The text up to the end of what began before.
fn words(events: &[Event]) -> String {
    let ends = |e: &&Event| matches!(e, Event::End(TagEnd::Heading(_) | TagEnd::Image | TagEnd::TableCell));
    let inside = events.iter().take_while(|e| !ends(e));
    let text = inside.filter_map(|e| match e {
        Event::Text(text) | Event::Code(text) => Some(text.as_ref()),
        Event::SoftBreak => Some(" "),
        _ => None,
    });
    text.collect()
}

/// Changes events to the app's look, one after the other.
#[derive(Default)]
struct Changed<'a> {
    /// Of the headings still to come.
    anchors: Iter<'a, String>,
    /// The heads of the table that is open, and the column reached.
    heads: Vec<String>,
    column: usize,
    in_head: bool,
}

impl Changed<'_> {
    fn all<'t>(mut self, events: &[Event<'t>]) -> Vec<Event<'t>> {
        let mut out = Vec::new();
        let mut place = 0;
        while let Some(event) = events.get(place) {
            if let Event::Start(Tag::Image { dest_url, .. }) = event {
                out.push(raw(picture(dest_url, &words(&events[place + 1..]))));
                while !matches!(events.get(place), None | Some(Event::End(TagEnd::Image))) {
                    place += 1;
                }
            } else {
                out.push(self.one(event.clone(), &events[place + 1..]));
            }
            place += 1;
        }
        out
    }

    fn one<'t>(&mut self, event: Event<'t>, rest: &[Event<'t>]) -> Event<'t> {
        match event {
            Event::Start(Tag::Heading { level, classes, attrs, .. }) => {
                let id = self.anchors.next().map(|anchor| CowStr::from(anchor.clone()));
                Event::Start(Tag::Heading { level, id, classes, attrs })
            }
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                Event::Start(Tag::Link { link_type, dest_url: link(&dest_url).into(), title, id })
            }
            Event::Start(tag @ (Tag::Table(_) | Tag::TableHead | Tag::TableRow | Tag::TableCell)) => {
                raw(self.table_start(&tag, rest))
            }
            Event::End(end @ (TagEnd::Table | TagEnd::TableHead | TagEnd::TableRow | TagEnd::TableCell)) => {
                raw(self.table_end(end).to_owned())
            }
            other => other,
        }
    }

    fn table_start(&mut self, tag: &Tag, rest: &[Event]) -> String {
        match tag {
            Tag::Table(_) => {
                self.heads.clear();
                "<table class=\"list\">".to_owned()
            }
            Tag::TableCell if self.in_head => {
                self.heads.push(words(rest));
                "<th scope=\"col\">".to_owned()
            }
            Tag::TableCell if self.column == 0 => "<th scope=\"row\">".to_owned(),
            Tag::TableCell => {
                let head = self.heads.get(self.column).map_or("", String::as_str);
                format!("<td data-label=\"{}\">", attribute(head))
            }
            tag => {
                self.column = 0;
                self.in_head = matches!(tag, Tag::TableHead);
                if self.in_head { "<thead><tr>" } else { "<tr>" }.to_owned()
            }
        }
    }

    fn table_end(&mut self, end: TagEnd) -> &'static str {
        match end {
            TagEnd::Table => "</tbody></table>",
            TagEnd::TableHead => "</tr></thead><tbody>",
            TagEnd::TableRow => "</tr>",
            _ if self.in_head => "</th>",
            _ => {
                self.column += 1;
                if self.column == 1 { "</th>" } else { "</td>" }
            }
        }
    }
}

fn raw(html: String) -> Event<'static> {
    Event::InlineHtml(html.into())
}

fn attribute(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
}

/// `looks.md#anchor` in the repository is `/help/looks#anchor` here.
fn link(to: &str) -> String {
    match to.split_once(".md") {
        Some((name, anchor)) if !name.contains('/') => address(name) + anchor,
        _ => to.to_owned(),
    }
}

/// A picture of `static/manual`, with its measures, so that the page does not move when it comes.
fn picture(file: &str, about: &str) -> String {
    let name = file.rsplit('/').next().unwrap_or_default();
    let (width, height) = static_files::size(name).unwrap_or_default();
    let (address, about) = (static_files::address(name), attribute(about));
    format!("<img src=\"{address}\" alt=\"{about}\" width=\"{width}\" height=\"{height}\" loading=\"lazy\">")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_has_its_title_contents_and_anchors() {
        let text = "# Each *day*\n\nText.\n\n## What's due?\n\n### `a` b\n";
        let page = Page::read("looks", text, &anchors(text));
        assert_eq!((page.title.as_str(), page.path().as_str()), ("Each *day*", "/help/looks"));
        assert_eq!(page.contents, [("whats-due".to_owned(), "What's due?".to_owned())]);
        assert!(
            page.html.contains("<h2 id=\"whats-due\">") && page.html.contains("<h3 id=\"a-b\">"),
            "{}",
            page.html
        );
    }

    #[test]
    fn headings_carry_the_anchors_of_the_english_page() {
        let anchors = anchors("# Bags\n\n### In a bag\n\n## What's due?\n");
        let page = Page::read("looks", "# Beutel\n\n### Im Beutel\n\n## Was ist fällig?\n", &anchors);
        assert_eq!(page.contents, [("whats-due".to_owned(), "Was ist fällig?".to_owned())]);
        assert!(page.html.contains("<h3 id=\"in-a-bag\">Im Beutel</h3>"), "{}", page.html);
    }

    #[test]
    fn links_lead_to_help_pages_and_raw_html_is_left_out() {
        let html = body(
            "[a](looks.md#late) [b](index.md) [c](../x.md)<b onclick=\"x\">d</b>\n\n<script>e</script>\n",
        );
        assert_eq!(
            html.trim(),
            "<p><a href=\"/help/looks#late\">a</a> <a href=\"/help\">b</a> <a href=\"../x.md\">c</a>d</p>"
        );
    }

    #[test]
    fn tables_carry_their_heads_to_each_cell() {
        let html = body("| Key | Means \"so\" |\n| --- | --- |\n| a | b < c |\n");
        let head =
            "<table class=\"list\"><thead><tr><th scope=\"col\">Key</th><th scope=\"col\">Means \"so\"</th>";
        assert!(html.starts_with(head), "{html}");
        let row = "<tr><th scope=\"row\">a</th><td data-label=\"Means &quot;so&quot;\">b &lt; c</td></tr>";
        assert!(html.contains(row) && html.trim_end().ends_with("</tbody></table>"), "{html}");
    }
}
