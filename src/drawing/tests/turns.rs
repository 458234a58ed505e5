//! The curve of a turn, read back from its own text.
#![cfg(test)]

use super::plotted::{Plotted, plotted, scale, value};
use super::reader::pieces;
use crate::drawing::{Older, end_view, history, older_turns, runout_curve};
use crate::job::{
    Choice, Dial, Entry, Job, MOST_PASSES, MarkNames, Pass, PassKind, RunOutLimit, SeamBy, Stations,
    TurnedHow, sample,
};
use crate::quantity::{as_degrees, as_thousandths, degrees};
use crate::stage::truing::{earlier, limit, turn};

/// A job with these passes of readings at one place.
pub(super) fn read(stations: Stations, passes: &[(PassKind, &[&str])]) -> Job {
    let mut job = Job::default();
    job.put(Entry::TubeDiameter, "3");
    job.truing.passes.clear();
    for (pass, (kind, readings)) in passes.iter().enumerate() {
        job.truing.passes.push(Pass::new(*kind, stations));
        for (station, reading) in readings.iter().enumerate() {
            job.put(Entry::StationReading(pass, 0, station), reading);
        }
    }
    job
}

/// A turn of so many lines either way toward a place, by the definition of an offset.
fn turned(count: usize, size: f64, at: f64) -> Vec<String> {
    let reading = |i: usize| (size * (360.0 * i as f64 / count as f64 - at).to_radians().cos()).round();
    (0..count).map(|i| format!("{}", reading(i))).collect()
}

/// So many passes of 36 marks, each better than the one before, begun minutes apart.
pub(super) fn long(passes: usize) -> Job {
    let mut job = Job::default();
    job.put(Entry::TubeDiameter, "3");
    job.truing.passes.clear();
    for pass in 0..passes {
        let mut taken = Pass::new(PassKind::ALL[(3 * pass) / passes], Stations::ThirtySix);
        taken.begun = Some(1_700_000_000_000 + 540_000 * pass as u64);
        job.truing.passes.push(taken);
        let size = 30.0 * 0.85_f64.powi(pass as i32);
        for (station, reading) in turned(36, size, 25.0 * pass as f64).into_iter().enumerate() {
            job.put(Entry::StationReading(pass, 0, station), &reading);
        }
    }
    job
}

const TACKED: [&str; 8] = ["0", "5", "11", "15", "14", "9", "3", "-1"];
const NEXT: [&str; 8] = ["0", "1", "3", "4", "4", "3", "1", "0"];

pub(super) fn jobs() -> Vec<(&'static str, Job)> {
    let changed = |job: &Job, change: &dyn Fn(&mut Job)| {
        let mut job = job.clone();
        change(&mut job);
        job
    };
    let seam = |job: &mut Job| {
        job.truing.seam = SeamBy::Known;
        job.put(Entry::SeamClock, "11:50");
    };
    let two = read(Stations::Eight, &[(PassKind::AsFitted, &TACKED), (PassKind::Tacked, &NEXT)]);
    let metric = |job: &mut Job| job.truing.dial = Dial::Hundredth;
    vec![
        ("hump", humped()),
        ("sample", sample()),
        ("two", two.clone()),
        ("two-mm", changed(&two, &metric)),
        ("degrees", changed(&two, &|job| job.truing.marks = MarkNames::Degrees)),
        ("numbers", changed(&two, &|job| job.truing.marks = MarkNames::Numbers)),
        (
            "turned",
            changed(&two, &|job| {
                job.truing.marks = MarkNames::Numbers;
                job.truing.turned = TurnedHow::Clockwise;
            }),
        ),
        ("seam", changed(&two, &seam)),
        ("far-limit", changed(&two, &|job| job.truing.limit = RunOutLimit::Anywhere)),
        ("no-limit", changed(&two, &|job| job.truing.limit = RunOutLimit::Own)),
        ("no-tube", changed(&two, &|job| job.put(Entry::TubeDiameter, ""))),
        ("thin-tube", changed(&two, &|job| job.put(Entry::TubeDiameter, "20 mm"))),
        ("flat", read(Stations::Eight, &[(PassKind::Tacked, &["0"; 8])])),
        ("four", read(Stations::Four, &[(PassKind::Tacked, &["0", "6", "12", "6"])])),
        ("three", read(Stations::Four, &[(PassKind::Tacked, &["0", "6", "12"])])),
        ("six", read(Stations::Eight, &[(PassKind::Tacked, &["0", "9", "1", "7", "-3", "5"])])),
        (
            "huge",
            read(
                Stations::Eight,
                &[(PassKind::Welded, &["-180", "20", "150", "99", "3", "0", "1", "7"])],
            ),
        ),
        ("long", long(MOST_PASSES)),
        ("days", changed(&long(3), &|job| job.truing.passes[2].begun = Some(1_700_400_000_000))),
        (
            "clock-went-back",
            changed(&long(3), &|job| job.truing.passes[1].begun = Some(1_600_000_000_000)),
        ),
    ]
}

/// The latest turn that can be drawn.
pub(super) fn last(job: &Job) -> usize {
    (0..job.truing.passes.len()).rev().find(|pass| turn(job, *pass, 0).is_ok()).unwrap()
}

fn curve(job: &Job) -> String {
    let pass = last(job);
    curve_over(job, pass, &older_turns(job, pass, 0))
}

fn curve_over(job: &Job, pass: usize, older: &Older) -> String {
    runout_curve(job, pass, &turn(job, pass, 0).unwrap(), older).unwrap()
}

/// The tube from the rear by a pass, at the first place.
pub(super) fn end(job: &Job, pass: usize) -> String {
    end_view(job, &turn(job, pass, 0).unwrap(), &earlier(job, pass, 0)).unwrap()
}

/// Writes every drawing of every job to the folder for short-lived files, to be looked at.
#[test]
#[ignore = "for the eye"]
fn dump() {
    let folder = std::env::temp_dir().join("shaftwright-turns");
    std::fs::create_dir_all(&folder).unwrap();
    let write = |what: &str, name: &str, svg: String| {
        std::fs::write(folder.join(format!("{what}--{name}.svg")), svg).unwrap();
    };
    for (name, job) in jobs() {
        let pass = last(&job);
        write("curve", name, curve(&job));
        write("end", name, end(&job, pass));
        if let Some(svg) = history(&job, 0) {
            write("history", name, svg);
        }
    }
}

/// Sixteen marks with a hump at two of them, which the mechanic has set aside.
fn humped() -> Job {
    let mut humped = turned(16, 4.0, 70.0);
    humped[15] = "12".to_owned();
    humped[0] = "11".to_owned();
    let earlier = turned(16, 9.0, 120.0);
    let passes = [&earlier, &humped].map(|turn| turn.iter().map(String::as_str).collect::<Vec<_>>());
    let kinds = [PassKind::AsFitted, PassKind::Tacked];
    let mut job =
        read(Stations::Sixteen, &[(kinds[0], passes[0].as_slice()), (kinds[1], passes[1].as_slice())]);
    for mark in [0, 15] {
        job.truing.passes[1].turns[0].aside[mark] = true;
    }
    job
}

fn near(one: (f64, f64), other: (f64, f64), by: f64) -> bool {
    (one.0 - other.0).abs() < by && (one.1 - other.1).abs() < by
}

// The plotter rounds to whole units of its drawing; two of them are one pixel on the glass. A text's
// place is rounded as well, so that a scale read off two of them may be one more away.
const ROUNDED: f64 = 2.5;

#[test]
fn points_stand_where_the_readings_are() {
    for (name, job) in jobs() {
        let all = plotted(&curve(&job));
        let place = scale(&all);
        let now = turn(&job, last(&job), 0).unwrap();
        let circles: Vec<&Plotted> = all.iter().filter(|p| p.tag == "circle").collect();
        assert_eq!(circles.len(), now.stations.len(), "{name}");
        for station in &now.stations {
            // By the definition of the chart: over the mean, in the dial's count.
            let lines = as_thousandths(station.reading - now.run_out.mean);
            let lines = if job.truing.dial == Dial::Hundredth { lines * 2.54 } else { lines };
            let expected = place(as_degrees(station.at) / 90.0, lines);
            let there: Vec<&&Plotted> =
                circles.iter().filter(|circle| near(circle.points[0], expected, ROUNDED)).collect();
            assert_eq!(there.len(), 1, "{name}: {expected:?}");
            let aside = now.run_out.aside.iter().any(|aside| now.stations[*aside] == *station);
            assert_eq!(hollow(there[0]), aside, "{name}");
        }
    }
}

/// A reading that was set aside.
fn hollow(piece: &Plotted) -> bool {
    piece.tag == "circle" && !piece.head.contains("filled")
}

#[test]
fn each_bar_is_as_long_as_a_reading_is_doubtful() {
    // By hand: four marks fit all but one number, so the ± of a reading is the line's own, at 95 % as a
    // rectangle is expanded here (JCGM 100: δ/√12 times 1.96 for infinite freedom): 0.001 in · 0.5658.
    let job = read(Stations::Four, &[(PassKind::Tacked, &["0", "6", "12", "6"])]);
    let all = plotted(&curve(&job));
    let place = scale(&all);
    let circles = all.iter().filter(|p| p.tag == "circle");
    let mut seen = 0;
    for circle in circles {
        let (x, y) = circle.points[0];
        let bar = |p: &&Plotted| {
            p.tag == "polyline" && p.points.len() == 2 && p.points.iter().all(|end| end.0 == x)
        };
        // The first there is the quarter's own line.
        let bar = all.iter().rfind(bar).unwrap();
        let (top, low) = (bar.points[1].1, bar.points[0].1);
        assert!((0.5 * (top + low) - y).abs() <= 1.0);
        let long = place(0.0, 0.0).1 - place(0.0, 2.0 * 0.5658).1;
        assert!((low - top - long).abs() < ROUNDED, "{low} {top} {long}");
        seen += 1;
    }
    assert_eq!(seen, 4);
}

#[test]
fn a_bar_many_times_as_long_as_the_turn_is_high_goes_over_the_edge() {
    // Six marks leave one degree of freedom, and Student's factor for it is 12.7.
    let job = jobs().into_iter().find(|named| named.0 == "six").unwrap().1;
    let all = plotted(&curve(&job));
    let frame: Vec<f64> = all
        .iter()
        .filter(|p| p.tag == "polyline" && p.points.len() == 2)
        .find(|p| p.points[0].0 == p.points[1].0)
        .map(|p| p.points.iter().map(|end| end.1).collect())
        .unwrap();
    let highest =
        all.iter().filter(|p| p.tag == "circle").map(|p| p.points[0].1).fold(f64::INFINITY, f64::min);
    // What was read stands high in the chart all the same, here three quarters up and more.
    let (low, top) = (frame[0].max(frame[1]), frame[0].min(frame[1]));
    assert!(highest < low - 0.75 * (low - top), "{highest} of {low} to {top}");
    let bars = all.iter().filter(|p| p.tag == "polyline" && p.points.len() == 2);
    let full = bars.filter(|p| p.points.iter().all(|end| end.1 == low || end.1 == top)).count();
    // Five quarters of the clock and six bars.
    assert_eq!(full, 11);
}

#[test]
fn the_band_stands_at_the_limit() {
    let mut seen = 0;
    for (name, job) in jobs() {
        let svg = curve(&job);
        let all = plotted(&svg);
        let place = scale(&all);
        let levels: Vec<f64> =
            all.iter().filter(|p| p.head.contains("dasharray")).map(|p| p.points[0].1).collect();
        let Some(limit) = limit(&job) else {
            assert!(levels.is_empty() && !svg.contains("limit"), "{name}");
            continue;
        };
        assert!(svg.contains("limit ±"), "{name}");
        if svg.contains("off the chart") {
            assert!(levels.is_empty(), "{name}");
            continue;
        }
        seen += 1;
        // By the definition of a total reading: half of it either way of the mean.
        let half = 0.5 * as_thousandths(limit);
        let half = if job.truing.dial == Dial::Hundredth { half * 2.54 } else { half };
        assert_eq!(levels.len(), 2, "{name}");
        for (level, lines) in levels.into_iter().zip([half, -half]) {
            assert!((level - place(0.0, lines).1).abs() < ROUNDED, "{name}: {level}");
        }
    }
    assert!(seen > 10, "{seen}");
}

#[test]
fn an_older_turn_lies_where_it_lay_as_the_newest() {
    for job in [humped(), long(MOST_PASSES), sample()] {
        let pass = last(&job);
        let older = older_turns(&job, pass, 0);
        let svg = curve_over(&job, pass, &older);
        let all = plotted(&svg);
        // What goes over the edge of the chart is cut off there: the box is as wide as the chart is, and
        // its middle is the mean.
        let clip = &all.iter().find(|p| p.tag == "rect").unwrap().head;
        let [left, top, width, height] =
            ["x", "y", "width", "height"].map(|name| value(clip, name).parse::<f64>().unwrap());
        let [begin, end] = [0.0, 4.0].map(|quarter| scale(&all)(quarter, 0.0));
        assert!(near((left, top + 0.5 * height), begin, ROUNDED));
        assert!(near((left + width, top + 0.5 * height), end, ROUNDED) && top + height < 620.0);
        let [path] = all.iter().filter(|p| p.tag == "path").collect::<Vec<_>>()[..] else { panic!() };
        assert!(path.head.contains("vector-effect=\"non-scaling-stroke\""));
        // A stroke each, of so many points.
        assert_eq!((path.head.matches('M').count(), path.points.len()), (pass, 49 * pass));
        let place = scale(&all);
        let transform =
            value(&all.iter().find(|p| p.head.contains("transform")).unwrap().head, "transform");
        let figures: Vec<f64> =
            transform.split(['(', ')', ' ']).filter_map(|word| word.parse().ok()).collect();
        let [x, y, wide, high] = figures[..] else { panic!("{transform}") };
        for (earlier, points) in path.points.chunks(49).enumerate() {
            let run_out = turn(&job, earlier, 0).unwrap().run_out;
            for (step, point) in points.iter().enumerate() {
                // A law: stretched, it lies where the chart's own scale would have put it.
                let round = 360.0 * step as f64 / 48.0;
                let expected = place(round / 90.0, as_thousandths(run_out.fitted(degrees(round))));
                let drawn = (x + wide * point.0, y + high * point.1);
                assert!(near(drawn, expected, ROUNDED), "{earlier} {step}: {drawn:?} {expected:?}");
                let (left, right) = (place(0.0, 0.0).0 - 1.0, place(4.0, 0.0).0 + 1.0);
                assert!((left..right).contains(&drawn.0));
            }
        }
    }
}

#[test]
fn what_is_typed_leaves_the_older_turns_as_they_are() {
    let mut job = long(4);
    let older = older_turns(&job, 3, 0);
    let before = curve_over(&job, 3, &older);
    job.put(Entry::StationReading(3, 0, 9), "90");
    assert_eq!(older_turns(&job, 3, 0), older);
    let after = curve_over(&job, 3, &older);
    assert_ne!(before, after);
    let kept = |svg: &str| {
        let older = svg.split("<path").filter(|path| path.contains("vector-effect"));
        older.map(|path| path[..1200].to_owned()).collect::<Vec<_>>()
    };
    assert_eq!((kept(&before).len(), kept(&before)), (1, kept(&after)));
    // The same job, the same text.
    assert_eq!(after, curve_over(&job, 3, &older));
}

#[test]
fn a_hump_set_aside_is_hollow_and_shaded_on_both_sides_of_twelve() {
    let job = humped();
    let all = plotted(&curve(&job));
    let hollow: Vec<f64> = all.iter().filter(|p| hollow(p)).map(|p| p.points[0].0).collect();
    let place = scale(&all);
    assert!((hollow[0] - place(0.0, 0.0).0).abs() < 1.5 && hollow.len() == 2);
    assert!((hollow[1] - place(3.75, 0.0).0).abs() < 1.5);
    // By hand: of sixteen marks each has 11.25° either way, so the two that stand at 337.5° and 0° are
    // shaded from 326.25° over 12, where the chart ends, up to 11.25°.
    let wide = |p: &Plotted| value(&p.head, "stroke-width").parse::<f64>().unwrap_or(0.0);
    let stripes: Vec<(f64, f64)> = all
        .iter()
        .filter(|p| p.tag == "polyline" && wide(p) > 10.0)
        .map(|p| (p.points[0].0 - 0.5 * wide(p), p.points[0].0 + 0.5 * wide(p)))
        .collect();
    let at = |degrees: f64| place(degrees / 90.0, 0.0).0;
    // Pieces of 2.5° are shaded or not, a piece by its middle.
    let piece = at(2.5) - at(0.0);
    assert_eq!(stripes.len(), 2, "{stripes:?}");
    assert!(near(stripes[0], (at(0.0), at(11.25)), piece), "{stripes:?}");
    assert!(near(stripes[1], (at(326.25), at(360.0)), piece), "{stripes:?}");
    let (_, _, all) = pieces(&end(&job, 1));
    let hollow = all.iter().filter(|p| p.tag == "circle" && p.radius == 4.0 && p.class == "thin");
    assert_eq!(hollow.count(), 2);
}

#[test]
fn a_known_seam_is_shaded_and_no_other() {
    for (name, job) in jobs() {
        let all = plotted(&curve(&job));
        let wide = |p: &&Plotted| value(&p.head, "stroke-width").parse::<f64>().unwrap_or(0.0) > 10.0;
        let count = all.iter().filter(|p| p.tag == "polyline").filter(wide).count();
        // At 11:50 it lies on both sides of 12, and the chart ends there.
        assert_eq!(count, if ["seam", "hump"].contains(&name) { 2 } else { 0 }, "{name}");
    }
}

#[test]
fn the_curve_is_sound_text_and_inside_its_frame() {
    for (name, job) in jobs() {
        let svg = curve(&job);
        for word in ["NaN", "inf", "no figure", "#0"] {
            assert!(!svg.contains(word), "{name} says {word}");
        }
        for piece in
            plotted(&svg).iter().filter(|p| !["path", "g", "rect", "clipPath", "svg"].contains(&&*p.tag))
        {
            let radius: f64 = value(&piece.head, "r").parse().unwrap_or(0.0);
            for (x, y) in &piece.points {
                let inside =
                    (radius..=960.0 - radius).contains(x) && (radius..=620.0 - radius).contains(y);
                assert!(inside, "{name}: {} at {x} {y}", piece.tag);
            }
            if piece.tag == "text" {
                // At the larger size on narrow screens, a digit or a letter is 24 units wide at most.
                let wide = 24.0 * piece.words.chars().count() as f64;
                let x = piece.points[0].0;
                let (left, right) = match value(&piece.head, "text-anchor") {
                    "end" => (x - wide, x),
                    "middle" => (x - 0.5 * wide, x + 0.5 * wide),
                    _ => (x, x + wide),
                };
                assert!(left >= 0.0 && right <= 960.0, "{name}: {} from {left} to {right}", piece.words);
            }
        }
        assert_eq!(svg, curve(&job), "{name}: the same job, the same text");
    }
}

#[test]
fn the_quarters_have_the_marks_own_names() {
    let names = |name: &str| {
        let job = jobs().into_iter().find(|job| job.0 == name).unwrap().1;
        let all = plotted(&curve(&job));
        let middle = |p: &&Plotted| p.tag == "text" && value(&p.head, "text-anchor") == "middle";
        all.iter().filter(middle).map(|p| p.words.clone()).collect::<Vec<_>>().join(" ")
    };
    // By the conventions: clockwise from the witness mark at 12; of eight marks every second.
    assert_eq!(names("two"), "12 3 6 9 12");
    assert_eq!(names("degrees"), "0° 90° 180° 270° 360°");
    assert_eq!(names("numbers"), "1 3 5 7 1");
    // Turned clockwise under the dial, the second mark is the one counter-clockwise of the first.
    assert_eq!(names("turned"), "1 7 5 3 1");
}
