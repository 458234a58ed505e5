//! Jobs filled in by luck, the same luck at every run.

use shaftwright::job::{
    BalanceBy, Choice, ClockMarks, CutAt, Datum, Dial, Display, Division, Drives, End, Entry, Gearbox,
    Grade, Groove, Guide, Job, Joined, LevelDivision, MOST_GEARS, MOST_RUNS, MarkNames, Material, Paper,
    PassKind, PhaseMethod, PhaseTarget, PickUp, PlanBy, Plunger, PutBack, Ready, Route, RunOutLimit,
    RunsMade, SeamBy, SetUp, ShaftBy, ShaftKind, Side, Spin, SquareBy, Stations, TravelBy, TrialLeft,
    TubeMaterial, TurnedHow, TyreBy, Weighed, WeightRow, WeightsCame, WhirlShare, YokeAt, sample,
};

/// A linear congruential generator with the constants of Knuth's MMIX (from memory); the seed is
/// fixed, and only its high half is used.
pub struct Luck(pub u64);

impl Luck {
    fn next(&mut self) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize
    }

    fn of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.next() % list.len()]
    }

    fn choice<C: Choice>(&mut self) -> C {
        self.of(C::ALL)
    }
}

const TEXTS: &[&str] = &[
    "",
    "   ",
    "0",
    "-0",
    "1",
    "-1",
    "3",
    "12",
    "48",
    "57-5/16",
    "57 5/16\"",
    "4' 9-5/16\"",
    "1455.7 mm",
    "145,57 cm",
    "1,455",
    "1 455",
    "-1 455",
    "55-1/2",
    "0.001",
    "0.083",
    "1/64",
    "1/61",
    "57-17/16",
    "½",
    "NaN",
    "inf",
    "-inf",
    "1e9",
    "1e-300",
    "0x10",
    "--3",
    "٣",
    "🔧",
    "99999999999999999999999999999999999",
    "0.00000000000000000000000000000000001",
    "-99999999999999999999",
    "3 m",
    "200 mm",
    "3000 mm",
    "199.999999 mm",
    "0.8 mm",
    "12 mm",
    "10 mm",
    "2999.999 mm",
    "7:30",
    "12:30",
    "7:75",
    "19 o'clock",
    "0:00",
    "360°",
    "359.9999°",
    "-180",
    "180",
    "90",
    "-90",
    "89.9999",
    "5",
    "0.1",
    "20000",
    "100",
    "4200 rpm",
    "0.5 g",
    "500 g",
    "14.5 oz",
    "80 kg",
    "18.5",
    "about so long",
    "3 mm",
    "30 mm",
    "6 mm",
    "0.3 mm",
    "1111111111111111111111111111111111111111111111111111111111111",
    "\u{0}",
    "\n",
    "\"",
    "'",
    "''",
    "/",
    "1/0",
    "0/2",
    "°",
    ":",
    ",",
    ".",
    "...",
    "1.2.3",
    "1,2,3",
    "5'",
    "5' 11-63/64\"",
    "5' 12\"",
    "-12 mm",
];

/// A text that makes sense for a field, so that sums are reached and not only their guards.
fn sensible(entry: Entry, luck: &mut Luck) -> String {
    let few = luck.next() % 9;
    match entry {
        Entry::OldReading(_) => format!("57-{}/32", 1 + 2 * few),
        Entry::WantedReading(_) => format!("{}.5", [55, 57, 60, 12, 40, 56, 57, 110, 30][few]),
        Entry::EndsReading(_) => format!("{}.5", 62 + few),
        Entry::SetPoint | Entry::TakenAt => format!("{}/8", few),
        Entry::SplineLength => format!("{}.5", 2 + few % 4),
        Entry::LeastEngaged => "1-1/2".into(),
        Entry::BumpRoom | Entry::LipDepth | Entry::BottomedGap | Entry::GrooveMargin => {
            format!("{few}/16")
        }
        Entry::BumpTravel | Entry::DroopTravel => format!("{}", 1 + few % 5),
        Entry::AtBump => format!("60-{few}/16"),
        Entry::AtRide => "60-1/4".into(),
        Entry::AtDroop => format!("60-{}/16", 3 + few),
        Entry::ShaftSlope => format!("{}", few as i32 - 2),
        Entry::LinkRadius => ["20", "24.5", "8", "4", "30", "12", "16", "50", "40"][few].into(),
        Entry::LinkRise => format!("{}", few as i32 - 4),
        Entry::BarrelLength => ["2-1/8", "3", "4-1/2", "6"][few % 4].into(),
        Entry::GroovePlace => ["1/4", "1-1/8", "1.35", "1-15/16", "2-1/4"][few % 5].into(),
        Entry::GrooveWidth => "1/8".into(),
        Entry::FrontCup | Entry::RearCup => "1.0625".into(),
        Entry::FrontEar | Entry::RearEar | Entry::WantedFrontEar | Entry::WantedRearEar => {
            format!("{few}/8")
        }
        Entry::FrontDepth | Entry::RearDepth | Entry::Shoulder => format!("3.{few}"),
        Entry::ClearBy => format!("{}.5", few % 4),
        Entry::SpigotDiameter => {
            ["2.83", "2.8", "1.83", "3.83", "2.9", "2.5", "2.834", "2.81", "3"][few].into()
        }
        Entry::Trim => format!("{few}/64"),
        Entry::FaceReading(_) => format!("{}/64", few as i32 - 4),
        Entry::SeamClock => format!("{}:30", 1 + few),
        Entry::TubeDiameter => format!("{}", 2 + few % 3),
        Entry::TubeWall => {
            ["0.083", "0.095", "0.25", "0.4", "3 mm", "1", "0.065", "1.6", "2"][few].into()
        }
        Entry::TopSpeed => format!("{}", 1000 + 1000 * few),
        Entry::WeldLine => format!("{}.25", 50 + few),
        Entry::FarWeldLine => format!("{few}.5"),
        Entry::Kerf => format!("{few}/64"),
        Entry::Lift(..) | Entry::FrontLift(..) => format!("{few}/128"),
        Entry::RootGap | Entry::Shrinkage => format!("{few}/128"),
        Entry::Spigot => format!("{}/4", few.min(3)),
        Entry::Span | Entry::FrontSpan => "3-1/4".into(),
        Entry::FrontLevel(..) | Entry::RearLevel(..) => {
            ["-0.3", "0.2", "179.8", "-179.9", "0.6", "-1.1", "89.9", "0", "1.4"][few].into()
        }
        Entry::YokeTurned => format!("-{few}.5"),
        Entry::LineArc(..) => format!("-{few}/128"),
        Entry::OwnTarget => ["0", "30", "-15", "90"][few % 4].into(),
        Entry::GearboxSlope(_) => format!("{}.5", 1 + few % 4),
        Entry::PinionSlope(_) => format!("{}", few as i32 - 4),
        Entry::ShaftSlopeRead(_) => format!("{}.2", 4 + few % 3),
        Entry::OneWay => "3.1".into(),
        Entry::TurnedRound => format!("3.{few}"),
        Entry::SideOffset => format!("{few}/2"),
        Entry::GearboxPlan | Entry::ShaftPlan | Entry::PinionPlan => format!("{}", few as i32 - 4),
        Entry::FrontHeight => format!("24.{few}"),
        Entry::RearHeight => ["20", "18", "24", "16", "21", "90", "5", "19.5", "20.25"][few].into(),
        Entry::PowerRise | Entry::BumpRise | Entry::DroopRise => format!("{}", few as i32 - 4),
        Entry::TorsionalLimit => ["400", "300", "50"][few % 3].into(),
        Entry::InertiaLimit => ["1000", "500", "100"][few % 3].into(),
        Entry::LeastAngle => ["1", "1/2", "0"][few % 3].into(),
        Entry::RoadSpeed => format!("{}0 mph", 4 + few),
        Entry::PinionArm | Entry::JointOverhang => format!("{}", 2 * few),
        Entry::JointMost => ["15", "20", "30"][few % 3].into(),
        Entry::SpringPad => format!("{}", 2 + few % 4),
        Entry::MountArm => format!("{}", 20 + few),
        Entry::PhaseLimit => "1".into(),
        Entry::OwnLimit => "0.012".into(),
        Entry::StationAt(_, _, s) => format!("{}:15", (s + few / 4) % 12),
        Entry::StationReading(..) => format!("{}", few as i32 - 4),
        Entry::Backlash => "0.5".into(),
        Entry::FrontVee => format!("{}", 6 + few),
        Entry::RearVee => format!("{}", 38 + few),
        Entry::PlaceAlong(place) => format!("{}.{few}", 8 + 6 * place),
        Entry::Closing(..) => ["0", "1", "-1", "9"][few % 4].into(),
        Entry::WeightMass(_) => format!("{few}.5"),
        Entry::WeightClock(_) => format!("{}:20", few + 1),
        Entry::WeightDistance(_) => format!("{}.5", few * 7),
        Entry::WeightRadius(_) => "1-9/16".into(),
        Entry::ShaftMass => format!("{}", 10 + few),
        Entry::WeightLength(_) => format!("{}/8", 8 + few),
        Entry::WeightWidth(_) | Entry::StripWidth => "3/4".into(),
        Entry::WeightThickness(_) | Entry::StripThickness => ["1/16", "1/8", "3 mm"][few % 3].into(),
        Entry::WeightNote(_) => ["", "thin", "half covered by paint"][few % 3].into(),
        Entry::EarClock => ["12", "3", "1:30"][few % 3].into(),
        Entry::FrontPlane => format!("{}", 4 + few),
        Entry::RearPlane => format!("{}", 44 + few),
        Entry::RunSpeed => format!("{}00", 12 + few),
        Entry::ClipRadius => ["1.7", "1.8", "45 mm"][few % 3].into(),
        Entry::ClipMass => format!("{}.5", 5 + few),
        Entry::RunScatter => ["0.1", "0.02", "1", "0"][few % 4].into(),
        Entry::TrialMass(_) => ["12", "12", "12", "20"][few % 4].into(),
        Entry::TrialClock(run) => format!("{}°", (run + 2) % 3 * 120 + 5 * (few % 2)),
        Entry::RunAmplitude(run, _) => {
            ["8", "3.1", "10.8", "13.2", "7", "12"][(run + few / 7) % 6].into()
        }
        Entry::RunPhase(..) => format!("{}", 37 * few),
        Entry::CheckAmplitude(_) => format!("{few}.2"),
        _ => sensible_check(entry, few),
    }
}

/// The same for a field of Check.
fn sensible_check(entry: Entry, few: usize) -> String {
    match entry {
        Entry::EngineLimit => format!("{}500", 3 + few % 4),
        Entry::GearRatio(row) => ["3.5", "2.1", "1.4", "1", "0.8"][row % 5].into(),
        Entry::ReverseRatio => "3.6".into(),
        Entry::LowRange => ["", "2.7", "1"][few % 3].into(),
        Entry::AxleRatio => ["3.55", "4.1", "2.73"][few % 3].into(),
        Entry::TyreSize => {
            ["205/55R16", "31x10.50R15", "235/75 r15 105S", "LT245/75R16"][few % 4].into()
        }
        Entry::TyreTurns => ["780 /mi", "485 per km"][few % 2].into(),
        Entry::RolledOut => format!("8{few}"),
        Entry::RoadTop => format!("{}0 mph", 5 + few),
        Entry::Cruise => format!("{}0 mph", 4 + few),
        Entry::Modulus => ["70", "120 GPa", "10 Mpsi"][few % 3].into(),
        Entry::ShearModulus => ["5", "27"][few % 2].into(),
        Entry::Density => ["1550", "0.098 lb/in³"][few % 2].into(),
        Entry::FrontYokeMass | Entry::RearYokeMass => format!("{}", 2 + few),
        Entry::SlipMass | Entry::HungBehind => format!("{}.5", 3 + few),
        Entry::FrontSupport | Entry::RearSupport => {
            ["5000 N/mm", "500", "100000 lbf/in"][few % 3].into()
        }
        Entry::StepAt => format!("2{few}"),
        Entry::StepDiameter => ["2.5", "3.5"][few % 2].into(),
        Entry::StepWall => "0.083".into(),
        Entry::LumpMass => "1.5".into(),
        Entry::LumpAt => format!("1{few}"),
        Entry::BearingAt => format!("4{few}"),
        Entry::EngineTorque => format!("{}0", 12 + 4 * few),
        Entry::StallRatio => "2.1".into(),
        Entry::AxleLoad => format!("{}00", 20 + 3 * few),
        Entry::Friction => ["0.71", "0.9"][few % 2].into(),
        Entry::OwnYield | Entry::SplineYield => ["45", "300 MPa", "90 ksi"][few % 3].into(),
        Entry::WeldLeg => ["1/8", "3/16", "3 mm"][few % 3].into(),
        Entry::ElectrodeStrength => ["70", "480 MPa"][few % 2].into(),
        Entry::SplineRoot => ["1.2", "1.4"][few % 2].into(),
        Entry::SplineBore => ["", "0.25"][few % 2].into(),
        Entry::JointRating => format!("{}00", 6 + 2 * few),
        Entry::JointRatedTo => ["", "3", "12"][few % 3].into(),
        other => panic!("{other:?} has no sensible text"),
    }
}

/// A job of sensible and of bad text, in shares that luck decides.
pub fn any_job(luck: &mut Luck) -> Job {
    let mut job =
        if luck.next().is_multiple_of(4) { sample() } else { Job::new(luck.choice::<Display>()) };
    job.measure.division = luck.choice::<Division>();
    job.measure.yoke_at = luck.choice::<YokeAt>();
    job.measure.kind = luck.choice::<ShaftKind>();
    job.measure.route = luck.choice::<Route>();
    for datum in [
        &mut job.measure.old_datum.front,
        &mut job.measure.old_datum.rear,
        &mut job.measure.wanted_datum.front,
        &mut job.measure.wanted_datum.rear,
    ] {
        *datum = luck.choice::<Datum>();
    }
    job.slip.by = luck.choice::<TravelBy>();
    job.slip.guide = luck.choice::<Guide>();
    job.slip.groove = luck.choice::<Groove>();
    job.cut.at = luck.choice::<CutAt>();
    job.cut.square_by = luck.choice::<SquareBy>();
    job.cut.marks = luck.choice::<ClockMarks>();
    job.cut.paper = luck.choice::<Paper>();
    job.tube.material = luck.choice::<TubeMaterial>();
    job.check.whirl_share = luck.choice::<WhirlShare>();
    job.check.speeds.tyre_by = luck.choice::<TyreBy>();
    job.check.load.gearbox = luck.choice::<Gearbox>();
    job.check.load.drives = luck.choice::<Drives>();
    job.check.load.grade = luck.choice::<Grade>();
    job.check.speeds.gears.resize_with(1 + luck.next() % MOST_GEARS, Default::default);
    job.cut.end = luck.choice::<End>();
    job.phase.method = luck.choice::<PhaseMethod>();
    job.phase.target = luck.choice::<PhaseTarget>();
    for sitting in &mut job.phase.sittings {
        sitting.lifted = luck.choice::<Side>();
        sitting.front_lifted = luck.choice::<Side>();
    }
    job.angles.division = luck.choice::<LevelDivision>();
    job.angles.shaft_by = luck.choice::<ShaftBy>();
    job.angles.plan_by = luck.choice::<PlanBy>();
    job.phase.level_division = luck.choice::<LevelDivision>();
    job.truing.dial = luck.choice::<Dial>();
    job.truing.limit = luck.choice::<RunOutLimit>();
    job.truing.set_up = luck.choice::<SetUp>();
    job.truing.plunger = luck.choice::<Plunger>();
    job.truing.marks = luck.choice::<MarkNames>();
    job.truing.turned = luck.choice::<TurnedHow>();
    job.truing.seam = luck.choice::<SeamBy>();
    for _ in 0..[0, 0, 0, 2, 4][luck.next() % 5] {
        job.truing.add_place();
    }
    // Seldom: a job without weights leaves nothing of the stage to walk.
    job.weights.came =
        luck.of(&[WeightsCame::Off, WeightsCame::Off, WeightsCame::Off, WeightsCame::None]);
    job.weights.weighed = luck.choice::<Weighed>();
    job.weights.material = luck.choice::<Material>();
    job.weights.put_back = luck.choice::<PutBack>();
    job.weights.joined = luck.choice::<Joined>();
    job.balance.ready = luck.of(&[Ready::Ready, Ready::Ready, Ready::NotYet]);
    job.balance.by = luck.choice::<BalanceBy>();
    job.balance.pick_up = luck.choice::<PickUp>();
    job.balance.spin = luck.choice::<Spin>();
    job.balance.left = luck.choice::<TrialLeft>();
    job.balance.end = luck.choice::<End>();
    // What the runs were made for is said by their first text; a saved job may say anything.
    if luck.next().is_multiple_of(4) {
        job.balance.made = luck.choice::<RunsMade>();
    }
    job.balance.runs.resize_with(1 + luck.next() % MOST_RUNS, Default::default);
    for _ in 0..luck.next() % 3 {
        job.truing.begin(luck.choice::<PassKind>(), luck.choice::<Stations>());
    }
    for aside in
        job.truing.passes.iter_mut().flat_map(|pass| &mut pass.turns).flat_map(|turn| &mut turn.aside)
    {
        *aside = luck.next().is_multiple_of(20);
    }
    job.measure.old.resize_with(1 + luck.next() % 6, Default::default);
    job.weights.rows.resize_with(luck.next() % 4, WeightRow::default);
    // From nearly all sensible to nearly all bad, with gaps; and the display switched half-way.
    let (bad, gaps) = (luck.next() % 10, luck.next() % 3);
    for entry in job.entries() {
        if luck.next().is_multiple_of(40) {
            job.display = luck.choice::<Display>();
        }
        match luck.next() % 10 {
            roll if roll < bad => job.put(entry, luck.of(TEXTS)),
            roll if roll < 10 - gaps => {
                let text = sensible(entry, luck);
                job.put(entry, &text);
            }
            _ => {}
        }
    }
    job
}

/// The sample job with a few of its fields and choices changed, so that what is said near a limit is
/// said too.
pub fn near_the_sample(luck: &mut Luck) -> Job {
    let mut job = sample();
    match luck.next() % 13 {
        0 => job.cut.at = CutAt::ClearOfIt,
        1 => job.slip.by = TravelBy::Reckoned,
        2 => job.cut.square_by = luck.choice::<SquareBy>(),
        3 => job.measure.route = luck.choice::<Route>(),
        4 => job.measure.division = luck.choice::<Division>(),
        5 => job.truing.limit = luck.choice::<RunOutLimit>(),
        // A slip just long enough, a tube just too short, a weld that draws more than comes off, a turn
        // read at one place over and over.
        6 => job.put(Entry::SplineLength, luck.of(&["2.95", "2.97", "2.98"])),
        7 => job.put(Entry::FarWeldLine, luck.of(&["50", "50-1/2", "51"])),
        8 => {
            (0..3).for_each(|reading| job.put(Entry::WantedReading(reading), "57.2"));
            job.put(Entry::Shrinkage, luck.of(&["1/8", "0.2"]));
        }
        9 => {
            job.truing.begin(PassKind::Welded, Stations::Free);
            for station in 0..5 {
                job.put(Entry::StationAt(3, 0, station), &format!("{}°", 45.0 + 0.505 * station as f64));
                job.put(Entry::StationReading(3, 0, station), luck.of(&["0", "1", "-1"]));
            }
        }
        _ => {}
    }
    let all = job.entries();
    for _ in 0..2 + luck.next() % 6 {
        let entry = luck.of(&all);
        let text = match luck.next() % 8 {
            0 => luck.of(TEXTS).to_owned(),
            _ => sensible(entry, luck),
        };
        job.put(entry, &text);
    }
    if job.cut.at == CutAt::ClearOfIt {
        job.put(Entry::ClearBy, luck.of(&["1-1/2", "1.7", "2", "3", "1-1/4", ""]));
    }
    job
}
