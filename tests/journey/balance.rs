//! From weights that came off to two clips on the car: logged by hand in the sample job, put back after its cut, then balanced by
//! runs without phase.
//!
//! The readings are a derived case: 8 first, and 10 g at thirds of a turn read as 13.3333 g at 20° called for
//! makes them, by T² = O² + t² + 2·O·t·cos(φ − θ).

use crate::answer::Answer;
use crate::page::Page;
use crate::visit::visit;

const CARD: &str = ".card[data-name=PutOn]";

/// Two weights that came off, logged anew by hand; a wrong mass gets its sentence first.
fn log_both(page: &Page) {
    page.stage("weights");
    let fields = ["mass", "clock", "distance", "radius"];
    for row in 0..2 {
        for field in fields {
            page.write(&format!("weight-{field}-{row}"), "");
        }
    }
    page.wants("LeftFront", "Weight 1: mass");
    page.write("weight-mass-0", "nine");
    page.reads(".field.wrong:has(#weight-mass-0) .note strong", "“nine” cannot be read");
    for (row, texts) in
        [["9", "2:00", "5-1/4", "1-9/16"], ["14.5", "7:30", "52", "1-9/16"]].iter().enumerate()
    {
        for (field, text) in fields.iter().zip(texts) {
            page.write(&format!("weight-{field}-{row}"), text);
        }
    }
}

/// A trial of 10 g.
fn trial(page: &Page, run: usize, at: &str, reading: &str) {
    page.write(&format!("trial-mass-{run}"), "10");
    page.write(&format!("trial-clock-{run}"), at);
    page.write(&format!("run-amplitude-{run}-1"), reading);
}

#[test]
fn weights_back_on_and_then_two_clips_on_the_car() {
    visit(|visit| {
        let page = visit.job_book();
        page.tap(".sample-job");
        page.at_stage("measure");
        log_both(&page);
        // The cut between them, and where each goes after it.
        page.stage("cut");
        page.until("the cut list", "!!document.querySelector('.cut-list')");
        page.stage("weights");
        page.answers(Answer::of("PutBack-0", 9.0).judged("Good"));
        page.answers(Answer::of("PutBack-1", 14.5).judged("Good"));
        assert!(page.whole().contains("Good"), "{}", page.whole());
        page.stage("balance");
        what_must_be_so(&page);
        runs(&page);
        // The balance's own answer is in: the shaft is as good as before.
        assert!(page.whole().contains("Good"), "{}", page.whole());
        other_end(&page);
        check_run(&page);
        page.reload();
        page.at_stage("balance");
        // What must be so is asked anew each time a job is opened; the numbers are kept.
        page.until("the page alone", "!document.querySelector('.card')");
        page.reads(".cautions", "At most 55 mph");
        page.tap_word("button", "All of this is so");
        page.reads(CARD, "Done");
        page.reads(CARD, "0.100 left of 8.00");
        assert_eq!(page.value("run-amplitude-3-1"), "13.173468");
        assert_eq!(page.value("check-amplitude-1"), "0.1");
        // And back to the page of what must be so: nothing is lost by it.
        page.tap_word("button", "Read again what must be so");
        page.until("the page alone", "!document.querySelector('.card')");
        page.tap_word("button", "All of this is so");
        page.reads(CARD, "Take the clips off");
    });
}

/// Nothing but that page is seen before all of it is said to be so.
fn what_must_be_so(page: &Page) {
    page.reads(".rail li:last-child", "If wanted");
    page.reads(".cautions", "At most 55 mph");
    page.reads(".cautions", "twice as fast");
    page.reads(".cautions", "never on a jack alone");
    assert_eq!(page.count("main .field"), 0);
    assert_eq!(page.count(".card"), 0);
    page.tap_word("button", "All of this is so");
    page.wants("PutOn", "First run, reading");
    page.until("the page put away", "!document.querySelector('.cautions')");
}

fn runs(page: &Page) {
    page.write("run-speed", "700");
    page.write("clip-radius", "45 mm");
    page.write("clip-mass", "9");
    // By hand: 18.5 lb (8.3915 kg): half its weight 41.147 N, a tenth of that at 700 rpm and 45 mm 17.017 g.
    page.answers(Answer::of("MostTrial", 17.017).judged("Figure"));
    page.tap_word("button", "What two heads make together");
    // By definition of the cosine: 18 g side by side, 9 g at ± 60°.
    page.reads(".clip-table", "18.0 g");
    page.reads(".clip-table li:nth-child(5)", "9.0 g");
    page.write("run-scatter", "0.05");
    page.write("run-amplitude-0-1", "8");
    // By our own rule: five times what a reading changes by itself were it known, 7.802 times as five runs tell it.
    page.answers(Answer::of("LeastChange", 0.390));
    trial(page, 1, "12", "3.128819");
    page.write("trial-clock-2", "half past");
    page.reads(".field.wrong:has(#trial-clock-2) .note strong", "“half past” cannot be read");
    trial(page, 2, "120°", "10.801399");
    page.reads(CARD, "Two answers: ");
    page.reads(CARD, "13.3 g");
    page.reads(CARD, "Make one more trial");
    trial(page, 3, "8:00", "13.173468");
    page.answers(Answer::of("PutOn", 13.3333).at(20.0).judged("Good"));
    // By two equal heads: acos(13.3333/18) = 42.2055°, told to a whole degree.
    page.answers(Answer::of("Screws", 42.0).judged("Figure"));
    page.answers(Answer::of("MostTrial", 17.017).judged("Good"));
    // A misread trial may pass for another answer; one that does not go with the rest is refused.
    page.tap_word("button", "One more trial");
    trial(page, 4, "6", "6");
    page.reads(CARD, "These readings cannot all be right");
    page.reads(".rail .shaft", "Stop");
    page.tap_word("button", "Take the last trial away");
    page.answers(Answer::of("PutOn", 13.3333).at(20.0).judged("Good"));
    page.until(
        "both screw heads drawn",
        "document.querySelectorAll('.drawing .accent.filled').length > 1",
    );
    page.reads(".rail .shaft", "Good");
}

/// What was made for the axle end says nothing of the gearbox end, nor of both, and is there again on the way back.
fn other_end(page: &Page) {
    page.choose("Weights go on at the end", "front (gearbox)");
    page.reads(CARD, "These runs were made for the axle end.");
    page.reads(".questions", "These runs were made for the axle end.");
    page.reads(".questions", "Empty these runs");
    assert_eq!(page.value("run-amplitude-0-0"), "");
    page.choose("Weights go on at the end", "rear (axle)");
    page.answers(Answer::of("PutOn", 13.3333).at(20.0).judged("Good"));
}

fn check_run(page: &Page) {
    // Open by itself, since it is what comes next.
    page.reads(CARD, "Then make the check run.");
    page.write("check-amplitude-1", "12");
    page.reads(".card[data-name=CheckRun]", "Worse: take it off now");
    page.write("check-amplitude-1", "8");
    page.reads(".card[data-name=CheckRun]", "No better.");
    page.write("check-amplitude-1", "3");
    page.reads(".card[data-name=CheckRun]", "Better, but not by as much as predicted");
    page.write("check-amplitude-1", "0.1");
    page.answers(Answer::of("CheckRun", 0.1).judged("Good").says("put no more on"));
}
