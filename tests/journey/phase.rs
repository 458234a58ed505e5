//! Each way to measure the yokes, and each turn that may be wanted. Expected numbers:
//! tests/handbook/shaft.txt, by shaft_yokes.py; the others say where they come from.

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::visit::visit;

fn begins(page: &Page, method: &str) {
    page.stage("phase");
    page.choose("Measured by", method);
    page.write("tube-diameter", "3");
}

fn has(page: &Page, id: &str, there: bool) {
    let field = format!("!!document.getElementById('{id}') === {there}");
    page.until(&format!("field {id}: {there}"), &field);
}

fn turn(key: &str) -> Answer {
    let size = by_hand(&format!("{key} turn")).abs();
    Answer::of("PhaseError", size).doubt(by_hand(&format!("{key} doubt")))
}

#[test]
fn a_level_that_reads_near_a_right_angle() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "level on each yoke");
        page.wants("PhaseError", "Front yoke, reading 1");
        page.fill(&[
            ("front-level-1-0", "89.6"),
            ("front-level-1-1", "-89.8"),
            ("front-level-1-2", "90"),
            ("rear-level-1-0", "-89,2"),
            ("rear-level-1-1", "-89"),
            ("rear-level-1-2", "-89.1"),
        ]);
        page.answers(turn("wrapped levels").says("counter-clockwise").judged("Watch"));
        page.until("both yokes drawn", "!!document.querySelector('.drawing svg')");
        // Read along one of them instead of across.
        page.write("rear-level-1-0", "1");
        page.reads(".field:has(#rear-level-1-0) .note", "take it again");
        page.fill(&[("rear-level-1-1", "1"), ("rear-level-1-2", "1")]);
        page.reads(".card[data-name=PhaseError]", "a quarter turn out");
    });
}

#[test]
fn gaps_under_both_yokes() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "gap under an ear of each yoke");
        has(&page, "front-level-1-0", false);
        page.fill(&[
            ("front-span", "3-1/4"),
            ("span", "3.5"),
            ("front-lift-1-0", "0.02"),
            ("lift-1-0", "0.06"),
            ("lift-1-1", "0.061"),
            ("lift-1-2", "0.059"),
        ]);
        page.choose("Rear yoke's higher ear, seen from the rear", "left");
        page.answers(turn("gaps").says("rear (axle) yoke counter-clockwise").judged("Stop"));
        page.stage("cut");
        page.choose("Cut at the", "front (gearbox)");
        page.stage("phase");
        page.answers(turn("gaps").says("front (gearbox) yoke clockwise"));
    });
}

#[test]
fn two_lines_on_the_tube() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "two lines on the tube");
        page.choose("Tape, rule or calliper reads to", "1/32 in");
        page.fill(&[("line-arc-1-0", "3/32"), ("line-arc-1-1", "1/8")]);
        page.answers(turn("lines").says("counter-clockwise").judged("Stop"));
        // By definition: the mean of both arcs, said in inches and in millimetres.
        page.answers(Answer::of("PhaseArc", 7.0 / 64.0).says("2.78 mm"));
        // Farther than round the tube.
        page.write("line-arc-1-0", "10");
        page.reads(".field:has(#line-arc-1-0) .note", "must be below 9.42 in");
    });
}

#[test]
fn as_it_was_on_purpose_and_after_welding() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "gap under an ear, front yoke flat");
        has(&page, "lift-0-0", false);
        page.choose("How the yokes shall stand", "as before the cut");
        page.fill(&[("span", "3-1/4"), ("lift-0-0", "0.5"), ("lift-1-0", "0.46")]);
        // The right-hand ear at both sittings: the mirror image of the script's left-hand one.
        page.answers(turn("as it was").says("counter-clockwise").judged("Good"));
        page.choose("How the yokes shall stand", "my own angle");
        has(&page, "lift-0-0", false);
        page.wants("PhaseError", "Rear yoke turned against the front one by");
        page.choose("Measured by", "level on each yoke");
        page.fill(&[("own-target", "30"), ("front-level-1-0", "0"), ("rear-level-1-0", "29,5")]);
        // By definition: 29.5 of 30.
        page.answers(Answer::of("PhaseError", 0.5).says("yoke clockwise").judged("Good"));
        page.answers(Answer::of("PhaseTarget", 30.0).judged("Figure"));
        page.reads(".card[data-name=PhaseWelded]", "measure again after welding");
        has(&page, "rear-level-2-0", false);
        page.tap_word("button", "After welding");
        page.fill(&[("front-level-2-0", "0"), ("rear-level-2-0", "28")]);
        page.answers(Answer::of("PhaseWelded", 2.0).says("cut it off and start again").judged("Stop"));
        // Filled in, it is never folded away.
        page.reload();
        page.at_stage("phase");
        assert_eq!(page.value("rear-level-2-0"), "28");
    });
}
