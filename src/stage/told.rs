//! What is reckoned of the line at ride, under power, at bump and droop, and what each measurement does
//! to it.

use super::finding::{Blocked, Need, Reason};
use super::lie::{Laid, Lie};
use crate::job::Entry;
use crate::mechanics::attitude::{Attitude, Unfit};
use crate::mechanics::line::{JointAt, Line};
use crate::mechanics::uncertainty::{Measured, Spread, combined};
use crate::quantity::Base;

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
    /// The line as laid, with the axle and the pinion there; none where that is not known.
    fn attitude(&self, laid: &Laid, at: At) -> Option<Result<Attitude, Unfit>> {
        let Some(mut ride) = laid.attitude() else { return Some(Err(Unfit::OutOfReach)) };
        let [bump, droop] = self.travel;
        let ((up, nose), length) = match at {
            At::Ride => return Some(Ok(ride)),
            At::Power => {
                ride.pinion.slope += self.power_rise?;
                return Some(Ok(ride));
            }
            At::Bump => (bump?, laid.length),
            At::Droop => (droop?, laid.length),
        };
        Some(ride.raised(up, nose, length, self.slides))
    }

    /// What is reckoned of the line there.
    ///
    /// # Errors
    /// What is missing, or why there is no such line. The ± of each figure is the root of the squares of
    /// how far it moves as each measurement moves by its standard uncertainty, the larger move of
    /// either way: about a straight line both ways move it the same way, and half their difference would
    /// be nothing. Our own choice within JCGM 100:2008 5.1.3.
    pub(super) fn tell(&self, at: At) -> Result<Told, Blocked> {
        let needs: &[Entry] = match at {
            At::Ride => &[],
            At::Power => &[Entry::PowerRise],
            At::Bump => &[Entry::BumpTravel, Entry::BumpRise],
            At::Droop => &[Entry::DroopTravel, Entry::DroopRise],
        };
        let of = |laid: &Laid| -> Result<(Attitude, Line), Blocked> {
            let Some(attitude) = self.attitude(laid, at) else {
                return Err(Blocked::Missing(needs.iter().map(|entry| Need::of(*entry)).collect()));
            };
            let attitude = attitude.map_err(|no| Blocked::Impossible(unfit(no)))?;
            let line = attitude.line().map_err(|no| Blocked::Impossible(unfit(no)))?;
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
            let mut moved = [0.0_f64; KINDS];
            for way in [by, -by] {
                let mut laid = self.laid;
                (cause.shift)(&mut laid, way);
                let (attitude, line) = of(&laid)?;
                for ((most, here), best) in moved.iter_mut().zip(reckoned(&attitude, &line)).zip(best) {
                    *most = most.max((here - best).abs());
                }
            }
            parts.push((cause.entry, moved, cause.spread.freedom));
        }
        Ok(Told { attitude, line, best, parts })
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
