//! A place that keeps texts by key.

use core::cell::RefCell;

use super::pairs::Pairs;

/// Why a store did not do what was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// The browser lets this page keep nothing.
    Blocked,
    /// There is no room left.
    Full,
}

/// A place that keeps texts by key. The browser's is one, memory another.
pub trait Store {
    /// The text under a key.
    ///
    /// # Errors
    /// [`StoreError`] where the store cannot be reached.
    fn read(&self, key: &str) -> Result<Option<String>, StoreError>;
    /// Keeps a text under a key.
    ///
    /// # Errors
    /// [`StoreError`] where the text could not be kept; what was there before stays.
    fn write(&self, key: &str, text: &str) -> Result<(), StoreError>;
    /// Forgets a key.
    fn remove(&self, key: &str);
    /// Every key that begins with this.
    fn keys(&self, prefix: &str) -> Vec<String>;
    /// Whether what is kept here outlives the page.
    fn lasts(&self) -> bool {
        true
    }
}

/// A store that lasts as long as the page.
#[derive(Debug, Default)]
pub struct MemoryStore {
    texts: RefCell<Pairs>,
}

impl Store for MemoryStore {
    fn read(&self, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn write(&self, key: &str, text: &str) -> Result<(), StoreError> {
        self.texts.borrow_mut().insert(key, text.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) {
        self.texts.borrow_mut().remove(key);
    }

    fn keys(&self, prefix: &str) -> Vec<String> {
        self.texts.borrow().keys().filter(|key| key.starts_with(prefix)).cloned().collect()
    }

    fn lasts(&self) -> bool {
        false
    }
}
