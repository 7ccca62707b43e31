use crate::app::App;
use crate::error::AppError;
use crate::stock::model::Packet;
use crate::stock::{names, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

fn sorts() -> [(&'static str, &'static str); 3] {
    [("mark", t!("stock-by-mark")), ("variety", t!("stock-by-variety")), ("age", t!("stock-by-age"))]
}

#[derive(Template)]
#[template(path = "stock/packets.html")]
struct List<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    kinds: Vec<(String, String)>,
    sorts: [(&'a str, &'a str); 3],
    packets: Vec<Packet>,
    shown: String,
    any: bool,
}

/// GET /packets?q=&kind=&sort=&hide=
pub async fn list(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let form = Form::from_pairs(query);
    let mut all = store::packets(&mut app.db.read().await?, &chrome.member.id).await?;
    let total = all.len();
    let kinds = kinds(&all);
    all.retain(|p| wanted(p, &form));
    sort(&mut all, form.value("sort"));
    let shown = if all.len() == total {
        t!("stock-packets", n = total)
    } else {
        t!("stock-packets-of", shown = all.len(), n = total)
    };
    let any = total > 0;
    page::page(&List { chrome: &chrome, form: &form, kinds, sorts: sorts(), packets: all, shown, any })
}

fn kinds(packets: &[Packet]) -> Vec<(String, String)> {
    let mut kinds: Vec<(String, String)> =
        packets.iter().map(|p| (p.kind_id.0.clone(), p.kind.clone())).collect();
    kinds.sort_by(|a, b| a.1.cmp(&b.1));
    kinds.dedup();
    kinds.insert(0, (String::new(), t!("stock-all-kinds").to_owned()));
    kinds
}

fn wanted(p: &Packet, form: &Form) -> bool {
    let kind = form.value("kind");
    if !kind.is_empty() && p.kind_id.0 != kind || form.ticked("hide") && p.balance == 0 {
        return false;
    }
    let q = form.value("q").trim();
    if q.is_empty() {
        return true;
    }
    let text = format!(
        "{} {} {} {} {} {} {} {} {}",
        p.mark, p.kind, p.variety, p.counts_as, p.species, p.source, p.year, p.code, p.place
    );
    let text = names::key(&text);
    names::key(q).split(' ').all(|word| text.contains(word))
}

fn sort(packets: &mut [Packet], by: &str) {
    let mark = |p: &Packet| natural(&p.mark);
    match by {
        "variety" => packets.sort_by_cached_key(|p| (names::key(&p.variety), mark(p))),
        "age" => {
            packets.sort_by_cached_key(|p| (if p.year == 0 { i64::MAX } else { p.year }, mark(p)));
        }
        _ => packets.sort_by_cached_key(mark),
    }
}

/// `JB 9` before `JB 10`.
fn natural(mark: &str) -> (String, i64) {
    let (letters, number) = mark.rsplit_once(' ').unwrap_or((mark, ""));
    (letters.to_owned(), number.parse().unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_sort_as_people_count() {
        assert!(natural("JB 9") < natural("JB 10"));
        assert!(natural("JA 10") < natural("JB 9"));
    }
}
