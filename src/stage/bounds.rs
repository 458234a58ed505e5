//! Top speed and the limits that the angles are judged by.

use super::field::Fields;
use super::finding::{Blocked, Need, Source};
use super::told::Told;
use crate::job::{Entry, Job};
use crate::mechanics::line::joint_with_gain;
use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, as_degrees, as_radians_per_second_squared,
    turn_rate_squared,
};

/// Torsional acceleration of the pinion: 400 rad/s², decoded from a two-joint table of the AE-7 kind;
/// 300 for heavy duty, from memory.
const PUBLISHED_SHAKE: f64 = 400.0;
const HEAVY_SHAKE: f64 = 300.0;
/// Acceleration of the shaft between its joints: 1000 rad/s², 500 for quiet running, both from memory.
const SHAFT_SHAKES: [f64; 2] = [1000.0, 500.0];
/// Least angle of a joint on needle bearings: 1° and 1/2°, both published.
const LEAST_ANGLES: [f64; 2] = [1.0, 0.5];

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
    /// The joint that accelerates the shaft by as much as is allowed, at top speed.
    pub fn most_angle(&self) -> Option<Angle> {
        joint_with_gain(self.inertia.base() / turn_rate_squared(self.top))
    }
}

/// Speed and limits.
///
/// # Errors
/// The fields that are needed.
pub fn bounds(job: &Job) -> Result<Bounds, Vec<Need>> {
    let mut fields = Fields::of(job);
    let top = fields.speed(Entry::TopSpeed);
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
    told: &'a Result<Told, Blocked>,
) -> Result<(&'a Told, Bounds), Blocked> {
    match (told, bounds(job)) {
        (Err(Blocked::Impossible(reason)), _) => Err(Blocked::Impossible(*reason)),
        (Ok(told), Ok(bounds)) => Ok((told, bounds)),
        (told, bounds) => {
            let mut fields = Fields::of(job);
            if let Err(Blocked::Missing(needs)) = told {
                fields.also(needs);
            }
            if let Err(needs) = bounds {
                fields.also(&needs);
            }
            Err(Blocked::Missing(fields.needs()))
        }
    }
}
