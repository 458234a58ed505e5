//! Measure: how much to take out or add.

use super::amount::Amount;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::slip;
use crate::job::{Datum, DatumPair, Division, Entry, Job, Route, ShaftKind, YokeAt};
use crate::mechanics::apart::{stands_apart, two_disagree};
use crate::mechanics::budget::Budget;
use crate::mechanics::uncertainty::{Measured, mean_of, of_division};
use crate::quantity::{Base, Length, inches, millimetres};

/// The finished length's tolerance either way, 1/16 in. Common practice, no source.
pub(super) fn length_tolerance() -> Length {
    inches(1.0 / 16.0)
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

/// Both lengths and their difference.
#[derive(Clone, Debug)]
pub struct LengthChange {
    /// The old shaft, centre to centre at its set point.
    pub old: Measured<Length>,
    /// The wanted shaft.
    pub wanted: Measured<Length>,
    /// Old less wanted: + to take out, − to add.
    pub change: Measured<Length>,
    /// The same with what each measurement does to it.
    pub budget: Budget<Entry>,
    /// What to say of the readings, where not all is well with them.
    pub remark: Option<Reason>,
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

/// A length as one of the lists of readings gives it.
struct Read {
    mean: Measured<Length>,
    remark: Option<Reason>,
}

/// The mean of a list of readings, and what is odd about them.
fn mean(job: &Job, fields: &mut Fields, entries: &[Entry]) -> Option<Read> {
    let readings = fields.readings(entries.iter().copied());
    let line = division(job);
    let remark = if let Some(apart) = stands_apart(&readings, line) {
        // Empty rows lie between the readings: the number said is the row's.
        let filled = |entry: &&Entry| job.typed(**entry).is_some_and(|typed| !typed.is_blank());
        let row = entries.iter().filter(filled).nth(apart.index).copied();
        row.map(|entry| Reason::ReadingApart { entry, by: apart.by, others: apart.others })
    } else if let Some(by) = two_disagree(&readings, line) {
        Some(Reason::TwoReadingsDiffer { by })
    } else {
        // One reading shows nothing of its own mistakes.
        (readings.len() == 1).then_some(Reason::OneReading)
    };
    Some(Read { mean: mean_of(&readings, line)?, remark })
}

fn rows(list: &[crate::job::Typed], entry: fn(usize) -> Entry) -> Vec<Entry> {
    (0..list.len()).map(entry).collect()
}

/// The reading of a list that stands apart from the others, and by how much: said at its field.
pub fn reading_apart(job: &Job, entry: Entry) -> Option<Reason> {
    let list = match entry {
        Entry::OldReading(_) => rows(&job.measure.old, Entry::OldReading),
        Entry::WantedReading(_) => rows(&job.measure.wanted, Entry::WantedReading),
        Entry::EndsReading(_) => rows(&job.measure.ends, Entry::EndsReading),
        _ => return None,
    };
    match mean(job, &mut Fields::of(job), &list)?.remark? {
        reason @ Reason::ReadingApart { entry: apart, .. } if apart == entry => Some(reason),
        _ => None,
    }
}

/// A dimension read once with the tape in use.
fn once(job: &Job, entry: Entry, best: Length) -> Budget<Entry> {
    Budget::of(entry, Measured { best, spread: of_division(division(job)) })
}

/// Takes off a length, or adds it, what lies between the marks that the tape was laid on and the
/// centres of the cups.
fn to_centres(job: &Job, fields: &mut Fields, read: Budget<Entry>, at: DatumPair) -> Budget<Entry> {
    let mut sum = read;
    for (datum, cup, ear) in
        [(at.front, Entry::FrontCup, Entry::FrontEar), (at.rear, Entry::RearCup, Entry::RearEar)]
    {
        // What lies outside the centre has made the reading too long.
        let (entry, factor) = match datum {
            Datum::CupCentre => continue,
            Datum::OuterSeat => (cup, -0.5),
            Datum::InnerSeat => (cup, 0.5),
            Datum::OuterEar => (ear, -1.0),
            Datum::InnerEar => (ear, 1.0),
        };
        if let Some(size) = fields.length(entry) {
            sum = sum.plus(factor, &once(job, entry, size));
        }
    }
    sum
}

/// The set point laid off with the tape, which brings that tape's doubt with it.
fn set_point(job: &Job, fields: &mut Fields) -> Option<Budget<Entry>> {
    fields.length(Entry::SetPoint).map(|best| once(job, Entry::SetPoint, best))
}

/// Whether the slip is in the gearbox, so that it is no part of the old shaft's length.
fn slips_in_gearbox(job: &Job) -> bool {
    job.measure.kind == ShaftKind::SlipInGearbox
}

/// A length with its working: what was read, what was made of it.
struct Traced {
    sum: Budget<Entry>,
    read: Length,
    remark: Option<Reason>,
}

fn old_length(job: &Job) -> Result<Traced, Vec<Need>> {
    let mut fields = Fields::of(job);
    let read = mean(job, &mut fields, &rows(&job.measure.old, Entry::OldReading));
    let Some(read) = read else { return Err(fields.needs()) };
    let mut sum = Budget::of(Entry::OldReading(0), read.mean);
    sum = to_centres(job, &mut fields, sum, job.measure.old_datum);
    if !slips_in_gearbox(job)
        && job.measure.yoke_at == YokeAt::Bottomed
        && let Some(drawn) = set_point(job, &mut fields)
    {
        sum = sum.plus(1.0, &drawn);
    }
    done(fields, sum, &read)
}

fn done(fields: Fields, sum: Budget<Entry>, read: &Read) -> Result<Traced, Vec<Need>> {
    let needs = fields.needs();
    let traced = Traced { sum, read: read.mean.best, remark: read.remark };
    if needs.is_empty() { Ok(traced) } else { Err(needs) }
}

/// The wanted length measured from joint to joint.
fn by_joints(job: &Job) -> Result<Traced, Vec<Need>> {
    let mut fields = Fields::of(job);
    let read = mean(job, &mut fields, &rows(&job.measure.wanted, Entry::WantedReading));
    let drawn = match job.measure.yoke_at {
        YokeAt::Bottomed if slips_in_gearbox(job) => set_point(job, &mut fields),
        _ => Some(Budget::exact(Length::from_base(0.0))),
    };
    let (Some(read), Some(drawn)) = (read, drawn) else { return Err(fields.needs()) };
    let sum = Budget::of(Entry::WantedReading(0), read.mean);
    let sum = to_centres(job, &mut fields, sum, job.measure.wanted_datum).plus(-1.0, &drawn);
    done(fields, sum, &read)
}

/// The dimensions that come off a distance between the ends to leave the length between the joints.
const fn end_parts(kind: ShaftKind) -> &'static [Entry] {
    match kind {
        ShaftKind::SlipInGearbox => &[Entry::BottomedGap, Entry::SetPoint, Entry::FrontDepth],
        ShaftKind::SlipOnShaft => &[Entry::FrontDepth],
        ShaftKind::Flanged => &[Entry::FrontDepth, Entry::RearDepth],
    }
}

/// The wanted length from the ends: seal face or flange to the axle, less the yokes' own sizes.
fn by_ends(job: &Job) -> Result<Traced, Vec<Need>> {
    let mut fields = Fields::of(job);
    let read = mean(job, &mut fields, &rows(&job.measure.ends, Entry::EndsReading));
    let parts: Vec<Option<Budget<Entry>>> = end_parts(job.measure.kind)
        .iter()
        .map(|entry| fields.length(*entry).map(|best| once(job, *entry, best)))
        .collect();
    let Some(read) = read else { return Err(fields.needs()) };
    let mut sum = Budget::of(Entry::EndsReading(0), read.mean);
    for part in parts.iter().flatten() {
        sum = sum.plus(-1.0, part);
    }
    done(fields, sum, &read)
}

/// The wanted length by the route chosen; where both were measured, from joint to joint.
fn wanted_length(job: &Job) -> Result<Traced, Vec<Need>> {
    match job.measure.route {
        Route::Ends => by_ends(job),
        Route::Joints | Route::Both => by_joints(job),
    }
}

/// The new length as it is wanted, with its ±.
///
/// # Errors
/// The fields that are needed.
pub fn wanted(job: &Job) -> Result<Measured<Length>, Vec<Need>> {
    wanted_length(job).map(|traced| traced.sum.measured())
}

/// Old and wanted length and what lies between them.
///
/// # Errors
/// The fields that are needed.
pub fn length_change(job: &Job) -> Result<LengthChange, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (old, wanted) = (fields.sum(old_length(job)), fields.sum(wanted_length(job)));
    let (Some(old), Some(wanted)) = (old, wanted) else {
        return Err(fields.needs());
    };
    let (old_is, wanted_is) = (old.sum.measured(), wanted.sum.measured());
    // What stands in both, an ear's edge or a set point, cancels with its doubt.
    let budget = old.sum.plus(-1.0, &wanted.sum);
    let remark = match (old.remark, wanted.remark) {
        (Some(Reason::OneReading) | None, later @ Some(_)) => later,
        (first, _) => first,
    };
    Ok(LengthChange { old: old_is, wanted: wanted_is, change: budget.measured(), budget, remark })
}

/// What follows from the measurements.
pub fn findings(job: &Job) -> Vec<Finding> {
    let mut found = vec![change_finding(job), wanted_finding(job)];
    if job.measure.route == Route::Both {
        found.push(routes_finding(job));
    }
    found.extend(slip::findings(job));
    found
}

fn plain(length: Length) -> Amount {
    Amount::PlainLength(length)
}

fn change_finding(job: &Job) -> Finding {
    let both = match length_change(job) {
        Ok(both) => both,
        Err(needs) => return Finding::missing(Name::LengthChange, needs),
    };
    let (change, doubt) = (both.change.best, both.change.spread.expanded());
    let (sense, verdict) = if both.is_within_doubt() {
        (Sense::LeaveAlone, Verdict::Watch(Reason::DifferenceWithinDoubt))
    } else if both.lengthens() {
        (Sense::Add, Verdict::Watch(both.remark.unwrap_or(Reason::Lengthened)))
    } else {
        (Sense::Remove, both.remark.map_or_else(|| loose(doubt), Verdict::Watch))
    };
    let value = Value {
        amount: Amount::Length(Length::from_base(change.base().abs())),
        plus_minus: Some(plain(doubt)),
        sense: Some(sense),
    };
    Finding::known(Name::LengthChange, value, verdict)
        .step(Law::OldLength, &[], plain(both.old.best))
        .step(Law::NewLength, &[], plain(both.wanted.best))
        .step(Law::Difference, &[plain(both.old.best), plain(both.wanted.best)], plain(change))
        .step(
            Law::CombinedDoubt,
            &[plain(both.old.spread.expanded()), plain(both.wanted.spread.expanded())],
            plain(doubt),
        )
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
        .caused_by(&both.budget)
}

fn wanted_finding(job: &Job) -> Finding {
    let traced = match wanted_length(job) {
        Ok(traced) => traced,
        Err(needs) => return Finding::missing(Name::WantedLength, needs),
    };
    let Measured { best, spread } = traced.sum.measured();
    let value =
        Value { amount: Amount::Length(best), plus_minus: Some(plain(spread.expanded())), sense: None };
    let verdict = traced.remark.map_or_else(|| loose(spread.expanded()), Verdict::Watch);
    let mut finding = Finding::known(Name::WantedLength, value, verdict);
    let law = if job.measure.route == Route::Ends { Law::LessTheEnds } else { Law::ToJointCentres };
    let off = traced.read - best;
    finding = finding.step(Law::MeanRead, &[], plain(traced.read));
    if off.base() != 0.0 {
        finding = finding.step(law, &[plain(traced.read), plain(off)], plain(best));
    }
    finding
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
}

/// Both ways to the wanted length, held against each other.
fn routes_finding(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let (joints, ends) = (fields.sum(by_joints(job)), fields.sum(by_ends(job)));
    let (Some(joints), Some(ends)) = (joints, ends) else {
        return Finding::missing(Name::RoutesDiffer, fields.needs());
    };
    let put_in = [plain(joints.sum.best), plain(ends.sum.best)];
    let difference = joints.sum.plus(-1.0, &ends.sum).measured();
    let doubt = difference.spread.expanded();
    let by = Length::from_base(difference.best.base().abs());
    let verdict = if by.base() <= doubt.base() {
        Verdict::Good
    } else {
        Verdict::Watch(Reason::RoutesDisagree { doubt })
    };
    let value = Value { amount: Amount::Length(by), plus_minus: Some(plain(doubt)), sense: None };
    Finding::known(Name::RoutesDiffer, value, verdict)
        .step(Law::Routes, &put_in, plain(difference.best))
        .within(plain(doubt), Source::Gum)
}

/// Whether a length is known well enough to cut by.
pub(super) fn loose(doubt: Length) -> Verdict {
    if doubt.base() <= length_tolerance().base() {
        Verdict::Good
    } else {
        Verdict::Watch(Reason::LooseLength { allowed: length_tolerance() })
    }
}
