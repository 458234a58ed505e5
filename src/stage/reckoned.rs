//! What is reckoned of the line at ride, under power, at bump and droop, and what each measurement does
//! to it.

use super::field::Fields;
use super::finding::{Blocked, Need, Reason, Verdict};
use super::line::{MeasuredLine, Readings, axle_spread, rise_spread};
use crate::job::{Entry, Job};
use crate::mechanics::attitude::{Attitude, Ties, Unfit};
use crate::mechanics::line::{JointAt, Line};
use crate::mechanics::uncertainty::{Measured, Spread, combined};
use crate::quantity::{Angle, Base, Length, degrees};

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

/// What is reckoned of a line, each with its place in [`Reckoned`].
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
pub(super) struct Reckoned {
    pub(super) attitude: Attitude,
    pub(super) line: Line,
    /// What is odd about the readings of a slope.
    pub(super) remark: Option<Reason>,
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

/// How far axle and pinion have moved from ride.
#[derive(Clone, Copy)]
pub(super) struct Moved {
    up: Length,
    nose: Angle,
    arm: Length,
    /// What moves it: the travel and the rise.
    by: (Option<Entry>, Option<Entry>),
}

/// How far axle and pinion have moved there.
///
/// # Errors
/// The fields that are needed.
pub(super) fn moved(job: &Job, at: At) -> Result<Moved, Vec<Need>> {
    let (zero, none) = (Length::from_base(0.0), degrees(0.0));
    let mut fields = Fields::of(job);
    let (travel, rise) = match at {
        At::Ride => return Ok(Moved { up: zero, nose: none, arm: zero, by: (None, None) }),
        At::Power => (None, Entry::PowerRise),
        At::Bump => (Some((Entry::BumpTravel, 1.0)), Entry::BumpRise),
        At::Droop => (Some((Entry::DroopTravel, -1.0)), Entry::DroopRise),
    };
    let up = match travel {
        Some((entry, way)) => fields.length(entry).map(|by| by * way),
        None => Some(zero),
    };
    let (nose, arm) = (fields.angle(rise), fields.length(Entry::PinionArm));
    match (up, nose, arm) {
        (Some(up), Some(nose), Some(arm)) => {
            Ok(Moved { up, nose, arm, by: (travel.map(|(entry, _)| entry), Some(rise)) })
        }
        _ => Err(fields.needs()),
    }
}

/// What moves with how the axle has moved, by so much in SI units.
type Shift = fn(&mut Moved, f64);

impl Moved {
    /// Each measurement of it with its standard uncertainty in SI units.
    fn causes(&self) -> Vec<(Entry, f64, Shift)> {
        let (travel, rise) = self.by;
        let (axle, nose) = (axle_spread().standard.base(), rise_spread().standard.base());
        let mut all: Vec<(Entry, f64, Shift)> = Vec::new();
        all.extend(travel.map(|entry| {
            let shift: Shift = |moved, by| moved.up += Length::from_base(by);
            (entry, axle, shift)
        }));
        if let Some(entry) = rise {
            all.push((entry, nose, |moved, by| moved.nose += Angle::from_base(by)));
            all.push((Entry::PinionArm, axle, |moved, by| moved.arm += Length::from_base(by)));
        }
        all
    }
}

impl MeasuredLine {
    /// What ties the line to an axle whose centre is so far from the rear joint.
    pub(super) fn ties(&self, arm: Length) -> Ties {
        Ties { length: self.readings.length, slides: self.slides, arm }
    }

    /// What is reckoned of the line there.
    ///
    /// # Errors
    /// Why there is no such line. The ± of each figure is the root of the squares of how far it moves as
    /// each measurement moves by its standard uncertainty, the larger move of either way: about a straight
    /// line both ways move it the same way, and half their difference would be nothing. Our own choice
    /// within JCGM 100:2008 5.1.3.
    pub(super) fn reckon(&self, moved: Moved) -> Result<Reckoned, Blocked> {
        let of = |readings: &Readings, moved: &Moved| -> Result<(Attitude, Line), Unfit> {
            let ties = Ties { length: readings.length, ..self.ties(moved.arm) };
            let ride = readings.attitude().ok_or(Unfit::OutOfReach)?;
            // Where nothing has moved, what does not come in shall not by a last bit.
            let attitude = match moved.by {
                (None, None) => ride,
                _ => ride.raised(moved.up, moved.nose, ties)?,
            };
            Ok((attitude, attitude.line()?))
        };
        let (attitude, line) =
            of(&self.readings, &moved).map_err(|no| Blocked::Impossible(unfit(no)))?;
        let best = reckoned(&attitude, &line);
        let part = |shifted: &dyn Fn(f64) -> (Readings, Moved), by: f64| {
            let mut moves = [0.0_f64; KINDS];
            for way in [by, -by] {
                let (readings, moved) = shifted(way);
                // What is past 45° a hair further on is not past it here.
                let Ok((attitude, line)) = of(&readings, &moved) else { continue };
                for ((most, here), best) in moves.iter_mut().zip(reckoned(&attitude, &line)).zip(best) {
                    *most = most.max((here - best).abs());
                }
            }
            moves
        };
        let mut parts = Vec::with_capacity(self.causes.len() + 3);
        for cause in &self.causes {
            let shifted = |by: f64| {
                let mut readings = self.readings;
                (cause.shift)(&mut readings, by);
                (readings, moved)
            };
            let moves = part(&shifted, cause.spread.standard.base());
            parts.push((cause.entry, moves, cause.spread.freedom));
        }
        for (entry, by, shift) in moved.causes() {
            let shifted = |by: f64| {
                let mut moved = moved;
                shift(&mut moved, by);
                (self.readings, moved)
            };
            parts.push((entry, part(&shifted, by), f64::INFINITY));
        }
        Ok(Reckoned { attitude, line, remark: self.remark, best, parts })
    }
}

impl Reckoned {
    /// Gearbox and pinion lie on one side of the shaft's slope.
    pub(super) fn is_parallel(&self) -> bool {
        let side = |slope: Angle| (slope - self.attitude.shaft.slope).base();
        side(self.attitude.gearbox.slope) * side(self.attitude.pinion.slope) >= 0.0
    }

    /// The verdict, with what is odd about the readings of a slope where nothing worse stands against it.
    pub(super) fn remarked(&self, verdict: Verdict) -> Verdict {
        match (self.remark, verdict) {
            (Some(remark), Verdict::Good) => Verdict::Watch(remark),
            _ => verdict,
        }
    }

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
