//! The centreline drawn magnified, read back from its own text. The shafts are made by hand.
#![cfg(test)]

use super::reader::{Piece, complaints, pieces};
use crate::drawing::centreline;
use crate::drawing::centreline::line_of;
use crate::job::{Dial, Entry, Job, sample};
use crate::quantity::{Base, Length, inches, millimetres};
use crate::stage::truing::{self, Bent};

/// The sample read at two places, in which the offset is twice as large at the second.
fn two_places() -> Job {
    let mut job = sample();
    while job.truing.places.len() > 2 {
        job.truing.drop_place();
    }
    job.put(Entry::PlaceAlong(0), "12");
    job.put(Entry::PlaceAlong(1), "40");
    for (place, size) in [(0, 3.0), (1, 6.0)] {
        for mark in 0..8_u8 {
            let reading = size * (f64::from(mark) * 45.0).to_radians().cos();
            job.put(Entry::StationReading(1, place, mark.into()), &format!("{reading:.9}"));
        }
        job.put(Entry::Closing(1, place), "");
    }
    job
}

/// A shaft of so many inches kinked at its weld by so many thousandths toward a place on the clock. What
/// the stage says of another is overwritten, for the drawing draws the shape alone.
fn kinked(length: f64, weld: f64, thousandths: f64, at: f64) -> Bent {
    let mut bent = truing::centreline(&two_places(), 1).unwrap();
    let mut offset = bent.places[0].1;
    let mut height = |z: f64| {
        let share = if z < weld { z / weld } else { (length - z) / (length - weld) };
        let (sin, cos) = at.to_radians().sin_cos();
        (offset.up, offset.right) =
            (inches(0.001 * thousandths * share * cos), inches(0.001 * thousandths * share * sin));
        offset
    };
    bent.places = [0.12, 0.3, 0.6, 0.95]
        .map(|share| share * length)
        .map(|z| (inches(z), height(z), inches(0.0008)))
        .to_vec();
    bent.shape = [0.0, weld, length].map(|z| (inches(z), height(z))).to_vec();
    (bent.length, bent.weld) = (inches(length), inches(weld));
    bent
}

fn shafts() -> Vec<(&'static str, Bent)> {
    let mut nothing = kinked(57.0, 52.0, 12.0, 60.0);
    nothing.shape.clear();
    let mut odd = kinked(57.0, 52.0, 12.0, 60.0);
    odd.places.clear();
    vec![
        ("rear", kinked(57.0, 53.5, 12.0, 60.0)),
        ("front", kinked(57.0, 3.5, 12.0, 200.0)),
        ("short", kinked(12.0, 6.0, 150.0, 300.0)),
        ("long", kinked(110.0, 60.0, 3.0, 0.0)),
        ("straight", kinked(57.0, 30.0, 0.0, 0.0)),
        ("unexplained", nothing),
        ("no-places", odd),
    ]
}

#[test]
#[ignore = "for the eye"]
fn dump() {
    let folder = std::env::temp_dir().join("shaftwright-turns");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, bent) in shafts() {
        let svg = line_of(&Job::default(), &bent).unwrap();
        std::fs::write(folder.join(format!("centreline--{name}.svg")), svg).unwrap();
    }
}

fn metric() -> Job {
    let mut job = Job::default();
    job.truing.dial = Dial::Hundredth;
    job
}

#[test]
fn it_stays_in_its_frame() {
    for (name, bent) in shafts() {
        for job in [Job::default(), metric()] {
            let svg = line_of(&job, &bent).unwrap();
            assert_eq!(complaints(&svg), Vec::<String>::new(), "{name}: {svg}");
            assert_eq!(svg, line_of(&job, &bent).unwrap());
        }
    }
}

#[test]
fn places_and_shape_stand_where_they_are_and_as_much_larger_as_it_says() {
    for (name, bent) in shafts() {
        let (_, _, all) = pieces(&line_of(&metric(), &bent).unwrap());
        let joints: Vec<(f64, f64)> =
            all.iter().filter(|p| p.tag == "circle" && p.class == "part").map(|p| p.points[0]).collect();
        assert_eq!(joints.len(), 4, "{name}");
        let along = (joints[1].0 - joints[0].0) / as_mm(bent.length);
        let words = &all.iter().find(|p| p.text.contains("times larger")).unwrap().text;
        let times: f64 = words.split(' ').find_map(|word| word.parse().ok()).unwrap();
        let dots: Vec<&Piece> =
            all.iter().filter(|p| p.tag == "circle" && p.class == "thin filled").collect();
        let shapes: Vec<&Piece> =
            all.iter().filter(|p| p.tag == "path" && p.class == "accent").collect();
        assert_eq!(dots.len(), 2 * bent.places.len(), "{name}");
        for strip in 0..2 {
            let (left, axis) = joints[2 * strip];
            // By the definition: toward 12 or 3 is up, rearward is to the right.
            let expected = |z: Length, up: Length, right: Length| {
                let part = if strip == 0 { up } else { right };
                (left + along * as_mm(z), axis - along * times * as_mm(part))
            };
            let close = |one: (f64, f64), other: (f64, f64)| {
                (one.0 - other.0).abs() < 0.3 && (one.1 - other.1).abs() < 0.3
            };
            for (dot, (z, offset, _)) in dots[strip * bent.places.len()..].iter().zip(&bent.places) {
                assert!(
                    close(dot.points[0], expected(*z, offset.up, offset.right)),
                    "{name}: {:?}",
                    dot.points
                );
            }
            for (point, (z, offset)) in shapes[strip].points.iter().zip(&bent.shape) {
                assert!(close(*point, expected(*z, offset.up, offset.right)), "{name}: {point:?}");
            }
        }
        let weld = all.iter().find(|p| p.tag == "line" && p.class == "part").unwrap();
        assert!((weld.points[0].0 - joints[0].0 - along * as_mm(bent.weld)).abs() < 0.3, "{name}");
    }
}

fn as_mm(length: Length) -> f64 {
    crate::quantity::as_millimetres(length)
}

#[test]
fn what_is_no_shaft_is_not_drawn() {
    let fine = || kinked(57.0, 52.0, 12.0, 60.0);
    let draw = |change: &dyn Fn(&mut Bent)| {
        let mut bent = fine();
        change(&mut bent);
        line_of(&Job::default(), &bent)
    };
    let none = millimetres(f64::NAN);
    assert!(draw(&|_| {}).is_some());
    assert!(draw(&|bent| bent.length = inches(0.0)).is_none());
    assert!(draw(&|bent| bent.length = none).is_none());
    assert!(draw(&|bent| bent.weld = inches(58.0)).is_none());
    assert!(draw(&|bent| bent.weld = none).is_none());
    assert!(draw(&|bent| bent.places[1].0 = inches(-1.0)).is_none());
    assert!(draw(&|bent| bent.places[1].1.up = none).is_none());
    assert!(draw(&|bent| bent.places[1].2 = none).is_none());
    assert!(draw(&|bent| bent.shape[1].1.right = none).is_none());
    assert!(draw(&|bent| bent.shape[1].0 = none).is_none());
}

#[test]
fn a_pass_is_drawn_from_two_places_on() {
    let job = two_places();
    let svg = centreline(&job, 1).unwrap();
    assert_eq!(complaints(&svg), Vec::<String>::new(), "{svg}");
    let (_, _, all) = pieces(&svg);
    let dots: Vec<(f64, f64)> = all
        .iter()
        .filter(|p| p.tag == "circle" && p.class == "thin filled")
        .map(|p| p.points[0])
        .collect();
    let axis = all.iter().find(|p| p.tag == "circle" && p.class == "part").unwrap().points[0].1;
    // By the readings: toward 12, and twice as far at the second place; nothing toward 3.
    let [one, two] = [axis - dots[0].1, axis - dots[1].1];
    assert!(one > 1.0 && (two - 2.0 * one).abs() < 0.3, "{one} {two}");
    assert!((dots[2].1 - dots[3].1).abs() < 0.1);
    let mut single = job.clone();
    single.truing.drop_place();
    assert!(truing::centreline(&single, 1).is_ok_and(|bent| bent.places[0].0.base() > 0.0));
    assert!(centreline(&single, 1).is_none() && centreline(&Job::default(), 0).is_none());
}
