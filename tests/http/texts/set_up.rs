//! What a club begins with in the language of whoever sets it up.

use crate::accounts::{SET_UP, set_up_path};
use crate::stock::number;
use crate::support::Club;

#[tokio::test]
async fn a_club_set_up_in_german_calls_its_kinds_by_german_names() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let path = set_up_path(&club).await;
    let first = club.stranger().asking_for("de");
    let page = first.get(&path).await;
    first.submit(&page, "", &SET_UP).await.says("Jetzt fällig");
    // the next start finds them there
    club.app.furnish().await.unwrap();
    first.get("/kinds").await.says("Paprika").says("Rote Bete").says_not("pepper").says_not("Beet,");
    first.get("/kinds/pepper").await.says("Paprika").says("Tag 14");

    let fields = [("kind", "sweet pepper"), ("variety", "Kestrel"), ("source", "Testwood"), ("year", "2025")];
    let form = first.get("/packets/new").await;
    first.submit(&form, "/packets/new", &[&fields[..], &[("seeds", "20")]].concat()).await.says("Paprika");
    let import = first.get("/packets/import").await;
    let list = "Art;Sorte;Quelle;Samen\nKarotten;Drove;Testwood;5\npepper;Kestrel;Testwood;5\n";
    let shown = first.submit(&import, "/packets/import", &[("list", list)]).await;
    let kinds = shown.all("td[data-label='Art']");
    assert_eq!(kinds, ["Möhre", "Paprika"], "the list is shown as it will be");
    let strange = "SELECT COUNT(*) AS n FROM kinds WHERE NOT built_in";
    assert_eq!(number(&club, strange).await, 0);
}

#[tokio::test]
async fn a_club_set_up_in_english_has_english_kinds() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let first = crate::accounts::set_up(&club).await;
    first.get("/kinds").await.says("pepper").says_not("Paprika");
}
