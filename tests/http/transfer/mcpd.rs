//! The seed list in the descriptors of gene banks, beside the published list of fields and codes
//! (tests/reference/standards/mcpd_2_1_fields.csv, mcpd_codes.csv: where each was read stands in the files).

use super::{HEAD, confirm, preview, text_of};
use crate::stock::club;
use std::collections::{BTreeMap, BTreeSet};

fn reference(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/standards").join(name);
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}

#[tokio::test]
async fn the_seed_list_holds_the_published_fields_in_order_and_known_codes_only() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let page = preview(
        &jo,
        "7,pepper,Kestrel,Testwood,2024,L;1,25,tin\n8,tomato,=Wren;Red,\"Genbank, Hollin\",,,10,\n",
    )
    .await;
    confirm(&jo, &page, &[]).await.says("Brought in: 2 packets");
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE sources SET sort = 'gene bank' WHERE name LIKE 'Genbank%'", hilum::args![])
        .await
        .unwrap();
    conn.run(
        "UPDATE varieties SET species = 'CAPSICUM Annuum var. glabriusculum' WHERE name = 'Kestrel'",
        hilum::args![],
    )
    .await
    .unwrap();
    conn.commit().await.unwrap();
    assert!(HEAD.contains("Lot code"));
    let text = text_of(&jo, "/packets/mcpd.csv").await;
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let published: Vec<String> =
        reference("mcpd_2_1_fields.csv").iter().map(|r| r["field"].clone()).collect();
    assert_eq!(reader.headers().unwrap().iter().collect::<Vec<_>>(), published);
    let codes: BTreeSet<(String, String)> =
        reference("mcpd_codes.csv").iter().map(|r| (r["field"].clone(), r["code"].clone())).collect();
    let coded: BTreeSet<&String> = codes.iter().map(|(field, _)| field).collect();
    let rows: Vec<BTreeMap<String, String>> = reader.deserialize().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 2);
    let mut seen = 0;
    for row in &rows {
        for field in coded.iter().filter(|f| !row[**f].is_empty()) {
            assert!(codes.contains(&((*field).clone(), row[*field].clone())), "{field}: {}", row[*field]);
            seen += 1;
        }
    }
    assert_eq!(seen, 4, "STORAGE and COLLSRC of both");
    let told = |i: usize, field: &str| rows[i][field].as_str();
    assert_eq!((told(0, "ACCENUMB"), told(0, "GENUS"), told(0, "SPECIES")), ("JB 7", "Capsicum", "annuum"));
    assert_eq!((told(0, "SUBTAXA"), told(0, "DONORNUMB")), ("var. glabriusculum", "L,1"));
    assert_eq!((told(0, "COLLSRC"), told(1, "COLLSRC"), told(0, "STORAGE")), ("50", "40", "10"));
    assert_eq!((told(1, "ACCENAME"), told(1, "DONORNAME")), ("'=Wren,Red", "Genbank, Hollin"));
    // brought back with seeds beside it, its columns are known
    let kim = club.grower("Kim", "KK").await;
    let moved: Vec<String> = text.replace("JB ", "KK ").lines().map(str::to_owned).collect();
    let moved = format!("{},SEEDS\n{},12\n{},8\n", moved[0], moved[1], moved[2]);
    let form = kim.get("/packets/import").await;
    let page = kim.submit(&form, "/packets/import", &[("list", &moved)]).await;
    assert_eq!(page.all("tbody th"), ["KK 7", "KK 8"], "{}", page.text());
    assert_eq!(page.all("td[data-label='Kept in']"), ["", ""]);
    confirm(&kim, &page, &[]).await.says("Brought in: 2 packets").says("Kestrel");
    for unknown in ["PUID", "INSTCODE", "ORIGCTY", "SAMPSTAT", "MLSSTAT"] {
        assert_eq!(told(0, unknown), "", "{unknown} is not known");
    }
}
