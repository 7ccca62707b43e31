//! At the bench: few taps, ghost taps, the keyboard alone, a slow phone on a weak signal.

use crate::support::{Phone, Program};
use hilum::args;
use hilum::db::FromRow;
use serde_json::{Value, json};
use thirtyfour::{Key, TypingData};

/// What the issue asks of a slow phone, in ms and bytes.
const LARGEST_PAINT: f64 = 1500.0;
const INTERACTION: f64 = 100.0;
const FIRST_VISIT: f64 = 30_000.0;
const LATER_VISIT: f64 = 10_000.0;
const REQUESTS: usize = 6;
const DAY: i64 = 24 * 60;
/// The first bag on Due now that wants a look.
const COUNT: &str = ".due a.button[href^='/bags/']:not([href$='/plant'], [href$='/close'])";
/// Other programs share the machine: the best of this many visits is the page's own.
const VISITS: usize = 3;

#[derive(FromRow)]
struct Looks {
    n: i64,
}

async fn looks(program: &Program) -> i64 {
    let db = program.db().await;
    let sql = "SELECT COUNT(*) AS n FROM entries WHERE what = 'look'";
    let found: Looks = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    db.close().await;
    found.n
}

#[tokio::test(flavor = "multi_thread")]
async fn a_count_is_quick_for_wet_hands_the_keyboard_and_weak_signal() {
    let program = Program::demo().await;
    program.at_minute(3 * DAY);
    let phone = Phone::open(&program.base).await;
    with_the_keyboard_alone(&phone, &program).await;
    in_three_taps(&phone, &program).await;
    on_a_slow_phone(&phone).await;
    phone.close().await;
}

/// A double tap, as wet hands make it, is one count.
async fn in_three_taps(phone: &Phone, program: &Program) {
    phone.size(360, 740).await;
    phone.goto("/").await;
    let before = looks(program).await;
    phone.tap(COUNT).await;
    phone.tap(".stepper button[data-step='1']").await;
    let save = phone.find(".save button.main").await;
    phone.driver.action_chain().double_click_element(&save).perform().await.unwrap();
    phone.says("Undo").await;
    assert_eq!(looks(program).await, before + 1, "a double tap is one count");
    let next = phone.texts("#said a").await;
    assert!(!next[0].is_empty(), "the next useful thing is offered");
    phone.tap("#said .undo button").await;
    phone.says("undone").await;
}

/// WCAG 2.2: 2.1.1, 2.4.3, 2.4.7, 2.4.11. From signing in to the club table without a pointer.
async fn with_the_keyboard_alone(phone: &Phone, program: &Program) {
    phone.size(1280, 800).await;
    phone.goto("/sign-in").await;
    phone.type_into("#f-sign_in", "bartek").await;
    phone.type_into("#f-password", hilum::upkeep::demo::PASSWORD).await;
    phone.keys(Key::Enter).await;
    phone.says("Due now").await;
    let before = looks(program).await;
    phone.press(COUNT, "Root out").await;
    phone.type_into("#f-rooted", "1").await;
    phone.press(".save button.main", "Undo").await;
    assert_eq!(looks(program).await, before + 1);
    phone.press("#said a", "Plant").await;
    phone.press("main form[method=post] button.main", "Undo").await;
    phone.press("nav a[href='/table']", "Club table").await;
}

impl Phone {
    /// Types on the keyboard, wherever the focus is.
    async fn keys(&self, keys: impl Into<TypingData>) {
        self.driver.action_chain().send_keys(keys).perform().await.unwrap();
    }

    /// Goes to a field and types into it.
    async fn type_into(&self, css: &str, text: &str) {
        self.tab_to(css).await;
        self.keys(text).await;
    }

    /// Goes to a button or link, presses it, and waits for the page that says `words`.
    async fn press(&self, css: &str, words: &str) {
        self.tab_to(css).await;
        self.keys(Key::Enter).await;
        self.says(words).await;
    }

    /// Presses Tab until the first element that matches has the focus; each stop on the way must be seen.
    async fn tab_to(&self, css: &str) {
        let found = self.find(css).await;
        for _ in 0..200 {
            self.keys(Key::Tab).await;
            let stop = self.ask(STOP).await;
            assert_eq!(stop, Value::Null, "{} on the way to {css}", self.path().await);
            if self.driver.active_element().await.unwrap() == found {
                return;
            }
        }
        panic!("the keyboard does not reach {css} on {}", self.path().await);
    }

    /// Opens a page anew and gives its largest paint in ms, its layout shift, bytes and requests.
    async fn visit(&self, path: &str) -> Visit {
        self.goto(path).await;
        tokio::time::sleep(std::time::Duration::from_millis(1500)).await;
        let seen = self.ask(PAINTED).await;
        let number = |name: &str| seen[name].as_f64().unwrap_or_else(|| panic!("{name} of {path}: {seen}"));
        let hosts: Vec<&str> =
            seen["hosts"].as_array().unwrap().iter().map(|h| h.as_str().unwrap()).collect();
        assert!(hosts.iter().all(|host| self.base.ends_with(host)), "{hosts:?}");
        if number("shift") > 0.0 {
            println!("moved: {}", seen["moved"]);
        }
        Visit {
            paint: number("paint"),
            shift: number("shift"),
            bytes: number("bytes"),
            requests: hosts.len(),
        }
    }

    /// A slow phone on a weak signal: 150 ms, 1.6 Mbit/s down, 750 kbit/s up, a quarter of this computer's speed.
    async fn slow(&self) {
        let net = json!({ "offline": false, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 93_750 });
        self.cdp("Network.enable", json!({})).await;
        self.cdp("Network.emulateNetworkConditions", net).await;
        self.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await;
    }

    /// As a phone without a worker: what a worker hands on cannot be told from what came over the network.
    async fn forget(&self) {
        let all = json!({ "origin": self.base, "storageTypes": "service_workers,cache_storage,indexeddb" });
        self.driver.goto("about:blank").await.unwrap();
        self.cdp("Storage.clearDataForOrigin", all).await;
    }
}

/// What is wrong with the element that has the focus: no outline, or something lies over it.
const STOP: &str = "
    const e = document.activeElement;
    if (!e || e === document.body) return null;
    const style = getComputedStyle(e);
    if (style.outlineStyle === 'none' && style.boxShadow === 'none') return `no outline: ${e.outerHTML.slice(0, 200)}`;
    const [box] = e.getClientRects();
    if (!box) return `no box: ${e.outerHTML.slice(0, 200)}`;
    const x = box.left + box.width / 2, y = box.top + box.height / 2;
    const top = document.elementFromPoint(x, y);
    const own = top && (e.contains(top) || top.contains(e) || [...e.labels ?? []].some(l => l.contains(top)));
    return own ? null : `hidden under ${top?.outerHTML.slice(0, 100)}: ${e.outerHTML.slice(0, 200)}`;";

const PAINTED: &str = "
    const all = type => new Promise(done => {
        const found = [];
        new PerformanceObserver(list => found.push(...list.getEntries())).observe({ type, buffered: true });
        setTimeout(done, 200, found);
    });
    const paints = await all('largest-contentful-paint');
    const shifts = await all('layout-shift');
    const [page] = performance.getEntriesByType('navigation');
    const files = performance.getEntriesByType('resource').filter(r => r.startTime < page.loadEventEnd);
    return {
        paint: paints.at(-1).startTime,
        shift: shifts.reduce((sum, s) => sum + s.value, 0),
        moved: shifts.flatMap(s => s.sources.map(x => x.node?.outerHTML?.slice(0, 120) ?? x.node?.nodeName)),
        bytes: page.transferSize + files.reduce((sum, f) => sum + f.transferSize, 0),
        hosts: [page, ...files].map(r => new URL(r.name).host),
    };";

/// The slowest interaction since the page came, in ms, and how many there were (Event Timing; quick ones have no entry).
const SLOWEST: &str = "
    return await new Promise(done => {
        let most = 0;
        const see = list => list.getEntries().forEach(e => { most = Math.max(most, e.duration); });
        new PerformanceObserver(see).observe({ type: 'event', buffered: true, durationThreshold: 16 });
        new PerformanceObserver(see).observe({ type: 'first-input', buffered: true });
        setTimeout(() => done([most, performance.interactionCount]), 500);
    });";

#[derive(Debug)]
struct Visit {
    paint: f64,
    shift: f64,
    bytes: f64,
    requests: usize,
}

async fn on_a_slow_phone(phone: &Phone) {
    phone.slow().await;
    let (mut first, mut later) = (Vec::new(), Vec::new());
    for _ in 0..VISITS {
        phone.forget().await;
        phone.cdp("Network.clearBrowserCache", json!({})).await;
        first.push(phone.visit("/").await);
        phone.forget().await;
        later.push(phone.visit("/").await);
    }
    println!("first visits {first:?}\nlater visits {later:?}");
    light(&first, FIRST_VISIT);
    light(&later, LATER_VISIT);
    let mut slowest = Vec::new();
    for _ in 0..VISITS {
        slowest.push(slowest_of_a_count(phone).await);
    }
    println!("slowest interaction of a count {slowest:?} ms");
    let best = slowest.iter().copied().fold(f64::INFINITY, f64::min);
    assert!(best > 0.0 && best <= INTERACTION, "{slowest:?} ms");
}

fn light(visits: &[Visit], bytes: f64) {
    let best = visits.iter().map(|v| v.paint).fold(f64::INFINITY, f64::min);
    assert!(best <= LARGEST_PAINT, "largest paint after {best} ms");
    for visit in visits {
        assert!(visit.shift == 0.0 && visit.bytes <= bytes && visit.requests <= REQUESTS, "{visit:?}");
    }
}

async fn slowest_of_a_count(phone: &Phone) -> f64 {
    phone.goto("/").await;
    phone.tap(COUNT).await;
    phone.tap(".stepper button[data-step='1']").await;
    phone.tap(".stepper button[data-step='-1']").await;
    phone.fill("#f-rooted", "1").await;
    let seen = phone.ask(SLOWEST).await;
    assert!(seen[1].as_i64().unwrap() >= 3, "interactions were seen: {seen}");
    seen[0].as_f64().unwrap()
}
