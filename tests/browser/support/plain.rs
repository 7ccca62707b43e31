//! Whether a page is plain to everyone: small screens, large or spread text, dark, few colours.

use super::Phone;
use super::axe::{Rules, violations};
use serde_json::{Value, json};

/// Bars at the foot of the screen cover only what can be scrolled out from under them; axe does not scroll.
const STILL: &str = "nav.main, .save { position: static !important; }";
/// The least that WCAG 2.2, 1.4.12 asks a page to bear; drawings keep their own text.
const SPREAD: &str = ":not(svg, svg *) { line-height: 1.5 !important; letter-spacing: .12em !important;
    word-spacing: .16em !important; } p { margin-bottom: 2em !important; }";
/// Text twice as large as ours (1.4.4).
const LARGE: &str = "html { font-size: 212.5% !important; }";
/// States of each page that `faults` looks at.
pub const STATES: usize = 6;

fn named(state: &str, faults: Vec<String>) -> Vec<String> {
    faults.into_iter().filter(|fault| !fault.is_empty()).map(|fault| format!("{state}: {fault}")).collect()
}

impl Phone {
    /// What is wrong with the page at 320 px, with spread and with large text, dark, in forced colours and at
    /// 1280 px.
    pub async fn faults(&self) -> Vec<String> {
        let mut found = self.faults_of_words().await;
        for (state, scheme, forced) in [("dark", "dark", "none"), ("forced colours", "dark", "active")] {
            self.colours(scheme, forced).await;
            found.extend(named(state, self.seen_by_axe(Rules::Colour).await));
        }
        self.colours("light", "none").await;
        self.size(1280, 800).await;
        found.extend(named("1280 px", self.seen_by_axe(Rules::All).await));
        found.extend(named("1280 px", vec![self.too_wide().await]));
        found.extend(named("the browser", vec![self.heard().await]));
        found
    }

    /// The part of it that another language can break: names that are read aloud, and the room that words take.
    pub async fn faults_of_words(&self) -> Vec<String> {
        self.size(320, 740).await;
        let mut found = named("320 px", self.seen_by_axe(Rules::All).await);
        found.extend(named("320 px", vec![self.too_wide().await]));
        for (state, css) in [("spread text", SPREAD), ("large text", LARGE)] {
            self.sheet(css).await;
            found.extend(named(state, vec![self.too_wide().await, self.cut().await]));
        }
        found
    }

    /// Breaches of the page's policy, errors of its scripts, and requests to anybody else; empty where there are none.
    pub async fn heard(&self) -> String {
        let script = "if (!self.heard) return 'nobody listens';
            const all = performance.getEntriesByType('resource').map(e => e.name);
            const others = all.filter(name => !name.startsWith(location.origin + '/') && !/^(data|blob):/.test(name));
            return [...heard, ...others.map(name => `asks ${name}`)].join(' | ');";
        self.reads(script, "").await
    }

    /// What axe-core finds where no bar stays at the foot of the screen.
    pub async fn seen_by_axe(&self, rules: Rules) -> Vec<String> {
        self.sheet(STILL).await;
        let found = violations(&self.driver, rules).await;
        self.sheet("").await;
        found
    }

    /// How much wider than the screen the page is, and what sticks out; empty where it fits.
    pub async fn too_wide(&self) -> String {
        self.reads(
            "const page = document.documentElement, wide = page.scrollWidth - page.clientWidth;
            if (wide <= 0) return '';
            const out = e => e.getBoundingClientRect().right > page.clientWidth + .5;
            const last = [...document.querySelectorAll('main *, header *, footer *')].filter(out).slice(-4);
            return `${wide} px too wide: ${last.map(e => e.outerHTML.slice(0, 160)).join(' | ')}`;",
            "",
        )
        .await
    }

    /// Text that is cut off by its own box, or squeezed until words break into letters; sheets to print have the
    /// size of the paper.
    async fn cut(&self) -> String {
        self.reads(
            "const cut = e => { const s = getComputedStyle(e);
                return !e.closest('.sheet') && s.overflowX == 'hidden' && s.clipPath == 'none' && e.textContent.trim()
                    && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1); };
            const squeezed = e => { const s = getComputedStyle(e);
                return /\\w{4}/.test(e.textContent) && s.position != 'absolute' && e.clientWidth > 0
                    && e.clientWidth - parseFloat(s.paddingLeft) - parseFloat(s.paddingRight) < 2 * parseFloat(s.fontSize); };
            const found = [...document.querySelectorAll('main *, header *, footer *')].filter(cut)
                .concat([...document.querySelectorAll('main :is(th, td, p, label, dt, dd, li)')].filter(squeezed));
            return found.map(e => `cut off or squeezed: ${e.outerHTML.slice(0, 160)}`).join(' | ');",
            "",
        )
        .await
    }

    /// Lays `css` over the page, in the place of what was laid before.
    async fn sheet(&self, css: &str) {
        self.reads(
            "const sheet = new CSSStyleSheet(); sheet.replaceSync(arguments[0]);
            document.adoptedStyleSheets = [sheet]; return '';",
            css,
        )
        .await;
    }

    /// What the script returns.
    pub async fn reads(&self, script: &str, argument: &str) -> String {
        let found = self.driver.execute(script, vec![json!(argument)]).await.unwrap();
        let Value::String(text) = found.json() else { panic!("{script} gave no text") };
        text.clone()
    }
}
