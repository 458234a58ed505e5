//! What the dial's findings say, word for word, of everything that can be met there.

use shaftwright::job::{
    Entry, Job, Pass, PassKind, Plunger, SeamBy, SetUp, Stations, TubeMaterial, TurnedHow,
};
use shaftwright::sheet::report;

use super::{against_golden, sample};

/// The sample with no turn taken yet.
fn untaken() -> Job {
    let mut job = sample();
    while job.truing.places.len() > 1 {
        job.truing.drop_place();
    }
    job.truing.passes.clear();
    job
}

fn begin(job: &mut Job, kind: PassKind, stations: Stations) -> usize {
    assert!(job.truing.begin(kind, stations));
    job.truing.passes.len() - 1
}

fn typed(job: &mut Job, pass: usize, place: usize, texts: &[&str]) {
    for (mark, text) in texts.iter().enumerate() {
        job.put(Entry::StationReading(pass, place, mark), text);
    }
}

/// The sample with passes of these readings, one after the other.
fn passes(kind: PassKind, stations: Stations, all: &[&[&str]]) -> Job {
    let mut job = untaken();
    for texts in all {
        let pass = begin(&mut job, kind, stations);
        typed(&mut job, pass, 0, texts);
    }
    job
}

/// Types a pure offset of so many thousandths toward a place, in half lines.
fn pure(job: &mut Job, pass: usize, place: usize, size: f64, at: f64) {
    let count = job.truing.passes[pass].stations.evenly().unwrap();
    for mark in 0..count {
        let part = (360.0 * mark as f64 / count as f64 - at).to_radians().cos();
        let reading = (20.0 + size * part) * 2.0;
        job.put(Entry::StationReading(pass, place, mark), &format!("{}", reading.round() / 2.0));
    }
}

fn offsets(kind: PassKind, all: &[(f64, f64)]) -> Job {
    let mut job = untaken();
    for (size, at) in all {
        let pass = begin(&mut job, kind, Stations::Eight);
        pure(&mut job, pass, 0, *size, *at);
    }
    job
}

/// The sample read at places along the tube that stand off as a shape says, in thousandths, toward one side.
fn along(set_up: SetUp, places: &[f64], at: f64, shape: &dyn Fn(f64) -> f64) -> Job {
    let mut job = untaken();
    job.truing.set_up = set_up;
    job.put(Entry::FrontVee, "14");
    job.put(Entry::RearVee, "40");
    begin(&mut job, PassKind::AsFitted, Stations::Eight);
    for (place, z) in places.iter().enumerate() {
        if place > 0 {
            job.truing.add_place();
        }
        job.put(Entry::PlaceAlong(place), &z.to_string());
        pure(&mut job, 0, place, shape(*z), at);
    }
    job
}

const OFF: [&str; 8] = ["0", "5", "11", "15", "14", "9", "3", "-1"];
/// The same after a tap that moved it six tenths of the way and 20° aside.
const LESS: [&str; 8] = ["-2", "1", "3", "4", "2", "-1", "-3", "-4"];
const PLACES: [f64; 5] = [8.0, 20.0, 33.0, 46.0, 54.0];
/// The sample's shaft, and its new weld.
const LONG: f64 = 55.51;
const WELD: f64 = 52.05;

fn kink(z: f64) -> f64 {
    if z < WELD { z / WELD } else { (LONG - z) / (LONG - WELD) }
}

fn step(z: f64) -> f64 {
    if z < WELD { -z / LONG } else { 1.0 - z / LONG }
}

fn bow(z: f64) -> f64 {
    4.0 * z * (LONG - z) / LONG / LONG
}

fn extremes(high: [&str; 2], low: [&str; 2]) -> Job {
    let mut job = untaken();
    begin(&mut job, PassKind::AsFitted, Stations::HighLow);
    for (station, [at, reading]) in [high, low].into_iter().enumerate() {
        job.put(Entry::StationAt(0, 0, station), at);
        job.put(Entry::StationReading(0, 0, station), reading);
    }
    job
}

/// A turn at twelve marks with some of them off.
fn dented(by: f64, marks: &[usize]) -> Job {
    let mut job = untaken();
    begin(&mut job, PassKind::AsFitted, Stations::Twelve);
    pure(&mut job, 0, 0, 8.0, 200.0);
    for mark in marks {
        let text = &job.typed(Entry::StationReading(0, 0, *mark)).unwrap().text;
        let reading = text.parse::<f64>().unwrap() + by;
        job.put(Entry::StationReading(0, 0, *mark), &reading.to_string());
    }
    job
}

/// One change more.
fn and(mut job: Job, change: &dyn Fn(&mut Job)) -> Job {
    change(&mut job);
    job
}

fn taps() -> Vec<(&'static str, Job)> {
    let eight = Stations::Eight;
    let fitted = |all: &[&[&str]]| passes(PassKind::AsFitted, eight, all);
    let place = |job: &mut Job| job.put(Entry::PlaceAlong(0), "33");
    vec![
        ("a first turn, the place of the dial known", and(fitted(&[&OFF]), &place)),
        ("a tap that moved it aside", and(fitted(&[&OFF, &LESS]), &place)),
        ("a tap that moved nothing", fitted(&[&OFF, &OFF])),
        ("a tap that moved it the wrong way", fitted(&[&LESS, &OFF])),
        ("the place off the shaft", and(fitted(&[&OFF]), &|job| job.put(Entry::PlaceAlong(0), "57"))),
        (
            "the lengths not known",
            and(fitted(&[&OFF]), &|job| {
                place(job);
                job.put(Entry::WeldLine, "");
            }),
        ),
        (
            "a dial that counts the other way",
            and(fitted(&[&OFF]), &|job| job.truing.plunger = Plunger::InIsMinus),
        ),
        ("turned clockwise", and(fitted(&[&OFF]), &|job| job.truing.turned = TurnedHow::Clockwise)),
        ("true as far as this dial sees", offsets(PassKind::AsFitted, &[(6.0, 30.0), (0.2, 30.0)])),
        ("tacked", offsets(PassKind::Tacked, &[(4.0, 200.0)])),
        ("tacked, no side high", offsets(PassKind::Tacked, &[(0.2, 200.0)])),
        ("one line of drift", and(fitted(&[&OFF]), &|job| job.put(Entry::Closing(0, 0), "1"))),
        ("two lines of drift", and(fitted(&[&OFF]), &|job| job.put(Entry::Closing(0, 0), "2"))),
        ("half a turn", fitted(&[&OFF[..5]])),
        ("four marks", passes(PassKind::AsFitted, Stations::Four, &[&["20", "28", "20", "12"]])),
        ("three marks", passes(PassKind::AsFitted, Stations::Free, &[&["20", "28", "20"]])),
        ("an oval tube", fitted(&[&["7", "0", "-7", "0", "7", "0", "-7", "0"]])),
        ("rough readings", fitted(&[&["0", "9", "-4", "12", "14", "2", "9", "-9"]])),
        ("rough readings near nothing", fitted(&[&["0", "4", "-4", "4", "1", "-4", "4", "-4"]])),
    ]
}

fn welds() -> Vec<(&'static str, Job)> {
    let welded = |all: &[(f64, f64)]| offsets(PassKind::Welded, all);
    let aluminium = |job: &mut Job| job.tube.material = TubeMaterial::Aluminium;
    let pulled = |closing: &str| {
        let mut job = offsets(PassKind::Tacked, &[(3.0, 200.0)]);
        let pass = begin(&mut job, PassKind::Welded, Stations::Eight);
        pure(&mut job, pass, 0, 7.0, 90.0);
        job.put(Entry::Closing(pass, 0), closing);
        job
    };
    vec![
        ("welded, inside the limit", welded(&[(3.0, 100.0)])),
        ("welded, near the limit", welded(&[(4.9, 100.0)])),
        (
            "welded, inside the limit on centres",
            and(welded(&[(3.0, 100.0)]), &|job| job.truing.set_up = SetUp::Centres),
        ),
        ("welded, over the limit", pulled("")),
        ("welded, the dial moved", pulled("30")),
        ("heat that helps", welded(&[(12.0, 100.0), (9.0, 110.0)])),
        ("heat that helps no more", welded(&[(12.0, 100.0), (12.5, 100.0), (12.2, 100.0)])),
        ("too far for heat", welded(&[(16.0, 100.0)])),
        ("welded aluminium, over the limit", and(welded(&[(12.0, 100.0)]), &aluminium)),
        ("welded aluminium, far over it", and(welded(&[(16.0, 100.0)]), &aluminium)),
    ]
}

fn marks() -> Vec<(&'static str, Job)> {
    let by_hand = |job: &mut Job| job.truing.passes[0].turns[0].aside[4] = true;
    vec![
        ("a seam that stands out", dented(15.0, &[4])),
        ("a dent", dented(-15.0, &[4])),
        ("a mark set aside by hand", and(dented(15.0, &[4]), &by_hand)),
        (
            "two marks set aside by hand",
            and(dented(15.0, &[4, 7]), &|job| {
                by_hand(job);
                job.truing.passes[0].turns[0].aside[7] = true;
            }),
        ),
        (
            "on the known seam",
            and(dented(15.0, &[4]), &|job| {
                job.truing.seam = SeamBy::Known;
                job.put(Entry::SeamClock, "4:00");
            }),
        ),
        (
            "the seam known and not said",
            and(dented(15.0, &[4]), &|job| {
                job.truing.seam = SeamBy::Known;
                job.put(Entry::SeamClock, "");
            }),
        ),
        ("a dent that counts", and(dented(45.0, &[4]), &|job| job.truing.seam = SeamBy::Counted)),
        ("the highest and the lowest", extremes(["3:30", "9"], ["10:00", "-2"])),
        ("highest and lowest near each other's value", extremes(["3:30", "1"], ["10:00", "0"])),
        ("highest under lowest", extremes(["3:30", "-2"], ["10:00", "9"])),
        ("highest and lowest not opposite", extremes(["3:30", "9"], ["6:00", "-2"])),
        ("highest and lowest at one place", extremes(["3:30", "9"], ["3:30", "-2"])),
        ("the lowest not read", extremes(["3:30", "9"], ["", ""])),
        (
            "too many set aside",
            and(passes(PassKind::AsFitted, Stations::Four, &[&["20", "28", "20", "12"]]), &|job| {
                job.truing.passes[0].turns[0].aside = vec![true, true, false, false];
            }),
        ),
        (
            "one place twice",
            and(passes(PassKind::AsFitted, Stations::Free, &[&["20", "28", "20", "12"]]), &|job| {
                for (mark, at) in ["1:00", "4:00", "7:00", "30°"].into_iter().enumerate() {
                    job.put(Entry::StationAt(0, 0, mark), at);
                }
            }),
        ),
        (
            "a mark without a place",
            and(passes(PassKind::AsFitted, Stations::Free, &[&["20", "28", "20", "12"]]), &|job| {
                for (mark, at) in ["1:00", "4:00", "7:00"].into_iter().enumerate() {
                    job.put(Entry::StationAt(0, 0, mark), at);
                }
            }),
        ),
    ]
}

fn places() -> Vec<(&'static str, Job)> {
    let joints = |places: &[f64], shape: &dyn Fn(f64) -> f64| along(SetUp::Joints, places, 130.0, shape);
    let at =
        |place: usize, text: &'static str| move |job: &mut Job| job.put(Entry::PlaceAlong(place), text);
    vec![
        ("a kink", joints(&PLACES, &|z| 12.0 * kink(z))),
        ("a kink or something else", joints(&PLACES[..4], &|z| 12.0 * kink(z))),
        ("a step", joints(&PLACES, &|z| 30.0 * step(z))),
        ("a bow", joints(&PLACES, &|z| 12.0 * bow(z))),
        ("a bent front yoke", joints(&PLACES, &|z| 12.0 * (1.0 - z / LONG))),
        ("a bent rear yoke", joints(&PLACES, &|z| 12.0 * z / LONG)),
        ("a kink and a bow", joints(&PLACES, &|z| 12.0 * kink(z) - 12.0 * bow(z))),
        ("no one thing", joints(&PLACES[..3], &|z| if z == 20.0 { 9.0 } else { 0.0 })),
        ("straight", joints(&PLACES, &|_| 0.0)),
        (
            "a kink in two vees",
            along(SetUp::Vees, &PLACES, 310.0, &|z| if z > WELD { 8.0 } else { 0.0 }),
        ),
        ("a bow on free centres", along(SetUp::Centres, &PLACES, 130.0, &|z| 12.0 * bow(z))),
        ("a kink that does not show", along(SetUp::Centres, &PLACES[..4], 130.0, &|z| 12.0 * kink(z))),
        ("two causes of many", joints(&PLACES[..4], &|z| 12.0 - 32.0 * z / LONG)),
        ("too few places", along(SetUp::Centres, &PLACES[..3], 130.0, &|z| 12.0 * bow(z))),
        (
            "a place laid out and not read",
            and(along(SetUp::Centres, &PLACES[..3], 130.0, &|z| 12.0 * bow(z)), &|job| {
                job.truing.add_place();
            }),
        ),
        ("vees where they show nothing", along(SetUp::Vees, &[14.0, 40.0], 130.0, &|_| 0.0)),
        ("vees in each other's place", {
            let mut job = along(SetUp::Vees, &PLACES, 130.0, &|_| 0.0);
            job.put(Entry::FrontVee, "45");
            job
        }),
        ("two places at one", and(joints(&PLACES, &bow), &at(2, "20.02"))),
        ("a place off the shaft", and(joints(&PLACES, &bow), &at(4, "57"))),
        ("a place not said", and(joints(&PLACES, &bow), &at(1, ""))),
        (
            "the dial moved at another place",
            and(joints(&PLACES, &|z| 12.0 * bow(z)), &|job| job.put(Entry::Closing(0, 2), "40")),
        ),
        ("the second pass half-way along", {
            let mut job = joints(&PLACES, &|z| 12.0 * bow(z));
            job.truing.passes.push(Pass::new(PassKind::Welded, Stations::Eight));
            (1..5).for_each(|_| job.truing.drop_place());
            (1..5).for_each(|_| job.truing.add_place());
            for (place, z) in PLACES.iter().enumerate() {
                job.put(Entry::PlaceAlong(place), &z.to_string());
            }
            (1..3).for_each(|place| pure(&mut job, 1, place, 3.0 * place as f64, 20.0));
            job
        }),
    ]
}

#[test]
fn the_dial_as_it_is_read() {
    // Of each report what none before it said.
    let (mut text, mut known) = (String::new(), Vec::<String>::new());
    for (name, job) in [taps(), welds(), marks(), places()].concat() {
        text.push_str(&format!("== {name}\n"));
        let report = report(&job);
        let own = report.lines().skip_while(|line| *line != "TRUE").skip(1);
        // What can hurt, the sources and the working stand in the other reports.
        let said =
            |line: &&str| !["  !", "        ", "      from:"].iter().any(|no| line.starts_with(no));
        for line in
            own.take_while(|line| *line != "WEIGHTS").filter(said).filter(|line| !line.is_empty())
        {
            if !known.iter().any(|known| known == line) {
                text.push_str(&format!("{line}\n"));
                known.push(line.to_owned());
            }
        }
    }
    against_golden("dial.txt", &text);
    assert!(!text.contains("no figure") && !text.contains("NaN") && !text.contains("inf"));
}
