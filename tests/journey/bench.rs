//! Other ways to read a tube on the bench: the quick way, a dial that counts the other way, other names
//! of the marks, several places along the tube; and what cannot be.

use serde_json::json;

use crate::answer::{Answer, by_hand};
use crate::dial::{MARKS, Tube, apart, clock_behind, lines_behind, most_off};
use crate::page::Page;
use crate::shaft::{CUT, MEASURE};
use crate::visit::visit;

/// In inches.
const LINE: f64 = 0.001;

fn marks(page: &Page, words: &str) {
    page.tap_word(".segments button", words);
}

/// What stands on the card in place of an order.
fn says(page: &Page, words: &str) {
    page.reads(".card[data-name=Correction]", words);
    page.no_bad_number();
}

#[test]
fn the_quick_way_by_the_highest_and_the_lowest_place() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        marks(&page, "high and low only");
        page.until("no closing", "!document.getElementById('closing-0-0')");
        let boxes = ["Highest", "Highest, where", "Lowest", "Lowest, where"];
        assert_eq!(page.texts(".reading .label"), boxes);
        page.until(
            "nothing to set aside",
            "![...document.querySelectorAll('.pad button')].some((key) => key.innerText.trim() === 'Set aside')",
        );
        page.chosen("station-0-0-0");
        page.pad_number(7);
        page.wants("Correction", "Highest, where");
        page.pad("Next mark");
        page.chosen("station-at-0-0-0");
        page.pad_number(3);
        page.pad("Next mark");
        page.chosen("station-0-0-1");
        page.pad_number(-5);
        page.stands("station-0-0-1", "-5");
        page.pad("Next mark");
        page.chosen("station-at-0-0-1");
        page.pad_number(9);
        page.pad("Next mark");
        page.reads(".pad .mark-name", "Turn read");
        page.write("station-at-0-0-1", "270°");
        // By definition: 7 less −5, and half of it across.
        page.answers(Answer::of("TotalReading", 12.0 * LINE));
        page.answers(Answer::of("Correction", 6.0 * LINE).at(90.0).says("tap at"));
        // By definition of the way: the middle between the highest and what is opposite the lowest.
        page.write("station-at-0-0-1", "9:40");
        page.answers(Answer::of("Correction", 6.0 * LINE).at(100.0));
        // What cannot be.
        page.write("station-0-0-1", "9");
        says(&page, "The highest place reads under the lowest, as this dial is said to count");
        page.write("station-0-0-1", "-5");
        page.write("station-at-0-0-1", "3:00");
        says(&page, "Two readings stand at 3:00 (90°): correct one of the places.");
        page.write("station-at-0-0-1", "12");
        says(&page, "The lowest place is 90° beside the one opposite the highest");
        page.write("station-at-0-0-1", "9");
        page.answers(Answer::of("Correction", 6.0 * LINE).at(90.0));
    });
}

#[test]
fn a_dial_that_counts_the_other_way() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        page.reads("legend:has(+ .dial)", "plunger pushed in is plus");
        page.tap_word("button", "Set-up, asked once");
        page.choose("Its plunger, pushed in", "reads less (minus)");
        page.reads("legend:has(+ .dial)", "plunger pushed in is minus");
        // The same tube: what stands out pushes the plunger in, and this dial falls.
        let tube = Tube::toward(11.0, 215.0);
        page.pad_turn(0, 0, &tube.readings().map(|lines| -lines));
        page.look("the same order, with more for less", || {
            let card = page.card("Correction");
            let at = clock_behind(&card.sense, "tap at ").unwrap_or(f64::NAN);
            let by = card.sense.split_once("reads ").and_then(|(_, by)| by.split_once(" in more"));
            let by = by.map_or(f64::NAN, |(by, _)| by.parse::<f64>().unwrap() / LINE);
            let most = (most_off() / tube.size()).asin().to_degrees() + 0.5;
            let close = apart(at, tube.at()) <= most && (by - tube.size()).abs() <= most_off() + 0.05;
            if close { Ok(()) } else { Err(format!("{card:#?}")) }
        });
        // Counted the first way again the same readings are high opposite.
        page.choose("Its plunger, pushed in", "reads more (plus)");
        page.look("high opposite", || {
            let card = page.card("Correction");
            let at = clock_behind(&card.sense, "tap at ").unwrap_or(f64::NAN);
            let most = (most_off() / tube.size()).asin().to_degrees() + 0.5;
            if apart(at, tube.at() + 180.0) <= most { Ok(()) } else { Err(format!("{card:#?}")) }
        });
    });
}

#[test]
fn marks_by_degrees_and_by_number() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        let named = |wanted: [&str; MARKS]| {
            page.look(&format!("{wanted:?}"), || {
                let names = page.texts(".dial .reading .label");
                if names == wanted { Ok(()) } else { Err(format!("{names:?}")) }
            });
        };
        // By definition: 360° and 12 hours in eight parts.
        named(["12:00", "1:30", "3:00", "4:30", "6:00", "7:30", "9:00", "10:30"]);
        page.tap_word("button", "Set-up, asked once");
        page.choose("Marks are called by", "degrees");
        named(["0.0°", "45.0°", "90.0°", "135.0°", "180.0°", "225.0°", "270.0°", "315.0°"]);
        page.reads(".pad .mark-name", "0.0°");
        page.choose("Marks are called by", "numbers");
        named(["Mark 1", "Mark 2", "Mark 3", "Mark 4", "Mark 5", "Mark 6", "Mark 7", "Mark 8"]);
        page.reads(".pad .mark-name", "Mark 1");
        page.wants("Correction", "Reading at Mark 1");
        // Turned clockwise seen from the rear, the mark before the first comes under the dial after it.
        page.choose("How a reading's place is known", "shaft turned clockwise, step by step");
        named(["Mark 1", "Mark 8", "Mark 7", "Mark 6", "Mark 5", "Mark 4", "Mark 3", "Mark 2"]);
        page.choose("Marks are called by", "clock");
        named(["12:00", "10:30", "9:00", "7:30", "6:00", "4:30", "3:00", "1:30"]);
        // Read in that order the tube is where it is.
        let tube = Tube::toward(9.0, 70.0);
        let mut readings = tube.readings();
        readings[1..].reverse();
        page.pad_turn(0, 0, &readings);
        page.look("the tube's own high side", || {
            let card = page.card("OffsetReading");
            let at = clock_behind(&card.sense, "High at ").unwrap_or(f64::NAN);
            let most = (most_off() / tube.size()).asin().to_degrees() + 0.5;
            if apart(at, tube.at()) <= most { Ok(()) } else { Err(format!("{card:#?}")) }
        });
    });
}

/// A kink at the weld: two straight pieces that meet there, `most` lines beside the line through the joints.
fn kinked(z: f64, weld: f64, length: f64) -> f64 {
    if z < weld { z / weld } else { (length - z) / (length - weld) }
}

#[test]
fn three_places_along_the_tube_tell_a_kink() {
    /// Lines off at the weld, and toward where.
    const KINK: (f64, f64) = (20.0, 110.0);
    /// From the front joint's centre: the tube's middle, beside the weld, and on the yoke's neck behind it.
    const PLACES: [&str; 3] = ["26", "51", "54"];
    visit(|visit| {
        let page = visit.new_job();
        page.choose("Tape, rule or calliper reads to", "1/32 in");
        page.fill(MEASURE);
        page.stage("cut");
        page.fill(CUT);
        page.stage("true");
        let (length, weld) = (by_hand("wanted"), by_hand("new weld"));
        let share = |place: usize| kinked(PLACES[place].parse().unwrap(), weld, length);
        for (along, place) in PLACES.into_iter().enumerate() {
            if along > 0 {
                page.tap_word("button", "One more place along the tube");
            }
            let id = format!("place-{along}");
            page.until(&id, &format!("!!document.getElementById('{id}')"));
            page.write(&id, place);
            // Writing it took the caret: the first mark is chosen again by a touch.
            let tube = Tube::toward(KINK.0 * share(along), KINK.1);
            page.tap(&format!("#station-0-{along}-0"));
            page.pad_turn(0, along, &tube.readings());
            let bent = ".card[data-name=BentBy]";
            match along {
                0 => assert_eq!(page.text(bent), "", "one place tells nothing of the rest"),
                // On the straight in front of the weld both stand as far off as a bent rear yoke sets them.
                1 => page.reads(bent, "cannot tell it from the rear yoke bent or welded off"),
                _ => {}
            }
        }
        // What reading to whole lines can hide, through the fit of one shape to three places.
        let shares: Vec<f64> = (0..PLACES.len()).map(share).collect();
        let squares: f64 = shares.iter().map(|share| share * share).sum();
        let most = most_off() * shares.iter().sum::<f64>() / squares;
        // By geometry: the angle between the two pieces, small enough for its tangent.
        let angle = |lines: f64| (lines * LINE * (1.0 / weld + 1.0 / (length - weld))).to_degrees();
        page.look("a kink named with its place", || {
            let card = page.card("BentBy");
            let size = lines_behind(&card.value, "").unwrap_or(f64::NAN);
            let at = clock_behind(&card.sense, "high at ").unwrap_or(f64::NAN);
            let said = card
                .sense
                .split_once("A kink at the new weld of ")
                .and_then(|(_, angle)| angle.split('°').next()?.parse::<f64>().ok());
            let close = (size - KINK.0).abs() <= most + 0.05
                && apart(at, KINK.1) <= (most / KINK.0).asin().to_degrees() + 0.5
                && (said.unwrap_or(f64::NAN) - angle(KINK.0)).abs() <= angle(most) + 0.005;
            if close { Ok(()) } else { Err(format!("{most:.2} lines at the most; {card:#?}")) }
        });
        let sense = page.card("BentBy").sense;
        assert!(sense.contains("open the joint on the low side"), "{sense}");
        assert!(!sense.contains("cannot tell"), "nothing else is like it: {sense}");
        page.until(
            "the shaft's line drawn",
            "!!document.querySelector('.drawing [aria-label^=\"The shaft from joint to joint\"] svg')",
        );
        // The place beside the weld is the worst of the others, seen from the neck.
        page.reads(".card[data-name=WorstAlong]", "At place 2, 51 in from the gearbox joint's centre.");
        pad_stays_under_the_thumb(&page);
        // Each place keeps its own turn.
        page.tap_word(".segments button", "Place 1");
        page.stands("station-0-0-0", "0");
        page.reads(".pad .mark-name", "Turn read");
        // Two places at one distance tell nothing, and it is said which.
        page.write("place-0", "51");
        page.reads(".card[data-name=BentBy]", "Two places stand at 51 in, or too near it to tell apart");
        page.write("place-0", "26");
        page.reads(".card[data-name=BentBy]", "A kink at the new weld");
    });
}

/// At the page's end, cards that go away beside the pad do not move it.
fn pad_stays_under_the_thumb(page: &Page) {
    let place = "Math.round(document.querySelector('.pad .primary').getBoundingClientRect().top)";
    page.focus("#station-0-2-7");
    page.ask::<()>("void scrollTo(0, document.scrollingElement.scrollHeight)");
    // A key brings the box into sight; from then on nothing moves.
    page.press("a", json!({"modifiers": 2, "commands": ["selectAll"]}));
    page.press("5", json!({"text": "5"}));
    page.stands("station-0-2-7", "5");
    let before: i32 = page.ask(place);
    page.press("a", json!({"modifiers": 2, "commands": ["selectAll"]}));
    page.press("Backspace", json!({"windowsVirtualKeyCode": 8}));
    page.reads(".card[data-name=Correction]", "some marks have no reading yet");
    page.until("no order of tacking", "!document.querySelector('.card[data-name=TackFrom]')");
    assert_eq!(page.ask::<i32>(place), before, "the pad moved");
    page.pad("±");
    page.pad("5");
    page.reads(".card[data-name=Correction]", "tap at");
}

#[test]
fn what_cannot_be_gets_its_sentence() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        marks(&page, "my own");
        for (mark, (at, lines)) in [("12", "0"), ("3", "6")].into_iter().enumerate() {
            page.write(&format!("station-at-0-0-{mark}"), at);
            page.write(&format!("station-0-0-{mark}"), lines);
        }
        says(&page, "Readings that count: 2. At least 3 are needed");
        // A reading without a place is asked for its place.
        page.write("station-0-0-2", "1");
        page.wants("Correction", "Place of mark 3");
        page.write("station-at-0-0-2", "3");
        says(&page, "Two readings stand at 3:00 (90°): correct one of the places.");
        page.write("station-at-0-0-2", "half past");
        page.reads(".field.wrong:has(#station-at-0-0-2) .note strong", "cannot be read");
        page.wants("Correction", "Place of mark 3: marked wrong");
        page.write("station-at-0-0-2", "7:30");
        // Three marks fit any circle: nothing says where.
        says(&page, "Three marks fit any circle");
        assert!(!page.card("Correction").all.contains("tap at"), "{:?}", page.card("Correction"));
        page.write("station-at-0-0-3", "9");
        page.write("station-0-0-3", "-6");
        page.reads(".card[data-name=Correction]", "tap at");
        // All on one side of the tube.
        page.write("station-at-0-0-2", "3:02");
        page.write("station-at-0-0-3", "3:04");
        page.write("station-at-0-0-0", "2:58");
        says(&page, "The marks lie too close together to tell an offset");
        // The dial moved while it was read.
        page.write("station-at-0-0-0", "12");
        page.write("station-at-0-0-2", "6");
        page.write("station-at-0-0-3", "9");
        page.write("station-0-0-2", "0");
        page.write("closing-0-0", "5");
        says(&page, "The dial came back 0.0050 in away, more than one line: something moved.");
        page.write("closing-0-0", "0");
        page.reads(".card[data-name=Correction]", "tap at");
        // A number too large for any dial on a shaft, and text that is none.
        for (text, said) in [("900", "is outside what this can be"), ("five", "cannot be read")] {
            page.write("station-0-0-1", text);
            page.reads(".reading.wrong:has(#station-0-0-1) .note strong", said);
            page.wants("Correction", "marked wrong");
        }
        page.write("station-0-0-1", "6");
        page.until("no complaint", "!document.querySelector('.note strong')");
    });
}
