//! Fields that are missing or wrong: each finding names the field that stands in its way, with what
//! was given and what is allowed, and every other finding stays.
//!
//! The ranges are our own choice (src/stage/field.rs); the expected bounds are written here again, so
//! that a slip in one place shows.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaft::{find, needs, number, readings, shaft, with};
use shaftwright::job::{Entry, Job, Pass, PassKind, PhaseMethod, RunOutLimit, Stations, YokeAt};
use shaftwright::quantity::{Unreadable, as_kilometres_per_hour};
use shaftwright::stage::check::Fit as Fits;
use shaftwright::stage::{
    Answer, Complaint, Finding, Name, Need, Reason, Stage, Standing, Verdict, Why, read, truing, whole,
};

#[path = "bad_input/balance.rs"]
mod balance;
#[path = "bad_input/check.rs"]
mod check;
#[path = "bad_input/chosen.rs"]
mod chosen;
#[path = "bad_input/dial.rs"]
mod dial;
#[path = "bad_input/ranges.rs"]
mod ranges;
#[path = "stages/shaft.rs"]
mod shaft;
#[path = "bad_input/weights.rs"]
mod weights;

/// What is found but for what nobody asked for, and for what the run-out adds: that waits for a place along
/// the tube, at which this shaft was not read. What it asks for stands in `stages/run_out.rs`.
fn all(job: &Job) -> Vec<Finding> {
    let all = Stage::ALL.into_iter().flat_map(|stage| stage.findings(job));
    let asked =
        |finding: &Finding| finding.verdict != Verdict::IfWanted && finding.name != Name::RunOutGrade;
    all.filter(asked).collect()
}

/// The names of what can no longer be found.
fn lost(job: &Job) -> Vec<Name> {
    let gone = |finding: &Finding| finding.value().is_none();
    all(job).iter().filter(|finding| gone(finding)).map(|finding| finding.name).collect()
}

/// Each field, and what cannot be found without it. By the formulas alone: see the handbook.
fn what_needs() -> Vec<(Vec<Entry>, Vec<Name>)> {
    use Name::*;
    let cut = [TubeRemoved, FinishedLength, ScrapRing, FaceError];
    let weights = [PutBack(0), PutBack(1), LeftFront, LeftRear];
    // Under power alone it can be told what to change; one card says what is missing for all of it.
    let resets = [PinionParallel, PinionIntersecting];
    let moved = [&[ShakeUnderPower, SmoothUpTo, SpeedSwing], &resets[..]].concat();
    let shakes = [ShakeAtRide, FrontJoint, RearJoint, ShakeAtBump, ShakeAtDroop];
    let lying = [&[ShaftLies], &moved[..], &shakes[..]].concat();
    let judged = [&[ShakeUnderPower, SmoothUpTo], &resets[..], &shakes[..]].concat();
    // What is only there beside a cut list goes with it and is not asked for.
    let fit = [Name::Fit(Fits::Elements), Name::Fit(Fits::Shear)];
    let torque = vec![Name::Fit(Fits::ByEngine), Name::Fit(Fits::Shear)];
    let lengths =
        [&[LengthChange, WhirlSpeed, SpeedShare], &fit[..], &cut[..], &weights[..], &lying[..]].concat();
    let travel = [PlungeIn, PlungeOut, EngagedSpline, LipBand];
    let wanted = [&[WantedLength], &travel[..], &lengths[..]].concat();
    let spline = vec![PlungeOut, EngagedSpline];
    vec![
        ((0..3).map(Entry::OldReading).collect(), lengths.clone()),
        // The travel is reckoned from the shaft that is wanted.
        ((0..3).map(Entry::WantedReading).collect(), wanted.clone()),
        // How far the slip has still to come out is in the wanted length.
        (vec![Entry::TakenAt], wanted.clone()),
        (vec![Entry::SetPoint], [&[SetPoint], &wanted[..]].concat()),
        (vec![Entry::SplineLength], spline.clone()),
        (vec![Entry::LeastEngaged], spline),
        (vec![Entry::BumpRoom], vec![PlungeIn]),
        (vec![Entry::BumpTravel], [&travel[..], &[ShakeAtBump]].concat()),
        (vec![Entry::DroopTravel], [&travel[..], &[ShakeAtDroop]].concat()),
        (vec![Entry::ShaftSlope], travel.to_vec()),
        (vec![Entry::BottomedGap], vec![LipBand]),
        (vec![Entry::LipDepth], vec![LipBand]),
        (vec![Entry::BarrelLength], vec![LipBand]),
        (vec![Entry::GroovePlace], vec![LipBand]),
        (vec![Entry::GrooveWidth], vec![LipBand]),
        (vec![Entry::GrooveMargin], vec![LipBand]),
        (
            vec![Entry::TubeDiameter],
            [&[WhirlSpeed, SpeedShare, FaceError, PhaseArc, SpigotFit, ClockStep], &fit[..]].concat(),
        ),
        (vec![Entry::TubeWall], [&[WhirlSpeed, SpeedShare, SpigotFit], &fit[..]].concat()),
        (vec![Entry::TopSpeed], [&[SpeedShare, Name::Fit(Fits::TopSpeed)], &judged[..]].concat()),
        (vec![Entry::EngineTorque], torque.clone()),
        (vec![Entry::GearRatio(0)], torque),
        (vec![Entry::ElectrodeStrength], vec![Name::Fit(Fits::Weld)]),
        (vec![Entry::FarWeldLine], vec![Name::Fit(Fits::Elements)]),
        (vec![Entry::Spigot], vec![SpigotFit]),
        (vec![Entry::WeldLine], vec![FinishedLength, FaceError, Name::Fit(Fits::Elements)]),
        (vec![Entry::Kerf], vec![ScrapRing]),
        (vec![Entry::RootGap], cut.to_vec()),
        (vec![Entry::Shrinkage], cut.to_vec()),
        (vec![Entry::FrontLevel(1, 0)], vec![PhaseError, PhaseArc]),
        (vec![Entry::RearLevel(1, 0)], vec![PhaseError, PhaseArc]),
        (vec![Entry::FrontLevel(2, 0)], [&[PhaseWelded], &lying[..]].concat()),
        (vec![Entry::RearLevel(2, 0)], [&[PhaseWelded], &lying[..]].concat()),
        ((0..3).map(Entry::GearboxSlope).collect(), lying.clone()),
        ((0..3).map(Entry::PinionSlope).collect(), lying.clone()),
        (vec![Entry::FrontHeight], lying.clone()),
        (vec![Entry::RearHeight], lying.clone()),
        (vec![Entry::OneWay], lying.clone()),
        (vec![Entry::TurnedRound], lying.clone()),
        (vec![Entry::PowerRise], moved.clone()),
        (vec![Entry::PinionArm], [&moved[..], &[ShakeAtBump, ShakeAtDroop]].concat()),
        (vec![Entry::BumpRise], vec![ShakeAtBump]),
        (vec![Entry::DroopRise], vec![ShakeAtDroop]),
        (vec![Entry::TorsionalLimit], judged.clone()),
        (vec![Entry::InertiaLimit], judged.clone()),
        (vec![Entry::LeastAngle], judged.clone()),
        (vec![Entry::PhaseLimit], vec![PhaseError, PhaseWelded]),
        (vec![Entry::WeightMass(1)], vec![PutBack(1), LeftFront, LeftRear]),
        (vec![Entry::WeightClock(0)], vec![PutBack(0), LeftFront, LeftRear]),
        (vec![Entry::WeightDistance(1)], vec![PutBack(1), LeftFront, LeftRear]),
        (vec![Entry::WeightRadius(0)], vec![PutBack(0), LeftFront, LeftRear]),
        (vec![Entry::YokeTurned], weights.to_vec()),
    ]
}

#[test]
fn a_missing_field_is_named_by_what_needs_it_and_nothing_else_is_lost() {
    assert_eq!(lost(&shaft()), []);
    for (entries, mut names) in what_needs() {
        let mut job = shaft();
        entries.iter().for_each(|entry| job.put(*entry, ""));
        let mut gone = lost(&job);
        // What to change is asked for on its first card alone.
        names.retain(|name| *name != Name::PinionIntersecting);
        // The cut without its lengths has no ring to speak of; it is asked for, not left blank.
        names.retain(|name| *name != Name::ScrapRing || all(&job).iter().any(|f| f.name == *name));
        let order = |name: &Name| format!("{name:?}");
        gone.sort_by_key(order);
        names.sort_by_key(order);
        assert_eq!(gone, names, "without {entries:?}");
        for name in names {
            let named = needs(&job, name);
            assert_eq!(named, [Need { entry: entries[0], why: Why::Empty }], "{name:?}");
        }
    }
}

#[test]
fn a_wrong_field_is_named_with_what_was_given_and_the_rest_stays() {
    for (entries, _) in what_needs() {
        let (mut blank, mut wrong) = (shaft(), shaft());
        entries.iter().for_each(|entry| blank.put(*entry, ""));
        wrong.put(entries[0], "about so long");
        entries[1..].iter().for_each(|entry| wrong.put(*entry, ""));
        assert_eq!(lost(&blank), lost(&wrong), "{entries:?}");
        let said = Why::Wrong(Complaint::Unreadable(Unreadable::NotUnderstood {
            given: "about so long".to_owned(),
        }));
        for name in lost(&wrong) {
            let named = needs(&wrong, name);
            assert_eq!(named, [Need { entry: entries[0], why: said.clone() }], "{name:?}");
        }
    }
    // One bad reading among good ones is not quietly left out.
    let job = with(Entry::OldReading(1), "57-5/61");
    assert_eq!(needs(&job, Name::LengthChange)[0].entry, Entry::OldReading(1));
}

/// Millimetres, degrees, grams, rpm, rad/s² or km/h.
fn in_base(amount: shaftwright::stage::Amount) -> f64 {
    use shaftwright::stage::Amount;
    let scale = match amount {
        Amount::Length(_) | Amount::PlainLength(_) | Amount::FineLength(_) => 25.4,
        _ => 1.0,
    };
    if let Amount::RoadSpeed(speed) = amount {
        return as_kilometres_per_hour(speed);
    }
    number(amount) * scale
}

#[test]
fn absurd_numbers_are_told_what_is_allowed() {
    for (entry, text, given, least, most) in [
        (Entry::OldReading(0), "3 mm", 3.0, 200.0, 3000.0),
        (Entry::OldReading(0), "-57", -57.0 * 25.4, 200.0, 3000.0),
        (Entry::WantedReading(2), "4 m", 4000.0, 200.0, 3000.0),
        (Entry::SetPoint, "-1/2", -12.7, 0.0, 100.0),
        (Entry::TakenAt, "-1/2", -12.7, 0.0, 100.0),
        (Entry::TubeDiameter, "3 mm", 3.0, 20.0, 200.0),
        (Entry::TubeDiameter, "-3", -76.2, 20.0, 200.0),
        (Entry::TubeWall, "0", 0.0, 0.8, 12.0),
        (Entry::TopSpeed, "-4200", -4200.0, 100.0, 20_000.0),
        (Entry::TopSpeed, "1000000", 1e6, 100.0, 20_000.0),
        (Entry::WeldLine, "-53", -53.0 * 25.4, 10.0, 3000.0),
        (Entry::Kerf, "0", 0.0, 0.3, 8.0),
        (Entry::RootGap, "-1/16", -1.5875, 0.0, 6.0),
        (Entry::Shrinkage, "1 in", 25.4, 0.0, 6.0),
        (Entry::FrontLevel(1, 0), "190", 190.0, -180.0, 180.0),
        (Entry::PhaseLimit, "90", 90.0, 0.1, 5.0),
        (Entry::RearLevel(2, 1), "-181", -181.0, -180.0, 180.0),
        (Entry::StationReading(0, 0, 3), "1 in", 25.4, -12.0, 12.0),
        (Entry::WeightClock(0), "19 o'clock", 570.0, 0.0, 360.0),
        (Entry::WeightClock(0), "-1", -30.0, 0.0, 360.0),
        (Entry::WeightMass(1), "-9", -9.0, 0.5, 500.0),
        (Entry::WeightRadius(1), "1 mm", 1.0, 10.0, 120.0),
        (Entry::WeightDistance(1), "-4", -101.6, 0.0, 3000.0),
        (Entry::YokeTurned, "400", 400.0, -180.0, 180.0),
        (Entry::ShaftMass, "-18", -18.0 * 453.592_37, 500.0, 80_000.0),
    ] {
        let job = with(entry, text);
        let Err(complaint) = read(&job, entry) else { panic!("{text:?} was taken for {entry:?}") };
        let Complaint::OutOfRange { given: g, least: l, most: m } = complaint.clone() else {
            panic!("{entry:?} {text:?}: {complaint:?}")
        };
        for (got, expected) in [(g, given), (l, least), (m, most)] {
            assert!((in_base(got) - expected).abs() < 1e-6, "{entry:?} {text:?}: {got:?}");
        }
        assert_ne!(whole(&job).shaft, Standing::Good, "{entry:?} {text:?}");
        for need in lost(&job).into_iter().flat_map(|name| needs(&job, name)) {
            assert_eq!(need, Need { entry, why: Why::Wrong(complaint.clone()) });
        }
    }
}

#[test]
fn one_field_against_another() {
    for (entry, text, other, most) in [
        (Entry::TubeWall, "0.45", Entry::TubeDiameter, 0.4),
        (Entry::WeldLine, "60", Entry::OldReading(0), 57.3125),
        (Entry::WeightDistance(1), "58", Entry::OldReading(0), 57.3125),
        (Entry::FarWeldLine, "54", Entry::WeldLine, 53.875),
        (Entry::Lift(1, 0), "1", Entry::Span, 0.9),
        (Entry::FrontLift(0, 2), "1", Entry::FrontSpan, 0.9),
        // Once round the tube.
        (Entry::LineArc(1, 0), "9-1/2", Entry::TubeDiameter, 3.0 * std::f64::consts::PI),
        (Entry::LineArc(2, 1), "-9-1/2", Entry::TubeDiameter, 3.0 * std::f64::consts::PI),
    ] {
        let mut job = with(Entry::TubeDiameter, if entry == Entry::TubeWall { "0.8" } else { "3" });
        job.put(Entry::Span, "0.9");
        job.put(Entry::FrontSpan, "0.9");
        job.put(entry, text);
        let Err(Complaint::NotBelow { other: against, most: allowed, .. }) = read(&job, entry) else {
            panic!("{entry:?}: {:?}", read(&job, entry))
        };
        assert_eq!(against, other);
        assert!((number(allowed) - most).abs() < 1e-9);
    }
}

#[test]
fn thousands_or_decimals_is_asked_in_its_field() {
    let mut job = with(Entry::OldReading(0), "");
    job.display = shaftwright::job::Display::Millimetre;
    job.put(Entry::OldReading(0), "1,455");
    let asked = needs(&job, Name::LengthChange);
    let [Need { entry: Entry::OldReading(0), why: Why::Wrong(Complaint::Unreadable(why)) }] = &asked[..]
    else {
        panic!("{asked:?}")
    };
    let Unreadable::Ambiguous { grouped, decimal, .. } = why else { panic!("{why:?}") };
    // The first answer is a shaft; the second is refused as absurd, and says so.
    job.put(Entry::OldReading(0), grouped);
    assert!(find(&job, Name::LengthChange).value().is_some());
    job.put(Entry::OldReading(0), decimal);
    assert!(matches!(read(&job, Entry::OldReading(0)), Err(Complaint::OutOfRange { .. })));
}

#[test]
fn choices_ask_for_what_they_need() {
    let mut job = with(Entry::SetPoint, "");
    job.measure.yoke_at = YokeAt::Bottomed;
    assert_eq!(needs(&job, Name::WantedLength)[0].entry, Entry::SetPoint);
    let mut job = shaft();
    job.phase.method = PhaseMethod::Bench;
    let asked: Vec<Entry> = needs(&job, Name::PhaseError).iter().map(|need| need.entry).collect();
    assert_eq!(asked, [Entry::Lift(1, 0), Entry::Span]);
    let mut job = shaft();
    job.truing.limit = RunOutLimit::Own;
    for name in [Name::TotalReading, Name::OffsetReading, Name::Correction, Name::FaceError] {
        assert_eq!(needs(&job, name)[0].entry, Entry::OwnLimit);
    }
    let mut job = shaft();
    job.weights.rows.clear();
    assert_eq!(needs(&job, Name::LeftFront)[0].entry, Entry::WeightMass(0));
    // Grade and forces need mass and speed; the unbalance left does not, but is not judged.
    let job = with(Entry::ShaftMass, "");
    assert_eq!(find(&job, Name::LeftRear).verdict, Verdict::Unjudged(Reason::GradeUnknown));
    assert_eq!(whole(&job).shaft, Standing::NotYet);
}

/// The shaft with one turn of free stations.
fn free(stations: &[(&str, &str)]) -> Job {
    let mut job = shaft();
    job.truing.passes = vec![Pass::new(PassKind::Welded, Stations::Free)];
    for (station, (at, reading)) in stations.iter().enumerate() {
        job.put(Entry::StationAt(0, 0, station), at);
        job.put(Entry::StationReading(0, 0, station), reading);
    }
    job
}

#[test]
fn turns_that_cannot_tell() {
    let impossible = |job: &Job| match find(job, Name::OffsetReading).answer {
        Answer::Impossible(reason) => reason,
        other => panic!("{other:?}"),
    };
    let twice = free(&[("1:00", "3"), ("4:00", "5"), ("7:00", "2"), ("30°", "4")]);
    assert!(matches!(impossible(&twice), Reason::SamePlace { at } if
        (shaftwright::quantity::as_degrees(at) - 30.0).abs() < 1e-9));
    let one_turn_on = free(&[("0°", "3"), ("4:00", "5"), ("7:00", "2"), ("360°", "4")]);
    assert!(matches!(impossible(&one_turn_on), Reason::SamePlace { .. }));
    let no_place = free(&[("1:00", "3"), ("", "5"), ("7:00", "2")]);
    let asked = needs(&no_place, Name::OffsetReading);
    assert_eq!(asked, [Need { entry: Entry::StationAt(0, 0, 1), why: Why::Empty }]);
    let bad_place = free(&[("1:00", "3"), ("19:00", "5"), ("7:00", "2"), ("9:00", "1")]);
    assert_eq!(needs(&bad_place, Name::OffsetReading)[0].entry, Entry::StationAt(0, 0, 1));
    let mut two = shaft();
    two.truing.passes = vec![Pass::default()];
    readings(&mut two, 0, &["0", "3"], "");
    assert_eq!(needs(&two, Name::TotalReading)[0].entry, Entry::StationReading(0, 0, 2));
    // Wrong in one turn, right in another: each turn speaks for itself.
    let mut job = shaft();
    job.truing.passes.push(Pass::default());
    readings(&mut job, 1, &["0", "wobbly", "3"], "");
    assert!(truing::findings(&job, 0, 0).iter().all(|finding| finding.value().is_some()));
    assert!(matches!(truing::findings(&job, 1, 0)[0].answer, Answer::Missing(_)));
}

#[test]
fn weights_off_the_shaft_or_on_the_weld() {
    // The new weld is at 52.05 in; the second weight moves with its yoke by 1.79 in.
    let on_weld = with(Entry::WeightDistance(1), "53-3/4");
    assert!(matches!(
        find(&on_weld, Name::PutBack(1)).verdict,
        Verdict::Watch(Reason::OnTheWeld { .. })
    ));
    // Shortened by more than half: what stood before the middle now stands beyond the end.
    let mut short = with(Entry::WeightDistance(0), "28");
    for reading in 0..3 {
        short.put(Entry::WantedReading(reading), "24");
    }
    assert_eq!(find(&short, Name::PutBack(0)).verdict, Verdict::Stop(Reason::OffTheShaft));
    short.put(Entry::WeightDistance(1), "29");
    assert_eq!(find(&short, Name::PutBack(1)).verdict, Verdict::Stop(Reason::OffTheShaft));
}
