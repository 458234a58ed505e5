//! Laws of the angles: floors, mirrors, instruments, swapped ends, and changes that keep their word.

use shaftwright::job::{Entry, Job, LevelDivision, PlanBy, ShaftBy, ShaftKind};
use shaftwright::mechanics::attitude::{Attitude, Leaning, Ties};
use shaftwright::quantity::{
    Angle, Length, as_degrees, as_millimetres, as_radians_per_second_squared, degrees, in_inches,
    millimetres,
};
use shaftwright::stage::angles::{At, attitude};
use shaftwright::stage::{Amount, Answer, Finding, Name, Sense, Stage, Value, read};

use super::Luck;
use super::shaft::{number, shaft};

/// The stage's finding of this name. The other stages are not asked: they would take most of the time.
fn find(job: &Job, name: Name) -> Finding {
    let all = Stage::Angles.findings(job);
    all.into_iter().find(|finding| finding.name == name).unwrap_or_else(|| panic!("no {name:?}"))
}

fn value(job: &Job, name: Name) -> Value {
    find(job, name).value().unwrap_or_else(|| panic!("{:?}", find(job, name)))
}

/// The text of a number, fine enough that what it cuts off shows nowhere here.
fn text(number: f64) -> String {
    format!("{number:.12}")
}

fn put(job: &mut Job, entry: Entry, number: f64) {
    job.put(entry, &text(number));
}

/// Three readings of one slope, each as given.
fn slope(job: &mut Job, entry: fn(usize) -> Entry, readings: [f64; 3]) {
    (0..3).for_each(|reading| put(job, entry(reading), readings[reading]));
}

/// What a line is measured as.
#[derive(Clone, Copy)]
struct Lying {
    gearbox: [f64; 3],
    shaft: [f64; 3],
    pinion: [f64; 3],
    bias: f64,
    plans: [f64; 3],
    offset: f64,
    phase: f64,
}

fn any(luck: &mut Luck) -> Lying {
    let mut readings = |least: f64, most: f64| {
        let middle = luck.between(least, most);
        [0; 3].map(|_| middle + luck.between(-0.1, 0.1))
    };
    let [gearbox, shaft, pinion] = [readings(-4.0, 6.0), readings(-2.0, 9.0), readings(-4.0, 6.0)];
    Lying {
        gearbox,
        shaft,
        pinion,
        bias: luck.between(-0.5, 0.5),
        plans: [0; 3].map(|_| luck.between(-4.0, 4.0)),
        offset: luck.between(-6.0, 6.0),
        phase: luck.between(-8.0, 8.0),
    }
}

impl Lying {
    fn job(&self, shaft_by: ShaftBy, plan_by: PlanBy) -> Job {
        let mut job = shaft();
        (job.angles.shaft_by, job.angles.plan_by) = (shaft_by, plan_by);
        slope(&mut job, Entry::GearboxSlope, self.gearbox);
        slope(&mut job, Entry::ShaftSlopeRead, self.shaft);
        slope(&mut job, Entry::PinionSlope, self.pinion);
        put(&mut job, Entry::OneWay, 1.0 + self.bias);
        put(&mut job, Entry::TurnedRound, 1.0 - self.bias);
        for (entry, plan) in
            [Entry::GearboxPlan, Entry::ShaftPlan, Entry::PinionPlan].into_iter().zip(self.plans)
        {
            put(&mut job, entry, plan);
        }
        put(&mut job, Entry::SideOffset, self.offset);
        // As they stand before the weld, and nothing read after it.
        job.put(Entry::FrontLevel(2, 0), "");
        job.put(Entry::RearLevel(2, 0), "");
        job.put(Entry::FrontLevel(1, 0), "0");
        put(&mut job, Entry::RearLevel(1, 0), self.phase);
        job
    }
}

const SHAKES: [Name; 4] =
    [Name::ShakeAtRide, Name::ShakeUnderPower, Name::ShakeAtBump, Name::ShakeAtDroop];
const JOINTS: [Name; 2] = [Name::FrontJoint, Name::RearJoint];

fn figure(job: &Job, name: Name) -> [f64; 2] {
    let value = value(job, name);
    [number(value.amount), number(value.plus_minus.unwrap())]
}

/// The same figure and the same ±. A least may lie in a valley of nothing, so near nothing by size.
fn alike(one: [f64; 2], other: [f64; 2], name: Name) {
    for (a, b) in one.into_iter().zip(other) {
        assert!((a - b).abs() < 1e-7 * a.abs().max(1.0), "{name:?}: {one:?} and {other:?}");
    }
}

#[test]
fn a_floor_that_is_not_level_changes_no_joint() {
    // All in one line: the same added to every reading of a slope turns everything alike.
    let mut luck = Luck(31);
    for _ in 0..80 {
        let level = any(&mut luck);
        let tilt = luck.between(-5.0, 5.0);
        let tilted = Lying {
            gearbox: level.gearbox.map(|read| read + tilt),
            shaft: level.shaft.map(|read| read + tilt),
            pinion: level.pinion.map(|read| read + tilt),
            ..level
        };
        let [here, there] = [level, tilted].map(|lying| lying.job(ShaftBy::Read, PlanBy::Straight));
        // Bump and droop are up and down, and so mind the floor.
        for name in JOINTS.into_iter().chain([Name::ShakeAtRide, Name::ShakeUnderPower]) {
            alike(figure(&here, name), figure(&there, name), name);
        }
        let slopes = [&here, &there].map(|job| figure(job, Name::ShaftLies)[0]);
        assert!((slopes[1] - slopes[0] - tilt).abs() < 1e-9);
    }
}

#[test]
fn an_instrument_turned_end_for_end_may_show_what_it_likes() {
    let mut luck = Luck(32);
    for round in 0..80 {
        let true_one = any(&mut luck);
        // One spot reads within 4° either way round, or a sign was lost.
        let by = luck.between(-1.4, 1.4);
        let false_one = Lying {
            gearbox: true_one.gearbox.map(|read| read + by),
            shaft: true_one.shaft.map(|read| read + by),
            pinion: true_one.pinion.map(|read| read + by),
            bias: true_one.bias + by,
            ..true_one
        };
        let shaft_by = if round % 2 == 0 { ShaftBy::Heights } else { ShaftBy::Read };
        let plan_by = luck.choice::<PlanBy>();
        let [here, there] = [true_one, false_one].map(|lying| lying.job(shaft_by, plan_by));
        for name in SHAKES.into_iter().chain(JOINTS).chain([Name::ShaftLies]) {
            let both = [&here, &there].map(|job| find(job, name));
            if both[0].value().is_some() {
                alike(figure(&here, name), figure(&there, name), name);
            } else {
                assert!(both[1].value().is_none(), "{name:?}");
            }
        }
    }
}

/// Which way the planes are twisted, + clockwise.
fn twist(job: &Job) -> f64 {
    let value = value(job, Name::PlaneTwist);
    match value.sense {
        Some(Sense::TwistClockwise) => number(value.amount),
        Some(Sense::TwistCounterclockwise) => -number(value.amount),
        _ => panic!("{value:?}"),
    }
}

#[test]
fn left_and_right_are_mirror_images() {
    let mut luck = Luck(33);
    for round in 0..80 {
        let right = any(&mut luck);
        let left = Lying {
            plans: right.plans.map(|plan| -plan),
            offset: -right.offset,
            phase: -right.phase,
            ..right
        };
        let plan_by = if round % 2 == 0 { PlanBy::Offset } else { PlanBy::Angles };
        let [here, there] = [right, left].map(|lying| lying.job(ShaftBy::Heights, plan_by));
        for name in SHAKES.into_iter().chain(JOINTS).chain([Name::ShaftLies]) {
            alike(figure(&here, name), figure(&there, name), name);
        }
        let [one, other] = [&here, &there].map(twist);
        assert!((one + other).abs() < 1e-7, "{one} and {other}");
        // What is offered of slopes is the same, the yokes' turn the other way.
        for name in [Name::PinionParallel, Name::PinionIntersecting] {
            let both = [&here, &there].map(|job| find(job, name).value());
            match both {
                [Some(a), Some(b)] => {
                    // The place of a least is as flat as it is: see tests/stages/angles.rs.
                    assert!((number(a.amount) - number(b.amount)).abs() < 1e-4, "{a:?} {b:?}");
                }
                [a, b] => assert_eq!(a, b),
            }
        }
        let [Some(Sense::Reset(one)), Some(Sense::Reset(other))] =
            [&here, &there].map(|job| value(job, Name::PhaseForTwist).sense)
        else {
            panic!()
        };
        assert!((as_degrees(one.to) + as_degrees(other.to)).abs() < 1e-7);
        assert_eq!(one.plus, !other.plus);
    }
}

#[test]
fn swapped_ends_exchange_the_joints() {
    // Looked at from the other end the gearbox is the pinion: what falls rearward rises, what goes right
    // goes right still (both the way and the side change), and the yokes' turn is the other yoke's.
    let mut luck = Luck(34);
    for _ in 0..80 {
        let one = any(&mut luck);
        let other = Lying {
            gearbox: one.pinion.map(|read| -read),
            shaft: one.shaft.map(|read| -read),
            pinion: one.gearbox.map(|read| -read),
            bias: -one.bias,
            plans: [one.plans[2], one.plans[1], one.plans[0]],
            ..one
        };
        let [here, there] = [one, other].map(|lying| lying.job(ShaftBy::Read, PlanBy::Angles));
        for (front, rear) in [(&here, &there), (&there, &here)] {
            alike(figure(front, Name::FrontJoint), figure(rear, Name::RearJoint), Name::FrontJoint);
            let shakes = [(front, Name::FrontJoint), (rear, Name::RearJoint)].map(|(job, name)| {
                match value(job, name).sense {
                    Some(Sense::ShakesShaft(shake)) => as_radians_per_second_squared(shake),
                    other => panic!("{other:?}"),
                }
            });
            // What it shakes in drive it shakes on the overrun.
            assert!((shakes[0] - shakes[1]).abs() < 1e-7 * shakes[0].max(1.0));
        }
        // And both together pass it on as unevenly either way.
        alike(figure(&here, Name::ShakeAtRide), figure(&there, Name::ShakeAtRide), Name::ShakeAtRide);
        assert!((twist(&here) - twist(&there)).abs() < 1e-7 || twist(&here).abs() > 90.0 - 1e-7);
    }
}

#[test]
fn a_coarser_instrument_never_looks_better() {
    // 0.05°, 0.1°, 0.2°, 1/4°, 1°, by definition of their names. Fewer than four readings, so that the ±
    // is u times one factor.
    let by_size = [
        LevelDivision::Twentieth,
        LevelDivision::Tenth,
        LevelDivision::Fifth,
        LevelDivision::Quarter,
        LevelDivision::Whole,
    ];
    let (mut luck, mut compared) = (Luck(35), 0);
    for _ in 0..40 {
        let lying = any(&mut luck);
        let mut job = lying.job(luck.choice::<ShaftBy>(), luck.choice::<PlanBy>());
        for turned in [true, false] {
            if !turned {
                job.put(Entry::OneWay, "");
                job.put(Entry::TurnedRound, "");
            }
            let mut last: Vec<(Name, f64)> = Vec::new();
            for division in by_size {
                job.angles.division = division;
                let found = Stage::Angles.findings(&job);
                let doubt = |found: &Finding| Some((found.name, number(found.value()?.plus_minus?)));
                let here: Vec<(Name, f64)> = found.iter().filter_map(doubt).collect();
                for (name, before) in &last {
                    let Some((_, doubt)) = here.iter().find(|(known, _)| known == name) else {
                        // A change that is no longer seen is left alone.
                        assert!(offered(&job, *name).unwrap().leave, "{name:?} {division:?}");
                        continue;
                    };
                    // A slope from heights has nothing of it.
                    assert!(*doubt >= before - 1e-9, "{name:?} {division:?}: {doubt} after {before}");
                    compared += 1;
                }
                last = here;
            }
        }
    }
    assert!(compared > 2000, "{compared}");
}

/// Every number that a finding shows, in units of its own.
fn numbers(finding: &Finding) -> Vec<f64> {
    let value = finding.value().unwrap();
    let mut all = vec![value.amount];
    all.extend(value.plus_minus);
    all.extend(finding.limit.map(|limit| limit.amount));
    all.extend(finding.working.iter().flat_map(|step| step.put_in.iter().copied().chain([step.gives])));
    if let Some(Sense::Reset(reset)) = value.sense {
        all.extend([Amount::Angle(reset.to), Amount::Acceleration(reset.left)]);
        all.extend(reset.joints.map(Amount::Angle));
        all.extend(reset.thick.map(Amount::Length));
    }
    all.into_iter().map(number).collect()
}

#[test]
fn heights_and_lengths_in_inches_and_millimetres_agree() {
    let mut luck = Luck(36);
    let mut known = 0;
    for _ in 0..60 {
        let mut inch = any(&mut luck).job(luck.choice::<ShaftBy>(), luck.choice::<PlanBy>());
        inch.measure.kind = luck.choice::<ShaftKind>();
        put(&mut inch, Entry::FrontHeight, luck.between(22.0, 27.0));
        put(&mut inch, Entry::RearHeight, luck.between(18.0, 22.0));
        inch.put(Entry::SpringPad, "4-1/2");
        inch.put(Entry::MountArm, "31");
        let mut metric = inch.clone();
        for entry in inch.entries() {
            if let Ok(Some(Amount::PlainLength(length))) = read(&inch, entry) {
                metric.put(entry, &format!("{:.12} mm", as_millimetres(length)));
            }
        }
        let both = [&inch, &metric].map(|job| Stage::Angles.findings(job));
        assert_eq!(both[0].len(), both[1].len());
        for (one, other) in both[0].iter().zip(&both[1]) {
            assert_eq!(one.name, other.name);
            if one.value().is_none() {
                assert!(matches!(one.answer, Answer::Impossible(_)), "{one:?}");
                assert!(other.value().is_none());
                continue;
            }
            known += 1;
            // A least's place follows the last bits of a flat curve; everything else is the same.
            let changed = matches!(one.value().unwrap().sense, Some(Sense::Reset(_)));
            let within = if changed { 1e-5 } else { 1e-9 };
            for (a, b) in numbers(one).into_iter().zip(numbers(other)) {
                assert!((a - b).abs() < within * a.abs().max(1.0), "{:?}: {a} and {b}", one.name);
            }
        }
    }
    assert!(known > 500, "{known}");
}

fn angle(job: &Job, entry: Entry) -> Angle {
    match read(job, entry) {
        Ok(Some(Amount::Angle(angle))) => angle,
        other => panic!("{entry:?}: {other:?}"),
    }
}

/// Types a line as a level and a compass show it, so that heights and offset do not come in.
fn type_line(job: &mut Job, line: Attitude) {
    let [one, other] = [Entry::OneWay, Entry::TurnedRound].map(|entry| as_degrees(angle(job, entry)));
    (job.angles.shaft_by, job.angles.plan_by) = (ShaftBy::Read, PlanBy::Angles);
    for (list, plan, lean) in [
        (Entry::GearboxSlope as fn(usize) -> Entry, Entry::GearboxPlan, line.gearbox),
        (Entry::ShaftSlopeRead, Entry::ShaftPlan, line.shaft),
        (Entry::PinionSlope, Entry::PinionPlan, line.pinion),
    ] {
        // Seen from the side, an axis that goes off by its plan angle is steeper: tan σ = tan ε/cos κ.
        let [side, aside] = [lean.slope, lean.plan].map(|angle| as_degrees(angle).to_radians());
        slope(job, list, [(side.tan() * aside.cos()).atan().to_degrees() + (one - other) / 2.0; 3]);
        put(job, plan, as_degrees(lean.plan));
    }
}

/// Joint to joint.
fn length(job: &Job) -> Length {
    let lengths = Stage::Measure.findings(job);
    let found = lengths.iter().find(|found| found.name == Name::WantedLength).unwrap();
    let Amount::Length(length) = found.value().unwrap().amount else { panic!("{found:?}") };
    length
}

/// The line without load, with this slope read on one of its axes: as the line is, and how much steeper
/// that axis has to become.
fn to_read(job: &Job, to: f64, which: fn(&Attitude) -> Leaning) -> (Attitude, Angle) {
    let [one, other] = [Entry::OneWay, Entry::TurnedRound].map(|entry| as_degrees(angle(job, entry)));
    let ride = attitude(job, At::Ride).unwrap();
    let lean = which(&ride);
    let own = (to - (one - other) / 2.0).to_radians().tan();
    let side = (own / as_degrees(lean.plan).to_radians().cos()).atan();
    (ride, degrees(side.to_degrees()) - lean.slope)
}

/// Turns the pinion until a level on it shows this slope, the axle about its own centre: the rear joint
/// goes with it, and all is typed as it then lies.
fn turn_pinion(job: &mut Job, to: f64) {
    let (ride, nose) = to_read(job, to, |line| line.pinion);
    let Ok(Some(Amount::PlainLength(arm))) = read(job, Entry::PinionArm) else { panic!() };
    let ties = Ties { length: length(job), slides: true, arm };
    type_line(job, ride.raised(millimetres(0.0), nose, ties).unwrap());
}

/// Turns the gearbox until a level on it shows this slope, its joint going down by so many inches.
fn turn_gearbox(job: &mut Job, to: f64, down: f64) {
    let (mut line, turned) = to_read(job, to, |line| line.gearbox);
    line.gearbox.slope += turned;
    // In runs of the shaft: it falls by its tangent and goes aside by another.
    let [fall, aside] =
        [line.shaft.slope, line.shaft.plan].map(|angle| as_degrees(angle).to_radians().tan());
    let run = in_inches(length(job)) / (1.0 + fall * fall + aside * aside).sqrt();
    line.shaft.slope = degrees((fall - down / run).atan().to_degrees());
    type_line(job, line);
}

/// A change that is offered: to what, and what it says it leaves.
fn offered(job: &Job, name: Name) -> Option<shaftwright::stage::Reset> {
    match find(job, name).value()?.sense {
        Some(Sense::Reset(reset)) => Some(reset),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_change_that_is_made_leaves_what_it_said_and_is_then_left_alone() {
    let mut luck = Luck(37);
    let mut made = 0;
    for _ in 0..80 {
        let lying = any(&mut luck);
        let mut job = lying.job(luck.choice::<ShaftBy>(), luck.choice::<PlanBy>());
        put(&mut job, Entry::PowerRise, luck.between(-1.0, 3.0));
        job.put(Entry::MountArm, "31");
        job.put(Entry::JointOverhang, "7");
        let shaken = |job: &Job| figure(job, Name::ShakeUnderPower)[0];
        for name in
            [Name::PinionParallel, Name::PinionIntersecting, Name::PhaseForTwist, Name::GearboxMount]
        {
            if job.angles.plan_by == PlanBy::Straight && name == Name::PhaseForTwist {
                continue;
            }
            let Some(reset) = offered(&job, name) else { continue };
            let left = as_radians_per_second_squared(reset.left);
            let to = as_degrees(reset.to);
            let mut done = job.clone();
            let mut within = 1e-6;
            match name {
                Name::PhaseForTwist => put(&mut done, Entry::RearLevel(1, 0), to),
                Name::GearboxMount => {
                    // The joint hangs over the mount, and moves as much more.
                    let thick = in_inches(reset.thick.unwrap()) * (31.0 + 7.0) / 31.0;
                    turn_gearbox(&mut done, to, if reset.plus { thick } else { -thick });
                    // Down without load and then under power, or the other way round: the shaft, which the
                    // program takes for as long as it was, differs by 1/8 in of 55.
                    within = 0.005;
                }
                _ => turn_pinion(&mut done, to),
            }
            // A slope past its field's range is not a change that anybody makes.
            if Stage::Angles
                .findings(&done)
                .iter()
                .any(|found| matches!(found.answer, Answer::Missing(_)))
            {
                continue;
            }
            let got = shaken(&done);
            assert!((got - left).abs() < within * left.max(100.0), "{name:?}: {got}, said {left}");
            // Where the best is a gearbox or a pinion along the shaft, it stands between both layouts, and
            // the other one may offer more.
            let power = attitude(&done, At::Power).unwrap();
            let off = |lean: Leaning| as_degrees(lean.slope - power.shaft.slope).abs();
            let along = off(power.gearbox).min(off(power.pinion));
            if name != Name::PhaseForTwist && along < 0.01 {
                continue;
            }
            // Nor is the last of the 15° that are looked at any best.
            if number(value(&job, name).amount) > 15.0 - 1e-6 {
                continue;
            }
            let again = offered(&done, name).unwrap();
            assert!(again.leave, "{name:?}: {again:?} after {reset:?}");
            made += 1;
        }
    }
    assert!(made > 130, "{made}");
}

#[test]
fn the_first_answer_found_alone_is_the_one_among_the_rest() {
    let mut luck = Luck(38);
    for round in 0..60 {
        let mut job = any(&mut luck).job(luck.choice::<ShaftBy>(), luck.choice::<PlanBy>());
        job.measure.kind = luck.choice::<ShaftKind>();
        for (nth, entry) in
            [Entry::PowerRise, Entry::GearboxSlope(1), Entry::TopSpeed, Entry::WantedReading(0)]
                .into_iter()
                .enumerate()
        {
            match (round + nth) % 7 {
                0 => job.put(entry, ""),
                1 => job.put(entry, "about so"),
                _ => {}
            }
        }
        for stage in Stage::ALL {
            assert_eq!(stage.first(&job), stage.findings(&job).into_iter().next(), "{stage:?}");
        }
    }
}
