//! The main job: an empty one typed in by touch, every answer read, kept, and all of it without a
//! server. Expected numbers: tests/handbook/shaft.txt, by shaft.py; the others say where they come from.

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::shaft::{ANGLES, CHECK, CUT, MEASURE, PHASE, SLIP, TURNS, WEIGHTS, WELDED};
use crate::visit::visit;

/// Before Check is filled in, the shaft is never called good.
fn is_not_good(page: &Page) {
    let line = page.whole();
    assert!(!line.is_empty() && !line.contains("Good"), "the shaft's line before Check: {line}");
}

#[test]
fn an_empty_job_to_a_shaft_that_fits_kept_and_without_a_server() {
    visit(|visit| {
        let page = visit.new_job();
        for stage in [measure, angles, cut, phase, truing, welded, weights] {
            stage(&page);
            is_not_good(&page);
        }
        slip_doubts(&page);
        check(&page);
        reload_keeps_all(&page);
        back_and_bookmark(&page, &visit.window());
        page.kept_for_offline();
        visit.server.kill();
        page.reload();
        without_a_server(&page);
    });
}

fn measure(page: &Page) {
    page.wants("LengthChange", "Old, reading 1");
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(MEASURE);
    let change = Answer::by_hand("LengthChange", "change").doubt(by_hand("change doubt"));
    page.answers(change.says("Shorten by").judged("Good"));
    let wanted = Answer::by_hand("WantedLength", "wanted").doubt(by_hand("wanted doubt"));
    page.answers(wanted.judged("Good"));
    // As typed; not proven before the travel is known.
    page.answers(Answer::of("SetPoint", 0.875).judged("Not judged"));
    // Text with a unit of its own is read back: 1409.7 mm are 55-1/2 in by definition.
    page.reads(".field:has(#wanted-0) .note", "= 55-1/2 in");
    page.wants("PlungeIn", "Distance at bump");
    page.choose("Way of the slip", "reckoned from the shaft's slope");
    page.fill(SLIP);
    page.answers(Answer::by_hand("PlungeIn", "slip in").judged("Good"));
    page.answers(Answer::by_hand("PlungeOut", "slip out").judged("Good"));
    page.answers(Answer::by_hand("EngagedSpline", "slip engaged").judged("Good"));
    page.answers(Answer::by_hand("LipBand", "lip from").judged("Good"));
    page.answers(Answer::of("SetPoint", 0.875).judged("Figure"));
}

fn angles(page: &Page) {
    page.stage("angles");
    page.wants("ShakeUnderPower", "Gearbox, reading 1");
    // The instrument's own error is asked for behind a key.
    page.tap_word("button", "Cancel the instrument's own error?");
    page.fill(ANGLES);
    let slope = Answer::by_hand("ShaftLies", "angles ride slope");
    page.answers(slope.doubt(by_hand("angles ride slope doubt")).says("steeper").judged("Figure"));
    page.wants("ShakeUnderPower", "Top speed of the shaft");
}

fn cut(page: &Page) {
    page.stage("cut");
    page.fill(CUT);
    let removed = Answer::by_hand("TubeRemoved", "removed").doubt(by_hand("removed doubt"));
    page.answers(removed.says("Take out"));
    let finished = Answer::by_hand("FinishedLength", "finished").doubt(by_hand("finished doubt"));
    page.answers(finished.judged("Good"));
    page.answers(Answer::by_hand("ScrapRing", "ring"));
    page.answers(Answer::by_hand("FaceError", "face"));
    for (place, title, inches) in [
        // As typed.
        (1, "Far weld", 3.375),
        (2, "Spigot reaches to here", by_hand("spigot reach")),
        (3, "New face of the tube", by_hand("tube end")),
        (4, "New weld", by_hand("new weld")),
        (5, "Other side of the slot", by_hand("slot end")),
        // As typed.
        (6, "Old weld line", 53.875),
        (7, "New joint centre", by_hand("finished")),
        (8, "Old joint centre", by_hand("old")),
    ] {
        let row = format!(".cut-list tr:nth-child({place})");
        page.reads(&format!("{row} th"), title);
        page.number(&format!("{row} td"), inches);
    }
}

fn phase(page: &Page) {
    page.stage("phase");
    page.fill(PHASE);
    page.tap(".field:has(#rear-level-1-0) .sign");
    page.until("the sign turned", "document.getElementById('rear-level-1-0').value === '-0.2'");
    let turn = Answer::of("PhaseError", -by_hand("turn")).doubt(by_hand("turn doubt"));
    // The rear yoke's left ear is the lower one, so seen from the rear it goes clockwise.
    page.answers(turn.says("yoke clockwise").judged("Good"));
    page.answers(Answer::by_hand("PhaseArc", "turn arc").says("yoke clockwise"));
}

fn truing(page: &Page) {
    let thou = 0.001;
    page.stage("true");
    page.fill_turn(0);
    // By definition: 15 less −1.
    page.answers(Answer::of("TotalReading", 16.0 * thou).judged("Watch"));
    let (offset, doubt) = (by_hand("offset") * thou, by_hand("offset doubt") * thou);
    let reading = Answer::of("OffsetReading", 2.0 * offset).doubt(2.0 * doubt);
    page.answers(reading.at(by_hand("offset at")).says("High at").judged("Stop"));
    page.answers(Answer::of("Correction", offset).doubt(doubt).at(by_hand("offset at")).says("tap at"));
    page.answers(Answer::by_hand("Ovality", "ovality over all"));
    page.answers(Answer::of("Leftover", by_hand("leftover") * thou));
    page.until("the curve drawn", "!!document.querySelector('.drawing svg')");
    is_not_good(page);
    page.tap_word(".actions button", "+ Tacked");
    page.fill_turn(1);
    page.tap_word(".actions button", "+ Welded");
    page.fill_turn(2);
    // By definition: 6 less 0.
    page.answers(Answer::of("TotalReading", 6.0 * thou).judged("Good"));
    page.answers(Answer::of("WeldPull", by_hand("pull") * thou).at(by_hand("pull at")));
    // The turns before are kept.
    page.tap_word(".segments button", "1 As fitted");
    page.answers(Answer::of("TotalReading", 16.0 * thou));
    page.tap_word(".segments button", "3 Welded");
    page.answers(Answer::of("TotalReading", 6.0 * thou));
}

/// The yokes once more, after welding.
fn welded(page: &Page) {
    page.stage("phase");
    page.reads(".card[data-name=PhaseWelded]", "measure again after welding");
    page.tap_word("button", "After welding");
    page.fill(WELDED);
    let left = Answer::of("PhaseWelded", -by_hand("welded turn")).doubt(by_hand("turn doubt"));
    page.answers(left.says("stands counter-clockwise").judged("Good"));
    // What was read before it is no order any more.
    page.answers(Answer::of("PhaseError", -by_hand("turn")).judged("Figure"));
}

fn weights(page: &Page) {
    page.stage("weights");
    page.tap(".more-weights");
    page.fill(WEIGHTS);
    // Kept with its own yoke: the first as it was, in degrees and inches as typed.
    page.answers(Answer::of("PutBack-0", 9.0).at(60.0).distance(5.25).judged("Good"));
    // The second moves with the cut end and turns with its yoke: 225° and 3°.
    let second = Answer::of("PutBack-1", 14.5).at(228.0).distance(by_hand("second distance"));
    page.answers(second.judged("Good"));
    page.answers(Answer::by_hand("LeftFront", "left far").judged("Not judged"));
    page.answers(Answer::by_hand("LeftRear", "left cut").judged("Not judged"));
}

fn check(page: &Page) {
    page.stage("check");
    page.wants("SpeedShare", "Top speed");
    for field in CHECK {
        is_not_good(page);
        page.fill(&[*field]);
    }
    page.answers(Answer::by_hand("WhirlSpeed", "whirl").doubt(by_hand("whirl doubt")));
    let share = Answer::by_hand("SpeedShare", "share").doubt(by_hand("share doubt"));
    page.answers(share.judged("Good"));
    page.reads(".rail .shaft", "Good");
    page.stage("angles");
    let front = Answer::by_hand("FrontJoint", "angles ride front");
    page.answers(front.doubt(by_hand("angles ride front doubt")).judged("Good"));
    // Now the rest of the weights can be judged: half of what G 16 permits.
    page.stage("weights");
    page.answers(Answer::by_hand("LeftRear", "left cut").judged("Figure"));
    page.number_behind(".card[data-name=LeftRear] .reason", "against", by_hand("permitted half"));
}

/// Once the cut says how much the weld draws, that is in the slip's ± too; the yoke slides along the
/// gearbox's slope as read at Angles.
fn slip_doubts(page: &Page) {
    page.stage("measure");
    for (name, value, doubt) in [
        ("PlungeIn", "slip along gearbox in", "slip along gearbox in doubt"),
        ("PlungeOut", "slip along gearbox out", "slip along gearbox out doubt"),
        ("LipBand", "lip along gearbox from", "slip along gearbox lip doubt"),
    ] {
        page.answers(Answer::by_hand(name, value).doubt(by_hand(doubt)).judged("Good"));
    }
}

fn reload_keeps_all(page: &Page) {
    page.reload();
    page.at_stage("weights");
    page.holds(WEIGHTS);
    for (slug, fields) in
        [("measure", MEASURE), ("measure", SLIP), ("angles", ANGLES), ("cut", CUT), ("check", CHECK)]
    {
        page.stage(slug);
        page.holds(fields);
    }
    page.stage("phase");
    page.holds(&[PHASE[0], ("rear-level-1-0", "-0.2")]);
    // What is filled in is never folded away.
    page.holds(WELDED);
    page.stage("true");
    for (station, text) in TURNS[2].iter().enumerate() {
        assert_eq!(
            page.value(&format!("station-2-0-{station}")),
            *text,
            "mark {station} of the latest turn"
        );
    }
    page.reads(".rail .shaft", "Good");
}

fn back_and_bookmark(page: &Page, other: &Page) {
    page.back();
    page.at_stage("phase");
    page.back();
    page.at_stage("check");
    let bookmark: String = page.ask("location.href.replace('/check', '/cut')");
    other.open(&bookmark);
    other.at_stage("cut");
    other.holds(CUT);
    other.answers(Answer::by_hand("FinishedLength", "finished"));
}

fn without_a_server(page: &Page) {
    page.at_stage("check");
    page.write("top-speed", "4700");
    // By definition of the share; over the 0.70 that a shaft maker allows light vehicles.
    page.answers(Answer::of("SpeedShare", 4700.0 / by_hand("whirl")).judged("Stop"));
    page.reads(".rail .shaft", "Stop");
    page.stage("phase");
    page.choose("Measured by", "gap under an ear, front yoke flat");
    page.fill(&[("lift-1-0", "0.0340327"), ("span", "3-1/4")]);
    page.answers(Answer::by_hand("PhaseError", "bench turn").doubt(by_hand("bench doubt")));
    page.stage("measure");
    page.choose("Slip yoke, while this was taken", "pushed in, bottomed");
    let wanted = Answer::by_hand("WantedLength", "wanted from bottomed");
    page.answers(wanted.doubt(by_hand("wanted from bottomed doubt")));
}
