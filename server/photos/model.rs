use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};
use std::io::Cursor;

/// The longest side of what is kept, and of the small one on pages, in pixels.
const LARGE: u32 = 1600;
const SMALL: u32 = 320;
const QUALITY: u8 = 80;
/// The most that is decoded: 50 million pixels, as today's phones take; in 8 bits a colour that is 150 MB.
const MOST_PIXELS: u64 = 50_000_000;
const LONGEST_SIDE: u32 = 16_000;
const MOST_MEMORY: u64 = 210_000_000;

/// Formats that are read, whatever a file calls itself.
const FORMATS: [ImageFormat; 3] = [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP];

/// A photo as it is kept: JPEG without metadata, twice.
#[derive(Debug, Clone)]
pub struct Photo {
    pub jpeg: Vec<u8>,
    pub small: Vec<u8>,
    /// Pixels of the small one.
    pub small_width: u32,
    pub small_height: u32,
}

/// Why a file was not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    Other,
    Huge,
    Broken,
}

impl Refusal {
    /// In words for the page.
    pub fn words(self) -> &'static str {
        match self {
            Self::Other => t!("photos-not-a-photo"),
            Self::Huge => t!("photos-too-many-pixels"),
            Self::Broken => t!("photos-cannot-be-read"),
        }
    }
}

/// Reads a photo and writes it anew. Takes long: call it off the async threads, one at a time.
pub fn remade(bytes: &[u8]) -> Result<Photo, Refusal> {
    let full = decoded(bytes)?;
    let large = shrunk(full, LARGE);
    let small = shrunk(large.clone(), SMALL);
    let (small_width, small_height) = (small.width(), small.height());
    Ok(Photo { jpeg: encoded(large)?, small: encoded(small)?, small_width, small_height })
}

/// The picture, upright and at most [`LARGE`]; refused by its header alone where it is too large.
fn decoded(bytes: &[u8]) -> Result<DynamicImage, Refusal> {
    let mut reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| Refusal::Other)?;
    if !reader.format().is_some_and(|f| FORMATS.contains(&f)) {
        return Err(Refusal::Other);
    }
    let mut limits = Limits::default();
    limits.max_image_width = Some(LONGEST_SIDE);
    limits.max_image_height = Some(LONGEST_SIDE);
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(refusal)?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS || decoder.total_bytes() > MOST_MEMORY {
        return Err(Refusal::Huge);
    }
    let orientation = decoder.orientation().map_err(refusal)?;
    let mut picture = shrunk(DynamicImage::from_decoder(decoder).map_err(refusal)?, LARGE);
    picture.apply_orientation(orientation);
    Ok(picture)
}

fn refusal(error: image::ImageError) -> Refusal {
    match error {
        image::ImageError::Limits(_) => Refusal::Huge,
        _ => Refusal::Broken,
    }
}

/// No side longer than `side`; a smaller picture stays as it is.
fn shrunk(picture: DynamicImage, side: u32) -> DynamicImage {
    if picture.width().max(picture.height()) <= side { picture } else { picture.thumbnail(side, side) }
}

fn encoded(picture: DynamicImage) -> Result<Vec<u8>, Refusal> {
    let mut out = Vec::new();
    let encoder = JpegEncoder::new_with_quality(&mut out, QUALITY);
    picture.into_rgb8().write_with_encoder(encoder).map_err(|_| Refusal::Broken)?;
    Ok(out)
}
