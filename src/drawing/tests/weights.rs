//! The weights on the clock and on the tube unrolled, read back from their own text.
#![cfg(test)]

use super::reader::{Piece, pieces};
use crate::drawing::{unrolled, weights};
use crate::job::{End, Entry, Job, Joined, PutBack, WeightsCame, sample};
use crate::quantity::in_inches;
use crate::stage::measure::length_change;

fn discs<'a>(all: &'a [Piece], class: &str) -> Vec<&'a Piece> {
    all.iter().filter(|piece| piece.tag == "circle" && piece.class == class).collect()
}

fn with(fields: &[(Entry, &str)]) -> Job {
    let mut job = sample();
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

#[test]
fn the_tube_unrolled_shows_where_they_were_and_where_they_go() {
    // By construction: 320 wide from 12 to 12 beginning at 20, 270 high from 62 for the old length.
    for end in [End::Rear, End::Front] {
        let mut job = sample();
        job.cut.end = end;
        let lengths = length_change(&job).unwrap();
        let (old, new) = (in_inches(lengths.old.best), in_inches(lengths.wanted.best));
        let (_, _, all) = pieces(&unrolled(&job).unwrap());
        let down = |distance: f64| {
            let share = distance / old;
            62.0 + 270.0 * if end == End::Rear { share } else { 1.0 - share }
        };
        let across = |degrees: f64| 20.0 + 320.0 * degrees / 360.0;
        let came = discs(&all, "ghost");
        let goes = discs(&all, "accent filled");
        // The first stays, the second goes with its yoke by what the shaft gets shorter.
        for (drawn, expected) in [
            (came[0], (across(60.0), down(5.25))),
            (came[1], (across(225.0), down(52.0))),
            (goes[0], (across(60.0), down(5.25))),
            (goes[1], (across(225.0), down(52.0 - (old - new)))),
        ] {
            let (x, y) = drawn.points[0];
            assert!((x - expected.0).abs() < 0.06 && (y - expected.1).abs() < 0.06, "{end:?} {x} {y}");
        }
        // Heavier is larger: the heaviest has the largest radius.
        assert!(goes[1].radius > goes[0].radius && (goes[1].radius - 13.0).abs() < 0.06);
    }
}

#[test]
fn what_weights_keep_off_is_hatched_and_goes_on_at_the_other_edge() {
    // A seam at 12 is kept clear of at both edges of the sheet; ears from the cut end's weld to the middle.
    let hatched = |fields: &[(Entry, &str)]| {
        let (_, _, all) = pieces(&unrolled(&with(fields)).unwrap());
        let paths = all.into_iter().filter(|piece| piece.tag == "path" && piece.class == "ghost");
        paths.map(|piece| piece.bounds()).collect::<Vec<_>>()
    };
    let seam = hatched(&[(Entry::SeamClock, "0°")]);
    let narrow = |[left, _, right, _]: &[f64; 4]| right - left < 30.0;
    let edges: Vec<_> = seam.iter().filter(|bounds| narrow(bounds)).collect();
    assert_eq!(edges.len(), 2);
    // 10° of 360 on 320 is 8.9 wide.
    assert!(
        edges.iter().any(|[left, _, right, _]| (*left - 20.0).abs() < 0.1 && (right - 28.9).abs() < 0.1)
    );
    assert!(
        edges
            .iter()
            .any(|[left, _, right, _]| (left - 331.1).abs() < 0.1 && (right - 340.0).abs() < 0.1)
    );
    let ears = hatched(&[(Entry::SeamClock, ""), (Entry::EarClock, "3:00")]);
    // Both yokes have two.
    assert_eq!(ears.iter().filter(|bounds| narrow(bounds)).count(), 4);
}

#[test]
fn a_weight_on_the_seam_is_drawn_as_the_two_that_do_its_work() {
    // By construction: 10° to either side of a seam at 7:30, each lighter than the weight itself.
    let job = with(&[(Entry::SeamClock, "7:30")]);
    let svg = unrolled(&job).unwrap();
    let (_, _, all) = pieces(&svg);
    let goes = discs(&all, "accent filled");
    let at = |piece: &Piece| (piece.points[0].0 - 20.0) / 320.0 * 360.0;
    let mut places: Vec<f64> = goes.iter().map(|piece| at(piece)).collect();
    places.sort_by(f64::total_cmp);
    for (got, expected) in places.iter().zip([60.0, 215.0, 235.0]) {
        assert!((got - expected).abs() < 0.2, "{places:?}");
    }
    assert_eq!(places.len(), 3);
    let face = weights(&job).unwrap();
    // Filled says that it goes back, at either end, as on the tube unrolled; its end stands in words.
    assert_eq!(discs(&pieces(&face).2, "accent filled").len(), 3);
    assert!(face.contains(">front: 1<") && face.contains(">rear: 2<") && !face.contains("hollow"));
    assert!(svg.contains(">lines: from old to new<"));
    // The seam's word stands clear of the numbers, wherever the seam is.
    for at in ["7:30", "7:20", "8:00", "6:40", "2:00", "12:00"] {
        let svg = weights(&with(&[(Entry::SeamClock, at)])).unwrap();
        let (_, _, all) = pieces(&svg);
        let seam = all.iter().find(|piece| piece.text == "seam").unwrap().bounds();
        for number in all.iter().filter(|piece| piece.class.contains("part") && piece.tag == "text") {
            let [left, top, right, bottom] = number.bounds();
            let apart = left > seam[2] || seam[0] > right || top > seam[3] || seam[1] > bottom;
            assert!(apart, "{at}: {} on the seam's word", number.text);
        }
    }
}

#[test]
fn it_stays_on_its_sheet_whatever_goes_back() {
    let planes = [(Entry::FrontPlane, "5"), (Entry::RearPlane, "50")];
    let mut shares = with(&planes);
    shares.weights.put_back = PutBack::BothShares;
    let mut joined = with(&[(Entry::WeightDistance(0), "50")]);
    joined.weights.joined = Joined::OneAnEnd;
    let beyond = with(&[
        (Entry::WantedReading(0), "24"),
        (Entry::WantedReading(1), "24"),
        (Entry::WantedReading(2), "24"),
    ]);
    let edge = with(&[
        (Entry::WeightClock(0), "11:55"),
        (Entry::WeightClock(1), "0:00"),
        (Entry::EarClock, "11:30"),
    ]);
    for job in [sample(), shares.clone(), joined.clone(), beyond, edge] {
        let svg = unrolled(&job).unwrap();
        let (width, height, all) = pieces(&svg);
        for piece in &all {
            let [left, top, right, bottom] = piece.bounds();
            let inside = left >= -1.0 && top >= -1.0 && right <= width + 1.0 && bottom <= height + 1.0;
            assert!(inside || piece.class == "accent filled", "{} {}", piece.tag, piece.text);
        }
        assert!(!svg.contains("NaN") && !weights(&job).unwrap().contains("NaN"));
    }
    // Named by what they stand for.
    assert!(unrolled(&joined).unwrap().contains(">1+2<"));
    assert!(
        unrolled(&shares).unwrap().contains(">rear<") && weights(&shares).unwrap().contains(">front<")
    );
    // Nothing to draw.
    let mut none = sample();
    none.weights.came = WeightsCame::None;
    assert!(
        unrolled(&none).is_none() && weights(&none).is_none() && unrolled(&Job::default()).is_none()
    );
}
