//! The fields of a job by name, so that a field can be shown, complained about and found missing
//! without anyone knowing where in the record it lies.

use super::{Dial, Job, Typed};
use crate::quantity::Unit;

/// A field that is typed into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Entry {
    /// A reading of the old length.
    OldReading(usize),
    /// A reading of the wanted distance.
    WantedReading(usize),
    /// Slip yoke drawn out from bottomed.
    SetPoint,
    /// Tube diameter.
    TubeDiameter,
    /// Tube wall.
    TubeWall,
    /// Top speed of the shaft.
    TopSpeed,
    /// Old weld line from the far datum.
    WeldLine,
    /// Weld line at the far end from the far datum.
    FarWeldLine,
    /// Kerf.
    Kerf,
    /// Root gap.
    RootGap,
    /// Weld shrinkage.
    Shrinkage,
    /// Spigot length.
    Spigot,
    /// Lift under one ear.
    Lift,
    /// Span between the ears.
    Span,
    /// Level across the front yoke.
    FrontLevel,
    /// Level across the rear yoke.
    RearLevel,
    /// Most turn of the yokes allowed.
    PhaseLimit,
    /// The mechanic's own limit of the total reading.
    OwnLimit,
    /// Place of a free station: pass, station.
    StationAt(usize, usize),
    /// Reading at a station: pass, station.
    StationReading(usize, usize),
    /// First station read again: pass.
    Closing(usize),
    /// Mass of a weight.
    WeightMass(usize),
    /// Clock position of a weight.
    WeightClock(usize),
    /// Distance of a weight from the far datum.
    WeightDistance(usize),
    /// Radius of a weight.
    WeightRadius(usize),
    /// Turn of the cut end's yoke against its witness mark.
    YokeTurned,
    /// Mass of the whole shaft.
    ShaftMass,
}

/// One table for reading and for writing, so that the two can never point to different places.
macro_rules! places {
    ($job:ident, $entry:ident, $get:ident, $($borrow:tt)+) => {
        match $entry {
            Entry::OldReading(i) => $job.measure.old.$get(i),
            Entry::WantedReading(i) => $job.measure.wanted.$get(i),
            Entry::SetPoint => Some($($borrow)+ $job.measure.set_point),
            Entry::TubeDiameter => Some($($borrow)+ $job.tube.diameter),
            Entry::TubeWall => Some($($borrow)+ $job.tube.wall),
            Entry::TopSpeed => Some($($borrow)+ $job.check.top_speed),
            Entry::WeldLine => Some($($borrow)+ $job.cut.weld_line),
            Entry::FarWeldLine => Some($($borrow)+ $job.cut.far_weld_line),
            Entry::Kerf => Some($($borrow)+ $job.cut.kerf),
            Entry::RootGap => Some($($borrow)+ $job.cut.root_gap),
            Entry::Shrinkage => Some($($borrow)+ $job.cut.shrinkage),
            Entry::Spigot => Some($($borrow)+ $job.cut.spigot),
            Entry::Lift => Some($($borrow)+ $job.phase.lift),
            Entry::Span => Some($($borrow)+ $job.phase.span),
            Entry::FrontLevel => Some($($borrow)+ $job.phase.front_level),
            Entry::RearLevel => Some($($borrow)+ $job.phase.rear_level),
            Entry::PhaseLimit => Some($($borrow)+ $job.phase.limit),
            Entry::OwnLimit => Some($($borrow)+ $job.truing.own_limit),
            Entry::StationAt(p, s) => $job.truing.passes.$get(p).and_then(|pass| pass.at.$get(s)),
            Entry::StationReading(p, s) => {
                $job.truing.passes.$get(p).and_then(|pass| pass.readings.$get(s))
            }
            Entry::Closing(p) => $job.truing.passes.$get(p).map(|pass| $($borrow)+ pass.closing),
            Entry::WeightMass(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.mass),
            Entry::WeightClock(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.clock),
            Entry::WeightDistance(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.distance),
            Entry::WeightRadius(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.radius),
            Entry::YokeTurned => Some($($borrow)+ $job.weights.yoke_turned),
            Entry::ShaftMass => Some($($borrow)+ $job.weights.shaft_mass),
        }
    };
}

impl Job {
    /// What stands in a field; `None` where the job has no such field.
    pub fn typed(&self, entry: Entry) -> Option<&Typed> {
        places!(self, entry, get, &)
    }

    /// The field itself; `None` where the job has no such field.
    pub(super) fn slot(&mut self, entry: Entry) -> Option<&mut Typed> {
        places!(self, entry, get_mut, &mut)
    }

    /// The unit that a bare number typed into an empty field has now.
    pub fn unit_in_force(&self, entry: Entry) -> Unit {
        let inch = self.display.is_inch();
        match entry {
            Entry::TopSpeed => Unit::Rpm,
            Entry::FrontLevel | Entry::RearLevel | Entry::PhaseLimit | Entry::YokeTurned => Unit::Degree,
            Entry::StationAt(..) | Entry::WeightClock(_) => Unit::Hour,
            Entry::StationReading(..) | Entry::Closing(_) => match self.truing.dial {
                Dial::Hundredth => Unit::Hundredth,
                _ => Unit::Thousandth,
            },
            Entry::WeightMass(_) => Unit::Gram,
            Entry::ShaftMass if inch => Unit::Pound,
            Entry::ShaftMass => Unit::Kilogram,
            _ if inch => Unit::Inch,
            _ => Unit::Millimetre,
        }
    }
}
