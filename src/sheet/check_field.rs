//! The fields of Check: what each is called, and what to know while filling it in.

use super::label::Worded;
use crate::job::{Drives, Entry, Gearbox, Grade, Job, ShaftKind, TubeMaterial, TyreBy};

impl Worded for TubeMaterial {
    fn word(self) -> &'static str {
        match self {
            TubeMaterial::Steel => "steel",
            TubeMaterial::Aluminium => "aluminium",
            TubeMaterial::ByHand => "something else, by its figures",
        }
    }
}

impl Worded for TyreBy {
    fn word(self) -> &'static str {
        match self {
            TyreBy::Marking => "by the size on its side",
            TyreBy::Turns => "by its maker's turns a mile or km",
            TyreBy::RolledOut => "by one turn rolled out on the floor",
        }
    }
}

impl Worded for Gearbox {
    fn word(self) -> &'static str {
        match self {
            Gearbox::Manual => "shifted by hand",
            Gearbox::Automatic => "automatic, with a converter",
        }
    }
}

impl Worded for Drives {
    fn word(self) -> &'static str {
        match self {
            Drives::OneAxle => "one axle, nothing else",
            Drives::More => "a transfer case, or two axles",
        }
    }
}

impl Worded for Grade {
    fn word(self) -> &'static str {
        match self {
            Grade::AsWelded => "welded, 1008 or 1010",
            Grade::Drawn1020 => "drawn over mandrel, 1020",
            Grade::Drawn1026 => "drawn over mandrel, 1026",
            Grade::OwnYield => "another, by its yield",
        }
    }
}

/// The label of a field of Check.
pub(super) fn check_label(job: &Job, entry: Entry) -> String {
    let fixed = match entry {
        Entry::EngineLimit => "Engine's top speed",
        Entry::GearRatio(row) => return format!("Gear {}: ratio", row + 1),
        Entry::ReverseRatio => "Reverse: ratio",
        Entry::LowRange => "Transfer case in low: ratio",
        Entry::AxleRatio => "Axle ratio",
        Entry::TyreSize => "Size on the driven tyre",
        Entry::TyreTurns => "Turns of the driven tyre",
        Entry::RolledOut => "Road rolled out in one turn, loaded",
        Entry::RoadTop => "Fastest on the road",
        Entry::Cruise => "Cruising speed",
        Entry::Modulus => "Young's modulus E",
        Entry::ShearModulus => "Shear modulus G",
        Entry::Density => "Density",
        Entry::FrontYokeMass => "Mass of the front yoke with its half of the joint",
        Entry::RearYokeMass => "Mass of the rear yoke with its half of the joint",
        Entry::SlipMass => match job.measure.kind {
            ShaftKind::SlipInGearbox => "Mass of the slip yoke in the gearbox",
            _ => "Mass that hangs on the front joint",
        },
        Entry::FrontSupport => "What holds the front joint gives way: least stiffness",
        Entry::RearSupport if job.check.build.bearing_at.is_blank() => {
            "What holds the rear joint gives way: least stiffness"
        }
        Entry::RearSupport => "The centre bearing gives way: least stiffness",
        Entry::StepAt => "Tube changes, from the front joint's centre on the shaft as it is now",
        Entry::StepDiameter => "Diameter behind that place",
        Entry::StepWall => "Wall behind that place",
        Entry::LumpMass => "Mass of a damper or lump on the shaft",
        Entry::LumpAt => "Its middle, from the front joint's centre on the shaft as it is now",
        Entry::BearingAt => "Centre bearing, from the front joint's centre on the shaft as it is now",
        Entry::HungBehind => "Mass that hangs on the rear joint behind it",
        Entry::EngineTorque => "Engine's top torque",
        Entry::StallRatio => "Converter: torque ratio at stall",
        Entry::AxleLoad => "Highest real load on the driven axle",
        Entry::Friction => "Friction of tyre and road",
        Entry::OwnYield => "Yield strength of the tube, lower bound",
        Entry::WeldLeg => "Leg of the weld round the tube",
        Entry::ElectrodeStrength => "Tensile strength of the weld metal",
        Entry::SplineRoot => "Splined part: diameter at the root",
        Entry::SplineBore => "Bore through it",
        Entry::SplineYield => "Yield strength of what it is made of",
        Entry::JointRating => "Torque the joints are rated for",
        Entry::JointRatedTo => "Up to a working angle of",
        // Every other field has its label beside the others.
        _ => "",
    };
    fixed.to_owned()
}

/// What to know while filling in a field of Check.
pub(super) const fn check_hint(entry: Entry) -> &'static str {
    match entry {
        Entry::EngineLimit => "The red line, or what the limiter allows.",
        Entry::GearRatio(0) => {
            "Turns of the engine for one of the shaft, from first up; under 1 is an overdrive. Leave empty what it has not."
        }
        Entry::LowRange => "Empty: no transfer case, or none in use.",
        Entry::TyreSize => "205/55R16, or 31x10.50R15: as it stands on its side.",
        Entry::RolledOut => {
            "Mark tyre and floor, loaded as driven; push it one turn straight on and measure. Two turns halved are better."
        }
        Entry::RoadTop => "The fastest you will ever drive it, downhill too.",
        Entry::Cruise => "To keep it off half the whirl speed.",
        Entry::FrontYokeMass => {
            "Empty both: each is taken for half of what the whole shaft weighs beyond its tube."
        }
        Entry::FrontSupport => {
            "No handbook has it: push on it with a known force and read a dial, or leave it empty. Empty: you are told how soft it may be."
        }
        Entry::SlipMass => "Counts only where what holds the front joint gives way.",
        Entry::StepAt => "Only for a tube of two sizes.",
        Entry::LumpMass => "Only where one is fitted.",
        Entry::BearingAt => {
            "Only for the front half of a two-piece shaft. The rear half is a shaft by itself: a job of its own."
        }
        Entry::HungBehind => "Half of the rear shaft, with its front yoke and the joint.",
        Entry::EngineTorque => "At the flywheel, by its maker.",
        Entry::StallRatio => "Usual: 1.8 to 2.4 (common practice, no source). Empty: a manual box.",
        Entry::AxleLoad => {
            "Loaded, uphill, under power, with what the trailer presses: the most that will ever stand on it."
        }
        Entry::Friction => {
            "0.71 (published, driveshaft installation manual J3311-1). Soft tyres on dry road hold more: 0.9 and up (common practice, no source)."
        }
        Entry::OwnYield => {
            "By the mill's paper. Empty with aluminium: 6061-T6, 35 ksi, 241 MPa (from memory)."
        }
        Entry::WeldLeg => "As it will be laid, measured on the tube and on the shoulder.",
        Entry::ElectrodeStrength => {
            "70 ksi, 480 MPa: E70 wire or rod (published, AWS A5.18, from memory)."
        }
        Entry::SplineBore => "Empty: solid.",
        Entry::SplineRoot => "The thinnest place of slip, stub or pinion end that carries the torque.",
        Entry::SplineYield => "By its maker. A guess of ours would be worth nothing.",
        Entry::JointRating => "From its maker's sheet, for short peaks, not for the long run.",
        Entry::JointRatedTo => "As the sheet says. Empty: it does not say.",
        _ => "",
    }
}
