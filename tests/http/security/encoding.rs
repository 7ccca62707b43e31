//! What members type is text wherever it is shown, and is kept as it was typed.

use super::{club, data, walk};
use crate::support::Page;
use axum::http::header::CONTENT_TYPE;
use hilum::args;

/// Ends attributes, titles, text areas and elements; its own signs would be decoded by whoever decodes twice.
const HOSTILE: &str = "x'\"><probe>%41&amp;</title></textarea>' probe=1 \" probe=2";

/// What is kept of a text in another form: folded names, digests, and addresses.
const OTHERWISE: &[&str] = &["_key", ".digest", ".location", ".key", ".document", ".action"];

/// Looks for markup of the typed text; whether the text is shown at all.
#[track_caller]
fn is_clean(page: &Page) -> bool {
    let sort = page.headers.get(CONTENT_TYPE).map(|v| v.to_str().unwrap()).unwrap_or_default();
    if sort.starts_with("text/csv") {
        let mut rows = csv::Reader::from_reader(page.body.as_bytes());
        assert!(rows.records().all(|row| row.is_ok()), "{}: {}", page.path, page.body);
    }
    if !sort.starts_with("text/html") {
        return false;
    }
    let html = page.html();
    for element in html.root_element().descendants().filter_map(scraper::ElementRef::wrap) {
        let e = element.value();
        assert!(e.name() != "probe", "an element on {}: {}", page.path, page.body);
        let added = e.attrs().find(|(name, _)| *name == "probe" || name.starts_with("on"));
        assert!(added.is_none(), "{added:?} on {}: {}", page.path, page.body);
    }
    html.root_element().text().any(|text| text.contains("<probe>"))
}

#[tokio::test]
async fn no_word_of_a_member_becomes_markup_and_each_is_kept_as_typed() {
    let (s, lea) = club().await;
    let mut conn = s.club.app.db.write().await.unwrap();
    conn.run("UPDATE club SET name = $1", args![HOSTILE]).await.unwrap();
    conn.commit().await.unwrap();
    let (mut sent, mut shown) = (0, 0);
    for who in [&s.jo, &lea] {
        for form in walk::forms(who).await {
            s.club.pass_minutes(1);
            for fully in [false, true] {
                let by = s.club.again(who).await;
                let answer = form.send(&by, &form.filled(HOSTILE, fully)).await;
                assert!(!answer.status.is_server_error(), "{form:?}: {}", answer.text());
                is_clean(&answer);
                sent += 1;
            }
        }
        for page in walk::pages(&s.club.again(who).await).await {
            shown += usize::from(is_clean(&page));
        }
    }
    println!("{sent} forms sent; the text stands on {shown} pages");
    assert!(sent > 150 && shown > 60, "{sent} forms sent, {shown} pages show it");
    kept_as_typed(&data::texts(&s.club, "probe").await);
}

fn kept_as_typed(texts: &[(String, String)]) {
    let mut places = std::collections::BTreeSet::new();
    for (place, text) in texts.iter().filter(|(place, _)| !OTHERWISE.iter().any(|end| place.ends_with(end))) {
        assert!(text.contains(HOSTILE), "{place} holds {text}");
        places.insert(place.as_str());
    }
    println!("kept as typed in {places:?}");
    assert!(places.len() >= 12, "{places:?}");
}

#[tokio::test]
async fn no_word_of_an_address_becomes_markup() {
    let (s, lea) = club().await;
    let asked = serde_html_form::to_string([("", HOSTILE)]).unwrap();
    let hostile = asked.trim_start_matches('=');
    for who in [&s.jo, &lea] {
        for page in walk::pages(who).await {
            let (path, query) = page.path.split_once('?').unwrap_or((&page.path, ""));
            let names = query.split('&').filter_map(|pair| pair.split_once('=')).map(|(name, _)| name);
            let known = ["q", "mark", "kind", "variety", "source", "sort", "next", "page", "of", "at"];
            let pairs: Vec<String> = names.chain(known).map(|name| format!("{name}={hostile}")).collect();
            s.club.pass_minutes(1);
            let by = s.club.again(who).await;
            for address in [format!("{path}?{}", pairs.join("&")), format!("{path}/{hostile}")] {
                let answer = by.get(&address).await;
                assert!(!answer.status.is_server_error(), "{address}: {}", answer.text());
                is_clean(&answer);
            }
        }
    }
}
