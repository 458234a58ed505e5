//! The line as measured: slopes, heights and plan angles, and what each of them brings to the ± of
//! whatever is reckoned from all.

use super::field::{Fields, level_division, read};
use super::finding::{Need, Reason};
use super::length::{division, length_change};
use super::odd::odd;
use super::turn;
use crate::job::{BEFORE_TACKING, Entry, Job, PhaseMethod, PlanBy, SLOPE_READINGS, ShaftBy, ShaftKind};
use crate::mechanics::attitude::{Attitude, Leaning, plan_of_offset, slope_between};
use crate::mechanics::uncertainty::{Measured, Spread, combined, mean_of, of_division, rectangular};
use crate::quantity::{Angle, Base, Length, degrees, inches};

/// How well a plan angle is known that was read, ±. Our own choice.
const PLAN_DOUBT_DEGREES: f64 = 0.5;

/// How well a joint's centre is found over a floor that is level as garages are, ±. Our own choice.
fn height_doubt() -> Length {
    inches(0.125)
}

/// How well it is known how far the rear joint lies beside the front one, ±. Our own choice.
fn offset_doubt() -> Length {
    inches(0.125)
}

/// How well a rise of the pinion's nose is known, ±. Our own choice: the trade says "1 to 2°".
const RISE_DOUBT_DEGREES: f64 = 0.5;

/// How well a rise of the pinion's nose is known.
pub(super) fn rise_spread() -> Spread<Angle> {
    rectangular(degrees(RISE_DOUBT_DEGREES))
}

/// How well the axle's travel and the place of its centre are known: ±1/4 in. Our own choice.
pub(super) fn axle_spread() -> Spread<Length> {
    rectangular(inches(0.25))
}

/// The shaft's slope as it was found.
#[derive(Clone, Copy)]
enum ShaftSlope {
    Read(Angle),
    Heights { front: Length, rear: Length },
}

/// The plan view as it was found.
#[derive(Clone, Copy)]
enum Plan {
    Offset(Length),
    Angles([Angle; 3]),
}

/// Everything measured, before any sum.
#[derive(Clone, Copy)]
pub(super) struct Readings {
    gearbox: Angle,
    pinion: Angle,
    shaft: ShaftSlope,
    plan: Plan,
    /// What the instrument shows on a level spot.
    pub(super) bias: Angle,
    phase: Angle,
    pub(super) length: Length,
}

impl Readings {
    /// The line at ride height; `None` where heights or offset are out of the shaft's reach.
    pub(super) fn attitude(&self) -> Option<Attitude> {
        let slope = self.side_slope(self.length)?;
        let none = degrees(0.0);
        let [gearbox, shaft, pinion] = match self.plan {
            Plan::Angles(all) => all,
            Plan::Offset(offset) => [none, plan_of_offset(offset, self.length, slope)?, none],
        };
        let axis = |read: Angle, plan| Leaning { slope: from_the_side(read - self.bias, plan), plan };
        Some(Attitude {
            gearbox: axis(self.gearbox, gearbox),
            shaft: Leaning { slope, plan: shaft },
            pinion: axis(self.pinion, pinion),
            phase: self.phase,
        })
    }

    /// How far a shaft of this length falls from joint to joint.
    fn drop(&self, length: Length) -> Length {
        match self.shaft {
            ShaftSlope::Read(slope) => {
                Length::from_base(length.base() * (slope - self.bias).base().sin())
            }
            ShaftSlope::Heights { front, rear } => front - rear,
        }
    }

    /// The slope of a shaft of this length as seen from the side, which may go off to one.
    ///
    /// Formula: o known, σ = asin(d/√(L² − o²)), which is how long it looks from the side; κ known,
    /// tan σ = tan(asin(d/L))/cos κ. Symbols: d drop, L length, o side offset, κ plan angle.
    /// Source: geometry. Range: `None` where d and o are more than L together reaches.
    pub(super) fn side_slope(&self, length: Length) -> Option<Angle> {
        let drop = self.drop(length);
        let level = Length::from_base(0.0);
        match self.plan {
            Plan::Offset(offset) => {
                let (length, offset) = (length.base(), offset.base());
                let seen = Length::from_base(((length - offset) * (length + offset)).sqrt());
                slope_between(drop, level, seen)
            }
            Plan::Angles([_, shaft, _]) => {
                slope_between(drop, level, length).map(|along| from_the_side(along, shaft))
            }
        }
    }
}

/// A slope as a level on the axis reads it, seen from the side of an axis that goes off by its plan angle.
///
/// Formula: tan σ = tan ε/cos κ. Symbols: ε true slope of the axis, κ plan angle, σ slope in the side view.
/// Source: geometry.
fn from_the_side(read: Angle, plan: Angle) -> Angle {
    Angle::from_base((read.base().tan() / plan.base().cos()).atan())
}

/// The slope that a level shows on an axis that leans like this, the other way round.
pub(super) fn true_slope(lean: Leaning) -> Angle {
    Angle::from_base((lean.slope.base().tan() * lean.plan.base().cos()).atan())
}

/// What moves when a measurement does, by so much in SI units.
type Shift = fn(&mut Readings, f64);

/// One measurement: its spread in SI units, and what moves when it does.
pub(super) struct Cause {
    pub(super) entry: Entry,
    pub(super) spread: Spread<Angle>,
    pub(super) shift: Shift,
}

/// What was measured of the line with what each measurement is worth.
pub(super) struct MeasuredLine {
    pub(super) readings: Readings,
    pub(super) causes: Vec<Cause>,
    /// The old shaft's slope between the same heights, where heights were taken.
    pub(super) old_slope: Option<Angle>,
    /// Heights and lengths that the shaft's slope was reckoned from: front, rear, new, old.
    pub(super) heights: Option<[Length; 4]>,
    /// A slip yoke runs on the gearbox's output shaft.
    pub(super) slides: bool,
    /// What is odd about the readings of a slope.
    pub(super) remark: Option<Reason>,
}

/// The readings of one slope, and what is odd about them; one that cannot be used is not quietly left out.
fn slope(
    job: &Job,
    fields: &mut Fields,
    entry: fn(usize) -> Entry,
    remark: &mut Option<Reason>,
) -> Option<Measured<Angle>> {
    let entries: Vec<Entry> = (0..SLOPE_READINGS).map(entry).collect();
    let readings: Vec<Angle> = fields.readings(entries.iter().copied());
    if entries.iter().any(|entry| read(job, *entry).is_err()) {
        return None;
    }
    let line = level_division(job.angles.division);
    *remark = remark.or_else(|| odd(job, &entries, &readings, line).map(Reason::from));
    mean_of(&readings, line)
}

/// The reading of a slope that stands apart from its others, and by how much: said at its field.
pub fn reading_apart(job: &Job, entry: Entry) -> Option<Reason> {
    let list = match entry {
        Entry::GearboxSlope(_) => Entry::GearboxSlope,
        Entry::ShaftSlopeRead(_) => Entry::ShaftSlopeRead,
        Entry::PinionSlope(_) => Entry::PinionSlope,
        _ => return None,
    };
    let mut remark = None;
    slope(job, &mut Fields::of(job), list, &mut remark);
    remark.filter(|reason| matches!(reason, Reason::AngleApart { entry: apart, .. } if *apart == entry))
}

/// The instrument's own error, from one spot read both ways round; where it was not, it is taken to lie
/// within a line.
fn bias(job: &Job, fields: &mut Fields) -> Option<Measured<Angle>> {
    let line = level_division(job.angles.division);
    if fields.is_empty(Entry::OneWay) && fields.is_empty(Entry::TurnedRound) {
        return Some(Measured { best: degrees(0.0), spread: rectangular(line) });
    }
    let (one, turned) = (fields.angle(Entry::OneWay), fields.angle(Entry::TurnedRound));
    let each = of_division::<Angle>(line);
    let both = combined(&[each, each]);
    let spread = Spread { standard: both.standard / 2.0, ..both };
    Some(Measured { best: (one? - turned?) / 2.0, spread })
}

/// The gearbox's slope as read at Angles; `None` while it is not known there.
pub(super) fn gearbox_slope(job: &Job) -> Option<Measured<Angle>> {
    let mut fields = Fields::of(job);
    let read = slope(job, &mut fields, Entry::GearboxSlope, &mut None)?;
    let bias = bias(job, &mut fields)?;
    Some(Measured { best: read.best - bias.best, spread: combined(&[read.spread, bias.spread]) })
}

/// A length's spread as the numbers of a cause, which all stand in SI units.
pub(super) fn of_length(spread: Spread<Length>) -> Spread<Angle> {
    Spread { standard: Angle::from_base(spread.standard.base()), freedom: spread.freedom }
}

/// Everything measured of the line.
///
/// # Errors
/// The fields that are needed.
pub(super) fn measured_line(job: &Job) -> Result<MeasuredLine, Vec<Need>> {
    let mut fields = Fields::of(job);
    let mut causes: Vec<Cause> = Vec::new();
    let mut remark = None;
    let gearbox = slope(job, &mut fields, Entry::GearboxSlope, &mut remark);
    let pinion = slope(job, &mut fields, Entry::PinionSlope, &mut remark);
    let shaft = shaft(job, &mut fields, &mut causes, &mut remark);
    let bias = bias(job, &mut fields);
    let lengths = fields.sum(length_change(job));
    let plan = plan(job, &mut fields, &mut causes);
    let phase = fields.sum(turn::in_force(job));
    let (Some(gearbox), Some(shaft), Some(pinion), Some(bias), Some(lengths), Some(plan), Some(phase)) =
        (gearbox, shaft, pinion, bias, lengths, plan, phase)
    else {
        return Err(fields.needs());
    };
    let measured: [(Entry, Spread<Angle>, Shift); 5] = [
        (Entry::GearboxSlope(0), gearbox.spread, |readings, by| {
            readings.gearbox += Angle::from_base(by)
        }),
        (Entry::PinionSlope(0), pinion.spread, |readings, by| readings.pinion += Angle::from_base(by)),
        (Entry::OneWay, bias.spread, |readings, by| readings.bias += Angle::from_base(by)),
        (phase_entry(job), phase.spread, |readings, by| readings.phase += Angle::from_base(by)),
        (Entry::WantedReading(0), of_length(lengths.wanted.spread), |readings, by| {
            readings.length += Length::from_base(by);
        }),
    ];
    causes.extend(measured.map(|(entry, spread, shift)| Cause { entry, spread, shift }));
    let readings = Readings {
        gearbox: gearbox.best,
        pinion: pinion.best,
        shaft,
        plan,
        bias: bias.best,
        phase: phase.best,
        length: lengths.wanted.best,
    };
    let old = lengths.old.best;
    let heights = match shaft {
        ShaftSlope::Heights { front, rear } => Some((front, rear)),
        ShaftSlope::Read(_) => None,
    };
    Ok(MeasuredLine {
        readings,
        causes,
        old_slope: heights.and_then(|_| readings.side_slope(old)),
        heights: heights.map(|(front, rear)| [front, rear, readings.length, old]),
        slides: job.measure.kind == ShaftKind::SlipInGearbox,
        remark,
    })
}

fn shaft(
    job: &Job,
    fields: &mut Fields,
    causes: &mut Vec<Cause>,
    remark: &mut Option<Reason>,
) -> Option<ShaftSlope> {
    match job.angles.shaft_by {
        ShaftBy::Read => {
            let read = slope(job, fields, Entry::ShaftSlopeRead, remark)?;
            causes.push(Cause {
                entry: Entry::ShaftSlopeRead(0),
                spread: read.spread,
                shift: |readings, by| {
                    if let ShaftSlope::Read(slope) = &mut readings.shaft {
                        *slope += Angle::from_base(by);
                    }
                },
            });
            Some(ShaftSlope::Read(read.best))
        }
        ShaftBy::Heights => {
            let shifts: [(Entry, Shift); 2] = [
                (Entry::FrontHeight, |readings, by| {
                    if let ShaftSlope::Heights { front, .. } = &mut readings.shaft {
                        *front += Length::from_base(by);
                    }
                }),
                (Entry::RearHeight, |readings, by| {
                    if let ShaftSlope::Heights { rear, .. } = &mut readings.shaft {
                        *rear += Length::from_base(by);
                    }
                }),
            ];
            let spread = of_length(combined(&[of_division(division(job)), rectangular(height_doubt())]));
            causes.extend(shifts.map(|(entry, shift)| Cause { entry, spread, shift }));
            let (front, rear) = (fields.length(Entry::FrontHeight), fields.length(Entry::RearHeight));
            front.zip(rear).map(|(front, rear)| ShaftSlope::Heights { front, rear })
        }
    }
}

/// The field that stands for the yokes' turn among the causes.
const fn phase_entry(job: &Job) -> Entry {
    match job.phase.method {
        PhaseMethod::Levels => Entry::RearLevel(BEFORE_TACKING, 0),
        PhaseMethod::Bench | PhaseMethod::BothLifts => Entry::Lift(BEFORE_TACKING, 0),
        PhaseMethod::Lines => Entry::LineArc(BEFORE_TACKING, 0),
    }
}

fn plan(job: &Job, fields: &mut Fields, causes: &mut Vec<Cause>) -> Option<Plan> {
    let doubt = rectangular(degrees(PLAN_DOUBT_DEGREES));
    let shifts: [(Entry, Shift); 3] = [
        (Entry::GearboxPlan, |readings, by| shift_plan(readings, 0, by)),
        (Entry::ShaftPlan, |readings, by| shift_plan(readings, 1, by)),
        (Entry::PinionPlan, |readings, by| shift_plan(readings, 2, by)),
    ];
    match job.angles.plan_by {
        // Nothing was measured of it: what the eye passes as straight is not asked for a ±.
        PlanBy::Straight => Some(Plan::Angles([degrees(0.0); 3])),
        PlanBy::Offset => {
            causes.push(Cause {
                entry: Entry::SideOffset,
                spread: of_length(rectangular(offset_doubt())),
                shift: |readings, by| {
                    if let Plan::Offset(offset) = &mut readings.plan {
                        *offset += Length::from_base(by);
                    }
                },
            });
            fields.length(Entry::SideOffset).map(Plan::Offset)
        }
        PlanBy::Angles => {
            causes.extend(shifts.map(|(entry, shift)| Cause { entry, spread: doubt, shift }));
            let [gearbox, shaft, pinion] = shifts.map(|(entry, _)| fields.angle(entry));
            Some(Plan::Angles([gearbox?, shaft?, pinion?]))
        }
    }
}

fn shift_plan(readings: &mut Readings, which: usize, by: f64) {
    if let Plan::Angles(all) = &mut readings.plan
        && let Some(angle) = all.get_mut(which)
    {
        *angle += Angle::from_base(by);
    }
}
