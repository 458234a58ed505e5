//! Top speed and the limits that the angles are judged by.

use super::field::Fields;
use super::finding::{Blocked, Need, Source};
use super::reckoned::Reckoned;
use crate::job::{Entry, Job};
use crate::mechanics::line::joint_with_gain;
use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, as_degrees, as_radians_per_second_squared,
    degrees, turn_rate_squared,
};

/// Torsional acceleration of the pinion: 400 rad/s², decoded from a two-joint table of the AE-7 kind;
/// 300 for heavy duty, from memory.
const PUBLISHED_SHAKE: f64 = 400.0;
const HEAVY_SHAKE: f64 = 300.0;
/// Acceleration of the shaft between its joints: 1000 rad/s², 500 for quiet running, both from memory.
const SHAFT_SHAKES: [f64; 2] = [1000.0, 500.0];
/// Least angle of a joint on needle bearings: 1° and 1/2°, both published.
const LEAST_ANGLES: [f64; 2] = [1.0, 0.5];
/// No cardan joint of a road vehicle works there, see [`Line::new`](crate::mechanics::line::Line::new).
const MOST_ANGLE_DEGREES: f64 = 45.0;

fn is_one_of(known: &[f64], value: f64) -> bool {
    known.iter().any(|one| (one - value).abs() < 1e-6)
}

/// Where the limit of the pinion's shake comes from.
pub(super) fn shake_source(limit: AngularAcceleration) -> Source {
    let value = as_radians_per_second_squared(limit);
    if is_one_of(&[PUBLISHED_SHAKE], value) {
        Source::TwoJointTable
    } else if is_one_of(&[HEAVY_SHAKE], value) {
        Source::ShakeFromMemory
    } else {
        Source::OwnLimit
    }
}

pub(super) fn inertia_source(limit: AngularAcceleration) -> Source {
    let known = is_one_of(&SHAFT_SHAKES, as_radians_per_second_squared(limit));
    if known { Source::ShakeFromMemory } else { Source::OwnLimit }
}

pub(super) fn least_source(limit: Angle) -> Source {
    let known = is_one_of(&LEAST_ANGLES, as_degrees(limit));
    if known { Source::NeedleBearings } else { Source::OwnLimit }
}

/// Speed and limits that the angles are judged by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Top speed of the shaft.
    pub top: AngularVelocity,
    /// Most torsional acceleration of the pinion.
    pub shake: AngularAcceleration,
    /// Most acceleration of the shaft.
    pub inertia: AngularAcceleration,
    /// Least angle of a joint.
    pub least: Angle,
}

impl Bounds {
    /// The joint that accelerates the shaft by as much as is allowed, at top speed; 45°, past which no
    /// joint works, where so slow a shaft is not shaken by as much at any angle.
    pub fn most_angle(&self) -> Angle {
        let gain = self.inertia.base() / turn_rate_squared(self.top);
        joint_with_gain(gain).unwrap_or(degrees(MOST_ANGLE_DEGREES))
    }
}

/// Speed and limits.
///
/// # Errors
/// The fields that are needed.
pub fn bounds(job: &Job) -> Result<Bounds, Vec<Need>> {
    let mut fields = Fields::of(job);
    let top = fields.top_speed();
    let shake = fields.acceleration(Entry::TorsionalLimit);
    let inertia = fields.acceleration(Entry::InertiaLimit);
    let least = fields.angle(Entry::LeastAngle);
    match (top, shake, inertia, least) {
        (Some(top), Some(shake), Some(inertia), Some(least)) => {
            Ok(Bounds { top, shake, inertia, least })
        }
        _ => Err(fields.needs()),
    }
}

/// Both, or what stands in the way of either.
pub(super) fn with_bounds<'a>(
    job: &Job,
    reckoned: &'a Result<Reckoned, Blocked>,
) -> Result<(&'a Reckoned, Bounds), Blocked> {
    match (reckoned, bounds(job)) {
        (Err(Blocked::Impossible(reason)), _) => Err(Blocked::Impossible(*reason)),
        (Ok(reckoned), Ok(bounds)) => Ok((reckoned, bounds)),
        (reckoned, bounds) => {
            let mut fields = Fields::of(job);
            if let Err(Blocked::Missing(needs)) = reckoned {
                fields.also(needs);
            }
            if let Err(needs) = bounds {
                fields.also(&needs);
            }
            Err(Blocked::Missing(fields.needs()))
        }
    }
}
