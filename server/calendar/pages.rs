use super::{ical, model, store};
use crate::accounts::store::feeds;
use crate::app::App;
use crate::bags::store as bags;
use crate::error::AppError;
use crate::stock::{handed, promises};
use crate::trials::store as trials;
use crate::web::address::Address;
use crate::web::session;
use axum::extract::{Path, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, ETAG, IF_NONE_MATCH};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};

/// GET /calendar/{secret}.ics: no cookie is asked for; the address is the key.
pub async fn feed(
    State(app): State<App>,
    from: Address,
    Path(file): Path<String>,
    headers: HeaderMap,
) -> Result<Response, AppError> {
    let secret = file.strip_suffix(".ics").ok_or(AppError::NotFound)?;
    // apart from signing in: a calendar of old that keeps asking must not keep people out
    let (account, address) = (format!("calendar {}", session::hash(secret)), format!("calendar {}", from.0));
    if app.throttle.begin(&account, &address, app.now()).is_err() {
        return Err(AppError::TooMany(t!("calendar-asked-too-often")));
    }
    let mut conn = app.db.read().await?;
    let reader = feeds::reader(&mut conn, secret).await?.ok_or(AppError::NotFound)?;
    app.throttle.succeeded(&account, &address);
    let (member, zone, now) = (&reader.member_id, reader.zone(), app.now());
    let work = model::Work {
        soaks: trials::due(&mut conn, member).await?,
        bags: bags::to_do(&mut conn, member).await?,
        promised: promises::open(&mut conn, member).await?,
        blind: handed::waiting(&mut conn, member).await?,
    };
    let changed = store::changed(&mut conn, member).await?;
    drop(conn);
    let events = model::events(member, &work, now, zone);
    let name = t!("calendar-due-now", club = reader.club);
    let link = format!("{}/", app.config.base());
    let text = ical::calendar(&name, &link, model::stamp(changed, now, zone), &events);
    // weak: the same calendar may be sent compressed or not
    let tag = format!("W/\"{}\"", &session::hash(&text)[..32]);
    let kept = headers.get_all(IF_NONE_MATCH).iter().filter_map(|v| v.to_str().ok());
    let unchanged = kept.flat_map(|line| line.split(',')).any(|t| t.trim() == tag);
    let about = [(ETAG, tag), (CACHE_CONTROL, "private, no-cache".to_owned())];
    if unchanged {
        return Ok((StatusCode::NOT_MODIFIED, about).into_response());
    }
    Ok((about, [(CONTENT_TYPE, "text/calendar; charset=utf-8")], text).into_response())
}
