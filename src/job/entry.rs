//! The fields of a job by name, so that a field can be shown, complained about and found missing
//! without anyone knowing where in the record it lies.

use super::{Dial, Job, MarkNames, Typed};
use crate::quantity::Unit;

/// One list of the fields and their names, so that no field can be without a name or a number.
macro_rules! entries {
    (
        single { $($(#[$about:meta])* $single:ident = $single_name:literal,)+ }
        of_row { $($(#[$row_about:meta])* $row:ident = $row_name:literal,)+ }
        of_turn { $($(#[$mark_about:meta])* $mark:ident = $mark_name:literal,)+ }
        of_mark { $($(#[$point_about:meta])* $point:ident = $point_name:literal,)+ }
    ) => {
        /// A field that is typed into.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Entry {
            $($(#[$about])* $single,)+
            $($(#[$row_about])* $row(usize),)+
            $($(#[$mark_about])* $mark(usize, usize),)+
            $($(#[$point_about])* $point(usize, usize, usize),)+
        }

        impl Entry {
            /// Each kind of field by name, the first of its list.
            pub(super) const KINDS: &[(&str, Entry)] = &[
                $(($single_name, Entry::$single),)+
                $(($row_name, Entry::$row(0)),)+
                $(($mark_name, Entry::$mark(0, 0)),)+
                $(($point_name, Entry::$point(0, 0, 0)),)+
            ];

            /// Its numbers: row; or sitting and reading, pass and place; or pass, place and mark.
            pub(super) fn numbers(&mut self) -> [Option<&mut usize>; 3] {
                match self {
                    $(Entry::$single)|+ => [None, None, None],
                    $(Entry::$row(row))|+ => [Some(row), None, None],
                    $(Entry::$mark(turn, row))|+ => [Some(turn), Some(row), None],
                    $(Entry::$point(pass, place, mark))|+ => [Some(pass), Some(place), Some(mark)],
                }
            }
        }
    };
}

entries! {
    single {
        /// Slip yoke drawn out from bottomed.
        SetPoint = "set-point",
        /// Tube diameter.
        TubeDiameter = "tube-diameter",
        /// Tube wall.
        TubeWall = "tube-wall",
        /// Top speed of the shaft.
        TopSpeed = "top-speed",
        /// Old weld line from the far datum.
        WeldLine = "weld-line",
        /// Weld line at the far end from the far datum.
        FarWeldLine = "far-weld-line",
        /// Kerf.
        Kerf = "kerf",
        /// Root gap.
        RootGap = "root-gap",
        /// Weld shrinkage.
        Shrinkage = "shrinkage",
        /// Spigot length.
        Spigot = "spigot",
        /// Span between the ears.
        Span = "span",
        /// Most turn of the yokes allowed.
        PhaseLimit = "phase-limit",
        /// The mechanic's own limit of the total reading.
        OwnLimit = "own-limit",
        /// Turn of the cut end's yoke against its witness mark.
        YokeTurned = "yoke-turned",
        /// Mass of the whole shaft.
        ShaftMass = "shaft-mass",
        /// Slip drawn out while a length was taken.
        TakenAt = "taken-at",
        /// Spline engaged when bottomed.
        SplineLength = "spline",
        /// Least engaged spline wanted.
        LeastEngaged = "least-engaged",
        /// Least room wanted before the slip bottoms.
        BumpRoom = "bump-room",
        /// Rise of the axle from ride to bump.
        BumpTravel = "bump-travel",
        /// Fall of the axle from ride to droop.
        DroopTravel = "droop-travel",
        /// Distance at bump.
        AtBump = "at-bump",
        /// Distance at ride.
        AtRide = "at-ride",
        /// Distance at droop.
        AtDroop = "at-droop",
        /// Slope of the shaft at ride.
        ShaftSlope = "shaft-slope",
        /// Length of the axle's link.
        LinkRadius = "link-radius",
        /// Axle end of the link above its frame pivot.
        LinkRise = "link-rise",
        /// Shoulder to seal face, yoke bottomed.
        BottomedGap = "bottomed",
        /// Seal face to lip.
        LipDepth = "lip-depth",
        /// Length of the slip yoke's barrel.
        BarrelLength = "barrel",
        /// Shoulder to the middle of the groove.
        GroovePlace = "groove-place",
        /// Width of the groove.
        GrooveWidth = "groove-width",
        /// How far the lip shall stay off the groove.
        GrooveMargin = "groove-margin",
        /// Cup diameter, front joint.
        FrontCup = "front-cup",
        /// Cup diameter, rear joint.
        RearCup = "rear-cup",
        /// Cup centre to ear's edge, front joint.
        FrontEar = "front-ear",
        /// Cup centre to ear's edge, rear joint.
        RearEar = "rear-ear",
        /// The same for the wanted distance, front joint.
        WantedFrontEar = "wanted-front-ear",
        /// The same for the wanted distance, rear joint.
        WantedRearEar = "wanted-rear-ear",
        /// Front yoke: shoulder or flange face to joint centre.
        FrontDepth = "front-depth",
        /// Rear yoke: flange face to joint centre.
        RearDepth = "rear-depth",
        /// How far inside the old weld the tube is cut first.
        ClearBy = "clear-by",
        /// Diameter of the spigot.
        SpigotDiameter = "spigot-diameter",
        /// Yoke's shoulder to its joint centre.
        Shoulder = "shoulder",
        /// Left on the tube to be filed off.
        Trim = "trim",
        /// Place of the tube's own seam.
        SeamClock = "seam",
        /// Span between the front yoke's ears.
        FrontSpan = "front-span",
        /// Turn of the rear yoke against the front one that is wanted.
        OwnTarget = "own-target",
        /// Height of the front joint's centre.
        FrontHeight = "front-height",
        /// Height of the rear joint's centre.
        RearHeight = "rear-height",
        /// One spot, read as everything else was.
        OneWay = "one-way",
        /// The same spot, the instrument turned end for end.
        TurnedRound = "turned-round",
        /// Rear joint right of the front one.
        SideOffset = "side-offset",
        /// Plan angle of the gearbox.
        GearboxPlan = "gearbox-plan",
        /// Plan angle of the shaft.
        ShaftPlan = "shaft-plan",
        /// Plan angle of the pinion.
        PinionPlan = "pinion-plan",
        /// Rise of the pinion's nose under power.
        PowerRise = "power-rise",
        /// Axle's centre to the rear joint.
        PinionArm = "pinion-arm",
        /// Rise of the pinion's nose at full bump.
        BumpRise = "bump-rise",
        /// Rise of the pinion's nose at full droop.
        DroopRise = "droop-rise",
        /// Most torsional acceleration of the pinion.
        TorsionalLimit = "torsional-limit",
        /// Most acceleration of the shaft.
        InertiaLimit = "inertia-limit",
        /// Least angle of a joint on needle bearings.
        LeastAngle = "least-angle",
        /// Road speed at the shaft's top speed.
        RoadSpeed = "road-speed",
        /// Most angle of the joints by their maker.
        JointMost = "joint-most",
        /// Length of the spring pad.
        SpringPad = "spring-pad",
        /// Front mounts of the gearbox to its rear one.
        MountArm = "mount-arm",
        /// Rear mount of the gearbox to the front joint.
        JointOverhang = "joint-overhang",
        /// What the dial loses when it turns back.
        Backlash = "backlash",
        /// Far datum to the vee block nearer the gearbox.
        FrontVee = "front-vee",
        /// Far datum to the vee block nearer the axle.
        RearVee = "rear-vee",
        /// Line through the ears of the cut end's yoke, on the clock.
        EarClock = "ear-clock",
        /// Far datum to the place where weights go at the gearbox end.
        FrontPlane = "front-plane",
        /// Far datum to the place where weights go at the axle end.
        RearPlane = "rear-plane",
        /// Thickness of the strip that new weights are cut from.
        StripThickness = "strip-thickness",
        /// Width of that strip.
        StripWidth = "strip-width",
        /// Speed of the shaft at every run on the car.
        RunSpeed = "run-speed",
        /// Middle of a clip's screw head to the shaft's axis.
        ClipRadius = "clip-radius",
        /// Mass of one clip's screw head.
        ClipMass = "clip-mass",
        /// How far a reading moves from run to run with nothing changed.
        RunScatter = "run-scatter",
    }
    of_row {
        /// A reading of the old length.
        OldReading = "old",
        /// A reading of the wanted distance.
        WantedReading = "wanted",
        /// A reading from seal face or flange to the axle.
        EndsReading = "ends",
        /// How the face stands at a place round the tube.
        FaceReading = "face",
        /// A slope of the gearbox.
        GearboxSlope = "gearbox-slope",
        /// A slope of the shaft.
        ShaftSlopeRead = "shaft-slope-read",
        /// A slope of the pinion.
        PinionSlope = "pinion-slope",
        /// A place along the tube.
        PlaceAlong = "place",
        /// Mass of a weight.
        WeightMass = "weight-mass",
        /// Clock position of a weight.
        WeightClock = "weight-clock",
        /// Distance of a weight from the far datum.
        WeightDistance = "weight-distance",
        /// Radius of a weight.
        WeightRadius = "weight-radius",
        /// Length of a weight round the tube.
        WeightLength = "weight-length",
        /// Width of a weight along the tube.
        WeightWidth = "weight-width",
        /// Thickness of a weight.
        WeightThickness = "weight-thickness",
        /// What is to be remembered of a weight.
        WeightNote = "weight-note",
        /// Mass of a run's trial weight; the first run has none.
        TrialMass = "trial-mass",
        /// Place of a run's trial weight on the clock.
        TrialClock = "trial-clock",
        /// Amplitude at one end, after the correction.
        CheckAmplitude = "check-amplitude",
    }
    of_turn {
        /// First station read again: pass, place.
        Closing = "closing",
        /// Lift under one ear of the rear yoke: sitting, reading.
        Lift = "lift",
        /// Lift under one ear of the front yoke: sitting, reading.
        FrontLift = "front-lift",
        /// Level across the front yoke: sitting, reading.
        FrontLevel = "front-level",
        /// Level across the rear yoke: sitting, reading.
        RearLevel = "rear-level",
        /// Arc from the front yoke's line to the rear yoke's: sitting, reading.
        LineArc = "line-arc",
        /// Amplitude: run, end.
        RunAmplitude = "run-amplitude",
        /// Phase: run, end.
        RunPhase = "run-phase",
    }
    of_mark {
        /// Where on the tube a station is: pass, place, mark.
        StationAt = "station-at",
        /// Reading at a station: pass, place, mark.
        StationReading = "station",
    }
}

/// One table for reading and for writing, so that the two can never point to different places.
macro_rules! places {
    ($job:ident, $entry:ident, $get:ident, $($borrow:tt)+) => {
        match $entry {
            Entry::OldReading(i) => $job.measure.old.$get(i),
            Entry::WantedReading(i) => $job.measure.wanted.$get(i),
            Entry::EndsReading(i) => $job.measure.ends.$get(i),
            Entry::FaceReading(i) => $job.cut.face.$get(i),
            Entry::SetPoint => Some($($borrow)+ $job.measure.set_point),
            Entry::TakenAt => Some($($borrow)+ $job.measure.taken_at),
            Entry::SplineLength => Some($($borrow)+ $job.slip.spline),
            Entry::LeastEngaged => Some($($borrow)+ $job.slip.least_engaged),
            Entry::BumpRoom => Some($($borrow)+ $job.slip.bump_room),
            Entry::BumpTravel => Some($($borrow)+ $job.slip.bump_travel),
            Entry::DroopTravel => Some($($borrow)+ $job.slip.droop_travel),
            Entry::AtBump => Some($($borrow)+ $job.slip.at_bump),
            Entry::AtRide => Some($($borrow)+ $job.slip.at_ride),
            Entry::AtDroop => Some($($borrow)+ $job.slip.at_droop),
            Entry::ShaftSlope => Some($($borrow)+ $job.slip.slope),
            Entry::LinkRadius => Some($($borrow)+ $job.slip.link_radius),
            Entry::LinkRise => Some($($borrow)+ $job.slip.link_rise),
            Entry::BottomedGap => Some($($borrow)+ $job.slip.bottomed),
            Entry::LipDepth => Some($($borrow)+ $job.slip.lip_depth),
            Entry::BarrelLength => Some($($borrow)+ $job.slip.barrel),
            Entry::GroovePlace => Some($($borrow)+ $job.slip.groove_place),
            Entry::GrooveWidth => Some($($borrow)+ $job.slip.groove_width),
            Entry::GrooveMargin => Some($($borrow)+ $job.slip.groove_margin),
            Entry::FrontCup => Some($($borrow)+ $job.measure.front_cup),
            Entry::RearCup => Some($($borrow)+ $job.measure.rear_cup),
            Entry::FrontEar => Some($($borrow)+ $job.measure.front_ear),
            Entry::RearEar => Some($($borrow)+ $job.measure.rear_ear),
            Entry::WantedFrontEar => Some($($borrow)+ $job.measure.wanted_front_ear),
            Entry::WantedRearEar => Some($($borrow)+ $job.measure.wanted_rear_ear),
            Entry::FrontDepth => Some($($borrow)+ $job.measure.front_depth),
            Entry::RearDepth => Some($($borrow)+ $job.measure.rear_depth),
            Entry::ClearBy => Some($($borrow)+ $job.cut.clear_by),
            Entry::SpigotDiameter => Some($($borrow)+ $job.cut.spigot_diameter),
            Entry::Shoulder => Some($($borrow)+ $job.cut.shoulder),
            Entry::Trim => Some($($borrow)+ $job.cut.trim),
            Entry::SeamClock => Some($($borrow)+ $job.cut.seam),
            Entry::TubeDiameter => Some($($borrow)+ $job.tube.diameter),
            Entry::TubeWall => Some($($borrow)+ $job.tube.wall),
            Entry::TopSpeed => Some($($borrow)+ $job.check.top_speed),
            Entry::WeldLine => Some($($borrow)+ $job.cut.weld_line),
            Entry::FarWeldLine => Some($($borrow)+ $job.cut.far_weld_line),
            Entry::Kerf => Some($($borrow)+ $job.cut.kerf),
            Entry::RootGap => Some($($borrow)+ $job.cut.root_gap),
            Entry::Shrinkage => Some($($borrow)+ $job.cut.shrinkage),
            Entry::Spigot => Some($($borrow)+ $job.cut.spigot),
            Entry::Span => Some($($borrow)+ $job.phase.span),
            Entry::FrontSpan => Some($($borrow)+ $job.phase.front_span),
            Entry::OwnTarget => Some($($borrow)+ $job.phase.own_target),
            Entry::Lift(s, i) => $job.phase.sittings.$get(s).and_then(|sitting| sitting.lift.$get(i)),
            Entry::FrontLift(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.front_lift.$get(i))
            }
            Entry::FrontLevel(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.front_level.$get(i))
            }
            Entry::RearLevel(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.rear_level.$get(i))
            }
            Entry::LineArc(s, i) => $job.phase.sittings.$get(s).and_then(|sitting| sitting.arc.$get(i)),
            Entry::GearboxSlope(i) => $job.angles.gearbox.$get(i),
            Entry::ShaftSlopeRead(i) => $job.angles.shaft.$get(i),
            Entry::PinionSlope(i) => $job.angles.pinion.$get(i),
            Entry::FrontHeight => Some($($borrow)+ $job.angles.front_height),
            Entry::RearHeight => Some($($borrow)+ $job.angles.rear_height),
            Entry::OneWay => Some($($borrow)+ $job.angles.one_way),
            Entry::TurnedRound => Some($($borrow)+ $job.angles.turned),
            Entry::SideOffset => Some($($borrow)+ $job.angles.side_offset),
            Entry::GearboxPlan => Some($($borrow)+ $job.angles.gearbox_plan),
            Entry::ShaftPlan => Some($($borrow)+ $job.angles.shaft_plan),
            Entry::PinionPlan => Some($($borrow)+ $job.angles.pinion_plan),
            Entry::PowerRise => Some($($borrow)+ $job.angles.power_rise),
            Entry::PinionArm => Some($($borrow)+ $job.angles.pinion_arm),
            Entry::JointMost => Some($($borrow)+ $job.angles.joint_most),
            Entry::JointOverhang => Some($($borrow)+ $job.angles.joint_overhang),
            Entry::BumpRise => Some($($borrow)+ $job.angles.bump_rise),
            Entry::DroopRise => Some($($borrow)+ $job.angles.droop_rise),
            Entry::TorsionalLimit => Some($($borrow)+ $job.angles.torsional_limit),
            Entry::InertiaLimit => Some($($borrow)+ $job.angles.inertia_limit),
            Entry::LeastAngle => Some($($borrow)+ $job.angles.least_angle),
            Entry::RoadSpeed => Some($($borrow)+ $job.angles.road_speed),
            Entry::SpringPad => Some($($borrow)+ $job.angles.pad),
            Entry::MountArm => Some($($borrow)+ $job.angles.mount_arm),
            Entry::PhaseLimit => Some($($borrow)+ $job.phase.limit),
            Entry::OwnLimit => Some($($borrow)+ $job.truing.own_limit),
            Entry::Backlash => Some($($borrow)+ $job.truing.backlash),
            Entry::FrontVee => Some($($borrow)+ $job.truing.front_vee),
            Entry::RearVee => Some($($borrow)+ $job.truing.rear_vee),
            Entry::PlaceAlong(i) => $job.truing.places.$get(i),
            Entry::StationAt(p, i, m) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).and_then(|turn| turn.at.$get(m))
            }
            Entry::StationReading(p, i, m) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).and_then(|turn| turn.readings.$get(m))
            }
            Entry::Closing(p, i) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).map(|turn| $($borrow)+ turn.closing)
            }
            Entry::WeightMass(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.mass),
            Entry::WeightClock(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.clock),
            Entry::WeightDistance(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.distance),
            Entry::WeightRadius(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.radius),
            Entry::WeightLength(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.length),
            Entry::WeightWidth(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.width),
            Entry::WeightThickness(i) => {
                $job.weights.rows.$get(i).map(|row| $($borrow)+ row.thickness)
            }
            Entry::WeightNote(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.note),
            Entry::EarClock => Some($($borrow)+ $job.weights.ear),
            Entry::FrontPlane => Some($($borrow)+ $job.weights.front_plane),
            Entry::RearPlane => Some($($borrow)+ $job.weights.rear_plane),
            Entry::StripThickness => Some($($borrow)+ $job.weights.strip_thickness),
            Entry::StripWidth => Some($($borrow)+ $job.weights.strip_width),
            Entry::RunSpeed => Some($($borrow)+ $job.balance.speed),
            Entry::ClipRadius => Some($($borrow)+ $job.balance.clip_radius),
            Entry::ClipMass => Some($($borrow)+ $job.balance.clip_mass),
            Entry::RunScatter => Some($($borrow)+ $job.balance.scatter),
            Entry::TrialMass(r) => $job.balance.runs.$get(r).map(|run| $($borrow)+ run.mass),
            Entry::TrialClock(r) => $job.balance.runs.$get(r).map(|run| $($borrow)+ run.at),
            Entry::RunAmplitude(r, e) => {
                let read = $job.balance.runs.$get(r).and_then(|run| run.read.$get(e));
                read.map(|read| $($borrow)+ read.amplitude)
            }
            Entry::RunPhase(r, e) => {
                let read = $job.balance.runs.$get(r).and_then(|run| run.read.$get(e));
                read.map(|read| $($borrow)+ read.phase)
            }
            Entry::CheckAmplitude(e) => $job.balance.check.$get(e),
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
            Entry::TopSpeed | Entry::RunSpeed => Unit::Rpm,
            Entry::RunAmplitude(..)
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
            | Entry::JointMost => Unit::Degree,
            Entry::TorsionalLimit | Entry::InertiaLimit => Unit::RadianPerSquareSecond,
            Entry::RoadSpeed if inch => Unit::MilePerHour,
            Entry::RoadSpeed => Unit::KilometrePerHour,
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
            Entry::ShaftMass if inch => Unit::Pound,
            Entry::ShaftMass => Unit::Kilogram,
            _ if inch => Unit::Inch,
            _ => Unit::Millimetre,
        }
    }
}
