use super::client::{Answer, Client};
use super::form::FoundForm;
use super::key;
use tokio::task::JoinSet;

/// A form as its page drew it and a member filled it, to be sent as often as wanted.
#[derive(Debug, Clone)]
pub struct Filled {
    pub address: String,
    pub key: String,
    pub pairs: Vec<(String, String)>,
}

impl Filled {
    /// A form of no page: what the phone or a message sends.
    pub fn of(address: &str, fields: &[(&str, &str)]) -> Self {
        let pairs = fields.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())).collect();
        Self { address: address.to_owned(), key: key(), pairs }
    }

    /// The form of this action on a page that was got from `address`.
    pub fn on(page: &str, address: &str, action: &str, fields: &[(&str, &str)]) -> Option<Self> {
        let form = FoundForm::on(page, action)?;
        assert_eq!(form.method, "post", "{action}");
        let mut pairs = form.filled(fields);
        let key = pairs.iter().find(|(n, _)| n == "key").map(|(_, v)| v.clone()).unwrap_or_else(key);
        pairs.retain(|(n, _)| n != "key" && n != "csrf");
        let address = if form.action.is_empty() { address.to_owned() } else { form.action };
        Some(Self { address, key, pairs })
    }
}

impl Client {
    /// The form of this action on a page, filled.
    pub async fn filled(&self, page: &str, action: &str, fields: &[(&str, &str)]) -> Filled {
        let drawn = self.get(page).await.unwrap();
        let found = Filled::on(&drawn.body, page, action, fields);
        found.unwrap_or_else(|| panic!("no form '{action}' on {page}: {drawn:?}"))
    }

    pub async fn send(&self, form: &Filled) -> reqwest::Result<Answer> {
        let pairs: Vec<(&str, &str)> = form.pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
        self.post(&form.address, &form.key, &pairs).await
    }

    /// Fills a form and saves it; where it leads.
    pub async fn save(&self, page: &str, action: &str, fields: &[(&str, &str)]) -> String {
        let form = self.filled(page, action, fields).await;
        let answer = self.send(&form).await.unwrap();
        assert_eq!(answer.status, 303, "{form:?}: {answer:?}");
        answer.location
    }
}

/// Sends all of them at the same moment; the answers in no order.
pub async fn at_once(all: Vec<(Client, Filled)>) -> Vec<Answer> {
    let mut sent = JoinSet::new();
    for (client, form) in all {
        sent.spawn(async move { client.send(&form).await.unwrap() });
    }
    sent.join_all().await
}
