//! Unbalance: what a weight does in the two planes through the joints, and what may be left there.

use core::ops::{Neg, Sub};

use super::across::Across;
use crate::quantity::{Angle, AngularVelocity, Base, Length, Mass, Unbalance};

/// A weight on the tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weight {
    /// Its mass.
    pub mass: Mass,
    /// Distance of its centre from the axis.
    pub radius: Length,
    /// Its place on the clock.
    pub at: Angle,
    /// Its distance behind the front joint's centre.
    pub z: Length,
}

impl Weight {
    /// Its unbalance as a vector: U = m·r toward its place. Source: ISO 21940-2 (definition).
    pub fn unbalance(self) -> Across<Unbalance> {
        Across::toward(self.mass * self.radius, self.at)
    }

    /// The same where it stands, whatever mass and radius make it.
    pub fn spot(self) -> Spot {
        Spot { unbalance: self.unbalance(), z: self.z }
    }
}

/// An unbalance at a place along the shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// How much and to which side.
    pub unbalance: Across<Unbalance>,
    /// Its distance behind the front joint's centre.
    pub z: Length,
}

impl Spot {
    /// The weight that is this unbalance at a radius: m = U/r toward the same side.
    ///
    /// Symbols: U size of the unbalance, r distance of the weight's centre from the axis.
    /// Range: `None` unless r > 0 and all is finite. Source: ISO 21940-2 (definition).
    pub fn weight(self, radius: Length) -> Option<Weight> {
        let mass = self.unbalance.size().base() / radius.base();
        (radius.base() > 0.0 && radius.is_finite() && mass.is_finite()).then(|| Weight {
            mass: Mass::from_base(mass),
            radius,
            at: self.unbalance.at(),
            z: self.z,
        })
    }
}

/// The unbalances in the planes of the front and the rear joint that do the same work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    /// In the plane of the front joint.
    pub front: Across<Unbalance>,
    /// In the plane of the rear joint.
    pub rear: Across<Unbalance>,
}

impl Shares {
    /// Nothing in either plane.
    pub fn zero() -> Self {
        Shares { front: Across::zero(), rear: Across::zero() }
    }

    /// These with one more unbalance on the shaft, as [`shares`] has it.
    pub fn with(self, spot: Spot, length: Length) -> Self {
        let along = spot.z.base() / length.base();
        Shares {
            front: self.front + spot.unbalance.scaled(1.0 - along),
            rear: self.rear + spot.unbalance.scaled(along),
        }
    }

    /// Both times a plain number.
    pub fn scaled(self, by: f64) -> Self {
        Shares { front: self.front.scaled(by), rear: self.rear.scaled(by) }
    }

    /// Whether all four parts are numbers.
    pub(super) fn are_finite(self) -> bool {
        let finite = |of: Across<Unbalance>| of.up.base().is_finite() && of.right.base().is_finite();
        finite(self.front) && finite(self.rear)
    }
}

impl Sub for Shares {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Shares { front: self.front - other.front, rear: self.rear - other.rear }
    }
}

impl Neg for Shares {
    type Output = Self;
    fn neg(self) -> Self {
        Shares { front: -self.front, rear: -self.rear }
    }
}

/// The two-plane equivalent of weights on a shaft.
///
/// Formula: front Σu·(1 − z/L), rear Σu·z/L, as vectors; behind or before a plane a share is negative.
/// Symbols: u = m·r unbalance of each weight, z its distance behind the front joint, L joint-to-joint
/// length, above 0. Source: statics of a rigid body (force and couple kept); ISO 21940-11 clause on
/// the allocation to planes. Assumes a rigid shaft.
pub fn shares(weights: &[Weight], length: Length) -> Shares {
    weights.iter().fold(Shares::zero(), |sum, weight| sum.with(weight.spot(), length))
}

/// A balance quality grade of ISO 21940-11: e_per·ω in mm/s.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// G 40: drive shafts of cars.
    G40,
    /// G 16: cardan and propeller shafts.
    G16,
}

impl Grade {
    /// e_per·ω in mm/s (ISO 21940-11 table 1, as reproduced in balancing makers' guides).
    pub fn millimetres_per_second(self) -> f64 {
        match self {
            Grade::G40 => 40.0,
            Grade::G16 => 16.0,
        }
    }
}

/// The unbalance that a grade permits for the whole shaft.
///
/// Formula: U_per = G·m/ω (9549.30·G·m/n in g·mm, kg and rpm).
/// Symbols: G grade in mm/s, m mass of the shaft, ω its top speed, above 0.
/// Range: `None` unless ω > 0. Source: ISO 21940-11:2016, 6.3 (formula), table 1 (grades).
pub fn permitted(grade: Grade, mass: Mass, top_speed: AngularVelocity) -> Option<Unbalance> {
    let metres_per_second = grade.millimetres_per_second() / 1000.0;
    let value = metres_per_second * mass.base() / top_speed.base();
    (top_speed.base() > 0.0 && value.is_finite()).then(|| Unbalance::from_base(value))
}

/// The grade that an unbalance comes to, e·ω in mm/s: [`permitted`] the other way round.
///
/// Formula: G = U·ω/m. Symbols: U unbalance of the whole shaft, m its mass, ω its speed.
/// Range: `None` unless U ≥ 0, m > 0, ω > 0 and all is finite. Source: ISO 21940-11:2016, 6.3. What is
/// known by plane is judged by plane: that plane's unbalance with the part of the mass it carries.
pub fn grade_reached(unbalance: Unbalance, mass: Mass, speed: AngularVelocity) -> Option<f64> {
    let millimetres_per_second = 1000.0 * unbalance.base() * speed.base() / mass.base();
    let fits = unbalance.base() >= 0.0 && mass.base() > 0.0 && speed.base() > 0.0;
    (fits && millimetres_per_second.is_finite()).then_some(millimetres_per_second)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{
        as_degrees, as_gram_millimetres, as_grams, degrees, gram_millimetres, grams, inches, kilograms,
        millimetres, rpm,
    };

    fn weight(u: f64, at: f64, z: f64) -> Weight {
        Weight { mass: grams(u), radius: millimetres(1.0), at: degrees(at), z: inches(z) }
    }

    fn near(vector: Across<Unbalance>, size: f64, at: f64) {
        assert!((as_gram_millimetres(vector.size()) - size).abs() < 5e-4, "{vector:?}");
        assert!((as_degrees(vector.at()) - at).abs() < 1e-3, "{vector:?}");
    }

    #[test]
    fn shares_of_one_weight() {
        // Derived from the formula by hand: 20@30°, z 12, L 48: 15@30° and 5@30°; z 52: 1.6667@210°
        // and 21.667@30°.
        let between = shares(&[weight(20.0, 30.0, 12.0)], inches(48.0));
        near(between.front, 15.0, 30.0);
        near(between.rear, 5.0, 30.0);
        let beyond = shares(&[weight(20.0, 30.0, 52.0)], inches(48.0));
        near(beyond.front, 1.6667, 210.0);
        near(beyond.rear, 21.6667, 30.0);
    }

    #[test]
    fn force_and_couple_are_kept() {
        // Law: about any z the moment of the shares is the moment of the weights.
        let set = [weight(14.0, 75.0, 9.0), weight(22.0, 200.0, 41.0), weight(5.0, 310.0, 50.0)];
        let both = shares(&set, inches(48.0));
        for about in [0.0, 13.0, 30.0, 48.0, 90.0] {
            let mut left = both.front.scaled(-about) + both.rear.scaled(48.0 - about);
            for w in set {
                left = left - w.unbalance().scaled(w.z.base() / inches(1.0).base() - about);
            }
            assert!(as_gram_millimetres(left.size()) < 1e-9);
        }
    }

    #[test]
    fn grades() {
        // Derived from U = 9549.30·G·m/n: G16, 10 kg, 3000 rpm 509.30 g·mm; 8 kg, 4000 rpm 305.58.
        for (mass, speed, expected) in [(10.0, 3000.0, 509.30), (8.0, 4000.0, 305.58)] {
            let got = permitted(Grade::G16, kilograms(mass), rpm(speed)).unwrap();
            assert!((as_gram_millimetres(got) - expected).abs() < 0.005);
        }
        assert!(permitted(Grade::G40, kilograms(8.0), rpm(0.0)).is_none());
    }
    #[test]
    fn the_grade_of_what_is_permitted_is_that_grade() {
        // Law: the two formulas undo each other. By hand: 1000 g·mm on 10 kg is 0.1 mm off; at 3000 rpm
        // 0.1·100π = 31.416 mm/s.
        for grade in [Grade::G16, Grade::G40] {
            let whole = permitted(grade, kilograms(9.0), rpm(4100.0)).unwrap();
            let got = grade_reached(whole, kilograms(9.0), rpm(4100.0)).unwrap();
            assert!((got - grade.millimetres_per_second()).abs() < 1e-12);
        }
        let ask = |u: f64, m: f64, n: f64| grade_reached(gram_millimetres(u), kilograms(m), rpm(n));
        assert!((ask(1000.0, 10.0, 3000.0).unwrap() - 31.4159).abs() < 5e-5);
        for (u, m, n) in
            [(-1.0, 10.0, 3000.0), (1.0, 0.0, 3000.0), (1.0, 10.0, 0.0), (f64::NAN, 1.0, 1.0)]
        {
            assert!(ask(u, m, n).is_none());
        }
    }

    #[test]
    fn moved_to_another_radius() {
        // Published inputs (reliability journal article on splitting weights), derived by hand: 2.2 oz at
        // radius 14 are 2.2·14/16 = 1.925 oz at 16.
        let here = Weight { mass: grams(2.2), radius: inches(14.0), at: degrees(250.0), z: inches(3.0) };
        let there = here.spot().weight(inches(16.0)).unwrap();
        assert!((as_grams(there.mass) - 1.925).abs() < 1e-12);
        assert!((as_degrees(there.at) - 250.0).abs() < 1e-9 && there.z == here.z);
        for radius in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(here.spot().weight(inches(radius)).is_none());
        }
    }
}
