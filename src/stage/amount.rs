//! A quantity of any kind, as a finding or a complaint carries it.

use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, Force, Length, Mass, MassDensity, Pressure,
    RoadSpeed, SpringRate, Torque, TurnsPerLength, Unbalance,
};

/// A quantity of any kind, with how fine it is worth showing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A length to lay off with a tape.
    Length(Length),
    /// A length in millimetres and in a fraction of an inch, whatever the display: laid off round a tube
    /// with whichever rule is at hand.
    BothUnits(Length),
    /// A length with decimals even where fractions are on.
    PlainLength(Length),
    /// A length of the size a dial reads.
    FineLength(Length),
    /// An angle.
    Angle(Angle),
    /// A place on the clock.
    Clock(Angle),
    /// A mass.
    Mass(Mass),
    /// An unbalance.
    Unbalance(Unbalance),
    /// A speed of rotation as typed.
    Speed(AngularVelocity),
    /// A speed of rotation as estimated: three figures.
    EstimatedSpeed(AngularVelocity),
    /// A force.
    Force(Force),
    /// An angular acceleration.
    Acceleration(AngularAcceleration),
    /// A speed on the road.
    RoadSpeed(RoadSpeed),
    /// A share, shown in hundredths.
    Share(f64),
    /// A small share, shown as per cent.
    Percent(f64),
    /// A modulus.
    Modulus(Pressure),
    /// A density.
    Density(MassDensity),
    /// A torque.
    Torque(Torque),
    /// A stress.
    Stress(Pressure),
    /// How hard a spring pushes back.
    Rate(SpringRate),
    /// Turns on a length of road.
    Turns(TurnsPerLength),
    /// A balance grade, e·ω in mm/s.
    Grade(f64),
    /// How many times larger.
    Times(f64),
    /// A count.
    Count(usize),
    /// What an instrument shows, in its own unit.
    Reading(f64),
}

/// A length with decimals, as working lines and doubts show it.
pub(super) const fn plain(length: Length) -> Amount {
    Amount::PlainLength(length)
}

impl Amount {
    /// Whether it is a number that may be shown.
    pub fn is_finite(self) -> bool {
        match self {
            Amount::Length(q)
            | Amount::BothUnits(q)
            | Amount::PlainLength(q)
            | Amount::FineLength(q) => q.base().is_finite(),
            Amount::Angle(q) | Amount::Clock(q) => q.base().is_finite(),
            Amount::Mass(q) => q.base().is_finite(),
            Amount::Unbalance(q) => q.base().is_finite(),
            Amount::Speed(q) | Amount::EstimatedSpeed(q) => q.base().is_finite(),
            Amount::Force(q) => q.base().is_finite(),
            Amount::Acceleration(q) => q.base().is_finite(),
            Amount::RoadSpeed(q) => q.base().is_finite(),
            Amount::Share(value)
            | Amount::Percent(value)
            | Amount::Grade(value)
            | Amount::Times(value)
            | Amount::Reading(value) => value.is_finite(),
            Amount::Modulus(q) | Amount::Stress(q) => q.base().is_finite(),
            Amount::Torque(q) => q.base().is_finite(),
            Amount::Rate(q) => q.base().is_finite(),
            Amount::Turns(q) => q.base().is_finite(),
            Amount::Density(q) => q.base().is_finite(),
            Amount::Count(_) => true,
        }
    }
}
