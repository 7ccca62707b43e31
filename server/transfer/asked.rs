//! A list on its way in: the file of the first step, kept for the next ones, and how it is to be read.

use super::columns::Column;
use super::matching::{Matching, OUT, worth};
use super::sheet::{self, Sheet};
use super::store::{self, File};
use crate::app::App;
use crate::db::Conn;
use crate::error::AppError;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::{Form, Upload};

/// Longer text is not shown for mending in the page.
const MENDED: usize = 60_000;

/// An opened list.
pub struct Asked {
    /// Under which it is kept.
    pub upload: String,
    pub file: String,
    /// Names of the sheets to choose from; none where there is only one.
    pub sheets: Vec<String>,
    pub sheet: Sheet,
    pub matching: Matching,
    /// The text, where it may be mended in the page.
    pub text: Option<String>,
}

/// A choice for a column of the sheet.
pub struct Choice {
    pub value: &'static str,
    pub words: &'static str,
    pub chosen: bool,
}

impl Asked {
    /// What the column at `i` of the sheet may be.
    pub fn choices(&self, i: &usize) -> Vec<Choice> {
        let meant = self.matching.places[*i].meant;
        let out = Choice { value: OUT, words: t!("transfer-leave-column-out"), chosen: meant.is_none() };
        let columns = self.matching.columns.iter().enumerate();
        let all = columns.map(|(n, c)| Choice { value: c.field, words: c.words(), chosen: meant == Some(n) });
        std::iter::once(out).chain(all).collect()
    }

    /// The number of the row in which the headings stand.
    pub fn head(&self) -> u64 {
        self.matching.head_line(&self.sheet)
    }
}

/// The file that came with the form or was kept before, as it came. Faults stand beside `file` and `list`.
pub async fn received(
    app: &App,
    chrome: &Chrome,
    sort: &str,
    upload: Upload,
) -> Result<(Form, Option<(String, File)>), AppError> {
    let Upload { mut form, files } = upload;
    let sent = files.into_iter().find(|f| f.field == "file");
    if sent.as_ref().is_some_and(|f| f.cut || f.bytes.len() > super::MOST_BYTES) {
        form.refuse("file", t!("transfer-file-is-large"));
        return Ok((form, None));
    }
    if sent.as_ref().is_some_and(|f| f.bytes.is_empty()) {
        form.refuse("file", t!("transfer-file-is-empty"));
        return Ok((form, None));
    }
    let typed = || (!form.value("list").trim().is_empty()).then(|| form.value("list").as_bytes().to_vec());
    let new = match sent {
        Some(sent) => Some(File { name: sent.name, bytes: sent.bytes }),
        None => typed().map(|bytes| File { name: String::new(), bytes }),
    };
    if let Some(file) = new {
        let mut conn = app.db.write().await?;
        let id = store::keep(&mut conn, &chrome.member.id, sort, &file, app.now()).await?;
        conn.commit().await?;
        return Ok((form, Some((id, file))));
    }
    let kept = kept(&mut app.db.read().await?, chrome, sort, &mut form).await?;
    Ok((form, kept))
}

/// The file that the form names; noted on it where it is gone.
pub async fn kept(
    conn: &mut Conn,
    chrome: &Chrome,
    sort: &str,
    form: &mut Form,
) -> Result<Option<(String, File)>, AppError> {
    let id = form.value("upload").to_owned();
    if id.is_empty() {
        return Ok(None);
    }
    let file = store::file(conn, &chrome.member.id, sort, &id).await?;
    if file.is_none() {
        form.refuse("file", t!("transfer-file-is-gone"));
    }
    Ok(file.map(|file| (id, file)))
}

/// Opens the file and matches its columns, or notes beside `file` why not.
pub async fn opened(
    (id, file): (String, File),
    columns: &'static [Column],
    form: &mut Form,
) -> Result<Option<Asked>, AppError> {
    let asked = form.clone();
    let read = away(move || {
        let mut book = sheet::open(file.bytes)?;
        let sheet = book.sheet(asked.value("sheet"), |sheet| worth(sheet, columns))?;
        if sheet.lines.is_empty() && !file.name.is_empty() && book.sheets().len() < 2 {
            return Err(t!("transfer-file-is-empty").to_owned());
        }
        let matching = Matching::of(&sheet, columns, &asked);
        let text = book.text().filter(|t| t.len() <= MENDED).map(str::to_owned);
        let sheets = Some(book.sheets()).filter(|s| s.len() > 1).unwrap_or_default();
        Ok(Asked { upload: id, file: file.name, sheets, sheet, matching, text })
    })
    .await?;
    match read {
        Ok(asked) => Ok(Some(asked)),
        Err(why) => {
            let why: String = why;
            form.refuse(if form.value("list").trim().is_empty() { "file" } else { "list" }, why);
            Ok(None)
        }
    }
}
