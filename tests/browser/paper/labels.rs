use crate::support::{Box4, Phone, Print, Program};
use image::GrayImage;
use image::imageops::crop_imm;

/// How far off a corner may be, in mm.
const OFF: f64 = 0.3;
/// Dots to the inch of common label printers.
pub const PRINTERS: [u32; 2] = [203, 300];

/// A sheet as its maker would measure it, in mm: the page, the first label's corner, a label, the pitch, how many
/// across and down; worked out by hand, not by the program. And the rule's length.
struct Sheet {
    id: &'static str,
    page: (f64, f64),
    first: (f64, f64),
    size: (f64, f64),
    pitch: (f64, f64),
    counts: (u32, u32),
    rule: f64,
}

#[rustfmt::skip]
const SHEETS: [Sheet; 7] = [
    Sheet { id: "a4-3x8", page: (210.0, 297.0), first: (0.0, 0.5), size: (70.0, 37.0), pitch: (70.0, 37.0), counts: (3, 8), rule: 100.0 },
    Sheet { id: "letter-3x10", page: (215.9, 279.4), first: (4.7625, 12.7), size: (66.675, 25.4), pitch: (69.85, 25.4), counts: (3, 10), rule: 100.0 },
    Sheet { id: "a4-3x7", page: (210.0, 297.0), first: (7.21, 15.15), size: (63.5, 38.1), pitch: (66.04, 38.1), counts: (3, 7), rule: 100.0 },
    Sheet { id: "a4-2x7", page: (210.0, 297.0), first: (4.65, 15.15), size: (99.1, 38.1), pitch: (101.6, 38.1), counts: (2, 7), rule: 100.0 },
    Sheet { id: "a4-5x13", page: (210.0, 297.0), first: (4.67, 10.7), size: (38.1, 21.2), pitch: (40.64, 21.2), counts: (5, 13), rule: 100.0 },
    Sheet { id: "roll-62x29", page: (62.0, 29.0), first: (0.0, 0.0), size: (62.0, 29.0), pitch: (62.0, 29.0), counts: (1, 1), rule: 50.0 },
    Sheet { id: "roll-57x32", page: (57.0, 32.0), first: (0.0, 0.0), size: (57.0, 32.0), pitch: (57.0, 32.0), counts: (1, 1), rule: 20.0 },
];

/// As typed in the form below, with its nudge.
const OWN: Sheet = Sheet {
    id: "",
    page: (180.0, 250.0),
    first: (6.0 + 1.3, 9.5 - 0.7),
    size: (52.0, 32.0),
    pitch: (54.5, 34.0),
    counts: (3, 7),
    rule: 100.0,
};

impl Sheet {
    /// Each label's place, along the rows.
    fn places(&self) -> Vec<Box4> {
        let place = |row: u32, column: u32| {
            let at = |first: f64, pitch: f64, n: u32| first + pitch * f64::from(n);
            let (x, y) = (at(self.first.0, self.pitch.0, column), at(self.first.1, self.pitch.1, row));
            [x, y, self.size.0, self.size.1]
        };
        (0..self.counts.1).flat_map(|row| (0..self.counts.0).map(move |column| place(row, column))).collect()
    }

    fn is_the_paper_of(&self, print: &Print) {
        let off = (print.size.0 - self.page.0).abs().max((print.size.1 - self.page.1).abs());
        // a browser is asked for a page that it does not shrink, which on rolls is not quite the label's size
        let most = if self.counts == (1, 1) { 0.9 } else { OFF };
        assert!(off < most, "{}: the paper is {:?}, not {:?}", self.id, print.size, self.page);
    }
}

/// The largest distance of a corner from where it should be, in mm.
fn off(found: &Box4, wanted: &Box4) -> f64 {
    let corners =
        |b: &Box4| [(b[0], b[1]), (b[0] + b[2], b[1]), (b[0], b[1] + b[3]), (b[0] + b[2], b[1] + b[3])];
    let apart = |((x, y), (a, b)): ((f64, f64), (f64, f64))| (x - a).hypot(y - b);
    corners(found).into_iter().zip(corners(wanted)).map(apart).fold(0.0, f64::max)
}

/// Fails unless each place has its box; gives the largest distance.
fn in_place(name: &str, found: &[Box4], places: &[Box4]) -> f64 {
    assert_eq!(found.len(), places.len(), "{name}: boxes on the page");
    let worst = |place: &Box4| found.iter().map(|b| off(b, place)).fold(f64::MAX, f64::min);
    let worst = places.iter().map(worst).fold(0.0, f64::max);
    assert!(worst <= OFF, "{name}: a corner is {worst:.3} mm off");
    worst
}

#[tokio::test(flavor = "multi_thread")]
async fn labels_lie_where_the_sheet_has_them_and_every_code_is_read_back() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    phone.tap_words("Print labels").await;
    phone.look("labels-choose").await;
    phone.tap_words("Other sheets").await;
    phone.look("label-sheets").await;
    for sheet in &SHEETS {
        phone.goto(&format!("/labels/sheets/{}/test", sheet.id)).await;
        tests_true(&phone, sheet, sheet.id).await;
    }
    let own = measured(&phone).await;
    tests_true(&phone, &OWN, "own").await;
    let mut read = 0;
    for (sheet, id) in [
        (&SHEETS[0], SHEETS[0].id),
        (&SHEETS[1], SHEETS[1].id),
        (&SHEETS[5], SHEETS[5].id),
        (&OWN, own.as_str()),
    ] {
        read += reads_back(&phone, &program, sheet, id).await;
    }
    println!("{read} codes read back at {PRINTERS:?} dpi");
    assert!(read > 100, "only {read} codes");
    phone.close().await;
}

/// The test page's outlines lie in place, and its rule is as long as it says.
async fn tests_true(phone: &Phone, sheet: &Sheet, name: &str) {
    let print = phone.print(&format!("test-page-{name}")).await;
    assert_eq!(print.pages.len(), 1, "{name}");
    sheet.is_the_paper_of(&print);
    let ink = print.ink(1);
    let worst = in_place(name, &ink.boxes(), &sheet.places());
    assert!(print.says(&format!("{} mm; nudge", sheet.rule)), "{name}: {:?}", print.pages);
    assert!(ink.widths().iter().any(|w| (w - sheet.rule).abs() < OFF), "{name}: the rule is not so long");
    println!("{name}: {} labels, corners within {worst:.3} mm", sheet.places().len());
}

/// Measures a sheet of one's own through the pages; gives its id.
async fn measured(phone: &Phone) -> String {
    phone.goto("/labels/sheets").await;
    phone.tap_words("Measure a label sheet").await;
    phone.tap_words("Keep this sheet").await;
    phone.says("Please look again").await;
    phone.look("label-sheet-refused").await;
    let typed = [
        ("name", "White, shed printer"),
        ("page_width", "180"),
        ("page_height", "250"),
        ("from_left", "6"),
        ("from_top", "9.5"),
        ("width", "52"),
        ("height", "32"),
        ("across", "3"),
        ("down", "7"),
        ("pitch_x", "54.5"),
        ("pitch_y", "34"),
        ("nudge_x", "1.3"),
        ("nudge_y", "-0.7"),
    ];
    phone.tick("#f-page", "another").await;
    for (name, value) in typed {
        phone.fill(&format!("#f-{name}"), value).await;
    }
    phone.tap_words("Keep this sheet").await;
    phone.says("Test page of White, shed printer").await;
    phone.look("label-test-page").await;
    phone.path().await.split('/').nth(3).unwrap().to_owned()
}

/// Prints every label of the member on this sheet, and reads each code at either resolution within its label's
/// place; how many were read.
async fn reads_back(phone: &Phone, program: &Program, sheet: &Sheet, id: &str) -> usize {
    phone.goto("/labels").await;
    phone.tick_all("main input[type=checkbox]").await;
    let script = "document.querySelector('#sheet').value = arguments[0]; return ''";
    phone.reads(script, id).await;
    phone.tap_words("Show the labels").await;
    phone.says("labels. Print from").await;
    phone.hides("No code on").await;
    let print = phone.print(&format!("labels-{id}")).await;
    sheet.is_the_paper_of(&print);
    if id == SHEETS[0].id {
        phone.look("labels").await;
    }
    let titles = phone
        .reads("return [...document.querySelectorAll('.one title')].map(t => t.textContent).join('\\n')", "")
        .await;
    let marks: Vec<&str> = titles.lines().map(|t| t.strip_prefix("Label of ").unwrap()).collect();
    let places = sheet.places();
    assert_eq!(print.pages.len(), marks.len().div_ceil(places.len()), "{id}: pages");
    let mut read = 0;
    for (n, marks) in (1..).zip(marks.chunks(places.len())) {
        in_place(
            id,
            &print.ink(n).boxes().into_iter().filter(|b| b[2] > 27.0).collect::<Vec<_>>(),
            &places[..marks.len()],
        );
        for dpi in PRINTERS {
            let dots = print.dots(n, dpi);
            for (mark, place) in marks.iter().zip(&places) {
                let address = code(&dots, ends(place)[1], dpi);
                let address = address.unwrap_or_else(|| panic!("{id}, {dpi} dpi: no code of {mark} is read"));
                read += 1;
                if is_of(&address, &program.base, mark) == "L" {
                    let other = code(&dots, ends(place)[0], dpi);
                    assert_eq!(other.as_ref(), Some(&address), "{id}, {dpi} dpi: the other code of {mark}");
                    read += 1;
                }
            }
        }
    }
    read
}

/// The left and the right end of a label, as a phone sees one of two codes.
fn ends(place: &Box4) -> [Box4; 2] {
    let [x, y, width, height] = *place;
    [[x, y, width * 0.6, height], [x + width * 0.4, y, width * 0.6, height]]
}

/// Fails unless an address is of the thing with this mark; gives what sort of thing it is.
fn is_of<'a>(address: &'a str, base: &str, mark: &str) -> &'a str {
    let (rest, key) = address.rsplit_once('/').unwrap();
    let (host, sort) = rest.rsplit_once('/').unwrap();
    assert_eq!(host.to_lowercase(), base, "{mark}");
    let key = if sort == "V" || sort == "P" { key.rsplit_once('-').unwrap().0 } else { key };
    assert_eq!(key, hilum::marks::fold(mark), "{address} on the label of {mark}");
    sort
}

/// What a foreign decoder reads within this place of a page.
pub fn code(dots: &GrayImage, place: Box4, dpi: u32) -> Option<String> {
    let dot = |mm: f64| (mm.max(0.0) * f64::from(dpi) / 25.4).round() as u32;
    let cut = crop_imm(dots, dot(place[0]), dot(place[1]), dot(place[2]), dot(place[3])).to_image();
    // the same dots, each drawn larger where the decoder does not find its corners at once
    (1..=3).find_map(|times| decoded(&cut, times))
}

fn decoded(cut: &GrayImage, times: u32) -> Option<String> {
    let size = |length: u32| (length * times) as usize;
    let grey = |x: usize, y: usize| cut.get_pixel(x as u32 / times, y as u32 / times).0[0];
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(size(cut.width()), size(cut.height()), grey);
    image.detect_grids().iter().find_map(|grid| grid.decode().ok()).map(|(_, text)| text)
}
