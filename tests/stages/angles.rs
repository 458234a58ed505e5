//! Angles on the invented shaft: slopes by heights or as read, joints, shakes, what each is judged by.

use shaftwright::job::{Entry, Job, LevelDivision, PlanBy, ShaftBy, ShaftKind};
use shaftwright::quantity::{as_degrees, as_radians_per_second_squared, turn_rate_squared};
use shaftwright::stage::angles::{At, bounds, growth, line};
use shaftwright::stage::{
    Answer, Finding, Law, Name, Need, Reason, Sense, Stage, Standing, Verdict, Why, whole,
};

use super::EXACT;
use super::shaft::{
    agrees, by_hand, find, needs, number, repeats, shaft, shares_agree, value, with, with_all,
};

/// The shaft before its weld: what the yokes were turned by then is what is known.
pub fn laid(fields: &[(Entry, &str)]) -> Job {
    let mut job = with_all(fields);
    job.put(Entry::FrontLevel(2, 0), "");
    job.put(Entry::RearLevel(2, 0), "");
    job
}

/// Its slope read on the fitted shaft.
pub fn as_read() -> Job {
    let mut job = laid(&[]);
    read_on_the_shaft(&mut job);
    job
}

fn read_on_the_shaft(job: &mut Job) {
    job.angles.shaft_by = ShaftBy::Read;
    repeats(job, Entry::ShaftSlopeRead, &["5.1", "5.2", "5.1"]);
}

/// The instrument never turned end for end.
pub fn untold() -> Job {
    laid(&[(Entry::OneWay, ""), (Entry::TurnedRound, "")])
}

/// Gearbox and pinion 2 in beside each other.
pub fn offset() -> Job {
    let mut job = laid(&[(Entry::SideOffset, "2")]);
    job.angles.plan_by = PlanBy::Offset;
    job
}

/// Each at its own angle seen from above.
pub fn plan() -> Job {
    let mut job =
        laid(&[(Entry::GearboxPlan, "1"), (Entry::ShaftPlan, "-0.5"), (Entry::PinionPlan, "0.5")]);
    job.angles.plan_by = PlanBy::Angles;
    job
}

pub const SHAKES: [(Name, &str); 4] = [
    (Name::ShakeAtRide, "ride"),
    (Name::ShakeUnderPower, "power"),
    (Name::ShakeAtBump, "bump"),
    (Name::ShakeAtDroop, "droop"),
];

/// What comes in beside what was measured at ride.
const NOSE: [(Entry, &str); 2] = [(Entry::PowerRise, "nose"), (Entry::PinionArm, "arm")];
const BUMP: [(Entry, &str); 3] =
    [(Entry::BumpRise, "nose"), (Entry::PinionArm, "arm"), (Entry::BumpTravel, "travel")];
const DROOP: [(Entry, &str); 3] =
    [(Entry::DroopRise, "nose"), (Entry::PinionArm, "arm"), (Entry::DroopTravel, "travel")];

/// A figure and its ± against the script. The script steps the crosses round and differentiates by
/// differences, good to its last digits.
fn comes_to(job: &Job, name: Name, key: &str) {
    agrees(value(job, name), by_hand(key), Some(by_hand(&format!("{key} doubt"))), EXACT);
}

/// Joints, slope and what the joints shake at ride, against the script.
fn rides(job: &Job, key: &str) {
    comes_to(job, Name::FrontJoint, &format!("{key} ride front"));
    comes_to(job, Name::RearJoint, &format!("{key} ride rear"));
    comes_to(job, Name::ShaftLies, &format!("{key} ride slope"));
    comes_to(job, Name::ShakeAtRide, &format!("{key} ride pinion"));
    for (name, what) in [(Name::FrontJoint, "drive"), (Name::RearJoint, "coast")] {
        let Some(Sense::ShakesShaft(got)) = value(job, name).sense else { panic!("{name:?}") };
        near(as_radians_per_second_squared(got), by_hand(&format!("{key} ride {what}")), 2e-4);
    }
}

pub fn near(got: f64, hand: f64, within: f64) {
    assert!((got - hand).abs() < within, "{got}, by hand {hand}");
}

#[test]
fn nothing_stands_against_the_shaft() {
    for finding in Stage::Angles.findings(&laid(&[])) {
        assert!(matches!(finding.verdict, Verdict::Good | Verdict::Figure), "{finding:?}");
    }
}

#[test]
fn slopes_from_heights() {
    let job = laid(&[]);
    rides(&job, "angles");
    for (name, at) in SHAKES {
        comes_to(&job, name, &format!("angles {at} pinion"));
        let Some(Sense::AsOneJoint { angle, front, rear }) = value(&job, name).sense else {
            panic!("{name:?}")
        };
        for (got, what) in [(angle, "as one"), (front, "front"), (rear, "rear")] {
            near(as_degrees(got), by_hand(&format!("angles {at} {what}")), 1e-6);
        }
        // The working: the same joints, their summary, and the exact figure again.
        let finding = find(&job, name);
        let gives = |law: Law| number(finding.working.iter().find(|s| s.law == law).unwrap().gives);
        near(gives(Law::TrueAngles), by_hand(&format!("angles {at} rear")), 1e-6);
        near(gives(Law::EquivalentAngle), by_hand(&format!("angles {at} summary")), 1e-6);
        near(gives(Law::JointShake), by_hand(&format!("angles {at} pinion")), 1e-3);
    }
    let Some(Sense::Steeper { by, was }) = value(&job, Name::ShaftLies).sense else { panic!() };
    let (new, old) = (by_hand("angles ride slope"), by_hand("angles old slope"));
    near(as_degrees(was), old, 1e-6);
    near(as_degrees(by), new - old, 1e-6);
    // What makes each ±.
    let front = (Entry::FrontHeight, "front");
    let rear = (Entry::RearHeight, "rear");
    let length = (Entry::WantedReading(0), "length");
    let heights = [front, rear, length];
    shares_agree(&find(&job, Name::ShaftLies), "angles ride slope", &heights);
    let own = [(Entry::GearboxSlope(0), "gearbox"), (Entry::OneWay, "bias")];
    shares_agree(&find(&job, Name::FrontJoint), "angles ride front", &[&own[..], &heights[..]].concat());
    let more = [(Entry::PinionSlope(0), "pinion"), (Entry::RearLevel(1, 0), "phase")];
    let ride = [&own[..], &more[..], &heights[..]].concat();
    for (name, at, moved) in [
        (Name::ShakeAtRide, "ride", &[][..]),
        (Name::ShakeUnderPower, "power", &NOSE),
        (Name::ShakeAtBump, "bump", &BUMP),
        (Name::ShakeAtDroop, "droop", &DROOP),
    ] {
        let key = format!("angles {at} pinion");
        shares_agree(&find(&job, name), &key, &[&ride[..], moved].concat());
    }
}

#[test]
fn slopes_as_read() {
    rides(&as_read(), "angles read");
    // The heights are not asked for, and the old length has no slope to be compared with.
    let mut job = as_read();
    job.put(Entry::FrontHeight, "");
    job.put(Entry::RearHeight, "");
    rides(&job, "angles read");
    assert_eq!(value(&job, Name::ShaftLies).sense, None);
    // What the instrument adds stands in all three alike, and makes no joint: nor any ±.
    let causes = find(&job, Name::ShakeAtRide).causes;
    let of =
        |entry: Entry| causes.iter().find(|(known, _)| *known == entry).map_or(0.0, |cause| cause.1);
    near(of(Entry::ShaftSlopeRead(0)), by_hand("angles read ride pinion share shaft"), 1e-6);
    near(of(Entry::OneWay), 0.0, 1e-20);
}

#[test]
fn an_instrument_not_turned_is_right_to_a_line() {
    rides(&untold(), "angles untold");
    // Half a line wider than all that: the least that a coarser one adds.
    let mut coarse = untold();
    coarse.angles.division = LevelDivision::Whole;
    let doubt = |job: &Job| number(value(job, Name::FrontJoint).plus_minus.unwrap());
    // By hand: readings 2.4, 2.5, 2.4 (half-range 0.05 as a rectangle), a line of 1°, the instrument
    // itself ±1° as a rectangle, and both heights to 1/32 in and ±1/8 in over the shaft's run.
    let run = by_hand("wanted") * by_hand("angles ride slope").to_radians().cos();
    let height = (1.0_f64 / run).to_degrees().powi(2)
        * ((1.0_f64 / 32.0).powi(2) / 12.0 + 0.125_f64.powi(2) / 3.0);
    let square = 0.05_f64.powi(2) / 3.0 + 1.0 / 12.0 + 1.0 / 3.0 + 2.0 * height;
    // The length's share, a part in a hundred thousand here, is left out of this.
    near(doubt(&coarse), 1.959_964 * square.sqrt(), 1e-4);
}

#[test]
fn a_slip_in_the_shaft_leaves_the_front_joint_where_it_is() {
    for kind in [ShaftKind::SlipOnShaft, ShaftKind::Flanged] {
        let mut job = laid(&[]);
        job.measure.kind = kind;
        for (name, at) in &SHAKES[1..] {
            comes_to(&job, *name, &format!("angles in shaft {at} pinion"));
        }
    }
}

#[test]
fn side_by_side_and_at_angles_of_their_own() {
    for (job, key) in [(offset(), "angles offset"), (plan(), "angles plan")] {
        rides(&job, key);
        for (name, at) in SHAKES {
            comes_to(&job, name, &format!("{key} {at} pinion"));
        }
        let twist = value(&job, Name::PlaneTwist);
        let hand = by_hand(&format!("{key} twist"));
        near(number(twist.amount), hand.abs(), 1e-6);
        let clockwise = Some(Sense::TwistClockwise);
        assert_eq!(twist.sense == clockwise, hand > 0.0, "{twist:?}");
        let [to, change, left] =
            ["to", "change", "left"].map(|what| by_hand(&format!("{key} yokes {what}")));
        let offered = value(&job, Name::PhaseForTwist);
        let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
        near(number(offered.amount), change.abs(), FLAT);
        assert_eq!(reset.plus, change > 0.0);
        near(as_degrees(reset.to), to, FLAT);
        near(as_radians_per_second_squared(reset.left), left, 1e-3);
        assert_eq!(reset.thick, None);
        // Steeper than the old shaft between the same joints, each as long as it looks from the side.
        let lies = find(&job, Name::ShaftLies);
        let Some(Sense::Steeper { was, .. }) = lies.value().unwrap().sense else { panic!("{lies:?}") };
        near(as_degrees(was), by_hand(&format!("{key} old slope")), 1e-6);
        for (step, who) in lies.working.iter().zip(["new", "old"]) {
            near(number(step.put_in[2]), by_hand(&format!("{key} {who} from the side")), 1e-6);
        }
        assert_eq!(lies.working.len(), 2);
    }
    // A slope that a level read on an axis that goes off is that axis' own.
    for (plan_by, key) in [(PlanBy::Offset, "offset"), (PlanBy::Angles, "plan")] {
        let mut job = if plan_by == PlanBy::Offset { offset() } else { plan() };
        read_on_the_shaft(&mut job);
        rides(&job, &format!("angles read {key}"));
    }
    // All in one line, there is no twist to speak of, and none to cancel.
    let names: Vec<Name> = Stage::Angles.findings(&laid(&[])).iter().map(|found| found.name).collect();
    assert!(!names.contains(&Name::PlaneTwist) && !names.contains(&Name::PhaseForTwist));
    // A joint that is straight has no plane: gearbox and shaft along one line.
    let mut straight = as_read();
    straight.angles.plan_by = PlanBy::Angles;
    for entry in [Entry::GearboxPlan, Entry::ShaftPlan, Entry::PinionPlan] {
        straight.put(entry, "1");
    }
    repeats(&mut straight, Entry::GearboxSlope, &["5.1", "5.2", "5.1"]);
    assert_eq!(value(&straight, Name::PlaneTwist).sense, Some(Sense::NoPlane));
}

/// How nearly the script finds the place of a least, in degrees: about it the curve is flat, and of the
/// 3e-4 that is least its differences leave the eighth figure in doubt. A hundredth of what is shown.
pub const FLAT: f64 = 1e-4;

#[test]
fn how_it_swings_and_grows() {
    let job = laid(&[]);
    let swing = value(&job, Name::SpeedSwing);
    agrees(swing, by_hand("angles pinion swing"), None, EXACT);
    let Some(Sense::ShaftSwings { share, lead }) = swing.sense else { panic!("{swing:?}") };
    near(share, by_hand("angles shaft swing"), 1e-8);
    near(as_degrees(lead), by_hand("angles lead"), 1e-7);
    // What the yokes' turn costs: as they are, and in one plane.
    let cost = value(&job, Name::PhaseCost);
    let (hand, doubt) = (by_hand("angles power pinion"), by_hand("angles power pinion doubt"));
    agrees(cost, hand, Some(doubt), EXACT);
    let Some(Sense::InsteadOf(plane)) = cost.sense else { panic!("{cost:?}") };
    near(as_radians_per_second_squared(plane), by_hand("angles in one plane"), 1e-3);
    let grown = growth(&with_all(&[(Entry::RoadSpeed, "75 mph")])).unwrap();
    let square = turn_rate_squared(bounds(&job).unwrap().top);
    near(grown.shaft[0] * square, by_hand("angles ride drive"), 1e-3);
    near(grown.shaft[1] * square, by_hand("angles ride coast"), 1e-3);
    assert!(grown.road.is_some() && growth(&job).unwrap().road.is_none());
    near(growth(&job).unwrap().pinion * square, hand, 1e-3);
    assert!(growth(&with(Entry::LeastAngle, "")).is_none());
    assert!(line(&job, At::Droop).is_some() && line(&with(Entry::DroopRise, ""), At::Droop).is_none());
}

/// Why a finding is impossible.
fn impossible(finding: &Finding) -> Reason {
    match finding.answer {
        Answer::Impossible(reason) => reason,
        _ => panic!("{finding:?}"),
    }
}

#[test]
fn what_cannot_lie_like_that() {
    // Heights further apart than the shaft is long.
    let apart = laid(&[(Entry::FrontHeight, "70"), (Entry::RearHeight, "10")]);
    // Further to the side than a short shaft is long.
    let mut beside = offset();
    repeats(&mut beside, Entry::WantedReading, &["23", "23", "23"]);
    beside.put(Entry::SideOffset, "23.5");
    // Neither too far by itself, but together: 20 in down and 15 in over on 23.
    let mut both = offset();
    repeats(&mut both, Entry::WantedReading, &["23", "23", "23"]);
    both.put(Entry::SideOffset, "15");
    both.put(Entry::RearHeight, "4-3/4");
    for job in [apart, beside, both] {
        for finding in Stage::Angles.findings(&job) {
            assert_eq!(impossible(&finding), Reason::OutOfReach, "{:?}", finding.name);
        }
        assert_eq!(whole(&job).shaft, Standing::Stop);
    }
    // Joints at 45° and a hair on either side: the gearbox 25 up, the shaft 20 down. Nearer to it than a
    // line of the level, which would carry it past, the line is there still.
    for (shaft_slope, fits) in [("19.7", true), ("19.99", true), ("20.3", false)] {
        let mut job = as_read();
        repeats(&mut job, Entry::GearboxSlope, &["-25", "-25", "-25"]);
        repeats(&mut job, Entry::ShaftSlopeRead, &[shaft_slope; 3]);
        repeats(&mut job, Entry::PinionSlope, &["10", "10", "10"]);
        if fits {
            let front = value(&job, Name::FrontJoint);
            near(number(front.amount), 25.0 + shaft_slope.parse::<f64>().unwrap(), 1e-9);
            assert!(number(front.plus_minus.unwrap()) > 0.05, "{front:?}");
        } else {
            let found = find(&job, Name::ShakeAtRide);
            let Reason::JointTooSharp { rear: false, angle } = impossible(&found) else {
                panic!("{found:?}")
            };
            near(as_degrees(angle), 45.3, 1e-9);
        }
    }
    // The rear one, and only where the axle droops.
    let droop = laid(&[(Entry::DroopRise, "-25"), (Entry::DroopTravel, "19")]);
    let Reason::JointTooSharp { rear: true, .. } = impossible(&find(&droop, Name::ShakeAtDroop)) else {
        panic!("{:?}", find(&droop, Name::ShakeAtDroop))
    };
    assert!(find(&droop, Name::ShakeAtBump).value().is_some());
}

#[test]
fn all_that_is_missing_is_named_at_once() {
    let entries = |job: &Job, name: Name| -> Vec<Entry> {
        needs(job, name).iter().map(|need| need.entry).collect()
    };
    let mut job = Job::default();
    for entry in [
        Entry::PowerRise,
        Entry::BumpRise,
        Entry::DroopRise,
        Entry::TorsionalLimit,
        Entry::InertiaLimit,
        Entry::LeastAngle,
    ] {
        job.put(entry, "");
    }
    job.angles.plan_by = PlanBy::Offset;
    job.put(Entry::OneWay, "2.5");
    let lying = entries(&job, Name::ShaftLies);
    for entry in [
        Entry::GearboxSlope(0),
        Entry::PinionSlope(0),
        Entry::FrontHeight,
        Entry::RearHeight,
        Entry::TurnedRound,
        Entry::OldReading(0),
        Entry::WantedReading(0),
        Entry::SideOffset,
    ] {
        assert!(lying.contains(&entry), "{entry:?} of {lying:?}");
    }
    let judged = [Entry::TopSpeed, Entry::TorsionalLimit, Entry::InertiaLimit, Entry::LeastAngle];
    for (name, own) in [
        (Name::ShakeAtRide, &[][..]),
        (Name::FrontJoint, &[]),
        (Name::ShakeUnderPower, &[Entry::PowerRise, Entry::PinionArm]),
        (Name::ShakeAtBump, &[Entry::BumpTravel, Entry::BumpRise, Entry::PinionArm]),
        (Name::ShakeAtDroop, &[Entry::DroopTravel, Entry::DroopRise, Entry::PinionArm]),
    ] {
        let mut expected = [&lying[..], own, &judged[..]].concat();
        // Where the set point is asked it is the same field as the lengths'.
        expected.dedup();
        assert_eq!(entries(&job, name), expected, "{name:?}");
    }
    // Read slopes and angles from above ask for themselves and for no heights.
    (job.angles.shaft_by, job.angles.plan_by) = (ShaftBy::Read, PlanBy::Angles);
    let lying = entries(&job, Name::ShaftLies);
    for (entry, asked) in [
        (Entry::ShaftSlopeRead(0), true),
        (Entry::GearboxPlan, true),
        (Entry::ShaftPlan, true),
        (Entry::PinionPlan, true),
        (Entry::FrontHeight, false),
        (Entry::RearHeight, false),
        (Entry::SideOffset, false),
    ] {
        assert_eq!(lying.contains(&entry), asked, "{entry:?}");
    }
    // One that is wrong is said to be wrong, and what stands beside it is not said to be missing.
    let wrong = with(Entry::BumpRise, "a lot");
    let said = needs(&wrong, Name::ShakeAtBump);
    assert!(matches!(&said[..], [Need { entry: Entry::BumpRise, why: Why::Wrong(_) }]), "{said:?}");
    assert!(find(&shaft(), Name::ShakeAtBump).value().is_some());
}
