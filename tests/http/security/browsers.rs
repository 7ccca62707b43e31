//! What browsers are told with every answer, and what pages may hold.

use super::{club, walk};
use crate::headers::{checked, nothing_inline};
use crate::support::{Browser, Page};
use axum::body::Body;
use axum::http::Request;
use axum::http::header::{CACHE_CONTROL, CONTENT_DISPOSITION, CONTENT_TYPE, HOST, ORIGIN};
use scraper::{ElementRef, Selector};

/// Answers that are neither pages nor files to keep.
const READ_BY_PAGES: &[&str] =
    &["/sw.js", "/offline.json", "/api/v1/openapi.json", "/static/", "/photos/", "/healthz", "/readyz"];

fn header(page: &Page, name: &axum::http::HeaderName) -> String {
    page.headers.get(name).map(|v| v.to_str().unwrap().to_owned()).unwrap_or_default()
}

#[tokio::test]
async fn every_answer_says_what_it_is_how_it_is_kept_and_what_it_may() {
    let (s, lea) = club().await;
    for who in [&s.jo, &lea] {
        for page in walk::pages(who).await {
            checked(&page.path, &page.headers);
            let sort = header(&page, &CONTENT_TYPE);
            let text = sort.starts_with("text/") || sort.contains("xml");
            assert!(!sort.is_empty() && (!text || sort.ends_with("charset=utf-8")), "{}: {sort}", page.path);
            let lasting = page.path.starts_with("/static/");
            let kept = header(&page, &CACHE_CONTROL);
            let private =
                ["no-store", "no-cache"].iter().any(|word| kept.contains(word)) || kept.contains("private");
            assert!(lasting != private, "{}: {kept}", page.path);
            if sort.starts_with("text/html") {
                nothing_inline(&page);
                nothing_from_elsewhere(&page);
            } else if !READ_BY_PAGES.iter().any(|start| page.path.starts_with(start)) {
                let kept_as = header(&page, &CONTENT_DISPOSITION);
                let own = kept_as.starts_with("attachment; filename=\"") || sort.starts_with("text/c");
                assert!(own, "{}: {sort}, '{kept_as}'", page.path);
            }
        }
    }
}

#[track_caller]
fn nothing_from_elsewhere(page: &Page) {
    let html = page.html();
    for element in html.root_element().descendants().filter_map(ElementRef::wrap) {
        for (name, value) in element.value().attrs() {
            let loads = ["src", "action", "formaction", "data", "poster", "srcset"].contains(&name)
                || name == "href" && element.value().name() != "a";
            let here = value.is_empty()
                || value.starts_with("data:image/")
                || value.starts_with('#')
                || value.starts_with('?')
                || value.starts_with('/') && !value.starts_with("//");
            assert!(!loads || here, "{name}={value} on {}", page.path);
            let script = value.trim_start().to_lowercase().starts_with("javascript:");
            assert!(!script, "{name}={value} on {}", page.path);
        }
    }
}

#[tokio::test]
async fn signing_out_is_on_every_page() {
    let (s, _) = club().await;
    let mut pages = 0;
    for page in walk::pages(&s.jo).await.iter().filter(|p| header(p, &CONTENT_TYPE).starts_with("text/html"))
    {
        let printed = page.html().select(&Selector::parse("form[action='/sign-out']").unwrap()).count();
        let outside = ["/sign-in", "/join/", "/reset/"].iter().any(|start| page.path.starts_with(start));
        assert!(
            outside || printed > 0 || !page.status.is_success(),
            "{} has {printed} ways out: {}",
            page.path,
            page.status
        );
        pages += 1;
    }
    assert!(pages > 50);
}

async fn preflight(by: &Browser, path: &str) -> axum::http::HeaderMap {
    let request = Request::builder()
        .method("OPTIONS")
        .uri(path)
        .header(HOST, "club.test")
        .header(ORIGIN, "https://elsewhere.test")
        .header("access-control-request-method", "POST")
        .body(Body::empty())
        .unwrap();
    by.raw(request).await.headers().clone()
}

#[tokio::test]
async fn no_other_site_is_let_in_to_read() {
    let (s, _) = club().await;
    let own = format!("/api/v1/bags/{}", s.bag);
    for path in ["/", "/sign-in", "/table.csv", "/static/0/app.js", "/api/v1/due", &own, "/nowhere"] {
        let get = Request::get(path).header(HOST, "club.test").header(ORIGIN, "https://elsewhere.test");
        let plain = s.jo.raw(get.body(Body::empty()).unwrap()).await.headers().clone();
        for headers in [plain, preflight(&s.jo, path).await] {
            let shared = headers.keys().find(|name| name.as_str().starts_with("access-control-"));
            assert!(shared.is_none(), "{path}: {shared:?}");
        }
    }
}
