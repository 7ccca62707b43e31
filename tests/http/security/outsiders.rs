//! Who left, and a program with a token, are strangers at every address of the pages.

use super::club;
use crate::csrf::filled;
use crate::support::{Browser, routes};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, LOCATION, ORIGIN};
use axum::http::{Request, StatusCode};
use hilum::args;

async fn visit(by: &Browser, method: &str, path: &str) -> (StatusCode, String) {
    let request = Request::builder().method(method).uri(path).header(HOST, "club.test");
    let request = request.header(ORIGIN, "http://club.test");
    let request =
        request.header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(Body::empty()).unwrap();
    let response = by.raw(request).await;
    let to = response.headers().get(LOCATION).map(|v| v.to_str().unwrap().to_owned());
    (response.status(), to.unwrap_or_default())
}

#[tokio::test]
async fn who_left_and_who_has_only_a_token_are_strangers_everywhere() {
    let (s, lea) = club().await;
    let mut conn = s.club.app.db.write().await.unwrap();
    conn.run("UPDATE members SET left_at = 1 WHERE id = $1", args![lea.id()]).await.unwrap();
    conn.commit().await.unwrap();
    let mut asked = 0;
    for route in routes::all() {
        let path = filled(&route.path);
        let methods = [("GET", route.get), ("POST", route.post)];
        for (method, _) in methods.into_iter().filter(|(_, taken)| *taken) {
            s.club.pass_minutes(1);
            let stranger = visit(&s.club.stranger(), method, &path).await;
            let gone = s.club.stranger().with_cookie("hilum", &lea.cookie("hilum"));
            let program = s.club.stranger().with_bearer(&s.token);
            assert_eq!(visit(&gone, method, &path).await, stranger, "who left, at {method} {path}");
            assert_eq!(visit(&program, method, &path).await, stranger, "a token, at {method} {path}");
            asked += 1;
        }
    }
    assert!(asked > 150, "{asked}");
}
