//! The wrap strip: its sums, which way its hours run, and that its pages are drawn true to size.
//!
//! What is expected follows from the circle (π to the digits of any table), from 1 in = 25.4 mm by
//! definition, from the papers' standards, or from counting; each says which.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::f64::consts::PI;

use shaftwright::drawing::strip_pages;
use shaftwright::job::{ClockMarks, Display, End, Entry, Job, Paper, WeightsCame};
use shaftwright::quantity::{Length, as_millimetres};
use shaftwright::stage::strip::{MarkKind, Piece, Strip, strip};
use shaftwright::stage::{Complaint, Why};

/// Thickness of office paper that the strip reckons with: our own figure, see `mechanics::strip`.
const PAPER: f64 = 0.1;
/// Drawings are written to thousandths of a millimetre.
const WRITTEN: f64 = 0.000_5;

fn job_of(diameter: &str) -> Job {
    let mut job = Job::new(Display::Sixteenth);
    job.put(Entry::TubeDiameter, diameter);
    job
}

fn strip_of(job: &Job) -> Strip {
    strip(job).unwrap_or_else(|needs| panic!("{needs:?}"))
}

#[track_caller]
fn close(found: Length, wanted: f64) {
    let found = as_millimetres(found);
    assert!((found - wanted).abs() < 1e-9, "{found} mm where {wanted} mm is wanted");
}

/// Where a mark of this kind stands on a piece, in millimetres.
fn places(piece: &Piece, kind: MarkKind) -> Vec<f64> {
    piece.marks.iter().filter(|mark| mark.kind == kind).map(|mark| as_millimetres(mark.at)).collect()
}

#[test]
fn once_round_the_tube_and_its_paper_on_as_many_pages_as_it_takes() {
    for (diameter, paper, count) in [
        // π·76.3 = 239.70; A4 (ISO 216: 297 mm) less 15 mm at each side holds 267 mm, Letter (11 in by
        // ANSI/ASME Y14.1) 249.4 mm.
        (76.2, Paper::A4, 1),
        (76.2, Paper::Letter, 1),
        // π·79.1 = 248.50 and π·79.5 = 249.76: either side of what Letter holds.
        (79.0, Paper::Letter, 1),
        (79.4, Paper::Letter, 2),
        (79.4, Paper::A4, 1),
        // π·101.7 = 319.50.
        (101.6, Paper::Letter, 2),
        (101.6, Paper::A4, 2),
        // The widest tube that can be typed: π·200.1 = 628.63.
        (200.0, Paper::A4, 3),
        (200.0, Paper::Letter, 3),
        (20.0, Paper::A4, 1),
    ] {
        let mut job = job_of(&format!("{diameter} mm"));
        job.cut.paper = paper;
        let strip = strip_of(&job);
        let whole = PI * (diameter + PAPER);
        close(strip.length, whole);
        close(strip.hour, whole / 12.0);
        assert_eq!(strip.pieces.len(), count, "{diameter} {paper:?}");
        let mut end = 0.0;
        for piece in &strip.pieces {
            close(piece.from, end);
            end = as_millimetres(piece.to);
            let room = as_millimetres(strip.page.0) - 2.0 * as_millimetres(strip.margin);
            assert!(end - as_millimetres(piece.from) <= room, "{diameter} {paper:?}");
        }
        assert!((end - whole).abs() < 1e-9, "the pieces are the whole strip");
    }
}

#[test]
fn every_five_degrees_and_the_chosen_marks() {
    for (marks, count) in [
        (ClockMarks::Eight, 8),
        (ClockMarks::Twelve, 12),
        (ClockMarks::Sixteen, 16),
        (ClockMarks::TwentyFour, 24),
    ] {
        let mut job = job_of("3");
        job.cut.marks = marks;
        let strip = strip_of(&job);
        let (piece, round) = (&strip.pieces[0], PI * (76.2 + PAPER));
        // By counting: 72 steps of 5° in a turn, 12 of them hours, 24 more at whole tens; the witness
        // mark stands at both ends.
        for (kind, many) in [(MarkKind::Five, 36), (MarkKind::Ten, 24)] {
            assert_eq!(places(piece, kind).len(), many, "{kind:?}");
        }
        for (kind, degrees) in (1..12).map(|hour| (MarkKind::Hour(hour), 30.0 * hour as f64)).chain(
            (1..count).map(|place| (MarkKind::Clock(place + 1), 360.0 * place as f64 / count as f64)),
        ) {
            let at = places(piece, kind);
            assert_eq!(at.len(), 1, "{kind:?}");
            assert!((at[0] - round * degrees / 360.0).abs() < 1e-9, "{kind:?} at {}", at[0]);
        }
        for kind in [MarkKind::Hour(12), MarkKind::Clock(1)] {
            let at = places(piece, kind);
            assert!(at.len() == 2 && at[0].abs() < 1e-9 && (at[1] - round).abs() < 1e-9, "{at:?}");
        }
        close(strip.step, round / count as f64);
    }
}

#[test]
fn a_join_has_the_same_mark_on_both_pieces() {
    // By halving and by thirds: two pieces join at 6 o'clock, three at 4 and at 8.
    for (diameter, joins) in [("4", vec![6]), ("200 mm", vec![4, 8])] {
        let strip = strip_of(&job_of(diameter));
        for (pair, hour) in strip.pieces.windows(2).zip(joins) {
            let (end, beginning) =
                (places(&pair[0], MarkKind::Hour(hour)), places(&pair[1], MarkKind::Hour(hour)));
            assert!((end[0] - as_millimetres(pair[0].to - pair[0].from)).abs() < 1e-9, "{end:?}");
            assert!(beginning[0].abs() < 1e-9, "{beginning:?}");
        }
    }
}

type Vector = [f64; 3];

fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn sum(parts: &[(f64, Vector)]) -> Vector {
    [0, 1, 2].map(|i| parts.iter().map(|(size, part)| size * part[i]).sum())
}

/// A vector turned about an axis of length 1, as a right-hand screw (Rodrigues).
fn turned(v: Vector, axis: Vector, angle: f64) -> Vector {
    let along = axis.iter().zip(v).map(|(a, b)| a * b).sum::<f64>();
    sum(&[(angle.cos(), v), (angle.sin(), cross(axis, v)), (along * (1.0 - angle.cos()), axis)])
}

#[test]
fn wrapped_round_the_tube_its_hours_run_clockwise_seen_from_the_rear() {
    // Axes of the conventions: x rearward, y to the right looking forward, z up; a right-handed set.
    let (rear, right, up): (Vector, Vector, Vector) =
        ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]);
    assert_eq!(cross(rear, right), up);
    let front = [-1.0, 0.0, 0.0];
    let strip = strip_of(&job_of("3"));
    let radius = as_millimetres(strip.length) / (2.0 * PI);
    for mark in &strip.pieces[0].marks {
        let MarkKind::Hour(hour) = mark.kind else { continue };
        // A page that is read has its face toward the reader, its upper edge up, and its right where
        // upper edge × face points. Laid on the top of the tube the face is up, the upper edge in front.
        let page_right = cross(front, up);
        // Rolled down to its right, so that the outward normal leans that way, by its length on the tube.
        let axis = cross(up, page_right);
        let normal = turned(up, axis, as_millimetres(mark.at) / radius);
        // The clock: clockwise from the top, for an eye behind the shaft that looks forward.
        let clock = f64::from(hour as u32) * 30.0_f64.to_radians();
        let wanted = sum(&[(clock.sin(), right), (clock.cos(), up)]);
        let miss = sum(&[(1.0, normal), (-1.0, wanted)]);
        assert!(miss.iter().all(|part| part.abs() < 1e-9), "hour {hour}: {normal:?} not {wanted:?}");
        // The paper's lower edge is still toward the rear there, and its right runs clockwise.
        let tangent = sum(&[(clock.cos(), right), (-clock.sin(), up)]);
        let miss = sum(&[(1.0, cross(front, normal)), (-1.0, tangent)]);
        assert!(miss.iter().all(|part| part.abs() < 1e-9), "hour {hour}: {tangent:?}");
    }
}

#[test]
fn seam_and_weights_stand_where_they_were_read() {
    let mut job = job_of("3");
    for (entry, text) in
        [(Entry::SeamClock, "10:30"), (Entry::WeightClock(0), "60°"), (Entry::TubeDiameter, "3")]
    {
        job.put(entry, text);
    }
    let round = PI * (76.2 + PAPER);
    let at = |job: &Job, kind| places(&strip_of(job).pieces[0], kind);
    // 10:30 is 315° by the dial's 30° an hour.
    assert!((at(&job, MarkKind::Seam)[0] - round * 315.0 / 360.0).abs() < 1e-9);
    assert!((at(&job, MarkKind::Weight(0))[0] - round / 6.0).abs() < 1e-9);
    // At the witness mark: at both ends, however it is typed.
    for text in ["12", "0°", "360°"] {
        job.put(Entry::SeamClock, text);
        let found = at(&job, MarkKind::Seam);
        assert!(found.len() == 2 && found[0] == 0.0 && (found[1] - round).abs() < 1e-9, "{found:?}");
    }
    // What cannot be read is said at its field; the strip does without it.
    for text in ["", "19:00", "where the weld is"] {
        job.put(Entry::SeamClock, text);
        job.put(Entry::WeightClock(0), text);
        assert!(at(&job, MarkKind::Seam).is_empty() && at(&job, MarkKind::Weight(0)).is_empty());
    }
    job.put(Entry::WeightClock(0), "2");
    job.weights.came = WeightsCame::None;
    assert!(at(&job, MarkKind::Weight(0)).is_empty(), "none came off");
}

#[test]
fn without_a_diameter_it_says_what_is_needed() {
    let needs = strip(&job_of("")).unwrap_err();
    assert_eq!((needs.len(), needs[0].entry, &needs[0].why), (1, Entry::TubeDiameter, &Why::Empty));
    for text in ["three", "1 mm", "3 m", "-3", "0", "1e9"] {
        let needs = strip(&job_of(text)).unwrap_err();
        assert_eq!((needs.len(), needs[0].entry), (1, Entry::TubeDiameter), "{text}");
        assert!(matches!(needs[0].why, Why::Wrong(_)), "{text}: {needs:?}");
        assert!(strip_pages(&job_of(text)).is_none());
    }
    let needs = strip(&job_of("19.9 mm")).unwrap_err();
    assert!(matches!(needs[0].why, Why::Wrong(Complaint::OutOfRange { .. })), "20 mm is the least");
}

/// The number in an attribute of the first element of this class behind a place in the text.
fn number(svg: &str, class: &str, attribute: &str) -> f64 {
    let (_, element) = svg.split_once(&format!("class=\"{class}\"")).unwrap();
    let (_, value) = element.split_once(&format!(" {attribute}=\"")).unwrap();
    value.split(['"', 'm']).next().unwrap().parse().unwrap()
}

/// How far down the page this text stands.
fn down(svg: &str, words: &str) -> f64 {
    let (before, _) = svg.split_once(words).unwrap_or_else(|| panic!("no “{words}”"));
    let (_, y) = before.rsplit_once(" y=\"").unwrap();
    y.split('"').next().unwrap().parse().unwrap()
}

#[test]
fn each_page_is_drawn_true_to_size_with_a_bar_to_prove_it() {
    for (diameter, inches, paper, page, count) in [
        // ISO 216.
        ("3", 3.0, Paper::A4, (297.0, 210.0), 1),
        // 11 by 8.5 in, ANSI/ASME Y14.1, at 25.4 mm.
        ("4", 4.0, Paper::Letter, (279.4, 215.9), 2),
    ] {
        let mut job = job_of(diameter);
        job.cut.paper = paper;
        let all = strip_pages(&job).unwrap();
        let pages: Vec<&str> = all.split_inclusive("</svg>").collect();
        assert_eq!(pages.len(), count);
        let mut length = 0.0;
        for (place, svg) in pages.iter().enumerate() {
            let same = |found: f64, wanted: f64| assert!((found - wanted).abs() < WRITTEN, "{found}");
            same(number(svg, "paper", "width"), page.0);
            same(number(svg, "paper", "height"), page.1);
            assert!(svg.contains(&format!("mm\" viewBox=\"0 0 {:.1} {:.1}\"", page.0, page.1)));
            let bar = |class| number(svg, class, "x2") - number(svg, class, "x1");
            // As is written beside them, 4 in being 101.6 mm.
            same(bar("check-mm"), 100.0);
            same(bar("check-in"), 101.6);
            for words in [">100 mm<", ">4 in<", "Measure this bar.", "not 'fit to page'"] {
                assert!(svg.contains(words), "{words}");
            }
            // An inch is 25.4 mm.
            let tube = format!(
                "tube {:.2} mm ({inches:.4} in) · piece {} of {count}",
                inches * 25.4,
                place + 1
            );
            assert_eq!(svg.matches(&tube).count(), 2, "on the page and on the strip itself: {tube}");
            length += number(svg, "strip-outline", "width");
            // Capitals are seven tenths of their font's size: 3 mm of at least 4.2857.
            for size in svg.split("font-size=\"").skip(1) {
                let size: f64 = size.split('"').next().unwrap().parse().unwrap();
                assert!(size >= 3.0 / 0.7, "{size}");
            }
            assert!(!svg.contains("NaN") && !svg.contains("inf") && !svg.contains("style="));
        }
        let wanted = PI * (inches * 25.4 + PAPER);
        assert!((length - wanted).abs() < WRITTEN * count as f64, "{length} where {wanted} is wanted");
    }
}

#[test]
fn its_edges_say_which_way_it_lies_and_which_one_is_on_the_face() {
    // Cut at the rear, the tube that is kept is in front of the face, and so is the strip.
    for (end, on_the_face, other) in [
        (End::Rear, "this edge toward the rear (axle) · this edge on the new face<", "(gearbox)<"),
        (End::Front, "this edge toward the front (gearbox) · this edge on the new face<", "(axle)<"),
    ] {
        let mut job = job_of("4");
        job.cut.end = end;
        for svg in strip_pages(&job).unwrap().split_inclusive("</svg>") {
            assert!(svg.contains(on_the_face) && svg.contains(other), "{end:?}");
            // The paper lies with its lower edge toward the rear.
            let (front, rear) = (down(svg, "(gearbox)"), down(svg, "(axle)"));
            let top = number(svg, "strip-outline", "y");
            let bottom = top + number(svg, "strip-outline", "height");
            assert!(top < front && front < rear && rear < bottom, "{top} {front} {rear} {bottom}");
        }
    }
}
