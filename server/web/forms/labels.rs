use std::fmt::Display;
use std::sync::{Arc, Mutex, PoisonError};

/// The labels of the fields in which something is wrong, noted while they are drawn.
#[derive(Debug, Clone, Default)]
pub struct Labels(Arc<Mutex<Vec<(String, String)>>>);

impl Labels {
    pub fn note(&self, name: &str, label: &dyn Display) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if all.iter().all(|(n, _)| n != name) {
            all.push((name.to_owned(), label.to_string()));
        }
    }

    /// The label as it stands before an error that is read apart from its field; empty where none was noted.
    pub fn before_an_error(&self, name: &str) -> String {
        let all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let label = all.iter().find(|(n, _)| n == name).map_or("", |(_, label)| label);
        match label.chars().last() {
            None => String::new(),
            Some('?' | ':') => format!("{label} "),
            Some(_) => format!("{label}: "),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Labels;

    #[test]
    fn a_label_stands_before_its_error_and_keeps_its_own_sign() {
        let labels = Labels::default();
        assert_eq!(labels.before_an_error("seeds"), "");
        labels.note("seeds", &"Seeds");
        labels.note("seeds", &"Seeds again");
        labels.note("why", &"Why?");
        assert_eq!(
            (labels.before_an_error("seeds"), labels.before_an_error("why")),
            ("Seeds: ".into(), "Why? ".into())
        );
    }
}
