//! The drawing of both yokes, read back from its own text.
#![cfg(test)]

use super::reader::{Piece, pieces};
use crate::drawing::phase;
use crate::job::{AFTER_WELDING, BEFORE_TACKING, Choice, End, Entry, Job, PhaseTarget};

fn yokes(end: End, wanted: &str, front: &str, rear: &str, sitting: usize) -> Job {
    let mut job = Job::default();
    (job.cut.end, job.phase.target) = (end, PhaseTarget::Own);
    job.put(Entry::OwnTarget, wanted);
    job.put(Entry::FrontLevel(sitting, 0), front);
    job.put(Entry::RearLevel(sitting, 0), rear);
    job
}

/// The place of a bar on the clock, in degrees from 0 up to 180.
fn bar(all: &[Piece], class: &str, longer_than: f64) -> f64 {
    let length = |p: &Piece| (p.points[0].0 - p.points[1].0).hypot(p.points[0].1 - p.points[1].1);
    let bars = all.iter().filter(|p| p.tag == "line" && p.class == class);
    let bar = bars.into_iter().find(|p| length(p) > longer_than).unwrap();
    let [(x, y), (u, v)] = [bar.points[0], bar.points[1]];
    (x - u).atan2(v - y).to_degrees().rem_euclid(180.0)
}

#[test]
fn each_yoke_stands_where_it_is_said_to_and_the_arrow_goes_home() {
    // By the conventions: level is 90° on the clock; the rear yoke's turn counts clockwise from there;
    // where the front one turns it stands the other way round. 0.8° off is drawn as 8°.
    for (end, wanted, rear, place_wanted, place_now, clockwise) in [
        (End::Rear, "0", "0.8", 90.0, 98.0, false),
        (End::Rear, "30", "29.2", 120.0, 112.0, true),
        (End::Rear, "-15", "-14.2", 75.0, 83.0, false),
        (End::Rear, "90", "-89.2", 0.0, 8.0, false),
        (End::Front, "0", "0.8", 90.0, 82.0, true),
        (End::Front, "30", "29.2", 60.0, 68.0, false),
        // Farther off it is drawn as it is.
        (End::Rear, "0", "25", 90.0, 115.0, false),
    ] {
        let svg = phase(&yokes(end, wanted, "0", rear, BEFORE_TACKING)).unwrap();
        let (_, _, all) = pieces(&svg);
        for (class, place) in [("ghost", place_wanted), ("part", place_now)] {
            let off = (bar(&all, class, 100.0) - place).rem_euclid(180.0);
            assert!(off.min(180.0 - off) < 0.1, "{wanted} {rear} {class}: {off}");
        }
        assert!((bar(&all, "thin", 60.0) - 90.0).abs() < 0.1);
        // The arrow is a path round the axis at (160, 164): from where it stands, homeward.
        let path = all.iter().find(|p| p.tag == "path" && p.class == "accent").unwrap();
        let at = |(x, y): (f64, f64)| (x - 160.0).atan2(164.0 - y).to_degrees();
        let first = (at(path.points[1]) - at(path.points[0]) + 180.0).rem_euclid(360.0) - 180.0;
        assert_eq!(first > 0.0, clockwise, "{end:?} {wanted} {rear}");
        assert_eq!(svg.contains("(×10)"), rear != "25");
    }
}

#[test]
fn welded_it_says_so_and_turns_nothing() {
    let mut job = yokes(End::Rear, "30", "0", "29", BEFORE_TACKING);
    let before = phase(&job).unwrap();
    assert!(before.contains("accent") && before.contains(">out 1.00° (×10)<"));
    job.put(Entry::FrontLevel(AFTER_WELDING, 0), "0.1");
    job.put(Entry::RearLevel(AFTER_WELDING, 0), "30.5");
    let after = phase(&job).unwrap();
    assert!(!after.contains("accent") && after.contains(">welded, out 0.40° (×10)<"));
    // Inside its own ± there is nothing to turn either.
    let unseen = phase(&yokes(End::Rear, "0", "0", "0.05", BEFORE_TACKING)).unwrap();
    assert!(!unseen.contains("accent"));
    assert!(phase(&Job::default()).is_none());
}

#[test]
fn its_words_stay_in_the_frame_and_off_each_other() {
    for (end, wanted) in End::ALL.iter().flat_map(|end| ["0", "30", "-90", "45"].map(|to| (*end, to))) {
        for (sitting, rear) in [(BEFORE_TACKING, "-0.8"), (AFTER_WELDING, "-0.8"), (AFTER_WELDING, "88")]
        {
            let (width, height, all) = pieces(&phase(&yokes(end, wanted, "0", rear, sitting)).unwrap());
            let bounds: Vec<[f64; 4]> = all.iter().map(Piece::bounds).collect();
            for (piece, [left, top, right, low]) in all.iter().zip(&bounds) {
                let inside = *left >= 0.0 && *top >= 0.0 && *right <= width && *low <= height;
                assert!(inside, "{} {}: {left} {top} {right} {low}", piece.tag, piece.text);
            }
            let texts: Vec<_> = all.iter().zip(&bounds).filter(|(p, _)| p.tag == "text").collect();
            for (i, (one, a)) in texts.iter().enumerate() {
                for (other, b) in &texts[i + 1..] {
                    let apart = a[0] >= b[2] || b[0] >= a[2] || a[1] >= b[3] || b[1] >= a[3];
                    assert!(apart, "{} lies on {}", one.text, other.text);
                }
            }
        }
    }
}

/// Writes drawings to the folder for short-lived files, to be looked at.
#[test]
#[ignore = "for the eye"]
fn dump_the_yokes() {
    let folder = std::env::temp_dir().join("shaftwright-drawings");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, end, wanted, rear, sitting) in [
        ("level", End::Rear, "0", "0.6", BEFORE_TACKING),
        ("thirty", End::Rear, "30", "29", BEFORE_TACKING),
        ("front", End::Front, "30", "32", BEFORE_TACKING),
        ("welded", End::Rear, "30", "29.5", AFTER_WELDING),
        ("far", End::Rear, "0", "50", BEFORE_TACKING),
        ("quarter", End::Rear, "90", "-89", BEFORE_TACKING),
    ] {
        let svg = phase(&yokes(end, wanted, "0", rear, sitting)).unwrap();
        std::fs::write(folder.join(format!("yokes--{name}.svg")), svg).unwrap();
    }
}
