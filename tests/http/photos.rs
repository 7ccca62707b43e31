use crate::support::{Browser, Club, Page};
use axum::body::Body;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, HOST, LOCATION, ORIGIN, X_CONTENT_TYPE_OPTIONS};
use axum::http::{HeaderMap, Request, StatusCode};
use hilum::args;
use hilum::db::ids::{BagId, TrialId};
use hilum::notebook::void;
use http_body_util::BodyExt;
use image::{DynamicImage, GenericImageView, ImageFormat, Rgb, RgbImage};
use std::io::Cursor;
use std::time::{Duration, Instant};

struct Bench {
    club: Club,
    jo: Browser,
    trial: TrialId,
    bag: BagId,
}

impl Bench {
    /// Jo has a bag of 10 seeds on paper since six days ago.
    async fn new() -> Self {
        let club = Club::new().await;
        let jo = club.grower("Jo", "JB").await;
        let packet = club.packet(&jo, "Kestrel", 100).await;
        let trial = club.trial(&jo, &packet, 40).await;
        let bag = club.bag(&jo, &trial, 10).await;
        club.pass_days(6);
        Self { club, jo, trial, bag }
    }

    fn path(&self) -> String {
        format!("/bags/{}", self.bag)
    }

    async fn page(&self) -> Page {
        self.jo.get(&self.path()).await
    }

    /// Sends the count form of `page` with a file, as a browser does.
    async fn count(&self, page: &Page, fields: &[(&str, &str)], photo: &[u8]) -> (StatusCode, Page) {
        let action = format!("{}/count", self.path());
        let pairs = page.form(&action).filled(fields);
        let response = self.jo.raw(sent(&action, &pairs, photo)).await;
        let status = response.status();
        let to = response.headers().get(LOCATION).map(|v| v.to_str().unwrap().to_owned());
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.unwrap().to_bytes();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        match to {
            Some(to) => (status, self.jo.get(&to).await),
            None => (status, Page::new(action, status, parts.headers, text)),
        }
    }

    async fn bytes(&self, by: &Browser, path: &str) -> (StatusCode, HeaderMap, Vec<u8>) {
        let response = by.raw(Request::get(path).body(Body::empty()).unwrap()).await;
        let (parts, body) = response.into_parts();
        (parts.status, parts.headers, body.collect().await.unwrap().to_bytes().to_vec())
    }

    async fn kept(&self) -> i64 {
        #[derive(hilum::db::FromRow)]
        struct Row {
            n: i64,
        }
        let mut conn = self.club.app.db.read().await.unwrap();
        conn.one::<Row>("SELECT COUNT(*) AS n FROM photos", args![]).await.unwrap().n
    }
}

/// The request a browser makes of a form with a photo.
fn sent(action: &str, pairs: &[(String, String)], photo: &[u8]) -> Request<Body> {
    let mut body = Vec::new();
    for (name, value) in pairs.iter().filter(|(n, _)| n != "photo") {
        let head = format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n");
        body.extend(head.as_bytes());
    }
    body.extend(b"--x\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"IMG_1.jpg\"\r\n");
    body.extend(b"Content-Type: image/jpeg\r\n\r\n");
    body.extend(photo);
    body.extend(b"\r\n--x--\r\n");
    Request::post(action)
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "multipart/form-data; boundary=x")
        .body(Body::from(body))
        .unwrap()
}

/// The left half red, the right half blue.
fn picture(width: u32, height: u32) -> DynamicImage {
    let halves =
        RgbImage::from_fn(
            width,
            height,
            |x, _| {
                if x < width / 2 { Rgb([220, 20, 20]) } else { Rgb([20, 20, 220]) }
            },
        );
    DynamicImage::ImageRgb8(halves)
}

fn file(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, format).unwrap();
    out.into_inner()
}

/// Big-endian TIFF fields as Exif holds them (Exif 2.3, 4.6): tag, type, count, value or offset.
fn ifd(fields: &[(u16, u16, u32, u32)]) -> Vec<u8> {
    let mut out = u16::try_from(fields.len()).unwrap().to_be_bytes().to_vec();
    for (tag, kind, count, value) in fields {
        out.extend(tag.to_be_bytes());
        out.extend(kind.to_be_bytes());
        out.extend(count.to_be_bytes());
        out.extend(value.to_be_bytes());
    }
    out.extend([0; 4]);
    out
}

/// A JPEG lying on its side (orientation 6: turn it 90 degrees clockwise) that says where it was taken.
fn located(picture: &DynamicImage) -> Vec<u8> {
    let mut tiff = b"MM\0*\0\0\0\x08".to_vec();
    // GPS latitude as three fractions stands behind both lists
    let gps_at = 8 + 2 + 3 * 12 + 4;
    let place_at = gps_at + 2 + 2 * 12 + 4;
    let maker = u32::from_be_bytes(*b"SECR");
    tiff.extend(ifd(&[(0x010f, 2, 4, maker), (0x0112, 3, 1, 6 << 16), (0x8825, 4, 1, gps_at)]));
    tiff.extend(ifd(&[(0x0001, 2, 2, u32::from_be_bytes(*b"N\0\0\0")), (0x0002, 5, 3, place_at)]));
    for n in [52u32, 1, 31, 1, 4242, 100] {
        tiff.extend(n.to_be_bytes());
    }
    let mut exif = b"Exif\0\0".to_vec();
    exif.extend(tiff);
    let jpeg = file(picture, ImageFormat::Jpeg);
    let mut out = jpeg[..2].to_vec();
    out.extend([0xff, 0xe1]);
    out.extend(u16::try_from(exif.len() + 2).unwrap().to_be_bytes());
    out.extend(exif);
    out.extend(&jpeg[2..]);
    out
}

/// The application and comment segments of a JPEG, up to its first scan (ISO/IEC 10918-1, B.1.1.3).
fn segments(jpeg: &[u8]) -> Vec<u8> {
    assert_eq!(&jpeg[..2], [0xff, 0xd8]);
    let (mut at, mut found) = (2, Vec::new());
    while jpeg[at + 1] != 0xda {
        assert_eq!(jpeg[at], 0xff);
        found.push(jpeg[at + 1]);
        at += 2 + usize::from(u16::from_be_bytes([jpeg[at + 2], jpeg[at + 3]]));
    }
    found
}

fn holds(bytes: &[u8], text: &[u8]) -> bool {
    bytes.windows(text.len()).any(|w| w == text)
}

#[tokio::test]
async fn a_photo_that_waited_on_the_phone_is_kept_once_with_its_count() {
    let b = Bench::new().await;
    let photo = file(&picture(640, 480), ImageFormat::Jpeg);
    let action = format!("{}/count", b.path());
    let pairs = b.page().await.form(&action).filled(&[("rooted", "2")]);
    for time in ["first", "again, since the answer was lost"] {
        let mut request = sent(&action, &pairs, &photo);
        request.headers_mut().insert("hilum-outbox", b.jo.id().0.parse().unwrap());
        let response = b.jo.raw(request).await;
        assert_eq!(response.status(), StatusCode::OK, "{time}");
    }
    assert_eq!(b.kept().await, 1);
    b.page().await.says("8 seeds still on paper");
}

#[tokio::test]
async fn the_phone_hears_what_is_wrong_with_a_photo() {
    let b = Bench::new().await;
    let action = format!("{}/count", b.path());
    let pairs = b.page().await.form(&action).filled(&[("rooted", "2")]);
    for (photo, why) in [(&b"no photo"[..], "not a JPEG, PNG or WebP photo"), (b"", "This photo is empty.")] {
        let mut request = sent(&action, &pairs, photo);
        request.headers_mut().insert("hilum-outbox", b.jo.id().0.parse().unwrap());
        let response = b.jo.raw(request).await;
        assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
        let bytes = response.into_body().collect().await.unwrap().to_bytes();
        let told: serde_json::Value = serde_json::from_slice(&bytes).unwrap();
        assert_eq!(told["errors"][0]["field"], "photo", "{told}");
        assert!(told["errors"][0]["message"].as_str().unwrap().contains(why), "{told}");
    }
    b.page().await.says("10 seeds still on paper");
}

#[tokio::test]
async fn a_photo_goes_with_a_count_upright_and_without_its_place() {
    let b = Bench::new().await;
    let photo = located(&picture(2400, 1200));
    assert!(holds(&photo, b"Exif") && holds(&photo, &4242u32.to_be_bytes()), "the test's own file tells");
    let (status, page) = b.count(&b.page().await, &[("rooted", "3")], &photo).await;
    assert_eq!(status, StatusCode::SEE_OTHER);
    page.says("Counted 3 rooted, 0 dead, with a photo");
    let alt = "Photo of JB 1 a, day 6";
    assert!(page.body.contains(&format!("alt=\"{alt}\" width=\"160\" height=\"320\"")), "{}", page.body);
    let trial = b.jo.get(&format!("/trials/{}", b.trial)).await;
    assert!(trial.body.contains(alt));
    let large = page.body.split("class=\"photo\" href=\"").nth(1).unwrap().split('"').next().unwrap();
    for (path, size) in [(large.to_owned(), (800, 1600)), (format!("{large}/small"), (160, 320))] {
        let (status, headers, bytes) = b.bytes(&b.jo, &path).await;
        assert_eq!(status, StatusCode::OK);
        assert_eq!(headers[CONTENT_TYPE], "image/jpeg");
        assert_eq!(headers[X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert!(headers[CACHE_CONTROL].to_str().unwrap().starts_with("private"));
        assert!(!holds(&bytes, b"Exif") && !holds(&bytes, b"SECR"), "{path} holds metadata");
        let extra: Vec<u8> =
            segments(&bytes).into_iter().filter(|m| (0xe1..=0xef).contains(m) || *m == 0xfe).collect();
        assert!(extra.is_empty(), "segments {extra:x?} of {path}");
        let seen = image::load_from_memory(&bytes).unwrap();
        assert_eq!(seen.dimensions(), size);
        // turned clockwise, what was left is on top
        let (top, bottom) = (seen.get_pixel(size.0 / 2, 9), seen.get_pixel(size.0 / 2, size.1 - 9));
        assert!(top[0] > 150 && top[2] < 90, "{top:?}");
        assert!(bottom[2] > 150 && bottom[0] < 90, "{bottom:?}");
    }
}

#[tokio::test]
async fn png_and_webp_are_taken_and_small_photos_stay_as_small() {
    for format in [ImageFormat::Png, ImageFormat::WebP, ImageFormat::Jpeg] {
        let b = Bench::new().await;
        let (_, page) = b.count(&b.page().await, &[("rooted", "1")], &file(&picture(90, 60), format)).await;
        page.says("with a photo");
        assert!(page.body.contains("width=\"90\" height=\"60\""), "{format:?}");
    }
}

#[tokio::test]
async fn the_same_form_with_its_photo_counts_once_and_another_photo_is_another_form() {
    let b = Bench::new().await;
    let page = b.page().await;
    let photo = file(&picture(90, 60), ImageFormat::Jpeg);
    for _ in 0..2 {
        let (status, after) = b.count(&page, &[("rooted", "3")], &photo).await;
        assert_eq!(status, StatusCode::SEE_OTHER);
        after.says("7 seeds still on paper");
    }
    assert_eq!(b.kept().await, 1);
    let (status, _) = b.count(&page, &[("rooted", "3")], &file(&picture(60, 90), ImageFormat::Jpeg)).await;
    assert_eq!(status, StatusCode::CONFLICT);
}

#[tokio::test]
async fn a_file_that_is_no_photo_is_refused_beside_its_field_and_nothing_is_lost() {
    let b = Bench::new().await;
    let jpeg = file(&picture(400, 300), ImageFormat::Jpeg);
    let gif = b"GIF89a\x01\0\x01\0\x80\0\0\0\0\0\xff\xff\xff,\0\0\0\0\x01\0\x01\0\0\x02\x02D\x01\0;".to_vec();
    let svg = b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>".to_vec();
    let bad = [
        (b"no photo at all".to_vec(), "not a JPEG, PNG or WebP"),
        (gif, "not a JPEG, PNG or WebP"),
        (svg, "not a JPEG, PNG or WebP"),
        (jpeg[..60].to_vec(), "cannot be read"),
        (vec![0x55; 12 * 1024 * 1024 + 1], "more than 12 MB"),
    ];
    for (bytes, error) in bad {
        let (status, page) =
            b.count(&b.page().await, &[("rooted", "3"), ("note", "first roots")], &bytes).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{error}");
        page.refuses("photo", error);
        assert!(page.body.contains("value=\"3\"") && page.body.contains("first roots"), "{error}");
    }
    let (_, page) = b.count(&b.page().await, &[("rooted", "three")], &jpeg).await;
    page.refuses("rooted", "A whole number").refuses("photo", "Choose the photo again");
    let (_, page) = b.count(&b.page().await, &[("rooted", "")], &jpeg).await;
    page.refuses("rooted", "Type what is new").refuses("photo", "Choose the photo again");
    assert_eq!(b.kept().await, 0);
    let (_, page) = b.count(&b.page().await, &[("rooted", "2")], b"").await;
    page.refuses("photo", "This photo is empty.");
    let action = format!("{}/count", b.path());
    let page = b.jo.submit(&b.page().await, &action, &[("rooted", "2")]).await;
    page.says("Counted 2 rooted").says_not("with a photo");
}

/// A PNG whose header claims this size (PNG, 11.2.2), with next to nothing behind it.
fn claims(width: u32, height: u32) -> Vec<u8> {
    let mut png = file(&picture(2, 2), ImageFormat::Png);
    png[16..20].copy_from_slice(&width.to_be_bytes());
    png[20..24].copy_from_slice(&height.to_be_bytes());
    let sum = crc(&png[12..29]);
    png[29..33].copy_from_slice(&sum.to_be_bytes());
    png
}

/// The check sum of a PNG chunk (PNG, annex D).
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0u32, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |s, _| if s & 1 == 1 { 0xedb8_8320 ^ (s >> 1) } else { s >> 1 })
    })
}

#[tokio::test]
async fn a_bomb_is_refused_by_its_header() {
    assert_eq!(crc(b"IEND"), 0xae42_6082, "the sum of an empty IEND chunk, as every PNG ends with");
    let b = Bench::new().await;
    for (width, height) in [(30_000, 30_000), (15_000, 15_000), (4_000_000_000, 1), (16_000, 3200)] {
        let began = Instant::now();
        let (status, page) = b.count(&b.page().await, &[("rooted", "3")], &claims(width, height)).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{width} x {height}");
        let error = page.all("#f-photo-error").join(" ");
        assert!(error.contains("50 million pixels") || error.contains("cannot be read"), "{error}");
        assert!(began.elapsed() < Duration::from_secs(2), "{width} x {height}: {:?}", began.elapsed());
    }
}

#[tokio::test]
async fn only_who_may_see_the_bag_sees_its_photos_and_a_voided_entry_takes_its_photo_along() {
    let b = Bench::new().await;
    let photo = file(&picture(90, 60), ImageFormat::Jpeg);
    let (_, page) = b.count(&b.page().await, &[("mould", "yes")], &photo).await;
    page.says("No look was recorded, mould seen, with a photo");
    let large =
        page.body.split("class=\"photo\" href=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    let small = format!("{large}/small");
    let kim = b.club.grower("Kim", "KR").await;
    let lea = b.club.organiser("Lea", "LM").await;
    for path in [&large, &small] {
        assert_eq!(b.bytes(&b.jo, path).await.0, StatusCode::OK);
        for other in [&kim, &lea] {
            assert_eq!(b.bytes(other, path).await.0, StatusCode::NOT_FOUND);
        }
        assert_eq!(b.bytes(&b.club.stranger(), path).await.0, StatusCode::SEE_OTHER);
    }
    let entry = page.link("Take back");
    let entry = entry.strip_prefix("/entries/").unwrap().strip_suffix("/void").unwrap();
    let mut conn = b.club.app.db.write().await.unwrap();
    void::entry(&mut conn, b.jo.id(), entry, "wrong bag", b.club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    for path in [&large, &small] {
        assert_eq!(b.bytes(&b.jo, path).await.0, StatusCode::NOT_FOUND);
    }
    assert!(!b.page().await.body.contains("Photo of"));
    assert!(!b.jo.get(&format!("/trials/{}", b.trial)).await.body.contains("Photo of"));
}
