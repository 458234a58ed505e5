//! The shelf over stores that share, refuse, or have little room.
#![cfg(test)]

use super::*;
use crate::book::MemoryStore;
use crate::job::sample;
use std::rc::Rc;

struct Shared(Rc<MemoryStore>);
impl Store for Shared {
    fn read(&self, key: &str) -> Result<Option<String>, StoreError> {
        self.0.read(key)
    }
    fn write(&self, key: &str, text: &str) -> Result<(), StoreError> {
        self.0.write(key, text)
    }
    fn remove(&self, key: &str) {
        self.0.remove(key);
    }
    fn keys(&self, prefix: &str) -> Vec<String> {
        self.0.keys(prefix)
    }
}

struct FullStore;
impl Store for FullStore {
    fn read(&self, _: &str) -> Result<Option<String>, StoreError> {
        Ok(None)
    }
    fn write(&self, _: &str, _: &str) -> Result<(), StoreError> {
        Err(StoreError::Full)
    }
    fn remove(&self, _: &str) {}
    fn keys(&self, _: &str) -> Vec<String> {
        Vec::new()
    }
}

fn shelf() -> (Shelf, Rc<MemoryStore>) {
    let store = Rc::new(MemoryStore::default());
    (Shelf::new(Box::new(Shared(store.clone()))), store)
}

/// A store with room for so many bytes of text.
struct Small(MemoryStore, usize);
impl Store for Small {
    fn read(&self, key: &str) -> Result<Option<String>, StoreError> {
        self.0.read(key)
    }
    fn write(&self, key: &str, text: &str) -> Result<(), StoreError> {
        let size = |key: &String| self.0.read(key).unwrap().map_or(0, |text| text.len());
        let others: usize = self.0.keys("").iter().filter(|k| *k != key).map(size).sum();
        if others + text.len() > self.1 { Err(StoreError::Full) } else { self.0.write(key, text) }
    }
    fn remove(&self, key: &str) {
        self.0.remove(key);
    }
    fn keys(&self, prefix: &str) -> Vec<String> {
        self.0.keys(prefix)
    }
}

#[test]
fn a_store_with_room_for_one_copy_loses_nothing() {
    let one_copy = to_text(&sample()).unwrap().len();
    // Room for the text and the index, not for two texts.
    let shelf = Shelf::new(Box::new(Small(MemoryStore::default(), one_copy + 200)));
    shelf.create("a", &sample(), 1).unwrap();
    shelf.delete("a").unwrap();
    assert_eq!(shelf.bin().len(), 1);
    assert!(!shelf.only_in_memory());
    shelf.put_back("a").unwrap();
    assert_eq!(shelf.open("a").unwrap(), sample());
    // A second job finds no room: it stays in memory, and the page must say so.
    assert!(shelf.create("b", &sample(), 2).is_err());
    assert!(shelf.only_in_memory());
    shelf.delete("b").unwrap();
    assert_eq!(shelf.bin().len(), 1);
    shelf.empty_bin();
    assert!(!shelf.only_in_memory());
    assert_eq!(shelf.open("a").unwrap(), sample());
}

#[test]
fn jobs_come_and_go() {
    let (shelf, _) = shelf();
    shelf.create("a", &sample(), 1).unwrap();
    shelf.duplicate("a", "b", 2).unwrap();
    shelf.rename("b", "Second shaft", 3).unwrap();
    let names: Vec<String> = shelf.cards().into_iter().map(|card| card.name).collect();
    assert_eq!(names, ["Second shaft", "Orchard flat-bed, five-speed"]);
    shelf.delete("a").unwrap();
    assert_eq!(shelf.cards().len(), 1);
    assert_eq!(shelf.bin()[0].name, "Orchard flat-bed, five-speed");
    shelf.put_back("a").unwrap();
    assert_eq!(shelf.open("a").unwrap(), sample());
    shelf.delete("a").unwrap();
    shelf.empty_bin();
    assert!(shelf.bin().is_empty() && shelf.open("a") == Err(None));
}

#[test]
fn rubbish_is_kept() {
    let (shelf, store) = shelf();
    store.write("shaftwright.job.x", "{rubbish").unwrap();
    store.write("shaftwright.index", "more rubbish").unwrap();
    assert_eq!(shelf.cards().len(), 1);
    assert_eq!(shelf.open("x"), Err(Some(NotAJob::OtherText)));
    shelf.set_aside("x").unwrap();
    assert!(shelf.cards().is_empty());
    assert_eq!(shelf.kept()[0].text, "{rubbish");
}

#[test]
fn a_full_store_loses_nothing_while_the_page_is_open() {
    let shelf = Shelf::new(Box::new(FullStore));
    let outcome = shelf.create("a", &sample(), 1);
    assert_eq!(outcome, Err(Trouble::Storage(StoreError::Full)));
    assert_eq!(shelf.open("a").unwrap(), sample());
    assert_eq!(shelf.cards().len(), 1);
}

#[test]
fn two_windows_never_overwrite_each_other() {
    let (one, store) = shelf();
    let two = Shelf::new(Box::new(Shared(store)));
    one.create("a", &sample(), 1).unwrap();
    let mut here = one.open("a").unwrap();
    let mut there = two.open("a").unwrap();
    there.name = "Changed there".to_owned();
    two.save("a", &there, 2, "t").unwrap();
    here.name = "Changed here".to_owned();
    let (new_id, trouble) = one.save("a", &here, 3, "b").unwrap_err();
    assert_eq!(new_id.as_deref(), Some("b"));
    assert!(matches!(trouble, Trouble::ChangedElsewhere { .. }));
    assert_eq!(one.open("a").unwrap().name, "Changed there");
    assert_eq!(one.open("b").unwrap().name, "Changed here (other window)");
}

#[test]
fn another_window_s_news_is_taken() {
    let (one, store) = shelf();
    let two = Shelf::new(Box::new(Shared(store)));
    one.create("a", &sample(), 1).unwrap();
    assert_eq!(one.news("a"), None);
    let mut there = two.open("a").unwrap();
    there.name = "Changed there".to_owned();
    two.save("a", &there, 2, "t").unwrap();
    assert_eq!(one.news("a").unwrap().name, "Changed there");
}
