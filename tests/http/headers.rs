use crate::support::{Club, Page, routes};
use axum::body::Body;
use axum::http::header::{
    ACCESS_CONTROL_ALLOW_ORIGIN, CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, ORIGIN,
    REFERRER_POLICY, SET_COOKIE, STRICT_TRANSPORT_SECURITY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, Request, StatusCode};

#[track_caller]
pub fn checked(what: &str, headers: &HeaderMap) {
    let is = |name, value: &str| {
        let found = headers.get(&name).map(|v| v.to_str().unwrap());
        assert_eq!(found, Some(value), "{name} of {what}");
    };
    is(X_CONTENT_TYPE_OPTIONS, "nosniff");
    is(REFERRER_POLICY, "same-origin");
    is("cross-origin-opener-policy".parse().unwrap(), "same-origin");
    is("cross-origin-resource-policy".parse().unwrap(), "same-origin");
    is("permissions-policy".parse().unwrap(), "camera=(), geolocation=(), microphone=()");
    let policy = headers[CONTENT_SECURITY_POLICY].to_str().unwrap();
    for part in ["default-src 'self'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"] {
        assert!(policy.contains(part), "{part} is missing on {what}: {policy}");
    }
    assert!(!policy.contains("unsafe-"), "{what}: {policy}");
    assert!(!headers.contains_key(ACCESS_CONTROL_ALLOW_ORIGIN), "{what}");
    let text = headers.get(CONTENT_TYPE).map(|v| v.to_str().unwrap()).filter(|v| v.starts_with("text/"));
    assert!(text.is_none_or(|v| v.contains("charset=utf-8")), "{what}: {text:?}");
}

#[tokio::test]
async fn every_answer_carries_the_security_headers() {
    let club = Club::new().await;
    let stranger = club.stranger();
    for (path, status) in [
        ("/sign-in", 200),
        ("/members", 303),
        ("/nowhere", 404),
        ("/join/unknown", 404),
        ("/sign-out", 303),
        ("/static/0/app.css", 200),
        ("/static/0/nothing.css", 404),
    ] {
        let request =
            Request::get(path).header(ORIGIN, "https://elsewhere.test").body(Body::empty()).unwrap();
        let response = stranger.raw(request).await;
        assert_eq!(response.status().as_u16(), status, "{path}");
        checked(path, response.headers());
        let kept = response.headers()[CACHE_CONTROL].to_str().unwrap().to_owned();
        let lasting = path == "/static/0/app.css";
        assert_eq!(kept.contains("immutable"), lasting, "{path}: {kept}");
        assert!(lasting || kept == "no-store", "{path}: {kept}");
    }
    let refused = stranger.raw(Request::post("/sign-in").body(Body::empty()).unwrap()).await;
    assert_eq!(refused.status(), StatusCode::BAD_REQUEST);
    checked("a refused form", refused.headers());
}

#[tokio::test]
async fn pages_hold_nothing_that_the_policy_forbids() {
    let club = Club::new().await;
    let jo = club.organiser("Jo", "JB").await;
    for route in routes::all().iter().filter(|r| r.get && !r.path.contains('{')) {
        let page = jo.get(&route.path).await;
        checked(&route.path, &page.headers);
        nothing_inline(&page);
    }
}

#[track_caller]
pub fn nothing_inline(page: &Page) {
    let html = page.html();
    for element in html.root_element().descendants().filter_map(scraper::ElementRef::wrap) {
        for (name, _) in element.value().attrs() {
            assert!(name != "style" && !name.starts_with("on"), "{name} on {}", page.path);
        }
        let inline = element.value().name() == "style"
            || element.value().name() == "script" && element.value().attr("src").is_none();
        let data = element.value().attr("type").is_some_and(|t| t.ends_with("json"));
        assert!(!inline || data, "{} on {}", element.html(), page.path);
    }
}

/// Cookies of a whole visit: set up, save something, sign out.
async fn cookies(base: &str) -> (Vec<String>, HeaderMap) {
    let club = Club::at(Some(base)).await;
    let link = hilum::accounts::set_up_link(&club.app).await.unwrap().unwrap();
    let path = link.strip_prefix(base).unwrap().to_owned();
    let browser = club.stranger();
    let page = browser.get(&path).await;
    let mut found = Vec::new();
    let mut keep = |page: &HeaderMap| {
        found.extend(page.get_all(SET_COOKIE).iter().map(|v| v.to_str().unwrap().to_owned()));
    };
    let pairs = crate::accounts::SET_UP.map(|(n, v)| (n.to_owned(), v.to_owned()));
    let form = |pairs: &[(String, String)], path: &str| {
        Request::post(path)
            .header("sec-fetch-site", "same-origin")
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(serde_html_form::to_string(pairs).unwrap()))
            .unwrap()
    };
    keep(browser.raw(form(&pairs, &path)).await.headers());
    let me = browser.get("/me").await;
    let saved = me.form("/me").filled(&[("name", "Ines B")]);
    keep(browser.raw(form(&saved, "/me")).await.headers());
    keep(browser.raw(form(&[], "/sign-out")).await.headers());
    (found, page.headers)
}

#[tokio::test]
async fn the_message_of_a_save_waits_for_the_page_that_shows_it() {
    let club = Club::new().await;
    let jo = club.organiser("Jo", "JB").await;
    let fields = jo.get("/me").await.form("/me").filled(&[("name", "Jo Brandt")]);
    let form = Request::post("/me")
        .header("sec-fetch-site", "same-origin")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(serde_html_form::to_string(fields).unwrap()))
        .unwrap();
    assert_eq!(jo.raw(form).await.status(), StatusCode::SEE_OTHER);
    // what a page loads beside itself may be answered between a save and the page it leads to
    for beside in ["/sw.js", "/static/0/app.css", "/offline.json", "/"] {
        let request = Request::get(beside);
        let ahead = if beside.starts_with("/s") { request } else { request.header("hilum-keep", "yes") };
        jo.raw(ahead.body(Body::empty()).unwrap()).await;
    }
    let shows = async || jo.get("/me").await.body.contains("id=\"said\"");
    assert!(shows().await, "lost on its way");
    assert!(!shows().await, "shown twice");
}

#[tokio::test]
async fn cookies_are_for_this_host_and_not_for_scripts() {
    let (found, headers) = cookies("https://hilum.test").await;
    assert_eq!(found.len(), 4, "{found:?}");
    for cookie in found {
        assert!(cookie.starts_with("__Host-hilum"), "{cookie}");
        for flag in ["; Path=/;", "; HttpOnly;", "; SameSite=Lax;", "; Secure"] {
            assert!(cookie.contains(flag), "{flag}: {cookie}");
        }
        assert!(!cookie.contains("Domain"), "{cookie}");
    }
    assert_eq!(headers[STRICT_TRANSPORT_SECURITY], "max-age=31536000");

    let (found, headers) = cookies("http://192.168.1.4:8420").await;
    assert_eq!(found.len(), 4, "{found:?}");
    for cookie in found {
        assert!(cookie.starts_with("hilum"), "{cookie}");
        assert!(cookie.contains("; HttpOnly; SameSite=Lax;") && !cookie.contains("Secure"), "{cookie}");
    }
    assert!(!headers.contains_key(STRICT_TRANSPORT_SECURITY));
}
