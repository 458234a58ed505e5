//! The torque that reaches a drive shaft, and how fast it turns.

use core::f64::consts::TAU;

use crate::quantity::{AngularVelocity, Base, Force, Length, RoadSpeed, Torque, TurnsPerLength};

/// Share of the engine's torque that leaves a manual gearbox: 0.85 (driveshaft installation manual J3311-1).
pub const MANUAL_EFFICIENCY: f64 = 0.85;

/// Share of the engine's torque that leaves an automatic gearbox: 0.80 (driveshaft installation manual
/// J3311-1).
pub const AUTOMATIC_EFFICIENCY: f64 = 0.80;

/// Share of the shaft's torque that leaves the axle's gears: 0.95. The source divides by 11.4·axle with the
/// radius in inches and the torque in lbf·ft, and 11.4 is 12 inches a foot times 0.95; that it means the
/// gears' efficiency is our own reading.
pub const AXLE_EFFICIENCY: f64 = 0.95;

/// The torque with which the engine can load the shaft.
///
/// Formula: T = Tₑ·i·η·s.
/// Symbols: Tₑ engine's greatest torque, i ratio of the lowest gear there is (first or reverse, times the
/// transfer case's low range), η share that leaves the gearbox, s the converter's torque ratio at stall (1
/// with a clutch).
/// Range: `None` unless Tₑ > 0, i > 0, 0 < η ≤ 1 and s ≥ 1, all finite. Source: driveshaft installation manual
/// J3311-1. Assumes a torque that rises slowly: a dropped clutch can double it (common practice, no source).
/// The shaft bears the lesser of this and [`slip_torque`].
pub fn engine_torque(engine: Torque, gear: f64, efficiency: f64, stall: f64) -> Option<Torque> {
    let in_range = gear > 0.0 && efficiency > 0.0 && efficiency <= 1.0 && stall >= 1.0;
    positive(engine.base() * gear * efficiency * stall).filter(|_| in_range).map(Torque::from_base)
}

/// The torque in the shaft at which its wheels slip.
///
/// Formula: T = μ·W·R/(0.95·a).
/// Symbols: W the highest real load on the axle, weight transfer with it; R the tyre's rolling radius; a axle
/// ratio; μ friction of tyre and road.
/// Range: `None` unless W, R, a and μ > 0, all finite. Source: driveshaft installation manual J3311-1, there
/// 0.71·W·R/(11.4·a) in lbf·ft, lb and in: see [`AXLE_EFFICIENCY`]. Assumes that both wheels slip at once,
/// and a torque that rises slowly.
pub fn slip_torque(load: Force, radius: Length, axle: f64, friction: f64) -> Option<Torque> {
    let (w, r) = (load.base(), radius.base());
    let in_range = w > 0.0 && r > 0.0 && axle > 0.0 && friction > 0.0;
    positive(friction * w * r / (AXLE_EFFICIENCY * axle)).filter(|_| in_range).map(Torque::from_base)
}

/// How fast the shaft turns at an engine speed.
///
/// Formula: n = N/i. Symbols: N engine speed, i ratio of the gear; under 1 in an overdrive, which makes the
/// shaft faster than the engine.
/// Range: `None` unless N ≥ 0 and i > 0, finite. Source: definition of the ratio. Assumes a clutch or
/// converter that does not slip.
pub fn from_engine(engine: AngularVelocity, gear: f64) -> Option<AngularVelocity> {
    let speed = engine.base() / gear;
    (engine.base() >= 0.0 && gear > 0.0 && gear.is_finite() && speed.is_finite())
        .then(|| AngularVelocity::from_base(speed))
}

/// How fast the shaft turns at a road speed.
///
/// Formula: ω = 2π·v·n·a. Symbols: v road speed, n turns of the wheel on a length of road, a axle ratio.
/// Range: `None` unless v ≥ 0, n > 0 and a > 0, finite. Source: definition of the ratio. Assumes wheels that
/// roll straight on and do not slip.
pub fn from_road(road: RoadSpeed, tyre: TurnsPerLength, axle: f64) -> Option<AngularVelocity> {
    let each = radians_on_a_metre(tyre, axle)?;
    let speed = road.base() * each;
    (road.base() >= 0.0 && speed.is_finite()).then(|| AngularVelocity::from_base(speed))
}

/// The road speed at which the shaft turns so fast: [`from_road`] the other way round.
///
/// Formula: v = ω/(2π·n·a). Symbols, source and assumptions as there.
/// Range: `None` unless ω ≥ 0, n > 0 and a > 0, finite.
pub fn to_road(shaft: AngularVelocity, tyre: TurnsPerLength, axle: f64) -> Option<RoadSpeed> {
    let speed = shaft.base() / radians_on_a_metre(tyre, axle)?;
    (shaft.base() >= 0.0 && speed.is_finite()).then(|| RoadSpeed::from_base(speed))
}

/// How far the shaft turns on a metre of road, in radians.
fn radians_on_a_metre(tyre: TurnsPerLength, axle: f64) -> Option<f64> {
    positive(TAU * tyre.base() * axle).filter(|_| axle > 0.0)
}

/// A number above zero.
fn positive(number: f64) -> Option<f64> {
    (number > 0.0 && number.is_finite()).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::quantity::{
        as_kilometres_per_hour, as_miles_per_hour, as_pound_feet, as_rpm, inches, miles_per_hour,
        pound_feet, rpm, turns_per_mile,
    };

    /// A force of so many pounds, by the definition of the pound-force.
    fn pounds(value: f64) -> Force {
        Force::from_base(value * 4.448_221_615_260_5)
    }

    #[test]
    fn torque_that_reaches_the_shaft() {
        // Published: driveshaft installation manual J3311-1, 0.71·W·R/(11.4·axle), put in by hand for
        // 3000 lb, 13.5 in and 3.73: 676.2 lbf·ft.
        let got = as_pound_feet(slip_torque(pounds(3000.0), inches(13.5), 3.73, 0.71).unwrap());
        assert!((got - 676.2).abs() < 0.05, "{got}");
        assert!((got - 0.71 * 3000.0 * 13.5 / (11.4 * 3.73)).abs() < 1e-9);
        // By hand, of the same manual's product: 300 lbf·ft × 3.06 × 0.80 × 2.0 = 1468.8 lbf·ft.
        let got = engine_torque(pound_feet(300.0), 3.06, AUTOMATIC_EFFICIENCY, 2.0).unwrap();
        assert!((as_pound_feet(got) - 1468.8).abs() < 1e-9);
        // And by hand for a manual gearbox, 400 lbf·ft × 2.66 × 0.85 = 904.4 lbf·ft.
        let got = engine_torque(pound_feet(400.0), 2.66, MANUAL_EFFICIENCY, 1.0).unwrap();
        assert!((as_pound_feet(got) - 904.4).abs() < 1e-9);
    }

    #[test]
    fn torque_keeps_its_laws() {
        // Laws, over seeded luck: at the slip the tyres' push times their radius is the shaft's torque times
        // the axle, less what its gears take; a taller gear loads the shaft less in proportion.
        let mut next = luck(17);
        for _ in 0..100 {
            let (w, r, axle, mu) =
                (next(500.0, 6000.0), next(9.0, 20.0), next(2.5, 5.5), next(0.3, 1.2));
            let torque = slip_torque(pounds(w), inches(r), axle, mu).unwrap();
            let wheels = torque.base() * axle * AXLE_EFFICIENCY;
            assert!((wheels / (mu * pounds(w).base() * inches(r).base()) - 1.0).abs() < 1e-9);
            let (t, gear) = (next(50.0, 900.0), next(0.6, 12.0));
            let one = engine_torque(pound_feet(t), gear, 0.85, 1.0).unwrap();
            let two = engine_torque(pound_feet(t), gear / 2.0, 0.85, 2.0).unwrap();
            assert!((one.base() / two.base() - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn speeds_of_the_shaft() {
        // Published: Ford F-250 manual, 2010: a tyre at 7 Hz at 40 mph with an axle of 3.08: the shaft at
        // 22 Hz; General Motors manual: 12 Hz × 1.17 = 14.04 Hz. By hand: 6000/0.70 = 8571 rpm.
        let turns = turns_per_mile(7.0 * 3600.0 / 40.0);
        let shaft = as_rpm(from_road(miles_per_hour(40.0), turns, 3.08).unwrap()) / 60.0;
        assert!((shaft - 22.0).abs() < 0.5 && (shaft - 21.56).abs() < 1e-9);
        assert!((as_rpm(from_engine(rpm(6000.0), 0.70).unwrap()) - 8571.0).abs() < 0.5);
        assert!((as_rpm(from_engine(rpm(720.0), 1.0 / 1.17).unwrap()) / 60.0 - 14.04).abs() < 1e-9);
    }

    #[test]
    fn speeds_keep_their_laws() {
        // Laws, over seeded luck: there and back; twice the axle half the speed on the road.
        let mut next = luck(23);
        for _ in 0..100 {
            let (v, n, axle) = (next(0.0, 200.0), next(500.0, 1000.0), next(2.5, 5.5));
            let shaft = from_road(miles_per_hour(v), turns_per_mile(n), axle).unwrap();
            let back = to_road(shaft, turns_per_mile(n), axle).unwrap();
            assert!((as_miles_per_hour(back) - v).abs() < 1e-9);
            let half = to_road(shaft, turns_per_mile(n), 2.0 * axle).unwrap();
            assert!((as_kilometres_per_hour(back) - 2.0 * as_kilometres_per_hour(half)).abs() < 1e-9);
        }
    }

    #[test]
    fn nothing_from_a_bad_drive() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(engine_torque(pound_feet(bad), 3.0, 0.85, 2.0).is_none());
            assert!(engine_torque(pound_feet(300.0), bad, 0.85, 2.0).is_none());
            assert!(engine_torque(pound_feet(300.0), 3.0, bad, 2.0).is_none());
            assert!(engine_torque(pound_feet(300.0), 3.0, 0.85, bad).is_none());
            assert!(slip_torque(pounds(bad), inches(13.5), 3.73, 0.71).is_none());
            assert!(slip_torque(pounds(3000.0), inches(bad), 3.73, 0.71).is_none());
            assert!(slip_torque(pounds(3000.0), inches(13.5), bad, 0.71).is_none());
            assert!(slip_torque(pounds(3000.0), inches(13.5), 3.73, bad).is_none());
            assert!(from_engine(rpm(3000.0), bad).is_none());
            assert!(from_road(miles_per_hour(60.0), turns_per_mile(bad), 3.73).is_none());
            assert!(from_road(miles_per_hour(60.0), turns_per_mile(800.0), bad).is_none());
            assert!(to_road(rpm(3000.0), turns_per_mile(bad), 3.73).is_none());
            assert!(to_road(rpm(3000.0), turns_per_mile(800.0), bad).is_none());
        }
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(from_engine(rpm(bad), 1.0).is_none());
            assert!(from_road(miles_per_hour(bad), turns_per_mile(800.0), 3.73).is_none());
            assert!(to_road(rpm(bad), turns_per_mile(800.0), 3.73).is_none());
        }
        // Two that are below zero make no torque; more than all does not come out of a gearbox.
        assert!(slip_torque(pounds(-3000.0), inches(-13.5), 3.73, 0.71).is_none());
        assert!(from_road(miles_per_hour(60.0), turns_per_mile(-800.0), -3.73).is_none());
        assert!(engine_torque(pound_feet(300.0), 3.0, 1.01, 1.0).is_none());
        assert!(engine_torque(pound_feet(300.0), 3.0, 0.85, 0.9).is_none());
    }
}
