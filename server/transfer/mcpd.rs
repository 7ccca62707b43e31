//! The seed list in the descriptors that gene banks exchange: Multi-Crop Passport Descriptors V.2.1 (Alercia,
//! Diulgheroff and Mackay 2015, FAO and Bioversity International). Only what is known is filled in.

use super::cells::guarded;
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

/// The descriptors in their order.
const FIELDS: [&str; 41] = [
    "PUID",
    "INSTCODE",
    "ACCENUMB",
    "COLLNUMB",
    "COLLCODE",
    "COLLNAME",
    "COLLINSTADDRESS",
    "COLLMISSID",
    "GENUS",
    "SPECIES",
    "SPAUTHOR",
    "SUBTAXA",
    "SUBTAUTHOR",
    "CROPNAME",
    "ACCENAME",
    "ACQDATE",
    "ORIGCTY",
    "COLLSITE",
    "DECLATITUDE",
    "LATITUDE",
    "DECLONGITUDE",
    "LONGITUDE",
    "COORDUNCERT",
    "COORDDATUM",
    "GEOREFMETH",
    "ELEVATION",
    "COLLDATE",
    "BREDCODE",
    "BREDNAME",
    "SAMPSTAT",
    "ANCEST",
    "COLLSRC",
    "DONORCODE",
    "DONORNAME",
    "DONORNUMB",
    "OTHERNUMB",
    "DUPLSITE",
    "DUPLINSTNAME",
    "STORAGE",
    "MLSSTAT",
    "REMARKS",
];

/// The descriptors that a season list has a column for, and its field.
const READ: [(&str, &str); 9] = [
    ("ACCENUMB", "number"),
    ("GENUS", "genus"),
    ("SPECIES", "species"),
    ("SUBTAXA", "subtaxon"),
    ("CROPNAME", "kind"),
    ("ACCENAME", "variety"),
    ("DONORNAME", "source"),
    ("DONORNUMB", "code"),
    ("REMARKS", "note"),
];

/// Whether a heading is the number of a sample, without which no list of descriptors is one.
pub fn is_number(heading: &str) -> bool {
    heading.trim() == "ACCENUMB"
}

/// The field of a season list that a descriptor fills, empty where none; `None` where the heading is no descriptor.
pub fn field(heading: &str) -> Option<&'static str> {
    let heading = heading.trim();
    FIELDS.contains(&heading).then(|| READ.iter().find(|(d, _)| *d == heading).map_or("", |(_, f)| f))
}

/// STORAGE: a seed collection.
const SEED_COLLECTION: &str = "10";

/// GET /packets/mcpd.csv
pub async fn packets(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let text = seed_list(&mut app.db.read().await?, &chrome.member.id).await?;
    let head = [
        (CONTENT_TYPE, "text/csv; charset=utf-8"),
        (CONTENT_DISPOSITION, "attachment; filename=\"packets-mcpd.csv\""),
    ];
    Ok((head, text).into_response())
}

/// A member's packets in the descriptors of gene banks.
pub async fn seed_list(conn: &mut Conn, member: &MemberId) -> Result<Vec<u8>, AppError> {
    list(&store::packets(conn, member).await?).map_err(|e| AppError::Internal(e.into()))
}

/// Packets of a running ring trial are left out: what they are is not known.
fn list(packets: &[Packet]) -> Result<Vec<u8>, csv::Error> {
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(FIELDS)?;
    for packet in packets.iter().filter(|p| !p.blind) {
        let known = known(packet);
        let cell = |field: &&str| known.iter().find(|(f, _)| f == field).map_or("", |(_, v)| v.as_str());
        out.write_record(FIELDS.iter().map(|field| guarded(cell(field))))?;
    }
    out.into_inner().map_err(|e| e.into_error().into())
}

/// Several values of a descriptor are parted by semicolons, so a value has none.
fn plain(text: &str) -> String {
    text.replace(';', ",").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn known(p: &Packet) -> Vec<(&'static str, String)> {
    let mut words = p.species.split_whitespace();
    let genus = words.next().unwrap_or_default();
    let species = words.next().unwrap_or(if genus.is_empty() { "" } else { "sp." });
    let (from, remark) = acquired(&p.source_sort);
    let own = p.source_sort == "saved by";
    vec![
        ("ACCENUMB", p.mark.clone()),
        ("GENUS", capital(genus)),
        ("SPECIES", species.to_lowercase()),
        ("SUBTAXA", words.collect::<Vec<_>>().join(" ")),
        ("CROPNAME", plain(&p.kind)),
        ("ACCENAME", plain(&p.variety)),
        ("ACQDATE", p.received_on.map(|d| d.format("%Y%m%d").to_string()).unwrap_or_default()),
        ("COLLSRC", from.to_owned()),
        ("DONORNAME", if own { String::new() } else { plain(&p.source) }),
        ("DONORNUMB", if own { String::new() } else { plain(&p.code) }),
        ("STORAGE", SEED_COLLECTION.to_owned()),
        ("REMARKS", remark.to_owned()),
    ]
}

/// COLLSRC of a source, and the remark that `other` asks for.
fn acquired(sort: &str) -> (&'static str, &'static str) {
    match sort {
        "merchant" => ("50", ""),
        "gene bank" => ("40", ""),
        "saved by" => ("23", ""),
        _ => ("99", "COLLSRC:seed swap"),
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters.flat_map(char::to_lowercase)).collect()
    })
}
