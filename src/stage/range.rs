//! The range of each field, as amounts of its own kind.

use super::amount::Amount;
use super::field::base;
use crate::job::Entry;
use crate::quantity::{
    degrees, gigapascals, grams, kilograms_per_cubic_metre, kilometres_per_hour, megapascals,
    millimetres, newton_metres, newtons_per_millimetre, radians_per_second_squared, rpm,
    turns_per_kilometre,
};

/// The range of a field, as amounts of its own kind. The bounds are our own choice: wide enough for
/// any road vehicle's shaft, narrow enough to catch a wrong unit or a slipped digit.
pub fn allowed(entry: Entry) -> (Amount, Amount) {
    let length = |least: f64, most: f64| {
        (Amount::PlainLength(millimetres(least)), Amount::PlainLength(millimetres(most)))
    };
    let fine = |least: f64, most: f64| {
        (Amount::FineLength(millimetres(least)), Amount::FineLength(millimetres(most)))
    };
    let angle = |least: f64, most: f64| (Amount::Angle(degrees(least)), Amount::Angle(degrees(most)));
    let mass = |least: f64, most: f64| (Amount::Mass(grams(least)), Amount::Mass(grams(most)));
    let reading = || (Amount::Reading(0.0), Amount::Reading(100_000.0));
    match entry {
        Entry::OldReading(_) | Entry::WantedReading(_) => length(200.0, 3000.0),
        Entry::EndsReading(_) | Entry::AtBump | Entry::AtRide | Entry::AtDroop => length(200.0, 3500.0),
        Entry::SetPoint | Entry::TakenAt | Entry::BottomedGap => length(0.0, 100.0),
        Entry::SplineLength | Entry::BarrelLength => length(20.0, 300.0),
        Entry::LeastEngaged => length(5.0, 200.0),
        Entry::BumpRoom => length(0.0, 50.0),
        Entry::BumpTravel | Entry::DroopTravel => length(1.0, 500.0),
        Entry::ShaftSlope => angle(-30.0, 30.0),
        Entry::LinkRadius => length(100.0, 2500.0),
        Entry::LinkRise => length(-1000.0, 1000.0),
        Entry::LipDepth => length(0.0, 30.0),
        Entry::GroovePlace => length(0.0, 300.0),
        Entry::GrooveWidth => length(0.1, 20.0),
        Entry::GrooveMargin => length(0.0, 10.0),
        Entry::FrontCup | Entry::RearCup => length(10.0, 80.0),
        Entry::FrontEar | Entry::RearEar | Entry::WantedFrontEar | Entry::WantedRearEar => {
            length(0.0, 100.0)
        }
        Entry::FrontDepth | Entry::RearDepth | Entry::Shoulder => length(10.0, 400.0),
        Entry::ClearBy => length(3.0, 500.0),
        Entry::SpigotDiameter => length(15.0, 200.0),
        Entry::Trim => length(0.0, 10.0),
        Entry::TubeDiameter => length(20.0, 200.0),
        Entry::TubeWall => length(0.8, 12.0),
        Entry::TopSpeed | Entry::RunSpeed => (Amount::Speed(rpm(100.0)), Amount::Speed(rpm(20_000.0))),
        Entry::WeldLine | Entry::FarWeldLine => length(10.0, 3000.0),
        Entry::Kerf => length(0.3, 8.0),
        Entry::RootGap | Entry::Shrinkage => length(0.0, 6.0),
        Entry::Spigot => length(3.0, 100.0),
        Entry::Lift(..) | Entry::FrontLift(..) => length(0.0, 30.0),
        Entry::Span | Entry::FrontSpan => length(20.0, 250.0),
        Entry::FrontLevel(..) | Entry::RearLevel(..) | Entry::YokeTurned => angle(-180.0, 180.0),
        Entry::LineArc(..) => length(-350.0, 350.0),
        Entry::OwnTarget => angle(-90.0, 90.0),
        Entry::GearboxSlope(_)
        | Entry::ShaftSlopeRead(_)
        | Entry::PinionSlope(_)
        | Entry::OneWay
        | Entry::TurnedRound => angle(-30.0, 30.0),
        Entry::GearboxPlan | Entry::ShaftPlan | Entry::PinionPlan => angle(-20.0, 20.0),
        Entry::FrontHeight | Entry::RearHeight => length(50.0, 2500.0),
        Entry::SideOffset => length(-600.0, 600.0),
        Entry::PowerRise => angle(-5.0, 12.0),
        Entry::BumpRise | Entry::DroopRise => angle(-25.0, 25.0),
        Entry::LeastAngle => angle(0.0, 3.0),
        Entry::TorsionalLimit | Entry::InertiaLimit => {
            let bound = |value: f64| Amount::Acceleration(radians_per_second_squared(value));
            (bound(20.0), bound(10_000.0))
        }
        Entry::RoadSpeed => {
            let bound = |value: f64| Amount::RoadSpeed(kilometres_per_hour(value));
            (bound(5.0), bound(500.0))
        }
        Entry::PinionArm | Entry::JointOverhang => length(0.0, 800.0),
        Entry::JointMost => angle(5.0, 44.0),
        Entry::SpringPad => length(20.0, 400.0),
        Entry::MountArm => length(200.0, 3000.0),
        Entry::PhaseLimit => angle(0.1, 5.0),
        Entry::OwnLimit => fine(0.02, 2.0),
        Entry::StationAt(..)
        | Entry::WeightClock(_)
        | Entry::SeamClock
        | Entry::EarClock
        | Entry::TrialClock(_)
        | Entry::RunPhase(..) => (Amount::Clock(degrees(0.0)), Amount::Clock(degrees(360.0))),
        Entry::StationReading(..) | Entry::Closing(..) => fine(-12.0, 12.0),
        Entry::Backlash => fine(0.0, 0.25),
        Entry::PlaceAlong(_) => length(10.0, 3000.0),
        Entry::FrontVee | Entry::RearVee => length(0.0, 3000.0),
        Entry::FaceReading(_) => length(-10.0, 10.0),
        Entry::WeightMass(_) => mass(0.5, 500.0),
        Entry::WeightDistance(_) => length(0.0, 3000.0),
        Entry::WeightRadius(_) | Entry::ClipRadius => length(10.0, 120.0),
        Entry::FrontPlane | Entry::RearPlane => length(0.0, 3000.0),
        Entry::WeightLength(_) => length(3.0, 350.0),
        Entry::WeightWidth(_) | Entry::StripWidth => length(3.0, 100.0),
        Entry::WeightThickness(_) | Entry::StripThickness => length(0.5, 12.0),
        Entry::TrialMass(_) | Entry::ClipMass => mass(0.5, 200.0),
        Entry::RunAmplitude(..) | Entry::CheckAmplitude(_) | Entry::RunScatter => reading(),
        // Words, of which none is wrong.
        Entry::WeightNote(_) => reading(),
        Entry::ShaftMass => mass(500.0, 80_000.0),
        _ => of_check(entry),
    }
}

/// Whether less than nothing makes sense in a field.
pub fn may_be_negative(entry: Entry) -> bool {
    base(allowed(entry).0) < 0.0
}

/// The range of a field of Check.
fn of_check(entry: Entry) -> (Amount, Amount) {
    let length = |least: f64, most: f64| {
        (Amount::PlainLength(millimetres(least)), Amount::PlainLength(millimetres(most)))
    };
    let mass = |least: f64, most: f64| (Amount::Mass(grams(least)), Amount::Mass(grams(most)));
    let number = |least: f64, most: f64| (Amount::Reading(least), Amount::Reading(most));
    let road = |least: f64, most: f64| {
        let bound = |value: f64| Amount::RoadSpeed(kilometres_per_hour(value));
        (bound(least), bound(most))
    };
    let torque = |least: f64, most: f64| {
        (Amount::Torque(newton_metres(least)), Amount::Torque(newton_metres(most)))
    };
    let stress =
        |least: f64, most: f64| (Amount::Stress(megapascals(least)), Amount::Stress(megapascals(most)));
    let modulus = |least: f64, most: f64| {
        (Amount::Modulus(gigapascals(least)), Amount::Modulus(gigapascals(most)))
    };
    match entry {
        Entry::EngineLimit => (Amount::Speed(rpm(500.0)), Amount::Speed(rpm(15_000.0))),
        Entry::GearRatio(_) => number(0.4, 15.0),
        Entry::ReverseRatio => number(0.8, 20.0),
        Entry::LowRange => number(1.0, 10.0),
        Entry::AxleRatio => number(1.5, 12.0),
        // The marking is read by a rule of its own; what it comes to has this range.
        Entry::TyreSize | Entry::TyreTurns => {
            (Amount::Turns(turns_per_kilometre(200.0)), Amount::Turns(turns_per_kilometre(1200.0)))
        }
        Entry::RolledOut => length(800.0, 5000.0),
        Entry::RoadTop | Entry::Cruise => road(5.0, 500.0),
        Entry::Modulus => modulus(10.0, 500.0),
        Entry::ShearModulus => modulus(1.0, 200.0),
        Entry::Density => (
            Amount::Density(kilograms_per_cubic_metre(1000.0)),
            Amount::Density(kilograms_per_cubic_metre(12_000.0)),
        ),
        Entry::FrontYokeMass | Entry::RearYokeMass => mass(50.0, 40_000.0),
        Entry::SlipMass | Entry::HungBehind => mass(100.0, 60_000.0),
        Entry::FrontSupport | Entry::RearSupport => (
            Amount::Rate(newtons_per_millimetre(50.0)),
            Amount::Rate(newtons_per_millimetre(1_000_000.0)),
        ),
        Entry::StepAt | Entry::LumpAt | Entry::BearingAt => length(10.0, 3000.0),
        Entry::StepDiameter => length(20.0, 200.0),
        Entry::StepWall => length(0.8, 12.0),
        Entry::LumpMass => mass(10.0, 20_000.0),
        Entry::EngineTorque => torque(5.0, 5000.0),
        Entry::StallRatio => number(1.0, 4.0),
        Entry::AxleLoad => mass(50_000.0, 20_000_000.0),
        Entry::Friction => number(0.1, 1.5),
        Entry::OwnYield | Entry::SplineYield => stress(20.0, 3000.0),
        Entry::ElectrodeStrength => stress(100.0, 1500.0),
        Entry::WeldLeg => length(0.8, 20.0),
        Entry::SplineRoot => length(10.0, 120.0),
        Entry::SplineBore => length(0.0, 110.0),
        Entry::JointRating => torque(20.0, 100_000.0),
        Entry::JointRatedTo => (Amount::Angle(degrees(0.5)), Amount::Angle(degrees(45.0))),
        // Every other field is in the list before.
        _ => number(0.0, 0.0),
    }
}
