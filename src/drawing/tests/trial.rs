//! The drawings of runs with trial weights, read back from their own text.
#![cfg(test)]

use super::reader::{Piece, complaints, pieces};
use crate::drawing::{clips_on_the_clock, run_vectors, weight_plane};
use crate::job::{BalanceBy, Entry, Job, PickUp, Ready, Run, Spin};
use crate::stage::balance::{OnTheCar, Plane, RunSense};
use crate::stage::{Name, Sense, Stage};

/// A job with its clips, ready to be balanced.
fn ready(by: BalanceBy) -> Job {
    let mut job = Job::default();
    (job.balance.ready, job.balance.by, job.balance.pick_up) = (Ready::Ready, by, PickUp::Mark);
    for (entry, text) in
        [(Entry::ClipRadius, "45 mm"), (Entry::ClipMass, "9 g"), (Entry::RunScatter, "0.05")]
    {
        job.put(entry, text);
    }
    job
}

fn with(by: BalanceBy, entries: &[(Entry, &str)]) -> Job {
    let mut job = ready(by);
    job.balance.runs = vec![Run::default(); 8];
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

/// Derived: 8 first, 10 g at thirds of a turn call for 13.3333 g at 20°.
fn amplitudes(trials: usize) -> Job {
    let mut job = with(BalanceBy::Amplitudes, &[(Entry::RunAmplitude(0, 1), "8")]);
    let read = [("0°", "3.128819"), ("120°", "10.801399"), ("240°", "13.173468")];
    for (i, (at, reading)) in read.into_iter().take(trials).enumerate() {
        job.put(Entry::TrialMass(i + 1), "10 g");
        job.put(Entry::TrialClock(i + 1), at);
        job.put(Entry::RunAmplitude(i + 1, 1), reading);
    }
    job
}

/// Published inputs, derived answer: 81.373 g at 324.46°.
fn phase(spin: Spin) -> Job {
    let mut job = with(
        BalanceBy::Phase,
        &[
            (Entry::RunAmplitude(0, 1), "7"),
            (Entry::RunPhase(0, 1), "160"),
            (Entry::TrialMass(1), "100 g"),
            (Entry::TrialClock(1), "12"),
            (Entry::RunAmplitude(1, 1), "5"),
            (Entry::RunPhase(1, 1), "70"),
            (Entry::ClipMass, "60 g"),
        ],
    );
    job.balance.spin = spin;
    job
}

/// Derived: 6 g at 280° and 4 g at 70°.
fn two_planes() -> Job {
    let read = [
        (0, 0, "3.6", "120"),
        (0, 1, "2.1", "260"),
        (1, 0, "8.182779", "45.674916"),
        (1, 1, "3.533172", "304.173202"),
        (2, 0, "5.912520", "127.980279"),
        (2, 1, "5.275765", "107.824542"),
    ];
    let mut job = with(
        BalanceBy::TwoPlanes,
        &[
            (Entry::TrialMass(1), "10 g"),
            (Entry::TrialClock(1), "0°"),
            (Entry::TrialMass(2), "8 g"),
            (Entry::TrialClock(2), "90°"),
        ],
    );
    for (run, end, amplitude, angle) in read {
        job.put(Entry::RunAmplitude(run, end), amplitude);
        job.put(Entry::RunPhase(run, end), angle);
    }
    job
}

fn jobs() -> Vec<(&'static str, Job)> {
    let changed = |mut job: Job, entries: &[(Entry, &str)]| {
        entries.iter().for_each(|(entry, text)| job.put(*entry, text));
        job
    };
    vec![
        ("no-phase", amplitudes(3)),
        ("mirrored", amplitudes(2)),
        ("coarse", changed(amplitudes(3), &[(Entry::RunScatter, "0.6")])),
        ("very-coarse", changed(amplitudes(3), &[(Entry::RunScatter, "1.5")])),
        ("contradicting", changed(amplitudes(3), &[(Entry::RunAmplitude(2, 1), "40")])),
        (
            "nearly-a-line",
            changed(
                amplitudes(3),
                &[(Entry::RunAmplitude(1, 1), "8"), (Entry::RunAmplitude(2, 1), "8.01")],
            ),
        ),
        ("tiny-answer", changed(amplitudes(3), &[(Entry::RunAmplitude(0, 1), "0.2")])),
        (
            "uneven",
            changed(amplitudes(3), &[(Entry::TrialMass(2), "30 g"), (Entry::TrialClock(3), "3:20")]),
        ),
        ("phase", phase(Spin::Clockwise)),
        ("phase-counter", phase(Spin::Counterclockwise)),
        ("light-heads", changed(phase(Spin::Clockwise), &[(Entry::ClipMass, "6 g")])),
        ("two-planes", two_planes()),
        ("half-read", changed(two_planes(), &[(Entry::RunPhase(2, 1), "")])),
    ]
}

fn drawings(job: &Job) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for number in 0..3 {
        for (name, drawn) in [
            ("clips", clips_on_the_clock(job, number)),
            ("weights", weight_plane(job, number)),
            ("vectors", run_vectors(job, number)),
        ] {
            all.extend(drawn.map(|svg| (format!("{name}-{number}"), svg)));
        }
    }
    all
}

#[test]
fn no_number_lies_on_the_mark_at_twelve() {
    // The mark is a triangle from the rim's edge 18 inward, 6° to either side of 12; its stroke is 2 wide.
    let mut seen = 0;
    for (name, job) in jobs() {
        for (drawing, svg) in drawings(&job) {
            let (_, _, all) = pieces(&svg);
            for text in all.iter().filter(|piece| piece.tag == "text" && piece.text.len() < 3) {
                let [left, top, right, bottom] = text.bounds();
                let on_it = left < 170.2 && right > 149.8 && top < 77.5 && bottom > 57.0;
                assert!(!on_it, "{name} {drawing}: {} at {:?}", text.text, text.points);
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

/// Writes the drawings to the folder for short-lived files, to be looked at.
#[test]
#[ignore = "for the eye"]
fn dump() {
    let folder = std::env::temp_dir().join("shaftwright-drawings");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, job) in jobs() {
        for (what, svg) in drawings(&job) {
            std::fs::write(folder.join(format!("{what}--{name}.svg")), svg).unwrap();
        }
    }
}

#[test]
fn nothing_leaves_the_frame_or_lies_on_a_text() {
    for (name, job) in jobs() {
        for (what, svg) in drawings(&job) {
            // The face itself is two rings, one in the other.
            let mut wrong = complaints(&svg);
            wrong.retain(|what| !what.starts_with("two numbers touch at 160, 164"));
            assert_eq!(wrong, Vec::<String>::new(), "{what} of {name}");
        }
    }
}

#[test]
fn what_each_method_shows() {
    let names = |job: &Job| drawings(job).into_iter().map(|(what, _)| what).collect::<Vec<_>>();
    assert_eq!(names(&ready(BalanceBy::Amplitudes)), [""; 0]);
    assert_eq!(names(&amplitudes(3)), ["clips-0", "weights-0"]);
    assert_eq!(names(&phase(Spin::Clockwise)), ["clips-0", "weights-0", "vectors-0"]);
    let both = ["clips-0", "weights-0", "vectors-0", "clips-1", "weights-1", "vectors-1"];
    assert_eq!(names(&two_planes()), both);
    assert_eq!(names(&Job::default()), [""; 0]);
}

/// Grams and degrees of a point of the weights' drawing, by what it says its rim is.
fn weight(svg: &str, (x, y): (f64, f64)) -> (f64, f64) {
    let said = svg.split("rim: ").nth(1).unwrap().split(' ').next().unwrap().parse::<f64>().unwrap();
    let (right, up) = (x - 160.0, 164.0 - y);
    (up.hypot(right) / 104.0 * said, right.atan2(up).to_degrees().rem_euclid(360.0))
}

/// Heads of arrows in the accent: their strokes from the middle.
fn arrows(all: &[Piece]) -> Vec<(f64, f64)> {
    let strokes = all.iter().filter(|p| p.tag == "line" && p.class == "accent");
    strokes.map(|p| p.points[1]).collect()
}

#[test]
fn the_circles_cross_at_the_answer_and_the_arrow_points_there() {
    // Derived: 13.3333 g at 20°; a pixel is a quarter of a gram at the most.
    let svg = weight_plane(&amplitudes(3), 0).unwrap();
    let (_, _, all) = pieces(&svg);
    let [tip] = arrows(&all)[..] else { panic!("{svg}") };
    let (grams, at) = weight(&svg, tip);
    assert!((grams - 13.3333).abs() < 0.1 && (at - 20.0).abs() < 0.5, "{grams} at {at}");
    let circles: Vec<&Piece> =
        all.iter().filter(|p| p.tag == "path" && p.class == "thin" && p.points.len() > 30).collect();
    assert_eq!(circles.len(), 3);
    for circle in circles {
        let nearest =
            circle.points.iter().map(|p| (p.0 - tip.0).hypot(p.1 - tip.1)).fold(f64::INFINITY, f64::min);
        assert!(nearest < 6.0, "{nearest}");
    }
    // Two trials: both answers, and both circles pass through each.
    let svg = weight_plane(&amplitudes(2), 0).unwrap();
    let (_, _, all) = pieces(&svg);
    let tips = arrows(&all);
    assert_eq!(tips.len(), 2, "{svg}");
    assert!(tips.iter().any(|tip| {
        let (grams, at) = weight(&svg, *tip);
        (grams - 13.3333).abs() < 0.1 && (at - 20.0).abs() < 0.5
    }));
}

#[test]
fn what_is_not_known_has_its_ring_and_no_arrow() {
    // The stage says of itself which answers are not known: the drawing points to none of those.
    let mut seen = [0, 0];
    for scatter in ["0.05", "0.6", "1", "1.2", "1.4", "1.6", "1.8", "2"] {
        let mut job = amplitudes(3);
        job.put(Entry::RunScatter, scatter);
        let put_on = Name::OnTheCar(OnTheCar::PutOn(Plane::One));
        let found = Stage::Balance.findings(&job).into_iter().find(|one| one.name == put_on).unwrap();
        let Some(Sense::OnTheCar(sense)) = found.value().and_then(|value| value.sense) else { continue };
        let unknown = matches!(sense, RunSense::NotKnown { .. });
        let svg = weight_plane(&job, 0).unwrap();
        let (_, _, all) = pieces(&svg);
        let ring = all.iter().any(|p| p.tag == "path" && p.class == "accent" && p.points.len() > 30);
        assert_eq!(arrows(&all).is_empty(), unknown, "{scatter}: {sense:?}");
        assert!(ring || svg.contains("its ± is off the drawing"), "{scatter}");
        seen[usize::from(unknown)] += usize::from(ring);
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}

#[test]
fn screw_heads_stand_either_side_of_the_answer_and_it_turns_as_said() {
    // By geometry: read as a lag of a shaft that turns clockwise, 200° less each; the other way, as it is.
    for (spin, clockwise, read) in
        [(Spin::Clockwise, true, ["40", "130"]), (Spin::Counterclockwise, false, ["160", "70"])]
    {
        let mut job = phase(spin);
        job.balance.pick_up = PickUp::Lag;
        for (run, angle) in read.into_iter().enumerate() {
            job.put(Entry::RunPhase(run, 1), angle);
        }
        let svg = clips_on_the_clock(&job, 0).unwrap();
        let (_, _, all) = pieces(&svg);
        let at = |(x, y): (f64, f64)| (x - 160.0).atan2(164.0 - y).to_degrees();
        let heads: Vec<f64> = all
            .iter()
            .filter(|p| p.tag == "circle" && p.class == "accent filled")
            .map(|p| at(p.points[0]))
            .collect();
        // Derived: 2·60 g·cos γ = 81.373 g: γ = 47.30°, either side of 324.46°.
        let off = |place: f64, from: f64| (place - from + 180.0).rem_euclid(360.0) - 180.0;
        assert_eq!(heads.len(), 2);
        assert!((off(heads[0], 324.46) + 47.30).abs() < 0.1, "{heads:?}");
        assert!((off(heads[1], 324.46) - 47.30).abs() < 0.1, "{heads:?}");
        let arc = all.iter().find(|p| p.class == "accent" && p.points.len() == 7).unwrap();
        assert_eq!(off(at(arc.points[1]), at(arc.points[0])) > 0.0, clockwise);
        assert_eq!(svg.contains("counter-clockwise"), !clockwise);
        // Where it makes no difference, it is not drawn.
        let svg = clips_on_the_clock(&phase(spin), 0).unwrap();
        let (_, _, all) = pieces(&svg);
        assert!(!svg.contains("clockwise"));
        assert!(!all.iter().any(|p| p.class == "accent" && p.points.len() == 7));
    }
}
