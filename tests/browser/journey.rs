//! The whole job, from an empty database to the club table, on a phone 360 px wide.

use crate::support::{Phone, Program};

pub const DAY: i64 = 24 * 60;
pub const PASSWORD: &str = "four words quite unrelated";
const LIST: &str = "number,kind,variety,source,year,seeds\n\
    7,pepper,Marsh Lantern,Wetland Seeds,2025,30\n\
    8,pepper,Copper Heron,Wetland Seeds,2025,25\n\
    12,tomato,Dyke Cherry,Sluice & Sons,2024,20\n";

#[tokio::test(flavor = "multi_thread")]
async fn a_grower_carries_seed_from_packet_to_tray_and_the_organiser_reads_the_table() {
    let program = Program::start().await;
    let phone = Phone::open(&program.base).await;
    let invitation = set_up_and_invite(&phone, &program).await;
    join(&phone, &invitation).await;
    import(&phone).await;
    let trials = start(&phone).await;
    soak(&phone, &program, &trials).await;
    let bags = paper(&phone, &program, &trials).await;
    count(&phone, &program, &bags).await;
    plant(&phone, &program, &bags[0]).await;
    read_the_table(&phone, &program).await;
    phone.close().await;
}

pub async fn set_up_and_invite(phone: &Phone, program: &Program) -> String {
    phone.goto(&program.set_up).await;
    phone.look("set-up").await;
    phone.fill("#f-club", "Moorland Growers").await;
    phone.fill("#f-time_zone", "Europe/Berlin").await;
    who(phone, "Ines Brandt", "ines", "IB").await;
    phone.says("Members").await;
    phone.goto("/members").await;
    phone.tap("form[action='/members/invite'] button").await;
    phone.says("It is shown only now").await;
    phone.look("invitation").await;
    let link = phone.find("#link").await.prop("value").await.unwrap().unwrap();
    phone.tap("footer form button").await;
    link
}

async fn who(phone: &Phone, name: &str, sign_in: &str, letters: &str) {
    phone.fill("#f-name", name).await;
    phone.fill("#f-sign_in", sign_in).await;
    phone.fill("#f-letters", letters).await;
    phone.fill("#f-password", PASSWORD).await;
    phone.tap("button.main").await;
}

pub async fn join(phone: &Phone, invitation: &str) {
    phone.says("Sign in").await;
    phone.goto(invitation).await;
    who(phone, "Jonas Vik", "jonas", "JV").await;
    phone.says("Due now").await;
    phone.look("due-now-empty").await;
}

pub async fn import(phone: &Phone) {
    phone.goto("/packets/import").await;
    phone.look("import").await;
    phone.fill("#f-list", LIST).await;
    phone.tap("#import .save button.main").await;
    phone.says("Bring in 3").await;
    phone.look("import-preview").await;
    phone.tap(".save button.main").await;
    phone.says("JV 12").await;
}

/// Starts a soak of the three packets; gives the addresses of the trials.
pub async fn start(phone: &Phone) -> Vec<String> {
    phone.goto("/packets").await;
    phone.look("packets").await;
    phone.tick_all("input[name=packet]").await;
    phone.tap(".save button.main").await;
    phone.says("Began at").await;
    phone.choose("#f-routine", "Peroxide soak").await;
    phone.look("start").await;
    phone.tap("#start .save button.main").await;
    phone.says("Undo").await;
    phone.goto("/trials").await;
    phone.look("trials").await;
    let mut trials = phone.links("a.mark[href^='/trials/']").await;
    trials.sort();
    trials.dedup();
    assert_eq!(trials.len(), 3);
    trials
}

/// Sanitising soak, rinse, overnight: each step done for the three together.
pub async fn soak(phone: &Phone, program: &Program, trials: &[String]) {
    phone.goto("/").await;
    phone.look("due-now-soak").await;
    for (minute, name) in [(31, "sanitised"), (37, "rinsed"), (13 * 60, "soaked")] {
        program.at_minute(minute);
        phone.goto(&trials[0]).await;
        phone.look(&format!("trial-{name}")).await;
        phone.tick_all("input[name=also]").await;
        phone.tap("#step .save button.main").await;
        phone.says("Undo").await;
    }
    tally(phone, trials).await;
}

async fn tally(phone: &Phone, trials: &[String]) {
    for trial in trials {
        phone.goto(&format!("{trial}/tally")).await;
        phone.fill("#f-sank", "9").await;
        phone.fill("#f-floated", "1").await;
        phone.tap_words("Kept in").await;
        phone.look("tally").await;
        phone.tap("#tally .save button.main").await;
        phone.says("Undo").await;
    }
}

/// Ten seeds of each on paper; gives the addresses of the bags.
pub async fn paper(phone: &Phone, program: &Program, trials: &[String]) -> Vec<String> {
    program.at_minute(14 * 60);
    let mut bags = Vec::new();
    for trial in trials {
        phone.goto(&format!("{trial}/paper")).await;
        phone.look("paper").await;
        phone.tap("#paper .save button.main").await;
        phone.says("Undo").await;
        phone.goto(trial).await;
        bags.push(phone.links("a.mark[href^='/bags/']").await.remove(0));
    }
    bags
}

/// Counts on three days, the second of them a screen of looks without news.
async fn count(phone: &Phone, program: &Program, bags: &[String]) {
    program.at_minute(14 * 60 + 5 * DAY);
    phone.goto("/").await;
    phone.look("due-now").await;
    for (bag, rooted) in bags.iter().zip(["4", "2", "7"]) {
        look_in(phone, bag, rooted).await;
    }
    program.at_minute(14 * 60 + 6 * DAY);
    phone.goto("/looks").await;
    phone.look("looks").await;
    phone.tap_words("looked at too: nothing new").await;
    phone.tap("#looks .save button.main").await;
    phone.says("Undo").await;
    program.at_minute(14 * 60 + 14 * DAY);
    for (bag, rooted) in bags.iter().zip(["3", "4", "1"]) {
        look_in(phone, bag, rooted).await;
    }
    phone.goto(&bags[0]).await;
    phone.look("bag").await;
}

async fn look_in(phone: &Phone, bag: &str, rooted: &str) {
    phone.goto(bag).await;
    phone.fill("#f-rooted", rooted).await;
    phone.tap(".save button.main").await;
    phone.says("Undo").await;
}

async fn plant(phone: &Phone, program: &Program, bag: &str) {
    program.at_minute(15 * 60 + 14 * DAY);
    phone.goto(&format!("{bag}/plant")).await;
    phone.tap_words("Make a tray").await;
    phone.says("Make the tray").await;
    phone.look("tray-new").await;
    phone.tap("#new-tray .save button.main").await;
    phone.says("Seeds to plant").await;
    phone.look("plant").await;
    phone.tap("#plant .save button.main").await;
    phone.says("Undo").await;
    phone.goto("/trays").await;
    let tray = phone.links("a.mark[href^='/trays/']").await.remove(0);
    phone.goto(&tray).await;
    phone.look("tray").await;
    for paper in ["a4", "letter"] {
        phone.goto(&format!("{tray}/sheet?paper={paper}")).await;
        phone.says("JV").await;
        let pdf = phone.print(&format!("tray-sheet-{paper}")).await;
        assert_eq!(pdf.pages.len(), 1, "a tray sheet is one page of {paper}");
    }
}

pub async fn read_the_table(phone: &Phone, program: &Program) {
    program.at_minute(16 * 60 + 20 * DAY);
    phone.goto("/").await;
    phone.tap("footer form button").await;
    phone.says("Sign in").await;
    phone.fill("#f-sign_in", "ines").await;
    phone.fill("#f-password", PASSWORD).await;
    phone.tap("button.main").await;
    phone.says("Due now").await;
    phone.goto("/table").await;
    phone.says("Marsh Lantern").await;
    phone.says("70 %").await;
    phone.look("table").await;
}
