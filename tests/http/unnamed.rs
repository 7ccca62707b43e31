//! The files of the club table and of the counts behind it name no other member.

use crate::support::{Club, rooted_by_day};
use hilum::args;
use hilum_calc::analyse;

#[tokio::test]
async fn the_counts_name_others_only_where_an_organiser_ticks_it() {
    let club = Club::new().await;
    let (ann, bo) = (club.grower("Ann Quill", "AQ").await, club.grower("Bo Reed", "BR").await);
    let lea = club.organiser("Lea Moss", "LM").await;
    for (by, source, rooted) in [(&ann, "Testwood Seeds", 12), (&ann, "A tin", 15), (&bo, "A tin", 9)] {
        rooted_by_day(&club, by, ("Ember", source), 20, rooted).await;
    }
    let mut conn = club.app.db.write().await.unwrap();
    let saved = hilum::stock::store::saved_by(&mut conn, bo.id(), club.app.now()).await.unwrap();
    let sql = "UPDATE lots SET source_id = $1 WHERE id = 'l-Ember-A tin'";
    conn.run(sql, args![&saved]).await.unwrap();
    conn.commit().await.unwrap();
    club.pass_days(15);
    let names = ["Ann", "Quill", "AQ", "Bo", "Reed", "BR"];
    let unnamed = lea.get("/counts.csv").await.body;
    let asked = ann.get("/counts.csv?names=yes").await.body;
    let table = ann.get("/table.csv").await.body;
    for name in names {
        assert!(!unnamed.contains(name), "{name}: {unnamed}");
        assert!(!table.contains(name), "{name}: {table}");
    }
    for name in ["Bo", "Reed", "BR"] {
        assert!(!asked.contains(name), "a grower cannot tick it; {name}: {asked}");
    }
    assert!(asked.contains(",Ann Quill,AQ 1 trial 1,"), "one's own stays: {asked}");
    assert!(unnamed.contains("saved by grower ") && table.contains("saved by grower "), "{unnamed}{table}");
    assert_eq!(lea.get("/counts.csv").await.body, unnamed, "the same numbers each time");
    let page = lea.get("/table").await;
    page.says("The counts with names, for organisers").says("No name of another member goes out");
    ann.get("/table").await.says_not("The counts with names");
    let named = lea.get("/counts.csv?names=yes").await.body;
    assert!(names.iter().all(|name| named.contains(name)), "{named}");
    let rates = |counts: &str| {
        let table = analyse::run(counts, analyse::Options::default()).unwrap().json();
        let rows = table["table"].as_array().unwrap().iter();
        let mut rows: Vec<String> = rows
            .map(|r| {
                ["variety", "rate", "low", "high", "growers", "trials"].map(|n| r[n].to_string()).join(" ")
            })
            .collect();
        rows.sort();
        rows
    };
    assert_eq!(rates(&unnamed).len(), 2);
    assert_eq!(rates(&unnamed), rates(&named), "the same table");
    assert_eq!(rates(&asked), rates(&named));
}
