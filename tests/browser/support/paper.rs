use super::{Ink, Phone, kept};
use image::GrayImage;
use serde_json::json;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A printed page as PDF.
pub struct Print {
    /// Width and height in mm.
    pub size: (f64, f64),
    /// The words of each page.
    pub pages: Vec<String>,
    path: PathBuf,
}

impl Phone {
    /// Prints the page as PDF with the page's own paper size; `name` is that of the kept file.
    pub async fn print(&self, name: &str) -> Print {
        let how = json!({ "preferCSSPageSize": true, "printBackground": false });
        let pdf = self.cdp("Page.printToPDF", how).await;
        let bytes = data_encoding::BASE64.decode(pdf["data"].as_str().unwrap().as_bytes()).unwrap();
        let path = kept(&format!("{name}.pdf"));
        std::fs::write(&path, bytes).unwrap();
        let file = path.to_str().unwrap();
        // the words of each page end in a form feed
        let words = run("pdftotext", &["-layout", file, "-"]);
        let pages =
            words.strip_suffix('\u{c}').expect("pdftotext ends a page").split('\u{c}').map(str::to_owned);
        Print { size: size(&run("pdfinfo", &[file])), pages: pages.collect(), path }
    }
}

impl Print {
    /// Fails where the paper is not `a4` or `letter`, or a page holds next to nothing.
    pub fn is_sound(&self, paper: &str) {
        self.is_of(paper, if paper == "letter" { (215.9, 279.4) } else { (210.0, 297.0) });
    }

    /// The same for paper that lies on its side.
    pub fn is_wide(&self, paper: &str) {
        self.is_of(paper, if paper == "letter" { (279.4, 215.9) } else { (297.0, 210.0) });
    }

    fn is_of(&self, paper: &str, (width, height): (f64, f64)) {
        let off = (self.size.0 - width).abs().max((self.size.1 - height).abs());
        assert!(off < 0.5, "{paper} is {width} by {height} mm, not {:?}", self.size);
        for (n, words) in self.pages.iter().enumerate() {
            let letters = words.chars().filter(|c| c.is_alphanumeric()).count();
            assert!(letters > 40, "page {} of {} is all but empty: {words}", n + 1, self.pages.len());
        }
    }

    /// What is drawn on a page, from 1, as vectors.
    pub fn ink(&self, page: usize) -> Ink {
        let (n, file) = (page.to_string(), self.path.to_str().unwrap());
        Ink::read(&run("pdftocairo", &["-svg", "-f", &n, "-l", &n, file, "-"]))
    }

    /// A page, from 1, as a printer of so many dots to the inch puts it on paper; kept beside the PDF.
    pub fn dots(&self, page: usize, dpi: u32) -> GrayImage {
        let (n, file) = (page.to_string(), self.path.to_str().unwrap());
        let out = self.path.with_extension(format!("{page}-{dpi}"));
        let (dpi, stem) = (dpi.to_string(), out.to_str().unwrap());
        run("pdftoppm", &["-r", &dpi, "-gray", "-png", "-singlefile", "-f", &n, "-l", &n, file, stem]);
        image::open(Path::new(&format!("{stem}.png"))).unwrap().to_luma8()
    }

    pub fn says(&self, words: &str) -> bool {
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        self.pages.iter().any(|page| flat(page).contains(words))
    }
}

fn run(program: &str, args: &[&str]) -> String {
    let out = Command::new(program).args(args).output().unwrap();
    assert!(out.status.success(), "{program}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// `Page size: 594.96 x 841.92 pts (A4)`, in mm.
fn size(info: &str) -> (f64, f64) {
    let line = info.lines().find_map(|l| l.strip_prefix("Page size:")).expect("pdfinfo tells the size");
    let points: Vec<f64> = line.split_whitespace().filter_map(|word| word.parse().ok()).collect();
    (points[0] * 25.4 / 72.0, points[1] * 25.4 / 72.0)
}
