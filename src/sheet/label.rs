//! Labels, hints and titles: the words on the page that do not depend on a number.

use super::check_field::check_label;
use crate::job::{
    BalanceBy, ClockMarks, CutAt, Datum, Dial, Display, Division, End, Entry, Groove, Guide, Job,
    Joined, LevelDivision, MarkNames, Material, Paper, PassKind, PhaseMethod, PhaseTarget, PickUp,
    PlanBy, Plunger, PutBack, Route, RunOutLimit, SeamBy, SetUp, ShaftBy, ShaftKind, Side, Spin,
    SquareBy, Stations, TravelBy, TrialLeft, TurnedHow, Weighed, WeightsCame, WhirlShare, YokeAt,
};
use crate::quantity::{degrees, show_angle, show_clock};
use crate::stage::Stage;
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
        Drawn => "drawn out, and read",
    }
    ShaftKind {
        SlipInGearbox => "slip yoke in the gearbox",
        SlipOnShaft => "slip spline on the shaft",
        Flanged => "flange at both ends, slip inside",
    }
    Route {
        Joints => "joint to joint",
        Ends => "from the ends, and the yokes' own sizes",
        Both => "both ways, to compare",
    }
    Datum {
        CupCentre => "cup centre",
        OuterSeat => "cup's seat, outer",
        InnerSeat => "cup's seat, inner",
        OuterEar => "ear's edge, outer",
        InnerEar => "ear's edge, inner",
    }
    TravelBy {
        Measured => "measured at bump, ride and droop",
        Reckoned => "reckoned from the shaft's slope",
    }
    Guide {
        Straight => "straight up and down",
        Trailing => "link, pivot ahead of the axle",
        Leading => "link, pivot behind the axle",
    }
    Groove { Worn => "worn in", None => "none to feel" }
    CutAt { OldWeld => "open the old weld", ClearOfIt => "cut clear of it first" }
    SquareBy {
        Strip => "how far it stands past a strip",
        Feeler => "gap under a square",
    }
    ClockMarks { Eight => "8", Twelve => "12", Sixteen => "16", TwentyFour => "24" }
    Paper { A4 => "A4", Letter => "Letter" }
    Weighed { Scale => "on a scale", Size => "by their size" }
    PutBack {
        OwnYoke => "each with its own yoke",
        BothShares => "both planes carry what they carried",
        OwnPlaces => "each where it was",
    }
    Joined { Apart => "as many as came off", OneAnEnd => "one at each end" }
    BalanceBy {
        Amplitudes => "how strong, without phase",
        Phase => "how strong and where, one end",
        TwoPlanes => "how strong and where, both ends",
    }
    PickUp {
        Strobe => "a flash shows where the witness mark stands",
        Mark => "the high spot is marked on the shaft",
        Lag => "an eye at the mark, lag in degrees of turn",
    }
    Spin { Clockwise => "clockwise", Counterclockwise => "counter-clockwise" }
    TrialLeft { TakenOff => "comes off again", LeftOn => "stays on" }
    Material { Steel => "steel", Aluminium => "aluminium" }
    WhirlShare {
        Light => "0.70 light vehicles",
        Industrial => "0.65 industrial",
        CardanMaker => "0.75 cardan-shaft maker",
    }
    End { Rear => "rear (axle)", Front => "front (gearbox)" }
    PhaseMethod {
        Levels => "level on each yoke",
        Bench => "gap under an ear, front yoke flat",
        BothLifts => "gap under an ear of each yoke",
        Lines => "two lines on the tube",
    }
    PhaseTarget {
        InLine => "in one plane",
        AsItWas => "as before the cut",
        Own => "my own angle",
    }
    ShaftBy {
        Heights => "reckoned from heights and the new length",
        Read => "read on the fitted shaft",
    }
    PlanBy {
        Straight => "all in one line",
        Offset => "side by side, both straight",
        Angles => "each at its own angle",
    }
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
        EightTenths => "0.8 mm, anywhere",
        MiddleOfTube => "0.025 in, middle of the tube",
        SlipNeck => "0.005 in, neck beside the slip",
        Anywhere => "0.035 in, the most anywhere",
        Own => "my own",
    }
    SetUp {
        Joints => "its own joints, on the car",
        Gearbox => "slip yoke in the gearbox, tail held",
        Vees => "two vee blocks",
        Centres => "centres",
    }
    Plunger { InIsPlus => "reads more (plus)", InIsMinus => "reads less (minus)" }
    MarkNames { Clock => "clock", Degrees => "degrees", Numbers => "numbers" }
    TurnedHow {
        ByMarks => "marks on the tube pass the dial",
        Clockwise => "shaft turned clockwise, step by step",
        Counterclockwise => "shaft turned counter-clockwise",
    }
    SeamBy {
        Found => "looked for in the readings",
        Known => "left out where the seam is",
        Counted => "every reading counts",
    }
    PassKind { AsFitted => "As fitted", Tacked => "Tacked", Welded => "Welded" }
    WeightsCame { Off => "yes, logged below", None => "none came off" }
    Stations {
        Four => "4",
        Eight => "8",
        Twelve => "12",
        Sixteen => "16",
        TwentyFour => "24",
        ThirtySix => "36",
        Free => "my own",
        HighLow => "high and low only",
    }
}

/// The title of a stage.
pub const fn stage_title(stage: Stage) -> &'static str {
    match stage {
        Stage::Measure => "Measure",
        Stage::Angles => "Angles",
        Stage::Check => "Check",
        Stage::Cut => "Cut",
        Stage::Phase => "Phase",
        Stage::True => "True",
        Stage::Weights => "Weights",
        Stage::Balance => "Balance",
    }
}

/// What a stage asks and answers, in one line.
pub const fn stage_lead(stage: Stage) -> &'static str {
    match stage {
        Stage::Measure => {
            "Joint centre to joint centre: the old shaft on the bench, and the distance under the car at ride height."
        }
        Stage::Angles => {
            "How gearbox, shaft and pinion lie at ride height, and what both joints make of it. Slopes: + falling toward the rear."
        }
        Stage::Check => "Is the shaft fit for the speed and the torque it will see?",
        Stage::Cut => "Every place from one far datum: the joint centre at the end that is not cut.",
        Stage::Phase => {
            "How far the two yokes are turned against each other, before you tack and after welding."
        }
        Stage::True => {
            "One turn of the dial, read at each mark, beside the new weld. Number the tube clockwise from the witness mark, seen from the rear."
        }
        Stage::Weights => {
            "Where each balance weight goes back, what that leaves, and what the run-out adds."
        }
        Stage::Balance => {
            "Only if it still shakes: runs on the car with trial weights tell what to put on, and where."
        }
    }
}

/// The joint at the end that is not cut: the far datum, by name.
pub const fn far_joint(job: &Job) -> &'static str {
    match job.cut.end {
        End::Rear => "gearbox",
        End::Front => "axle",
    }
}

/// The far datum in full: with a slip in the shaft that was not at its set point on the bench, every
/// distance from it holds only as the shaft lay there.
pub fn far_datum(job: &Job) -> String {
    let slip = match (job.measure.kind, job.measure.yoke_at) {
        (ShaftKind::SlipInGearbox, _) | (_, YokeAt::SetPoint) => "",
        (_, YokeAt::Bottomed) => ", the slip pushed in as it was measured",
        (_, YokeAt::Drawn) => ", the slip as it stood when the old shaft was measured",
    };
    format!("the {} joint's centre{slip}", far_joint(job))
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
        Entry::EndsReading(i) => return format!("End to end, reading {}", i + 1),
        Entry::SetPoint => "Slip drawn out from bottomed",
        Entry::TakenAt => "Drawn out while this was taken",
        Entry::SplineLength => "Spline engaged when bottomed",
        Entry::LeastEngaged => "Least engaged at full droop",
        Entry::BumpRoom => "Least room at full bump",
        Entry::BumpTravel => "Axle up, ride to bump",
        Entry::DroopTravel => "Axle down, ride to droop",
        Entry::AtBump => "Distance at bump",
        Entry::AtRide => "Distance at ride",
        Entry::AtDroop => "Distance at droop",
        Entry::ShaftSlope => "Slope of the shaft at ride",
        Entry::LinkRadius => "Length of the link",
        Entry::LinkRise => "Its axle end above its frame pivot",
        Entry::BottomedGap => "Shoulder to seal face, bottomed",
        Entry::LipDepth => "Seal face to its lip",
        Entry::BarrelLength => "Barrel, from its shoulder",
        Entry::GroovePlace => "Shoulder to middle of groove",
        Entry::GrooveWidth => "Width of the groove",
        Entry::GrooveMargin => "Lip to stay off it by",
        Entry::FrontCup => "Cup diameter, front joint",
        Entry::RearCup => "Cup diameter, rear joint",
        Entry::FrontEar => "Cup centre to ear's edge, old, front",
        Entry::RearEar => "Cup centre to ear's edge, old, rear",
        Entry::WantedFrontEar => "Cup centre to ear's edge, wanted, front",
        Entry::WantedRearEar => "Cup centre to ear's edge, wanted, rear",
        Entry::FrontDepth => match job.measure.kind {
            ShaftKind::SlipInGearbox => "Slip yoke: shoulder to joint centre",
            _ => "Front flange yoke: face to joint centre",
        },
        Entry::RearDepth => "Rear flange yoke: face to joint centre",
        Entry::ClearBy => "First cut, inside the old weld by",
        Entry::SpigotDiameter => "Spigot diameter",
        Entry::Shoulder => return format!("Shoulder of the {} yoke to its joint centre", cut_yoke(job)),
        Entry::Trim => "Left on to be filed",
        Entry::SeamClock => "Tube's own seam at",
        Entry::FaceReading(i) => return show_clock(degrees(i as f64 * 45.0)),
        Entry::TubeDiameter => "Tube diameter, outside",
        Entry::TubeWall => "Tube wall",
        Entry::TopSpeed => "Top speed of the shaft, or what makes it",
        Entry::WeldLine => return format!("Old weld line, from the {} joint's centre", far_joint(job)),
        Entry::FarWeldLine => {
            return format!("Weld line at the {0} end, from the {0} joint's centre", far_joint(job));
        }
        Entry::Kerf => "Kerf: the slot your wheel leaves",
        Entry::RootGap => "Root gap at each new weld",
        Entry::Shrinkage => "Shrinkage of each new weld",
        Entry::Spigot => "Spigot of the yoke inside the tube",
        Entry::Lift(_, i) => return format!("Gap, rear yoke, reading {}", i + 1),
        Entry::FrontLift(_, i) => return format!("Gap, front yoke, reading {}", i + 1),
        Entry::Span => "Span between the rear yoke's ears",
        Entry::FrontSpan => "Span between the front yoke's ears",
        Entry::FrontLevel(_, i) => return format!("Front yoke, reading {}", i + 1),
        Entry::RearLevel(_, i) => return format!("Rear yoke, reading {}", i + 1),
        Entry::LineArc(_, i) => return format!("Front line to rear line, reading {}", i + 1),
        Entry::OwnTarget => "Rear yoke turned against the front one by",
        Entry::GearboxSlope(i) => return format!("Gearbox, reading {}", i + 1),
        Entry::ShaftSlopeRead(i) => return format!("Shaft, reading {}", i + 1),
        Entry::PinionSlope(i) => return format!("Pinion, reading {}", i + 1),
        Entry::FrontHeight => "Front joint's centre above the floor",
        Entry::RearHeight => "Rear joint's centre above the floor",
        Entry::OneWay => "One spot, as you read all the others",
        Entry::TurnedRound => "The same spot, instrument turned end for end",
        Entry::SideOffset => "Rear joint right of the front one",
        Entry::GearboxPlan => "Gearbox, seen from above",
        Entry::ShaftPlan => "Shaft, seen from above",
        Entry::PinionPlan => "Pinion, seen from above",
        Entry::PowerRise => "Pinion's nose rises under power by",
        Entry::PinionArm => "Axle's centre forward to the rear joint",
        Entry::JointMost => "Most angle the joints allow",
        Entry::JointOverhang => "From that rear mount on to the front joint",
        Entry::BumpRise => "Pinion's nose rises, ride to bump, by",
        Entry::DroopRise => "Pinion's nose rises, ride to droop, by",
        Entry::TorsionalLimit => "Most the pinion may be shaken",
        Entry::InertiaLimit => "Most the shaft may be shaken",
        Entry::LeastAngle => "Least angle for needle bearings",
        Entry::RoadSpeed => "Road speed at the shaft's top speed",
        Entry::SpringPad => "Spring pad, along the vehicle",
        Entry::MountArm => "Gearbox's front mounts to its rear one",
        Entry::PhaseLimit => "Turn allowed",
        Entry::OwnLimit => "My limit of the total reading",
        Entry::StationAt(p, _, s) => return place_label(job, p, s),
        Entry::StationReading(p, _, s) => return station_label(job, p, s),
        Entry::Closing(..) => "First mark again",
        Entry::Backlash => "What the dial loses when it turns back",
        Entry::FrontVee => {
            return format!("Front vee block, from the {} joint's centre", far_joint(job));
        }
        Entry::RearVee => return format!("Rear vee block, from the {} joint's centre", far_joint(job)),
        Entry::PlaceAlong(i) => {
            return format!("Place {}: dial from the {} joint's centre", i + 1, far_joint(job));
        }
        Entry::WeightMass(i) => return format!("Weight {}: mass", i + 1),
        Entry::WeightClock(i) => return format!("Weight {}: clock position", i + 1),
        Entry::WeightDistance(i) => {
            return format!("Weight {}: from the {} joint", i + 1, far_joint(job));
        }
        Entry::WeightRadius(i) => return format!("Weight {}: radius", i + 1),
        Entry::YokeTurned => return format!("The {} yoke turned against its own mark", cut_yoke(job)),
        Entry::ShaftMass => "Mass of the whole shaft",
        Entry::WeightLength(i) => return format!("Weight {}: length round the tube", i + 1),
        Entry::WeightWidth(i) => return format!("Weight {}: width along it", i + 1),
        Entry::WeightThickness(i) => return format!("Weight {}: thickness", i + 1),
        Entry::WeightNote(i) => return format!("Weight {}: note", i + 1),
        Entry::EarClock => return format!("One ear of the {} yoke at", cut_yoke(job)),
        Entry::FrontPlane => {
            return format!("Weights at the gearbox end, from the {} joint's centre", far_joint(job));
        }
        Entry::RearPlane => {
            return format!("Weights at the axle end, from the {} joint's centre", far_joint(job));
        }
        Entry::StripThickness => "Thickness of your strip",
        Entry::StripWidth => "Width of your strip",
        Entry::RunSpeed => "Speed of the shaft at every run",
        Entry::ClipRadius => "Screw head to the shaft's axis",
        Entry::ClipMass => "Mass of one screw head",
        Entry::RunScatter => "How much a reading changes by itself",
        Entry::TrialMass(run) => return format!("Trial {run}: mass"),
        Entry::TrialClock(run) => return format!("Trial {run}: clock position"),
        Entry::RunAmplitude(run, end) => return run_label(job, run, end, ""),
        Entry::RunPhase(run, end) => return run_label(job, run, end, " phase"),
        Entry::CheckAmplitude(end) => return format!("Check run{}", at_end(job, end, "")),
        _ => return check_label(job, entry),
    };
    fixed.to_owned()
}

/// What a reading of a run is called.
fn run_label(job: &Job, run: usize, end: usize, what: &str) -> String {
    let run = if run == 0 { "First run".to_owned() } else { format!("Trial {run}") };
    format!("{run}{}", at_end(job, end, what))
}

/// At which end, where both are read, and what was read there.
fn at_end(job: &Job, end: usize, what: &str) -> String {
    let what = if what.is_empty() { " reading" } else { what };
    match (job.balance.by, end) {
        (BalanceBy::TwoPlanes, 0) => format!(", front{what}"),
        (BalanceBy::TwoPlanes, _) => format!(", rear{what}"),
        _ if job.balance.ends() == [end] => format!(",{what}"),
        (_, 0) => format!(",{what} at the gearbox end"),
        _ => format!(",{what} at the axle end"),
    }
}

/// What the place of a mark is called.
fn place_label(job: &Job, pass: usize, station: usize) -> String {
    match highest_or_lowest(job, pass, station) {
        Some(word) => format!("{word}, where"),
        None => format!("Place of mark {}", station + 1),
    }
}

/// Its word where only these two are read.
fn highest_or_lowest(job: &Job, pass: usize, station: usize) -> Option<&'static str> {
    let stations = job.truing.passes.get(pass)?.stations;
    let word = if station == 0 { "Highest" } else { "Lowest" };
    (stations == Stations::HighLow).then_some(word)
}

/// What a mark round the tube is called: by the clock, in degrees, or by number.
fn station_label(job: &Job, pass: usize, station: usize) -> String {
    if let Some(word) = highest_or_lowest(job, pass, station) {
        return word.to_owned();
    }
    // Numbers stand on the tube, clockwise: turned clockwise itself, it shows the last one after the first.
    let count = job.truing.passes.get(pass).and_then(|pass| pass.stations.evenly());
    let number = match (count, job.truing.turned) {
        (Some(count), TurnedHow::Clockwise) if station > 0 => count.saturating_sub(station),
        _ => station,
    };
    // Marks are on the tube's whole length: those that the mechanic lays out, he lays out once.
    match (job.truing.marks, station_at(job, pass, 0, station)) {
        (MarkNames::Numbers, _) | (_, None) => format!("Mark {}", number + 1),
        (MarkNames::Degrees, Some(at)) => show_angle(at, 1),
        (MarkNames::Clock, Some(at)) => {
            let text = show_clock(at);
            text.split(' ').next().unwrap_or(&text).to_owned()
        }
    }
}
