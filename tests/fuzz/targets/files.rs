//! Bodies that carry files, and photos.

use axum::body::Bytes;
use axum::http::header::CONTENT_TYPE;
use axum::http::{HeaderMap, HeaderValue};
use hilum::photos::model::remade;
use hilum::web::forms::{Upload, is_multipart};
use std::sync::LazyLock;
use tokio::runtime::Runtime;

/// The first line is the type of the body, the rest the body.
pub fn uploads(data: &[u8]) {
    static HERE: LazyLock<Runtime> =
        LazyLock::new(|| tokio::runtime::Builder::new_current_thread().build().expect("a runtime"));
    let (head, body) = super::first_line(data);
    let Ok(kind) = HeaderValue::from_bytes(head) else { return };
    let headers = HeaderMap::from_iter([(CONTENT_TYPE, kind)]);
    let read = HERE.block_on(Upload::from_body(&headers, Bytes::copy_from_slice(body)));
    let Ok(upload) = read else { return };
    assert!(is_multipart(&headers) || upload.files.is_empty());
    assert!(upload.files.iter().map(|f| f.bytes.len()).sum::<usize>() <= body.len());
    let (form, files) = upload.sealed();
    let sealed = files.iter().filter(|f| f.field != "key" && f.field != "csrf");
    assert!(form.pairs().count() >= sealed.count());
}

/// A photo: JPEG, PNG or WebP.
pub fn photos(data: &[u8]) {
    match remade(data) {
        Ok(photo) => {
            assert!(photo.small_width.max(photo.small_height) <= 320);
            assert!([&photo.jpeg, &photo.small].iter().all(|jpeg| jpeg.starts_with(b"\xff\xd8\xff")));
        }
        Err(why) => assert!(!why.words().is_empty()),
    }
}
