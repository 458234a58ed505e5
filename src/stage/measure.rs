//! Measure: how much to take out or add.

use super::amount::Amount;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use crate::job::{Division, Entry, Job, YokeAt};
use crate::mechanics::uncertainty::{Measured, Spread, combined, mean_of, of_division};
use crate::quantity::{Base, Length, inches, millimetres};

/// The finished length's tolerance either way, 1/16 in. Common practice, no source.
pub(super) fn length_tolerance() -> Length {
    inches(1.0 / 16.0)
}

/// Least room for the yoke to move in before it bottoms, 1/4 in. Common practice, no source.
fn least_bump_room() -> Length {
    inches(0.25)
}

/// Usual set point, 3/4 to 1 in out of bottomed, light vehicles. Common practice, no source.
fn usual_set_point() -> (Length, Length) {
    (inches(0.75), inches(1.0))
}

/// The distance between the lines of the tape in use.
pub(super) fn division(job: &Job) -> Length {
    match job.measure.division {
        Division::Sixteenth => inches(1.0 / 16.0),
        Division::ThirtySecond => inches(1.0 / 32.0),
        Division::SixtyFourth => inches(1.0 / 64.0),
        Division::Millimetre => millimetres(1.0),
        Division::HalfMillimetre => millimetres(0.5),
        Division::Thousandth => inches(0.001),
        Division::Fiftieth => millimetres(0.02),
    }
}

/// How many readings of a list are filled in.
fn count(list: &[crate::job::Typed]) -> usize {
    list.iter().filter(|typed| !typed.is_blank()).count()
}

/// Both lengths and their difference.
#[derive(Clone, Copy, Debug)]
pub struct LengthChange {
    /// The old shaft.
    pub old: Measured<Length>,
    /// The distance as read.
    pub read: Measured<Length>,
    /// The wanted shaft.
    pub wanted: Measured<Length>,
    /// Old less wanted: + to take out, − to add.
    pub change: Measured<Length>,
    /// Readings behind the length that has fewer of them.
    pub readings: usize,
}

impl LengthChange {
    /// The difference is no larger than its own ±.
    pub fn is_within_doubt(&self) -> bool {
        self.change.best.base().abs() <= self.change.spread.expanded().base()
    }

    /// The shaft is made longer.
    pub fn lengthens(&self) -> bool {
        self.change.best.base() < 0.0
    }
}

fn old_length(job: &Job) -> Result<Measured<Length>, Vec<Need>> {
    let mut fields = Fields::of(job);
    let readings = fields.readings((0..job.measure.old.len()).map(Entry::OldReading));
    let needs = fields.needs();
    mean_of(&readings, division(job)).filter(|_| needs.is_empty()).ok_or(needs)
}

/// The distance as read, and the length wanted from it.
fn wanted_length(job: &Job) -> Result<(Measured<Length>, Measured<Length>), Vec<Need>> {
    let mut fields = Fields::of(job);
    let readings = fields.readings((0..job.measure.wanted.len()).map(Entry::WantedReading));
    let set_point = match job.measure.yoke_at {
        YokeAt::SetPoint => Some(Length::from_base(0.0)),
        YokeAt::Bottomed => fields.length(Entry::SetPoint),
    };
    let needs = fields.needs();
    let (Some(read), Some(set_point), true) =
        (mean_of(&readings, division(job)), set_point, needs.is_empty())
    else {
        return Err(needs);
    };
    // A set point laid off with the same tape brings that tape's doubt with it.
    let drawn_out = match job.measure.yoke_at {
        YokeAt::SetPoint => Spread::none(),
        YokeAt::Bottomed => of_division(division(job)),
    };
    let wanted = Measured { best: read.best - set_point, spread: combined(&[read.spread, drawn_out]) };
    Ok((read, wanted))
}

/// Old and wanted length and what lies between them.
///
/// # Errors
/// The fields that are needed.
pub fn length_change(job: &Job) -> Result<LengthChange, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (old, wanted) = (fields.sum(old_length(job)), fields.sum(wanted_length(job)));
    let (Some(old), Some((read, wanted))) = (old, wanted) else {
        return Err(fields.needs());
    };
    let change =
        Measured { best: old.best - wanted.best, spread: combined(&[old.spread, wanted.spread]) };
    let readings = count(&job.measure.old).min(count(&job.measure.wanted));
    Ok(LengthChange { old, read, wanted, change, readings })
}

/// What follows from the measurements.
pub fn findings(job: &Job) -> Vec<Finding> {
    vec![change_finding(job), wanted_finding(job), set_point_finding(job)]
}

fn change_finding(job: &Job) -> Finding {
    let both = match length_change(job) {
        Ok(both) => both,
        Err(needs) => return Finding::missing(Name::LengthChange, needs),
    };
    let (change, doubt) = (both.change.best, both.change.spread.expanded());
    let size = Length::from_base(change.base().abs());
    let (sense, verdict) = if both.is_within_doubt() {
        (Sense::LeaveAlone, Verdict::Watch(Reason::DifferenceWithinDoubt))
    } else if both.lengthens() {
        (Sense::Add, Verdict::Watch(Reason::Lengthened))
    } else {
        (Sense::Remove, loose(doubt))
    };
    // One reading shows nothing of its own mistakes.
    let verdict = match verdict {
        Verdict::Good if both.readings < 2 => Verdict::Watch(Reason::OneReading),
        verdict => verdict,
    };
    let value = Value {
        amount: Amount::Length(size),
        plus_minus: Some(Amount::PlainLength(doubt)),
        sense: Some(sense),
    };
    Finding::known(Name::LengthChange, value, verdict)
        .step(Law::MeanOld, &[], Amount::PlainLength(both.old.best))
        .step(Law::MeanWanted, &[], Amount::PlainLength(both.wanted.best))
        .step(
            Law::Difference,
            &[Amount::PlainLength(both.old.best), Amount::PlainLength(both.wanted.best)],
            Amount::PlainLength(change),
        )
        .step(
            Law::CombinedDoubt,
            &[
                Amount::PlainLength(both.old.spread.expanded()),
                Amount::PlainLength(both.wanted.spread.expanded()),
            ],
            Amount::PlainLength(doubt),
        )
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
}

fn wanted_finding(job: &Job) -> Finding {
    let (read, wanted) = match wanted_length(job) {
        Ok(both) => both,
        Err(needs) => return Finding::missing(Name::WantedLength, needs),
    };
    let doubt = wanted.spread.expanded();
    let value = Value {
        amount: Amount::Length(wanted.best),
        plus_minus: Some(Amount::PlainLength(doubt)),
        sense: None,
    };
    let mut finding = Finding::known(Name::WantedLength, value, loose(doubt)).step(
        Law::MeanWanted,
        &[],
        Amount::PlainLength(read.best),
    );
    if job.measure.yoke_at == YokeAt::Bottomed {
        finding = finding.step(
            Law::WantedFromBottomed,
            &[Amount::PlainLength(read.best), Amount::PlainLength(read.best - wanted.best)],
            Amount::PlainLength(wanted.best),
        );
    }
    finding
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
}

fn set_point_finding(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let Some(set_point) = fields.length(Entry::SetPoint) else {
        return Finding::missing(Name::SetPoint, fields.needs());
    };
    let (least, most) = usual_set_point();
    let verdict = if set_point.base() < least_bump_room().base() {
        Verdict::Stop(Reason::TooCloseToBump { least: least_bump_room() })
    } else if set_point.base() < least.base() || set_point.base() > most.base() {
        Verdict::Watch(Reason::SetPointUnusual { least, most })
    } else {
        // The usual place is not yet a safe one: the travel at bump and droop is not asked here.
        Verdict::Watch(Reason::TravelNotChecked { least, most })
    };
    let value = Value {
        amount: Amount::Length(set_point),
        plus_minus: Some(Amount::PlainLength(of_division(division(job)).expanded())),
        sense: None,
    };
    Finding::known(Name::SetPoint, value, verdict).from(&[Source::CommonPractice])
}

/// Whether a length is known well enough to cut by.
pub(super) fn loose(doubt: Length) -> Verdict {
    if doubt.base() <= length_tolerance().base() {
        Verdict::Good
    } else {
        Verdict::Watch(Reason::LooseLength { allowed: length_tolerance() })
    }
}
