//! Drawings of a length, read back from their own text.
#![cfg(test)]

use super::{cut_zone, elevation, slip};
use crate::job::{Choice, CutAt, Display, End, Entry, Groove, Job, Route, ShaftKind, TravelBy, sample};
use crate::quantity::as_millimetres;
use crate::stage::cut::{MarkName, cut_list};
use crate::stage::{Amount, read};
use reader::{Piece, by_the_bar, complaints, pieces};

mod angles;
mod bent;
mod check;
mod passes;
mod plotted;
mod reader;
mod trial;
mod turns;
mod weights;
mod yokes;

/// A job with every question of the slip answered.
fn full() -> Job {
    let mut job = sample();
    job.slip.by = TravelBy::Reckoned;
    for (entry, text) in [
        (Entry::SplineLength, "5"),
        (Entry::BumpTravel, "3"),
        (Entry::DroopTravel, "4"),
        (Entry::ShaftSlope, "4"),
        (Entry::BottomedGap, "0.5"),
        (Entry::LipDepth, "0.25"),
        (Entry::BarrelLength, "5.5"),
        (Entry::GroovePlace, "1.9"),
        (Entry::GrooveWidth, "0.12"),
    ] {
        job.put(entry, text);
    }
    job.slip.groove = Groove::Worn;
    job
}

/// The same with other entries.
fn with(entries: &[(Entry, &str)]) -> Job {
    let mut job = full();
    for (entry, text) in entries {
        job.put(*entry, text);
    }
    job
}

/// The wanted length alone, all its readings alike.
fn wanted(text: &str) -> Job {
    with(&[0, 1, 2].map(|i| (Entry::WantedReading(i), text)))
}

fn changed(change: impl Fn(&mut Job)) -> Job {
    let mut job = full();
    change(&mut job);
    job
}

/// Jobs as they come, and odd ones.
fn jobs() -> Vec<(&'static str, Job)> {
    let ends = |job: &mut Job, kind| {
        (job.measure.kind, job.measure.route) = (kind, Route::Both);
        job.put(Entry::EndsReading(0), "58-1/4");
        job.put(Entry::EndsReading(1), "1480.1 mm");
        job.put(Entry::FrontDepth, "2");
        job.put(Entry::RearDepth, "2");
    };
    let clear = |job: &mut Job| {
        job.cut.at = CutAt::ClearOfIt;
        job.put(Entry::ClearBy, "1-1/2");
        job.put(Entry::Trim, "1/16");
    };
    vec![
        ("empty", Job::default()),
        ("empty-flanged", {
            let mut job = Job::default();
            (job.measure.kind, job.measure.route) = (ShaftKind::Flanged, Route::Ends);
            job
        }),
        ("empty-slip-front", {
            let mut job = Job::default();
            (job.measure.route, job.cut.end) = (Route::Ends, End::Front);
            job
        }),
        ("sample", sample()),
        ("full", full()),
        ("mm", changed(|job| job.display = Display::Millimetre)),
        ("decimal", changed(|job| job.display = Display::DecimalInch)),
        ("ends", changed(|job| ends(job, ShaftKind::SlipInGearbox))),
        ("flanged", changed(|job| ends(job, ShaftKind::Flanged))),
        ("on-shaft", changed(|job| ends(job, ShaftKind::SlipOnShaft))),
        ("front", changed(|job| job.cut.end = End::Front)),
        (
            "front-ends",
            changed(|job| {
                ends(job, ShaftKind::SlipInGearbox);
                job.cut.end = End::Front;
            }),
        ),
        (
            "front-on-shaft",
            changed(|job| {
                ends(job, ShaftKind::SlipOnShaft);
                job.cut.end = End::Front;
                clear(job);
            }),
        ),
        ("longer", wanted("59-13/16")),
        ("longer-flanged", {
            let mut job = wanted("59-13/16");
            ends(&mut job, ShaftKind::Flanged);
            job
        }),
        ("clear", changed(clear)),
        ("tiny", wanted("57-3/16")),
        ("huge", wanted("37-5/16")),
        ("no-tube", with(&[(Entry::TubeDiameter, ""), (Entry::Spigot, "")])),
        ("thin-tube", with(&[(Entry::TubeDiameter, "20 mm")])),
        ("wide-tube", with(&[(Entry::TubeDiameter, "200 mm")])),
        ("no-weld", with(&[(Entry::WeldLine, "")])),
        ("low-weld", with(&[(Entry::WeldLine, "9"), (Entry::Spigot, "1/2")])),
        ("off-barrel", with(&[(Entry::DroopTravel, "19"), (Entry::BarrelLength, "1.1")])),
        ("in-too-far", with(&[(Entry::ShaftSlope, "25"), (Entry::BumpTravel, "15")])),
        ("still", with(&[(Entry::BumpTravel, "0"), (Entry::DroopTravel, "0"), (Entry::SetPoint, "0")])),
    ]
}

/// Writes every drawing of every job to the folder for short-lived files, to be looked at.
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

fn drawings(job: &Job) -> Vec<(&'static str, String)> {
    [("elevation", elevation(job)), ("slip", slip(job)), ("zone", cut_zone(job))]
        .into_iter()
        .filter_map(|(what, svg)| Some((what, svg?)))
        .collect()
}

#[test]
fn nothing_leaves_the_frame_or_lies_on_a_text() {
    for (name, job) in jobs() {
        for (what, svg) in drawings(&job) {
            assert_eq!(complaints(&svg), Vec::<String>::new(), "{what} of {name}");
        }
    }
}

#[test]
fn nor_does_it_for_entries_by_luck() {
    // A linear congruential generator with the constants of Knuth's MMIX (from memory), a fixed seed.
    let mut seed: u64 = 7;
    let mut luck = |most: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as usize % most
    };
    let texts = [
        "", "0", "1/64", "0.0131", "1/8", "0.4", "1", "1-1/4", "3", "7-13/64", "11.3", "19", "37-27/64",
        "52.4999", "53-7/8", "57-5/16", "57-13/16", "59-1/64", "117", "-3", "8 mm", "3000 mm", "<b>",
    ];
    let entries = [
        Entry::OldReading(0),
        Entry::WantedReading(0),
        Entry::EndsReading(0),
        Entry::SetPoint,
        Entry::SplineLength,
        Entry::LeastEngaged,
        Entry::BumpTravel,
        Entry::DroopTravel,
        Entry::ShaftSlope,
        Entry::AtBump,
        Entry::AtRide,
        Entry::AtDroop,
        Entry::BottomedGap,
        Entry::LipDepth,
        Entry::BarrelLength,
        Entry::GroovePlace,
        Entry::GrooveWidth,
        Entry::GrooveMargin,
        Entry::TubeDiameter,
        Entry::WeldLine,
        Entry::FarWeldLine,
        Entry::Kerf,
        Entry::RootGap,
        Entry::Shrinkage,
        Entry::Spigot,
        Entry::Shoulder,
        Entry::Trim,
        Entry::ClearBy,
    ];
    let (mut drawn, all) = ([0; 3], jobs());
    for _ in 0..1500 {
        let mut job = all[luck(all.len())].1.clone();
        job.display = Display::ALL[luck(Display::ALL.len())];
        job.measure.kind = ShaftKind::ALL[luck(ShaftKind::ALL.len())];
        job.measure.route = Route::ALL[luck(Route::ALL.len())];
        job.slip.by = TravelBy::ALL[luck(TravelBy::ALL.len())];
        job.cut.at = CutAt::ALL[luck(CutAt::ALL.len())];
        job.cut.end = End::ALL[luck(End::ALL.len())];
        for _ in 0..luck(4) {
            let entry = entries[luck(entries.len())];
            job.put(entry, texts[luck(texts.len())]);
            if let Entry::OldReading(_) | Entry::WantedReading(_) = entry {
                let odd = texts[luck(texts.len())];
                for i in 1..3 {
                    job.put(Entry::OldReading(i), odd);
                }
            }
        }
        for (what, svg) in drawings(&job) {
            assert_eq!(complaints(&svg), Vec::<String>::new(), "{what}: {svg}");
            drawn[["elevation", "slip", "zone"].iter().position(|name| *name == what).unwrap()] += 1;
        }
    }
    assert!(drawn.iter().all(|count| *count > 150), "{drawn:?}");
}

#[test]
fn the_cut_zone_is_true_to_its_bar_and_numbered_like_the_list() {
    // A law: pixels between two places over their distance is the same for all, along and across.
    let mut seen = 0;
    for (name, job) in jobs() {
        let Some(svg) = cut_zone(&job) else { continue };
        seen += 1;
        let list = cut_list(&job).unwrap();
        let (_, _, all) = pieces(&svg);
        let scale = by_the_bar(&all);
        let shown: Vec<_> =
            list.marks.iter().enumerate().filter(|(_, mark)| mark.name != MarkName::FarWeld).collect();
        let numbers: Vec<&Piece> =
            all.iter().filter(|p| p.tag == "text" && p.anchor == "middle").collect();
        let leaders: Vec<f64> = all
            .iter()
            .filter(|p| p.tag == "path" && p.class == "thin" && p.points.len() == 4)
            .filter(|p| p.points[2].1 < p.points[3].1 && p.points[2].0 == p.points[3].0)
            .filter(|p| p.points[0].0 == p.points[1].0)
            .map(|p| p.points[3].0)
            .collect();
        assert_eq!(leaders.len(), shown.len(), "{name}");
        assert_eq!(numbers.len(), shown.len(), "{name}");
        for (i, (index, mark)) in shown.iter().enumerate() {
            assert_eq!(numbers[i].text, (index + 1).to_string(), "{name}");
            let real = as_millimetres(mark.from_far - shown[0].1.from_far);
            let miss = (leaders[i] - leaders[0] - real * scale).abs();
            assert!(miss < 0.2 + 0.004 * real * scale, "{name}, {:?}: {miss} px", mark.name);
        }
        if let Ok(Some(Amount::PlainLength(diameter))) = read(&job, Entry::TubeDiameter) {
            let edges: Vec<f64> = all
                .iter()
                .filter(|p| p.tag == "line" && p.class == "part" && p.points[0].0 == 13.0)
                .map(|p| p.points[0].1)
                .collect();
            let high = edges[1] - edges[0];
            assert!((high - as_millimetres(diameter) * scale).abs() < 0.2 + 0.004 * high, "{name}");
        } else {
            assert!(svg.contains("height not to scale"), "{name}");
        }
    }
    assert!(seen > 12, "{seen} drawn");
}

#[test]
fn the_slip_is_true_to_its_bar() {
    // Shoulder to lip at ride, and to the barrel's end, as typed; the bar says how much a pixel is.
    let (_, _, all) = pieces(&slip(&full()).unwrap());
    let scale = by_the_bar(&all) * 25.4;
    let barrel = all.iter().find(|p| p.tag == "path" && p.class == "part").unwrap().bounds();
    let (end, shoulder) = (barrel[0], barrel[2]);
    assert!(((shoulder - end) / scale - 5.5).abs() < 0.02);
    let ride = all.iter().find(|p| p.tag == "line" && p.class == "accent").unwrap();
    assert!(((shoulder - ride.points[0].0) / scale - (0.5 + 0.25 + 0.875)).abs() < 0.01);
}

#[test]
fn the_side_view_says_cut_here_only_with_a_cut() {
    for (name, job) in jobs() {
        let cut = cut_list(&job).is_ok_and(|list| list.place(MarkName::TubeEnd).is_some());
        let svg = elevation(&job).unwrap();
        assert_eq!(svg.contains("cut here"), cut, "{name}");
        assert_eq!(svg.contains(">ends"), job.measure.route != Route::Joints, "{name}");
    }
    assert!(cut_zone(&Job::default()).is_none() && slip(&Job::default()).is_none());
}
