//! Files as other programs write them: XLSX by the library rust_xlsxwriter, ODS as the OpenDocument standard says
//! (ODF 1.3 part 3, ISO/IEC 26300), CSV by the library csv.

use rust_xlsxwriter::Workbook;
use std::io::{Cursor, Write};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

pub type Rows = Vec<Vec<String>>;

pub fn csv(rows: &Rows) -> Vec<u8> {
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
    rows.iter().for_each(|row| writer.write_record(row).unwrap());
    writer.into_inner().unwrap()
}

/// Numbers as numbers, all else as text.
pub fn xlsx(rows: &Rows) -> Vec<u8> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (r, row) in rows.iter().enumerate() {
        for (c, cell) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
            let (r, c) = (u32::try_from(r).unwrap(), u16::try_from(c).unwrap());
            match number(cell) {
                Some(x) => sheet.write_number(r, c, x).unwrap(),
                None => sheet.write_string(r, c, cell).unwrap(),
            };
        }
    }
    book.save_to_buffer().unwrap()
}

fn number(cell: &str) -> Option<f64> {
    cell.parse::<f64>().ok().filter(|x| x.to_string() == cell)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

pub fn ods(rows: &Rows) -> Vec<u8> {
    let mut body = String::new();
    for row in rows {
        body.push_str("<table:table-row>");
        for cell in row {
            body.push_str(&match (cell.as_str(), number(cell)) {
                ("", _) => "<table:table-cell/>".to_owned(),
                (_, Some(x)) => {
                    format!("<table:table-cell office:value-type=\"float\" office:value=\"{x}\"/>")
                }
                (text, None) => {
                    let lines: String =
                        text.split('\n').map(|l| format!("<text:p>{}</text:p>", escaped(l))).collect();
                    format!("<table:table-cell office:value-type=\"string\">{lines}</table:table-cell>")
                }
            });
        }
        body.push_str("</table:table-row>");
    }
    body.push_str(
        "<table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell \
         table:number-columns-repeated=\"16384\"/></table:table-row>",
    );
    ods_of(&body)
}

/// An ODS file with one sheet of this content.
pub fn ods_of(rows: &str) -> Vec<u8> {
    let content = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content \
         xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
         xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" \
         xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\" office:version=\"1.3\"><office:body>\
         <office:spreadsheet><table:table table:name=\"List\">{rows}</table:table></office:spreadsheet></office:body>\
         </office:document-content>"
    );
    let mimetype = "application/vnd.oasis.opendocument.spreadsheet";
    let manifest = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><manifest:manifest \
         xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\" manifest:version=\"1.3\">\
         <manifest:file-entry manifest:full-path=\"/\" manifest:media-type=\"{mimetype}\"/></manifest:manifest>"
    );
    zip(&[
        ("mimetype", mimetype.as_bytes()),
        ("META-INF/manifest.xml", manifest.as_bytes()),
        ("content.xml", content.as_bytes()),
    ])
}

pub fn zip(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        archive.start_file(*name, SimpleFileOptions::default()).unwrap();
        archive.write_all(bytes).unwrap();
    }
    archive.finish().unwrap().into_inner()
}
