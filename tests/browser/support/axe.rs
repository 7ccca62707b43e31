use serde_json::Value;
use thirtyfour::prelude::*;

/// Runs axe-core with every WCAG rule and `target-size` on; gives what it found, in words.
pub async fn violations(driver: &WebDriver) -> Vec<String> {
    let source = include_str!("../node_modules/axe-core/axe.min.js");
    driver.execute(source, vec![]).await.unwrap();
    let run = "const done = arguments[arguments.length - 1];
        axe.run(document, { runOnly: ['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa','best-practice'],
            rules: { 'target-size': { enabled: true } } })
          .then(r => done(r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).slice(0, 3).join(' | '))));";
    let found = driver.execute_async(run, vec![]).await.unwrap();
    let Value::Array(list) = found.json().clone() else { panic!("axe gave no list") };
    list.iter().map(|v| v.as_str().unwrap_or_default().to_owned()).collect()
}
