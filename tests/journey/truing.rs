//! A full truing, from far out through the tacks and the weld to inside the limit, by touch alone.
//!
//! What is expected is the virtual tube of `dial.rs`, which is the truth by construction, give or take
//! what a dial read to whole lines can hide. It answers to a tap with a share of what is asked and to
//! one side of it, so what the page says is done as told, and a page that learned nothing from the taps
//! would not come true in three passes.

use crate::answer::Answer;
use crate::dial::{MARKS, Tube, apart, clock_behind, lines_behind, most_off};
use crate::page::Page;
use crate::visit::visit;

/// What the tube does of what is asked of it.
const SHARE: f64 = 0.6;
/// How far to the side it goes, in degrees clockwise.
const ASIDE: f64 = 15.0;
/// Half of the limit of the total reading that is chosen, 0.005 in.
const HALF_LIMIT: f64 = 2.5;
/// Far out: 0.030 in on the dial.
const FAR_OUT: (f64, f64) = (15.0, 100.0);

/// An order read off the card.
#[derive(Debug)]
struct Order {
    /// Where to tap, in degrees on the clock.
    at: f64,
    /// Which way the tube is to go.
    toward: f64,
    /// By how many lines.
    by: f64,
    /// What the card says that the tube did so far: a share and degrees clockwise.
    answered: Option<(f64, f64)>,
}

fn order(sense: &str) -> Option<Order> {
    // A share, and where it went aside a turn behind it: `0.6 of what was asked, 15° clockwise`.
    let said =
        ["The taps so far moved it ", "it kept "].iter().find_map(|words| sense.split_once(words));
    let answered = said.and_then(|(_, said)| {
        let share = said.split([' ', ',']).next()?.parse().ok()?;
        let turn = said.split_once('°').map(|(before, way)| {
            let size: Option<f64> = before.rsplit(' ').next()?.parse().ok();
            size.map(|size| if way.starts_with(" counter-clockwise") { -size } else { size })
        });
        Some((share, turn.unwrap_or(Some(0.0))?))
    });
    Some(Order {
        at: clock_behind(sense, "tap at ")?,
        toward: clock_behind(sense, "toward ")?,
        by: lines_behind(sense, "there reads ")?,
        answered,
    })
}

/// A turn at the only place along the tube: typed, its total and its offset read.
fn reads(page: &Page, pass: usize, tube: Tube) {
    let readings = tube.readings();
    page.pad_turn(pass, 0, &readings);
    // By definition of the total reading.
    let total = readings.iter().max().unwrap() - readings.iter().min().unwrap();
    page.answers(Answer::of("TotalReading", f64::from(total) * 0.001));
    page.look(&format!("the offset of {tube:?}"), || {
        let card = page.card("OffsetReading");
        let twice = lines_behind(&card.value, "").unwrap_or(f64::NAN);
        // Twice the offset is shown, to a tenth of a line.
        let close = (twice - 2.0 * tube.size()).abs() <= 2.0 * most_off() + 0.05;
        if close { Ok(()) } else { Err(format!("{card:#?}")) }
    });
    // Each reading is a point of the curve.
    page.look("the turn's curve drawn", || {
        // One stroke of no length each.
        let dots = "document.querySelector('.drawing [aria-label^=\"Readings round the tube\"] .dots')";
        match page.ask::<usize>(&format!("{dots}?.getAttribute('d').split('M').length - 1")) {
            MARKS => Ok(()),
            points => Err(format!("{points} points")),
        }
    });
    drawn_passes(page);
}

/// Each pass is a point of the history, by its kind: rounds, squares, lozenges; one more of each in the
/// line that explains them.
fn drawn_passes(page: &Page) {
    // A pass is called by its number and its kind; a mark or a place is not.
    let is_pass =
        |word: &&String| word.split_once(' ').is_some_and(|(number, _)| number.parse::<usize>().is_ok());
    let keys = page.texts(".segments button");
    let passes: Vec<&String> = keys.iter().filter(is_pass).collect();
    let history = ".drawing [aria-label^=\"Offset found by each pass\"]";
    let wanted = if passes.len() < 2 { 0 } else { passes.len() + 3 };
    page.look(&format!("{wanted} marks in the history"), || {
        let marks = page.count(&format!("{history} .accent"));
        if marks == wanted { Ok(()) } else { Err(format!("{marks} with passes {passes:?}")) }
    });
}

/// The high side as a card says it, as near as the dial lets it be known.
fn high_side(page: &Page, name: &str, words: &str, tube: Tube) -> f64 {
    page.look(&format!("{name} at {:.1}° of {tube:?}", tube.at()), || {
        let card = page.card(name);
        let said = clock_behind(&format!("{} {}", card.value, card.sense), words);
        let most = (most_off() / tube.size()).asin().to_degrees() + 0.5;
        match said.filter(|said| apart(*said, tube.at()) <= most) {
            Some(said) => Ok(said),
            None => Err(format!("{most:.1}° at the most; {card:#?}")),
        }
    })
}

#[test]
fn a_full_truing_from_far_out_through_the_weld_to_inside_the_limit() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("true");
        page.tap_word("button", "Set-up, asked once");
        page.choose("Limit of the total reading", "0.005 in, neck beside the slip");
        page.tap_word("button", "Set up: fold it away");
        page.until("the set-up folded", "!document.querySelector('.asked select')");
        page.reads(".asked", "0.005 in, neck beside the slip");
        let mut all = Vec::new();
        let fitted = tapped_true(&page, &mut all);
        let welded = tacked_and_welded(&page, fitted, &mut all);
        heated(&page, welded, &mut all);
        kept(&page, &all);
    });
}

/// Taps as told until the page says to stop; gives the tube back.
fn tapped_true(page: &Page, all: &mut Vec<[i32; MARKS]>) -> Tube {
    let mut tube = Tube::toward(FAR_OUT.0, FAR_OUT.1);
    for pass in 0..3 {
        if pass > 0 {
            page.tap_word(".actions button", "+ As fitted");
        }
        reads(page, pass, tube);
        all.push(tube.readings());
        if tube.size() < most_off() {
            break;
        }
        let told = page.look("an order to tap", || {
            let card = page.card("Correction");
            order(&card.sense).ok_or_else(|| format!("{card:#?}"))
        });
        if pass == 0 {
            first_order(page, &told, tube);
        } else {
            learned(&told);
        }
        tube = tube.moved(SHARE * told.by, told.toward + ASIDE);
    }
    // True by construction, and the page says so: nothing to tap at, or nothing that has to be.
    assert!(all.len() <= 3 && tube.size() < most_off(), "{} passes, {tube:?}", all.len());
    page.look("no need to tap any more", || {
        let card = page.card("Correction");
        let said = ["stop tapping", "it may stay as it is"].iter().any(|words| card.all.contains(words));
        if said && card.verdict == "Good" { Ok(()) } else { Err(format!("{card:#?}")) }
    });
    order_of_tacks(page, tube);
    // The shaft is not: the weld is to come.
    page.reads(".card[data-name=TotalReading]", "Inside the limit so far. Welding moves the tube");
    page.reads(".card[data-name=TotalReading] .verdict", "Not judged");
    tube
}

fn first_order(page: &Page, told: &Order, tube: Tube) {
    assert!(told.answered.is_none(), "nothing was tapped yet: {told:?}");
    // Straight across by the whole offset.
    let most = (most_off() / tube.size()).asin().to_degrees() + 0.5;
    assert!(apart(told.at, tube.at()) <= most, "{told:?} for {tube:?}");
    assert!(apart(told.toward, tube.at() + 180.0) <= most, "{told:?} for {tube:?}");
    assert!((told.by - tube.size()).abs() <= most_off() + 0.05, "{told:?} for {tube:?}");
    assert_eq!(page.card("Correction").verdict, "Stop");
    assert_eq!(page.card("TackFrom").all, "", "what is far out is not tacked");
}

/// Once it is inside its limit: the high side first, then opposite, then the quarters between; any side
/// where the dial sees none.
fn order_of_tacks(page: &Page, tube: Tube) {
    page.look("an order of tacks", || {
        let card = page.card("TackFrom");
        if card.value.is_empty() { Err(format!("{card:#?}")) } else { Ok(()) }
    });
    if page.card("TackFrom").value == "Any side" {
        assert!(tube.size() < 3.0 * most_off(), "a side could be seen of {tube:?}");
        return;
    }
    let from = high_side(page, "TackFrom", "", tube);
    let sense = page.card("TackFrom").sense;
    for (words, on) in [("opposite at ", 180.0), ("then ", 90.0), (" and ", 270.0)] {
        let said = clock_behind(&sense, words).unwrap();
        // Each is shown to a whole degree.
        assert!(apart(said, from + on) <= 1.0, "{sense}");
    }
}

/// The page found out how the tube answers, as near as two offsets let it.
fn learned(told: &Order) {
    let (share, aside) = told.answered.unwrap_or_else(|| panic!("nothing learned: {told:?}"));
    // The move was asked by the first offset and seen by the difference of both.
    let (asked, seen_off) = (FAR_OUT.0, 2.0 * most_off());
    assert!((share - SHARE).abs() <= seen_off / asked + 0.05, "{told:?}");
    let most = (seen_off / (SHARE * asked)).asin().to_degrees() + 0.5;
    assert!((aside - ASIDE).abs() <= most, "{told:?}");
}

/// Tacks draw the tube a little, the weld more.
fn tacked_and_welded(page: &Page, fitted: Tube, all: &mut Vec<[i32; MARKS]>) -> Tube {
    let tacked = fitted.moved(2.0, 40.0);
    page.tap_word(".actions button", "+ Tacked");
    reads(page, all.len(), tacked);
    all.push(tacked.readings());
    high_side(page, "WeldFrom", "", tacked);
    page.reads(".card[data-name=WeldFrom]", "what shrinks there draws it in");
    page.answers(Answer::of("TotalReading", total(tacked)).judged("Not judged"));
    let welded = tacked.moved(7.0, 200.0);
    page.tap_word(".actions button", "+ Welded");
    reads(page, all.len(), welded);
    all.push(welded.readings());
    went(page, "WeldPull", welded.since(tacked));
    page.reads(".card[data-name=Correction] .verdict", "Stop");
    page.reads(".card[data-name=Correction]", "one small heat spot there, never on the seam");
    page.until("no order of welding", "!document.querySelector('.card[data-name=WeldFrom]')");
    welded
}

/// A heat spot on the high side draws it in.
fn heated(page: &Page, welded: Tube, all: &mut Vec<[i32; MARKS]>) {
    let high = high_side(page, "Correction", "High at ", welded);
    let heated = welded.moved(welded.size() - 1.0, high + 180.0);
    assert!(heated.size() + most_off() < HALF_LIMIT, "{heated:?}");
    page.tap_word(".actions button", "+ Welded");
    reads(page, all.len(), heated);
    all.push(heated.readings());
    page.answers(Answer::of("TotalReading", total(heated)).judged("Good"));
    page.reads(".card[data-name=Correction] .verdict", "Good");
    page.reads(".card[data-name=Correction]", "Welded: leave it.");
    went(page, "LastMove", heated.since(welded));
}

/// A card says how the tube moved between two turns, as near as both dials let it be known.
fn went(page: &Page, name: &str, moved: Tube) {
    page.look(&format!("{name} by {moved:?}"), || {
        let card = page.card(name);
        let size = lines_behind(&card.value, "").unwrap_or(f64::NAN);
        let at = clock_behind(&card.sense, "Toward ").unwrap_or(f64::NAN);
        let most = 2.0 * most_off();
        let close = (size - moved.size()).abs() <= most + 0.05
            && apart(at, moved.at()) <= (most / moved.size()).asin().to_degrees() + 0.5;
        if close { Ok(()) } else { Err(format!("{card:#?}")) }
    });
}

/// The total reading of a tube in inches, by definition.
fn total(tube: Tube) -> f64 {
    let readings = tube.readings();
    f64::from(readings.iter().max().unwrap() - readings.iter().min().unwrap()) * 0.001
}

/// Everything typed stands again after the page was loaded anew, and so does what follows from it.
fn kept(page: &Page, all: &[[i32; MARKS]]) {
    let before = page.card("Correction").all;
    page.reads(".rail .kept", "Kept on this device");
    page.reload();
    page.at_stage("true");
    page.until("the set-up still folded", "!document.querySelector('.asked select')");
    drawn_passes(page);
    for (pass, readings) in all.iter().enumerate().rev() {
        let key = page.ask::<String>(&format!(
            "[...document.querySelectorAll('.segments button')].map((key) => key.innerText.trim())
                .find((word) => word.startsWith('{} '))",
            pass + 1
        ));
        page.tap_word(".segments button", &key);
        for (mark, lines) in readings.iter().enumerate() {
            let id = format!("station-{pass}-0-{mark}");
            page.until(&id, &format!("!!document.getElementById('{id}')"));
            page.stands(&id, &lines.to_string());
        }
        page.stands(&format!("closing-{pass}-0"), "0");
    }
    page.tap_word(".segments button", &format!("{} Welded", all.len()));
    page.look("the last answer again", || {
        let now = page.card("Correction").all;
        if now == before { Ok(()) } else { Err(now) }
    });
}
