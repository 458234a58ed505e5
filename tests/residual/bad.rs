//! What cannot be a shaft or a reading, each by the definition of its range.

use shaftwright::mechanics::residual::{NoResidual, residual};

use super::*;

fn good() -> Body<'static> {
    body(1400.0, 100.0, 1300.0, 6000.0, &[])
}

fn at(z: f64) -> Point {
    point(z, offset(0.1, 0.0), 0.01, 7.0)
}

#[test]
fn bodies() {
    for (length, from, to, tube) in [
        (f64::NAN, 100.0, 1300.0, 6000.0),
        (f64::INFINITY, 100.0, 1300.0, 6000.0),
        (1400.0, -1.0, 1300.0, 6000.0),
        (1400.0, 100.0, 1401.0, 6000.0),
        (1400.0, 100.0, 100.0, 6000.0),
        (1400.0, f64::NAN, 1300.0, 6000.0),
        (0.0, 0.0, 0.0, 6000.0),
        (1400.0, 100.0, 1300.0, -1.0),
        (1400.0, 100.0, 1300.0, f64::NAN),
        (1400.0, 100.0, 1300.0, f64::INFINITY),
    ] {
        let got = residual(&body(length, from, to, tube, &[]), &[]);
        assert_eq!(got, Err(NoResidual::BadBody), "{length} {from} {to} {tube}");
    }
    for mass in [-1.0, f64::NAN, f64::INFINITY] {
        let lumps = [lump(mass, 50.0, offset(0.0, 0.0))];
        assert_eq!(residual(&Body { lumps: &lumps, ..good() }, &[]), Err(NoResidual::BadBody));
    }
    for z in [-1.0, 1401.0] {
        let lumps = [lump(100.0, z, offset(0.0, 0.0))];
        let got = residual(&Body { lumps: &lumps, ..good() }, &[]);
        assert_eq!(got, Err(NoResidual::OffTheShaft { z: millimetres(z) }));
    }
    let lumps = [lump(100.0, 50.0, offset(f64::NAN, 0.0))];
    assert_eq!(residual(&Body { lumps: &lumps, ..good() }, &[]), Err(NoResidual::NotFinite));
}

#[test]
fn places() {
    for z in [0.0, 1400.0, -5.0, 2000.0] {
        let got = residual(&good(), &[at(z)]);
        assert_eq!(got, Err(NoResidual::OffTheShaft { z: millimetres(z) }));
    }
    // The rearward of two is named, in whatever order they come.
    for pair in [[400.0, 400.5], [400.5, 400.0]] {
        let got = residual(&good(), &pair.map(at));
        assert_eq!(got, Err(NoResidual::SamePlace { z: millimetres(400.5) }));
    }
    assert!(residual(&good(), &[at(0.2), at(400.0), at(1399.9)]).is_ok());
    for bad in [
        point(f64::NAN, offset(0.1, 0.0), 0.01, 7.0),
        point(400.0, offset(f64::NAN, 0.0), 0.01, 7.0),
        point(400.0, offset(0.1, 0.0), f64::NAN, 7.0),
        point(400.0, offset(0.1, 0.0), -0.01, 7.0),
        point(400.0, offset(0.1, 0.0), 0.01, 0.0),
        point(400.0, offset(0.1, 0.0), 0.01, f64::NAN),
        point(400.0, offset(1e308, 0.0), 0.01, 7.0),
    ] {
        let heavy = Body { tube: grams(1e30), ..good() };
        assert_eq!(residual(&heavy, &[bad]), Err(NoResidual::NotFinite), "{bad:?}");
    }
}

#[test]
fn weights_that_cannot_stand() {
    let shares = residual(&good(), &[at(700.0)]).unwrap().shares();
    let ask = |one: f64, other: f64, radius: f64| {
        cancelled(shares, &good(), [one, other].map(millimetres), millimetres(radius))
    };
    assert!(ask(100.0, 1300.0, 40.0).is_some() && ask(1300.0, 100.0, 40.0).is_some());
    for (one, other, radius) in [
        (99.0, 1300.0, 40.0),
        (100.0, 1301.0, 40.0),
        (700.0, 700.5, 40.0),
        (f64::NAN, 700.0, 40.0),
        (200.0, 700.0, 0.0),
        (200.0, 700.0, -40.0),
        (200.0, 700.0, f64::NAN),
    ] {
        assert!(ask(one, other, radius).is_none(), "{one} {other} {radius}");
    }
}
