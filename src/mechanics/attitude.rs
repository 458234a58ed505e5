//! Attitude: slopes and plan angles as they are measured under a vehicle, and how they change as the
//! axle moves.

use core::f64::consts::FRAC_PI_2;

use super::line::{Direction, Line, TooSharp};
use super::space::{UP, Vector};
use crate::quantity::{Angle, Base, Length};

/// The slope and plan angle of one axis as measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaning {
    /// Seen from the side, + falling toward the rear.
    pub slope: Angle,
    /// Seen from above, + going right as it runs rearward.
    pub plan: Angle,
}

/// How gearbox, shaft and pinion stand, and the yokes' phase.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attitude {
    /// The gearbox's output shaft.
    pub gearbox: Leaning,
    /// The drive shaft.
    pub shaft: Leaning,
    /// The axle's pinion.
    pub pinion: Leaning,
    /// The turn of the shaft's rear yoke against its front yoke, clockwise seen from the rear.
    pub phase: Angle,
}

/// Why there is no line of an attitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unfit {
    /// A joint at or past 45°.
    TooSharp(TooSharp),
    /// An angle at or past 90° or no number, or a place that the shaft does not reach.
    OutOfReach,
}

impl Leaning {
    fn direction(self) -> Result<Direction, Unfit> {
        Direction::new(self.slope, self.plan).ok_or(Unfit::OutOfReach)
    }
}

impl Attitude {
    /// The line that stands like this.
    ///
    /// # Errors
    /// [`Unfit::OutOfReach`] unless every slope and plan angle is below 90° and the phase is a number;
    /// [`Unfit::TooSharp`] for a joint at or past 45°.
    pub fn line(&self) -> Result<Line, Unfit> {
        let [gearbox, shaft, pinion] = [self.gearbox, self.shaft, self.pinion].map(Leaning::direction);
        if !self.phase.base().is_finite() {
            return Err(Unfit::OutOfReach);
        }
        Line::new(gearbox?, shaft?, pinion?, self.phase).map_err(Unfit::TooSharp)
    }

    /// The same line when the axle has risen `up` (negative: drooped), the rear joint going straight up,
    /// and the pinion's nose has risen by `nose`, so that its slope is so much more. `length` is joint to
    /// joint at ride. With `slides`, a slip yoke on the gearbox's output shaft, the joints keep their
    /// distance and the front one slides along that shaft; else the front joint stays and the slip is in
    /// the shaft.
    ///
    /// Formula: from the front joint at ride to the rear joint d = L·a₁ + h·ẑ; the shaft points along d,
    /// or along d − s·a₀ with s = d·a₀ − √(L² − |d − (d·a₀)·a₀|²), which makes that as long as L.
    /// Symbols: L length; a₀, a₁ unit axes of gearbox and shaft at ride; ẑ upright; h rise; s how far the
    /// front joint slides rearward.
    /// Source: geometry, as in [`Swing::distance`](super::travel::Swing::distance). Assumes that the
    /// rear joint goes straight up and the pinion keeps its plan angle.
    ///
    /// # Errors
    /// As [`Attitude::line`], at ride or raised; and [`Unfit::OutOfReach`] unless L > 0, where the shaft
    /// would not run rearward, or where it is too short to reach its output shaft.
    pub fn raised(
        &self,
        up: Length,
        nose: Angle,
        length: Length,
        slides: bool,
    ) -> Result<Attitude, Unfit> {
        let (gearbox, shaft) = (self.gearbox.direction()?.vector(), self.shaft.direction()?.vector());
        // In shaft lengths.
        let rise = up.base() / length.base();
        if !(length.base() > 0.0 && rise.is_finite()) {
            return Err(Unfit::OutOfReach);
        }
        let mut way = shaft.plus(rise, UP);
        if slides {
            let along = way.dot(gearbox);
            let across = way.plus(-along, gearbox).size();
            if across >= 1.0 {
                return Err(Unfit::OutOfReach);
            }
            way = way.plus(((1.0 - across) * (1.0 + across)).sqrt() - along, gearbox);
        }
        let pinion = Leaning { slope: self.pinion.slope + nose, ..self.pinion };
        let moved = Attitude { shaft: pointing(way)?, pinion, ..*self };
        moved.line()?;
        Ok(moved)
    }
}

/// How an axis leans that points along a way.
fn pointing(way: Vector) -> Result<Leaning, Unfit> {
    let axis = Direction::along(way).ok_or(Unfit::OutOfReach)?;
    Ok(Leaning { slope: axis.slope(), plan: axis.plan() })
}

/// Slope of a shaft between joints at these heights.
///
/// Formula: σ = asin((f − r)/L), + falling toward the rear.
/// Symbols: f, r heights of the front and rear joint over one level, L joint to joint, lengths.
/// Range: `None` unless |f − r| < L. Source: geometry. Assumes a shaft that runs straight rearward: seen
/// from the side, one that goes off by κ has a slope greater by κ²/2 of it (0.4 % at 5°).
pub fn slope_between(front: Length, rear: Length, length: Length) -> Option<Angle> {
    let sine = (front.base() - rear.base()) / length.base();
    (length.base() > 0.0 && sine.abs() < 1.0).then(|| Angle::from_base(sine.asin()))
}

/// Plan angle of a shaft whose rear joint lies so far to the right of its front joint.
///
/// Formula: tan κ = o/(cos σ·√(L² − o²)).
/// Symbols: o offset to the right looking forward, L joint to joint, lengths; σ slope in the side view.
/// Range: `None` unless |o| < L and |σ| < 90°. Source: geometry: the part of (1, tan κ, −tan σ) across,
/// over its length, is o/L.
pub fn plan_of_offset(offset: Length, length: Length, slope: Angle) -> Option<Angle> {
    let part = offset.base() / length.base();
    let in_range = length.base() > 0.0 && part.abs() < 1.0 && slope.base().abs() < FRAC_PI_2;
    let under = slope.base().cos() * ((1.0 - part) * (1.0 + part)).sqrt();
    in_range.then(|| Angle::from_base(part.atan2(under)))
}
