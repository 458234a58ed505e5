//! The job book: many jobs, and what may be done with each.

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::shaft::MEASURE;
use crate::visit::visit;

/// Goes to the job book, where so many jobs are listed.
fn book(page: &Page, jobs: usize) {
    page.tap(".home");
    page.look(&format!("{jobs} jobs"), || {
        let names = page.texts(".job-link");
        if names.len() == jobs { Ok(()) } else { Err(format!("{names:?}")) }
    });
}

/// A button of the job of this name.
fn tap_of(page: &Page, job: &str, button: &str) {
    let names = page.texts(".job-link");
    let place =
        names.iter().position(|name| name == job).unwrap_or_else(|| panic!("{job} in {names:?}"));
    page.tap_word(&format!(".job:nth-child({}) button", place + 1), button);
}

/// Names in the order of the alphabet.
fn names(page: &Page) -> Vec<String> {
    let mut names = page.texts(".job-link");
    names.sort();
    names
}

#[test]
fn jobs_are_renamed_copied_deleted_and_put_back() {
    visit(|visit| {
        let page = visit.new_job();
        page.choose("Tape, rule or calliper reads to", "1/32 in");
        page.fill(MEASURE);
        book(&page, 1);
        page.tap(".new-job");
        page.at_stage("measure");
        book(&page, 2);
        page.tap(".sample-job");
        page.at_stage("measure");
        book(&page, 3);
        assert_eq!(names(&page), ["Orchard flat-bed, five-speed", "Shaft 1", "Shaft 2"]);
        tap_of(&page, "Shaft 1", "Rename");
        page.write_into(".rename input", "Rear shaft, blue van");
        page.tap_word(".job button", "Keep this name");
        page.until("the name kept", "!document.querySelector('.rename')");
        tap_of(&page, "Rear shaft, blue van", "Duplicate");
        book(&page, 4);
        tap_of(&page, "Rear shaft, blue van", "Delete");
        page.reads(".notice", "“Rear shaft, blue van” is in the bin");
        assert_eq!(
            names(&page),
            ["Orchard flat-bed, five-speed", "Rear shaft, blue van (copy)", "Shaft 2"]
        );
        page.tap(".put-back");
        book(&page, 4);
        page.reload();
        assert_eq!(names(&page)[1..3], ["Rear shaft, blue van", "Rear shaft, blue van (copy)"]);
        for name in ["Rear shaft, blue van", "Rear shaft, blue van (copy)"] {
            page.tap_word(".job-link", name);
            page.at_stage("measure");
            page.reads(".job-name", name);
            page.holds(MEASURE);
            page.answers(Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt")));
            book(&page, 4);
        }
    });
}

#[test]
fn another_display_changes_no_text_and_no_length() {
    visit(|visit| {
        let page = visit.new_job();
        page.choose("Tape, rule or calliper reads to", "1/32 in");
        page.fill(MEASURE);
        let answers = |says| {
            let change = Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt"));
            page.answers(change.says(says).judged("Good"));
            page.holds(MEASURE);
        };
        let kept = "(() => Object.entries(localStorage).find(([key]) => key.startsWith('shaftwright.job.'))[1])()";
        let saved = || {
            page.reads(".rail .kept", "Kept on this device");
            page.ask::<String>(kept)
        };
        let before = saved();
        for (display, says) in [
            ("inch, decimal", "Shorten by 1.7917 in"),
            ("mm", "Shorten by 45.51 mm"),
            ("inch, 1/64", "Shorten by 1-51/64 in"),
            ("inch, 1/16", "Shorten by 1-13/16 in"),
        ] {
            page.choose("Lengths in", display);
            answers(says);
        }
        assert_eq!(saved(), before, "after the displays have gone round");
        // A number corrected under another display keeps the unit it was typed in.
        page.choose("Lengths in", "mm");
        page.write("old-0", "57-1/4");
        page.write("old-0", MEASURE[0].1);
        answers("mm");
        // A job begun now begins in the display used last.
        book(&page, 1);
        page.tap(".new-job");
        page.at_stage("measure");
        page.reads(".field:has(#old-0) .unit", "mm");
    });
}

#[test]
fn colours_go_round_and_are_kept() {
    visit(|visit| {
        let page = visit.job_book();
        let theme = || page.ask::<String>("document.documentElement.dataset.theme");
        assert_eq!(theme(), "auto");
        for next in ["light", "dark"] {
            page.tap(".bar > button");
            page.until(next, &format!("document.documentElement.dataset.theme === '{next}'"));
        }
        page.reload();
        assert_eq!(theme(), "dark");
        page.tap(".bar > button");
        page.until("auto again", "document.documentElement.dataset.theme === 'auto'");
    });
}
