//! What the dial's findings say: where to tap, what moved, what bends the shaft.

use super::amount::{amount, opposite};
use super::label::far_joint;
use crate::job::{Entry, Job, Plunger};
use crate::quantity::{Angle, Base, as_degrees, degrees, show_angle, show_clock, show_number};
use crate::stage::{Amount, Answered, AsideBy, BentBy, Cause, Sense, TackSide, read};

/// A turn to the side under this is not worth a word: no hand taps finer.
const WORTH_SAYING_DEGREES: f64 = 5.0;

/// The value and what goes with it.
pub(super) fn worded_truing(number: String, sense: Sense, job: &Job) -> (String, Option<String>) {
    let words = match sense {
        Sense::Tap { at, by, answered, may_stay } => {
            let less = match job.truing.plunger {
                Plunger::InIsPlus => "less",
                Plunger::InIsMinus => "more",
            };
            let by = amount(Amount::FineLength(by), job.display.lengths());
            let begin = if may_stay { "To better it: turn" } else { "Turn" };
            let let_go = match answered {
                None => "Let go and read the turn again.".to_owned(),
                Some(answered) => {
                    format!("Then let go: so far it kept {}, which is allowed for.", share(answered))
                }
            };
            format!(
                "{begin} the witness mark to the top, then tap at {} toward {}, seen from the rear, until a dial that stands there reads {by} {less}; a dial that is fixed has that place turned under it. {let_go}",
                show_clock(at),
                show_clock(opposite(at)),
            )
        }
        Sense::FitsLeast(at) => {
            format!("The reading at {} fits least: read that mark again first.", show_clock(at))
        }
        Sense::NotHere { at, cause, kink: Some(kink) } => format!(
            "High at {}, seen from the rear. Do not tap it there: that is {}. The kink at the new weld is high at {}: {}",
            show_clock(at),
            cause_word(cause),
            show_clock(kink),
            "open the joint on the side opposite."
        ),
        Sense::NotHere { at, cause, kink: None } => format!(
            "High at {}, seen from the rear. Do not tap at the new weld: the places along the tube say that it is {}. {}",
            show_clock(at),
            cause_word(cause),
            mend(cause)
        ),
        Sense::Moved { toward, answered, elsewhere } => match answered {
            _ if elsewhere => format!(
                "Toward {}: not where, or not as far as was asked, so nothing is learned from it. Clock read from the rear? Witness mark at the top?",
                show_clock(toward)
            ),
            Some(answered) => format!("Toward {}: {}.", show_clock(toward), share(answered)),
            None => format!("Toward {}.", show_clock(toward)),
        },
        Sense::OpenAt(at) => format!(
            "At {}, seen from the rear, where the tube stands low between its joints: it moves toward the side that opens.",
            show_clock(at)
        ),
        Sense::InThisOrder { side: TackSide::Any, .. } => {
            let words = "No side is to be drawn in. Opposite quarters in turn, and read the dial again after each pair.";
            return ("Any side".to_owned(), Some(words.to_owned()));
        }
        Sense::InThisOrder { from, side } => format!(
            "The high side{}: what shrinks there draws it in. Then opposite at {}, then {} and {}; read the dial again after each pair.",
            if side == TackSide::Kink { " of the kink" } else { "" },
            show_clock(opposite(from)),
            show_clock(from + degrees(90.0)),
            show_clock(from + degrees(270.0))
        ),
        Sense::SetAside { at, out, count, by } => set_aside(at, out, count, by),
        Sense::TakenOut => "Spread over the turn and taken out.".to_owned(),
        Sense::AtPlace(place) => at_place(job, place),
        Sense::Bent(by) => return bent(number, by, job),
        _ => return (number, None),
    };
    (number, Some(words))
}

/// How the tube answered, as a share and a turn.
fn share(answered: Answered) -> String {
    let aside = as_degrees(answered.turned);
    let way = if aside > 0.0 { "clockwise" } else { "counter-clockwise" };
    let turn = if aside.abs() > WORTH_SAYING_DEGREES {
        format!(", {} {way} of it", show_angle(Angle::from_base(answered.turned.base().abs()), 0))
    } else {
        String::new()
    };
    format!("{} of what was asked{turn}", show_number(answered.share, 1))
}

fn set_aside(at: Angle, out: bool, count: usize, by: AsideBy) -> String {
    let more = if count > 1 { format!(", the most of {count} readings") } else { String::new() };
    match by {
        AsideBy::Mark => {
            format!("At {}{more}: set aside by you, or on the seam. It does not count.", show_clock(at))
        }
        AsideBy::StoodOut => format!(
            "At {} it {}{more}, by more than luck: a seam or a dent. It does not count. Feel the tube there; a dented tube is scrap.",
            show_clock(at),
            if out { "stands out" } else { "lies in" }
        ),
    }
}

fn at_place(job: &Job, place: usize) -> String {
    match read(job, Entry::PlaceAlong(place)) {
        // As a tape reads it, since that is how it is found again.
        Ok(Some(Amount::PlainLength(along))) => format!(
            "At place {}, {} from the {} joint's centre.",
            place + 1,
            amount(Amount::Length(along), job.display.lengths()),
            far_joint(job)
        ),
        _ => format!("At place {}.", place + 1),
    }
}

/// A cause, as part of a sentence.
const fn cause_word(cause: Cause) -> &'static str {
    match cause {
        Cause::Kink => "a kink at the new weld",
        Cause::Step => "the two pieces side by side at the new weld",
        Cause::Bow => "a bow of the whole tube",
        Cause::FrontYoke => "the front yoke bent or welded off",
        Cause::RearYoke => "the rear yoke bent or welded off",
    }
}

/// What mends it.
const fn mend(cause: Cause) -> &'static str {
    match cause {
        Cause::Kink => "Until it is welded, open the joint on the low side.",
        Cause::Step => "The spigot sits beside the middle: shift one piece sideways, do not tilt it.",
        Cause::Bow => "No tap at the weld mends a bent tube: a straight tube, or a driveline shop.",
        Cause::FrontYoke | Cause::RearYoke => "True it at that yoke's own weld, or change the yoke.",
    }
}

fn bent(number: String, by: BentBy, job: &Job) -> (String, Option<String>) {
    let hidden = hidden(by);
    let Some(cause) = by.cause else {
        let words = format!("Nothing that this dial can see, at these places.{hidden}");
        return ("Straight".to_owned(), Some(words));
    };
    let beside = by.beside.map_or(String::new(), |other| format!(" With it {}.", cause_word(other)));
    let kink = by.kink.map_or(String::new(), |kink| format!(" of {}", show_angle(kink, 2)));
    // A step has no high side: on the front piece the dial stands high opposite.
    let at = if cause == Cause::Step { "the rear one toward" } else { "high at" };
    // Nothing is mended by a guess.
    let mended = if by.other_pairs { String::new() } else { format!(" {}", mend(cause)) };
    let mut words = format!(
        "{}{kink}, {at} {}, seen from the rear.{mended}{beside}",
        cause_word(cause),
        show_clock(by.at)
    );
    capital(&mut words);
    if !by.explains {
        let left = amount(Amount::FineLength(by.left), job.display.lengths());
        words.push_str(&format!(
            " It leaves {left}: something else is there as well, or the tube is not straight in itself."
        ));
    }
    for other in by.others.into_iter().flatten() {
        words.push_str(&format!(" These places cannot tell it from {}.", cause_word(other)));
    }
    if by.other_pairs {
        words.push_str(" Other pairs of causes explain it as well: read more places.");
    }
    words.push_str(&hidden);
    (number, Some(words))
}

/// What these places leave open, since they would not show it.
fn hidden(by: BentBy) -> String {
    let mut words = String::new();
    for (_, cause) in by.hidden.into_iter().zip(Cause::ALL).filter(|(hidden, _)| *hidden) {
        words.push_str(if words.is_empty() {
            " These places in this set-up do not show: "
        } else {
            "; "
        });
        words.push_str(cause_word(cause));
    }
    if !words.is_empty() {
        words.push('.');
    }
    words
}

/// The first letter of a sentence; the words above begin with plain ones.
fn capital(words: &mut str) {
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
}
