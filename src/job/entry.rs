//! The fields of a job by name, so that a field can be shown, complained about and found missing
//! without anyone knowing where in the record it lies.

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
        /// Most speed of the engine.
        EngineLimit = "engine-limit",
        /// Ratio of reverse.
        ReverseRatio = "reverse-ratio",
        /// Ratio of the transfer case in low.
        LowRange = "low-range",
        /// Ratio of the axle.
        AxleRatio = "axle-ratio",
        /// Marking of the tyre's size.
        TyreSize = "tyre-size",
        /// Turns of the tyre on a length of road.
        TyreTurns = "tyre-turns",
        /// Road rolled out in one turn.
        RolledOut = "rolled-out",
        /// Fastest on the road.
        RoadTop = "road-top",
        /// Speed of most of the way.
        Cruise = "cruise",
        /// Young's modulus of the tube, by hand.
        Modulus = "modulus",
        /// Shear modulus of the tube, by hand.
        ShearModulus = "shear-modulus",
        /// Density of the tube, by hand.
        Density = "density",
        /// Mass of what sits at the front of the tube.
        FrontYokeMass = "front-yoke-mass",
        /// Mass of what sits at the rear of the tube.
        RearYokeMass = "rear-yoke-mass",
        /// Mass of a slip yoke in the gearbox.
        SlipMass = "slip-mass",
        /// Least stiffness of what holds the front joint.
        FrontSupport = "front-support",
        /// Least stiffness of what holds the rear joint or the centre bearing.
        RearSupport = "rear-support",
        /// Front joint to the place where the tube changes.
        StepAt = "step-at",
        /// Diameter of the tube behind that place.
        StepDiameter = "step-diameter",
        /// Wall of the tube behind that place.
        StepWall = "step-wall",
        /// Mass of a lump on the tube.
        LumpMass = "lump-mass",
        /// Front joint to that lump.
        LumpAt = "lump-at",
        /// Front joint to a centre bearing.
        BearingAt = "bearing-at",
        /// Mass of what hangs on the rear joint behind a centre bearing.
        HungBehind = "hung-behind",
        /// Most torque of the engine.
        EngineTorque = "engine-torque",
        /// Torque ratio of the converter at stall.
        StallRatio = "stall-ratio",
        /// Highest real load on the axle.
        AxleLoad = "axle-load",
        /// Friction of tyre and road.
        Friction = "friction",
        /// Yield of the tube, by hand.
        OwnYield = "own-yield",
        /// Leg of the weld round the tube.
        WeldLeg = "weld-leg",
        /// Tensile strength of what the tube is welded with.
        ElectrodeStrength = "electrode-strength",
        /// Diameter of the splined part at the spline's root.
        SplineRoot = "spline-root",
        /// Bore through the splined part.
        SplineBore = "spline-bore",
        /// Yield of the splined part.
        SplineYield = "spline-yield",
        /// Torque that the joints are rated for.
        JointRating = "joint-rating",
        /// Angle up to which the joints are rated.
        JointRatedTo = "joint-rated-to",
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
        /// Ratio of a forward gear.
        GearRatio = "gear-ratio",
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
