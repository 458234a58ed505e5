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

/// What ties the line to the axle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ties {
    /// Joint to joint at ride.
    pub length: Length,
    /// A slip yoke runs on the gearbox's output shaft: the joints keep their distance and the front one
    /// slides along that shaft. Else the front joint stays and the slip is in the shaft.
    pub slides: bool,
    /// From the axle's centre forward to the rear joint, along the pinion.
    pub arm: Length,
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

    /// The same line when the axle has risen `up` (negative: drooped), going straight up, and has turned
    /// about its own centre so that the pinion's nose has risen by `nose` and its slope is so much more.
    ///
    /// Formula: from the front joint at ride to the rear joint d = L·a₁ + h·ẑ − p·(a₂′ − a₂); the shaft
    /// points along d, or along d − s·a₀ with s = d·a₀ − √(L² − |d − (d·a₀)·a₀|²), which makes that as
    /// long as L.
    /// Symbols: L length and p arm of the [`Ties`]; a₀, a₁, a₂ unit axes of gearbox, shaft and pinion at
    /// ride, a₂′ the pinion's afterwards; ẑ upright; h rise; s how far the front joint slides rearward.
    /// Source: geometry, as in [`Swing::distance`](super::travel::Swing::distance). Assumes that the
    /// pinion keeps its plan angle.
    ///
    /// # Errors
    /// As [`Attitude::line`], at ride or raised; and [`Unfit::OutOfReach`] unless L > 0, where the shaft
    /// would not run rearward, or where it is too short to reach its output shaft.
    pub fn raised(&self, up: Length, nose: Angle, ties: Ties) -> Result<Attitude, Unfit> {
        let moved = self.moved(up, nose, ties)?;
        moved.line()?;
        Ok(moved)
    }

    /// The same without a look at its joints.
    pub(super) fn moved(&self, up: Length, nose: Angle, ties: Ties) -> Result<Attitude, Unfit> {
        let (gearbox, shaft) = (self.gearbox.direction()?.vector(), self.shaft.direction()?.vector());
        let pinion = Leaning { slope: self.pinion.slope + nose, ..self.pinion };
        let (before, after) = (self.pinion.direction()?.vector(), pinion.direction()?.vector());
        // In shaft lengths.
        let (rise, arm) = (up.base() / ties.length.base(), ties.arm.base() / ties.length.base());
        if !(ties.length.base() > 0.0 && rise.is_finite() && arm.is_finite()) {
            return Err(Unfit::OutOfReach);
        }
        let mut way = shaft.plus(rise, UP).plus(-arm, after).plus(arm, before);
        if ties.slides {
            let along = way.dot(gearbox);
            let across = way.plus(-along, gearbox).size();
            if across >= 1.0 {
                return Err(Unfit::OutOfReach);
            }
            way = way.plus(((1.0 - across) * (1.0 + across)).sqrt() - along, gearbox);
        }
        Ok(Attitude { shaft: pointing(way)?, pinion, ..*self })
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

#[cfg(test)]
mod tests {
    use super::super::line::JointAt;
    use super::super::luck::luck;
    use super::super::travel::Swing;
    use super::*;
    use crate::quantity::{as_degrees, degrees, in_inches, inches};

    /// A joint at the axle's own centre: no nose lifts it.
    fn tied(length: Length, slides: bool) -> Ties {
        Ties { length, slides, arm: inches(0.0) }
    }

    #[test]
    fn a_nose_that_rises_carries_its_joint_up() {
        // By construction: 10 in from the axle's centre to the joint, level and then 30° nose up: 5 in up
        // and 10·(1 − cos 30°) rearward, from 50 in of level shaft whose front joint stays.
        let level = attitude((0.0, 0.0), (0.0, 0.0), (0.0, 0.0));
        let ties = Ties { arm: inches(10.0), ..tied(inches(50.0), false) };
        let moved = level.raised(inches(0.0), degrees(30.0), ties).unwrap();
        let run = 50.0 + 10.0 * (1.0 - f64::to_radians(30.0).cos());
        assert!((moved.shaft.slope.base() + (5.0 / run).atan()).abs() < 1e-12);
        assert!((as_degrees(moved.pinion.slope) - 30.0).abs() < 1e-12);
    }

    fn leaning(slope: f64, plan: f64) -> Leaning {
        Leaning { slope: degrees(slope), plan: degrees(plan) }
    }

    fn attitude(gearbox: (f64, f64), shaft: (f64, f64), pinion: (f64, f64)) -> Attitude {
        let [gearbox, shaft, pinion] = [gearbox, shaft, pinion].map(|(s, p)| leaning(s, p));
        Attitude { gearbox, shaft, pinion, phase: degrees(0.0) }
    }

    /// Attitudes by luck with a rise and whether the yoke slides.
    fn all(seed: u64) -> Vec<(Attitude, f64)> {
        let mut between = luck(seed);
        (0..300)
            .map(|_| {
                let mut lean = || (between(-12.0, 12.0), between(-6.0, 6.0));
                (attitude(lean(), lean(), lean()), between(-6.0, 6.0))
            })
            .collect()
    }

    fn same(one: &Attitude, two: &Attitude, near: f64) -> bool {
        let flat = |a: &Attitude| [a.gearbox, a.shaft, a.pinion].map(|l| [l.slope, l.plan]);
        let pairs = flat(one).into_iter().flatten().zip(flat(two).into_iter().flatten());
        pairs.into_iter().all(|(a, b)| (a - b).base().abs() < near)
    }

    #[test]
    fn raised_to_where_the_rear_joint_is() {
        for (place, (at, up)) in all(21).into_iter().enumerate() {
            let (length, nose) = (inches(50.0), degrees(1.5));
            let axis = |lean: Leaning| lean.direction().unwrap().vector();
            // The rear joint as it is at ride, and so much higher: by construction.
            let target = axis(at.shaft).plus(up / 50.0, UP);
            let stays = at.raised(inches(up), nose, tied(length, false)).unwrap();
            assert!(axis(stays.shaft).cross(target).size() < 1e-12, "{place}");
            // Law: sliding, the shaft is as long as ever, from a place on the gearbox's axis.
            let slides = at.raised(inches(up), nose, tied(length, true)).unwrap();
            let slid = target.plus(-1.0, axis(slides.shaft));
            assert!(slid.cross(axis(at.gearbox)).size() < 1e-12, "{place}");
            // And by little: not to the far place where the sphere meets the axis a second time.
            assert!(slid.size() < 0.1, "{place} {}", slid.size());
            for moved in [stays, slides] {
                assert!((as_degrees(moved.pinion.slope - at.pinion.slope) - 1.5).abs() < 1e-9);
                assert_eq!((moved.gearbox, moved.phase), (at.gearbox, at.phase));
                assert_eq!(moved.pinion.plan, at.pinion.plan);
            }
            // Law: there and back is nothing; sliding the length is the same on the way back.
            let back = slides.raised(inches(-up), -nose, tied(length, true)).unwrap();
            assert!(same(&back, &at, 1e-12), "{place}");
            let longer = length * target.size();
            assert!(same(&stays.raised(inches(-up), -nose, tied(longer, false)).unwrap(), &at, 1e-12));
            for slides in [true, false] {
                let still = at.raised(inches(0.0), degrees(0.0), tied(length, slides)).unwrap();
                assert!(same(&still, &at, 1e-12), "{place}");
            }
        }
    }

    #[test]
    fn the_yoke_slides_as_far_as_the_travel_says() {
        // Law: in the side view the slip spans what travel.rs reckons by itself, with the shaft's slope
        // that is found here.
        for (slope, output, up) in [(5.0, 3.0, 4.0), (-2.0, 1.0, -3.0), (0.0, 0.0, 6.0)] {
            let at = attitude((output, 0.0), (slope, 0.0), (output, 0.0));
            let moved = at.raised(inches(up), degrees(0.0), tied(inches(40.0), true)).unwrap();
            let swing = Swing {
                length: inches(40.0),
                slope: degrees(slope),
                link: None,
                output: Some(degrees(output)),
            };
            let out = in_inches(swing.distance(inches(up)).unwrap()) - 40.0;
            // How far rearward the front joint has gone, from how far the rear one has not.
            let gone = 40.0 * (degrees(slope).base().cos() - moved.shaft.slope.base().cos());
            assert!((gone - out * degrees(output).base().cos()).abs() < 1e-9, "{slope}");
        }
    }

    #[test]
    fn a_joint_straightens_as_the_axle_rises() {
        // By construction: 50 in of shaft that falls 3 in to an axle on its bump, so it is level there.
        let slope = slope_between(inches(3.0), inches(0.0), inches(50.0)).unwrap();
        let mut at = attitude((0.0, 0.0), (0.0, 0.0), (0.0, 0.0));
        at.shaft.slope = slope;
        for slides in [true, false] {
            let moved = at.raised(inches(3.0), degrees(0.0), tied(inches(50.0), slides)).unwrap();
            assert!(moved.shaft.slope.base().abs() < 1e-12);
        }
        // By definition: 3 in over 50 is an angle whose sine is 0.06.
        assert!((slope.base().sin() - 0.06).abs() < 1e-15);
        assert!(slope_between(inches(0.0), inches(3.0), inches(50.0)).unwrap().base() < 0.0);
    }

    #[test]
    fn plan_from_an_offset() {
        // Law: the direction's part across is the offset over the length.
        for (offset, slope) in [(2.0, 0.0), (2.0, 8.0), (-3.5, -4.0), (0.0, 5.0), (20.0, 30.0)] {
            let slope = degrees(slope);
            let plan = plan_of_offset(inches(offset), inches(48.0), slope).unwrap();
            let Vector([_, across, _]) = Direction::new(slope, plan).unwrap().vector();
            assert!((across - offset / 48.0).abs() < 1e-14, "{offset}");
        }
    }

    #[test]
    fn out_of_reach() {
        // By definition of the ranges.
        let level = attitude((0.0, 0.0), (0.0, 0.0), (0.0, 0.0));
        let up = |up: f64, length: f64, slides: bool| {
            level.raised(inches(up), degrees(0.0), tied(inches(length), slides))
        };
        assert_eq!(up(50.0, 50.0, true), Err(Unfit::OutOfReach));
        for (rise, length) in [
            (1.0, 0.0),
            (0.0, 0.0),
            (1.0, -5.0),
            (f64::NAN, 50.0),
            (1.0, f64::NAN),
            (f64::INFINITY, 50.0),
        ] {
            assert_eq!(up(rise, length, false), Err(Unfit::OutOfReach), "{rise} {length}");
            assert_eq!(up(rise, length, true), Err(Unfit::OutOfReach), "{rise} {length}");
        }
        // 45° of shaft, whose front joint is the first to be too sharp.
        let Err(Unfit::TooSharp(sharp)) = up(50.0, 50.0, false) else { panic!("a line at 45°") };
        assert!(sharp.joint == JointAt::Front && (as_degrees(sharp.angle) - 45.0).abs() < 1e-9);
        let nose = |nose: f64| level.raised(inches(0.0), degrees(nose), tied(inches(50.0), false));
        assert!(nose(44.0).is_ok() && matches!(nose(46.0), Err(Unfit::TooSharp(_))));
        assert_eq!(nose(90.0), Err(Unfit::OutOfReach));
        assert_eq!(nose(f64::NAN), Err(Unfit::OutOfReach));
        for bad in [f64::NAN, f64::INFINITY] {
            let none = Attitude { phase: degrees(bad), ..level };
            assert_eq!(none.line(), Err(Unfit::OutOfReach));
            assert_eq!(attitude((0.0, bad), (0.0, 0.0), (0.0, 0.0)).line(), Err(Unfit::OutOfReach));
        }
        let between = |f: f64, l: f64| slope_between(inches(f), inches(0.0), inches(l));
        assert!(between(50.0, 50.0).is_none() && between(f64::NAN, 50.0).is_none());
        assert!(between(1.0, 0.0).is_none() && between(1.0, -50.0).is_none());
        let aside = |o: f64, l: f64, s: f64| plan_of_offset(inches(o), inches(l), degrees(s));
        assert!(aside(50.0, 50.0, 0.0).is_none() && aside(1.0, 50.0, 90.0).is_none());
        assert!(aside(f64::NAN, 50.0, 0.0).is_none() && aside(1.0, 50.0, f64::NAN).is_none());
        assert!(aside(1.0, 0.0, 0.0).is_none() && aside(1.0, -50.0, 0.0).is_none());
    }
}
