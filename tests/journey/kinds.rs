//! Each kind of shaft asks its own questions, and a wrong number among them is pointed at. Expected
//! numbers: tests/handbook/shaft.txt, by shaft.py.

use crate::answer::{Answer, by_hand};
use crate::page::Page;
use crate::shaft::Fields;
use crate::visit::visit;

/// The old shaft as the script has it.
const OLD: &Fields = &[("old-0", "57-5/16"), ("old-1", "57-9/32"), ("old-2", "57-5/16")];

fn begins(page: &Page, kind: &str) {
    page.choose("Kind of shaft", kind);
    page.choose("Tape, rule or calliper reads to", "1/32 in");
    page.fill(OLD);
}

fn has(page: &Page, id: &str, there: bool) {
    let field = format!("!!document.getElementById('{id}') === {there}");
    page.until(&format!("field {id}: {there}"), &field);
}

#[test]
fn a_slip_yoke_in_the_gearbox_by_both_ways() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "slip yoke in the gearbox");
        has(&page, "rear-depth", false);
        page.choose("Measured", "both ways, to compare");
        page.fill(&[
            ("wanted-0", "55-1/2"),
            ("wanted-1", "55-17/32"),
            ("wanted-2", "55-1/2"),
            ("taken-at", "7/8"),
            ("set-point", "7/8"),
            ("bottomed", "1/2"),
            ("front-depth", "2-3/8"),
            ("ends-0", "59-9/32"),
            ("ends-1", "59-5/16"),
            ("ends-2", "59-9/32"),
        ]);
        let by = Answer::of("RoutesDiffer", -by_hand("routes")).doubt(by_hand("routes doubt"));
        page.answers(by.judged("Good"));
        // A misread inch is pointed at where it stands, and it still counts.
        page.write("wanted-1", "56-17/32");
        page.reads(".field:has(#wanted-1) .note", "from the others: take it again");
        page.until(
            "the misread tape told at the answer",
            "document.querySelector('.card[data-name=LengthChange]').innerText.includes('take it again')",
        );
        page.until(
            "nothing to be cut by it",
            "document.querySelector('.card[data-name=LengthChange] .verdict').innerText.includes('Stop')",
        );
        page.write("wanted-1", "55-17/32");
        // The lip in the old groove, and the way out of it, done as told.
        page.choose("Way of the slip", "reckoned from the shaft's slope");
        page.fill(&[
            ("spline", "4"),
            ("bump-travel", "3"),
            ("droop-travel", "4-1/2"),
            ("shaft-slope", "5"),
            ("lip-depth", "1/4"),
            ("barrel", "5-1/2"),
            ("groove-place", "1-3/4"),
            ("groove-width", "1/8"),
        ]);
        page.until(
            "the lip in the groove",
            "document.querySelector('.card[data-name=LipBand]').innerText.includes('Draw the slip out')",
        );
        page.write("set-point", "1-5/8");
        page.until(
            "the groove missed",
            "document.querySelector('.card[data-name=LipBand] .verdict').innerText.includes('Good')",
        );
        // The joint moves out with the slip, so the shaft gets shorter by as much: 1-5/8 less 7/8 in.
        page.answers(Answer::of("WantedLength", by_hand("wanted") - 0.75));
    });
}

#[test]
fn a_slip_spline_on_the_shaft_measured_pushed_in() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "slip spline on the shaft");
        has(&page, "barrel", false);
        page.choose("Its slip, while it was measured", "pushed in, bottomed");
        page.wants("LengthChange", "Slip drawn out");
        page.choose("Measured", "from the ends, and the yokes' own sizes");
        has(&page, "wanted-0", false);
        page.fill(&[
            ("set-point", "7/8"),
            ("ends-0", "57-7/8"),
            ("ends-1", "57-29/32"),
            ("ends-2", "57-7/8"),
            ("front-depth", "2-3/8"),
        ]);
        let wanted = Answer::by_hand("WantedLength", "slip on shaft from ends");
        page.answers(wanted.doubt(by_hand("slip on shaft from ends doubt")));
        page.choose("Measured", "joint to joint");
        page.fill(&[("wanted-0", "55-1/2"), ("wanted-1", "55-17/32"), ("wanted-2", "55-1/2")]);
        let change = Answer::by_hand("LengthChange", "slip on shaft change");
        page.answers(change.doubt(by_hand("slip on shaft change doubt")).says("slip drawn out"));
    });
}

#[test]
fn a_flange_at_both_ends() {
    visit(|visit| {
        let page = visit.new_job();
        begins(&page, "flange at both ends, slip inside");
        has(&page, "barrel", false);
        page.choose("Measured", "from the ends, and the yokes' own sizes");
        page.fill(&[
            ("set-point", "7/8"),
            ("taken-at", "7/8"),
            ("ends-0", "60"),
            ("ends-1", "60-1/32"),
            ("ends-2", "5'"),
            ("front-depth", "2-3/8"),
            ("rear-depth", "2-1/8"),
        ]);
        let wanted = Answer::by_hand("WantedLength", "flanged").doubt(by_hand("flanged doubt"));
        page.answers(wanted);
        let change = Answer::by_hand("LengthChange", "flanged change");
        page.answers(change.doubt(by_hand("flanged change doubt")).says("Shorten by"));
        // A size that cannot be is told at its field, and nothing else is lost.
        page.write("rear-depth", "banana");
        page.reads(".field:has(#rear-depth) .note", "cannot be read");
        page.wants("LengthChange", "marked wrong");
        page.holds(OLD);
    });
}
