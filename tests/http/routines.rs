use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::{args, routines};

async fn with_starters(club: &Club) {
    let mut conn = club.app.db.write().await.unwrap();
    routines::ensure_starters(&mut conn, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
}

async fn new_routine(by: &Browser, name: &str) -> Page {
    let page = by.get("/routines/new").await;
    let fields = [
        ("name", name),
        ("act_1", "sanitising soak"),
        ("agent_1", "hydrogen peroxide"),
        ("stock_1", "3"),
        ("strength_1", "1,5"),
        ("time_1", "30"),
        ("act_2", "priming soak"),
        ("agent_2", "water"),
        ("time_2", "12"),
        ("unit_2", "hours"),
        ("warmth_2", "5"),
        ("place_2", "refrigerator"),
    ];
    by.submit(&page, "/routines/new", &fields).await
}

#[tokio::test]
async fn the_starters_come_once_and_say_where_they_are_from() {
    let club = Club::new().await;
    with_starters(&club).await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let list = ines.get("/routines").await;
    assert_eq!(list.all("ul.lines > li").len(), 4);
    let page = ines.get(&list.link("Peroxide soak")).await;
    page.says("Sanitising soak in hydrogen peroxide 1.5 %, 30 min").says("Common practice, no source");
    page.says("Priming soak in water, 12 h, at 5 °C, refrigerator").says_not("Edit");
    ines.get(&list.link("Dry seed")).await.says("No steps");
    let mix = ines.get(&page.link("Mix hydrogen peroxide")).await;
    mix.says("equal parts of stock and water").says("25 ml (5 1/8 tsp, 500 drops)");
}

/// What an edit leaves as it is shown is stored as it was.
#[tokio::test]
async fn ready_routines_are_read_and_edited_in_german_and_stay_as_they_are_stored() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ann = club.organiser("Ann", "AN").await;
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE members SET language = 'de' WHERE id = $1", args![ann.id()]).await.unwrap();
    conn.commit().await.unwrap();
    let list = ann.get("/routines").await;
    list.says("Trocken, gleich aufs Papier").says_not("Dry seed");
    let page = ann.get(&list.link("Peroxidbad, dann über Nacht kühl")).await;
    let edit = ann.get(&page.link("Bearbeiten")).await;
    assert!(edit.body.contains("value=\"Wasserstoffperoxid\"") && !edit.body.contains("refrigerator"));
    let action = edit.path.clone();
    ann.submit(&edit, &action, &[("dose_1", "halb und halb")])
        .await
        .says("halb und halb")
        .says("Kühlschrank");
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE members SET language = 'en' WHERE id = $1", args![ann.id()]).await.unwrap();
    conn.commit().await.unwrap();
    let page = ann.get(&ann.get("/routines").await.link("Peroxide soak")).await;
    page.says("hydrogen peroxide 1.5 %").says("halb und halb").says("refrigerator").says("Common practice");
    with_starters(&club).await;
    assert_eq!(ann.get("/routines").await.all("ul.lines > li").len(), 4);
}

#[tokio::test]
async fn a_routine_is_written_and_edited_in_place_while_nobody_used_it() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = new_routine(&ines, "Cold night").await;
    page.says("Saved: Cold night").says("Sanitising soak in hydrogen peroxide 1.5 %, 30 min");
    let edit = ines.get(&page.link("Edit")).await;
    let action = edit.path.clone();
    let saved = ines.submit(&edit, &action, &[("time_1", "20"), ("name", "Cold nights")]).await;
    saved.says("Saved.").says("Version 1").says("20 min").says("Cold nights").says_not("30 min");
}

#[tokio::test]
async fn a_used_version_is_frozen_and_an_edit_makes_a_new_one() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let routine = new_routine(&ines, "Cold night").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let start = ines.get(&format!("{}&packet={packet}", routine.link("Start a trial"))).await;
    let trial = ines.submit(&start, "/trials/new", &[]).await;
    trial.says("Started: 1 trial, 10 seeds");
    let edit = ines.get(&format!("{}/edit", routine.path)).await;
    edit.says("saving makes version 2");
    let saved = ines.submit(&edit, &edit.path, &[("time_1", "20")]).await;
    saved.says("Saved as version 2").says("20 min").says("Older versions").says("Used by 1 trial");
    ines.get(&trial.path).await.says("version 1").says("1.5 %, 30 min");
    let again = ines.submit(&edit, &edit.path, &[("time_1", "25")]).await;
    assert_eq!(again.status, StatusCode::CONFLICT, "the same form with other values does not count twice");
}

#[tokio::test]
async fn what_is_wrong_with_a_routine_stands_beside_its_field() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    new_routine(&ines, "Cold night").await;
    new_routine(&ines, "cold  NIGHT").await.refuses("name", "There is a routine of this name");
    let page = ines.get("/routines/new").await;
    let fields = [
        ("name", "Strong"),
        ("act_1", "sanitising soak"),
        ("agent_1", "my kept agent"),
        ("stock_1", "3"),
        ("strength_1", "3.5"),
        ("time_1", "800"),
        ("unit_1", "hours"),
        ("agent_2", "water"),
        ("warmth_3", "101"),
        ("act_3", "rinse"),
    ];
    let bad = ines.submit(&page, "/routines/new", &fields).await;
    bad.refuses("strength_1", "Stronger than the stock").refuses("time_1", "from 0 to 720");
    bad.refuses("act_2", "choose what this step does").refuses("warmth_3", "-30 to 100");
    assert!(bad.body.contains("my kept agent"));
    let nameless = ines.submit(&page, "/routines/new", &[("name", " ")]).await;
    nameless.refuses("name", "fill this in");
}

#[tokio::test]
async fn more_rows_keep_what_was_typed_and_save_nothing() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/routines/new").await;
    let more = ines
        .submit(&page, "/routines/new", &[("name", "Long one"), ("act_1", "rinse"), ("more", "yes")])
        .await;
    more.says("Step 8");
    assert!(more.body.contains("Long one"));
    ines.get("/routines").await.says("No routine yet");
    let saved = ines.submit(&more, "/routines/new", &[("act_8", "drain")]).await;
    assert_eq!(saved.all("ol.steps > li").len(), 2);
}

#[tokio::test]
async fn only_the_maker_and_organisers_edit_and_retire() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let routine = new_routine(&ines, "Cold night").await;
    let other = club.grower("Tomas", "TK").await;
    let seen = other.get(&routine.path).await;
    seen.says("Cold night").says_not("Retire");
    assert_eq!(other.get(&format!("{}/edit", routine.path)).await.status, StatusCode::NOT_FOUND);
    let key = [("key", "0123456789abcdef0123")];
    let retire = format!("{}/retire", routine.path);
    assert_eq!(other.post(&retire, &key).await.status, StatusCode::NOT_FOUND);
    let edit = other.post(&format!("{}/edit", routine.path), &[("key", "0123456789abcdef0124")]).await;
    assert_eq!(edit.status, StatusCode::NOT_FOUND);
    let lead = club.organiser("Mira", "MO").await;
    let page = lead.get(&routine.path).await;
    lead.submit(&page, &retire, &[]).await.says("Retired").says_not("Start a trial");
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let start = ines.get(&format!("/trials/new?packet={packet}")).await;
    start.says_not("Cold night");
    let copy = other.get(&format!("/routines/new?from={}", routine.path.rsplit('/').next().unwrap())).await;
    assert!(copy.body.contains("hydrogen peroxide"));
    let back = lead.get(&routine.path).await;
    lead.submit(&back, &retire, &[]).await.says("In use again").says("Start a trial");
}

#[tokio::test]
async fn amounts_are_worked_out_and_refused_above_the_stock() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/mix").await;
    let mixed = ines.submit(&page, "/mix", &[("vessels", "4"), ("size", "30")]).await;
    mixed.says("equal parts").says("15 ml (3 tsp, 300 drops)").says("60 ml (12 1/8 tsp, 1200 drops)");
    mixed.says_not("oxidiser");
    let strong = ines.submit(&page, "/mix", &[("stock", "12"), ("strength", "3")]).await;
    strong
        .says("Strong oxidiser")
        .says("the label of your product")
        .says("1 part of stock to 3 parts of water");
    let six = ines.submit(&page, "/mix", &[("stock", "6")]).await;
    six.says("Stronger than household").says_not("oxidiser");
    ines.submit(&page, "/mix", &[("agent", "bleach"), ("stock", "5")]).await.says("Never with acid");
    let above = ines.submit(&page, "/mix", &[("strength", "3.1")]).await;
    above.refuses("strength", "cannot be diluted to more than its own strength");
    assert!(above.body.contains(r#"value="3.1""#), "what was typed stays");
    for (field, bad) in [("stock", "0"), ("vessels", "0"), ("vessels", ""), ("size", "x"), ("agent", "")] {
        let page = ines.submit(&page, "/mix", &[(field, bad)]).await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY, "{field}={bad}");
        assert!(!page.all(&format!("#f-{field}-error")).is_empty(), "{field}={bad}");
    }
}

#[tokio::test]
async fn who_measures_in_us_units_reads_spoons_first() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE members SET measures = 'us' WHERE id = $1";
    conn.run(sql, hilum::args![ines.id()]).await.unwrap();
    conn.commit().await.unwrap();
    let page = ines.get("/mix").await;
    let mixed = ines.submit(&page, "/mix", &[]).await;
    mixed.says("6 tsp (29.57 ml, 591 drops)");
    let new = ines.get("/routines/new").await;
    let fields = [("name", "Warm"), ("act_1", "priming soak"), ("agent_1", "water"), ("warmth_1", "82")];
    let saved = ines.submit(&new, "/routines/new", &fields).await;
    saved.says("at 82 °F");
    club.grower("Tomas", "TK").await.get(&saved.path).await.says("at 27.8 °C");
}

#[tokio::test]
async fn a_solution_is_noted_once_and_warned_about_later() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let page = ines.get("/mix").await;
    let mixed = ines.submit(&page, "/mix", &[("vessels", "4"), ("size", "30")]).await;
    let keys = mixed.form("/mix");
    assert_eq!(keys.method, "get");
    let form: Vec<(String, String)> = made_fields(&mixed);
    let with = |changes: &[(&str, &str)]| -> Vec<(String, String)> {
        let kept = form.iter().filter(|(n, _)| !changes.iter().any(|(c, _)| c == n)).cloned();
        kept.chain(changes.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned()))).collect()
    };
    let bad =
        post(&ines, &with(&[("opened_on", "2026-03-03"), ("discard_on", "2026-03-01"), ("note", "blue")]))
            .await;
    bad.refuses("opened_on", "in the future").refuses("discard_on", "That day is over");
    assert!(bad.body.contains("blue"));
    let good = with(&[("opened_on", "2026-02-20"), ("discard_on", "2026-03-03")]);
    let done = post(&ines, &good).await;
    done.says("Noted: hydrogen peroxide")
        .says("120 ml (24 3/8 tsp, 2400 drops), made today 09:00")
        .says("bottle opened Fri 20 Feb")
        .says("discard by Tue 3 Mar");
    post(&ines, &good).await;
    assert_eq!(ines.get("/mix").await.all("ul.lines > li").len(), 1, "a double tap counts once");
    ines.get("/mix").await.says_not("past its discard day");
    club.pass_days(2);
    ines.get("/mix").await.says("past its discard day");
    assert!(club.grower("Tomas", "TK").await.get("/mix").await.text().contains("None noted yet"));
}

/// The fields of the second form on the page, as drawn.
fn made_fields(page: &Page) -> Vec<(String, String)> {
    let html = page.html();
    let inputs = scraper::Selector::parse("#made input").unwrap();
    html.select(&inputs)
        .map(|e| (e.attr("name").unwrap().to_owned(), e.attr("value").unwrap_or_default().to_owned()))
        .collect()
}

async fn post(by: &Browser, fields: &[(String, String)]) -> Page {
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    by.post("/mix", &fields).await
}
