//! Lists with German headings and values, whatever the language of the page.

use super::confirm;
use crate::stock::{number, sound};
use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::args;

async fn furnished() -> Club {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    club
}

async fn look(who: &Browser, path: &str, list: &str) -> Page {
    let form = who.get(path).await;
    who.submit(&form, path, &[("list", list)]).await
}

async fn speaks_german(club: &Club, who: &Browser) {
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE members SET language = 'de' WHERE id = $1", args![who.id()]).await.unwrap();
    conn.commit().await.unwrap();
}

const PACKETS: &str = "Nr;Art;Sorte;Bezugsquelle;Jahr;Stückzahl;Gewicht (g);Zustand;Aufbewahrt in;Bemerkung;Farbe\n\
    7;Paprika;Kestrel;Testwood;2024;ca. 25;;unbehandelt;Dose 1;vom Tausch;rot\n\
    8;Paprika;Wren;Testwood;2025;;0,5;Gebeizt;;;\n";

#[tokio::test]
async fn a_german_list_is_read_on_english_and_german_pages() {
    for german in [false, true] {
        let club = furnished().await;
        let jo = club.grower("Jo", "JB").await;
        if german {
            speaks_german(&club, &jo).await;
        }
        let page = look(&jo, "/packets/import", PACKETS).await;
        let said = if german { ["etwa 25", "gebeizt", "Farbe"] } else { ["about 25", "treated", "Farbe"] };
        said.into_iter().for_each(|words| {
            page.says(words);
        });
        confirm(&jo, &page, &[]).await.says("JB 7").says("JB 8");
        for (sql, wanted) in [
            ("SELECT COUNT(*) AS n FROM packets WHERE place = 'Dose 1' AND state = 'plain'", 1),
            ("SELECT COUNT(*) AS n FROM packets WHERE state = 'treated'", 1),
        ] {
            assert_eq!(number(&club, sql).await, wanted, "{sql}, German: {german}");
        }
        sound(&club).await;
    }
}

#[tokio::test]
async fn an_unknown_state_is_told_with_those_that_are_known() {
    let club = furnished().await;
    let jo = club.grower("Jo", "JB").await;
    let list = "Art;Sorte;Quelle;Samen;Zustand\nPaprika;Kestrel;Testwood;5;gequollen\n";
    let page = look(&jo, "/packets/import", list).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(page.all(".flash li"), ["Line 2, state: Please choose one."]);
    speaks_german(&club, &jo).await;
    let page = look(&jo, "/packets/import", list).await;
    let known = "Zeile 2, Zustand: Bitte eins von diesen: unbehandelt, pilliert, geprimt, gebeizt.";
    assert_eq!(page.all(".flash li"), [known]);
}

#[tokio::test]
async fn german_counts_are_read_with_the_names_of_ready_routines() {
    let club = furnished().await;
    let jo = club.grower("Jo", "JB").await;
    let list = "Beutel;Stunden;Bewurzelt;Anomal;Tot;Ansatz;Art;Sorte;Quelle;Jahr;Samen;Auf Papier seit;Ablauf;\
        Wärme (°C);Schwimmer;Abgeschlossen\n\
        a;72;2;0;0;1;Paprika;Kestrel;Testwood;2023;10;1.2.2025;Über Nacht in Wasser;28;nein;ja\n\
        a;144;5;1;0;1;Paprika;Kestrel;Testwood;2023;10;1.2.2025;Über Nacht in Wasser;28;nein;ja\n\
        b;100;3;0;1;2;Paprika;Wren;Testwood;2023;9;3.2.2025;Plain water overnight;28;nein;nein\n";
    let path = "/counts/import";
    let page = look(&jo, path, list).await;
    page.says("Nothing is saved yet: 3 looks");
    assert_eq!(page.all("td[data-label=Routine]"), ["Plain water overnight"; 2]);
    speaks_german(&club, &jo).await;
    let page = look(&jo, path, list).await;
    assert_eq!(page.all("td[data-label=Ablauf]"), ["Über Nacht in Wasser"; 2]);
    jo.submit(&page, "/counts/import/confirm", &[]).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM looks WHERE abnormal = 1").await, 1);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM bags WHERE closed_at IS NOT NULL").await, 1);
    sound(&club).await;
}
