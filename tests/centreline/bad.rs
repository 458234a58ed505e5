//! What cannot be looked into, and why.

use shaftwright::mechanics::centreline::NotExplained;
use shaftwright::quantity::Base;

use super::*;

/// Places along a shaft of 1500 mm, all straight.
fn places(at: &[f64]) -> Vec<Place> {
    at.iter().map(|z| place(*z, vector(0.0, 0.0), 12.0)).collect()
}

const FIVE: [f64; 5] = [100.0, 400.0, 700.0, 1000.0, 1300.0];

fn ask(axis: Axis, places: &[Place]) -> Result<Explained, NotExplained> {
    explain(&shaft(1500.0, 1200.0), axis, places)
}

#[test]
fn too_few_places() {
    // By definition: two more than what the set-up leaves free.
    let all = [(Axis::Joints, 2), (vees(50.0, 1450.0), 2), (Axis::FrontJoint, 3), (Axis::Free, 4)];
    for (axis, needed) in all {
        let got = needed - 1;
        assert_eq!(ask(axis, &places(&FIVE[..got])), Err(NotExplained::TooFew { got, needed }));
        let enough = ask(axis, &places(&FIVE[..needed])).unwrap();
        // Nothing stands off, so nothing is to be explained.
        assert!(enough.straight && enough.straight_luck > 0.999 && enough.pair.is_none());
        for suspect in &enough.single {
            assert!(suspect.explains() && !suspect.is_seen() && as_millimetres(suspect.left) < 1e-12);
        }
    }
    assert_eq!(ask(Axis::Joints, &[]), Err(NotExplained::TooFew { got: 0, needed: 2 }));
}

#[test]
fn places_that_are_none() {
    let z = millimetres(400.0);
    let twice = places(&[100.0, 400.0, 900.0, 400.9]);
    assert_eq!(ask(Axis::Joints, &twice), Err(NotExplained::SamePlace { z }));
    assert!(ask(Axis::Joints, &places(&[100.0, 400.0, 900.0, 401.1])).is_ok());
    for off in [-0.1, 1500.1] {
        let found = ask(Axis::Joints, &places(&[off, 400.0, 900.0]));
        assert_eq!(found, Err(NotExplained::OffTheShaft { z: millimetres(off) }));
    }
    assert!(ask(Axis::Joints, &places(&[0.0, 400.0, 1500.0])).is_ok());
}

#[test]
fn shafts_and_vees_that_are_none() {
    for (length, weld) in
        [(1500.0, 0.0), (1500.0, 1500.0), (0.0, 0.0), (-1500.0, -100.0), (f64::INFINITY, 100.0)]
    {
        let found = explain(&shaft(length, weld), Axis::Joints, &places(&FIVE));
        assert_eq!(found, Err(NotExplained::BadGeometry), "{length} {weld}");
    }
    let none = explain(&shaft(f64::NAN, 100.0), Axis::Joints, &places(&FIVE));
    assert_eq!(none, Err(NotExplained::BadGeometry));
    for (front, rear) in
        [(-1.0, 900.0), (100.0, 1501.0), (900.0, 100.0), (500.0, 500.5), (f64::NAN, 900.0)]
    {
        assert_eq!(ask(vees(front, rear), &places(&FIVE)), Err(NotExplained::BadGeometry));
    }
}

#[test]
fn numbers_that_are_none() {
    let changed = |change: &dyn Fn(&mut Place)| {
        let mut five = places(&FIVE);
        change(&mut five[2]);
        ask(Axis::Joints, &five)
    };
    let not_finite = Err(NotExplained::NotFinite);
    assert_eq!(changed(&|place| place.z = millimetres(f64::NAN)), not_finite);
    assert_eq!(changed(&|place| place.offset = vector(0.0, f64::NAN)), not_finite);
    assert_eq!(changed(&|place| place.offset = vector(f64::INFINITY, 0.0)), not_finite);
    // Its square is beyond what a number holds.
    assert_eq!(changed(&|place| place.offset = vector(1e200, 0.0)), not_finite);
    let no_spread = Err(NotExplained::BadSpread);
    for covariance in [
        [0.0, 0.0, 0.2],
        [0.2, 0.0, -0.2],
        // Up and right go together: one direction is not told.
        [0.2, 0.2, 0.2],
        [0.2, 0.3, 0.2],
        [f64::NAN, 0.0, 0.2],
        [0.2, f64::NAN, 0.2],
        [0.2, 0.0, f64::INFINITY],
    ] {
        assert_eq!(changed(&|place| place.unit_covariance = covariance), no_spread, "{covariance:?}");
    }
    for (standard, freedom) in
        [(0.01, 0.0), (0.01, -3.0), (0.01, f64::NAN), (f64::NAN, 3.0), (-0.01, 3.0)]
    {
        let scatter = Spread { standard: millimetres(standard), freedom };
        assert_eq!(changed(&|place| place.scatter = scatter), no_spread, "{standard} {freedom}");
    }
    // One turn without scatter is luck; all without are no measurement.
    let none = Spread { standard: millimetres(0.0), freedom: 3.0 };
    assert!(changed(&|place| place.scatter = none).is_ok());
    let mut all = places(&FIVE);
    all.iter_mut().for_each(|place| place.scatter = none);
    assert_eq!(ask(Axis::Joints, &all), no_spread);
}

#[test]
fn no_number_that_is_none_comes_out() {
    // A law, over seeded luck: small and large, near and far, no result holds a number that is none.
    let mut luck = Luck(11);
    let (mut well, mut not) = (0, 0);
    for _ in 0..2000 {
        let length = 10_f64.powf(luck.between(-3.0, 9.0));
        let weld = length * luck.between(-0.05, 1.05);
        let (one, other) = (luck.between(0.0, length), luck.between(0.0, length));
        let axis = [Axis::Joints, Axis::FrontJoint, vees(one, other), Axis::Free][luck.pick(4)];
        let size = 10_f64.powf(luck.between(-20.0, 20.0));
        let freedom = [f64::INFINITY, 1.0, 3.0, 1e9][luck.pick(4)];
        let standard = millimetres(10_f64.powf(luck.between(-20.0, 20.0)));
        let many: Vec<Place> = (0..luck.pick(9))
            .map(|_| {
                let mut place = place(luck.between(-0.01, 1.01) * length, luck.vector(size), 12.0);
                place.scatter = Spread { standard, freedom };
                place
            })
            .collect();
        let Ok(found) = explain(&shaft(length, weld), axis, &many) else {
            not += 1;
            continue;
        };
        well += 1;
        let pair = found.pair.map(|pair| [pair.one, pair.other]);
        assert!((0.0..=1.0 + 1e-12).contains(&found.straight_luck));
        for suspect in found.single.iter().chain(pair.iter().flatten()) {
            let [up, right] = parts(suspect.size);
            let [there, aside] = parts(suspect.at(millimetres(length / 3.0)));
            let sizes = [suspect.circle, suspect.standard, suspect.left].map(as_millimetres);
            let kink = suspect.kink().map_or(0.0, |kink| kink.base());
            assert!([up, right, there, aside, kink, suspect.luck].iter().all(|n| n.is_finite()));
            assert!(sizes.iter().all(|n| n.is_finite() && *n >= 0.0));
            assert!((0.0..=1.0 + 1e-12).contains(&suspect.luck));
        }
    }
    assert!(well > 300 && not > 300, "{well} {not}");
}
