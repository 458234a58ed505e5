//! Tapping: the one thing to do next, and what the last passes teach about it.

use super::amount::Amount;
use super::bent::{elsewhere_bent, place_along, shaft};
use super::dial::{Turn, turn};
use super::field::Fields;
use super::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use super::truing::{circle_step, may_say_where, offset_doubt, offset_verdict};
use crate::job::{Entry, Job, Material, PassKind, SetUp};
use crate::mechanics::across::Across;
use crate::mechanics::aim::{Aim, Found, aim};
use crate::mechanics::centreline::{Cause, opening};
use crate::mechanics::runout::RunOut;
use crate::mechanics::uncertainty::{Spread, combined};
use crate::quantity::{Angle, Base, Length, degrees};

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
    /// What bends the shaft, where it is sure that it is nothing at the new weld.
    pub not_here: Option<Cause>,
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
    let other = |earlier: &usize| passes.get(*earlier).is_none_or(|earlier| earlier.kind != kind);
    let first = (0..pass).rev().find(other).map_or(0, |last| last + 1);
    let readable = |earlier: usize| turn(job, earlier, place).ok().filter(may_say_where);
    Earlier {
        passes: (first..pass).filter_map(|earlier| readable(earlier).map(|turn| found(&turn))).collect(),
        not_here: elsewhere_bent(job, pass),
    }
}

/// Where to tap, on the clock; `None` where it cannot be told, or where no tap mends it.
pub fn tap_at(earlier: &Earlier, turn: &Turn) -> Option<Angle> {
    let seen = turn.run_out.offset_is_seen() && !turn.welded() && earlier.not_here.is_none();
    aimed(&earlier.passes, turn).filter(|_| seen).map(|aim| (-aim.ask).at())
}

/// What to ask of the next tap; `None` where a turn cannot say which way.
fn aimed(before: &[Found], turn: &Turn) -> Option<Aim> {
    let mut passes = before.to_vec();
    passes.push(found(turn));
    aim(&passes).filter(|_| may_say_where(turn))
}

/// The one instruction: move the tube so far, or leave it alone. Judged by the offset it would mend.
pub(super) fn correction(
    job: &Job,
    earlier: &Earlier,
    turn: &Turn,
    limit: Length,
    source: Source,
) -> Finding {
    let before = &earlier.passes;
    let (size, at) = (turn.run_out.offset.size(), turn.run_out.offset.at());
    let steel = job.tube.material == Material::Steel;
    let verdict = match offset_verdict(turn, limit) {
        // No heat on aluminium, so nothing that heat could do any more.
        Verdict::Stop(Reason::WeldedOffset { limit }) if steel => {
            Verdict::Stop(past_heat(before, turn, limit))
        }
        verdict => verdict,
    };
    let mend = |aim: Aim| match (verdict, earlier.not_here) {
        (_, Some(cause)) if !turn.welded() => Sense::NotHere { at, cause },
        _ if !turn.welded() => {
            Sense::Tap { at: (-aim.ask).at(), by: aim.ask.size(), answered: aim.answered }
        }
        (Verdict::Stop(Reason::WeldedOffset { .. }), _) if steel => Sense::HeatAt(at),
        (Verdict::Stop(Reason::WeldedOffset { .. }), _) => Sense::LeaveToShop(at),
        // Inside the limit nothing is heated, and past heat neither: only where it is high.
        (Verdict::Good, _) => Sense::LeaveWelded(at),
        _ => Sense::At(at),
    };
    let sense = match (turn.run_out.offset_is_seen(), aimed(before, turn)) {
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
) -> Vec<Finding> {
    let mut all = Vec::new();
    // What no tap mends has no joint to open for it.
    if earlier.not_here.is_none() {
        all.extend(opens(job, place, turn));
    }
    all.extend(last_move(&earlier.passes, turn));
    all.extend(order_of_welding(turn));
    all.extend(weld_pull(job, pass, place, turn));
    all
}

/// How much the joint opens at the rim while the tube is moved. Told where the place of the dial is typed:
/// without it nothing can be said, and it is asked for at its field.
fn opens(job: &Job, place: usize, turn: &Turn) -> Option<Finding> {
    let typed = job.typed(Entry::PlaceAlong(place)).is_some_and(|typed| !typed.is_blank());
    // In vees and on centres the shaft is not read about its joints, which is what the rule is for.
    let about_joints = matches!(job.truing.set_up, SetUp::Joints | SetUp::Gearbox);
    let seen = turn.run_out.offset_is_seen() && !turn.welded();
    if !(typed && about_joints && seen && may_say_where(turn)) {
        return None;
    }
    let mut fields = Fields::of(job);
    let (shaft, along) = (fields.sum(shaft(job)), fields.sum(place_along(job, place)));
    let diameter = fields.length(Entry::TubeDiameter);
    let (Some(shaft), Some(along), Some(diameter)) = (shaft, along, diameter) else {
        // A help, and no more: the stage does not wait for it.
        return Some(Finding {
            verdict: Verdict::Figure,
            ..Finding::missing(Name::JointOpens, fields.needs())
        });
    };
    let offset = turn.run_out.offset.size();
    let of = |length: Length| opening(length, along, &shaft, diameter);
    let (Some(opens), Some(doubt)) = (of(offset), of(offset_doubt(turn))) else {
        return Some(Finding {
            verdict: Verdict::Figure,
            ..Finding::impossible(Name::JointOpens, Reason::OffTheShaft)
        });
    };
    let fine = Amount::FineLength;
    let value = Value {
        amount: fine(opens),
        plus_minus: Some(fine(doubt)),
        // However the taps are aimed, a straight joint is open no more on the low side than on the high.
        sense: Some(Sense::OpenAt((-turn.run_out.offset).at())),
    };
    let plain = Amount::PlainLength;
    Some(
        Finding::known(Name::JointOpens, value, Verdict::Figure)
            .step(
                Law::JointOpens,
                &[plain(diameter), fine(offset), plain(shaft.length), plain(along), plain(shaft.weld)],
                fine(opens),
            )
            .from(&[Source::Geometry]),
    )
}

/// What the tube did since the pass before.
fn last_move(before: &[Found], turn: &Turn) -> Option<Finding> {
    let last = before.last()?;
    let aim = aimed(before, turn)?;
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

/// From which side to tack, and to weld.
fn order_of_welding(turn: &Turn) -> Option<Finding> {
    let name = match turn.kind {
        PassKind::AsFitted => Name::TackFrom,
        PassKind::Tacked => Name::WeldFrom,
        PassKind::Welded => return None,
    };
    if !may_say_where(turn) {
        return None;
    }
    let seen = turn.run_out.offset_is_seen();
    let from = if seen { turn.run_out.offset.at() } else { degrees(0.0) };
    let value = Value {
        amount: Amount::Clock(from),
        plus_minus: None,
        sense: Some(Sense::InThisOrder { from, any: !seen }),
    };
    Some(Finding::known(name, value, Verdict::Figure).from(&[Source::CommonPractice]))
}

/// How far the weld pulled: the latest tacked turn against this one, if this one is after welding.
fn weld_pull(job: &Job, pass: usize, place: usize, after: &Turn) -> Option<Finding> {
    if !after.welded() {
        return None;
    }
    let earlier = job.truing.passes.iter().enumerate().take(pass).rev();
    let tacked = earlier.filter(|(_, earlier)| earlier.kind == PassKind::Tacked);
    let before = tacked.into_iter().find_map(|(i, _)| turn(job, i, place).ok())?;
    let (from, to) = (before.run_out.offset, after.run_out.offset);
    let pull: Across<Length> = to - from;
    let both = |of: fn(&RunOut) -> Length| of(&before.run_out).base().hypot(of(&after.run_out).base());
    // The same rule as for one offset: seen over three times its standard uncertainty, else the circle.
    let seen = pull.size().base() > 3.0 * both(|run_out| run_out.offset_standard);
    let doubt =
        both(if seen { |run_out| run_out.offset_plus_minus } else { |run_out| run_out.offset_circle });
    let value = Value {
        amount: Amount::FineLength(pull.size()),
        plus_minus: Some(Amount::FineLength(Length::from_base(doubt))),
        sense: (may_say_where(&before) && may_say_where(after)).then_some(if seen {
            Sense::At(pull.at())
        } else {
            Sense::LeaveAlone
        }),
    };
    let finding = Finding::known(Name::WeldPull, value, Verdict::Figure);
    Some(vector_step(finding, Law::PullVector, to, from).from(&[Source::LeastSquaresCircle]))
}

/// The working of a difference of two offsets.
fn vector_step(finding: Finding, law: Law, to: Across<Length>, from: Across<Length>) -> Finding {
    let fine = Amount::FineLength;
    let put_in = [fine(to.size()), Amount::Clock(to.at()), fine(from.size()), Amount::Clock(from.at())];
    finding.step(law, &put_in, fine((to - from).size()))
}
