//! QR codes as inline SVG, drawn on the server.

use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write;

/// The dark modules of a code, as data of an SVG path with one unit a module, and what it measures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Symbol {
    /// Modules on a side, with the quiet zone of 4 around.
    pub side: i32,
    pub path: String,
}

/// The code that opens `address`; `None` where the text is too long for one. Scheme and host are put in capitals,
/// which makes the code smaller and means the same; so does the path where `address` is given in capitals.
pub fn symbol(address: &str) -> Option<Symbol> {
    let code = QrCode::encode_text(&capital_host(address), QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        // one stroke for each run of dark modules, so that no seam shows between them
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|x| code.get_module(*x, y)).count() as i32;
            if run > 0 {
                write!(path, "M{} {}h{run}v1h-{run}z", x + 4, y + 4).ok()?;
            }
            x += run.max(1);
        }
    }
    Some(Symbol { side: size + 8, path })
}

/// [`symbol`] as a drawing by itself, with `label` for those who do not see it.
pub fn svg(address: &str, label: &str) -> Option<String> {
    let Symbol { side, path } = symbol(address)?;
    let label = label.replace('&', "&amp;").replace('"', "&quot;").replace('<', "&lt;");
    Some(format!(
        r#"<svg viewBox="0 0 {side} {side}" role="img" aria-label="{label}" shape-rendering="crispEdges"><path d="{path}"/></svg>"#
    ))
}

fn capital_host(address: &str) -> String {
    let host = address.find("://").map_or(0, |i| i + 3);
    let end = address[host..].find('/').map_or(address.len(), |i| host + i);
    format!("{}{}", address[..end].to_uppercase(), &address[end..])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_host_is_put_in_capitals() {
        assert_eq!(capital_host("https://seed.example.org/T/JBT1"), "HTTPS://SEED.EXAMPLE.ORG/T/JBT1");
        assert_eq!(capital_host("http://127.0.0.1:8420/x"), "HTTP://127.0.0.1:8420/x");
    }

    #[test]
    fn a_short_address_makes_a_small_code() {
        // 31 characters of the alphanumeric set fit version 3 at level M or higher (ISO/IEC 18004, table 7,
        // from memory): 29 modules and twice 4 around
        let svg = svg("https://seed.example.org/T/JBT1", "Code").unwrap();
        assert!(
            svg.contains(r#"viewBox="0 0 33 33""#) || svg.contains(r#"viewBox="0 0 37 37""#),
            "{}",
            &svg[..60]
        );
        assert!(svg.starts_with("<svg ") && svg.contains("M4 4h7v1h-7z"));
    }
}
