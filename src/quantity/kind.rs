//! The kinds of quantity this trade needs, each with named ways in and out.
//!
//! Two traps of unit libraries are closed here by name. Turns and radians: [`rpm`] and [`as_rpm`]
//! are the only doors for a speed of rotation, so no factor of 2π is ever left to a conversion.
//! Angular velocity squared times an unbalance is a force only after the angle kind is dropped:
//! [`centrifugal_force`] does it once.

use uom::si::{
    ISQ, Quantity, SI, angle, angular_acceleration, angular_velocity, f64 as si, force, length, mass,
    mass_density, pressure, velocity,
};
use uom::typenum::{N1, N2, P1, P2, Z0};

/// A length.
pub type Length = si::Length;
/// A plane angle.
pub type Angle = si::Angle;
/// A mass.
pub type Mass = si::Mass;
/// A speed of rotation.
pub type AngularVelocity = si::AngularVelocity;
/// A rate at which a speed of rotation changes.
pub type AngularAcceleration = si::AngularAcceleration;
/// A speed on the road.
pub type RoadSpeed = si::Velocity;
/// A stress or an elastic modulus.
pub type Pressure = si::Pressure;
/// A mass per volume.
pub type MassDensity = si::MassDensity;
/// A force.
pub type Force = si::Force;
/// Unbalance: a mass times its distance from the axis (ISO 21940-2).
pub type Unbalance = Quantity<ISQ<P1, P1, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// A torque: a force times its lever.
pub type Torque = Quantity<ISQ<P2, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// How hard a spring pushes back per length.
pub type SpringRate = Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// A mass moment of inertia.
pub type Inertia = Quantity<ISQ<P2, P1, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// How often a wheel turns on a length of road.
pub type TurnsPerLength = Quantity<ISQ<N1, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// A quantity seen as its number in SI base units: lets one sum (a root of squares, a vector) serve
/// every kind of quantity without the unit ever being dropped at the door.
pub trait Base: Copy {
    /// The number in SI base units (m, kg, rad, s).
    fn base(self) -> f64;
    /// The quantity of this number in SI base units.
    fn from_base(number: f64) -> Self;
}

impl<D: uom::si::Dimension + ?Sized> Base for Quantity<D, SI<f64>, f64> {
    fn base(self) -> f64 {
        self.value
    }

    fn from_base(number: f64) -> Self {
        Quantity { dimension: Default::default(), units: Default::default(), value: number }
    }
}

/// Grams in an avoirdupois ounce, exact by definition (international yard and pound agreement, 1959).
const GRAMS_PER_OUNCE: f64 = 28.349_523_125;
/// Newtons in a pound-force, exact by definition.
const NEWTONS_PER_POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Metres in a foot and a mile, exact by definition (1959).
const METRES_PER_FOOT: f64 = 0.3048;
const METRES_PER_MILE: f64 = 1609.344;
/// Pascals in a thousand pounds-force a square inch: the force over the inch's square.
const PASCALS_PER_KSI: f64 = 1000.0 * NEWTONS_PER_POUND_FORCE / (0.0254 * 0.0254);

/// A length of so many millimetres.
pub fn millimetres(value: f64) -> Length {
    Length::new::<length::millimeter>(value)
}

/// A length of so many inches of 25.4 mm.
pub fn inches(value: f64) -> Length {
    Length::new::<length::inch>(value)
}

/// The number of millimetres in a length.
pub fn as_millimetres(value: Length) -> f64 {
    value.get::<length::millimeter>()
}

/// The number of inches in a length.
pub fn in_inches(value: Length) -> f64 {
    value.get::<length::inch>()
}

/// The number of thousandths of an inch in a length.
pub fn as_thousandths(value: Length) -> f64 {
    in_inches(value) * 1000.0
}

/// An angle of so many degrees.
pub fn degrees(value: f64) -> Angle {
    Angle::new::<angle::degree>(value)
}

/// The number of degrees in an angle.
pub fn as_degrees(value: Angle) -> f64 {
    value.get::<angle::degree>()
}

/// The same direction as an angle from 0° up to, but not including, 360°.
pub fn clockwise_angle(value: Angle) -> Angle {
    let turned = as_degrees(value).rem_euclid(360.0);
    // A hair below zero rounds up to a full turn, which is zero again.
    degrees(if turned >= 360.0 { 0.0 } else { turned })
}

/// The same line (not direction) as an angle above −90°, up to and including 90°: two cups on one
/// pin look alike after half a turn.
pub fn half_open_half_turn(value: Angle) -> Angle {
    let wrapped = as_degrees(value).rem_euclid(180.0);
    degrees(if wrapped > 90.0 { wrapped - 180.0 } else { wrapped })
}

/// A mass of so many grams.
pub fn grams(value: f64) -> Mass {
    Mass::new::<mass::gram>(value)
}

/// A mass of so many kilograms.
pub fn kilograms(value: f64) -> Mass {
    Mass::new::<mass::kilogram>(value)
}

/// The number of grams in a mass.
pub fn as_grams(value: Mass) -> f64 {
    value.get::<mass::gram>()
}

/// The number of kilograms in a mass.
pub fn as_kilograms(value: Mass) -> f64 {
    value.get::<mass::kilogram>()
}

/// The number of avoirdupois pounds in a mass.
pub fn as_pounds(value: Mass) -> f64 {
    as_grams(value) / (16.0 * GRAMS_PER_OUNCE)
}

/// A speed of rotation in revolutions per minute.
pub fn rpm(value: f64) -> AngularVelocity {
    AngularVelocity::new::<angular_velocity::revolution_per_minute>(value)
}

/// The number of revolutions per minute in a speed of rotation.
pub fn as_rpm(value: AngularVelocity) -> f64 {
    value.get::<angular_velocity::revolution_per_minute>()
}

/// An angular acceleration in rad/s².
pub fn radians_per_second_squared(value: f64) -> AngularAcceleration {
    AngularAcceleration::new::<angular_acceleration::radian_per_second_squared>(value)
}

/// The number of rad/s² in an angular acceleration.
pub fn as_radians_per_second_squared(value: AngularAcceleration) -> f64 {
    value.get::<angular_acceleration::radian_per_second_squared>()
}

/// A road speed in miles per hour.
pub fn miles_per_hour(value: f64) -> RoadSpeed {
    RoadSpeed::new::<velocity::mile_per_hour>(value)
}

/// The number of miles per hour in a road speed.
pub fn as_miles_per_hour(value: RoadSpeed) -> f64 {
    value.get::<velocity::mile_per_hour>()
}

/// A road speed in kilometres per hour.
pub fn kilometres_per_hour(value: f64) -> RoadSpeed {
    RoadSpeed::new::<velocity::kilometer_per_hour>(value)
}

/// The number of kilometres per hour in a road speed.
pub fn as_kilometres_per_hour(value: RoadSpeed) -> f64 {
    value.get::<velocity::kilometer_per_hour>()
}

/// An elastic modulus or stress in gigapascals.
pub fn gigapascals(value: f64) -> Pressure {
    Pressure::new::<pressure::gigapascal>(value)
}

/// The number of gigapascals in a modulus.
pub fn as_gigapascals(value: Pressure) -> f64 {
    value.get::<pressure::gigapascal>()
}

/// An elastic modulus or stress in megapascals.
pub fn megapascals(value: f64) -> Pressure {
    Pressure::new::<pressure::megapascal>(value)
}

/// The number of megapascals in a stress.
pub fn as_megapascals(value: Pressure) -> f64 {
    value.get::<pressure::megapascal>()
}

/// A stress of so many thousand pounds-force a square inch (ksi).
pub fn ksi(value: f64) -> Pressure {
    Pressure::from_base(value * PASCALS_PER_KSI)
}

/// The number of thousand pounds-force a square inch in a stress.
pub fn as_ksi(value: Pressure) -> f64 {
    value.base() / PASCALS_PER_KSI
}

/// A torque of so many newton-metres.
pub fn newton_metres(value: f64) -> Torque {
    Torque::from_base(value)
}

/// The number of newton-metres in a torque.
pub fn as_newton_metres(value: Torque) -> f64 {
    value.base()
}

/// A torque of so many pound-feet (lbf·ft).
pub fn pound_feet(value: f64) -> Torque {
    Torque::from_base(value * NEWTONS_PER_POUND_FORCE * METRES_PER_FOOT)
}

/// The number of pound-feet in a torque.
pub fn as_pound_feet(value: Torque) -> f64 {
    value.base() / (NEWTONS_PER_POUND_FORCE * METRES_PER_FOOT)
}

/// A spring rate in newtons per millimetre.
pub fn newtons_per_millimetre(value: f64) -> SpringRate {
    SpringRate::from_base(value * 1000.0)
}

/// The number of newtons per millimetre in a spring rate.
pub fn as_newtons_per_millimetre(value: SpringRate) -> f64 {
    value.base() / 1000.0
}

/// A spring rate in pounds-force per inch.
pub fn pounds_per_inch(value: f64) -> SpringRate {
    SpringRate::from_base(value * NEWTONS_PER_POUND_FORCE * 12.0 / METRES_PER_FOOT)
}

/// The number of pounds-force per inch in a spring rate.
pub fn as_pounds_per_inch(value: SpringRate) -> f64 {
    value.base() * METRES_PER_FOOT / (NEWTONS_PER_POUND_FORCE * 12.0)
}

/// So many turns on a kilometre.
pub fn turns_per_kilometre(value: f64) -> TurnsPerLength {
    TurnsPerLength::from_base(value / 1000.0)
}

/// The number of turns on a kilometre.
pub fn as_turns_per_kilometre(value: TurnsPerLength) -> f64 {
    value.base() * 1000.0
}

/// So many turns on a mile.
pub fn turns_per_mile(value: f64) -> TurnsPerLength {
    TurnsPerLength::from_base(value / METRES_PER_MILE)
}

/// The number of turns on a mile.
pub fn as_turns_per_mile(value: TurnsPerLength) -> f64 {
    value.base() * METRES_PER_MILE
}

/// A density in kg/m³.
pub fn kilograms_per_cubic_metre(value: f64) -> MassDensity {
    MassDensity::new::<mass_density::kilogram_per_cubic_meter>(value)
}

/// The number of kg/m³ in a density.
pub fn as_kilograms_per_cubic_metre(value: MassDensity) -> f64 {
    value.get::<mass_density::kilogram_per_cubic_meter>()
}

/// An unbalance in gram-millimetres.
pub fn gram_millimetres(value: f64) -> Unbalance {
    grams(value) * millimetres(1.0)
}

/// The number of gram-millimetres in an unbalance.
pub fn as_gram_millimetres(value: Unbalance) -> f64 {
    (value / grams(1.0)).get::<length::millimeter>()
}

/// The number of ounce-inches in an unbalance.
pub fn as_ounce_inches(value: Unbalance) -> f64 {
    (value / grams(GRAMS_PER_OUNCE)).get::<length::inch>()
}

/// A mass of so many avoirdupois ounces.
pub(super) fn ounces(value: f64) -> Mass {
    grams(value * GRAMS_PER_OUNCE)
}

/// Acceleration of a falling body in m/s², exact by definition (standard gravity, 1901).
const FALL: f64 = 9.806_65;

/// The weight of a mass where a falling body gains 9.80665 m/s in a second.
pub fn weight_of(mass: Mass) -> Force {
    Force::from_base(mass.base() * FALL)
}

/// The number of newtons in a force.
pub fn as_newtons(value: Force) -> f64 {
    value.get::<force::newton>()
}

/// The number of pounds-force in a force.
pub fn as_pounds_force(value: Force) -> f64 {
    as_newtons(value) / NEWTONS_PER_POUND_FORCE
}

/// The square of a speed of rotation in rad²/s², as a plain number. The radian is the unit in which
/// this square times a length is an acceleration.
pub fn turn_rate_squared(speed: AngularVelocity) -> f64 {
    let radians_per_second = speed.get::<angular_velocity::radian_per_second>();
    radians_per_second * radians_per_second
}

/// The force with which an unbalance pulls outward, F = U·ω².
///
/// U unbalance in kg·m, ω speed of rotation in rad/s. Source: ISO 21940-2 (unbalance force).
/// Assumes a rigid shaft.
pub fn centrifugal_force(unbalance: Unbalance, speed: AngularVelocity) -> Force {
    let kilogram_metres = as_gram_millimetres(unbalance) * 1e-6;
    Force::new::<force::newton>(kilogram_metres * turn_rate_squared(speed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unbalance_in_both_systems() {
        // Published, exact by definition of inch and ounce: 1 oz·in = 720.0778874 g·mm.
        let one = ounces(1.0) * inches(1.0);
        assert!((as_gram_millimetres(one) - 720.077_887_4).abs() < 1e-7);
        assert!((as_ounce_inches(one) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn force_of_one_ounce_inch() {
        // Derived from the definition (F = U·ω²): 1 oz·in at 3000 rpm pulls 71.07 N, 15.98 lbf.
        let force = centrifugal_force(ounces(1.0) * inches(1.0), rpm(3000.0));
        assert!((as_newtons(force) - 71.07).abs() < 0.005);
        assert!((as_pounds_force(force) - 15.98).abs() < 0.005);
        // By definition of the pound-force: what a pound weighs.
        assert!((as_pounds_force(weight_of(ounces(16.0))) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn speeds_keep_their_turns() {
        // Definition: one revolution is 2π radians.
        let square = turn_rate_squared(rpm(60.0));
        let two_pi = 2.0 * core::f64::consts::PI;
        assert!((square - two_pi * two_pi).abs() < 1e-12);
        assert!((as_rpm(rpm(3456.7)) - 3456.7).abs() < 1e-9);
        // The radian is 1 here too: in and out and the base are one number.
        let change = radians_per_second_squared(270.71);
        assert!((as_radians_per_second_squared(change) - 270.71).abs() < 1e-12);
        assert!((change.base() - 270.71).abs() < 1e-12);
    }

    #[test]
    fn the_other_system() {
        // Published: NIST SP 811, appendix B.8 (from memory): 1 ksi = 6.894757 MPa, 1 lbf·ft = 1.355818 N·m,
        // 1 lbf/in = 175.1268 N/m.
        assert!(
            (as_megapascals(ksi(1.0)) - 6.894_757).abs() < 1e-6
                && (as_ksi(ksi(55.0)) - 55.0).abs() < 1e-9
        );
        assert!((as_newton_metres(pound_feet(1.0)) - 1.355_818).abs() < 1e-6);
        assert!((as_pound_feet(newton_metres(1.355_818)) - 1.0).abs() < 1e-6);
        assert!((as_newtons_per_millimetre(pounds_per_inch(1.0)) - 0.175_126_8).abs() < 1e-7);
        assert!((as_pounds_per_inch(newtons_per_millimetre(0.175_126_8)) - 1.0).abs() < 1e-6);
        // By definition of the mile: 800 turns on a mile are 497.097 on a kilometre.
        assert!((as_turns_per_kilometre(turns_per_mile(800.0)) - 497.097).abs() < 1e-3);
        assert!((as_turns_per_mile(turns_per_kilometre(500.0)) - 804.672).abs() < 1e-9);
    }

    #[test]
    fn wrapping() {
        // Definitions, nothing outside: one turn for a direction, half a turn for a line.
        assert!((as_degrees(clockwise_angle(degrees(-30.0))) - 330.0).abs() < 1e-9);
        assert!(as_degrees(clockwise_angle(degrees(-1e-18))).abs() < 1e-9);
        assert!((as_degrees(half_open_half_turn(degrees(179.0))) + 1.0).abs() < 1e-9);
        assert!((as_degrees(half_open_half_turn(degrees(-178.5))) - 1.5).abs() < 1e-9);
        assert!((as_degrees(half_open_half_turn(degrees(90.0))) - 90.0).abs() < 1e-9);
    }
}
