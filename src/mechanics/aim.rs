//! Aim: what to ask of the next tap, from what the last one did.

use super::across::Across;
use super::uncertainty::{Spread, combined};
use crate::quantity::{Angle, Base, Length};

/// A move that was under this share of what was asked, or over its inverse, says that something else
/// happened than a tap as asked. Our own choice.
const LEAST_SHARE: f64 = 1.0 / 3.0;
/// A move that went off by more than this says the same. Our own choice.
const MOST_TURNED_DEGREES: f64 = 60.0;

/// An offset as one pass found it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// The offset.
    pub offset: Across<Length>,
    /// How well it is known in the worst direction.
    pub spread: Spread<Length>,
}

impl Found {
    /// Whether it stands clear of the dial's noise.
    fn is_seen(self) -> bool {
        is_clear(self.offset, self.spread)
    }
}

/// Whether a vector stands clear of its noise: over three times its standard uncertainty, and over its ±.
fn is_clear(vector: Across<Length>, spread: Spread<Length>) -> bool {
    let size = vector.size().base();
    size > 3.0 * spread.standard.base() && size > spread.expanded().base()
}

/// How the tube answered to a tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answered {
    /// What it moved, as a share of what was asked.
    pub share: f64,
    /// How far to the side it went, clockwise seen from the rear.
    pub turned: Angle,
}

/// What the last pass says about the one before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aim {
    /// The move to ask for now: its size, and the side to move the tube to.
    pub ask: Across<Length>,
    /// How the tube answered so far, where that can be told and is allowed for in `ask`.
    pub answered: Option<Answered>,
    /// What the tube moved since the pass before, where the dial can see it.
    pub moved: Option<Across<Length>>,
    /// It moved, but not as asked: nothing is learned from that.
    pub elsewhere: bool,
    /// What the latest pass found.
    last: Found,
}

/// What to ask of the next tap, from the passes so far, oldest first, with nothing but taps (or heat
/// spots) between them.
///
/// Formula: as complex numbers on the clock, offset oₖ, move asked aₖ: first a = −o; then
/// g = (oₖ − oₖ₋₁)/aₖ₋₁ is how the tube answers and aₖ = −oₖ/g.
/// Symbols: o, a lengths with a place on the clock; g a share and a turn, plain.
/// Range: `None` without a pass. g is learned only where the move stands clear of the dial's noise (over
/// three times its standard uncertainty and over its ±), and where it lies between a third and three times what was
/// asked and within 60° of its way; a move that was seen and lies outside that is said to have gone
/// elsewhere, and the aim begins anew. Where no move was seen, what was learned before stays.
/// Source: the influence of a correction found from its own result, as in trial-weight balancing; the
/// bounds are our own choice. Assumes that each tap was made as asked.
pub fn aim(passes: &[Found]) -> Option<Aim> {
    passes.iter().fold(None, |before, now| Some(next(before, *now)))
}

/// The same, one pass on: what was learned `before` it, and what it found. While a turn is typed the
/// passes before it teach the same.
pub fn next(before: Option<Aim>, now: Found) -> Aim {
    let mut aim = Aim { ask: -now.offset, answered: None, moved: None, elsewhere: false, last: now };
    let Some(before) = before else { return aim };
    let step = now.offset - before.last.offset;
    let seen = is_clear(step, combined(&[now.spread, before.last.spread]));
    aim.moved = seen.then_some(step);
    aim.answered = before.answered;
    // Below the dial's noise there was nothing to ask for, so nothing answered.
    if seen && before.last.is_seen() {
        aim.answered = answer(step, before.ask);
        aim.elsewhere = aim.answered.is_none();
    }
    if let Some(answered) = aim.answered {
        aim.ask = aim.ask.scaled(1.0 / answered.share).turned(-answered.turned);
    }
    aim
}

/// How a move answers to what was asked; `None` where it is something else.
fn answer(step: Across<Length>, ask: Across<Length>) -> Option<Answered> {
    let share = step.size().base() / ask.size().base();
    let turned = (step.at().base() - ask.at().base() + core::f64::consts::PI)
        .rem_euclid(core::f64::consts::TAU)
        - core::f64::consts::PI;
    let as_asked = (LEAST_SHARE..=1.0 / LEAST_SHARE).contains(&share)
        && turned.abs() <= MOST_TURNED_DEGREES.to_radians();
    as_asked.then(|| Answered { share, turned: Angle::from_base(turned) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, as_thousandths, degrees, inches};

    fn found(thousandths: f64, at: f64) -> Found {
        let offset = Across::toward(inches(thousandths / 1000.0), degrees(at));
        Found { offset, spread: Spread { standard: inches(0.0003), freedom: 3.0 } }
    }

    #[test]
    fn the_first_aim_is_straight_across() {
        // By construction: an offset of 8 toward 60° is to be moved by 8 toward 240°.
        let aim = aim(&[found(8.0, 60.0)]).unwrap();
        assert!((as_thousandths(aim.ask.size()) - 8.0).abs() < 1e-9);
        assert!((as_degrees(aim.ask.at()) - 240.0).abs() < 1e-9);
        assert!(aim.answered.is_none() && aim.moved.is_none() && !aim.elsewhere);
        assert!(super::aim(&[]).is_none());
    }

    #[test]
    fn a_tube_that_answers_alike_comes_true_at_the_second_aim() {
        // Law: where every tap moves the tube by the same share, turned by the same angle, the aim
        // learned from the first one takes the offset out wholly.
        for (share, turned) in [(0.5, 0.0), (0.6, 25.0), (1.4, -40.0), (0.35, 59.0), (2.9, -10.0)] {
            let first = found(12.0, 200.0);
            let begun = aim(&[first]).unwrap();
            let second = Found {
                offset: first.offset + begun.ask.scaled(share).turned(degrees(turned)),
                ..first
            };
            let learned = aim(&[first, second]).unwrap();
            let answered = learned.answered.unwrap();
            assert!((answered.share - share).abs() < 1e-9, "{share} {turned}");
            assert!((as_degrees(answered.turned) - turned).abs() < 1e-7, "{share} {turned}");
            let left = second.offset + learned.ask.scaled(share).turned(degrees(turned));
            assert!(as_thousandths(left.size()) < 1e-9, "{share} {turned}");
        }
    }

    #[test]
    fn what_is_learned_counts_from_the_aim_and_not_from_the_offset() {
        // Law: the second tap was asked by twice the offset, so moving by the offset is still half.
        let passes = [found(12.0, 0.0), found(6.0, 0.0), found(0.0, 0.0)];
        let aim = aim(&passes).unwrap();
        assert!((aim.answered.unwrap().share - 0.5).abs() < 1e-9);
    }

    #[test]
    fn what_is_no_answer() {
        // Rules of this house: not moved, moved back, moved far to the side, hardly moved.
        let still = aim(&[found(12.0, 0.0), found(12.0, 1.0)]).unwrap();
        assert!(still.answered.is_none() && still.moved.is_none() && !still.elsewhere);
        for after in [found(20.0, 0.0), found(14.0, 60.0), found(10.5, 0.0)] {
            let aim = aim(&[found(12.0, 0.0), after]).unwrap();
            assert!(aim.answered.is_none() && aim.elsewhere && aim.moved.is_some());
            assert!((as_thousandths((aim.ask + after.offset).size())).abs() < 1e-9);
        }
        // What was learned stays where nothing was moved since.
        let kept = aim(&[found(12.0, 0.0), found(6.0, 0.0), found(6.2, 0.0)]).unwrap();
        assert!((kept.answered.unwrap().share - 0.5).abs() < 1e-9 && kept.moved.is_none());
        assert!((as_thousandths(kept.ask.size()) - 12.4).abs() < 1e-9);
    }

    #[test]
    fn turning_the_clock_turns_the_aim() {
        // Law.
        for by in [30.0, 145.0, 290.0] {
            let passes = [(12.0, 10.0), (7.0, 40.0), (2.0, 350.0)];
            let one = aim(&passes.map(|(size, at)| found(size, at))).unwrap();
            let other = aim(&passes.map(|(size, at)| found(size, at + by))).unwrap();
            let apart = one.ask.turned(degrees(by)) - other.ask;
            assert!(as_thousandths(apart.size()) < 1e-9 && one.elsewhere == other.elsewhere);
        }
    }
}
