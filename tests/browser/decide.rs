//! From the club table to a ring trial: what an organiser of the invented club decides, following only the pages.

use crate::ring;
use crate::support::{Phone, Program};

const DAY: i64 = 24 * 60;
/// What a grower of a ring trial must not read before its end.
const NAMES: [&str; 3] = ["Marsh Ember", "Northbank", "Peatland"];

#[tokio::test(flavor = "multi_thread")]
async fn an_organiser_decides_what_to_buy_and_sets_up_a_ring_trial_to_settle_the_rest() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    read_the_table(&phone).await;
    read_the_variety(&phone).await;
    read_the_source(&phone).await;
    read_what_helps(&phone).await;
    print_the_report(&phone).await;
    calculate(&phone).await;
    let ring = set_up(&phone).await;
    print_labels_and_key(&phone).await;
    let rooted = hand_out(&phone).await;
    grow_blind(&phone, &program, &rooted).await;
    follow(&phone).await;
    open_early(&phone, &ring).await;
    phone.close().await;
}

/// The cells of the table's row of a variety and source.
async fn row(phone: &Phone, variety: &str, source: &str) -> Vec<String> {
    let script = "return [...document.querySelectorAll('tbody tr')].map(row => [...row.cells].map(c =>
        c.textContent.replace(/\\s+/g, ' ').trim()).join('|')).find(row => row.startsWith(arguments[0])) || ''";
    let found = phone.reads(script, &format!("{variety}|{source}|")).await;
    found.split('|').map(str::to_owned).collect()
}

async fn read_the_table(phone: &Phone) {
    phone.tap_words("Club table").await;
    phone.says("Adjusted is what a grower of average care would see").await;
    assert!(phone.texts("thead th").await.contains(&"Adjusted".to_owned()));
    let ember = row(phone, "Marsh Ember", "Mereside Swap").await;
    assert_eq!(ember[3..6], ["39 % (27 to 53), 92 seeds, 4 growers", "33 % (19 to 53)", "36 of 92"]);
    let ember = row(phone, "Marsh Ember", "Peatland Gene Bank").await;
    assert_eq!(ember[3..6], ["30 % (10 to 61), 20 seeds, 1 grower", "40 % (19 to 66)", "6 of 20"]);
    phone.look("club-table").await;
}

async fn read_the_variety(phone: &Phone) {
    phone.tap_words("Marsh Ember").await;
    phone.says("Marsh Ember (pepper)").await;
    let answer = phone.texts(".answer").await;
    assert_eq!(answer, ["Buy Northbank Seeds again: it roots better than Mereside Swap."]);
    phone.says("28 more of 100 seeds (4 to 45), chance 99 %").await;
    phone.says("Growers who had both (4 growers) found the same: 33 more of 100 seeds (19 to 46)").await;
    phone.says("Peatland Gene Bank (grown by Hugo Marchetti) cannot be compared with Northbank Seeds").await;
    phone.says("no grower, nor a chain of growers, had both").await;
    phone.says("Group 2 of 2: stands alone").await;
    let pairs = phone.texts("caption + thead + tbody th").await;
    assert!(!pairs.iter().any(|p| p.contains("against") && p.contains("Peatland")), "{pairs:?}");
    phone.look("variety").await;
}

async fn read_the_source(phone: &Phone) {
    phone.tap(".reasons a[href^='/table/source']").await;
    phone.says("Its varieties beside those of other sources").await;
    phone.says("Not shown to differ from the club's average source").await;
    let ember = row(phone, "Marsh Ember", "pepper").await;
    assert_eq!(ember[2..5], ["62 % (43 to 76)", "72 %", "101 seeds, 5 growers"]);
    assert!(ember[5].contains("Cannot be compared with Peatland Gene Bank"), "{ember:?}");
    phone.look("source").await;
}

async fn read_what_helps(phone: &Phone) {
    phone.tap_words("Club table").await;
    phone.tap_words("What helps").await;
    phone.says("Each answer comes only from growers who tried it both ways").await;
    phone.says("Found: 30 fewer of 100 seeds (16 to 45), by 10 growers who varied it, in 46 trials.").await;
    phone.says("Each 5 °C warmer: no difference shown.").await;
    phone.look("what-helps").await;
}

async fn print_the_report(phone: &Phone) {
    phone.tap_words("Club table").await;
    phone.tap_words("Report for the club meeting").await;
    for (paper, other) in [("a4", "US Letter instead"), ("letter", "A4 instead")] {
        phone.says(other).await;
        let print = phone.print(&format!("report-{paper}")).await;
        print.is_sound(paper);
        for words in [
            "Fenside Growing Club: which source to buy from again",
            "Marsh Ember: Buy Northbank Seeds again: it roots better than Mereside Swap.",
            "33 % (19 to 53)",
        ] {
            assert!(print.says(words), "'{words}' is not on the {paper} report: {:?}", print.pages);
        }
        phone.look(&format!("report-{paper}")).await;
        phone.tap_words(other).await;
    }
}

async fn calculate(phone: &Phone) {
    phone.tap_words("Club table").await;
    phone.tap_words("Do floaters fail?").await;
    phone.says("floaters failed about 2.1 times as often as sunk seeds of the same lot").await;
    phone.says("55 % (45 to 65): 48 of 87 seeds").await;
    sow(phone).await;
}

async fn sow(phone: &Phone) {
    phone.tap_words("Club table").await;
    phone.tap_words("Calculators").await;
    phone.tap_words("How many to sow").await;
    phone.fill("#f-plants", "24").await;
    phone.choose("#f-from", "pepper: Marsh Ember, Northbank Seeds").await;
    phone.tap("main button.main").await;
    phone.says("Soak 46 seeds.").await;
    phone.says("by the standard day, of 104 seeds started in 10 bags by 5 growers").await;
    phone.look("sowing").await;
    phone.tap_words("Calculators").await;
    phone.tap_words("Seeds for a comparison").await;
    phone.fill("#f-one", "62").await;
    phone.fill("#f-other", "41").await;
    phone.tap("main button.main").await;
    phone.says("bags of 10 seeds from each source.").await;
    phone.look("comparison").await;
}

/// From the pair that cannot be compared to the plan that links it; gives the ring trial's address.
async fn set_up(phone: &Phone) -> String {
    phone.tap_words("Club table").await;
    phone.tap_words("Marsh Ember").await;
    phone.tap_words("Set up a ring trial of Marsh Ember").await;
    phone.says("Ring trial of Marsh Ember, pepper").await;
    phone.look("ring-new").await;
    let growers = ["Bartek Wolny", "Chidi Anozie", "Edda Lund"];
    let ring = ring::plan(phone, "Spring pair", &["JA 2", "HM 1"], &growers).await;
    phone.says("2 lots, 3 growers (Bartek Wolny, Chidi Anozie, Edda Lund)").await;
    phone.says("All lots are linked").await;
    phone.look("ring-plan").await;
    phone.tap_words("Take what they hold").await;
    phone.says("1 bag of 10 seeds").await;
    phone.says("These numbers are too few for it.").await;
    phone.look("ring-plan-held").await;
    ring::draw(phone).await;
    phone.says("0 of 6 packets are counted to the end. All lots are linked through shared growers.").await;
    ring
}

async fn print_labels_and_key(phone: &Phone) {
    phone.tap("main a[href$='/labels']").await;
    for (paper, other) in [("a4", "US Letter instead"), ("letter", "A4 instead")] {
        phone.says(other).await;
        let print = phone.print(&format!("labels-{paper}")).await;
        print.is_sound(paper);
        assert_eq!(print.pages.len(), 1, "six labels are one sheet of {paper}");
        for (words, times) in
            [("Spring pair (blind).", 6), ("pepper, 1 bag of 10", 6), ("BW 16", 1), ("EL 16", 1)]
        {
            assert_eq!(print.pages[0].matches(words).count(), times, "{words}: {:?}", print.pages);
        }
        assert!(!NAMES.iter().any(|name| print.says(name)), "labels tell no lot: {:?}", print.pages);
        phone.look(&format!("labels-{paper}")).await;
        phone.tap_words(other).await;
    }
    phone.tap_words("Back to the ring trial").await;
    print_key(phone).await;
}

async fn print_key(phone: &Phone) {
    phone.tap_words("Key for filling the packets").await;
    for (paper, other) in [("a4", "US Letter instead"), ("letter", "A4 instead")] {
        phone.says(other).await;
        let print = phone.print(&format!("key-{paper}")).await;
        print.is_sound(paper);
        for words in
            ["Not for the growers before the end.", "Northbank Seeds 2025", "with Hugo Marchetti: 30 seeds"]
        {
            assert!(print.says(words), "'{words}' is not on the {paper} key: {:?}", print.pages);
        }
        phone.look(&format!("key-{paper}")).await;
        phone.tap_words(other).await;
    }
    phone.tap_words("Back to the ring trial").await;
}

/// Gives Bartek his packets; tells how many of each will root: 8 of Northbank's, 3 of the gene bank's.
async fn hand_out(phone: &Phone) -> [(&'static str, &'static str); 2] {
    ring::hand_out(phone, "Bartek Wolny").await;
    phone.says("Handed out: 2 packets").await;
    assert_eq!(row(phone, "Bartek Wolny", "BW 16").await[3], "handed out");
    assert_eq!(row(phone, "Chidi Anozie", "CA 13").await[3], "not handed out");
    phone.look("ring-running").await;
    let lot = row(phone, "Bartek Wolny", "BW 16").await[2].clone();
    let northbank = lot.starts_with("Northbank Seeds 2025");
    assert!(northbank || lot.starts_with("Peatland Gene Bank"), "{lot}");
    if northbank { [("BW 16", "8"), ("BW 17", "3")] } else { [("BW 16", "3"), ("BW 17", "8")] }
}

/// Bartek, on his phone: two packets without a name, put on paper and counted.
async fn grow_blind(phone: &Phone, program: &Program, rooted: &[(&str, &str)]) {
    change_hands(phone, "bartek").await;
    ring::go(phone, "Spring pair").await;
    phone.says("Your packets").await;
    blind(phone).await;
    phone.look("ring-grower").await;
    phone.tap("ul.due a.button[href^='/trials/new']").await;
    phone.says("Start a trial").await;
    blind(phone).await;
    phone.look("blind-start").await;
    let bags = ring::start(phone, "Spring pair").await;
    program.at_minute(8 * DAY);
    ring::count(phone, &bags, rooted).await;
    blind(phone).await;
    phone.look("blind-bag").await;
}

async fn blind(phone: &Phone) {
    for name in NAMES {
        phone.hides(name).await;
    }
}

async fn change_hands(phone: &Phone, name: &str) {
    phone.tap_words("Sign out").await;
    phone.says("Sign in").await;
    phone.sign_in(name).await;
}

async fn follow(phone: &Phone) {
    change_hands(phone, "agnes").await;
    ring::go(phone, "Spring pair").await;
    phone.says("0 of 6 packets are counted to the end").await;
    phone.says("8 of 10 rooted").await;
    phone.says("3 of 10 rooted").await;
    phone.look("ring-progress").await;
}

async fn open_early(phone: &Phone, ring: &str) {
    phone.tap_words("Open the ring trial").await;
    phone.says("6 of 6 packets are not counted to the end.").await;
    phone.tap("main .save button.main").await;
    phone.says("Not saved.").await;
    phone.look("ring-open-refused").await;
    phone.fill("#f-why", "Frost took the other two sheds.").await;
    phone.tap("main .save button.main").await;
    phone.says("Opened early: Frost took the other two sheds.").await;
    assert_eq!(phone.path().await, ring, "the result stands at the same address");
    phone.says("No difference shown between").await;
    phone.says("From the 1 grower who had both: one alone shows no difference").await;
    let hands = row(phone, "Bartek Wolny", "8 of 10").await;
    assert_eq!(hands[1..], ["8 of 10", "3 of 10"], "Northbank Seeds, then Peatland Gene Bank");
    assert_eq!(row(phone, "Chidi Anozie", "not counted").await[2], "not counted");
    phone.says("2 bags are still running, so these numbers can still move.").await;
    phone.look("ring-result").await;
}
