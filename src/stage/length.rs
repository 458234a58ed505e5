//! The lengths: readings to means, marks to cup centres, two routes to the wanted one, and what each
//! measurement does to the difference.

use super::field::Fields;
use super::finding::{Need, Reason};
use super::odd::odd;
use crate::job::{Datum, DatumPair, Division, Entry, Job, Route, ShaftKind, YokeAt};
use crate::mechanics::budget::Budget;
use crate::mechanics::uncertainty::{Measured, mean_of, of_division};
use crate::quantity::{Base, Length, inches, millimetres};

/// What is typed as text and its differences may miss each other in the last bit; a length, in metres.
pub(super) const LAST_BIT: f64 = 1e-9;

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
    /// The old shaft as it lay on the bench: the set point is no part of it, nor of its doubt.
    pub bench: Measured<Length>,
    /// Mean of the old readings as they stand.
    pub old_read: Length,
    /// The wanted shaft.
    pub wanted: Measured<Length>,
    /// Old less wanted: + to take out, − to add.
    pub change: Measured<Length>,
    /// The same with what each measurement does to it.
    pub budget: Budget<Entry>,
    /// How far a slip in the shaft was pushed in from its set point while the shaft lay on the bench:
    /// every place measured there is nearer by so much.
    pub pushed_in: Length,
    /// What to say of the readings, where not all is well with them.
    pub remark: Option<Reason>,
}

impl LengthChange {
    /// The difference is no larger than its own ±.
    pub fn is_within_doubt(&self) -> bool {
        self.change.best.base().abs() <= self.change.spread.expanded().base()
    }

    /// The readings contradict each other by more than a finished length may be off: nothing may be cut
    /// by them.
    pub fn misleads(&self) -> bool {
        match self.remark {
            Some(
                Reason::ReadingApart { by, .. }
                | Reason::TwoReadingsDiffer { by }
                | Reason::RoutesDisagree { by, .. },
            ) => by.base().abs() > length_tolerance().base(),
            _ => false,
        }
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
    let remark = odd(job, entries, &readings, line).map(Reason::from);
    // One reading shows nothing of its own mistakes.
    let remark = remark.or_else(|| (readings.len() == 1).then_some(Reason::OneReading));
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

/// What lies between the marks that the tape was laid on and the centres of the cups, to be added to
/// the reading. The cups are the cross's own and the same for both lengths; the ears are not.
fn to_centres(job: &Job, fields: &mut Fields, at: DatumPair, ears: [Entry; 2]) -> Budget<Entry> {
    let mut sum = Budget::exact(Length::from_base(0.0));
    let [front, rear] = ears;
    for (datum, cup, ear) in [(at.front, Entry::FrontCup, front), (at.rear, Entry::RearCup, rear)] {
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
pub(super) struct Traced {
    pub(super) sum: Budget<Entry>,
    pub(super) read: Length,
    pub(super) remark: Option<Reason>,
}

/// A list's mean with what is reckoned in, or what is still needed, all of it named at once.
fn traced(
    fields: Fields,
    entry: Entry,
    read: Option<Read>,
    parts: &[(f64, Budget<Entry>)],
) -> Result<Traced, Vec<Need>> {
    let needs = fields.needs();
    match read {
        Some(Read { mean, remark }) if needs.is_empty() => {
            let mut sum = Budget::of(entry, mean);
            for (factor, part) in parts {
                sum = sum.plus(*factor, part);
            }
            Ok(Traced { sum, read: mean.best, remark })
        }
        _ => Err(needs),
    }
}

/// How far the slip has still to come out to its set point from where it stood while this length was
/// taken; `None` where it stood there.
fn drawn_out(job: &Job, fields: &mut Fields, in_gearbox: bool) -> Option<Budget<Entry>> {
    if slips_in_gearbox(job) != in_gearbox || job.measure.yoke_at == YokeAt::SetPoint {
        return None;
    }
    let set_point = set_point(job, fields);
    if job.measure.yoke_at == YokeAt::Bottomed {
        return set_point;
    }
    let taken_at = fields.length(Entry::TakenAt).map(|best| once(job, Entry::TakenAt, best));
    let (set_point, taken_at) = set_point.zip(taken_at)?;
    // Left where it stood, nothing was laid off and nothing is added to the doubt.
    let moved = (set_point.best - taken_at.best).base().abs() > LAST_BIT;
    moved.then(|| set_point.plus(-1.0, &taken_at))
}

/// The old shaft, centre to centre with its slip at the set point.
fn old_length(job: &Job) -> Result<Traced, Vec<Need>> {
    let mut fields = Fields::of(job);
    let read = mean(job, &mut fields, &rows(&job.measure.old, Entry::OldReading));
    let ears = [Entry::FrontEar, Entry::RearEar];
    let mut parts = vec![(1.0, to_centres(job, &mut fields, job.measure.old_datum, ears))];
    parts.extend(drawn_out(job, &mut fields, false).map(|drawn| (1.0, drawn)));
    traced(fields, Entry::OldReading(0), read, &parts)
}

/// The wanted length measured from joint to joint.
fn by_joints(job: &Job) -> Result<Traced, Vec<Need>> {
    let mut fields = Fields::of(job);
    let read = mean(job, &mut fields, &rows(&job.measure.wanted, Entry::WantedReading));
    let ears = [Entry::WantedFrontEar, Entry::WantedRearEar];
    let mut parts = vec![(1.0, to_centres(job, &mut fields, job.measure.wanted_datum, ears))];
    parts.extend(drawn_out(job, &mut fields, true).map(|drawn| (-1.0, drawn)));
    traced(fields, Entry::WantedReading(0), read, &parts)
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
    let sizes = end_parts(job.measure.kind).iter();
    let part = |entry: &Entry| fields.length(*entry).map(|best| (-1.0, once(job, *entry, best)));
    let parts: Vec<_> = sizes.filter_map(part).collect();
    traced(fields, Entry::EndsReading(0), read, &parts)
}

/// The wanted length by the route chosen; where both were measured, from joint to joint.
pub(super) fn wanted_length(job: &Job) -> Result<Traced, Vec<Need>> {
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
    let budget = old.sum.clone().plus(-1.0, &wanted.sum);
    // A reading that can be pointed at says most, then two ways that disagree, then a single reading.
    let remark = match (old.remark, wanted.remark) {
        (Some(Reason::OneReading) | None, later @ Some(_)) => later,
        (first, _) => first,
    };
    let remark = match remark {
        Some(Reason::ReadingApart { .. } | Reason::TwoReadingsDiffer { .. }) => remark,
        other => routes_apart(job).or(other).or_else(|| read_at_set_point(job)),
    };
    let old_read = old.read;
    let drawn =
        drawn_out(job, &mut fields, false).unwrap_or_else(|| Budget::exact(Length::from_base(0.0)));
    let (pushed_in, bench) = (drawn.best, old.sum.plus(-1.0, &drawn).measured());
    let change = budget.measured();
    Ok(LengthChange {
        old: old_is,
        bench,
        old_read,
        wanted: wanted_is,
        change,
        budget,
        pushed_in,
        remark,
    })
}

/// A length that was read with the slip "at its set point" holds for the set point there was then, and
/// nobody knows which that was.
fn read_at_set_point(job: &Job) -> Option<Reason> {
    let counts = !slips_in_gearbox(job) || job.measure.route != Route::Ends;
    (counts && job.measure.yoke_at == YokeAt::SetPoint).then_some(Reason::ReadAtSetPoint)
}

/// Both ways to the wanted length, and what lies between them.
pub(super) struct Routes {
    pub(super) joints: Length,
    pub(super) ends: Length,
    pub(super) difference: Measured<Length>,
}

impl Routes {
    /// By how much they differ, either way.
    pub(super) fn by(&self) -> Length {
        Length::from_base(self.difference.best.base().abs())
    }

    /// The ± of that.
    pub(super) fn doubt(&self) -> Length {
        self.difference.spread.expanded()
    }

    /// What to say where that is more than its ±.
    pub(super) fn apart(&self) -> Reason {
        Reason::RoutesDisagree { by: self.by(), doubt: self.doubt() }
    }
}

/// Both ways to the wanted length, held against each other.
pub(super) fn routes(job: &Job) -> Result<Routes, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (joints, ends) = (fields.sum(by_joints(job)), fields.sum(by_ends(job)));
    let (Some(joints), Some(ends)) = (joints, ends) else {
        return Err(fields.needs());
    };
    let (by_joints, by_ends) = (joints.sum.best, ends.sum.best);
    let difference = joints.sum.plus(-1.0, &ends.sum).measured();
    Ok(Routes { joints: by_joints, ends: by_ends, difference })
}

/// What to say where both ways to the wanted length were measured and do not agree.
fn routes_apart(job: &Job) -> Option<Reason> {
    let routes = if job.measure.route == Route::Both { routes(job).ok()? } else { return None };
    (routes.by().base() > routes.doubt().base()).then(|| routes.apart())
}
