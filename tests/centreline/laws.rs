//! Laws of a centreline: the clock, the set-up, the order of reading, the unit, the two ends.

use shaftwright::mechanics::centreline::Suspect;
use shaftwright::quantity::{Angle, Base, degrees};

use super::*;

pub const LENGTH: f64 = 1400.0;
pub const WELD: f64 = 1100.0;
/// Places on both sides of the weld.
pub const PLACES: [f64; 7] = [90.0, 300.0, 520.0, 760.0, 1030.0, 1180.0, 1330.0];

pub fn axes() -> [Axis; 4] {
    [Axis::Joints, Axis::FrontJoint, vees(150.0, 1250.0), Axis::Free]
}

/// A set-up as it is after every length has grown `by`.
fn grown(axis: Axis, by: f64) -> Axis {
    match axis {
        Axis::Vees { front, rear } => Axis::Vees { front: front * by, rear: rear * by },
        other => other,
    }
}

/// Offsets of a few causes and luck, read with unlike covariances.
fn thrown(luck: &mut Luck) -> Vec<Place> {
    let sizes = Cause::ALL.map(|cause| {
        let most = if luck.below_one() < 0.4 { 0.3 } else { 0.0 };
        (cause, luck.vector(most))
    });
    PLACES
        .iter()
        .map(|z| {
            let mut offset = luck.vector(0.02);
            for (cause, size) in sizes {
                offset = offset + size.scaled(handbook(cause, LENGTH, WELD, *z));
            }
            let mut place = place(*z, offset, 12.0);
            let (up, right) = (luck.between(0.1, 0.6), luck.between(0.1, 0.6));
            place.unit_covariance = [up, luck.between(-0.7, 0.7) * (up * right).sqrt(), right];
            place.scatter.standard = millimetres(luck.between(0.005, 0.03));
            place
        })
        .collect()
}

pub fn ask(axis: Axis, places: &[Place]) -> Explained {
    explain(&shaft(LENGTH, WELD), axis, places).unwrap()
}

pub fn alike(one: Length, other: Length, what: &str) {
    let (one, other) = (as_millimetres(one), as_millimetres(other));
    assert!((one - other).abs() < 1e-9, "{what}: {one} against {other}");
}

/// Whether two answers are one: `change` turns a suspect's cause and size into what the other must have,
/// whose lengths are all `by` times as large.
fn same(
    one: &Explained,
    other: &Explained,
    by: f64,
    change: &dyn Fn(&Suspect) -> (Cause, Across<Length>),
) {
    assert_eq!((one.straight, one.pairs), (other.straight, other.pairs));
    assert!((one.straight_luck - other.straight_luck).abs() < 1e-9);
    assert_eq!(one.cannot_show.len(), other.cannot_show.len());
    let members = |found: &Explained| found.pair.map(|pair| [pair.one, pair.other]);
    let (one_pair, other_pair) = (members(one), members(other));
    assert_eq!(one_pair.is_some(), other_pair.is_some());
    let lists = [
        (&one.single[..], &other.single[..]),
        (one_pair.as_slice().as_flattened(), other_pair.as_slice().as_flattened()),
    ];
    for (list, others) in lists {
        assert_eq!(list.len(), others.len());
        for suspect in list {
            let (cause, size) = change(suspect);
            let twin = others.iter().find(|twin| twin.cause == cause).unwrap();
            let what = format!("{cause:?}");
            alike((twin.size - size.scaled(by)).size(), millimetres(0.0), &what);
            alike(twin.circle, suspect.circle * by, &what);
            alike(twin.standard, suspect.standard * by, &what);
            alike(twin.left, suspect.left * by, &what);
            assert!((twin.luck - suspect.luck).abs() < 1e-9, "{what}");
        }
    }
}

fn unchanged(suspect: &Suspect) -> (Cause, Across<Length>) {
    (suspect.cause, suspect.size)
}

/// The covariance of a vector that has been turned clockwise.
fn turned([up, both, right]: [f64; 3], by: Angle) -> [f64; 3] {
    let (s, c) = by.base().sin_cos();
    [
        c * c * up - 2.0 * c * s * both + s * s * right,
        c * s * (up - right) + (c * c - s * s) * both,
        s * s * up + 2.0 * c * s * both + c * c * right,
    ]
}

#[test]
fn clock_order_and_unit() {
    let mut luck = Luck(3);
    let mut pairs = 0;
    for _ in 0..40 {
        let places = thrown(&mut luck);
        let by = degrees(luck.between(0.0, 360.0));
        let turned: Vec<Place> = places
            .iter()
            .map(|place| Place {
                offset: place.offset.turned(by),
                unit_covariance: turned(place.unit_covariance, by),
                ..*place
            })
            .collect();
        let mut shuffled = places.clone();
        shuffled.reverse();
        shuffled.rotate_left(luck.pick(7));
        let (k, unit) = (luck.between(0.2, 5.0), luck.between(0.2, 5.0));
        let larger: Vec<Place> = places
            .iter()
            .map(|place| Place {
                z: place.z * k,
                offset: place.offset.scaled(k),
                scatter: Spread { standard: place.scatter.standard * k, ..place.scatter },
                ..*place
            })
            .collect();
        // What a reading's variance is put into, the covariance or the scatter, is all one.
        let other_unit: Vec<Place> = places
            .iter()
            .map(|place| Place {
                unit_covariance: place.unit_covariance.map(|cell| cell / (unit * unit)),
                scatter: Spread { standard: place.scatter.standard * unit, ..place.scatter },
                ..*place
            })
            .collect();
        for axis in axes() {
            let found = ask(axis, &places);
            pairs += found.pairs;
            let on_the_clock = |suspect: &Suspect| (suspect.cause, suspect.size.turned(by));
            same(&found, &ask(axis, &turned), 1.0, &on_the_clock);
            same(&found, &ask(axis, &shuffled), 1.0, &unchanged);
            same(&found, &ask(axis, &other_unit), 1.0, &unchanged);
            let shaft = shaft(LENGTH * k, WELD * k);
            same(&found, &explain(&shaft, grown(axis, k), &larger).unwrap(), k, &unchanged);
        }
    }
    assert!(pairs > 20, "{pairs}");
}

#[test]
fn how_the_shaft_was_held_says_nothing_of_it() {
    let mut luck = Luck(4);
    for _ in 0..40 {
        let places = thrown(&mut luck);
        let (start, gain) = (luck.vector(3.0), luck.vector(3.0));
        let moved = |start: Across<Length>| -> Vec<Place> {
            let rigid = |z: Length| start + gain.scaled(as_millimetres(z) / LENGTH);
            places
                .iter()
                .map(|place| Place { offset: place.offset + rigid(place.z), ..*place })
                .collect()
        };
        let pairs = [(Axis::FrontJoint, Across::zero()), (Axis::Free, start)];
        for (axis, start) in pairs {
            let (found, other) = (ask(axis, &places), ask(axis, &moved(start)));
            same(&found, &other, 1.0, &unchanged);
            // What is drawn is moved along.
            for (one, two) in found.single.iter().zip(&other.single) {
                for z in [0.0, 333.0, LENGTH] {
                    let by = start + gain.scaled(z / LENGTH);
                    let z = millimetres(z);
                    alike((two.at(z) - one.at(z) - by).size(), millimetres(0.0), "drawn");
                }
            }
        }
        // About its joints a shaft that lies aslant is bent.
        let lies = ask(Axis::Joints, &moved(start));
        assert!(lies.straight_luck < 1e-6 && !lies.straight);
    }
}

#[test]
fn seen_from_the_other_end() {
    // Law: front and rear change places, and the piece that stands high at a step.
    let mut luck = Luck(6);
    for _ in 0..40 {
        let places = thrown(&mut luck);
        let mirrored: Vec<Place> =
            places.iter().map(|place| Place { z: millimetres(LENGTH) - place.z, ..*place }).collect();
        let swapped = |suspect: &Suspect| match suspect.cause {
            Cause::Step => (Cause::Step, -suspect.size),
            Cause::FrontYoke => (Cause::RearYoke, suspect.size),
            Cause::RearYoke => (Cause::FrontYoke, suspect.size),
            same => (same, suspect.size),
        };
        let axes = [
            (Axis::Joints, Axis::Joints),
            (vees(150.0, 1250.0), vees(150.0, 1250.0)),
            (vees(100.0, 1250.0), vees(150.0, 1300.0)),
            (Axis::Free, Axis::Free),
        ];
        for (axis, other) in axes {
            let found = explain(&shaft(LENGTH, LENGTH - WELD), other, &mirrored).unwrap();
            same(&ask(axis, &places), &found, 1.0, &swapped);
        }
    }
}
