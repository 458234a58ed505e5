//! What is said of weights, and of what the run-out puts out of balance.

use super::amount::amount;
use super::label::{Worded, far_datum};
use crate::job::{Entry, Job};
use crate::quantity::{
    Angle, Length, LengthDisplay, show_angle, show_clock, show_length, show_mass, show_number,
};
use crate::stage::weights::{Cut, Drive, Piece, There, WeightReason, WeightSense};
use crate::stage::{Amount, read};

/// What stands in the place of a weight that was taken out of the log: what it was, as far as that is known.
pub fn taken_away(job: &Job, row: usize) -> String {
    let said = |entry: Entry| {
        let known = read(job, entry).ok().flatten();
        known.map(|known| amount(known, job.display.lengths()))
    };
    let mass = said(Entry::WeightMass(row)).map_or(String::new(), |mass| format!(", {mass}"));
    let at = said(Entry::WeightClock(row)).map_or(String::new(), |at| format!(" at {at}"));
    format!("Weight {}{mass}{at}, taken away.", row + 1)
}

/// What a sense says of a weight: the value and a sentence.
pub(super) fn worded_weight(number: String, sense: WeightSense, job: &Job) -> (String, Option<String>) {
    let display = job.display.lengths();
    let words = match sense {
        WeightSense::There(there) => placed(&there, display, job),
        WeightSense::Cancelled => {
            "The weights of this end cancel each other, as far as they are known: nothing goes back here.".to_owned()
        }
        WeightSense::TooLight => {
            "Too light to be told from none by a kitchen scale: leave it out.".to_owned()
        }
        WeightSense::Rules { one, other, rear } => format!(
            "Between “{}” and “{}”, in the {} joint's plane. Which rule is right cannot be known without a balancing machine.",
            one.word(),
            other.word(),
            if rear { "rear" } else { "front" }
        ),
        WeightSense::RunOut { drive, pass, welded } => {
            let state = if welded { "welded" } else { "not yet welded" };
            let (value, said) = match drive {
                Some(drive) => what_to_do(&number, drive),
                None => (number, None),
            };
            let by = format!("By turn {}, {state}.", pass + 1);
            let words = said.map_or_else(|| by.clone(), |said| format!("{by} {said}"));
            return (value, Some(words));
        }
        WeightSense::Grows { still, grown } => format!(
            "If the tube is bowed, its {} counts as {} at top speed.",
            amount(Amount::Grade(still), display),
            amount(Amount::Grade(grown), display)
        ),
    };
    (number, Some(words))
}

/// What to do, with the grade that it rests on.
fn what_to_do(grade: &str, drive: Drive) -> (String, Option<String>) {
    let what = match drive {
        Drive::Freely => "Drive it",
        Drive::Gently => "Drive it gently, and listen",
        Drive::Shop => "Take it to a driveline shop",
        Drive::Guess => {
            let words = "One place was read, and the tube is taken to be bowed evenly through it. Read two more along the tube, one at its middle, before you say how it will run.";
            return (format!("A guess: {grade}"), Some(words.to_owned()));
        }
        Drive::Ends => {
            let words = "No place was read in the middle third of the shaft: a bow there would not be seen. Read one there before you say how it will run.";
            return (format!("Not all of it: {grade}"), Some(words.to_owned()));
        }
    };
    (format!("{what}: {grade}"), None)
}

/// Where a weight goes, or the two that do its work.
fn placed(there: &There, display: LengthDisplay, job: &Job) -> String {
    let far = show_length(there.distance, display);
    let mut words = match &there.split {
        Some([one, other]) => format!(
            "Instead of {}: {} and {}, {far} from {}.",
            around(there.clock, there.around),
            piece(one, display),
            piece(other, display),
            far_datum(job)
        ),
        None => {
            format!("Put it at {}, {far} from {}.", around(there.clock, there.around), far_datum(job))
        }
    };
    if let Some(inside) = there.inside_weld {
        words.push_str(&format!(
            " No place was named for it: {} inside the weld.",
            show_length(inside, display)
        ));
    }
    if let Some(thick) = there.thick {
        words.push_str(&format!(" It was {} thick.", plain(thick, display)));
    }
    words.push_str(&of_strip(there.cut, there.split.is_some(), display));
    words.push_str(&by_eye(there.by_eye));
    words
}

/// A place on the clock with its ±.
pub(super) fn around(clock: Angle, doubt: Option<Angle>) -> String {
    let doubt = doubt.map_or(String::new(), |doubt| format!(" ± {}", show_angle(doubt, 0)));
    format!("{}{doubt}", show_clock(clock))
}

/// The strip for a weight that is one.
pub(super) fn of_strip(cut: Cut, split: bool, display: LengthDisplay) -> String {
    match cut {
        Cut::Long(length) if !split => format!(" Of your strip: {}.", show_length(length, display)),
        Cut::TooThin => " Your strip is too light for it: take a thicker or wider one.".to_owned(),
        Cut::Long(_) | Cut::NotAsked => String::new(),
    }
}

/// What the mechanic must look at, where nobody said where the ears are.
pub(super) fn by_eye(keep: Option<Angle>) -> String {
    keep.map_or(String::new(), |keep| {
        format!(" The ears were not given: keep {} off them by eye.", show_angle(keep, 0))
    })
}

/// One of two beside a place that is forbidden.
pub(super) fn piece(piece: &Piece, display: LengthDisplay) -> String {
    let strip = match piece.cut {
        Cut::Long(length) => format!(", {} of your strip,", show_length(length, display)),
        Cut::TooThin | Cut::NotAsked => String::new(),
    };
    format!("{}{strip} at {}", show_mass(piece.mass), show_clock(piece.clock))
}

fn plain(length: Length, display: LengthDisplay) -> String {
    amount(Amount::PlainLength(length), display)
}

/// Why a weight, or what is out of balance, is not good.
pub(super) fn weight_reason(reason: WeightReason, display: LengthDisplay) -> String {
    let beside = |split: bool| {
        if split {
            "The two named beside it do the same."
        } else {
            "No two beside it do the same: choose another rule."
        }
    };
    match reason {
        WeightReason::OnTheSeam { keep, split } => format!(
            "On the tube's seam: keep it {} clear of it. {}",
            show_angle(keep, 0),
            beside(split)
        ),
        WeightReason::OnTheEars { keep, split } => format!(
            "In line with the yoke's ears, where its heat can draw the bores: keep it {} clear. {}",
            show_angle(keep, 0),
            beside(split)
        ),
        WeightReason::OnAWeight { split } => {
            format!("On a weight that is there already. {}", beside(split))
        }
        WeightReason::TouchesAnother { both: Some(both) } => format!(
            "It would touch another weight that goes back. Make one of both: {}, as far along.",
            piece(&both, display)
        ),
        WeightReason::TouchesAnother { both: None } => {
            "It would touch another weight that goes back, and one of both would not stand clear: make those of an end one.".to_owned()
        }
        WeightReason::TrueItFirst => {
            "True says stop: mend that first. Weights would only hide a crooked tube.".to_owned()
        }
        WeightReason::OffTheTube => {
            "It would lie on a yoke, or reach over the weld: weights go on the tube. Check its distance, or choose another rule.".to_owned()
        }
        WeightReason::TubeHeavier { tube } => format!(
            "The tube alone comes to {}, more than the whole shaft as it was weighed: check its mass, and the tube's sizes.",
            show_mass(tube)
        ),
        WeightReason::NoTubeLeft => {
            "No tube is left between the welds: check the weld lines.".to_owned()
        }
        WeightReason::NotRigid { share } => format!(
            "Over {} of its whirl speed it bows as it turns, and these figures no longer say how it runs: not judged here.",
            show_number(share, 2)
        ),
        WeightReason::OtherAxis => {
            "In this set-up the shaft does not turn about its joints, and these places do not say how it would. Read it on its own joints, or at more places.".to_owned()
        }
        WeightReason::AfterWelding => {
            "Not inside the limit so far. Welding moves the tube a few thousandths: true it as it is tacked; judged by a turn taken after welding.".to_owned()
        }
        WeightReason::GrowsPastSixteen => {
            "Inside G 16 as it was read; but a crooked tube bows further as it turns, and at top speed it may be past G 16.".to_owned()
        }
        WeightReason::OverSixteen => {
            "Over G 16, inside G 40: good enough for a car, not smooth. True it further if you can.".to_owned()
        }
        WeightReason::NearSixteen => {
            "Inside G 16, and within its ± of it: read more places, or more marks.".to_owned()
        }
        WeightReason::OverForty => {
            "Over G 40, the most for a car's drive shaft: true it further, or have it balanced.".to_owned()
        }
        WeightReason::NearForty => {
            "Inside G 40, and within its ± of it: read more places, or true it further.".to_owned()
        }
    }
}
