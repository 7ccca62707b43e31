use super::axe::Rules;
use super::{answers, free_port, kept};
use serde_json::json;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use tempfile::TempDir;
use thirtyfour::prelude::*;

/// Hears what the browser holds against a page, from its first line on; and marks a page whose form is on its way,
/// so that nothing is read of it any more and no other address takes the form's place.
const LISTEN: &str = "self.heard = [];
    addEventListener('securitypolicyviolation', e => heard.push(`policy ${e.violatedDirective}: ${e.blockedURI} ${e.sample}`));
    addEventListener('error', e => heard.push(`error: ${e.message ?? e.target.src ?? e.target.href}`), true);
    addEventListener('unhandledrejection', e => heard.push(`not caught: ${e.reason}`));
    addEventListener('submit', e => { if (!e.defaultPrevented) self.leaving = performance.now(); });
    for (const name of ['error', 'warn']) console[name] = (...said) => heard.push(`${name}: ${said}`);";

/// A busy machine is no weak signal: a page waits longer for an answer before it says that a count is kept on the phone,
/// and offers to undo for longer.
const PATIENT: &str = "{ const wait = self.setTimeout.bind(self);
    self.setTimeout = (then, ms, ...more) => wait(then, [3500, 10000].includes(ms) && !self.hurried ? 12 * ms : ms, ...more); }";

/// A browser the size of a small phone, with a profile of its own.
pub struct Phone {
    pub driver: WebDriver,
    /// Where paths start.
    pub base: String,
    chromedriver: Child,
    port: u16,
    profile: TempDir,
    /// Whether [`Phone::look`] takes pictures and asks axe.
    pub pictures: bool,
    /// The script that moves the phone's clock.
    clock: Option<String>,
    hurried: bool,
}

impl Phone {
    pub async fn open(base: &str) -> Self {
        let profile = TempDir::new().unwrap();
        let (driver, chromedriver, port) = start(&profile).await;
        let base = base.to_owned();
        let phone =
            Self { driver, base, chromedriver, port, profile, pictures: true, clock: None, hurried: false };
        phone.size(360, 740).await;
        phone
    }

    /// Ends the browser as a dead battery would, and opens it again with the same profile.
    pub async fn kill_and_reopen(&mut self) {
        for pid in children(self.chromedriver.id()) {
            let _ = Command::new("kill").args(["-9", &pid.to_string()]).status();
        }
        let _ = self.chromedriver.kill();
        let _ = self.chromedriver.wait();
        for lock in ["SingletonLock", "SingletonCookie", "SingletonSocket", "DevToolsActivePort"] {
            let _ = std::fs::remove_file(self.profile.path().join(lock));
        }
        let (driver, chromedriver, port) = start(&self.profile).await;
        let old = std::mem::replace(&mut self.driver, driver);
        old.leak().unwrap_or_default();
        self.chromedriver = chromedriver;
        self.port = port;
        self.clock = None;
        if self.hurried {
            self.hurry().await;
        }
        self.size(360, 740).await;
    }

    /// From the next page on, a page waits as long as a grower's does: for what a signal does, and for many walks.
    pub async fn hurry(&mut self) {
        self.hurried = true;
        let source = json!({ "source": "self.hurried = true;" });
        self.cdp("Page.addScriptToEvaluateOnNewDocument", source).await;
    }

    /// Opens a new tab and closes the one there was.
    pub async fn close_tab(&mut self) {
        let old = self.driver.window().await.unwrap();
        let new = self.driver.new_tab().await.unwrap();
        self.driver.switch_to_window(old).await.unwrap();
        self.driver.close_window().await.unwrap();
        self.driver.switch_to_window(new).await.unwrap();
        self.clock = None;
        self.size(360, 740).await;
    }

    /// Moves the phone's clock this far from the true time; pages opened from now on see it.
    pub async fn move_clock(&mut self, minutes: i64) {
        if let Some(before) = self.clock.take() {
            let id = json!({ "identifier": before });
            // gone already where the browser has made the page anew
            let _ = self.driver.cdp().send_raw("Page.removeScriptToEvaluateOnNewDocument", id).await;
        }
        let source = format!(
            "{{ const real = Date.now.bind(Date); Date.now = () => real() + {}; }}",
            minutes * 60_000
        );
        let added = self.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await;
        self.clock = added["identifier"].as_str().map(str::to_owned);
    }

    /// Signs in by the session's secret, or out where it is empty.
    pub async fn session(&self, token: &str) {
        self.cdp("Network.clearBrowserCookies", json!({})).await;
        if !token.is_empty() {
            let cookie = json!({ "name": "hilum", "value": token, "url": self.base, "httpOnly": true });
            self.cdp("Network.setCookie", cookie).await;
        }
    }

    /// What an asynchronous script gives back.
    pub async fn ask(&self, script: &str) -> serde_json::Value {
        let script = format!(
            "const done = arguments[arguments.length - 1]; (async () => {{ {script} }})().then(done, e => done(String(e)));"
        );
        self.driver.execute_async(script, vec![]).await.map(|v| v.json().clone()).unwrap_or_default()
    }

    /// Sets the size of the page in CSS pixels.
    pub async fn size(&self, width: u32, height: u32) {
        let metrics =
            json!({ "width": width, "height": height, "deviceScaleFactor": 2, "mobile": width < 600 });
        self.cdp("Emulation.setDeviceMetricsOverride", metrics).await;
    }

    /// Sets the width, and makes the screen as tall as the page where that is not very long.
    async fn tall(&self, width: u32, least: u32) {
        self.size(width, least).await;
        let tall = "return document.documentElement.scrollHeight";
        let tall = self.driver.execute(tall, vec![]).await.unwrap().json().as_u64().unwrap_or(0);
        self.size(width, least.max(u32::try_from(tall).unwrap() + 1).min(4000)).await;
    }

    /// Light or dark.
    pub async fn scheme(&self, scheme: &str) {
        self.colours(scheme, "none").await;
    }

    /// Light or dark; and `active` where the system's few colours take the place of ours.
    pub async fn colours(&self, scheme: &str, forced: &str) {
        let features = json!({ "features": [
            { "name": "prefers-color-scheme", "value": scheme }, { "name": "forced-colors", "value": forced }] });
        self.cdp("Emulation.setEmulatedMedia", features).await;
    }

    pub async fn cdp(&self, command: &str, params: serde_json::Value) -> serde_json::Value {
        self.driver.cdp().send_raw(command, params).await.unwrap()
    }

    /// Signs a member of the invented club in.
    pub async fn sign_in(&self, name: &str) {
        self.goto("/sign-in").await;
        self.fill("#f-sign_in", name).await;
        self.fill("#f-password", hilum::upkeep::demo::PASSWORD).await;
        self.tap("button.main").await;
        self.says("Due now").await;
    }

    pub async fn goto(&self, path: &str) {
        self.arrives().await;
        let url = if path.starts_with("http") { path.to_owned() } else { format!("{}{path}", self.base) };
        self.driver.goto(url).await.unwrap();
    }

    /// The element, waited for.
    pub async fn find(&self, css: &str) -> WebElement {
        self.arrives().await;
        let found = self.driver.query(By::Css(css)).first().await;
        match found {
            Ok(element) => element,
            Err(_) => panic!("no {css} on {}: {}", self.path().await, self.text().await),
        }
    }

    /// Empties a field and types into it.
    pub async fn fill(&self, css: &str, text: &str) {
        let field = self.find(css).await;
        field.clear().await.unwrap();
        field.send_keys(text).await.unwrap();
    }

    /// Taps the element.
    pub async fn tap(&self, css: &str) {
        let element = self.find(css).await;
        element.scroll_into_view().await.unwrap();
        element.click().await.unwrap();
    }

    /// Taps the first button or link that reads `words`.
    pub async fn tap_words(&self, words: &str) {
        self.arrives().await;
        let xpath = format!(
            "//*[self::a or self::button or self::summary or self::label][contains(normalize-space(.), \"{words}\")]"
        );
        let found = self.driver.query(By::XPath(&xpath)).first().await;
        let Ok(element) = found else {
            panic!("no '{words}' on {}: {}", self.path().await, self.text().await)
        };
        element.scroll_into_view().await.unwrap();
        element.click().await.unwrap();
    }

    /// Chooses the option of a select that reads `words`.
    pub async fn choose(&self, css: &str, words: &str) {
        let select = self.find(css).await;
        let xpath = format!(".//option[contains(normalize-space(.), \"{words}\")]");
        select.find(By::XPath(&xpath)).await.unwrap().click().await.unwrap();
    }

    /// Ticks the box whose label, within what matches `css`, reads `words`.
    pub async fn tick(&self, css: &str, words: &str) {
        let xpath = format!(".//label[contains(normalize-space(.), \"{words}\")]");
        let label = self.find(css).await.find(By::XPath(&xpath)).await.unwrap();
        label.scroll_into_view().await.unwrap();
        label.click().await.unwrap();
    }

    /// Ticks every box that matches.
    pub async fn tick_all(&self, css: &str) {
        for tick in self.driver.find_all(By::Css(css)).await.unwrap() {
            if !tick.is_selected().await.unwrap() {
                tick.scroll_into_view().await.unwrap();
                tick.click().await.unwrap();
            }
        }
    }

    /// Every address that links matching `css` lead to.
    pub async fn links(&self, css: &str) -> Vec<String> {
        let script = "return [...document.querySelectorAll(arguments[0])].map(a => a.getAttribute('href')).join('\\n')";
        self.reads(script, css).await.lines().map(str::to_owned).collect()
    }

    /// Waits until the page says `words`.
    pub async fn says(&self, words: &str) {
        // a busy disk holds up what the phone keeps
        for _ in 0..900 {
            if self.text().await.contains(words) {
                return;
            }
            tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        }
        panic!("'{words}' is not on {}: {}", self.path().await, self.text().await);
    }

    /// Makes sure that the page does not say `words`.
    pub async fn hides(&self, words: &str) {
        let text = self.text().await;
        assert!(!text.contains(words), "'{words}' is on {}: {text}", self.path().await);
    }

    /// What each element that matches `css` reads.
    pub async fn texts(&self, css: &str) -> Vec<String> {
        let script = "return [...document.querySelectorAll(arguments[0])].map(e => e.innerText.replaceAll('\\xa0', ' ')).join('\\x1e')";
        self.reads(script, css).await.split('\u{1e}').map(str::to_owned).collect()
    }

    /// Whether a form of this page is on its way; one that gives a file leaves the page where it is.
    async fn leaves(&self) -> bool {
        let script = "return performance.now() - (self.leaving ?? -Infinity) < 20000";
        self.driver.execute(script, vec![]).await.is_ok_and(|v| v.json().as_bool() == Some(true))
    }

    async fn arrives(&self) {
        while self.leaves().await {
            tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        }
    }

    /// What the page reads; empty while it loads and while its form is on its way.
    pub async fn text(&self) -> String {
        if self.leaves().await {
            return String::new();
        }
        match self
            .driver
            .execute("return (document.body?.innerText ?? '').replaceAll('\\xa0', ' ')", vec![])
            .await
        {
            Ok(text) => text.json().as_str().unwrap_or_default().to_owned(),
            Err(_) => String::new(),
        }
    }

    pub async fn path(&self) -> String {
        self.driver.current_url().await.map(|u| u.path().to_owned()).unwrap_or_default()
    }

    /// Keeps a picture of the page, phone and desktop, light and dark; fails where axe finds something.
    pub async fn look(&self, name: &str) {
        if !self.pictures {
            return;
        }
        for (size, width, height) in [("phone", 360, 740), ("desktop", 1280, 800)] {
            self.tall(width, height).await;
            for scheme in ["light", "dark"] {
                self.scheme(scheme).await;
                self.picture(&format!("{name}-{size}-{scheme}")).await;
            }
            self.size(width, height).await;
            let found = self.seen_by_axe(Rules::All).await;
            assert!(found.is_empty(), "{name} ({size}): {}", found.join("\n"));
            assert_eq!(self.too_wide().await, "", "{name} ({size})");
        }
        self.scheme("light").await;
        self.size(360, 740).await;
    }

    async fn picture(&self, name: &str) {
        std::fs::write(kept(&format!("{name}.png")), self.shot().await).unwrap();
    }

    /// What the screen shows, as PNG.
    pub async fn shot(&self) -> Vec<u8> {
        let shot = self.cdp("Page.captureScreenshot", json!({ "captureBeyondViewport": false })).await;
        data_encoding::BASE64.decode(shot["data"].as_str().unwrap().as_bytes()).unwrap()
    }

    pub async fn close(self) {
        let _ = self.driver.clone().quit().await;
    }
}

impl Drop for Phone {
    fn drop(&mut self) {
        // its own end first, or else the browser outlives it
        let ended = TcpStream::connect(("127.0.0.1", self.port)).and_then(|mut stream| {
            stream.write_all(b"GET /shutdown HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")?;
            stream.read(&mut [0; 64])
        });
        if ended.is_err() {
            let _ = self.chromedriver.kill();
        }
        let _ = self.chromedriver.wait();
    }
}

async fn start(profile: &TempDir) -> (WebDriver, Child, u16) {
    let port = free_port();
    let chromedriver =
        Command::new("chromedriver").arg(format!("--port={port}")).stdout(Stdio::null()).spawn().unwrap();
    answers(port).await;
    let mut caps = DesiredCapabilities::chrome();
    let flags = "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
        --disable-background-networking --disable-component-update --disable-sync --disable-dev-shm-usage";
    for flag in flags.split_whitespace() {
        caps.add_arg(flag).unwrap();
    }
    // a host of the network as it is without https: not a secure context, unlike 127.0.0.1
    caps.add_arg("--host-resolver-rules=MAP shed.test 127.0.0.1").unwrap();
    caps.add_arg(&format!("--user-data-dir={}", profile.path().display())).unwrap();
    let driver = WebDriver::new(format!("http://127.0.0.1:{port}"), caps).await.unwrap();
    for source in [LISTEN, PATIENT] {
        let script = json!({ "source": source });
        driver.cdp().send_raw("Page.addScriptToEvaluateOnNewDocument", script).await.unwrap();
    }
    (driver, chromedriver, port)
}

/// The processes that `parent` started, from the system's table.
fn children(parent: u32) -> Vec<u32> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir("/proc").unwrap().flatten() {
        let Some(pid) = entry.file_name().to_str().and_then(|n| n.parse::<u32>().ok()) else { continue };
        let stat = std::fs::read_to_string(entry.path().join("stat")).unwrap_or_default();
        let after = stat.rsplit_once(')').map_or("", |(_, rest)| rest);
        if after.split_whitespace().nth(1) == Some(&parent.to_string()) {
            found.push(pid);
        }
    }
    found
}
