//! A Data Package 2.0 (https://datapackage.org/standard/data-package/): CSV files in a zip archive, with a descriptor
//! that says what their columns mean, in which unit, and which keys tie them together.

use data_encoding::HEXLOWER;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

const PROFILES: &str = "https://datapackage.org/profiles/2.0";

/// A column: name, type, unit (empty where none), what it means.
pub type Field = (&'static str, &'static str, &'static str, &'static str);

/// A table of the package.
pub struct Table {
    pub name: &'static str,
    pub title: &'static str,
    pub fields: Vec<Field>,
    pub key: &'static [&'static str],
    /// Columns, and the table and columns they point at.
    pub points_at: Option<(&'static [&'static str], &'static str, &'static [&'static str])>,
    pub csv: String,
}

/// What stands above the tables.
pub struct Head {
    pub club: String,
    pub installation: String,
    /// RFC 3339.
    pub created: String,
    /// RFC 3339: whatever was counted before is in it.
    pub as_of: String,
    /// Name or address of a licence; empty where the organiser gave none.
    pub licence: String,
}

impl Table {
    fn descriptor(&self) -> Value {
        let field = |(name, kind, unit, meaning): &Field| {
            let mut field = json!({ "name": name, "type": kind, "description": meaning });
            if !unit.is_empty() {
                field["unit"] = json!(unit);
            }
            if *kind == "boolean" {
                (field["trueValues"], field["falseValues"]) = (json!(["1"]), json!(["0"]));
            }
            if self.key.contains(name) {
                field["constraints"] = json!({ "required": true });
            }
            field
        };
        let mut schema = json!({
            "$schema": format!("{PROFILES}/tableschema.json"),
            "fields": self.fields.iter().map(field).collect::<Vec<_>>(),
            "missingValues": [""],
            "primaryKey": self.key,
        });
        if let Some((fields, resource, columns)) = self.points_at {
            let reference = json!({ "resource": resource, "fields": columns });
            schema["foreignKeys"] = json!([{ "fields": fields, "reference": reference }]);
        }
        json!({
            "$schema": format!("{PROFILES}/dataresource.json"),
            "name": self.name, "title": self.title, "path": self.path(), "type": "table",
            "format": "csv", "mediatype": "text/csv", "encoding": "utf-8",
            "bytes": self.csv.len(), "hash": hash(self.csv.as_bytes()),
            "dialect": { "$schema": format!("{PROFILES}/tabledialect.json"), "lineTerminator": "\r\n" },
            "schema": schema,
        })
    }

    fn path(&self) -> String {
        format!("{}.csv", self.name)
    }
}

/// `sha256:..`
pub fn hash(bytes: &[u8]) -> String {
    format!("sha256:{}", HEXLOWER.encode(&Sha256::digest(bytes)))
}

/// The descriptor of a package.
pub fn descriptor(head: &Head, tables: &[Table]) -> Value {
    let mut package = json!({
        "$schema": format!("{PROFILES}/datapackage.json"),
        "name": "hilum-shared-table",
        "id": format!("{}-{}", head.installation, head.created),
        "title": format!("Germination counts of {}", head.club),
        "description": "Numbered seed lots on damp paper, pooled by variety and source. Text that a spreadsheet would \
            run as a formula has an apostrophe before it. Rooted means that the radicle is out; it is not a count of \
            normal seedlings.",
        "version": "1.0.0",
        "created": head.created,
        "as_of": head.as_of,
        "contributors": [{ "title": head.club, "roles": ["creator"] }],
        "sources": [{ "title": format!("Counts of the growers of {}", head.club) }],
        "club": { "name": head.club, "installation": head.installation },
        "resources": tables.iter().map(Table::descriptor).collect::<Vec<_>>(),
    });
    if !head.licence.is_empty() {
        let key = if head.licence.contains("://") { "path" } else { "name" };
        package["licenses"] = json!([{ key: head.licence }]);
    }
    package
}

/// The archive; the same bytes for the same content.
pub fn zipped(head: &Head, tables: &[Table]) -> Result<Vec<u8>, anyhow::Error> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default());
    archive.start_file("datapackage.json", options)?;
    archive.write_all(serde_json::to_string_pretty(&descriptor(head, tables))?.as_bytes())?;
    for table in tables {
        archive.start_file(table.path(), options)?;
        archive.write_all(table.csv.as_bytes())?;
    }
    Ok(archive.finish()?.into_inner())
}
