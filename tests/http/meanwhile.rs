//! Two people, or one on two phones, edit the same thing: whoever saves second is told both values, keeps what was typed,
//! and saves knowingly. Every form that changes what stands is in here.

use crate::support::{Browser, Club, Page};
use crate::{planning, stock};

/// A form that two pages hold at once.
struct Edit<'a> {
    first: &'a Browser,
    second: &'a Browser,
    page: String,
    action: String,
    field: &'static str,
    /// What the first and the second make of the field.
    typed: [&'static str; 2],
    /// Another field of the same form, which only the second one changes.
    also: Option<(&'static str, &'static str)>,
    /// How the two values are told: mine, and theirs.
    told: [&'static str; 2],
    /// Who changed it, as it is told.
    by: &'static str,
}

#[track_caller]
fn value(page: &Page, action: &str, field: &str) -> String {
    let pairs = page.form(action).filled(&[]);
    pairs.into_iter().find(|(n, _)| n == field).map(|(_, v)| v).unwrap_or_default()
}

impl Edit<'_> {
    async fn now(&self, field: &str) -> String {
        value(&self.second.get(&self.page).await, &self.action, field)
    }

    async fn check(&self) {
        let [one, two] = self.typed;
        let (early, late) = (self.first.get(&self.page).await, self.second.get(&self.page).await);
        let untouched = self.second.get(&self.page).await;
        self.first.submit(&early, &self.action, &[(self.field, one)]).await.says("");
        let mut fields = vec![(self.field, two)];
        fields.extend(self.also);
        let stale = self.second.submit(&late, &self.action, &fields).await;
        let [mine, theirs] = self.told;
        let told = format!("You typed {mine}; meanwhile {} {theirs}.", self.by);
        stale.refuses(self.field, &told);
        assert_eq!(self.now(self.field).await, one, "nothing was saved");
        for (name, typed) in &fields {
            assert_eq!(value(&stale, &self.action, name), *typed, "what was typed stays");
        }
        self.left_alone(&untouched, theirs).await;
        let again = self.second.submit(&stale, &self.action, &[]).await;
        if self.also.is_some() {
            // the second page was stale once more: the field beside was saved meanwhile
            self.second.submit(&again, &self.action, &[]).await.says("");
        } else {
            again.says("");
        }
        for (name, typed) in &fields {
            assert_eq!(self.now(name).await, *typed, "the knowing save stands");
        }
    }

    /// A page on which only the other field was changed does not put the old value of this one back.
    async fn left_alone(&self, untouched: &Page, theirs: &str) {
        let Some((also, _)) = self.also else { return };
        let before = self.now(also).await;
        let third = if before.parse::<f64>().is_ok() || before.is_empty() { "3" } else { "metric" };
        let told = self.second.submit(untouched, &self.action, &[(also, third)]).await;
        let text = format!("Meanwhile {} {theirs}, which stands here now.", self.by);
        told.refuses(self.field, &text);
        let saved = self.second.submit(&told, &self.action, &[]).await;
        saved.says("");
        assert_eq!(self.now(self.field).await, self.typed[0], "not put back");
        assert_eq!(self.now(also).await, third);
    }
}

/// A form that a member opened twice.
fn twice<'a>(
    by: &'a Browser,
    page: &str,
    action: &str,
    field: &'static str,
    typed: [&'static str; 2],
) -> Edit<'a> {
    Edit {
        first: by,
        second: by,
        page: page.into(),
        action: action.into(),
        field,
        typed,
        also: None,
        told: ["", ""],
        by: "it was made",
    }
}

#[tokio::test]
async fn a_packet() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let jo = club.grower("Jo", "JB").await;
    let packet = club.packet(&jo, "Kestrel", 40).await;
    let path = format!("/packets/{packet}/edit");
    let edit = twice(&jo, &path, &path, "place", ["tin 1", "shed"]);
    Edit { also: Some(("seeds_per_gram", "150")), told: ["“shed”", "“tin 1”"], ..edit }.check().await;
}

#[tokio::test]
async fn a_tick_reads_as_a_tick() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let jo = club.grower("Jo", "JB").await;
    let path = format!("/packets/{}/edit", club.packet(&jo, "Kestrel", 40).await);
    let (one, two) = (jo.get(&path).await, jo.get(&path).await);
    jo.submit(&one, &path, &[("rough", "yes")]).await.says("Saved");
    let told = jo.submit(&two, &path, &[("note", "dry")]).await;
    told.refuses("rough", "Meanwhile it was made ticked, which stands here now.");
    jo.submit(&told, &path, &[]).await.says("dry").says("about");
}

#[tokio::test]
async fn a_tray() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let page = jo.submit(&jo.get("/trays/new").await, "/trays/new", &[]).await;
    let action = format!("{}/place", page.path);
    let edit = twice(&jo, &page.path, &action, "place", ["sill", "greenhouse"]);
    Edit { told: ["“greenhouse”", "“sill”"], ..edit }.check().await;
}

#[tokio::test]
async fn the_name_of_a_kind_of_ones_own() {
    let club = Club::new().await;
    let kim = club.organiser("Kim", "KK").await;
    let page = kim.submit(&kim.get("/kinds").await, "/kinds", &[("name", "sea hollie")]).await;
    let action = format!("{}/name", page.path);
    let edit = twice(&kim, &page.path, &action, "name", ["sea holly", "Eryngium"]);
    Edit { told: ["“Eryngium”", "“sea holly”"], ..edit }.check().await;
}

#[tokio::test]
async fn a_label_sheet() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let form = jo.get("/labels/sheets/new?from=roll-62x29").await;
    let made = jo.submit(&form, "/labels/sheets/new", &[("name", "shed roll")]).await;
    let path = made.path.trim_end_matches("/test").to_owned();
    let edit = twice(&jo, &path, &path, "nudge_x", ["0.5", "0.7"]);
    Edit { also: Some(("nudge_y", "0.2")), told: ["“0.7”", "“0.5”"], ..edit }.check().await;
}

#[tokio::test]
async fn a_plan_and_a_line_of_it() {
    let (club, jo) = planning::club().await;
    let plan = jo.get("/plan").await.link("What it is reckoned with");
    let edit = twice(&jo, &plan, "/plan/season", "mat_bags", ["7", "8"]);
    Edit { also: Some(("trays", "5")), told: ["“8”", "“7”"], ..edit }.check().await;
    let other = planning::routine_named(&club, "Dry seed, straight to paper").await.0;
    let (one, two) = (jo.get(&plan).await, jo.get(&plan).await);
    jo.submit(&one, "/plan/season", &[("routine", &other), ("tray", "16x8")]).await.says("Saved");
    let told = jo.submit(&two, "/plan/season", &[("bag_seeds", "12")]).await;
    told.refuses("routine", "Meanwhile it was made Dry seed, straight to paper");
    told.refuses("tray", "Meanwhile it was made 128");
    club.packet(&jo, "Kestrel", 400).await;
    planning::paste(&jo, "Kestrel, 12, 2026-06-01").await;
    let at = planning::line(&jo, "Kestrel").await;
    let edit = twice(&jo, &at, &at, "plants", ["24", "30"]);
    Edit { also: Some(("weeks", "12")), told: ["“30”", "“24”"], ..edit }.check().await;
}

#[tokio::test]
async fn a_routine_by_two_members() {
    let club = Club::new().await;
    let (jo, lea) = (club.grower("Jo", "JB").await, club.organiser("Lea", "LM").await);
    let form = jo.get("/routines/new").await;
    let fields = [("name", "Warm soak"), ("act_1", "rinse"), ("agent_1", "water"), ("time_1", "10")];
    let made = jo.submit(&form, "/routines/new", &fields).await;
    let path = format!("{}/edit", made.path);
    let edit = twice(&jo, &path, &path, "note", ["as Lea says", "as Jo says"]);
    let told = ["“as Jo says”", "“as Lea says”"];
    Edit { first: &lea, also: Some(("time_1", "15")), told, by: "Lea made it", ..edit }.check().await;
    let (one, two) = (lea.get(&path).await, jo.get(&path).await);
    let step = [("act_2", "priming soak"), ("agent_2", "tea"), ("time_2", "60")];
    lea.submit(&one, &path, &step).await.says("tea");
    let told = jo.submit(&two, &path, &[("note", "two steps")]).await;
    told.refuses("agent_2", "Meanwhile Lea made it “tea”, which stands here now.");
    jo.submit(&told, &path, &[]).await.says("tea").says("two steps");
}

#[tokio::test]
async fn what_members_say_of_themselves() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let edit = twice(&jo, "/me", "/me", "name", ["Jo B", "Joanna"]);
    Edit { told: ["“Joanna”", "“Jo B”"], ..edit }.check().await;
    let (one, two) = (jo.get("/me").await, jo.get("/me").await);
    jo.submit(&one, "/me", &[("measures", "us")]).await.says("Saved.");
    let told = jo.submit(&two, "/me", &[("name", "Jo")]).await;
    told.refuses("measures", "Meanwhile it was made US: teaspoons, ounces");
}

#[tokio::test]
async fn the_numbers_of_a_ring_trial_by_two_organisers() {
    let ring = crate::rings::planned().await;
    let max = ring.club.organiser("Max", "MX").await;
    let action = format!("{}/numbers", ring.path);
    let edit = twice(&max, &ring.path, &action, "difference", ["21", "25"]);
    let told = ["“25”", "“21”"];
    Edit { first: &ring.lea, also: Some(("bag_seeds", "12")), told, ..edit }.check().await;
}

#[tokio::test]
async fn a_role_left_alone_is_not_put_back() {
    let club = Club::new().await;
    let (ines, lea) = (club.organiser("Ines", "IB").await, club.organiser("Lea", "LM").await);
    let path = format!("/members/{}", club.grower("Jo", "JB").await.id());
    let action = format!("{path}/role");
    let (early, late) = (ines.get(&path).await, lea.get(&path).await);
    ines.submit(&early, &action, &[("role", "organiser")]).await.says("Jo is an organiser now");
    let told = lea.submit(&late, &action, &[]).await;
    told.refuses("role", "Meanwhile it was made an organiser, which stands here now.");
    assert_eq!(value(&told, &action, "role"), "organiser");
    assert_eq!(value(&ines.get(&path).await, &action, "role"), "organiser", "nothing was saved");
    lea.submit(&told, &action, &[("role", "grower")]).await.says("Jo is a grower now");
}

#[tokio::test]
async fn a_recount_that_was_counted_before_seeds_went_out() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let packet = club.packet(&jo, "Kestrel", 40).await;
    let path = format!("/packets/{packet}/seeds");
    let page = jo.get(&path).await;
    club.trial(&jo, &packet, 20).await;
    let told = jo.submit(&page, &path, &[("seeds", "38")]).await;
    told.refuses("seeds", "40 seeds by the book then, 20 seeds now");
    assert_eq!(value(&told, &path, "seeds"), "38");
    jo.submit(&told, &path, &[("seeds", "18")]).await.says("18 seeds left");
    stock::sound(&club).await;
}

#[tokio::test]
async fn a_form_that_does_not_say_what_it_saw_overwrites_nothing() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let sent = [("key", "a-key-of-sixteen-letters"), ("name", "Joanna"), ("measures", "metric")];
    let told = jo.post("/me", &sent).await;
    told.refuses("name", "You typed “Joanna”; meanwhile it was made “Jo”.");
}
