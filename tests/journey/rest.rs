//! The second of the page's two files cannot be had at first: the job book works, a stage says what is
//! missing, and the key there brings it, or signal that is back.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::server::{Line, REST, TRICKLE};
use crate::shaft::MEASURE;
use crate::visit::{Visit, site};

/// The site without the rest of its program, for as long as this lives.
struct StartAlone {
    folder: PathBuf,
    rest: String,
}

impl StartAlone {
    /// The site, copied for the journey of this name.
    fn of(site: &Path, journey: &str) -> StartAlone {
        let folder = env::temp_dir().join(format!("shaftwright-{journey}-{}", process::id()));
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
        } else if name.ends_with(REST) {
            left_out.push(name);
        } else {
            fs::copy(&path, to.join(name)).unwrap();
        }
    }
}

fn book_works(page: &Page) {
    to_book(page);
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
    let start = StartAlone::of(&site("SHAFTWRIGHT_DIST"), "start-alone");
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
    stands(&page);
    // A page opened at a stage begins there all the same.
    let loaded = asked();
    page.ask::<()>("void (window.left = true)");
    page.call("Page.reload", json!({}));
    page.until("a fresh page", "!window.left");
    page.reads(".waiting", "The rest of the page did not come");
    page.reads(".job-name", "Rear shaft, blue van");
    // Its worker has had time to fail as well.
    page.look("asked for by page and worker", || {
        if asked() >= loaded + 2 { Ok(()) } else { Err(asked().to_string()) }
    });
    page.until("no worker", "navigator.serviceWorker.getRegistration().then((found) => !found)");

    visit.server.serve(&site("SHAFTWRIGHT_DIST"));
    page.tap(".get-rest");
    page.at_stage("measure");
    page.choose("Lengths in", "inch, 1/16");
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(MEASURE);
    page.answers(Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt")));
    // The worker is asked once more, now that it can have everything.
    page.kept_for_offline();
    page.reload();
    page.holds(MEASURE);
    only_the_rest_is_missed(&visit, &start);
}

/// The browser complains of the one file that was missing, and that the worker, which takes all or
/// nothing, did not get it either; and of nothing else.
fn only_the_rest_is_missed(visit: &Visit, start: &StartAlone) {
    let expected = [start.rest.as_str(), "at async install ("];
    let complaints = visit.watch.complaints(&visit.server.origin());
    let others = complaints.iter().filter(|said| !expected.iter().any(|known| said.contains(known)));
    assert_eq!(others.collect::<Vec<_>>(), [""; 0], "the browser says");
}

/// The program has not fallen.
fn stands(page: &Page) {
    assert!(page.ask::<bool>("document.getElementById('fallen').hidden"), "{}", page.seen());
}

fn to_book(page: &Page) {
    page.tap(".home");
    page.until("the job book", "!!document.querySelector('.book')");
}

/// Opens a file by the job book's key.
fn open_file(page: &Page, file: &Path) {
    let root = page.call("DOM.getDocument", json!({}))["root"]["nodeId"].take();
    let find = json!({"nodeId": root, "selector": "input[type=file]"});
    let input = page.call("DOM.querySelector", find)["nodeId"].take();
    page.call("DOM.setFileInputFiles", json!({"nodeId": input, "files": [file]}));
}

/// Reads what is said, and takes it away.
fn says(page: &Page, words: &str) {
    page.reads(".trouble", words);
    page.tap_word(".trouble button", "Understood");
    page.until("nothing more said", "!document.querySelector('.trouble')");
    stands(page);
}

#[test]
fn without_the_rest_the_job_book_takes_files_and_news() {
    let start = StartAlone::of(&site("SHAFTWRIGHT_DIST"), "book-alone");
    let mut visit = Visit::begin();
    visit.server.serve(&start.folder);
    let page = visit.window();
    page.prepare(
        "const address = URL.createObjectURL;
        URL.createObjectURL = (file) => {
            file.text().then((text) => { window.saved = text; });
            return address(file);
        };",
    );
    page.open(&visit.server.address());
    page.tap(".sample-job");
    page.reads(".waiting", "The rest of the page did not come");
    to_book(&page);
    page.tap_word(".job button", "Save as a file");
    page.until("the job as it is kept", "Object.values(localStorage).includes(window.saved)");

    // A job of an earlier version, and what is no job of ours.
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    open_file(&page, &fixtures.join("job-v2.json"));
    page.reads(".waiting", "The rest of the page did not come");
    page.reads(".job-name", "Orchard sled");
    to_book(&page);
    let newer = start.folder.join("newer.json");
    fs::write(&newer, r#"{"shaftwright-job":9999,"name":"of next year"}"#).unwrap();
    open_file(&page, &newer);
    says(&page, "saved by a newer Shaftwright (form 9999");
    open_file(&page, &fixtures.join("damaged/cut-short.json"));
    says(&page, "This is not a Shaftwright job");
    open_file(&page, &fixtures.join("damaged/unknown-field.json"));
    says(&page, "damaged and cannot be opened whole");

    // What another window does, seen in a list and on a job that is open.
    let other = visit.job_book();
    other.tap_word(".job button", "Duplicate");
    page.until("the other window's job", "document.querySelectorAll('.job').length === 3");
    page.tap(".job-link");
    page.reads(".waiting", "The rest of the page did not come");
    let open = page.text(".job-name");
    other.look("renamed in the other window", || {
        let at = other.texts(".job-link").iter().position(|name| *name == open);
        at.map(|at| other.tap_word(&format!(".job:nth-child({}) button", at + 1), "Rename"))
            .ok_or_else(|| other.seen())
    });
    other.write_into(".rename input", "Front shaft");
    other.tap_word(".job button", "Keep this name");
    page.reads(".job-name", "Front shaft");
    stands(&page);

    page.ask::<()>("void (location.hash = '#/nosuch/angles')");
    says(&page, "not in this job book");
    to_book(&page);
    // As the start script says it; the worker itself has nothing to offer without the rest.
    page.ask::<()>("void window.dispatchEvent(new Event('shaftwright:update-ready'))");
    page.tap_word(".notice button", "Later");
    page.until("the notice gone", "!document.querySelector('.take-update')");

    page.ask::<()>("void localStorage.setItem('shaftwright.job.torn', '{\"shaftwright-job\":1,')");
    page.reload();
    page.tap_word(".job-link", "torn");
    page.reads(".trouble", "“torn” is kept but cannot be read");
    page.tap(".bin summary");
    page.tap_word(".bin button", "Save its text");
    page.until("its text", "window.saved === localStorage.getItem('shaftwright.kept.torn')");
    page.tap_word(".bin button", "Try again");
    page.until("among the jobs again", "!document.querySelector('.bin')");
    to_book(&page);
    page.tap_word(".job-link", "torn");
    page.tap(".bin summary");
    page.tap_word(".bin button", "Forget it");
    page.until("forgotten", "!document.querySelector('.bin')");
    stands(&page);
    only_the_rest_is_missed(&visit, &start);
}

#[test]
fn a_dead_line_is_given_up_and_a_slow_one_is_not() {
    const PATIENCE: Duration = Duration::from_secs(2);
    let dist = site("SHAFTWRIGHT_DIST");
    let mut visit = Visit::begin();
    visit.server.serve_over(Line::Dead, &dist);
    let page = visit.window();
    // The page waits longer than a test can. No worker comes, or it might bring the file first.
    let patience = PATIENCE.as_millis();
    page.prepare(&format!(
        "const later = setTimeout;
        setTimeout = (act, after, ...more) => later(act, after > 10000 ? {patience} : after, ...more);
        navigator.serviceWorker.register = () => {{
            window.registered = true;
            return new Promise(() => {{}});
        }};"
    ));
    page.open(&visit.server.address());
    page.tap(".new-job");
    page.reads(".waiting", "Getting the rest of the page");
    let signal_is_back = || {
        for _ in 0..2 {
            page.ask::<()>("void window.dispatchEvent(new Event('online'))");
        }
    };
    signal_is_back();
    assert!(!page.ask::<bool>("!!window.registered"), "a worker would share the line");
    assert_eq!(visit.watch.asked_for(REST), 1);
    page.reads(".waiting", "The rest of the page did not come");
    page.until("a worker asked for all the same", "!!window.registered");

    visit.server.serve_over(Line::Slow, &dist);
    let begun = Instant::now();
    signal_is_back();
    page.reads(".waiting", "Getting the rest of the page");
    page.at_stage("measure");
    assert!(TRICKLE > PATIENCE && begun.elapsed() >= TRICKLE, "slower than a dead line is waited for");
    assert_eq!(visit.watch.asked_for(REST), 2);
    stands(&page);
    let complaints = visit.watch.complaints(&visit.server.origin());
    assert_eq!(complaints, [""; 0], "the browser says");
}
