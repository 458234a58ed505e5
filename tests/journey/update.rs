//! A second build is offered and taken, and the job does not notice.

use crate::answer::{Answer, by_hand};
use crate::shaft::MEASURE;
use crate::visit::{site, visit};

#[test]
fn a_newer_version_is_offered_not_forced_and_loses_nothing() {
    visit(|visit| {
        let page = visit.new_job();
        page.kept_for_offline();
        page.choose("Tape, rule or calliper reads to", "1/32 in");
        page.fill(MEASURE);
        visit.server.serve(&site("SHAFTWRIGHT_DIST2"));
        page.reload();
        page.until("a newer version ready", "document.documentElement.dataset.update === 'ready'");
        page.reads(".notice", "newer version");
        // Only offered: the page is still the first build, and works.
        assert!(!page.ask::<bool>("'build' in document.documentElement.dataset"));
        page.at_stage("measure");
        page.holds(MEASURE);
        let loads = visit.watch.documents();
        page.write("set-point", "15/16");
        page.tap(".take-update");
        page.until("the second build", "document.documentElement.dataset.build === 'second'");
        page.drawn();
        page.at_stage("measure");
        page.holds(&MEASURE[..7]);
        assert_eq!(page.value("set-point"), "15/16", "typed just before the tap");
        // The slip comes out 1/16 in further than it stood, so the shaft gets shorter by as much.
        page.answers(Answer::of("LengthChange", by_hand("change") + 0.0625));
        page.kept_for_offline();
        assert_eq!(visit.watch.documents() - loads, 1, "loads for taking the newer version");
        assert_eq!(page.text(".take-update"), "", "nothing is offered any more");
    });
}

#[test]
fn later_means_later() {
    visit(|visit| {
        let page = visit.new_job();
        page.kept_for_offline();
        visit.server.serve(&site("SHAFTWRIGHT_DIST2"));
        page.reload();
        page.tap_word(".notice button", "Later");
        page.until("the notice gone", "!document.querySelector('.take-update')");
        page.write("set-point", "7/8");
        page.stage("cut");
        assert!(!page.ask::<bool>("'build' in document.documentElement.dataset"));
        // Asked again at the next visit.
        page.reload();
        page.reads(".notice", "newer version");
    });
}
