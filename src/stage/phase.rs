//! Phase: how far and which way to turn the yoke before it is tacked.

use super::amount::Amount;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use crate::job::{BEFORE_TACKING, End, Entry, Job, LevelDivision, PhaseMethod, Side};
use crate::mechanics::phase::{arc, from_levels, from_lift};
use crate::mechanics::uncertainty::{Measured, combined, of_division, rectangular, swing};
use crate::quantity::{Angle, Base, Length, as_degrees, degrees, millimetres};

/// How well a gap under an ear is known with feelers on a bench that is not a surface plate, ±.
/// Our own choice.
fn lift_doubt() -> Length {
    millimetres(0.05)
}

/// How well the span between two ears is known, ±. Our own choice.
fn span_doubt() -> Length {
    millimetres(0.8)
}

/// Yokes parallel within 1° (US Army TM 5-4210-230-14&P-1): what an empty job begins with.
const PUBLISHED_LIMIT_DEGREES: f64 = 1.0;

/// The distance between the lines of the level in use.
fn level_division(job: &Job) -> Angle {
    degrees(match job.phase.level_division {
        LevelDivision::Twentieth => 0.05,
        LevelDivision::Tenth => 0.1,
        LevelDivision::Fifth => 0.2,
        LevelDivision::Quarter => 0.25,
        LevelDivision::Whole => 1.0,
    })
}

/// The turn of the rear yoke against the front one, clockwise seen from the rear.
///
/// # Errors
/// The fields that are needed.
pub fn turn(job: &Job) -> Result<Measured<Angle>, Vec<Need>> {
    let mut fields = Fields::of(job);
    let found = match job.phase.method {
        PhaseMethod::Levels => levels(job, &mut fields),
        PhaseMethod::Bench | PhaseMethod::BothLifts | PhaseMethod::Lines => bench(job, &mut fields),
    };
    found.ok_or_else(|| fields.needs())
}

/// The turn that the shaft has, as far as is known.
///
/// # Errors
/// The fields that are needed.
pub fn in_force(job: &Job) -> Result<Measured<Angle>, Vec<Need>> {
    turn(job)
}

fn levels(job: &Job, fields: &mut Fields) -> Option<Measured<Angle>> {
    let (front, rear) = (
        fields.angle(Entry::FrontLevel(BEFORE_TACKING, 0)),
        fields.angle(Entry::RearLevel(BEFORE_TACKING, 0)),
    );
    let each = of_division(level_division(job));
    Some(Measured { best: from_levels(front?, rear?), spread: combined(&[each, each]) })
}

fn bench(job: &Job, fields: &mut Fields) -> Option<Measured<Angle>> {
    let (lift, span) = (fields.length(Entry::Lift(BEFORE_TACKING, 0)), fields.length(Entry::Span));
    let (lift, span) = (lift?, span?);
    let size = from_lift(lift, span).ok()?;
    let (dl, ds) = (rectangular(lift_doubt()).standard, rectangular(span_doubt()).standard);
    let part = |up: Option<Angle>, down: Option<Angle>| {
        swing(up.unwrap_or(size), down.unwrap_or(size), f64::INFINITY)
    };
    let spread = combined(&[
        part(from_lift(lift + dl, span).ok(), from_lift(lift - dl, span).ok()),
        part(from_lift(lift, span + ds).ok(), from_lift(lift, span - ds).ok()),
    ]);
    // A gap under the right-hand ear means that this ear stands high: seen from the rear the yoke is
    // turned counter-clockwise.
    let best = match job.phase.sittings[BEFORE_TACKING].lifted {
        Side::Right => -size,
        Side::Left => size,
    };
    Some(Measured { best, spread })
}

/// Which way the yoke at the cut end must go to undo a turn of the rear yoke against the front one.
fn undo(job: &Job, turn: Angle) -> Sense {
    let rear_is_clockwise = turn.base() > 0.0;
    match (job.cut.end, rear_is_clockwise) {
        (End::Rear, true) | (End::Front, false) => Sense::TurnCounterclockwise,
        (End::Rear, false) | (End::Front, true) => Sense::TurnClockwise,
    }
}

/// What follows for phase.
pub fn findings(job: &Job) -> Vec<Finding> {
    vec![error_finding(job), arc_finding(job), super::angles::cost_of_phase(job, degrees(0.0))]
}

fn error_finding(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let limit = fields.angle(Entry::PhaseLimit);
    let turn = fields.sum(turn(job));
    let (Some(limit), Some(turn)) = (limit, turn) else {
        return Finding::missing(Name::PhaseError, fields.needs());
    };
    let (size, doubt) = (turn.best.base().abs(), turn.spread.expanded());
    let verdict = if size > limit.base() {
        Verdict::Stop(Reason::OutOfPhase { allowed: limit })
    } else if size + doubt.base() > limit.base() {
        Verdict::Watch(Reason::PhaseWithinDoubt { allowed: limit })
    } else {
        Verdict::Good
    };
    let sense = if size <= doubt.base() { Sense::LeaveAlone } else { undo(job, turn.best) };
    let value = Value {
        amount: Amount::Angle(Angle::from_base(size)),
        plus_minus: Some(Amount::Angle(doubt)),
        sense: Some(sense),
    };
    // Another figure than the manual's is the mechanic's own, and must not borrow its name.
    let published = (as_degrees(limit) - PUBLISHED_LIMIT_DEGREES).abs() < 1e-6;
    let source = if published { Source::ArmyDriveline } else { Source::OwnLimit };
    let finding = Finding::known(Name::PhaseError, value, verdict)
        .within(Amount::Angle(limit), source)
        .from(&[Source::Geometry, Source::Gum]);
    let finding = match job.phase.method {
        PhaseMethod::Levels => finding,
        PhaseMethod::Bench | PhaseMethod::BothLifts | PhaseMethod::Lines => {
            finding.from(&[Source::DoubtOfBench])
        }
    };
    working(job, finding, turn.best)
}

fn working(job: &Job, finding: Finding, turn: Angle) -> Finding {
    let mut fields = Fields::of(job);
    match job.phase.method {
        PhaseMethod::Levels => match (
            fields.angle(Entry::RearLevel(BEFORE_TACKING, 0)),
            fields.angle(Entry::FrontLevel(BEFORE_TACKING, 0)),
        ) {
            (Some(rear), Some(front)) => finding.step(
                Law::LevelDifference,
                &[Amount::Angle(rear), Amount::Angle(front)],
                Amount::Angle(turn),
            ),
            _ => finding,
        },
        PhaseMethod::Bench | PhaseMethod::BothLifts | PhaseMethod::Lines => {
            match (fields.length(Entry::Lift(BEFORE_TACKING, 0)), fields.length(Entry::Span)) {
                (Some(lift), Some(span)) => finding.step(
                    Law::LiftAngle,
                    &[Amount::FineLength(lift), Amount::PlainLength(span)],
                    Amount::Angle(turn),
                ),
                _ => finding,
            }
        }
    }
}

fn arc_finding(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let diameter = fields.length(Entry::TubeDiameter);
    let turn = fields.sum(turn(job));
    let (Some(diameter), Some(turn)) = (diameter, turn) else {
        return Finding::missing(Name::PhaseArc, fields.needs());
    };
    let size = Angle::from_base(turn.best.base().abs());
    let doubt = turn.spread.expanded();
    let sense = if size.base() <= doubt.base() { Sense::LeaveAlone } else { undo(job, turn.best) };
    let value = Value {
        amount: Amount::Length(arc(diameter, size)),
        plus_minus: Some(Amount::PlainLength(arc(diameter, doubt))),
        sense: Some(sense),
    };
    Finding::known(Name::PhaseArc, value, Verdict::Figure)
        .step(
            Law::ArcOnTube,
            &[Amount::PlainLength(diameter), Amount::Angle(size)],
            Amount::PlainLength(arc(diameter, size)),
        )
        .from(&[Source::Geometry])
}
