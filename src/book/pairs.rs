//! Texts by key: a list, since there are a few dozen at most and a tree's code weighs more than they do.

/// Texts by key, in the order in which the keys came.
#[derive(Debug, Default)]
pub(super) struct Pairs(Vec<(String, String)>);

impl Pairs {
    /// The text under a key.
    pub(super) fn get(&self, key: &str) -> Option<&String> {
        self.0.iter().find(|(known, _)| known == key).map(|(_, text)| text)
    }

    /// Puts a text under a key, in place of what was there.
    pub(super) fn insert(&mut self, key: &str, text: String) {
        match self.0.iter_mut().find(|(known, _)| known == key) {
            Some((_, old)) => *old = text,
            None => self.0.push((key.to_owned(), text)),
        }
    }

    /// Forgets a key.
    pub(super) fn remove(&mut self, key: &str) {
        self.0.retain(|(known, _)| known != key);
    }

    /// Every key.
    pub(super) fn keys(&self) -> impl Iterator<Item = &String> {
        self.0.iter().map(|(key, _)| key)
    }
}
