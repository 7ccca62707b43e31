//! Markdown as HTML in the look of the app: anchors on headings, links and pictures as the server has them, tables that
//! fit a phone. Raw HTML in the text is left out.

use crate::web::static_files;
use pulldown_cmark::{CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html};

/// A page of the manual.
pub struct Page {
    pub name: &'static str,
    pub title: String,
    pub html: String,
    /// Anchors and words of the headings below the title.
    pub contents: Vec<(String, String)>,
}

impl Page {
    pub fn read(name: &'static str, text: &str) -> Self {
        let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
        let events: Vec<Event> = events(rest);
        Self {
            name,
            title: first.trim_start_matches("# ").to_owned(),
            contents: headings(&events),
            html: pushed(&events),
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

/// The HTML of a part without a title.
pub fn body(text: &str) -> String {
    pushed(&events(text))
}

/// The anchor of a heading, as the usual sites that show Markdown make it: both then know the same links.
pub fn slug(title: &str) -> String {
    let kept = title.trim().to_lowercase();
    let kept = kept.chars().filter(|c| c.is_alphanumeric() || " -_".contains(*c));
    kept.map(|c| if c == ' ' { '-' } else { c }).collect()
}

fn events(text: &str) -> Vec<Event<'_>> {
    let parsed = Parser::new_ext(text, Options::ENABLE_TABLES);
    parsed.filter(|e| !matches!(e, Event::Html(_) | Event::InlineHtml(_))).collect()
}

fn pushed(events: &[Event]) -> String {
    let mut out = String::new();
    html::push_html(&mut out, Changed::default().all(events).into_iter());
    out
}

/// Anchors and words of the headings of the second rank.
fn headings(events: &[Event]) -> Vec<(String, String)> {
    let start = |e: &Event| matches!(e, Event::Start(Tag::Heading { level: HeadingLevel::H2, .. }));
    let places = (0..events.len()).filter(|n| start(&events[*n]));
    places.map(|n| words(&events[n + 1..])).map(|words| (slug(&words), words)).collect()
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
struct Changed {
    /// The heads of the table that is open, and the column reached.
    heads: Vec<String>,
    column: usize,
    in_head: bool,
}

impl Changed {
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
                let id = Some(CowStr::from(slug(&words(rest))));
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
        let page = Page::read("looks", "# Each *day*\n\nText.\n\n## What's due?\n\n### `a` b\n");
        assert_eq!((page.title.as_str(), page.path().as_str()), ("Each *day*", "/help/looks"));
        assert_eq!(page.contents, [("whats-due".to_owned(), "What's due?".to_owned())]);
        assert!(
            page.html.contains("<h2 id=\"whats-due\">") && page.html.contains("<h3 id=\"a-b\">"),
            "{}",
            page.html
        );
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
