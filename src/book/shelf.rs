//! The shelf: jobs by id, an index to list them, a bin, and texts that could not be read.
//!
//! The jobs themselves are the truth; the index only saves reading them all to list them, and is
//! mended from the jobs whenever the two disagree. A text that cannot be read is never overwritten.

use core::cell::RefCell;

use serde_json::{Map, Value};

use super::pairs::Pairs;
use super::store::{Store, StoreError};
use super::trouble::Trouble;
use crate::job::{Job, LONGEST_NAME, NotAJob, from_text, to_text};

/// Everything of ours begins with this: hosts share their storage between pages.
const INDEX: &str = "shaftwright.index";
const JOB: &str = "shaftwright.job.";
const BIN: &str = "shaftwright.bin.";
const KEPT: &str = "shaftwright.kept.";
const SETTING: &str = "shaftwright.setting.";

// Of a job, in the index.
const NAME: &str = "name";
const CHANGED: &str = "changed";

/// A job as listed.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Its id: what its address says.
    pub id: String,
    /// Its name.
    pub name: String,
    /// When it was last changed, milliseconds since 1970.
    pub changed_ms: u64,
}

/// A text that could not be read as a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Where it lies.
    pub key: String,
    /// The text.
    pub text: String,
}

/// The job book over a store.
pub struct Shelf {
    store: Box<dyn Store>,
    /// The text of each job as last read or written here: shows whether another window wrote since.
    seen: RefCell<Pairs>,
    /// Texts the store would not take; they last as long as the page.
    in_memory: RefCell<Pairs>,
}

impl Shelf {
    /// A shelf over this store.
    pub fn new(store: Box<dyn Store>) -> Shelf {
        Shelf { store, seen: RefCell::default(), in_memory: RefCell::default() }
    }

    fn read(&self, key: &str) -> Option<String> {
        if let Some(text) = self.in_memory.borrow().get(key) {
            return Some(text.clone());
        }
        self.store.read(key).ok().flatten()
    }

    /// Writes through to the store; what it will not take is kept in memory and said.
    fn write(&self, key: &str, text: &str) -> Result<(), StoreError> {
        let outcome = self.store.write(key, text);
        match outcome {
            Ok(()) => self.in_memory.borrow_mut().remove(key),
            Err(_) => self.in_memory.borrow_mut().insert(key, text.to_owned()),
        };
        outcome
    }

    fn forget(&self, key: &str) {
        self.in_memory.borrow_mut().remove(key);
        self.store.remove(key);
    }

    fn keys(&self, prefix: &str) -> Vec<String> {
        let mut keys = self.store.keys(prefix);
        let in_memory = self.in_memory.borrow();
        for key in in_memory.keys().filter(|key| key.starts_with(prefix)) {
            if !keys.contains(key) {
                keys.push(key.clone());
            }
        }
        keys
    }

    /// The jobs on the shelf, latest first. Mends the index where it disagrees with the jobs.
    pub fn cards(&self) -> Vec<Card> {
        let index = self.read(INDEX).and_then(|text| serde_json::from_str(&text).ok());
        let index: Value = index.unwrap_or_default();
        let mut cards: Vec<Card> = Vec::new();
        for key in self.keys(JOB) {
            let Some(id) = key.strip_prefix(JOB) else { continue };
            let card = listed(&index, id).unwrap_or_else(|| {
                let name = self.read(&key).and_then(|text| from_text(&text).ok()).map(|job| job.name);
                Card { name: name.unwrap_or_else(|| id.to_owned()), id: id.to_owned(), changed_ms: 0 }
            });
            let later = |other: &Card| (other.changed_ms, &card.id) >= (card.changed_ms, &other.id);
            let at = cards.partition_point(later);
            cards.insert(at, card);
        }
        cards
    }

    fn index(&self, card: Card) -> Result<(), StoreError> {
        let mut cards = self.cards();
        cards.retain(|known| known.id != card.id);
        cards.push(card);
        let mut index = Map::new();
        for card in cards {
            let mut known = Map::new();
            known.insert(NAME.to_owned(), card.name.into());
            known.insert(CHANGED.to_owned(), card.changed_ms.into());
            index.insert(card.id, known.into());
        }
        let text = serde_json::to_string(&Value::Object(index)).unwrap_or_default();
        self.write(INDEX, &text)
    }

    /// Opens a job.
    ///
    /// # Errors
    /// `None` where there is no such job, else why its text cannot be read; the text stays where it is.
    pub fn open(&self, id: &str) -> Result<Job, Option<NotAJob>> {
        let key = format!("{JOB}{id}");
        let text = self.read(&key).ok_or(None)?;
        let job = from_text(&text).map_err(Some)?;
        self.seen.borrow_mut().insert(&key, text);
        Ok(job)
    }

    /// Keeps a job. Where another window has changed it since it was last read here, that window's
    /// state stays and this one is kept as a job of its own, whose id comes back.
    ///
    /// # Errors
    /// The trouble to show. The job is safe in memory even then.
    pub fn save(
        &self,
        id: &str,
        job: &Job,
        now_ms: u64,
        fresh_id: &str,
    ) -> Result<(), (Option<String>, Trouble)> {
        let key = format!("{JOB}{id}");
        let Some(text) = to_text(job) else { return Ok(()) };
        let stored = self.read(&key);
        let unseen = {
            let seen = self.seen.borrow();
            let last = seen.get(&key);
            stored.as_ref().is_some_and(|stored| last != Some(stored) && *stored != text)
                // Removed by the other window: writing it again would undo that behind its back.
                || (stored.is_none() && last.is_some())
        };
        if unseen {
            let mut copy = job.clone();
            copy.name = with_suffix(&job.name, " (other window)");
            let moved = Some(fresh_id.to_owned());
            self.create(fresh_id, &copy, now_ms).map_err(|trouble| (moved, trouble))?;
            return Err((Some(fresh_id.to_owned()), Trouble::ChangedElsewhere { copy: copy.name }));
        }
        self.create(id, job, now_ms).map_err(|trouble| (None, trouble))
    }

    /// Puts a job on the shelf under an id.
    ///
    /// # Errors
    /// The trouble to show. The job is safe in memory even then.
    pub fn create(&self, id: &str, job: &Job, now_ms: u64) -> Result<(), Trouble> {
        let key = format!("{JOB}{id}");
        let Some(text) = to_text(job) else { return Ok(()) };
        let kept = self.write(&key, &text);
        self.seen.borrow_mut().insert(&key, text);
        let card = Card { id: id.to_owned(), name: job.name.clone(), changed_ms: now_ms };
        let indexed = self.index(card);
        kept.and(indexed).map_err(Trouble::Storage)
    }

    /// Copies a job under a fresh id.
    ///
    /// # Errors
    /// The trouble to show.
    pub fn duplicate(&self, id: &str, fresh_id: &str, now_ms: u64) -> Result<(), Trouble> {
        let unreadable = || Trouble::Unreadable { what: self.name_of(id) };
        let text = self.read(&format!("{JOB}{id}")).ok_or(Trouble::NoSuchJob)?;
        let mut job = from_text(&text).map_err(|_| unreadable())?;
        job.name = with_suffix(&job.name, " (copy)");
        self.create(fresh_id, &job, now_ms)
    }

    /// Gives a job another name.
    ///
    /// # Errors
    /// The trouble to show.
    pub fn rename(&self, id: &str, name: &str, now_ms: u64) -> Result<(), Trouble> {
        let text = self.read(&format!("{JOB}{id}")).ok_or(Trouble::NoSuchJob)?;
        let mut job = from_text(&text).map_err(|_| Trouble::Unreadable { what: self.name_of(id) })?;
        job.name = name.chars().take(LONGEST_NAME).collect();
        self.create(id, &job, now_ms)
    }

    fn name_of(&self, id: &str) -> String {
        self.cards().into_iter().find(|card| card.id == id).map_or(id.to_owned(), |card| card.name)
    }

    /// Puts a job into the bin, untouched.
    ///
    /// # Errors
    /// The trouble to show; the job then stays where it is.
    pub fn delete(&self, id: &str) -> Result<(), Trouble> {
        self.carry(&format!("{JOB}{id}"), &format!("{BIN}{id}"))
    }

    /// Takes a job out of the bin again.
    ///
    /// # Errors
    /// The trouble to show; the job then stays in the bin.
    pub fn put_back(&self, id: &str) -> Result<(), Trouble> {
        self.carry(&format!("{BIN}{id}"), &format!("{JOB}{id}"))
    }

    /// Moves a text to another key without ever having it nowhere. A store too full for both texts is
    /// given room by taking the first away; if that is not room enough, the first goes back.
    fn carry(&self, from: &str, to: &str) -> Result<(), Trouble> {
        let Some(text) = self.read(from) else { return Ok(()) };
        let stored = self.store.read(from).ok().flatten().is_some();
        if !stored {
            self.in_memory.borrow_mut().insert(to, text);
        } else if self.store.write(to, &text).is_err() {
            self.store.remove(from);
            if let Err(error) = self.store.write(to, &text) {
                let _ = self.write(from, &text);
                return Err(Trouble::Storage(error));
            }
        }
        self.forget(from);
        self.seen.borrow_mut().remove(from);
        Ok(())
    }

    /// Whether something would go with the page: the store does not last, or would not take it.
    pub fn only_in_memory(&self) -> bool {
        let texts = [JOB, BIN, KEPT];
        let refused = |key: &String| texts.iter().any(|prefix| key.starts_with(prefix));
        !self.store.lasts() || self.in_memory.borrow().keys().any(refused)
    }

    /// The jobs in the bin: id and name.
    pub fn bin(&self) -> Vec<Card> {
        let name = |text: &str| from_text(text).map(|job| job.name).ok();
        self.keys(BIN)
            .into_iter()
            .filter_map(|key| {
                let id = key.strip_prefix(BIN)?.to_owned();
                let name = self.read(&key).and_then(|text| name(&text)).unwrap_or_else(|| id.clone());
                Some(Card { id, name, changed_ms: 0 })
            })
            .collect()
    }

    /// Empties the bin for good.
    pub fn empty_bin(&self) {
        for key in self.keys(BIN) {
            self.forget(&key);
        }
    }

    /// The raw text of a job, whether it can be read or not.
    pub fn text(&self, id: &str) -> Option<String> {
        self.read(&format!("{JOB}{id}"))
    }

    /// Moves a job's unreadable text aside, so that the list stays usable and the text is kept.
    ///
    /// # Errors
    /// The trouble to show; the text then stays where it is.
    pub fn set_aside(&self, id: &str) -> Result<(), Trouble> {
        self.carry(&format!("{JOB}{id}"), &format!("{KEPT}{id}"))
    }

    /// Puts a text that could not be read back among the jobs, to be tried again.
    ///
    /// # Errors
    /// The trouble to show; the text then stays where it is.
    pub fn try_again(&self, key: &str) -> Result<(), Trouble> {
        let id = key.strip_prefix(KEPT).unwrap_or(key);
        self.carry(key, &format!("{JOB}{id}"))
    }

    /// The texts that could not be read.
    pub fn kept(&self) -> Vec<Kept> {
        let read = |key: String| self.read(&key).map(|text| Kept { key, text });
        self.keys(KEPT).into_iter().filter_map(read).collect()
    }

    /// Forgets a text that could not be read.
    pub fn drop_kept(&self, key: &str) {
        if key.starts_with(KEPT) {
            self.forget(key);
        }
    }

    /// Another window wrote: what it wrote under this id, if it is newer than what was seen here.
    pub fn news(&self, id: &str) -> Option<Job> {
        let key = format!("{JOB}{id}");
        let text = self.read(&key)?;
        if self.seen.borrow().get(&key) == Some(&text) {
            return None;
        }
        self.open(id).ok()
    }

    /// A setting of the page.
    pub fn setting(&self, name: &str) -> Option<String> {
        self.read(&format!("{SETTING}{name}"))
    }

    /// Keeps a setting of the page. A setting that cannot be kept is no trouble worth a sentence.
    pub fn set_setting(&self, name: &str, value: &str) {
        let _ = self.store.write(&format!("{SETTING}{name}"), value);
    }
}

/// A job as the index has it. The index is a JSON value like a job on disk, so that no second way of
/// reading goes into the page's first load.
fn listed(index: &Value, id: &str) -> Option<Card> {
    let known = index.get(id)?;
    let name = known.get(NAME)?.as_str()?.to_owned();
    Some(Card { id: id.to_owned(), name, changed_ms: known.get(CHANGED)?.as_u64()? })
}

/// A name with something behind it, still short enough.
fn with_suffix(name: &str, suffix: &str) -> String {
    let room = LONGEST_NAME - suffix.chars().count();
    let short: String = name.chars().take(room).collect();
    format!("{}{suffix}", short.trim_end())
}

#[cfg(test)]
mod tests;
