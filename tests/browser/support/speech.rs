//! In which language the program speaks to the browser.

use super::Phone;
use hilum::texts::Language;

impl Phone {
    /// The language that the browser asks for, which counts while nobody is signed in.
    pub async fn asks_for(&self, language: Language) {
        self.cdp("Network.enable", serde_json::json!({})).await;
        let headers = serde_json::json!({ "headers": { "Accept-Language": language.tag() } });
        self.cdp("Network.setExtraHTTPHeaders", headers).await;
    }

    /// The member who is signed in chooses this language.
    pub async fn speaks(&self, language: Language) {
        self.size(360, 740).await;
        self.goto("/me").await;
        self.choose("#f-language", language.name()).await;
        self.tap("#settings button.main").await;
        self.says(["Saved.", "Gespeichert."][language as usize]).await;
    }
}
