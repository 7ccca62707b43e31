//! A season planned by an organiser, and its first work day: thirty varieties pasted, accepted, on Due now, week by week, on paper; what ages and what to buy.

use crate::support::{Phone, Program};
use crate::workday;

/// Varieties that the club does not have yet.
const NEW: [&str; 12] = [
    "tomato: Wharf Red",
    "tomato: Sluice Plum",
    "pepper: Ferry Bell",
    "pepper: Osier Hot",
    "aubergine: Reedling",
    "lettuce: Bittern",
    "onion: Causeway",
    "leek: Long Drove",
    "cabbage: Fen Drum",
    "cucumber: Dyke End",
    "celery: Washland",
    "basil: Green Staithe",
];
const LINES: usize = 30;
const DAY: i64 = 24 * 60;

#[tokio::test(flavor = "multi_thread")]
async fn an_organiser_plans_a_season_of_thirty_varieties() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    make_the_plan(&phone).await;
    paste_the_lines(&phone).await;
    read_a_line(&phone).await;
    accept(&phone).await;
    week_by_week(&phone).await;
    on_paper(&phone).await;
    ageing_and_shopping(&phone).await;
    start_the_first(&phone, &program).await;
    workday::print_type_in_and_lend(&phone).await;
    phone.close().await;
}

async fn make_the_plan(phone: &Phone) {
    phone.tap_words("Plan").await;
    phone.says("A plan for a season").await;
    phone.look("plan-season").await;
    phone.choose("#f-routine", "Plain water overnight").await;
    phone.fill("#f-mat_bags", "12").await;
    phone.fill("#f-trays", "4").await;
    phone.tap("#season button.main").await;
    phone.says("Add to the plan 2026").await;
}

/// Thirty varieties, ready over six weeks of spring.
async fn list(phone: &Phone) -> String {
    let script = "return [...document.querySelectorAll('#l-varieties option')].map(o => o.value).join('\\n')";
    let known = phone.reads(script, "").await;
    let known: Vec<&str> = known.lines().collect();
    let new = known.len().min(LINES - NEW.len());
    let names = known[..new].iter().chain(&NEW[..LINES - new]);
    let line = |(n, name): (usize, &&str)| {
        let day = n % 6 * 7;
        let (month, day) = if day < 28 { (5, 4 + day) } else { (6, day - 27) };
        format!("{name}\t{}\t2026-{month:02}-{day:02}", 4 + n % 5 * 4)
    };
    names.enumerate().map(line).collect::<Vec<_>>().join("\n")
}

async fn paste_the_lines(phone: &Phone) {
    let list = list(phone).await;
    assert_eq!(list.lines().count(), LINES);
    paste(phone, &format!("{list}\nMarsh Embr, 4, 2026-06-01")).await;
    phone.says("Line 31: The club has no variety Marsh Embr. Did you mean Marsh Ember?").await;
    phone.look("plan-lines-refused").await;
    paste(phone, &list).await;
    phone.says(&format!("Added: {LINES} lines.")).await;
    phone.look("plan").await;
}

/// Puts the list into the field at once, as pasting does.
async fn paste(phone: &Phone, list: &str) {
    phone.find("#f-list").await;
    phone.reads("document.querySelector('#f-list').value = arguments[0]; return '';", list).await;
    phone.tap("#lines .save button.main").await;
}

async fn read_a_line(phone: &Phone) {
    phone.tap_words("Marsh Ember").await;
    phone.says("How this is reckoned").await;
    phone.says("the club’s adjusted rate of Marsh Ember from").await;
    phone.look("plan-line").await;
    phone.tap("main a[href^='/plan?plan=']").await;
    phone.says("In all").await;
}

async fn accept(phone: &Phone) {
    phone.tap_words("Tick all that can be accepted").await;
    phone.tap("#accept .save button.main").await;
    phone.says("Accepted:").await;
    phone.says("They stand on Due now from their day on.").await;
    let states = phone.texts("td[data-label='State']").await;
    let accepted = states.iter().filter(|s| s.as_str() == "accepted").count();
    assert!(accepted >= 5, "{states:?}");
    phone.look("plan-accepted").await;
    phone.tap_words("Packets").await;
    phone.says("promised").await;
    phone.look("packets-promised").await;
    phone.tap_words("Due now").await;
    phone.says(": start").await;
    phone.look("due-planned").await;
}

async fn week_by_week(phone: &Phone) {
    phone.tap_words("Plan").await;
    phone.tap_words("Week by week").await;
    phone.says("Week of").await;
    phone.says("than the mat holds").await;
    phone.says("of 12 bags").await;
    phone.look("plan-weeks").await;
}

async fn on_paper(phone: &Phone) {
    phone.tap_words("Print the list").await;
    for paper in ["a4", "letter"] {
        phone.goto(&format!("/plan/print?paper={paper}")).await;
        let print = phone.print(&format!("plan-{paper}")).await;
        print.is_wide(paper);
        assert!(print.says("Marsh Ember, pepper") && print.says("Green Staithe, basil"), "{:?}", print.pages);
    }
    phone.look("plan-print").await;
}

async fn ageing_and_shopping(phone: &Phone) {
    phone.goto("/packets").await;
    phone.tap_words("Ageing seed").await;
    phone.says("Use first").await;
    phone.says("C. Wilson").await;
    phone.look("ageing").await;
    phone.tap_words("Plan").await;
    phone.tap_words("Shopping list").await;
    phone.says("Wharf Red, tomato").await;
    phone.says("your packets hold 0 of them").await;
    phone.look("shopping").await;
}

async fn start_the_first(phone: &Phone, program: &Program) {
    program.at_minute(DAY);
    phone.tap_words("Due now").await;
    let mark = phone.reads("const start = [...document.querySelectorAll('.due > li')].find(li => li.innerText.includes(': start '));
        const mark = start.querySelector('.mark').innerText; start.querySelector('a.button').click(); return mark;", "").await;
    phone.says("Start a trial").await;
    phone.says(&mark).await;
    phone.tap("#start .save button.main").await;
    phone.says("Started: 1 trial").await;
    phone.tap_words("Plan").await;
    phone.says("started").await;
}
