//! Labels, hints and titles: the words on the page that do not depend on a number.

use crate::job::{
    Dial, Display, Division, End, Entry, Job, LevelDivision, Material, PassKind, PhaseMethod,
    RunOutLimit, Side, Stations, WeightsCame, WhirlShare, YokeAt,
};
use crate::stage::Stage;
use crate::stage::cut::MarkName;
use crate::stage::truing::station_at;

/// Something with a word of its own.
pub trait Worded {
    /// The word.
    fn word(self) -> &'static str;
}

macro_rules! worded {
    ($($type:ident { $($item:ident => $word:literal),+ $(,)? })+) => {$(
        impl Worded for $type {
            fn word(self) -> &'static str {
                match self { $($type::$item => $word),+ }
            }
        }
    )+};
}

worded! {
    Display {
        Sixteenth => "inch, 1/16",
        ThirtySecond => "inch, 1/32",
        SixtyFourth => "inch, 1/64",
        DecimalInch => "inch, decimal",
        Millimetre => "mm",
    }
    Division {
        Sixteenth => "1/16 in",
        ThirtySecond => "1/32 in",
        SixtyFourth => "1/64 in",
        Millimetre => "1 mm",
        HalfMillimetre => "0.5 mm",
        Thousandth => "0.001 in",
        Fiftieth => "0.02 mm",
    }
    YokeAt {
        SetPoint => "drawn out to its set point",
        Bottomed => "pushed in, bottomed",
    }
    Material { Steel => "steel", Aluminium => "aluminium" }
    WhirlShare {
        Light => "0.70 light vehicles",
        Industrial => "0.65 industrial",
        CardanMaker => "0.75 cardan-shaft maker",
    }
    End { Rear => "rear (axle)", Front => "front (gearbox)" }
    PhaseMethod { Levels => "level on each yoke", Bench => "gap under an ear" }
    Side { Right => "right", Left => "left" }
    LevelDivision {
        Tenth => "0.1°",
        Twentieth => "0.05°",
        Fifth => "0.2°",
        Quarter => "1/4°",
        Whole => "1°",
    }
    Dial {
        Thousandth => "0.001 in",
        HalfThousandth => "0.0005 in",
        Hundredth => "0.01 mm",
    }
    RunOutLimit {
        HomeTruing => "0.010 in, a careful hand",
        ArmyTube => "0.015 in, tube anywhere",
        NearWeld => "0.020 in, 3 in from a weld",
        EightTenths => "0.8 mm",
        Own => "my own",
    }
    PassKind { AsFitted => "As fitted", Tacked => "Tacked", Welded => "Welded" }
    WeightsCame { Off => "yes, logged below", None => "none came off" }
    Stations { Four => "4", Eight => "8", Twelve => "12", Free => "my own" }
}

/// The title of a stage.
pub const fn stage_title(stage: Stage) -> &'static str {
    match stage {
        Stage::Measure => "Measure",
        Stage::Check => "Check",
        Stage::Cut => "Cut",
        Stage::Phase => "Phase",
        Stage::True => "True",
        Stage::Weights => "Weights",
    }
}

/// What a stage asks and answers, in one line.
pub const fn stage_lead(stage: Stage) -> &'static str {
    match stage {
        Stage::Measure => {
            "Joint centre to joint centre: the old shaft on the bench, and the distance under the car at ride height."
        }
        Stage::Check => "Is the new length fit for the speed it will see?",
        Stage::Cut => "Every place from one far datum: the joint centre at the end that is not cut.",
        Stage::Phase => "How far the two yokes are turned against each other, before you tack.",
        Stage::True => {
            "One turn of the dial, read at each mark, beside the new weld. Plunger pushed in is plus. Number the tube clockwise from the witness mark, seen from the rear."
        }
        Stage::Weights => "Where each balance weight goes back, kept with its own yoke.",
    }
}

/// The joint at the end that is not cut: the far datum, by name.
pub const fn far_joint(job: &Job) -> &'static str {
    match job.cut.end {
        End::Rear => "gearbox",
        End::Front => "axle",
    }
}

/// The yoke at the end that is cut, by name.
pub const fn cut_yoke(job: &Job) -> &'static str {
    match job.cut.end {
        End::Rear => "rear (axle)",
        End::Front => "front (gearbox)",
    }
}

/// The label of a field.
pub fn label(job: &Job, entry: Entry) -> String {
    let fixed = match entry {
        Entry::OldReading(i) => return format!("Old, reading {}", i + 1),
        Entry::WantedReading(i) => return format!("Wanted, reading {}", i + 1),
        Entry::SetPoint => "Slip yoke drawn out from bottomed",
        Entry::TubeDiameter => "Tube diameter, outside",
        Entry::TubeWall => "Tube wall",
        Entry::TopSpeed => "Top speed of the shaft",
        Entry::WeldLine => return format!("Old weld line, from the {} joint's centre", far_joint(job)),
        Entry::FarWeldLine => {
            return format!("Weld line at the {} end, from the same centre", far_joint(job));
        }
        Entry::Kerf => "Kerf: the slot your wheel leaves",
        Entry::RootGap => "Root gap at each new weld",
        Entry::Shrinkage => "Shrinkage of each new weld",
        Entry::Spigot => "Spigot of the yoke inside the tube",
        Entry::Lift => "Gap under one ear of the rear yoke",
        Entry::Span => "Span between the ears",
        Entry::FrontLevel => "Front yoke",
        Entry::RearLevel => "Rear yoke",
        Entry::PhaseLimit => "Turn allowed",
        Entry::OwnLimit => "My limit of the total reading",
        Entry::StationAt(_, s) => return format!("Place of mark {}", s + 1),
        Entry::StationReading(p, s) => return station_label(job, p, s),
        Entry::Closing(_) => "First mark again, to close the turn",
        Entry::WeightMass(i) => return format!("Weight {}: mass", i + 1),
        Entry::WeightClock(i) => return format!("Weight {}: clock position", i + 1),
        Entry::WeightDistance(i) => {
            return format!("Weight {}: from the {} joint", i + 1, far_joint(job));
        }
        Entry::WeightRadius(i) => return format!("Weight {}: radius", i + 1),
        Entry::YokeTurned => return format!("The {} yoke turned against its own mark", cut_yoke(job)),
        Entry::ShaftMass => "Mass of the whole shaft",
    };
    fixed.to_owned()
}

fn station_label(job: &Job, pass: usize, station: usize) -> String {
    match station_at(job, pass, station) {
        Some(at) => {
            let text = crate::quantity::show_clock(at);
            text.split(' ').next().unwrap_or(&text).to_owned()
        }
        None => format!("Mark {}", station + 1),
    }
}

/// What to know while filling in a field; empty where the label says it all.
pub const fn hint(entry: Entry) -> &'static str {
    match entry {
        Entry::SetPoint => "At ride height. Usual: 3/4 to 1 in (common practice, no source).",
        Entry::TubeDiameter => "By calliper.",
        Entry::TopSpeed => {
            "Engine speed divided by the top gear's ratio, at the fastest you will drive. Overdrive makes the shaft faster than the engine."
        }
        Entry::WeldLine => "Where the tube meets the yoke's shoulder.",
        Entry::FarWeldLine => {
            "Needed when the shaft gets longer; otherwise it proves that enough tube is left."
        }
        Entry::Kerf => "Cut a scrap of tube and measure the slot. It always goes on the scrap side.",
        Entry::RootGap => "Usual: 0, the tube against the shoulder (common practice, no source).",
        Entry::Shrinkage => {
            "Usual: 0 to 1/32 in against a shoulder, so 1/64 (common practice, no source); about 0.8 mm a fillet (TWI)."
        }
        Entry::Spigot => "How far it reaches into the tube.",
        Entry::Lift => {
            "Front yoke's cups flat on the plate; feelers or shims under the ear that stands off."
        }
        Entry::FrontLevel | Entry::RearLevel => {
            "Across the ears, seen from the rear; + when the right-hand ear is low."
        }
        Entry::PhaseLimit => "1° (published, US Army TM 5-4210-230-14&P-1).",
        Entry::StationAt(..) => "Clockwise from the witness mark, seen from the rear: 4:30 or 135°.",
        Entry::Closing(_) => "Shows whether the dial moved.",
        Entry::WeightClock(_) => "7:30, or 225°.",
        Entry::WeightRadius(_) => "Shaft's axis to the middle of the weight.",
        Entry::YokeTurned => "+ clockwise seen from the rear. Usual: 0, back in its own marks.",
        Entry::ShaftMass => "By scale; only to judge what is left.",
        _ => "",
    }
}

/// The name of a line in the cut list.
pub const fn mark_title(name: MarkName) -> &'static str {
    match name {
        MarkName::FarWeld => "Far weld",
        MarkName::OldWeld => "Old weld line",
        MarkName::TubeEnd => "New face of the tube",
        MarkName::SlotEnd => "Other side of the slot",
        MarkName::SpigotReach => "Spigot reaches to here",
        MarkName::NewWeld => "New weld",
        MarkName::NewJoint => "New joint centre",
        MarkName::OldJoint => "Old joint centre",
    }
}

/// What to do at a line of the cut list.
pub const fn mark_note(name: MarkName) -> &'static str {
    match name {
        MarkName::FarWeld => "Stays as it is.",
        MarkName::OldWeld => "Saw through the wall only, on the tube's side of the line.",
        MarkName::TubeEnd => "Scribe right round. This line must stay: saw beside it.",
        MarkName::SlotEnd => "The kerf lies between these two, on the scrap side.",
        MarkName::SpigotReach => "Clear the inside seam up to here.",
        MarkName::NewWeld => "Tack in quarters, true, then weld opposite quarters in turn.",
        MarkName::NewJoint => "Where the joint's centre must come out when all is welded.",
        MarkName::OldJoint => "Where it was.",
    }
}
