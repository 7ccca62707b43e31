use serde_json::{Value, json};
use thirtyfour::prelude::*;

/// What axe-core looks for.
#[derive(Clone, Copy)]
pub enum Rules {
    /// Every rule of WCAG 2.2 A and AA, `target-size`, visible words in spoken names, 7:1 for text, and best
    /// practice.
    All,
    /// Those that colours can break.
    Colour,
}

impl Rules {
    fn options(self) -> Value {
        match self {
            Self::All => json!({
                "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
                "rules": {
                    "target-size": { "enabled": true },
                    "label-content-name-mismatch": { "enabled": true },
                    "color-contrast-enhanced": { "enabled": true },
                },
                "resultTypes": ["violations"],
            }),
            Self::Colour => json!({
                "runOnly": { "type": "rule", "values": ["color-contrast", "color-contrast-enhanced", "link-in-text-block"] },
                "resultTypes": ["violations"],
            }),
        }
    }
}

/// Runs axe-core on the page; gives what it found, in words.
pub async fn violations(driver: &WebDriver, rules: Rules) -> Vec<String> {
    let there = driver.execute("return Boolean(window.axe)", vec![]).await.unwrap();
    if there.json() != &Value::Bool(true) {
        driver.execute(include_str!("../node_modules/axe-core/axe.min.js"), vec![]).await.unwrap();
    }
    let run = "const done = arguments[arguments.length - 1];
        axe.run(document, arguments[0])
          .then(r => done(r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).slice(0, 3).join(' | '))));";
    let found = driver.execute_async(run, vec![rules.options()]).await.unwrap();
    let Value::Array(list) = found.json().clone() else { panic!("axe gave no list") };
    list.iter().map(|v| v.as_str().unwrap_or_default().to_owned()).collect()
}
