//! Storage that is blocked, full or holds rubbish: the job goes on, and it is said.

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::shaft::MEASURE;
use crate::visit::visit;

/// Types a job's lengths, reads the answer, and finds it again after a look at the job book.
fn works(page: &Page) {
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(MEASURE);
    let change = || Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt"));
    page.answers(change());
    page.stage("cut");
    page.tap(".home");
    page.tap(".job-link");
    page.at_stage("measure");
    page.holds(MEASURE);
    page.answers(change());
}

#[test]
fn blocked_storage_is_said_and_the_job_lives_in_memory() {
    visit(|visit| {
        let page = visit.window();
        page.prepare(
            "Object.defineProperty(window, 'localStorage', {
                get() { throw new DOMException('blocked by the test', 'SecurityError'); },
            });",
        );
        page.open(&visit.server.address());
        page.reads(".trouble", "keeps nothing for this page");
        page.tap_word(".trouble button", "Understood");
        page.until("the notice gone", "!document.querySelector('.trouble')");
        page.tap(".new-job");
        page.at_stage("measure");
        works(&page);
    });
}

#[test]
fn full_storage_is_said_and_the_job_goes_on() {
    visit(|visit| {
        let page = visit.job_book();
        // Another page of the same host has taken all the room there is.
        page.ask::<()>(
            "(() => {
                let filler = '';
                for (let size = 1 << 23; size >= 1; size /= 2) {
                    try {
                        localStorage.setItem('of-another-page', filler + 'x'.repeat(size));
                        filler += 'x'.repeat(size);
                    } catch {}
                }
            })()",
        );
        page.reload();
        page.reads(".trouble", "storage is full");
        page.tap(".new-job");
        page.at_stage("measure");
        works(&page);
        // There is room again: what was typed meanwhile is kept at the next change.
        page.ask::<()>("localStorage.removeItem('of-another-page')");
        page.write("set-point", "1");
        page.reload();
        page.at_stage("measure");
        assert_eq!(page.value("set-point"), "1");
        page.holds(&MEASURE[..6]);
    });
}

#[test]
fn rubbish_is_told_kept_and_in_nobodys_way() {
    visit(|visit| {
        let page = visit.new_job();
        page.fill(MEASURE);
        page.tap(".home");
        page.until("the job book", "!!document.querySelector('.book')");
        let rubbish = r#"{"shaftwright-job":1,"job":{"name":"half a jo"#;
        page.ask::<()>(&format!("void localStorage.setItem('shaftwright.job.torn', '{rubbish}')"));
        page.reload();
        page.tap_word(".job-link", "torn");
        page.reads(".trouble", "“torn” is kept but cannot be read");
        page.reads(".bin summary", "Texts that cannot be read (1)");
        let kept: String = page.ask("localStorage.getItem('shaftwright.kept.torn')");
        assert_eq!(kept, rubbish, "the text as it was");
        page.tap(".bin summary");
        page.reads(".bin", "Save its text");
        page.tap(".job-link");
        page.at_stage("measure");
        page.holds(MEASURE);
    });
}
