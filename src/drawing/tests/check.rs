//! The drawings of Check, read back from their own text: whirl speed against length, and the first bend.
#![cfg(test)]

use super::reader::{Piece, complaints, pieces};
use crate::drawing::{bending, whirl_chart};
use crate::job::{Display, Entry, Job, sample};
use crate::quantity::{as_rpm, in_inches};
use crate::stage::check::{chart, shape};

fn with(entries: &[(Entry, &str)]) -> Job {
    let mut job = sample();
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

const SOFT: [(Entry, &str); 2] = [(Entry::FrontSupport, "9000"), (Entry::RearSupport, "12000")];

fn wanted(text: &str) -> [(Entry, &str); 3] {
    [0, 1, 2].map(|reading| (Entry::WantedReading(reading), text))
}

/// Jobs as they come, and odd ones.
fn jobs() -> Vec<(&'static str, Job)> {
    let metric = |entries: &[(Entry, &str)]| {
        let mut job = with(entries);
        job.display = Display::Millimetre;
        job
    };
    vec![
        ("sample", sample()),
        ("in mm", metric(&[])),
        ("held softly", with(&SOFT)),
        ("held softly, in mm", metric(&SOFT)),
        ("no yokes", with(&[(Entry::ShaftMass, "")])),
        ("longer", with(&wanted("59-1/4"))),
        ("much shorter", with(&wanted("24"))),
        ("hardly shorter", with(&wanted("57-1/4"))),
        (
            "no speeds",
            with(&[
                (Entry::TopSpeed, ""),
                (Entry::EngineLimit, ""),
                (Entry::RoadTop, ""),
                (Entry::Cruise, ""),
            ]),
        ),
        ("no top speed", with(&[(Entry::TopSpeed, ""), (Entry::EngineLimit, ""), (Entry::RoadTop, "")])),
        ("far too fast", with(&[(Entry::TopSpeed, "12000")])),
        ("slow", with(&[(Entry::TopSpeed, "400"), (Entry::Cruise, "8 mph")])),
        ("a thin tube", with(&[(Entry::TubeDiameter, "1"), (Entry::SpigotDiameter, "")])),
        ("a wide tube", with(&[(Entry::TubeDiameter, "7"), (Entry::SpigotDiameter, "")])),
        ("a centre bearing", with(&[(Entry::BearingAt, "48"), SOFT[1]])),
        (
            "two sizes",
            with(&[(Entry::StepAt, "30"), (Entry::StepDiameter, "2.5"), (Entry::StepWall, "0.12")]),
        ),
    ]
}

#[test]
fn nothing_leaves_the_frame_or_lies_on_a_text() {
    for (name, job) in jobs() {
        let svg = whirl_chart(&job).unwrap_or_else(|| panic!("{name}"));
        assert_eq!(complaints(&svg), Vec::<String>::new(), "chart of {name}");
        if let Some(svg) = bending(&job) {
            assert_eq!(complaints(&svg), Vec::<String>::new(), "bending of {name}");
        }
    }
}

#[test]
fn none_while_it_is_not_known() {
    assert!(whirl_chart(&Job::default()).is_none() && bending(&Job::default()).is_none());
    for entry in [Entry::TubeDiameter, Entry::TubeWall] {
        for text in ["", "about so"] {
            let job = with(&[(entry, text)]);
            assert!(whirl_chart(&job).is_none() && bending(&job).is_none(), "{entry:?} {text}");
        }
    }
    // Without the yokes there is no shape, but a curve of the tube alone.
    let bare = with(&[(Entry::ShaftMass, "")]);
    assert!(bending(&bare).is_none() && whirl_chart(&bare).unwrap().contains("the tube alone"));
    assert!(whirl_chart(&sample()).unwrap().contains("yokes counted"));
    assert!(whirl_chart(&with(&wanted(""))).is_none());
}

/// Where a number on a scale stands: the value and its place, from two of the scale's own numbers.
fn scale(numbers: &[(f64, f64)]) -> impl Fn(f64) -> f64 + use<> {
    let (low, high) = (numbers[0], numbers[numbers.len() - 1]);
    move |value| low.1 + (high.1 - low.1) * (value - low.0) / (high.0 - low.0)
}

fn text<'a>(all: &'a [Piece], begins: &str) -> &'a Piece {
    all.iter().find(|piece| piece.text.starts_with(begins)).unwrap_or_else(|| panic!("no {begins}"))
}

#[test]
fn marks_stand_where_the_scales_say() {
    for (name, job) in jobs() {
        let inch = job.display != Display::Millimetre;
        let (_, _, all) = pieces(&whirl_chart(&job).unwrap());
        let number = |piece: &Piece| piece.text.replace('−', "-").parse::<f64>().ok();
        // A number of the upright scale stands 7 lower than its tick.
        let upright: Vec<(f64, f64)> = all
            .iter()
            .filter(|piece| piece.tag == "text" && piece.anchor == "end")
            .filter_map(|piece| Some((number(piece)?, piece.points[0].1 - 7.0)))
            .collect();
        let foot: Vec<(f64, f64)> = all
            .iter()
            .filter(|piece| piece.tag == "text" && piece.anchor == "middle")
            .filter_map(|piece| Some((number(piece)?, piece.points[0].0)))
            .collect();
        assert!(upright.len() > 2, "{name}");
        let height = scale(&upright);
        let close =
            |got: f64, expected: f64| assert!((got - expected).abs() < 0.3, "{name}: {got} {expected}");
        let chart = chart(&job).unwrap();
        // Each speed is a line from edge to edge, and its figure stands in the key.
        let row = all.iter().find(|piece| piece.text.starts_with("level: "));
        assert_eq!(row.is_some(), chart.top.is_some() || chart.cruise.is_some(), "{name}");
        let said = row.map_or("", |row| row.text.as_str());
        let level = |height: f64| {
            all.iter().any(|piece| {
                piece.tag == "line"
                    && piece.class == "part"
                    && piece.points.len() == 2
                    && piece.points.iter().all(|point| (point.1 - height).abs() < 0.3)
            })
        };
        for (speed, word) in [(chart.top, "top "), (chart.cruise, "cruising ")] {
            let figure = said.split(word).nth(1).map(|rest| {
                let digits = rest.split(|c: char| !c.is_ascii_digit()).next().unwrap();
                digits.parse::<f64>().unwrap()
            });
            assert_eq!(figure.is_some(), speed.is_some(), "{name}: {said}");
            let (Some(figure), Some(speed)) = (figure, speed) else { continue };
            // As shown: whole rpm.
            assert!((figure - as_rpm(speed)).abs() <= 0.5, "{name}: {said}");
            assert!(level(height(as_rpm(speed))), "{name} {word}");
        }
        if foot.len() > 1 {
            let along = scale(&foot);
            for (length, word) in chart.lengths.into_iter().zip(["old", "new"]) {
                let value = in_inches(length) * if inch { 1.0 } else { 25.4 };
                close(text(&all, word).points[0].0, along(value));
            }
            // Every point of the accented curve is a length with its whirl speed.
            let curve = all.iter().find(|piece| piece.tag == "path" && piece.class == "accent").unwrap();
            for (point, (length, speed)) in curve.points.iter().rev().zip(chart.whirl.iter().rev()) {
                close(point.0, along(in_inches(*length) * if inch { 1.0 } else { 25.4 }));
                close(point.1, height(as_rpm(*speed)));
            }
            assert!(curve.points.len() > 5, "{name}");
        }
    }
}

#[test]
fn the_shape_is_drawn_from_joint_to_joint_and_held_where_it_is() {
    for (name, job) in jobs() {
        let Some(shape) = shape(&job) else { continue };
        let (_, _, all) = pieces(&bending(&job).unwrap());
        let axis = all.iter().find(|piece| piece.tag == "line").unwrap();
        let ((left, middle), (right, _)) = (axis.points[0], axis.points[1]);
        let x = |inches: f64| left + (right - left) * inches / in_inches(shape.length);
        let curve = all.iter().find(|piece| piece.tag == "path" && piece.class == "accent").unwrap();
        let mirror = all.iter().find(|piece| piece.tag == "path" && piece.class == "ghost").unwrap();
        let ends = (curve.points[0].0, curve.points.last().unwrap().0);
        assert!((ends.0 - left).abs() < 0.11 && (ends.1 - right).abs() < 0.11, "{name}");
        for (one, other) in curve.points.iter().zip(&mirror.points) {
            assert!((one.1 + other.1 - 2.0 * middle).abs() < 0.21, "{name}");
        }
        // The largest deflection is the same in every drawing, by definition of the shape.
        let most = curve.points.iter().map(|point| (point.1 - middle).abs()).fold(0.0, f64::max);
        assert!((most - 56.0).abs() < 0.11, "{name}: {most}");
        let feet: Vec<&Piece> =
            all.iter().filter(|piece| piece.tag == "path" && piece.class.starts_with("part")).collect();
        assert_eq!(feet.len(), shape.held.len(), "{name}");
        for (foot, held) in feet.iter().zip(&shape.held) {
            assert!((foot.points[0].0 - x(in_inches(*held))).abs() < 0.2, "{name}");
        }
        // Held rigidly it does not move there.
        if job.typed(Entry::FrontSupport).is_none_or(|typed| typed.is_blank()) {
            assert!((feet[0].points[0].1 - middle).abs() < 0.11, "{name}");
        }
    }
}
