//! Travel: how far apart the two joints' centres are as the axle rises and droops.

use core::f64::consts::FRAC_PI_2;

pub use super::extremes::{Extremes, extremes};
use crate::quantity::{Angle, Base, Length};

/// How far beyond a measured height the curve through three still answers, in metres: a last bit.
const LAST_BIT: f64 = 1e-9;

/// The link that leads the axle: a trailing or leading arm, or the front half of a leaf spring taken
/// as one arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// From the pivot on the frame to the link's end on the axle, seen from the side.
    pub radius: Length,
    /// Height of the axle end over the frame pivot at ride, + up.
    pub rise: Length,
    /// Whether the pivot lies ahead of the axle, so that the link trails.
    pub trails: bool,
}

/// A shaft that swings about its front joint as the axle moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Joint to joint at ride height.
    pub length: Length,
    /// Slope of the shaft at ride height, + falling toward the rear.
    pub slope: Angle,
    /// The link that moves the axle fore and aft, where there is one.
    pub link: Option<Link>,
    /// Slope of the gearbox's output shaft, + falling toward the rear, where a slip yoke runs on it;
    /// none where the front joint stays in its place.
    pub output: Option<Angle>,
}

impl Link {
    /// How far rearward the axle has moved when it has risen `up` from ride; `None` where the link
    /// cannot reach.
    ///
    /// Formula: δ = √(R² − (r+h)²) − √(R² − r²) for a link that trails, the opposite for one that leads.
    fn rearward(self, up: Length) -> Option<f64> {
        let radius = self.radius.base();
        let reach = |height: f64| {
            (height.abs() < radius).then(|| ((radius - height) * (radius + height)).sqrt())
        };
        let rise = self.rise.base();
        let moved = reach(rise + up.base())? - reach(rise)?;
        Some(if self.trails { moved } else { -moved })
    }
}

impl Swing {
    /// What the slip has to span when the axle has risen `up` from ride; negative: drooped. With the
    /// front joint in its place that is the distance between the joints' centres. With a slip yoke on the
    /// output shaft the joints keep their distance and the front one slides along that shaft: it is the
    /// length at ride and the way that the yoke comes out.
    ///
    /// Formula: D = √((X + δ)² + (Y − h)²), X = L·cos θ, Y = L·sin θ; with a link that trails
    /// δ = √(R² − (r+h)²) − √(R² − r²), with one that leads the opposite, without one 0. On an output
    /// shaft of slope ε: D = L + a − √(L² − b²), a = (X + δ)·cos ε + (Y − h)·sin ε the part of the line
    /// between the joints along it, b = (Y − h)·cos ε − (X + δ)·sin ε the part across it.
    /// Symbols: L length and θ slope of the shaft at ride; h rise of the axle; δ its movement
    /// rearward; R radius of the link, r height of its axle end over its pivot at ride. Lengths, and
    /// θ, ε angles.
    /// Range: `None` unless L > 0, |θ| < 90°, with a link |r| < R and |r+h| < R, and on an output shaft
    /// |b| < L.
    /// Source: geometry. Assumes that the rear joint moves as the axle's end of the link does and
    /// straight up without one: the pinion's own nod about the axle, which carries a joint ahead of
    /// the axle up or down with it, is not in it.
    pub fn distance(&self, up: Length) -> Option<Length> {
        let (length, slope) = (self.length.base(), self.slope.base());
        if !(length > 0.0 && slope.abs() < FRAC_PI_2) {
            return None;
        }
        let rearward = match self.link {
            Some(link) => link.rearward(up)?,
            None => 0.0,
        };
        let (back, down) = (length * slope.cos() + rearward, length * slope.sin() - up.base());
        let distance = match self.output {
            None => back.hypot(down),
            Some(output) => {
                let (sin, cos) = output.base().sin_cos();
                let (along, across) = (back * cos + down * sin, down * cos - back * sin);
                if across.abs() >= length {
                    return None;
                }
                length + along - ((length - across) * (length + across)).sqrt()
            }
        };
        distance.is_finite().then(|| Length::from_base(distance))
    }
}

/// The parabola through the distances measured at bump, ride and droop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parabola {
    bump: f64,
    droop: f64,
    ride: f64,
    /// What the distance gains a metre of rise, at ride.
    slope: f64,
    /// Half of what that slope gains a metre of rise.
    bend: f64,
}

impl Parabola {
    /// The curve through three measured distances: at bump and at droop with how far the axle stood
    /// above and below ride there, and at ride.
    ///
    /// Formula: D(h) = D₀ + a·h + b·h², b = (s₁ + s₂)/(h₁ + h₂), a = s₁ − b·h₁, with
    /// s₁ = (D₁ − D₀)/h₁ and s₂ = (D₂ − D₀)/h₂.
    /// Symbols: D₀ distance at ride, D₁ at h₁ above ride, D₂ at h₂ below it; h rise from ride.
    /// Range: `None` unless h₁, h₂, D₀, D₁, D₂ > 0. Source: Newton's divided differences.
    /// Assumes that the distance bends one way over the travel, as a swinging shaft's does.
    pub fn through(bump: (Length, Length), ride: Length, droop: (Length, Length)) -> Option<Parabola> {
        let (above, at_bump) = (bump.0.base(), bump.1.base());
        let (below, at_droop) = (droop.0.base(), droop.1.base());
        let ride = ride.base();
        if !(above > 0.0 && below > 0.0 && ride > 0.0 && at_bump > 0.0 && at_droop > 0.0) {
            return None;
        }
        let gain_above = (at_bump - ride) / above;
        let bend = (gain_above + (at_droop - ride) / below) / (above + below);
        let slope = gain_above - bend * above;
        let found = Parabola { bump: above, droop: below, ride, slope, bend };
        (slope.is_finite() && bend.is_finite()).then_some(found)
    }

    /// The distance when the axle has risen `up` from ride; negative: drooped.
    ///
    /// Range: `None` beyond the measured heights (a last bit is forgiven), since this is for looking
    /// between them, and where the curve would leave no distance at all.
    pub fn distance(&self, up: Length) -> Option<Length> {
        let up = up.base();
        let measured = up <= self.bump + LAST_BIT && -up <= self.droop + LAST_BIT;
        let distance = self.ride + up * (self.slope + up * self.bend);
        (measured && distance > 0.0).then(|| Length::from_base(distance))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degrees, in_inches, inches};

    fn swing(length: f64, drop: f64, link: Option<Link>) -> Swing {
        let slope = Angle::from_base((drop / length).asin());
        Swing { length: inches(length), slope, link, output: None }
    }

    #[test]
    fn a_yoke_on_an_output_shaft_slides_until_the_joints_are_as_far_apart_again() {
        // By hand: 30 in at 8° lies 30·sin 8° = 4.1752 below its front joint, drooped by 6 it lies 10.1752
        // below; along a level output shaft √(900 − 4.1752²) − √(900 − 10.1752²) = 29.7081 − 28.2218. With
        // its front joint in its place it is √(29.7081² + 10.1752²) − 30 = 1.4022.
        let level =
            Swing { length: inches(30.0), slope: degrees(8.0), link: None, output: Some(degrees(0.0)) };
        let out = |shaft: Swing| in_inches(shaft.distance(inches(-6.0)).unwrap()) - 30.0;
        assert!((out(level) - 1.486).abs() < 5e-4, "{}", out(level));
        assert!((out(Swing { output: None, ..level }) - 1.402).abs() < 5e-4);
        // Nothing slides at ride, whatever the output shaft's slope; and none reaches across L.
        for output in [-10.0, 0.0, 8.0] {
            let shaft = Swing { output: Some(degrees(output)), ..level };
            assert!((in_inches(shaft.distance(inches(0.0)).unwrap()) - 30.0).abs() < 1e-9);
        }
        assert!(level.distance(inches(-25.8)).is_some() && level.distance(inches(-25.9)).is_none());
    }

    #[test]
    fn along_the_shaft_itself_both_ways_agree_to_second_order() {
        // A law: of D/L in powers of h/L, 1 − h·sin θ + h²·cos² θ/2 stands in both; the first that is
        // left is h³·sin θ·cos² θ/2, so that half the height leaves an eighth.
        for slope in [-12.0, -5.0, 3.0, 9.0] {
            let fixed = swing(50.0, 50.0 * f64::to_radians(slope).sin(), None);
            let slides = Swing { output: Some(degrees(slope)), ..fixed };
            let left = |up: f64| {
                let [one, other] =
                    [fixed, slides].map(|shaft| in_inches(shaft.distance(inches(up)).unwrap()));
                one - other
            };
            // The odd part: the fourth is even.
            let left = |up: f64| (left(up) - left(-up)) / 2.0;
            let (sin, cos) = f64::to_radians(slope).sin_cos();
            for up in [-0.5, 0.5] {
                let third = f64::powi(up, 3) * sin * cos * cos / 2.0 / 2500.0;
                assert!((left(up) - third).abs() < 0.02 * third.abs(), "{slope} {up}");
                assert!((left(2.0 * up) / left(up) - 8.0).abs() < 0.1, "{slope} {up}");
            }
        }
    }

    fn link(radius: f64, rise: f64, trails: bool) -> Option<Link> {
        Some(Link { radius: inches(radius), rise: inches(rise), trails })
    }

    fn at(swing: &Swing, up: f64) -> f64 {
        in_inches(swing.distance(inches(up)).unwrap())
    }

    fn ends(swing: &Swing, droop: f64, bump: f64) -> [f64; 4] {
        let found = extremes(&|up| swing.distance(up), inches(droop), inches(bump)).unwrap();
        [found.least, found.least_at, found.greatest, found.greatest_at].map(in_inches)
    }

    #[test]
    fn the_shaft_is_shortest_where_it_is_level() {
        // By construction: 6 in of drop over 50, so level 6 in above ride, as long as its X. That no
        // travel that stops short of it sees it, is by construction too.
        let shaft = swing(50.0, 6.0, None);
        let x = (50.0_f64 * 50.0 - 36.0).sqrt();
        let [least, least_at, greatest, greatest_at] = ends(&shaft, 4.0, 8.0);
        assert!((least - x).abs() < 1e-12 && (least_at - 6.0).abs() < 1e-5, "{least} {least_at}");
        assert!((greatest - at(&shaft, -4.0)).abs() < 1e-12 && (greatest_at + 4.0).abs() < 1e-12);
        let [least, least_at, ..] = ends(&shaft, 4.0, 3.0);
        assert!((least - at(&shaft, 3.0)).abs() < 1e-12 && (least_at - 3.0).abs() < 1e-12);
        // Level at ride, as far up as down: shortest at ride itself.
        let [least, least_at, ..] = ends(&swing(50.0, 0.0, None), 4.0, 4.0);
        assert!((least - 50.0).abs() < 1e-12 && least_at == 0.0);
        // No travel at all: both are the distance at ride.
        let [least, least_at, greatest, _] = ends(&shaft, 0.0, 0.0);
        assert!((least - 50.0).abs() < 1e-12 && (greatest - 50.0).abs() < 1e-12 && least_at == 0.0);
    }

    #[test]
    fn laws_of_a_swing() {
        for length in [20.0, 50.0, 71.5] {
            let level = swing(length, 0.0, None);
            for drop in [-5.0, 0.0, 3.0] {
                for arm in [None, link(24.0, -2.0, true), link(24.0, 3.0, false)] {
                    let shaft = swing(length, drop, arm);
                    // Law: at ride it is as long as it was measured.
                    assert!((at(&shaft, 0.0) - length).abs() < 1e-12);
                    // Law: k times the size has k times the distances.
                    let arm = arm.map(|l| Link { radius: l.radius * 3.0, rise: l.rise * 3.0, ..l });
                    let thrice = swing(3.0 * length, 3.0 * drop, arm);
                    assert!((at(&thrice, 6.0) - 3.0 * at(&shaft, 2.0)).abs() < 1e-10);
                }
            }
            // Law: level and without a link, up and down are alike.
            assert!((at(&level, 3.25) - at(&level, -3.25)).abs() < 1e-12);
            // Law: a level link moves the axle toward its pivot, up or down alike; ahead is nearer.
            let pulled = |trails: bool| swing(length, 0.0, link(20.0, 0.0, trails));
            assert!((at(&pulled(true), 3.0) - at(&pulled(true), -3.0)).abs() < 1e-12);
            assert!(at(&pulled(true), 3.0) < at(&level, 3.0));
            assert!(at(&pulled(false), 3.0) > at(&level, 3.0));
        }
    }

    #[test]
    fn out_of_reach() {
        // By definition of the ranges.
        let arm = |rise: f64| swing(50.0, 0.0, link(20.0, rise, true));
        assert!(arm(18.0).distance(inches(1.9)).is_some());
        assert!(arm(18.0).distance(inches(2.0)).is_none());
        assert!(arm(-18.0).distance(inches(-2.5)).is_none());
        assert!(arm(20.0).distance(inches(-1.0)).is_none());
        assert!(arm(f64::NAN).distance(inches(1.0)).is_none());
        assert!(swing(0.0, 0.0, None).distance(inches(1.0)).is_none());
        let steep = Swing { length: inches(50.0), slope: degrees(90.0), link: None, output: None };
        assert!(steep.distance(inches(1.0)).is_none());
        let level = swing(50.0, 0.0, None);
        assert!(level.distance(inches(f64::NAN)).is_none());
        assert!(level.distance(inches(f64::INFINITY)).is_none());
        // One height out of reach is enough: nothing is said about the rest of the travel.
        let look =
            |droop: f64, bump: f64| extremes(&|up| arm(18.0).distance(up), inches(droop), inches(bump));
        assert!(look(3.0, 1.5).is_some());
        assert!(look(3.0, 2.5).is_none() && look(-1.0, 1.5).is_none() && look(f64::NAN, 1.0).is_none());
    }

    #[test]
    fn three_distances_and_between() {
        // By construction: 50 + (h − 1)²/100, whose dip of 50 lies 1 in above ride.
        let made = |h: f64| 50.0 + (h - 1.0).powi(2) / 100.0;
        let point = |h: f64| (inches(h.abs()), inches(made(h)));
        let curve = Parabola::through(point(3.0), inches(made(0.0)), point(-4.0)).unwrap();
        for h in [-4.0, -2.5, 0.0, 1.0, 2.0, 3.0] {
            assert!((in_inches(curve.distance(inches(h)).unwrap()) - made(h)).abs() < 1e-12, "{h}");
        }
        let found = extremes(&|up| curve.distance(up), inches(4.0), inches(3.0)).unwrap();
        assert!((in_inches(found.least) - 50.0).abs() < 1e-12);
        assert!((in_inches(found.least_at) - 1.0).abs() < 1e-5);
        assert!((in_inches(found.greatest_at) + 4.0).abs() < 1e-12);
        // Beyond what was measured it says nothing; three distances that are none make no curve.
        assert!(curve.distance(inches(3.1)).is_none() && curve.distance(inches(-4.1)).is_none());
        let flat = (inches(0.0), inches(50.0));
        assert!(Parabola::through(flat, inches(50.0), point(-4.0)).is_none());
        assert!(Parabola::through(point(3.0), inches(f64::NAN), point(-4.0)).is_none());
        assert!(Parabola::through(point(3.0), inches(-1.0), point(-4.0)).is_none());
    }
}
