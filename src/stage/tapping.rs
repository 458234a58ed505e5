//! Tapping: the one thing to do next, and what the last passes teach about it.

use super::along::worse_at;
use super::amount::Amount;
use super::at_weld::{AtWeld, at_weld, opens, order_of_welding, weld_pull};
use super::dial::{Turn, turn};
use super::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use super::judged::{circle_step, may_say_where, offset_doubt, offset_verdict, vector_step};
use crate::job::{Job, TubeMaterial};
use crate::mechanics::across::Across;
use crate::mechanics::aim::{Aim, Found, aim, next};
use crate::mechanics::centreline::Cause;
use crate::mechanics::uncertainty::{Spread, combined};
use crate::quantity::{Angle, Base, Length};

/// Past this many times the limit, heat is no cure for a weld. Our own choice.
const CUT_OFF_TIMES: f64 = 3.0;
/// After this many passes of heat without a gain, it does no more. Our own choice.
const HEAT_PASSES: usize = 2;

/// What is known before a turn is read: it follows when the hand pauses.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Earlier {
    /// The passes before this one at a place that were taken in the same state of the shaft, with nothing
    /// but taps or heat between them, oldest first.
    pub passes: Vec<Found>,
    /// What they teach.
    aim: Option<Aim>,
    /// What the places along the tube say of the new weld.
    pub weld: Option<AtWeld>,
    /// Another place along the tube at which the shaft must be stopped for.
    pub worse_at: Option<usize>,
}

impl Earlier {
    /// What holds the tube off at the place of a turn, where no tap at the new weld mends it: the weld is
    /// straight, or its kink is high on the other side.
    fn elsewhere(&self, turn: &Turn) -> Option<Cause> {
        match self.weld? {
            AtWeld::Straight(cause) => Some(cause),
            AtWeld::Kink { here, beside, .. } => {
                beside.filter(|_| are_opposed(here, turn.run_out.offset))
            }
            AtWeld::Open | AtWeld::Step => None,
        }
    }
}

fn are_opposed(one: Across<Length>, other: Across<Length>) -> bool {
    one.up.base() * other.up.base() + one.right.base() * other.right.base() < 0.0
}

fn found(turn: &Turn) -> Found {
    let run_out = &turn.run_out;
    let spread = Spread { standard: run_out.offset_standard, freedom: run_out.scatter.freedom };
    Found { offset: run_out.offset, spread }
}

/// What the passes before this one, and the other places of this one, say before its turn is read.
pub fn earlier(job: &Job, pass: usize, place: usize) -> Earlier {
    let passes = &job.truing.passes;
    let Some(kind) = passes.get(pass).map(|pass| pass.kind) else { return Earlier::default() };
    // A pass of another kind that was begun by mistake and never read ends nothing.
    let other = |earlier: &usize| {
        passes.get(*earlier).is_none_or(|earlier| earlier.kind != kind && !earlier.is_blank())
    };
    let first = (0..pass).rev().find(other).map_or(0, |last| last + 1);
    let readable = |earlier: usize| turn(job, earlier, place).ok().filter(may_say_where);
    let passes: Vec<Found> = (first..pass).filter_map(readable).map(|turn| found(&turn)).collect();
    Earlier {
        aim: aim(&passes),
        passes,
        weld: at_weld(job, pass, place),
        worse_at: worse_at(job, pass, place),
    }
}

/// Where to tap, on the clock; `None` where it cannot be told, or where no tap mends it.
pub fn tap_at(earlier: &Earlier, turn: &Turn) -> Option<Angle> {
    let seen = turn.run_out.offset_is_seen() && !turn.welded() && earlier.elsewhere(turn).is_none();
    aimed(earlier, turn).filter(|_| seen).map(|aim| (-aim.ask).at())
}

/// What to ask of the next tap; `None` where a turn cannot say which way.
fn aimed(earlier: &Earlier, turn: &Turn) -> Option<Aim> {
    may_say_where(turn).then(|| next(earlier.aim, found(turn)))
}

/// The one instruction: move the tube so far, or leave it alone. Judged by the offset it would mend.
pub(super) fn correction(
    job: &Job,
    earlier: &Earlier,
    turn: &Turn,
    limit: Length,
    source: Source,
) -> Finding {
    let (size, at) = (turn.run_out.offset.size(), turn.run_out.offset.at());
    let steel = job.tube.material == TubeMaterial::Steel;
    let verdict = match offset_verdict(turn, limit) {
        // No heat on aluminium, so nothing that heat could do any more.
        Verdict::Stop(Reason::WeldedOffset { limit }) if steel => {
            Verdict::Stop(past_heat(&earlier.passes, turn, limit))
        }
        // One place must not look good where another is not.
        Verdict::Good | Verdict::Watch(_) if earlier.worse_at.is_some() => {
            let place = earlier.worse_at.unwrap_or(0);
            Verdict::Watch(Reason::WorseAt { place })
        }
        verdict => verdict,
    };
    let mend = |aim: Aim| match (verdict, earlier.elsewhere(turn)) {
        (_, Some(cause)) if !turn.welded() => {
            let kink = match earlier.weld {
                Some(AtWeld::Kink { size, .. }) => Some(size.at()),
                _ => None,
            };
            Sense::NotHere { at, cause, kink }
        }
        _ if !turn.welded() => {
            let may_stay = verdict == Verdict::Good;
            Sense::Tap { at: (-aim.ask).at(), by: aim.ask.size(), answered: aim.answered, may_stay }
        }
        (Verdict::Stop(Reason::WeldedOffset { .. }), _) if steel => Sense::HeatAt(at),
        (Verdict::Stop(Reason::WeldedOffset { .. }), _) => Sense::LeaveToShop(at),
        // Inside the limit nothing is heated, and past heat neither: only where it is high.
        (Verdict::Good, _) => Sense::LeaveWelded(at),
        _ => Sense::At(at),
    };
    let sense = match (turn.run_out.offset_is_seen(), aimed(earlier, turn)) {
        (_, None) => None,
        (true, Some(aim)) => Some(mend(aim)),
        // Readings so rough that they hide an offset over the limit do not say that there is none.
        (false, _) if matches!(verdict, Verdict::Watch(Reason::OffsetNotSeen) | Verdict::Stop(_)) => {
            None
        }
        (false, _) => Some(Sense::LeaveAlone),
    };
    let value = Value {
        amount: Amount::FineLength(size),
        plus_minus: Some(Amount::FineLength(offset_doubt(turn))),
        sense,
    };
    circle_step(turn, Finding::known(Name::Correction, value, verdict))
        .within(Amount::FineLength(limit), source)
        .from(&[Source::LeastSquaresCircle])
}

/// Why a welded offset is over the limit: whether heat may still mend it.
fn past_heat(before: &[Found], turn: &Turn, limit: Length) -> Reason {
    let now = turn.run_out.offset.size();
    // The first welded pass is the weld's own; those after it are heat's.
    let earlier = before.len().checked_sub(HEAT_PASSES).and_then(|back| before.get(back));
    if now.base() * 2.0 > CUT_OFF_TIMES * limit.base() {
        Reason::CutItOff { times: CUT_OFF_TIMES }
    } else if earlier.is_some_and(|earlier| now.base() >= earlier.offset.size().base()) {
        Reason::HeatDoesNoMore
    } else {
        Reason::WeldedOffset { limit }
    }
}

/// What goes with the instruction.
pub(super) fn findings(
    job: &Job,
    pass: usize,
    place: usize,
    earlier: &Earlier,
    turn: &Turn,
    limit: Length,
) -> Vec<Finding> {
    let mut all = Vec::new();
    all.extend(opens(job, place, earlier.weld, turn));
    all.extend(last_move(earlier, turn));
    all.extend(order_of_welding(job, place, earlier.weld, turn, limit));
    all.extend(weld_pull(job, pass, place));
    all
}

/// What the tube did since the pass before.
fn last_move(earlier: &Earlier, turn: &Turn) -> Option<Finding> {
    let last = earlier.passes.last()?;
    let aim = aimed(earlier, turn)?;
    let step = turn.run_out.offset - last.offset;
    let doubt = combined(&[last.spread, found(turn).spread]).expanded();
    let sense = match aim.moved {
        None => Sense::LeaveAlone,
        // How far heat moves it nobody asked.
        Some(moved) if turn.welded() => {
            Sense::Moved { toward: moved.at(), answered: None, elsewhere: false }
        }
        Some(moved) => {
            Sense::Moved { toward: moved.at(), answered: aim.answered, elsewhere: aim.elsewhere }
        }
    };
    let fine = Amount::FineLength;
    let value = Value { amount: fine(step.size()), plus_minus: Some(fine(doubt)), sense: Some(sense) };
    let finding = Finding::known(Name::LastMove, value, Verdict::Figure);
    Some(
        vector_step(finding, Law::LastMove, turn.run_out.offset, last.offset).from(&[Source::Influence]),
    )
}
