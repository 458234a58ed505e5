//! The tube from the rear and the passes one after the other, read back from their own text.
#![cfg(test)]

use super::reader::{Piece, complaints, pieces};
use super::turns::{end, jobs, last, long, read};
use crate::drawing::history;
use crate::job::{Job, PassKind, Stations};
use crate::quantity::as_thousandths;
use crate::stage::truing::turn;

const CENTRE: (f64, f64) = (160.0, 164.0);

/// How far from the face's centre, and where on the clock in degrees.
fn polar((x, y): (f64, f64)) -> (f64, f64) {
    let (right, up) = (x - CENTRE.0, CENTRE.1 - y);
    (right.hypot(up), right.atan2(up).to_degrees().rem_euclid(360.0))
}

#[test]
fn readings_are_radii_and_the_circle_is_off_by_the_offset() {
    // By the definition of the offset: 6 lines toward 3, so the high side is 3 o'clock and the tube's
    // centre stands off to the right.
    let job = read(Stations::Four, &[(PassKind::Tacked, &["0", "6", "0", "-6"])]);
    let (_, _, all) = pieces(&end(&job, 0));
    let rings: Vec<&Piece> = all.iter().filter(|p| p.tag == "circle").collect();
    let truly = rings.iter().find(|p| p.class == "ghost").unwrap();
    let off = rings.iter().find(|p| p.class == "accent" && p.radius == truly.radius).unwrap();
    let (moved, at) = polar(off.points[0]);
    assert!((at - 90.0).abs() < 0.5 && moved > 10.0, "{moved} {at}");
    let dots: Vec<(f64, f64)> = rings
        .iter()
        .filter(|p| p.class == "thin filled" && p.radius == 4.0)
        .map(|p| polar(p.points[0]))
        .collect();
    for (dot, (radius, at)) in
        dots.iter().zip([(0.0, 0.0), (moved, 90.0), (0.0, 180.0), (-moved, 270.0)])
    {
        // A tenth of a unit is what the text keeps of each coordinate.
        assert!((dot.0 - truly.radius - radius).abs() < 0.2, "{dot:?}");
        assert!((dot.1 - at).abs() < 0.2 || dot.1 > 359.8, "{dot:?}");
    }
    assert_eq!(dots.len(), 4);
    // The magnification said is the one drawn: the tube of 3 in is drawn `2·62` units wide.
    let words = all.iter().find(|p| p.text.contains("times larger")).unwrap().text.clone();
    let times: f64 = words.split(' ').find_map(|word| word.parse().ok()).unwrap();
    let drawn = moved / 0.006 / (2.0 * truly.radius / 3.0);
    assert!((drawn / times - 1.0).abs() < 0.01, "{words}: {drawn}");
    // The mark of the high side stands there on the rim, and the arrow goes from it to the centre.
    let high = rings.iter().find(|p| p.class == "accent filled").unwrap();
    assert!((polar(high.points[0]).1 - 90.0).abs() < 0.1);
    let arrow = all.iter().find(|p| p.tag == "line" && p.class == "accent").unwrap();
    let [from, to] = [polar(arrow.points[0]), polar(arrow.points[1])];
    assert!(from.0 > to.0 && (from.1 - 90.0).abs() < 0.2 && (to.1 - 90.0).abs() < 0.2);
    assert!(all.iter().any(|p| p.text == "high at 3:00 (90°)"));
    // Welded, the high side is shown and nothing is to be moved.
    let job = read(Stations::Four, &[(PassKind::Welded, &["0", "6", "0", "-6"])]);
    let svg = end(&job, 0);
    assert!(svg.contains("high at 3:00") && !svg.contains("<line class=\"accent\""));
    assert!(svg.contains("<circle class=\"accent filled\""));
}

#[test]
fn the_small_ring_holds_the_face_centre_only_where_no_offset_is_seen() {
    for (readings, seen) in [(["0", "6", "0", "-6"], true), (["0", "0.5", "0", "0"], false)] {
        let job = read(Stations::Four, &[(PassKind::Tacked, &readings)]);
        let (_, _, all) = pieces(&end(&job, 0));
        let ring = all.iter().find(|p| p.tag == "path" && p.class == "accent").unwrap().bounds();
        let holds = ring[0] < CENTRE.0 && CENTRE.0 < ring[2] && ring[1] < CENTRE.1 && CENTRE.1 < ring[3];
        assert_eq!(holds, !seen);
        assert_eq!(all.iter().any(|p| p.text == "no high side to be seen"), !seen);
        assert_eq!(all.iter().any(|p| p.tag == "line" && p.class == "accent"), seen);
    }
    // Three marks fit any circle, and marks unread may hide the high side: none is shown.
    for job in ["three", "six"] {
        let job = jobs().into_iter().find(|named| named.0 == job).unwrap().1;
        let svg = end(&job, last(&job));
        assert!(svg.contains("not yet known") && !svg.contains("<line class=\"accent\""));
    }
}

#[test]
fn end_view_and_history_stay_in_their_frames() {
    let mut seen = 0;
    for (name, job) in jobs() {
        let svg = end(&job, last(&job));
        // The rings of the face lie in each other; no number stands in one.
        let mut wrong = complaints(&svg);
        wrong.retain(|wrong| !wrong.starts_with("two numbers"));
        assert_eq!(wrong, Vec::<String>::new(), "end view of {name}");
        assert_eq!(svg, end(&job, last(&job)));
        if let Some(svg) = history(&job, 0) {
            seen += 1;
            assert_eq!(complaints(&svg), Vec::<String>::new(), "history of {name}");
            assert_eq!(svg, history(&job, 0).unwrap());
        }
    }
    assert!(seen > 10, "{seen}");
    assert!(history(&Job::default(), 0).is_none());
}

// ---- the passes one after the other -----------------------------------------------------------------

#[test]
fn the_line_goes_down_with_the_offset_and_says_when() {
    let job = long(6);
    let svg = history(&job, 0).unwrap();
    let (_, _, all) = pieces(&svg);
    let line = all.iter().find(|p| p.tag == "path" && p.class == "thin" && p.points.len() == 6).unwrap();
    let upright: Vec<(f64, f64)> = all
        .iter()
        .filter(|p| p.tag == "text" && p.anchor == "end")
        .filter_map(|p| Some((p.text.parse::<f64>().ok()?, p.points[0].1 - 7.0)))
        .collect();
    let (low, high) = (upright[0], *upright.last().unwrap());
    for (pass, (_, y)) in line.points.iter().enumerate() {
        let size = as_thousandths(turn(&job, pass, 0).unwrap().run_out.offset.size());
        let expected = low.1 + (high.1 - low.1) * (size - low.0) / (high.0 - low.0);
        assert!((y - expected).abs() < 0.2, "{pass}: {y} {expected}");
    }
    assert!(line.points.windows(2).all(|pair| pair[1].1 > pair[0].1), "better is lower");
    // As the job has it: nine minutes from pass to pass.
    let row = |y: f64| {
        let in_row = |p: &&Piece| p.tag == "text" && p.anchor == "middle" && p.points[0].1 == y;
        all.iter().filter(in_row).map(|p| p.text.as_str()).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(row(253.0), "1 2 3 4 5 6");
    assert_eq!(row(280.0), "0 9 18 27 36 45");
    // The limit is of the total reading, which shows an offset twice: 0.010 in, so 5.
    let level = all.iter().find(|p| p.tag == "line" && p.class == "ghost").unwrap().points[0].1;
    let expected = low.1 + (high.1 - low.1) * (5.0 - low.0) / (high.0 - low.0);
    assert!((level - expected).abs() < 0.2 && svg.contains(">limit 5<"));
    // Two of each kind, and one of each in the key.
    let count = |is: &dyn Fn(&Piece) -> bool| all.iter().filter(|p| is(p)).count();
    assert_eq!(count(&|p| p.tag == "circle" && p.class == "accent"), 3);
    assert_eq!(count(&|p| p.tag == "path" && p.class == "accent" && p.points.len() == 5), 3);
    assert_eq!(count(&|p| p.tag == "path" && p.class == "accent filled"), 3);
}
