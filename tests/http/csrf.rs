use crate::support::{Browser, Club, routes};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN};
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt;

const FOREIGN: &str = "This form did not come from this site";
const SENDERS: &[(&str, &[(&str, &str)])] = &[
    ("a foreign origin", &[("origin", "https://elsewhere.test")]),
    ("an origin that only starts alike", &[("origin", "http://club.test.elsewhere.test")]),
    ("a sandboxed page", &[("origin", "null")]),
    ("a cross-site request", &[("sec-fetch-site", "cross-site"), ("origin", "http://club.test")]),
    ("a same-site request", &[("sec-fetch-site", "same-site"), ("origin", "http://club.test")]),
];

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Plain,
    Multipart,
}

/// The answer to a form with this token; what it says, where it is an error.
async fn post(
    browser: &Browser,
    path: &str,
    kind: Kind,
    token: &str,
    headers: &[(&str, &str)],
) -> (StatusCode, String) {
    let (sort, body) = match kind {
        Kind::Plain => ("application/x-www-form-urlencoded".to_owned(), format!("csrf={token}")),
        Kind::Multipart => {
            let part = "--b\r\nContent-Disposition: form-data; name=\"csrf\"\r\n\r\n";
            ("multipart/form-data; boundary=b".to_owned(), format!("{part}{token}\r\n--b--\r\n"))
        }
    };
    let mut request = Request::post(path).header(HOST, "club.test").header(CONTENT_TYPE, sort);
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    let response = browser.raw(request.body(Body::from(body)).unwrap()).await;
    let status = response.status();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    (status, String::from_utf8_lossy(&bytes).into_owned())
}

/// Every form of the app, sent to a fresh session of a member who may do the most.
#[tokio::test]
async fn no_form_is_taken_from_elsewhere() {
    let club = Club::new().await;
    let jo = club.organiser("Jo", "JB").await;
    club.organiser("Kim", "KL").await;
    let posts: Vec<_> = routes::all().into_iter().filter(|r| r.post).collect();
    assert!(posts.len() >= 13);
    for route in posts {
        let path = filled(&route.path);
        let token = token(&club.again(&jo).await).await;
        let first = post(&club.again(&jo).await, &path, Kind::Plain, &token, SENDERS[0].1).await;
        let kind = if first.1.contains(FOREIGN) { Kind::Plain } else { Kind::Multipart };
        for (who, headers) in SENDERS {
            let browser = club.again(&jo).await;
            let own = self::token(&browser).await;
            let (status, says) = post(&browser, &path, kind, &own, headers).await;
            assert_eq!(status, StatusCode::BAD_REQUEST, "{who} at {path}: {says}");
            assert!(says.contains(FOREIGN), "{who} at {path}: {says}");
        }
        for guess in ["", "guess", &token] {
            let (status, says) = post(&club.again(&jo).await, &path, kind, guess, &[]).await;
            assert_eq!(status, StatusCode::BAD_REQUEST, "no header, token '{guess}' at {path}");
            assert!(says.contains(FOREIGN), "no header, token '{guess}' at {path}: {says}");
        }
        let browser = club.again(&jo).await;
        let own = self::token(&browser).await;
        let (status, says) = post(&browser, &path, kind, &own, &[]).await;
        assert!(!says.contains(FOREIGN), "the form's own token passes at {path}: {status} {says}");
        let own_origin = [(ORIGIN.as_str(), "http://club.test")];
        let (status, says) = post(&club.again(&jo).await, &path, kind, "", &own_origin).await;
        assert!(!says.contains(FOREIGN), "our own origin passes at {path}: {status} {says}");
    }
}

/// The token that this browser's forms carry.
async fn token(browser: &Browser) -> String {
    let pairs = browser.get("/me").await.form("/sign-out").filled(&[]);
    pairs.into_iter().find(|(n, _)| n == "csrf").expect("forms carry a token").1
}

/// A path with something in each place.
pub fn filled(pattern: &str) -> String {
    let part = |p: &str| if p.starts_with('{') { "1".to_owned() } else { p.to_owned() };
    pattern.split('/').map(part).collect::<Vec<_>>().join("/")
}
