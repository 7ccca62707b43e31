//! QR codes (ISO/IEC 18004) as parts of a page.

use crate::error::AppError;
use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write;

/// Light modules around the code, which scanners need (ISO/IEC 18004 asks for 4).
const QUIET: i32 = 4;
const PIXELS_A_MODULE: i32 = 5;

/// A code ready for `_parts/qr.html`.
#[derive(Debug, Clone)]
pub struct Qr {
    /// Modules on a side, with the quiet zone.
    pub side: i32,
    /// Pixels on a side, as first shown.
    pub pixels: i32,
    /// The dark modules, as data of an SVG path: one unit a module.
    pub path: String,
}

/// The code of `text`, readable with 15 % of it lost.
pub fn qr(text: &str) -> Result<Qr, AppError> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium)
        .map_err(|_| anyhow::anyhow!("too long for a code: {} bytes", text.len()))?;
    let mut path = String::new();
    for y in 0..code.size() {
        for x in (0..code.size()).filter(|x| code.get_module(*x, y)) {
            write!(path, "M{} {}h1v1h-1z", x + QUIET, y + QUIET).map_err(anyhow::Error::new)?;
        }
    }
    let side = code.size() + 2 * QUIET;
    Ok(Qr { side, pixels: side * PIXELS_A_MODULE, path })
}
