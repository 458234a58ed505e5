//! The invented shaft of tests/handbook/shaft.py as a job, and how to look at what a stage finds.
// Two test files share this one, and neither uses all of it.
#![allow(dead_code)]

use std::fs;
use std::path::Path;

use shaftwright::job::{
    Display, Division, Entry, Job, Pass, PassKind, Route, ShaftKind, SquareBy, Stations, TravelBy,
    WeightRow,
};
use shaftwright::quantity::{
    as_degrees, as_gram_millimetres, as_grams, as_ksi, as_pound_feet, as_pounds_per_inch,
    as_radians_per_second_squared, as_rpm, in_inches,
};
use shaftwright::stage::{Amount, Answer, Finding, Name, Need, Stage, Value, Verdict};

/// What the script shaft.py printed for a key. Inches, degrees, rpm, rad/s², grams or g·mm.
pub fn by_hand(key: &str) -> f64 {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/shaft.txt");
    let text = fs::read_to_string(path).unwrap();
    let line = text.lines().find_map(|line| line.rsplit_once(' ').filter(|(known, _)| *known == key));
    line.unwrap_or_else(|| panic!("shaft.txt has no line {key}")).1.parse().unwrap()
}

/// Every field of the shaft, all stages filled in and nothing against any of them.
pub fn shaft() -> Job {
    let mut job = Job::new(Display::Sixteenth);
    job.measure.division = Division::ThirtySecond;
    (job.measure.kind, job.measure.route) = (ShaftKind::SlipInGearbox, Route::Joints);
    job.slip.by = TravelBy::Reckoned;
    job.cut.square_by = SquareBy::Feeler;
    job.truing.passes = vec![Pass::new(PassKind::Welded, Stations::Eight)];
    job.weights.rows = vec![WeightRow::default(); 2];
    for (entry, text) in [
        (Entry::OldReading(0), "57-5/16"),
        (Entry::OldReading(1), "57-9/32"),
        (Entry::OldReading(2), "4' 9-5/16\""),
        (Entry::WantedReading(0), "55-1/2"),
        (Entry::WantedReading(1), "55-17/32"),
        (Entry::WantedReading(2), "55.5"),
        (Entry::TakenAt, "7/8"),
        (Entry::SetPoint, "7/8"),
        (Entry::SplineLength, "4"),
        (Entry::BumpTravel, "3"),
        (Entry::DroopTravel, "4-1/2"),
        (Entry::ShaftSlope, "5"),
        (Entry::BottomedGap, "1/2"),
        (Entry::LipDepth, "1/4"),
        (Entry::BarrelLength, "5-1/2"),
        (Entry::GroovePlace, "1-1/8"),
        (Entry::GrooveWidth, "1/8"),
        (Entry::TubeDiameter, "3"),
        (Entry::TubeWall, "0.083"),
        (Entry::TopSpeed, "3500"),
        (Entry::WeldLine, "53-7/8"),
        (Entry::FarWeldLine, "3-3/8"),
        (Entry::Kerf, "3/32"),
        (Entry::RootGap, "1/16"),
        (Entry::Shrinkage, "1/32"),
        (Entry::Spigot, "1-1/4"),
        (Entry::SpigotDiameter, "2.83"),
        (Entry::Shoulder, "3-7/16"),
        (Entry::FrontLevel(1, 0), "0.4"),
        (Entry::RearLevel(1, 0), "-0.2"),
        (Entry::FrontLevel(2, 0), "0.3"),
        (Entry::RearLevel(2, 0), "0"),
        (Entry::WeightMass(0), "9"),
        (Entry::WeightClock(0), "2:00"),
        (Entry::WeightDistance(0), "5-1/4"),
        (Entry::WeightRadius(0), "1-9/16"),
        (Entry::WeightMass(1), "14.5"),
        (Entry::WeightClock(1), "7:30"),
        (Entry::WeightDistance(1), "52"),
        (Entry::WeightRadius(1), "1-9/16"),
        (Entry::GearboxSlope(0), "2.4"),
        (Entry::GearboxSlope(1), "2.5"),
        (Entry::GearboxSlope(2), "2.4"),
        (Entry::PinionSlope(0), "1.7"),
        (Entry::PinionSlope(1), "1.6"),
        (Entry::PinionSlope(2), "1.6"),
        (Entry::FrontHeight, "24-3/4"),
        (Entry::RearHeight, "19-7/8"),
        (Entry::OneWay, "2.5"),
        (Entry::TurnedRound, "2.3"),
        (Entry::PinionArm, "9-1/2"),
        (Entry::BumpRise, "0.4"),
        (Entry::DroopRise, "0.9"),
        (Entry::YokeTurned, "3"),
        (Entry::ShaftMass, "18.5"),
        (Entry::EngineTorque, "200"),
        (Entry::GearRatio(0), "3.4"),
        (Entry::WeldLeg, "1/8"),
    ] {
        job.put(entry, text);
    }
    face(&mut job, &["0", "0.001", "0.002", "0.003", "0.003", "0.002", "0.001", "0"]);
    readings(&mut job, 0, &["0", "2", "4", "6", "6", "4", "2", "0"], "0");
    job
}

/// The shaft with the gearbox's slope not read, so that nothing is known of it but the shaft's own.
pub fn without_gearbox() -> Job {
    let mut job = shaft();
    (0..3).for_each(|reading| job.put(Entry::GearboxSlope(reading), ""));
    job
}

/// Fills in how the tube's face stands, or the gaps under a square, every 45° from the witness mark.
pub fn face(job: &mut Job, texts: &[&str]) {
    for (place, text) in texts.iter().enumerate() {
        job.put(Entry::FaceReading(place), text);
    }
}

/// Fills in a list of readings of one length.
pub fn repeats(job: &mut Job, entry: fn(usize) -> Entry, texts: &[&str]) {
    for (reading, text) in texts.iter().enumerate() {
        job.put(entry(reading), text);
    }
}

/// Fills in a turn of the dial.
pub fn readings(job: &mut Job, pass: usize, texts: &[&str], closing: &str) {
    for (station, text) in texts.iter().enumerate() {
        job.put(Entry::StationReading(pass, 0, station), text);
    }
    job.put(Entry::Closing(pass, 0), closing);
}

/// The shaft with one field changed.
pub fn with(entry: Entry, text: &str) -> Job {
    with_all(&[(entry, text)])
}

/// The shaft with some fields changed.
pub fn with_all(fields: &[(Entry, &str)]) -> Job {
    let mut job = shaft();
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

/// The finding of this name, of whichever stage has it.
pub fn find(job: &Job, name: Name) -> Finding {
    let all = Stage::ALL.into_iter().flat_map(|stage| stage.findings(job));
    all.into_iter().find(|finding| finding.name == name).unwrap_or_else(|| panic!("no {name:?}"))
}

/// The value of the finding of this name.
pub fn value(job: &Job, name: Name) -> Value {
    let finding = find(job, name);
    finding.value().unwrap_or_else(|| panic!("{finding:?}"))
}

/// The verdict of the finding of this name.
pub fn verdict(job: &Job, name: Name) -> Verdict {
    find(job, name).verdict
}

/// What stands in the way of the finding of this name.
pub fn needs(job: &Job, name: Name) -> Vec<Need> {
    match find(job, name).answer {
        Answer::Missing(needs) => needs,
        other => panic!("{name:?}: {other:?}"),
    }
}

/// The number in an amount: inches, degrees, grams, rpm, rad/s², g·mm or a share.
pub fn number(amount: Amount) -> f64 {
    match amount {
        Amount::Length(q) | Amount::BothUnits(q) | Amount::PlainLength(q) | Amount::FineLength(q) => {
            in_inches(q)
        }
        Amount::Angle(q) | Amount::Clock(q) => as_degrees(q),
        Amount::Mass(q) => as_grams(q),
        Amount::Unbalance(q) => as_gram_millimetres(q),
        Amount::Speed(q) | Amount::EstimatedSpeed(q) => as_rpm(q),
        Amount::Acceleration(q) => as_radians_per_second_squared(q),
        Amount::Share(q) | Amount::Percent(q) => q,
        Amount::Torque(q) => as_pound_feet(q),
        Amount::Stress(q) => as_ksi(q),
        Amount::Rate(q) => as_pounds_per_inch(q),
        other => panic!("{other:?}"),
    }
}

/// The value and its ± against what was worked out by hand, within a share of the size or, near
/// nothing, within that many units.
pub fn agrees(value: Value, amount: f64, doubt: Option<f64>, within: f64) {
    let close = |got: f64, hand: f64| (got - hand).abs() <= within * hand.abs().max(1e-3);
    assert!(close(number(value.amount), amount), "{value:?}: by hand {amount}");
    if let Some(doubt) = doubt {
        let got = value.plus_minus.map(number).unwrap_or_else(|| panic!("{value:?} has no ±"));
        assert!(close(got, doubt), "{value:?}: ± by hand {doubt}");
    }
}

/// What makes the ± of a finding against the script's shares of the key, each under its own name.
pub fn shares_agree(finding: &Finding, key: &str, names: &[(Entry, &str)]) {
    let named: Vec<Entry> = finding.causes.iter().map(|(entry, _)| *entry).collect();
    assert_eq!(named.len(), names.len(), "{named:?}");
    for (entry, name) in names {
        let share = finding.causes.iter().find(|(known, _)| known == entry).map(|(_, share)| *share);
        let by_hand = by_hand(&format!("{key} share {name}"));
        assert!((share.unwrap() - by_hand).abs() < 2e-6, "{entry:?}: {share:?}, by hand {by_hand}");
    }
    // Largest first, and together all of it.
    assert!(finding.causes.is_sorted_by(|one, next| one.1 >= next.1 - 1e-12));
    assert!((finding.causes.iter().map(|(_, share)| share).sum::<f64>() - 1.0).abs() < 1e-9);
}
