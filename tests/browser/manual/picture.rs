//! A picture with few colours, small enough to be in the program, that carries the names it shows.

use image::RgbaImage;
use std::collections::HashMap;
use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};

/// Colours of a picture: four bits each.
const COLOURS: usize = 16;
/// The name of the words within the file.
const WORDS: &str = "Names";

type Colour = [u8; 3];

pub struct Picture {
    size: (u32, u32),
    palette: Vec<Colour>,
    /// The place in the palette of each dot.
    dots: Vec<u8>,
}

impl Picture {
    pub fn folder() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("static/manual")
    }

    /// Made of a PNG of any colours.
    pub fn of(png: &[u8]) -> Self {
        let image: RgbaImage = image::load_from_memory(png).unwrap().to_rgba8();
        let colours: Vec<Colour> = image.pixels().map(|p| [p[0], p[1], p[2]]).collect();
        let palette = palette(&colours);
        let mut known = HashMap::new();
        let dots =
            colours.iter().map(|c| *known.entry(*c).or_insert_with(|| nearest(&palette, *c).0)).collect();
        Self { size: image.dimensions(), palette, dots }
    }

    /// Writes the file, with the names that stand on the page.
    pub fn keep(&self, file: &str, names: &str) {
        let out = File::create(Self::folder().join(file)).unwrap();
        let mut encoder = png::Encoder::new(out, self.size.0, self.size.1);
        encoder.set_color(png::ColorType::Indexed);
        encoder.set_depth(png::BitDepth::Four);
        encoder.set_palette(self.palette.concat());
        encoder.set_compression(png::Compression::High);
        encoder.set_filter(png::Filter::NoFilter);
        encoder.add_itxt_chunk(WORDS.to_owned(), names.to_owned()).unwrap();
        let rows = self.dots.chunks(self.size.0 as usize);
        let pairs =
            |row: &[u8]| row.chunks(2).map(|two| two[0] << 4 | two.get(1).unwrap_or(&0)).collect::<Vec<u8>>();
        let data: Vec<u8> = rows.flat_map(pairs).collect();
        encoder.write_header().unwrap().write_image_data(&data).unwrap();
    }

    /// The names that a kept picture shows; `None` where there is no such picture, or it was not taken by this test.
    pub fn names(file: &str) -> Option<String> {
        let file = BufReader::new(File::open(Self::folder().join(file)).ok()?);
        let reader = png::Decoder::new(file).read_info().ok()?;
        let words = reader.info().utf8_text.iter().find(|t| t.keyword == WORDS)?;
        words.get_text().ok()
    }
}

/// The colour used most, then each time the one of which most dots are farthest from those chosen.
fn palette(colours: &[Colour]) -> Vec<Colour> {
    let mut counts: HashMap<Colour, f64> = HashMap::new();
    for colour in colours {
        *counts.entry(*colour).or_default() += 1.0;
    }
    let mut all: Vec<(Colour, f64)> = counts.into_iter().collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut chosen = vec![all[0].0];
    while chosen.len() < COLOURS.min(all.len()) {
        let weight = |(colour, n): &(Colour, f64)| n.sqrt() * f64::from(nearest(&chosen, *colour).1);
        let next = all.iter().max_by(|a, b| weight(a).total_cmp(&weight(b))).unwrap();
        chosen.push(next.0);
    }
    chosen
}

/// The place of the nearest colour, and how far it is, squared.
fn nearest(palette: &[Colour], colour: Colour) -> (u8, u32) {
    let far = |other: &Colour| -> u32 {
        other.iter().zip(colour).map(|(a, b)| u32::from(a.abs_diff(b)).pow(2)).sum()
    };
    let found = palette.iter().enumerate().min_by_key(|(_, other)| far(other)).unwrap();
    (u8::try_from(found.0).unwrap(), far(found.1))
}
