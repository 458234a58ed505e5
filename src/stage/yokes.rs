//! The yokes: the readings of one sitting to the turn between them, with what each measurement does
//! to it.

use super::amount::Amount;
use super::field::tube_doubt;
use super::field::{Fields, level_division, read};
use super::finding::{Law, Need, Reason, Source, Step};
use super::length::division;
use super::odd::odd;
use crate::job::{Entry, Job, PHASE_READINGS, PhaseMethod, Side};
use crate::mechanics::phase::{
    Gap, as_one_line, from_levels, from_lift, from_lifts, from_lines, mean_line, off_target,
};
use crate::mechanics::uncertainty::{Measured, Spread, combined, mean_of, rectangular};
use crate::quantity::{Angle, Base, Length, millimetres};

/// How well a gap under an ear is known with feelers on a bench that is not a surface plate, ±.
/// Our own choice.
fn lift_doubt() -> Length {
    millimetres(0.05)
}

/// How well the span between two ears is known, ±. Our own choice.
fn span_doubt() -> Length {
    millimetres(0.8)
}

/// How well a scribed line lies along its yoke, ±. Our own choice.
fn line_doubt() -> Length {
    millimetres(0.25)
}

/// A kind of reading: its field by sitting and place in the list.
pub(super) type List = fn(usize, usize) -> Entry;

/// What is read at a sitting, by the way it is measured.
pub(super) const fn lists(method: PhaseMethod) -> &'static [List] {
    match method {
        PhaseMethod::Levels => &[Entry::FrontLevel, Entry::RearLevel],
        PhaseMethod::Bench => &[Entry::Lift],
        PhaseMethod::BothLifts => &[Entry::FrontLift, Entry::Lift],
        PhaseMethod::Lines => &[Entry::LineArc],
    }
}

pub(super) fn rows(list: List, sitting: usize) -> Vec<Entry> {
    (0..PHASE_READINGS).map(|reading| list(sitting, reading)).collect()
}

/// Whether anything stands in the fields of a sitting, right or wrong.
pub(super) fn begun(job: &Job, sitting: usize) -> bool {
    let filled = |entry: &Entry| !matches!(read(job, *entry), Ok(None));
    lists(job.phase.method).iter().any(|list| rows(*list, sitting).iter().any(filled))
}

/// Where the ± of the way it is measured comes from, beside the instrument's lines.
pub(super) const fn doubts(method: PhaseMethod) -> &'static [Source] {
    match method {
        PhaseMethod::Levels => &[],
        PhaseMethod::Bench | PhaseMethod::BothLifts => &[Source::DoubtOfBench],
        PhaseMethod::Lines => &[Source::DoubtOfLines, Source::DoubtOfTube],
    }
}

/// What one measurement does to a turn as it moves up by its own standard uncertainty. It has a sign:
/// what comes into two turns alike, a span or the tube's diameter, goes out of their difference.
struct Part {
    cause: Entry,
    moves: Angle,
    freedom: f64,
}

/// A turn of the rear yoke against the front one, + clockwise seen from the rear, with its working.
pub(super) struct Turn {
    pub(super) best: Angle,
    parts: Vec<Part>,
    /// What is odd about the readings.
    pub(super) remark: Option<Reason>,
    pub(super) steps: Vec<Step>,
}

impl Turn {
    /// A turn that is wanted, not measured.
    pub(super) fn exact(best: Angle) -> Turn {
        Turn { best, parts: Vec::new(), remark: None, steps: Vec::new() }
    }

    /// The turn with its spread.
    pub(super) fn measured(&self) -> Measured<Angle> {
        let spread = |part: &Part| Spread {
            standard: Angle::from_base(part.moves.base().abs()),
            freedom: part.freedom,
        };
        let spreads: Vec<_> = self.parts.iter().map(spread).collect();
        Measured { best: self.best, spread: combined(&spreads) }
    }

    /// How far this turn is from another, as a line.
    pub(super) fn off(mut self, target: Turn) -> Turn {
        self.best = off_target(self.best, target.best);
        for part in target.parts {
            match self.parts.iter_mut().find(|own| own.cause == part.cause) {
                Some(own) => own.moves -= part.moves,
                None => self.parts.push(Part { moves: -part.moves, ..part }),
            }
        }
        self.remark = self.remark.or(target.remark);
        self.steps.extend(target.steps);
        self
    }

    fn part(&mut self, cause: Entry, moves: Angle, freedom: f64) {
        self.parts.push(Part { cause, moves, freedom });
    }

    pub(super) fn step(&mut self, law: Law, put_in: &[Amount], gives: Amount) {
        self.steps.push(Step { law, put_in: put_in.to_vec(), gives });
    }
}

/// Half the swing of a result as a measurement moves one standard uncertainty up and down.
fn swing(up: Angle, down: Angle) -> Angle {
    (up - down) / 2.0
}

/// The turn that was read at a sitting.
///
/// # Errors
/// The fields that are needed.
pub(super) fn turn(job: &Job, sitting: usize) -> Result<Turn, Vec<Need>> {
    let mut fields = Fields::of(job);
    let mut turn = Turn::exact(Angle::from_base(0.0));
    let best = match job.phase.method {
        PhaseMethod::Levels => levels(job, &mut fields, sitting, &mut turn),
        PhaseMethod::Bench => {
            rear_gap(job, &mut fields, sitting, &mut turn).and_then(|gap| gap.lean().ok())
        }
        PhaseMethod::BothLifts => both_gaps(job, &mut fields, sitting, &mut turn),
        PhaseMethod::Lines => lines(job, &mut fields, sitting, &mut turn),
    };
    let needs = fields.needs();
    match best {
        Some(best) if needs.is_empty() => Ok(Turn { best, ..turn }),
        _ => Err(needs),
    }
}

fn levels(job: &Job, fields: &mut Fields, sitting: usize, turn: &mut Turn) -> Option<Angle> {
    let line = level_division(job.phase.level_division);
    let mut read = |list: List, sign: f64| {
        let entries = rows(list, sitting);
        let readings = as_one_line(&fields.readings(entries.iter().copied()));
        let mean = mean_line(&readings, line)?;
        turn.remark = turn.remark.or_else(|| odd(job, &entries, &readings, line).map(Reason::from));
        turn.part(list(sitting, 0), mean.spread.standard * sign, mean.spread.freedom);
        if readings.len() > 1 {
            turn.step(Law::MeanLevel, &[], Amount::Angle(mean.best));
        }
        Some(mean.best)
    };
    let (front, rear) = (read(Entry::FrontLevel, -1.0), read(Entry::RearLevel, 1.0));
    let (front, rear) = (front?, rear?);
    let best = from_levels(front, rear);
    turn.step(Law::LevelDifference, &[Amount::Angle(rear), Amount::Angle(front)], Amount::Angle(best));
    Some(best)
}

/// The mean of a list of lengths, and what is odd about it.
fn mean(
    job: &Job,
    fields: &mut Fields,
    entries: &[Entry],
    line: Length,
    turn: &mut Turn,
) -> Option<Measured<Length>> {
    let readings = fields.readings(entries.iter().copied());
    let mean = mean_of(&readings, line)?;
    turn.remark = turn.remark.or_else(|| odd(job, entries, &readings, line).map(Reason::from));
    if readings.len() > 1 {
        turn.step(Law::MeanRead, &[], Amount::PlainLength(mean.best));
    }
    Some(mean)
}

fn rear_gap(job: &Job, fields: &mut Fields, sitting: usize, turn: &mut Turn) -> Option<Gap> {
    let right = job.phase.sittings.get(sitting)?.lifted == Side::Right;
    gap(job, fields, turn, (rows(Entry::Lift, sitting), Entry::Span, right, 1.0))
}

fn both_gaps(job: &Job, fields: &mut Fields, sitting: usize, turn: &mut Turn) -> Option<Angle> {
    let right = job.phase.sittings.get(sitting)?.front_lifted == Side::Right;
    let front = gap(job, fields, turn, (rows(Entry::FrontLift, sitting), Entry::FrontSpan, right, -1.0));
    let rear = rear_gap(job, fields, sitting, turn);
    let (front, rear) = (front?, rear?);
    let best = from_lifts(front, rear).ok()?;
    let (front, rear) = (Amount::Angle(front.lean().ok()?), Amount::Angle(rear.lean().ok()?));
    turn.step(Law::LeanDifference, &[rear, front], Amount::Angle(best));
    Some(best)
}

/// One yoke's gap with what gap and span do to the turn; its lean counts with this sign.
fn gap(
    job: &Job,
    fields: &mut Fields,
    turn: &mut Turn,
    (entries, span, right, sign): (Vec<Entry>, Entry, bool, f64),
) -> Option<Gap> {
    // Feelers have no lines: what they are known to stands in for half of one.
    let lift = mean(job, fields, &entries, lift_doubt() * 2.0, turn);
    let width = fields.length(span);
    let (lift, width) = (lift?, width?);
    let gap = Gap { lift: lift.best, span: width, right };
    let lean = gap.lean().ok()?;
    let size = from_lift(lift.best, width).ok()?;
    let (dh, dw) = (lift.spread.standard, rectangular(span_doubt()).standard);
    // Near a lift as large as the span the sum has no further side: it is then taken from the best value.
    let to = |lift: Length, width: Length| from_lift(lift, width).unwrap_or(size);
    let sign = if right { -sign } else { sign };
    let by_lift = swing(to(lift.best + dh, width), to(lift.best - dh, width)) * sign;
    let by_span = swing(to(lift.best, width + dw), to(lift.best, width - dw)) * sign;
    if let Some(first) = entries.first() {
        turn.part(*first, by_lift, lift.spread.freedom);
    }
    turn.part(span, by_span, f64::INFINITY);
    turn.step(
        Law::LiftAngle,
        &[Amount::FineLength(lift.best), Amount::PlainLength(width)],
        Amount::Angle(lean),
    );
    Some(gap)
}

fn lines(job: &Job, fields: &mut Fields, sitting: usize, turn: &mut Turn) -> Option<Angle> {
    let read = mean(job, fields, &rows(Entry::LineArc, sitting), division(job), turn);
    let diameter = fields.length(Entry::TubeDiameter);
    let (read, diameter) = (read?, diameter?);
    let best = from_lines(read.best, diameter).ok()?;
    let drawn = rectangular(line_doubt());
    let arc = combined(&[read.spread, drawn, drawn]);
    // ψ = 2s/D before half turns are left out: ∂ψ/∂s = 2/D, ∂ψ/∂D = −2s/D².
    let (wide, round) = (diameter.base(), read.best.base());
    turn.part(
        Entry::LineArc(sitting, 0),
        Angle::from_base(2.0 * arc.standard.base() / wide),
        arc.freedom,
    );
    let of_diameter = rectangular(tube_doubt().0).standard.base();
    turn.part(
        Entry::TubeDiameter,
        Angle::from_base(-2.0 * round / wide.powi(2) * of_diameter),
        f64::INFINITY,
    );
    let put_in = [Amount::PlainLength(read.best), Amount::PlainLength(diameter)];
    turn.step(Law::LineAngle, &put_in, Amount::Angle(best));
    Some(best)
}
