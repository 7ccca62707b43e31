//! GET /find?mark=: opens what a mark stands on, or offers the member's own marks that are near it.

use crate::app::App;
use crate::args;
use crate::db::ids::MemberId;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Redirect, Response};

const OWN: &str = "SELECT mark_key AS key, mark, 'packets' AS folder, id FROM packets WHERE owner_id = $1
    UNION ALL SELECT mark_key, mark, 'bags', id FROM bags WHERE owner_id = $1
    UNION ALL SELECT mark_key, mark, 'trays', id FROM trays WHERE owner_id = $1
    UNION ALL SELECT mark_key, mark, 'holders', id FROM holders WHERE owner_id = $1
    ORDER BY 1";

pub const ALL: &[&str] = &[OWN];

const NEAR_SHOWN: usize = 12;
const MOST_EDITS: usize = 2;

/// A thing of the member that has a mark.
#[derive(Debug, Clone, FromRow)]
pub struct Own {
    key: String,
    mark: String,
    folder: String,
    id: String,
}

#[derive(Template)]
#[template(path = "bags/find.html")]
struct Find<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    why: &'a str,
    near: &'a [Own],
}

/// GET /L/{mark}: the short address in codes on labels.
pub async fn scanned(_: Chrome, Path(mark): Path<String>) -> Result<Response, AppError> {
    let query = serde_html_form::to_string([("mark", mark)]).map_err(anyhow::Error::new)?;
    Ok(Redirect::to(&format!("/find?{query}")).into_response())
}

/// GET /find
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut form = Form::from_pairs(query);
    let typed = form.text("mark", 24);
    let key = marks::fold(without_vial(&typed));
    let mut conn = app.db.read().await?;
    let own = own(&mut conn, &chrome.member.id).await?;
    if let Some(found) = own.iter().find(|o| o.key == key) {
        return Ok(Redirect::to(&format!("/{}/{}", found.folder, found.id)).into_response());
    }
    let known = marks::find(&mut conn, &typed).await?;
    drop(conn);
    let why = match known {
        _ if key.is_empty() => t!("bags-type-the-mark").to_owned(),
        Some(marked) => t!("bags-not-yours", mark = marked.shown),
        None => t!("bags-no-such-mark", mark = typed),
    };
    page::page(&Find { chrome: &chrome, form: &form, why: &why, near: &near(&own, &key) })
}

/// `JB 8` of `JB 8, vial 2`, as the labels of vials say.
fn without_vial(typed: &str) -> &str {
    let vial = t!("bags-vial-words").split(' ').find_map(|word| typed.rfind(word));
    let before = vial.map_or(typed, |at| &typed[..at]);
    if before.trim().is_empty() { typed } else { before }
}

async fn own(conn: &mut Conn, member: &MemberId) -> Result<Vec<Own>, AppError> {
    Ok(conn.all(OWN, args![member]).await?)
}

/// Marks that begin with what was typed, or differ in one or two characters; nearest first.
fn near(own: &[Own], key: &str) -> Vec<Own> {
    if key.is_empty() {
        return Vec::new();
    }
    let far = |o: &Own| match o.key.starts_with(key) {
        true => 0,
        false => strsim::damerau_levenshtein(&o.key, key),
    };
    let mut all: Vec<(usize, &Own)> = own.iter().map(|o| (far(o), o)).collect();
    all.retain(|(edits, _)| *edits <= MOST_EDITS);
    all.sort_by(|a, b| (a.0, a.1.key.len(), &a.1.key).cmp(&(b.0, b.1.key.len(), &b.1.key)));
    all.into_iter().take(NEAR_SHOWN).map(|(_, o)| o.clone()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_label_of_a_vial_finds_its_packet() {
        for typed in ["JB 8, vial 2", "jb 8 vial 2", "JB 8 Vial 2"] {
            assert_eq!(marks::fold(without_vial(typed)), "JB8", "{typed}");
        }
        // these may be somebody's letters
        assert_eq!(without_vial("vial 3"), "vial 3");
    }

    #[test]
    fn near_marks_are_offered_nearest_first() {
        let own: Vec<Own> = ["JB42A", "JB42", "JB24", "JB999", "KR7"]
            .iter()
            .map(|k| Own { key: (*k).into(), mark: (*k).into(), folder: "bags".into(), id: String::new() })
            .collect();
        let found: Vec<String> = near(&own, "JB42").into_iter().map(|o| o.mark).collect();
        assert_eq!(found, ["JB42", "JB42A", "JB24"]);
        assert!(near(&own, "").is_empty());
    }
}
