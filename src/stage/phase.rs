//! Phase: how far and which way to turn the yoke before it is tacked, and what is left after welding.

use super::amount::Amount;
use super::angles::cost_of_phase;
use super::field::Fields;
use super::field::tube_doubt;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
pub use super::turn::{begun, in_force, off, target, turn};
use super::turn::{off_wanted, wanted};
use super::yokes::{self, Turn};
use crate::job::{AFTER_WELDING, BEFORE_TACKING, End, Entry, Job, PHASE_SITTINGS, PhaseTarget};
use crate::mechanics::phase::{arc, is_a_quarter_turn};
use crate::mechanics::uncertainty::{Measured, Spread, combined, rectangular};
use crate::quantity::{Angle, Base, as_degrees};

/// Yokes parallel within 1° (US Army TM 5-4210-230-14&P-1): what an empty job begins with.
const PUBLISHED_LIMIT_DEGREES: f64 = 1.0;

/// The reading of a list that stands apart from the others, and by how much: said at its field.
pub fn reading_apart(job: &Job, entry: Entry) -> Option<Reason> {
    let lists = yokes::lists(job.phase.method);
    let holds = |sitting: &usize| lists.iter().any(|list| yokes::rows(*list, *sitting).contains(&entry));
    let sitting = (0..PHASE_SITTINGS).find(holds)?;
    match yokes::turn(job, sitting).ok()?.remark? {
        reason @ (Reason::ReadingApart { entry: apart, .. }
        | Reason::AngleApart { entry: apart, .. })
            if apart == entry =>
        {
            Some(reason)
        }
        _ => None,
    }
}

/// What follows for phase.
pub fn findings(job: &Job) -> Vec<Finding> {
    let mut found = of_the_yokes(job);
    // The cost follows the angles, and is shown once the turn that is wanted is known.
    if begun(job, BEFORE_TACKING) || begun(job, AFTER_WELDING) {
        found.extend(wanted(job).ok().and_then(|wanted| cost_of_phase(job, wanted.best)));
    }
    found
}

/// The first of them, without the angles that only the cost is reckoned from.
pub(super) fn first(job: &Job) -> Option<Finding> {
    of_the_yokes(job).into_iter().next()
}

/// What the yokes' own readings say, the answer to act on first.
fn of_the_yokes(job: &Job) -> Vec<Finding> {
    let off = off_wanted(job, BEFORE_TACKING);
    let welded = begun(job, AFTER_WELDING).then(|| off_wanted(job, AFTER_WELDING));
    // Once it is welded, what was read before is what it came from: nothing is judged by it or turned.
    let is_welded = matches!(welded, Some(Ok(_)));
    let after = match &welded {
        Some(off) => welded_finding(job, off),
        None => Finding::later(Name::PhaseWelded, Reason::PhaseNotWelded),
    };
    let mut found = Vec::new();
    if !is_welded || begun(job, BEFORE_TACKING) {
        found.push(error_finding(job, &off, is_welded));
        found.push(arc_finding(job, &off, is_welded));
    }
    found.insert(if is_welded { 0 } else { found.len() }, after);
    if job.phase.target != PhaseTarget::InLine {
        found.push(target_finding(job));
    }
    found
}

/// Which way the yoke at the cut end must go to undo a turn of the rear yoke against the front one.
fn undo(job: &Job, off: Angle) -> Sense {
    let rear_is_clockwise = off.base() > 0.0;
    match (job.cut.end, rear_is_clockwise) {
        (End::Rear, true) | (End::Front, false) => Sense::TurnCounterclockwise,
        (End::Rear, false) | (End::Front, true) => Sense::TurnClockwise,
    }
}

/// Which way, unless the turn is inside its own ±.
fn unless_unseen(off: Measured<Angle>, way: Sense) -> Sense {
    let seen = off.best.base().abs() > off.spread.expanded().base();
    if seen { way } else { Sense::LeaveAlone }
}

/// A turn against the limit. `over` and `near` say what to do about it.
fn judged(off: &Turn, limit: Angle, over: Reason, near: Reason) -> Verdict {
    let Measured { best, spread } = off.measured();
    let (size, doubt) = (best.base().abs(), spread.expanded().base());
    let is_over = size > limit.base();
    match off.remark {
        Some(remark) if is_over => Verdict::Stop(remark),
        _ if is_a_quarter_turn(best) => Verdict::Stop(Reason::QuarterTurn),
        // Inside its own ± nothing says which way to turn, however narrow the limit.
        _ if is_over && size > doubt => Verdict::Stop(over),
        Some(remark) => Verdict::Watch(remark),
        None if size + doubt > limit.base() => Verdict::Watch(near),
        None => Verdict::Good,
    }
}

/// How far off the yokes are at a sitting, with the working and the limit.
fn off_finding(
    job: &Job,
    name: Name,
    off: &Result<Turn, Vec<Need>>,
    judge: impl Fn(&Turn, Angle) -> (Verdict, Option<Sense>),
) -> Finding {
    let mut fields = Fields::of(job);
    let limit = fields.angle(Entry::PhaseLimit);
    let (limit, off) = match (limit, off) {
        (Some(limit), Ok(off)) => (limit, off),
        (_, Ok(_)) => return Finding::missing(name, fields.needs()),
        (_, Err(needs)) => {
            fields.also(needs);
            return Finding::missing(name, fields.needs());
        }
    };
    let Measured { best, spread } = off.measured();
    let (verdict, sense) = judge(off, limit);
    let value = Value {
        amount: Amount::Angle(Angle::from_base(best.base().abs())),
        plus_minus: Some(Amount::Angle(spread.expanded())),
        sense,
    };
    // Another figure than the manual's is the mechanic's own, and must not borrow its name.
    let published = (as_degrees(limit) - PUBLISHED_LIMIT_DEGREES).abs() < 1e-6;
    let source = if published { Source::ArmyDriveline } else { Source::OwnLimit };
    let finding = Finding::known(name, value, verdict);
    worked(finding, off).within(Amount::Angle(limit), source).from(yokes::doubts(job.phase.method))
}

fn worked(finding: Finding, turn: &Turn) -> Finding {
    let finding = finding.from(&[Source::Geometry, Source::Gum]);
    turn.steps.iter().fold(finding, |finding, step| finding.step(step.law, &step.put_in, step.gives))
}

fn error_finding(job: &Job, off: &Result<Turn, Vec<Need>>, is_welded: bool) -> Finding {
    off_finding(job, Name::PhaseError, off, |off, limit| {
        if is_welded {
            return (Verdict::Figure, None);
        }
        let (over, near) =
            (Reason::OutOfPhase { allowed: limit }, Reason::PhaseWithinDoubt { allowed: limit });
        (judged(off, limit, over, near), Some(unless_unseen(off.measured(), undo(job, off.best))))
    })
}

fn welded_finding(job: &Job, off: &Result<Turn, Vec<Need>>) -> Finding {
    off_finding(job, Name::PhaseWelded, off, |off, limit| {
        let (over, near) =
            (Reason::WeldedOutOfPhase { allowed: limit }, Reason::WeldedNearLimit { allowed: limit });
        let way =
            if off.best.base() > 0.0 { Sense::StandsClockwise } else { Sense::StandsCounterclockwise };
        (judged(off, limit, over, near), Some(unless_unseen(off.measured(), way)))
    })
}

fn arc_finding(job: &Job, off: &Result<Turn, Vec<Need>>, is_welded: bool) -> Finding {
    let mut fields = Fields::of(job);
    let diameter = fields.length(Entry::TubeDiameter);
    if let Err(needs) = off {
        fields.also(needs);
    }
    let (Some(diameter), Ok(off)) = (diameter, off) else {
        return Finding::missing(Name::PhaseArc, fields.needs());
    };
    let off = off.measured();
    let size = Angle::from_base(off.best.base().abs());
    // s = D·ψ/2 is a product: each factor's doubt comes in by the other one.
    let by_turn = Spread { standard: arc(diameter, off.spread.standard), freedom: off.spread.freedom };
    let spread = combined(&[by_turn, rectangular(arc(tube_doubt().0, size))]);
    let value = Value {
        amount: Amount::BothUnits(arc(diameter, size)),
        plus_minus: Some(Amount::PlainLength(spread.expanded())),
        sense: (!is_welded).then(|| unless_unseen(off, undo(job, off.best))),
    };
    Finding::known(Name::PhaseArc, value, Verdict::Figure)
        .step(
            Law::ArcOnTube,
            &[Amount::PlainLength(diameter), Amount::Angle(size)],
            Amount::PlainLength(arc(diameter, size)),
        )
        .from(&[Source::Geometry, Source::DoubtOfTube])
}

/// The turn that is wanted, where it is not none.
fn target_finding(job: &Job) -> Finding {
    let wanted = match wanted(job) {
        Ok(wanted) => wanted,
        Err(needs) => return Finding::missing(Name::PhaseTarget, needs),
    };
    let Measured { best, spread } = wanted.measured();
    let as_it_was = job.phase.target == PhaseTarget::AsItWas;
    let plus_minus = as_it_was.then(|| Amount::Angle(spread.expanded()));
    let value = Value { amount: Amount::Angle(best), plus_minus, sense: None };
    let verdict = wanted.remark.map_or(Verdict::Figure, Verdict::Watch);
    let finding = Finding::known(Name::PhaseTarget, value, verdict);
    match as_it_was {
        true => worked(finding, &wanted).from(yokes::doubts(job.phase.method)),
        false => finding,
    }
}
