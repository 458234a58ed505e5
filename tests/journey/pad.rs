//! The pad of keys beside the dial: what each key does to the mark that is chosen, and where it goes
//! next. What is expected is what a hand that tapped these keys meant, and the total reading, which is by
//! definition the highest reading less the lowest.

use crate::answer::Answer;
use crate::dial::{Tube, apart, clock_behind, most_off};
use crate::page::Page;
use crate::visit::visit;

/// In inches.
const LINE: f64 = 0.001;

fn total(page: &Page, lines: f64) {
    page.answers(Answer::of("TotalReading", lines * LINE));
}

fn mark(mark: usize) -> String {
    format!("station-0-0-{mark}")
}

/// The name of the mark that is typed, and what stands there.
fn head(page: &Page, name: &str, stands: &str) {
    page.reads(".pad .mark-name span", name);
    page.look(&format!("“{stands}” beside {name}"), || {
        let said = page.text(".pad .mark-name strong");
        if said == stands { Ok(()) } else { Err(format!("“{said}”")) }
    });
}

#[test]
fn a_mark_is_corrected_in_one_touch_and_the_turn_goes_on_where_it_was_left() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        // The first mark is chosen before anything is tapped.
        page.chosen(&mark(0));
        for (place, lines) in [0, 5, 17].into_iter().enumerate() {
            page.pad_number(lines);
            page.stands(&mark(place), &lines.to_string());
            page.pad("Next mark");
        }
        page.chosen(&mark(3));
        // A touch, a number in place of the old one, and back to the first mark that is not read.
        page.tap(&format!("#{}", mark(2)));
        page.chosen(&mark(2));
        head(&page, "3:00", "17");
        page.pad_number(11);
        page.stands(&mark(2), "11");
        page.pad("Next mark");
        page.chosen(&mark(3));
        // Looked at and left as it stands.
        page.tap(&format!("#{}", mark(1)));
        page.chosen(&mark(1));
        page.pad("Next mark");
        page.chosen(&mark(3));
        page.stands(&mark(1), "5");
        // The last figure taken back.
        page.pad_number(14);
        page.pad("⌫");
        page.pad("5");
        page.stands(&mark(3), "15");
        // One passed over is come back to after a correction, and by the end of the turn.
        page.tap(&format!("#{}", mark(5)));
        page.pad_number(9);
        page.pad("Next mark");
        page.chosen(&mark(6));
        page.pad_number(3);
        page.pad("Next mark");
        page.pad_number(-1);
        page.stands(&mark(7), "-1");
        page.pad("Next mark");
        page.chosen("closing-0-0");
        page.pad("0");
        page.tap(&format!("#{}", mark(0)));
        page.pad("Next mark");
        page.chosen(&mark(4));
        page.pad_number(14);
        page.stands(&mark(4), "14");
        page.pad("Next mark");
        page.reads(".pad .mark-name", "Turn read");
        total(&page, 16.0);
        // With nothing chosen a key has nowhere to go.
        page.pad("7");
        assert_eq!(page.value("closing-0-0"), "0");
        // Emptied, a mark is wanted again.
        page.tap(&format!("#{}", mark(7)));
        page.chosen(&mark(7));
        page.pad("⌫");
        page.stands(&mark(7), "");
        page.reads(".card[data-name=TotalReading]", "some marks have no reading yet");
        page.pad_number(-2);
        page.stands(&mark(7), "-2");
        total(&page, 17.0);
    });
}

#[test]
fn sign_and_half_lines() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        for (keys, text, shown) in [
            (&["±", "1", "2"][..], "-12", "−12"),
            (&["1", "2", "±"][..], "-12", "−12"),
            (&["±", "±", "7"][..], "7", "7"),
            (&["3", "½"][..], "3.5", "3.5"),
            (&["3", "½", "½"][..], "3", "3"),
            (&["±", "½"][..], "-0.5", "−0.5"),
            (&["½", "4"][..], "4.5", "4.5"),
            (&["3", "½", "⌫"][..], "3", "3"),
        ] {
            // Chosen anew, the first key begins anew.
            page.tap(&format!("#{}", mark(1)));
            page.tap(&format!("#{}", mark(0)));
            page.chosen(&mark(0));
            page.pad("⌫");
            page.stands(&mark(0), "");
            keys.iter().for_each(|key| page.pad(key));
            page.stands(&mark(0), text);
            head(&page, "12:00", shown);
        }
        // A sign tapped first stands there before its figure.
        page.tap(&format!("#{}", mark(1)));
        page.chosen(&mark(1));
        page.pad("±");
        head(&page, "1:30", "−");
        page.stands(&mark(1), "");
        page.pad("½");
        page.stands(&mark(1), "-0.5");
        // The sign alone of a mark read wrong.
        page.tap(&format!("#{}", mark(0)));
        page.chosen(&mark(0));
        page.pad("±");
        page.stands(&mark(0), "-3");
        page.pad("±");
        page.stands(&mark(0), "3");
        for (place, lines) in [(2, "-2"), (3, "-2"), (4, "-1.5"), (5, "0"), (6, "1"), (7, "3.5")] {
            page.write(&mark(place), lines);
        }
        total(&page, 5.5);
        // Finer than an eye reads on this dial.
        page.write(&mark(7), "0.3");
        page.reads(".reading.wrong .note", "is finer than this dial shows");
    });
}

#[test]
fn a_mark_set_aside_by_hand() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        // High at 3 o'clock, and a dent at 7:30 that no offset makes.
        let tube = Tube::toward(8.0, 90.0);
        let mut readings = tube.readings();
        readings[5] -= 12;
        page.pad_turn(0, 0, &readings);
        let of = |readings: &[i32]| {
            f64::from(readings.iter().max().unwrap() - readings.iter().min().unwrap())
        };
        total(&page, of(&readings));
        assert_eq!(page.card("SetAside").all, "", "nothing is set aside by itself at 8 marks");
        page.tap(&format!("#{}", mark(5)));
        page.chosen(&mark(5));
        page.pad("Set aside");
        page.reads(&format!(".reading:has(#{})", mark(5)), "set aside");
        page.stands(&mark(5), &readings[5].to_string());
        page.reads(".card[data-name=SetAside]", "At 7:30 (225°): set aside by you");
        let mut counted = readings.to_vec();
        counted.remove(5);
        total(&page, of(&counted));
        page.look("the tube's own high side", || {
            let card = page.card("OffsetReading");
            let at = clock_behind(&card.sense, "High at ").unwrap_or(f64::NAN);
            // Without a mark the fit is a little looser than with all: twice as much holds it.
            let most = (2.0 * most_off() / tube.size()).asin().to_degrees();
            if apart(at, 90.0) <= most { Ok(()) } else { Err(format!("{card:#?}")) }
        });
        let hollow = ".drawing [aria-label^=\"Readings round the tube\"] circle";
        page.look("a hollow point", || match page.count(hollow) {
            1 => Ok(()),
            count => Err(count.to_string()),
        });
        // Kept, and taken back by the same key.
        page.reads(".rail .kept", "Kept on this device");
        page.reload();
        page.at_stage("true");
        page.reads(&format!(".reading:has(#{})", mark(5)), "set aside");
        page.tap(&format!("#{}", mark(5)));
        page.until(
            "the key pressed",
            "[...document.querySelectorAll('.pad button')].some((key) =>
                key.innerText.trim() === 'Set aside' && key.ariaPressed === 'true')",
        );
        page.pad("Set aside");
        page.until("nothing set aside", "!document.querySelector('.reading.aside')");
        total(&page, of(&readings));
        // One that cannot be read at all: set aside it is no longer asked for.
        page.pad("⌫");
        page.stands(&mark(5), "");
        page.reads(".card[data-name=TotalReading]", "some marks have no reading yet");
        page.pad("Set aside");
        page.pad("Next mark");
        page.reads(".pad .mark-name", "Turn read");
        page.look("where to tap, without that mark", || {
            let card = page.card("Correction");
            let at = clock_behind(&card.sense, "tap at ").unwrap_or(f64::NAN);
            let most = (2.0 * most_off() / tube.size()).asin().to_degrees();
            if apart(at, 90.0) <= most { Ok(()) } else { Err(format!("{card:#?}")) }
        });
    });
}

#[test]
fn the_devices_own_keyboard_stays_down_until_it_is_asked_for() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        let mode = |wanted: &str| {
            page.until(
                &format!("inputmode {wanted}"),
                &format!(
                    "[...document.querySelectorAll('.reading input')].every((field) =>
                        field.inputMode === '{wanted}')"
                ),
            );
        };
        mode("none");
        page.pad("4");
        page.pad("Next mark");
        page.until("the caret there", &format!("document.activeElement.id === '{}'", mark(1)));
        page.pad("Keyboard");
        mode("decimal");
        page.until("the caret still there", &format!("document.activeElement.id === '{}'", mark(1)));
        page.until(
            "no figures on the pad",
            "![...document.querySelectorAll('.pad .figure')].some((key) => key.checkVisibility())",
        );
        page.type_on("12");
        page.stands(&mark(1), "12");
        page.pad("Next mark");
        page.until("the caret in the next", &format!("document.activeElement.id === '{}'", mark(2)));
        page.type_on("-3");
        page.stands(&mark(2), "-3");
        // Back: figures again, and a keyboard on the bench types into the same field.
        page.pad("Keyboard");
        mode("none");
        page.until("the caret still there", &format!("document.activeElement.id === '{}'", mark(2)));
        page.pad("Next mark");
        page.type_on("6");
        page.stands(&mark(3), "6");
        page.pad("2");
        page.stands(&mark(3), "62");
        // Large enough for a gloved thumb: 48 px is the least that the platforms' own guides advise.
        for size in [(1024, 768), (768, 1024), (390, 844)] {
            page.resize(size);
            page.until(
                &format!("keys of 48 px at {size:?}"),
                &format!(
                    "innerWidth === {} && [...document.querySelectorAll('.pad button')].every((key) => {{
                        const box = key.getBoundingClientRect();
                        return box.height >= 48 && box.width >= 48; }})",
                    size.0
                ),
            );
        }
    });
}
