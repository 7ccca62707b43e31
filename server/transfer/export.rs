use super::cells::guarded;
use super::columns::{PACKETS, SAVED};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::stock::model::Packet;
use crate::stock::store;
use crate::web::chrome::Chrome;
use axum::extract::State;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

/// GET /packets.csv: the member's packets as the list that can be brought in again.
pub async fn packets(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let text = season_list(&mut app.db.read().await?, &chrome.member.id).await?;
    let head = [
        (CONTENT_TYPE, "text/csv; charset=utf-8"),
        (CONTENT_DISPOSITION, "attachment; filename=\"packets.csv\""),
    ];
    Ok((head, text).into_response())
}

/// A member's packets as a list that can be brought in again.
pub async fn season_list(conn: &mut Conn, member: &MemberId) -> Result<Vec<u8>, AppError> {
    list(&store::packets(conn, member).await?).map_err(|e| AppError::Internal(e.into()))
}

/// RFC 4180 text in UTF-8; the byte order mark tells spreadsheets so.
fn list(packets: &[Packet]) -> Result<Vec<u8>, csv::Error> {
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    out.write_record(PACKETS[..SAVED].iter().map(|column| column.name))?;
    for p in packets {
        out.write_record(row(p).map(|cell| guarded(&cell)))?;
    }
    out.into_inner().map_err(|e| e.into_error().into())
}

fn row(p: &Packet) -> [String; SAVED] {
    let about = if p.rough { "about " } else { "" };
    [
        p.mark.clone(),
        p.kind.clone(),
        p.variety.clone(),
        p.source.clone(),
        p.year_words(),
        p.code.clone(),
        format!("{about}{}", p.balance),
        String::new(),
        p.seeds_per_gram.map(|n| n.to_string()).unwrap_or_default(),
        p.place.clone(),
        p.state.clone(),
        p.species.clone(),
        p.note.clone(),
    ]
}
