//! Whole requests to the whole app, and lists on their way into the database.

use super::club::{Answer, filled, send, within};
use super::forms::NOW;
use axum::http::{Request, StatusCode};
use hilum::db::Conn;
use hilum::db::ids::MemberId;
use hilum::error::AppError;
use hilum::transfer::{import_counts, import_season_list};

/// A path with its query, such as `/find?mark=AM1`.
pub fn pages(data: &[u8]) {
    let Ok(path) = std::str::from_utf8(data) else { return };
    let path = filled(path);
    if path.starts_with('/') {
        sound(&path, send(Request::get(&path), Vec::new()));
    }
}

/// A path, and the body of the form that is sent there: as a browser writes it, or in parts between `--x`.
pub fn posts(data: &[u8]) {
    let (path, body) = super::first_line(data);
    let Ok(path) = std::str::from_utf8(path) else { return };
    let (path, body) = (filled(path), put(body));
    let kind = match body.starts_with(b"--x\r\n") {
        true => "multipart/form-data; boundary=x",
        false => "application/x-www-form-urlencoded",
    };
    if path.starts_with('/') {
        sound(&path, send(Request::post(&path).header("content-type", kind), body));
    }
}

/// A path of the API, and the JSON that is sent there; without any it is read.
pub fn api(data: &[u8]) {
    let (path, body) = super::first_line(data);
    let Ok(path) = std::str::from_utf8(path) else { return };
    let (path, body) = (format!("/api/v1{}", filled(path)), put(body));
    let request = if body.is_empty() { Request::get(&path) } else { Request::post(&path) };
    let answer = send(request.header("content-type", "application/json"), body);
    if let Some(answer) = answer.filter(|a| !a.body.is_empty() && a.status != StatusCode::NOT_FOUND) {
        let json = serde_json::from_slice::<serde_json::Value>(&answer.body).is_ok();
        assert!(json || answer.status.is_success() || answer.status.is_redirection(), "{path}: no JSON");
        sound(&path, Some(answer));
    }
}

/// A file brought in as a season list and as a list of counts, then taken back.
pub fn imports(data: &[u8]) {
    within(async |conn, member| {
        known(import_season_list(conn, member, "AM", (data, ""), NOW).await);
    });
    within(async |conn, member| brought(conn, member, data).await);
}

async fn brought(conn: &mut Conn, member: &MemberId, data: &[u8]) {
    known(import_counts(conn, member, "AM", (data, ""), NOW).await);
}

/// A file may have faults; only the app's own errors are wrong.
fn known<T, F>(result: Result<Result<T, F>, AppError>) {
    if let Err(error) = result {
        assert!(!matches!(error, AppError::Internal(_)), "{error:?}");
    }
}

/// The text with ids in it where it is text.
fn put(body: &[u8]) -> Vec<u8> {
    std::str::from_utf8(body).map_or_else(|_| body.to_vec(), |text| filled(text).into_bytes())
}

fn sound(path: &str, answer: Option<Answer>) {
    let Some(Answer { status, body, .. }) = answer else { return };
    assert!(!status.is_server_error(), "{path}: {status} {}", String::from_utf8_lossy(&body));
}
