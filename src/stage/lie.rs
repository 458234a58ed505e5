//! The lie of the line: slopes, heights and plan angles as measured, and what each of them brings to
//! the ± of whatever is reckoned from all.

use super::field::{Fields, read};
use super::finding::{Blocked, Need, Reason};
use super::length::{division, length_change};
use super::phase;
use crate::job::{
    BEFORE_TACKING, Entry, Job, LevelDivision, PhaseMethod, PlanBy, SLOPE_READINGS, ShaftBy, ShaftKind,
};
use crate::mechanics::attitude::{Attitude, Leaning, Unfit, plan_of_offset, slope_between};
use crate::mechanics::line::{JointAt, Line};
use crate::mechanics::uncertainty::{Measured, Spread, combined, mean_of, of_division, rectangular};
use crate::quantity::{Angle, Base, Length, degrees, inches};

/// How well a plan angle is known that was read or taken as nothing, ±. Our own choice.
const PLAN_DOUBT_DEGREES: f64 = 0.5;

/// How well it is known how far the rear joint lies beside the front one, ±. Our own choice.
fn offset_doubt() -> Length {
    inches(0.125)
}

/// The distance between the lines of a level or protractor.
pub(super) fn level_division(division: LevelDivision) -> Angle {
    degrees(match division {
        LevelDivision::Twentieth => 0.05,
        LevelDivision::Tenth => 0.1,
        LevelDivision::Fifth => 0.2,
        LevelDivision::Quarter => 0.25,
        LevelDivision::Whole => 1.0,
    })
}

/// Where the axle and its pinion are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// At ride height, without load on the shaft.
    Ride,
    /// At ride height with the pinion's nose risen under power.
    Power,
    /// At full bump.
    Bump,
    /// At full droop.
    Droop,
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
pub(super) struct Laid {
    gearbox: Angle,
    pinion: Angle,
    shaft: ShaftSlope,
    plan: Plan,
    /// What the instrument shows on a level spot.
    bias: Angle,
    phase: Angle,
    length: Length,
}

impl Laid {
    /// The line at ride height; `None` where heights or offset are out of the shaft's reach.
    pub(super) fn attitude(&self) -> Option<Attitude> {
        let slope = match self.shaft {
            ShaftSlope::Read(slope) => slope - self.bias,
            ShaftSlope::Heights { front, rear } => self.between(front, rear)?,
        };
        let none = degrees(0.0);
        let [gearbox, shaft, pinion] = match self.plan {
            Plan::Angles(all) => all,
            Plan::Offset(offset) => [none, plan_of_offset(offset, self.length, slope)?, none],
        };
        Some(Attitude {
            gearbox: Leaning { slope: self.gearbox - self.bias, plan: gearbox },
            shaft: Leaning { slope, plan: shaft },
            pinion: Leaning { slope: self.pinion - self.bias, plan: pinion },
            phase: self.phase,
        })
    }

    /// The slope between heights as seen from the side, of a shaft that may go off to one.
    ///
    /// Formula: o known, σ = asin(d/√(L² − o²)), which is how long it looks from the side; κ known,
    /// tan σ = tan(asin(d/L))/cos κ. Symbols: d drop, L length, o side offset, κ plan angle.
    /// Source: geometry. Range: `None` where d and o are more than L together reaches.
    fn between(&self, front: Length, rear: Length) -> Option<Angle> {
        match self.plan {
            Plan::Offset(offset) => {
                let (length, offset) = (self.length.base(), offset.base());
                let seen = Length::from_base(((length - offset) * (length + offset)).sqrt());
                slope_between(front, rear, seen)
            }
            Plan::Angles([_, shaft, _]) => {
                let along = slope_between(front, rear, self.length)?.base();
                Some(Angle::from_base((along.tan() / shaft.base().cos()).atan()))
            }
        }
    }
}

/// What moves when a measurement does, by so much in SI units.
type Shift = fn(&mut Laid, f64);

/// One measurement: its spread in SI units, and what moves when it does.
pub(super) struct Cause {
    entry: Entry,
    spread: Spread<Angle>,
    shift: Shift,
}

/// What was measured of the line with what each measurement is worth.
pub(super) struct Lie {
    laid: Laid,
    causes: Vec<Cause>,
    /// The old shaft's slope between the same heights, where heights were taken.
    pub(super) old_slope: Option<Angle>,
    /// Heights and lengths that the shaft's slope was reckoned from: front, rear, new, old.
    pub(super) heights: Option<[Length; 4]>,
    slides: bool,
}

/// How far the axle has risen from ride, where it has moved at all, and the pinion's nose with it.
#[derive(Clone, Copy)]
pub(super) struct Moved {
    up: Option<Length>,
    nose: Angle,
}

/// How far the axle and the pinion's nose have risen there.
///
/// # Errors
/// The fields that are needed.
pub(super) fn moved(job: &Job, at: At) -> Result<Moved, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (travel, rise) = match at {
        At::Ride => return Ok(Moved { up: None, nose: degrees(0.0) }),
        At::Power => (None, Entry::PowerRise),
        At::Bump => (Some((Entry::BumpTravel, 1.0)), Entry::BumpRise),
        At::Droop => (Some((Entry::DroopTravel, -1.0)), Entry::DroopRise),
    };
    let up = travel.and_then(|(entry, way)| fields.length(entry).map(|by| by * way));
    match fields.angle(rise) {
        Some(nose) if up.is_some() == travel.is_some() => Ok(Moved { up, nose }),
        _ => Err(fields.needs()),
    }
}

/// The readings of one slope; one that cannot be used is not quietly left out.
fn slope(job: &Job, fields: &mut Fields, entry: fn(usize) -> Entry) -> Option<Measured<Angle>> {
    let mut entries = (0..SLOPE_READINGS).map(entry);
    let readings = fields.readings(entries.clone());
    if entries.any(|entry| read(job, entry).is_err()) {
        return None;
    }
    mean_of(&readings, level_division(job.angles.division))
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

/// A length's spread as the numbers of a cause, which all stand in SI units.
fn of_length(spread: Spread<Length>) -> Spread<Angle> {
    Spread { standard: Angle::from_base(spread.standard.base()), freedom: spread.freedom }
}

/// Everything measured of the line.
///
/// # Errors
/// The fields that are needed.
pub(super) fn lie(job: &Job) -> Result<Lie, Vec<Need>> {
    let mut fields = Fields::of(job);
    let mut causes: Vec<Cause> = Vec::new();
    let gearbox = slope(job, &mut fields, Entry::GearboxSlope);
    let pinion = slope(job, &mut fields, Entry::PinionSlope);
    let shaft = shaft(job, &mut fields, &mut causes);
    let bias = bias(job, &mut fields);
    let lengths = fields.sum(length_change(job));
    let plan = plan(job, &mut fields, &mut causes);
    let phase = fields.sum(phase::in_force(job));
    let (Some(gearbox), Some(shaft), Some(pinion), Some(bias), Some(lengths), Some(plan), Some(phase)) =
        (gearbox, shaft, pinion, bias, lengths, plan, phase)
    else {
        return Err(fields.needs());
    };
    let measured: [(Entry, Spread<Angle>, Shift); 5] = [
        (Entry::GearboxSlope(0), gearbox.spread, |laid, by| laid.gearbox += Angle::from_base(by)),
        (Entry::PinionSlope(0), pinion.spread, |laid, by| laid.pinion += Angle::from_base(by)),
        (Entry::OneWay, bias.spread, |laid, by| laid.bias += Angle::from_base(by)),
        (phase_entry(job), phase.spread, |laid, by| laid.phase += Angle::from_base(by)),
        (Entry::WantedReading(0), of_length(lengths.wanted.spread), |laid, by| {
            laid.length += Length::from_base(by);
        }),
    ];
    causes.extend(measured.map(|(entry, spread, shift)| Cause { entry, spread, shift }));
    let laid = Laid {
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
    Ok(Lie {
        laid,
        causes,
        old_slope: heights.and_then(|(front, rear)| slope_between(front, rear, old)),
        heights: heights.map(|(front, rear)| [front, rear, laid.length, old]),
        slides: job.measure.kind == ShaftKind::SlipInGearbox,
    })
}

fn shaft(job: &Job, fields: &mut Fields, causes: &mut Vec<Cause>) -> Option<ShaftSlope> {
    match job.angles.shaft_by {
        ShaftBy::Read => {
            let read = slope(job, fields, Entry::ShaftSlopeRead)?;
            causes.push(Cause {
                entry: Entry::ShaftSlopeRead(0),
                spread: read.spread,
                shift: |laid, by| {
                    if let ShaftSlope::Read(slope) = &mut laid.shaft {
                        *slope += Angle::from_base(by);
                    }
                },
            });
            Some(ShaftSlope::Read(read.best))
        }
        ShaftBy::Heights => {
            let shifts: [(Entry, Shift); 2] = [
                (Entry::FrontHeight, |laid, by| {
                    if let ShaftSlope::Heights { front, .. } = &mut laid.shaft {
                        *front += Length::from_base(by);
                    }
                }),
                (Entry::RearHeight, |laid, by| {
                    if let ShaftSlope::Heights { rear, .. } = &mut laid.shaft {
                        *rear += Length::from_base(by);
                    }
                }),
            ];
            let spread = of_length(of_division(division(job)));
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
        (Entry::GearboxPlan, |laid, by| shift_plan(laid, 0, by)),
        (Entry::ShaftPlan, |laid, by| shift_plan(laid, 1, by)),
        (Entry::PinionPlan, |laid, by| shift_plan(laid, 2, by)),
    ];
    match job.angles.plan_by {
        // Nothing was measured of it: what the eye passes as straight is not asked for a ±.
        PlanBy::Straight => Some(Plan::Angles([degrees(0.0); 3])),
        PlanBy::Offset => {
            causes.push(Cause {
                entry: Entry::SideOffset,
                spread: of_length(rectangular(offset_doubt())),
                shift: |laid, by| {
                    if let Plan::Offset(offset) = &mut laid.plan {
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

fn shift_plan(laid: &mut Laid, which: usize, by: f64) {
    if let Plan::Angles(all) = &mut laid.plan
        && let Some(angle) = all.get_mut(which)
    {
        *angle += Angle::from_base(by);
    }
}

/// What is reckoned of a line, each with its place in [`Told`].
#[derive(Clone, Copy)]
pub(super) enum Of {
    FrontJoint,
    RearJoint,
    ShaftSlope,
    /// Of the pinion, in drive.
    PinionGain,
    /// Of the shaft, driven by the gearbox.
    DriveGain,
    /// Of the shaft, driven by the axle.
    CoastGain,
}

const KINDS: usize = 6;

/// What is reckoned of the line, and what each measurement does to it.
pub(super) struct Told {
    pub(super) attitude: Attitude,
    pub(super) line: Line,
    best: [f64; KINDS],
    parts: Vec<(Entry, [f64; KINDS], f64)>,
}

fn reckoned(attitude: &Attitude, line: &Line) -> [f64; KINDS] {
    let drive = line.peaks();
    [
        line.front_joint().base(),
        line.rear_joint().base(),
        attitude.shaft.slope.base(),
        drive.pinion_gain,
        drive.shaft_gain,
        line.overrun().peaks().shaft_gain,
    ]
}

/// Why a line cannot be.
pub(super) fn unfit(unfit: Unfit) -> Reason {
    match unfit {
        Unfit::OutOfReach => Reason::OutOfReach,
        Unfit::TooSharp(sharp) => {
            Reason::JointTooSharp { rear: sharp.joint == JointAt::Rear, angle: sharp.angle }
        }
    }
}

impl Lie {
    /// The line as laid, with the axle and the pinion there.
    fn attitude(&self, laid: &Laid, moved: Moved) -> Result<Attitude, Unfit> {
        let mut ride = laid.attitude().ok_or(Unfit::OutOfReach)?;
        match moved.up {
            Some(up) => ride.raised(up, moved.nose, laid.length, self.slides),
            None => {
                ride.pinion.slope += moved.nose;
                Ok(ride)
            }
        }
    }

    /// What is reckoned of the line there.
    ///
    /// # Errors
    /// Why there is no such line. The ± of each figure is the root of the squares of
    /// how far it moves as each measurement moves by its standard uncertainty, the larger move of
    /// either way: about a straight line both ways move it the same way, and half their difference would
    /// be nothing. Our own choice within JCGM 100:2008 5.1.3.
    pub(super) fn tell(&self, moved: Moved) -> Result<Told, Blocked> {
        let of = |laid: &Laid| -> Result<(Attitude, Line), Blocked> {
            let no = |no| Blocked::Impossible(unfit(no));
            let attitude = self.attitude(laid, moved).map_err(no)?;
            let line = attitude.line().map_err(no)?;
            Ok((attitude, line))
        };
        let (attitude, line) = of(&self.laid)?;
        let best = reckoned(&attitude, &line);
        let mut parts = Vec::with_capacity(self.causes.len());
        for cause in &self.causes {
            let by = cause.spread.standard.base();
            if by <= 0.0 {
                continue;
            }
            let mut moves = [0.0_f64; KINDS];
            for way in [by, -by] {
                let mut laid = self.laid;
                (cause.shift)(&mut laid, way);
                let (attitude, line) = of(&laid)?;
                for ((most, here), best) in moves.iter_mut().zip(reckoned(&attitude, &line)).zip(best) {
                    *most = most.max((here - best).abs());
                }
            }
            parts.push((cause.entry, moves, cause.spread.freedom));
        }
        Ok(Told { attitude, line, best, parts })
    }

    /// The spread of a slope that is set to make two others agree: gearbox and pinion, and the shaft
    /// `times` over. To first order. The instrument's own error cancels between what it read, so it counts
    /// where heights stand for its reading of the shaft.
    pub(super) fn spread_of_setting(&self, times: f64) -> Spread<Angle> {
        let share = |entry| match entry {
            Entry::GearboxSlope(_) | Entry::PinionSlope(_) => 1.0,
            Entry::ShaftSlopeRead(_) => times,
            Entry::OneWay if self.heights.is_some() => times,
            Entry::FrontHeight | Entry::RearHeight => times / self.laid.length.base(),
            _ => 0.0,
        };
        let parts: Vec<Spread<Angle>> = self
            .causes
            .iter()
            .map(|cause| Spread {
                standard: cause.spread.standard * share(cause.entry),
                freedom: cause.spread.freedom,
            })
            .collect();
        combined(&parts)
    }

    /// New length of the shaft.
    pub(super) fn length(&self) -> Length {
        self.laid.length
    }
}

impl Told {
    /// One of the figures times a factor, with its spread.
    pub(super) fn measured<Q: Base>(&self, of: Of, factor: f64) -> Measured<Q> {
        let scaled = |all: &[f64; KINDS]| factor * all.get(of as usize).copied().unwrap_or(f64::NAN);
        let parts: Vec<Spread<Q>> = self
            .parts
            .iter()
            .map(|(_, moved, freedom)| Spread {
                standard: Q::from_base(scaled(moved)),
                freedom: *freedom,
            })
            .collect();
        Measured { best: Q::from_base(scaled(&self.best)), spread: combined(&parts) }
    }

    /// What each measurement does to the ± of one of them, as shares of its square, the largest first.
    pub(super) fn causes(&self, of: Of) -> Vec<(Entry, f64)> {
        let square = |all: &[f64; KINDS]| all.get(of as usize).map_or(0.0, |moved| moved * moved);
        let whole: f64 = self.parts.iter().map(|(_, moved, _)| square(moved)).sum();
        let mut found: Vec<(Entry, f64)> = Vec::with_capacity(self.parts.len());
        for (entry, moved, _) in &self.parts {
            let share = square(moved) / whole;
            if share > 0.0 {
                let at = found.iter().position(|(_, other)| *other < share).unwrap_or(found.len());
                found.insert(at, (*entry, share));
            }
        }
        found
    }
}
