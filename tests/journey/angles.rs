//! The angles of gearbox, shaft and pinion, read off the glass. Expected numbers: tests/handbook/shaft.txt,
//! by shaft_angles.py; the others say where they come from.

use crate::answer::{Answer, by_hand};
use crate::bad_input::refused;
use crate::page::Page;
use crate::shaft::{ANGLES, MEASURE};
use crate::visit::visit;

/// A job with lengths, angles, speed and the yokes as they lie before tacking.
fn laid(page: &Page) {
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(MEASURE);
    page.stage("angles");
    page.tap_word("button", "Cancel the instrument's own error?");
    page.fill(ANGLES);
    page.fill(&[("bump-travel", "3"), ("droop-travel", "4-1/2"), ("top-speed", "3500")]);
    page.stage("phase");
    page.fill(&[("front-level-1-0", "0.4"), ("rear-level-1-0", "-0.2")]);
    page.stage("angles");
}

fn answer(name: &'static str, key: &str) -> Answer {
    Answer::by_hand(name, key).doubt(by_hand(&format!("{key} doubt")))
}

#[test]
fn joints_shakes_and_what_to_change() {
    visit(|visit| {
        let page = visit.new_job();
        laid(&page);
        for (name, key) in [
            ("ShakeUnderPower", "angles power pinion"),
            ("ShakeAtRide", "angles ride pinion"),
            ("ShakeAtBump", "angles bump pinion"),
            ("ShakeAtDroop", "angles droop pinion"),
            ("FrontJoint", "angles ride front"),
            ("RearJoint", "angles ride rear"),
        ] {
            page.answers(answer(name, key).judged("Good"));
        }
        page.number_behind(
            ".card[data-name=FrontJoint]",
            "Shakes the shaft with",
            by_hand("angles ride drive"),
        );
        page.number_behind(
            ".card[data-name=RearJoint]",
            "Shakes the shaft with",
            by_hand("angles ride coast"),
        );
        page.until("three drawings", "document.querySelectorAll('.drawing svg').length === 3");
        page.no_bad_number();
        // Twice as fast shakes four times as hard: over the limit, and its own reason beside it.
        page.write("top-speed", "7000");
        page.answers(Answer::of("FrontJoint", by_hand("angles ride front")).judged("Stop").says("Over"));
        page.write("top-speed", "3500");
        // The other end of the shaft goes off to the side: the planes part, and a turn that cancels it
        // is offered.
        page.choose("Gearbox, shaft and pinion", "side by side, both straight");
        page.wants("ShakeUnderPower", "Rear joint right of the front one");
        page.write("side-offset", "3");
        page.until("the planes' card", "!!document.querySelector('.card[data-name=PlaneTwist]')");
        page.until("the turn's card", "!!document.querySelector('.card[data-name=PhaseForTwist]')");
        page.no_bad_number();
        page.reload();
        page.at_stage("angles");
        page.holds(ANGLES);
        page.holds(&[("side-offset", "3"), ("top-speed", "3500")]);
    });
}

#[test]
fn slopes_that_no_joint_takes_and_texts_that_are_none() {
    visit(|visit| {
        let page = visit.new_job();
        laid(&page);
        refused(&page, "gearbox-slope-0", "87", &["“87” is outside", "−30° to 30°"]);
        refused(&page, "turned-round", "-2.3", &["4.8° from", "Was a sign lost?"]);
        refused(&page, "pinion-arm", "95", &["“95 in” is outside"]);
        refused(&page, "front-height", "1", &["“1 in” is outside"]);
        refused(&page, "torsional-limit", "four hundred", &["cannot be read", "400"]);
        refused(&page, "top-speed", "60 mph", &["“mph” is not a unit this takes", "rpm"]);
        page.write("road-speed", "70 rpm");
        page.reads(".field:has(#road-speed) .note", "It takes mph or km/h");
        // Higher by more than the shaft is long: no shaft falls so far.
        page.write("front-height", "90");
        page.reads(".card[data-name=ShaftLies]", "too short for these heights");
        page.write("front-height", "24-3/4");
        // A joint past 45° is named with its angle.
        page.fill(&[("pinion-slope-0", "-29"), ("pinion-slope-1", "-29"), ("pinion-slope-2", "-29")]);
        page.write("rear-height", "5");
        page.reads(".card[data-name=RearJoint]", "no such joint works at 45° or more");
        page.no_bad_number();
    });
}
