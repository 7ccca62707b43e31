//! The shared table as a Data Package 2.0, beside the published profile (tests/reference/datapackage/, as in the
//! library dplib-py 1.1.0 of the standard's authors) and the foreign JSON Schema validator `jsonschema`.

use crate::support::{Browser, Club, rooted_by_day};
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::io::{Cursor, Read};
use zip::ZipArchive;

pub async fn saved(who: &Browser, fields: &[(&str, &str)]) -> Vec<u8> {
    let page = who.get("/clubs").await;
    who.download(&page, "/clubs/table.zip", fields).await
}

pub fn part(file: &[u8], name: &str) -> String {
    let mut archive = ZipArchive::new(Cursor::new(file)).unwrap();
    let mut text = String::new();
    archive.by_name(name).unwrap().read_to_string(&mut text).unwrap();
    text
}

async fn club() -> (Club, Browser) {
    let club = Club::new().await;
    let (jo, kim) = (club.organiser("Jo Barrow", "JB").await, club.grower("Kim Katz", "KK").await);
    for by in [&jo, &kim] {
        rooted_by_day(&club, by, ("=Ember, \"red\" 🌶", "Testwood Seeds"), 20, 16).await;
        rooted_by_day(&club, by, ("Dusk", "saved by Kim Katz"), 20, 11).await;
    }
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE sources SET sort = 'saved by', member_id = $1 WHERE name = 'saved by Kim Katz'";
    conn.run(sql, hilum::args![kim.id()]).await.unwrap();
    conn.commit().await.unwrap();
    club.pass_days(15);
    (club, jo)
}

#[tokio::test]
async fn the_shared_table_is_a_data_package_that_the_published_profile_accepts() {
    let (_club, jo) = club().await;
    let file = saved(&jo, &[("licence", "CC-BY-4.0")]).await;
    let descriptor: Value = serde_json::from_str(&part(&file, "datapackage.json")).unwrap();
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/reference/datapackage/datapackage-2.0.json");
    let profile: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let validator = jsonschema::validator_for(&profile).unwrap();
    let faults: Vec<String> =
        validator.iter_errors(&descriptor).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    // the validator can say no
    let mut wrong = descriptor.clone();
    wrong["resources"][0]["schema"]["fields"][0]["type"] = "seed".into();
    assert!(!validator.is_valid(&wrong));
    assert_eq!(descriptor["licenses"][0]["name"], "CC-BY-4.0");
    if let Ok(path) = keep_at() {
        std::fs::write(path, &file).unwrap();
    }
    keys_hold(&file, &descriptor);
}

/// Where to keep the package for a validator that is run by hand.
#[expect(clippy::disallowed_methods, reason = "a test's own setting")]
fn keep_at() -> Result<String, std::env::VarError> {
    std::env::var("HILUM_KEEP_PACKAGE")
}

/// What the descriptor promises of keys, bytes and columns holds in the files.
fn keys_hold(file: &[u8], descriptor: &Value) {
    let texts = |value: &Value| -> Vec<String> {
        value.as_array().unwrap().iter().map(|v| v.as_str().unwrap().to_owned()).collect()
    };
    let columns = |resource: &Value, wanted: &[String]| -> Vec<Vec<String>> {
        let text = part(file, resource["path"].as_str().unwrap());
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let heads = reader.headers().unwrap().clone();
        let places: Vec<usize> = wanted.iter().map(|w| heads.iter().position(|h| h == w).unwrap()).collect();
        reader
            .records()
            .map(|r| places.iter().map(|i| r.as_ref().unwrap()[*i].to_owned()).collect())
            .collect()
    };
    let resources = descriptor["resources"].as_array().unwrap();
    assert_eq!(resources.len(), 3);
    for resource in resources {
        let text = part(file, resource["path"].as_str().unwrap());
        let digest = data_encoding::HEXLOWER.encode(&Sha256::digest(text.as_bytes()));
        assert_eq!(resource["hash"], format!("sha256:{digest}"));
        assert_eq!(resource["bytes"], text.len());
        let key = texts(&resource["schema"]["primaryKey"]);
        let rows = columns(resource, &key);
        assert!(!rows.is_empty());
        assert_eq!(rows.iter().collect::<BTreeSet<_>>().len(), rows.len(), "{key:?}");
        for foreign in resource["schema"]["foreignKeys"].as_array().into_iter().flatten() {
            let to = &foreign["reference"];
            let other = resources.iter().find(|r| r["name"] == to["resource"]).unwrap();
            let known: BTreeSet<_> = columns(other, &texts(&to["fields"])).into_iter().collect();
            assert!(columns(resource, &texts(&foreign["fields"])).iter().all(|row| known.contains(row)));
        }
        let fields = resource["schema"]["fields"].as_array().unwrap();
        let heads = csv::Reader::from_reader(text.as_bytes()).headers().unwrap().clone();
        assert_eq!(
            heads.iter().collect::<Vec<_>>(),
            fields.iter().map(|f| f["name"].as_str().unwrap()).collect::<Vec<_>>()
        );
        let measured = fields.iter().filter(|f| f["type"] == "integer" || f["type"] == "number");
        assert!(measured.filter(|f| f["unit"].is_string()).count() > 1 || resource["name"] == "growers");
    }
}

#[tokio::test]
async fn no_name_of_a_member_goes_out_unless_it_is_ticked() {
    let (_club, jo) = club().await;
    let file = saved(&jo, &[]).await;
    for name in ["datapackage.json", "growers.csv", "counts.csv", "table.csv"] {
        let text = part(&file, name);
        for private in ["Jo Barrow", "Kim", "JB", "KK"] {
            assert!(!text.contains(private), "{private} stands in {name}: {text}");
        }
    }
    assert!(part(&file, "counts.csv").contains("saved by grower "));
    assert!(part(&file, "datapackage.json").contains("\"installation\""));
    assert!(!part(&file, "datapackage.json").contains("licenses"));
    let named = saved(&jo, &[("names", "yes")]).await;
    assert!(part(&named, "counts.csv").contains("Kim Katz"));
    let page = jo.get("/clubs").await;
    jo.submit(&page, "/clubs/table.zip", &[("licence", "do what you like")])
        .await
        .refuses("licence", "A short name");
    // the same again, and the numbers of growers stay theirs
    assert_eq!(part(&saved(&jo, &[]).await, "counts.csv"), part(&file, "counts.csv"));
}
