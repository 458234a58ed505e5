//! The second of the page's two files cannot be had at first: the job book works, a stage says what is
//! missing, and the key there brings it.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process;

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::shaft::MEASURE;
use crate::visit::{Visit, site};

/// The site without the rest of its program, for as long as this lives.
struct StartAlone {
    folder: PathBuf,
    rest: String,
}

impl StartAlone {
    fn of(site: &Path) -> StartAlone {
        let folder = env::temp_dir().join(format!("shaftwright-start-alone-{}", process::id()));
        let mut rest = Vec::new();
        copy(site, &folder, &mut rest);
        assert_eq!(rest.len(), 1, "one file with the rest of the program: {rest:?}");
        StartAlone { folder, rest: rest.remove(0) }
    }
}

impl Drop for StartAlone {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// Copies a folder; what holds the rest of the program is named instead.
fn copy(from: &Path, to: &Path, left_out: &mut Vec<String>) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let (path, name) = (entry.path(), entry.file_name().into_string().unwrap());
        if path.is_dir() {
            copy(&path, &to.join(name), left_out);
        } else if name.ends_with("_rest.wasm") {
            left_out.push(name);
        } else {
            fs::copy(&path, to.join(name)).unwrap();
        }
    }
}

fn book_works(page: &Page) {
    page.tap(".home");
    page.until("the job book", "!!document.querySelector('.book')");
    page.tap_word(".job button", "Rename");
    page.write_into(".rename input", "Rear shaft, blue van");
    page.tap_word(".job button", "Keep this name");
    page.reads(".job-link", "Rear shaft, blue van");
    page.tap_word(".job button", "Duplicate");
    page.until("two jobs", "document.querySelectorAll('.job').length === 2");
    page.tap(".job .delete");
    page.tap(".put-back");
    page.until("two jobs again", "document.querySelectorAll('.job').length === 2");
    page.tap(".job .delete");
    page.tap_word(".notice button", "Close");
    page.until("one job left", "document.querySelectorAll('.job').length === 1");
    page.tap(".bin summary");
    page.tap_word(".bin button", "Empty the bin for good");
    page.until("an empty bin", "!document.querySelector('.bin')");
    for next in ["light", "dark", "auto"] {
        page.tap(".theme");
        page.until(next, &format!("document.documentElement.dataset.theme === '{next}'"));
    }
}

#[test]
fn without_the_rest_the_job_book_works_and_a_key_brings_it() {
    let start = StartAlone::of(&site("SHAFTWRIGHT_DIST"));
    let mut visit = Visit::begin();
    visit.server.serve(&start.folder);
    let page = visit.job_book();
    page.reads("h1", "Job book");
    page.tap(".new-job");
    page.reads(".waiting", "The rest of the page did not come");
    page.choose("Lengths in", "mm");
    book_works(&page);
    page.tap(".job-link");
    page.reads(".waiting", "Try again when there is signal");
    // Still not to be had.
    let asked = || visit.watch.asked_for(&start.rest);
    let before = asked();
    page.tap(".get-rest");
    page.look("asked for once more", || if asked() > before { Ok(()) } else { Err(page.seen()) });
    page.reads(".waiting", "The rest of the page did not come");
    assert_eq!(page.text(".rail"), "", "nothing is judged yet");
    assert!(page.ask::<bool>("document.getElementById('fallen').hidden"), "{}", page.seen());
    // A page opened at a stage begins there all the same.
    page.ask::<()>("void (window.left = true)");
    page.call("Page.reload", serde_json::json!({}));
    page.until("a fresh page", "!window.left");
    page.reads(".waiting", "The rest of the page did not come");
    page.reads(".job-name", "Rear shaft, blue van");

    visit.server.serve(&site("SHAFTWRIGHT_DIST"));
    page.tap(".get-rest");
    page.at_stage("measure");
    page.choose("Lengths in", "inch, 1/16");
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(MEASURE);
    page.answers(Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt")));
    page.reload();
    page.holds(MEASURE);
    page.kept_for_offline();
    // The browser complains of the one file that was missing, and that the worker, which takes all or
    // nothing, did not get it either; and of nothing else.
    let expected = [start.rest.as_str(), "at async install ("];
    let complaints = visit.watch.complaints(&visit.server.origin());
    let others = complaints.iter().filter(|said| !expected.iter().any(|known| said.contains(known)));
    assert_eq!(others.collect::<Vec<_>>(), [""; 0], "the browser says");
}
