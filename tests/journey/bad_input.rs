//! What cannot be read, or cannot be: one sentence at the field, and nothing else falls.

use crate::answer::Answer;
use crate::page::Page;
use crate::shaft::{CUT, MEASURE};
use crate::visit::visit;

/// What is said at a field.
fn complaint(id: &str) -> String {
    format!(".field.wrong:has(#{id}) .note strong")
}

/// Types something bad, reads what is said, and puts the good text back.
pub fn refused(page: &Page, id: &str, text: &str, said: &[&str]) {
    let good = page.value(id);
    page.write(id, text);
    for words in said {
        page.reads(&complaint(id), words);
    }
    assert_eq!(page.texts(".note strong").len(), 1, "one sentence: {:?}", page.texts(".note strong"));
    page.write(id, &good);
    page.until("no complaint", "!document.querySelector('.note strong')");
}

#[test]
fn an_ambiguous_comma_is_asked_about_and_answered_by_a_tap() {
    visit(|visit| {
        let page = visit.new_job();
        page.choose("Lengths in", "mm");
        page.choose("Slip yoke, while this was taken", "drawn out to its set point");
        page.write("wanted-0", "1410");
        page.write("old-0", "1,455");
        page.reads(&complaint("old-0"), "“1,455” can be read in two ways");
        page.wants("LengthChange", "Old, reading 1");
        assert_eq!(page.texts(".either button"), ["1455", "1.455"]);
        page.tap_word(".either button", "1455");
        page.until("the reading taken", "document.getElementById('old-0').value === '1455'");
        // By definition: 1455 less 1410, at 25.4 mm to the inch.
        page.answers(Answer::of("LengthChange", 45.0 / 25.4).says("Shorten by 45.00 mm"));
        page.write("old-0", "1,455");
        page.tap_word(".either button", "1.455");
        page.reads(&complaint("old-0"), "“1.455 mm” is outside what this can be: 200 mm to 3000 mm");
    });
}

#[test]
fn what_cannot_be_gets_one_sentence_and_other_answers_stay() {
    visit(|visit| {
        let page = visit.new_job();
        page.fill(MEASURE);
        for (text, said) in [
            ("3 mm", ["“3 mm” is outside what this can be", "7.87 in to 118 in"]),
            ("57-17/16", ["17/16 is no line of a tape", "upper one is below"]),
            ("-57-5/16", ["“-57-5/16 in” is outside what this can be", "7.87 in"]),
            ("about so long", ["“about so long” cannot be read", "Write it like"]),
            ("57 furlongs", ["“furlongs” is not a unit", "mm"]),
            ("1e400", ["is not a unit", "mm"]),
            ("9999999999", ["“9999999999 in” is outside what this can be", "118 in"]),
            ("99999999999999999999999999", ["cannot be read as a number", "Write it like"]),
            ("5' 13\"", ["13 inches behind the feet", "under 12"]),
        ] {
            refused(&page, "old-0", text, &said);
            page.write("old-0", text);
            page.wants("LengthChange", "Old, reading 1");
            page.answers(Answer::of("SetPoint", 0.875));
            page.write("old-0", MEASURE[0].1);
        }
        page.stage("cut");
        page.fill(CUT);
        page.stage("check");
        page.write("tube-wall", "0.083");
        refused(&page, "tube-wall", "1-5/8", &["“1-5/8 in” is outside what this can be"]);
        page.write("tube-diameter", "0.8");
        refused(&page, "tube-wall", "0.45", &["“0.45 in” is too much", "below 0.4 in", "Tube diameter"]);
        refused(&page, "top-speed", "fast", &["“fast” cannot be read"]);
        page.stage("phase");
        refused(&page, "front-level-1-0", "200", &["“200” is outside", "−180° to 180°"]);
        page.stage("true");
        refused(&page, "station-0-0-3", "5 apples", &["“apples” is not a unit"]);
        page.stage("weights");
        refused(&page, "weight-clock-0", "19", &["“19” is outside", "12 o'clock"]);
        refused(&page, "weight-clock-0", "7:75", &["75 minutes are past the hour"]);
        refused(&page, "weight-mass-0", "0", &["“0” is outside what this can be", "g"]);
    });
}
