//! The unit that a bare number in a field has.

use super::{Dial, Entry, Job, MarkNames};
use crate::quantity::Unit;

impl Job {
    /// The unit that a bare number typed into an empty field has now.
    pub fn unit_in_force(&self, entry: Entry) -> Unit {
        let inch = self.display.is_inch();
        match entry {
            Entry::TopSpeed | Entry::RunSpeed | Entry::EngineLimit => Unit::Rpm,
            Entry::GearRatio(_)
            | Entry::ReverseRatio
            | Entry::LowRange
            | Entry::AxleRatio
            | Entry::TyreSize
            | Entry::StallRatio
            | Entry::Friction
            | Entry::RunAmplitude(..)
            | Entry::CheckAmplitude(_)
            | Entry::RunScatter
            | Entry::WeightNote(_) => Unit::Plain,
            Entry::RunPhase(..) => Unit::Degree,
            Entry::FrontLevel(..)
            | Entry::RearLevel(..)
            | Entry::PhaseLimit
            | Entry::OwnTarget
            | Entry::YokeTurned
            | Entry::ShaftSlope
            | Entry::GearboxSlope(_)
            | Entry::ShaftSlopeRead(_)
            | Entry::PinionSlope(_)
            | Entry::OneWay
            | Entry::TurnedRound
            | Entry::GearboxPlan
            | Entry::ShaftPlan
            | Entry::PinionPlan
            | Entry::PowerRise
            | Entry::BumpRise
            | Entry::DroopRise
            | Entry::LeastAngle
            | Entry::JointMost
            | Entry::JointRatedTo => Unit::Degree,
            Entry::TorsionalLimit | Entry::InertiaLimit => Unit::RadianPerSquareSecond,
            Entry::RoadSpeed | Entry::RoadTop | Entry::Cruise if inch => Unit::MilePerHour,
            Entry::RoadSpeed | Entry::RoadTop | Entry::Cruise => Unit::KilometrePerHour,
            Entry::TyreTurns if inch => Unit::TurnPerMile,
            Entry::TyreTurns => Unit::TurnPerKilometre,
            // Tables of materials have these in either system.
            Entry::Modulus | Entry::ShearModulus => Unit::Gigapascal,
            Entry::Density => Unit::KilogramPerCubicMetre,
            Entry::FrontSupport | Entry::RearSupport if inch => Unit::PoundPerInch,
            Entry::FrontSupport | Entry::RearSupport => Unit::NewtonPerMillimetre,
            Entry::EngineTorque | Entry::JointRating if inch => Unit::PoundFoot,
            Entry::EngineTorque | Entry::JointRating => Unit::NewtonMetre,
            Entry::OwnYield | Entry::ElectrodeStrength | Entry::SplineYield if inch => Unit::Ksi,
            Entry::OwnYield | Entry::ElectrodeStrength | Entry::SplineYield => Unit::Megapascal,
            // Who calls the marks by degrees types degrees.
            Entry::StationAt(..) if self.truing.marks == MarkNames::Degrees => Unit::Degree,
            Entry::StationAt(..)
            | Entry::WeightClock(_)
            | Entry::SeamClock
            | Entry::EarClock
            | Entry::TrialClock(_) => Unit::Hour,
            Entry::StationReading(..) | Entry::Closing(..) | Entry::Backlash => match self.truing.dial {
                Dial::Hundredth => Unit::Hundredth,
                _ => Unit::Thousandth,
            },
            Entry::WeightMass(_) | Entry::TrialMass(_) | Entry::ClipMass => Unit::Gram,
            Entry::ShaftMass
            | Entry::FrontYokeMass
            | Entry::RearYokeMass
            | Entry::SlipMass
            | Entry::HungBehind
            | Entry::LumpMass
            | Entry::AxleLoad => {
                if inch {
                    Unit::Pound
                } else {
                    Unit::Kilogram
                }
            }
            _ if inch => Unit::Inch,
            _ => Unit::Millimetre,
        }
    }

    /// The unit that a bare number in this field has: the one kept with its text, or for an empty
    /// field the one in force now.
    pub fn unit_of(&self, entry: Entry) -> Unit {
        match self.typed(entry) {
            Some(typed) if !typed.is_blank() => typed.unit,
            _ => self.unit_in_force(entry),
        }
    }
}
