//! One job in two windows, and every window's width.

use crate::answer::{Answer, by_hand};
use crate::shaft::MEASURE;
use crate::visit::visit;

#[test]
fn two_windows_of_one_job_agree_or_keep_both() {
    visit(|visit| {
        let one = visit.new_job();
        one.choose("Tape, rule or calliper reads to", "1/32 in");
        one.fill(MEASURE);
        one.reads(".rail .kept", "Kept on this device");
        let two = visit.window();
        two.open(&one.ask::<String>("location.href"));
        two.holds(MEASURE);
        // Typed in one, seen in the other, both ways.
        one.write("set-point", "15/16");
        two.until("the other window's text", "document.getElementById('set-point').value === '15/16'");
        two.answers(Answer::of("SetPoint", 15.0 / 16.0));
        two.write("set-point", "7/8");
        one.until("the other window's text", "document.getElementById('set-point').value === '7/8'");
        // Both at once, before either could keep anything: the later one becomes a job of its own.
        one.focus("#old-0");
        two.focus("#set-point");
        one.type_on("1");
        two.type_on("1");
        two.reads(".trouble", "also changed in another window");
        one.until("kept", "document.querySelector('.kept').innerText.includes('Kept')");
        two.reads(".job-name", "(other window)");
        one.holds(&[("old-0", "57-5/161"), ("set-point", "7/8")]);
        two.holds(&[("old-0", "57-5/16"), ("set-point", "7/81")]);
        // Both mended: two jobs, each whole.
        one.write("old-0", MEASURE[0].1);
        two.write("set-point", "7/8");
        for page in [&one, &two] {
            page.answers(Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt")));
            page.reload();
            page.holds(MEASURE);
        }
        one.tap(".home");
        one.look("two jobs", || {
            let names = one.texts(".job-link");
            if names.len() == 2 { Ok(()) } else { Err(format!("{names:?}")) }
        });
    });
}

#[test]
fn no_stage_scrolls_sideways() {
    visit(|visit| {
        let page = visit.job_book();
        page.tap(".sample-job");
        page.at_stage("measure");
        for size in [(1024, 768), (768, 1024), (390, 844)] {
            page.resize(size);
            for slug in ["measure", "check", "cut", "phase", "true", "weights"] {
                page.stage(slug);
                let narrow = "document.scrollingElement.scrollWidth <= innerWidth";
                let at_most = format!("innerWidth === {} && {narrow}", size.0);
                page.until(&format!("{slug} no wider than {} pixels", size.0), &at_most);
            }
        }
    });
}

#[test]
fn the_watch_hears_what_it_must() {
    // The record's own test: a page that does what no page of ours may do.
    let visit = crate::visit::Visit::begin();
    let page = visit.job_book();
    let origin = visit.server.origin();
    page.kept_for_offline();
    assert_eq!(visit.watch.asked_for("/boot.js"), 2, "once by the page, once by its worker");
    assert_eq!(visit.watch.complaints(&origin), [""; 0]);
    for (heard, deed) in [
        ("a warning", "void console.warn('a warning')"),
        ("a fall", "void setTimeout(() => { throw new Error('a fall') })"),
        ("Content Security Policy", "void (new Image().src = 'http://localhost:9/strange.png')"),
        ("nothing-there.png", "void (new Image().src = 'nothing-there.png')"),
        ("asked for http://localhost:9/", "void (location.href = 'http://localhost:9/')"),
    ] {
        page.ask::<()>(deed);
        page.look(heard, || {
            let complaints = visit.watch.complaints(&origin);
            let found = complaints.iter().any(|said| said.contains(heard));
            if found { Ok(()) } else { Err(format!("{complaints:#?}")) }
        });
    }
}
