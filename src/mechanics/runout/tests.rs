//! A turn of readings whose fit is known.
#![cfg(test)]

use super::*;
use crate::quantity::{as_thousandths, degrees, inches};

fn turn(readings: &[f64]) -> Vec<Station> {
    let step = 360.0 / readings.len() as f64;
    readings
        .iter()
        .enumerate()
        .map(|(i, r)| Station { at: degrees(step * i as f64), reading: inches(r / 1000.0) })
        .collect()
}

fn close(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() < within, "{value} against {expected}");
}

#[test]
fn eight_stations() {
    // Derived by an independent script (tests/README.md): 0,3,7,9,8,5,1,−1 at 45°: mean 4.000,
    // A1 5.047566 at 144.7356°, A2 0, s 0.171573 for the five-term fit.
    let fit = fit(&turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]), inches(0.0001)).unwrap();
    close(as_thousandths(fit.mean), 4.0, 1e-9);
    close(as_thousandths(fit.offset.size()), 5.047_566, 1e-6);
    close(as_degrees(fit.offset.at()), 144.7356, 1e-4);
    close(as_thousandths(fit.ovality.unwrap().size), 0.0, 1e-9);
    close(as_thousandths(fit.leftover.unwrap()), 0.171_573, 1e-6);
    close(as_thousandths(fit.total), 10.0, 1e-9);
    // u(A1) = s·√(2/N), t₉₅(3) = 3.182 (JCGM 100:2008 table G.2).
    close(as_thousandths(fit.offset_standard), 0.171_573 * 0.5, 1e-6);
    close(as_thousandths(fit.offset_plus_minus), 0.171_573 * 0.5 * 3.182, 5e-5);
}

#[test]
fn offset_and_ovality_told_apart() {
    // Derived by the script: 10 + 6cos(θ−50°) + 2cos2(θ−20°) at 8 stations.
    let eight = [15.38881, 17.26274, 13.06418, 9.23736, 7.67536, 5.30841, 3.87164, 8.19149];
    let got = fit(&turn(&eight), inches(0.001)).unwrap();
    close(as_thousandths(got.offset.size()), 6.0, 1e-4);
    close(as_degrees(got.offset.at()), 50.0, 1e-2);
    close(as_thousandths(got.ovality.unwrap().size), 2.0, 1e-4);
    close(as_degrees(got.ovality.unwrap().at), 20.0, 1e-2);
    // The same rounded to whole units at 12 stations: 6.0340 at 50.30°, 2.0276 at 17.36°.
    let twelve: Vec<f64> = (0..12)
        .map(|i| f64::from(i) * 30.0)
        .map(|at: f64| {
            let part = |order: f64, phase: f64| (order * (at - phase).to_radians()).cos();
            (10.0 + 6.0 * part(1.0, 50.0) + 2.0 * part(2.0, 20.0)).round()
        })
        .collect();
    let got = fit(&turn(&twelve), inches(0.001)).unwrap();
    close(as_thousandths(got.offset.size()), 6.0340, 1e-4);
    close(as_degrees(got.offset.at()), 50.30, 1e-2);
    close(as_thousandths(got.ovality.unwrap().size), 2.0276, 1e-4);
    close(as_degrees(got.ovality.unwrap().at), 17.36, 1e-2);
}

#[test]
fn few_stations_claim_little() {
    // Rule of this house: 3 or 4 stations tell order 1 alone, and the ± is the division's.
    let three = fit(&turn(&[0.0, 4.0, -2.0]), inches(0.001)).unwrap();
    assert!(three.ovality.is_none() && three.leftover.is_none());
    close(as_thousandths(three.offset_standard), (2.0_f64 / 3.0 / 12.0).sqrt(), 1e-9);
    let five = fit(&turn(&[0.0, 4.0, -2.0, 1.0, 0.0]), inches(0.001)).unwrap();
    assert!(five.ovality.is_some() && five.leftover.is_none());
    let two = fit(&turn(&[0.0, 4.0]), inches(0.001));
    assert_eq!(two, Err(NoFit::TooFew { got: 2, needed: 3 }));
}

#[test]
fn few_readings_prove_no_more_than_they_can() {
    // Rule of this house: the line is the least that a reading is known by. By hand: the eight leave
    // 0.171573 with three left over, so ν = 3·(0.288675/0.171573)⁴ = 24.04. Published: t for 95 % and
    // 24 is 2.064, F for 2 and 24 is 3.40 (any table; from memory).
    let eight = turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]);
    let got = fit(&eight, inches(0.001)).unwrap();
    let line = 1.0 / 12.0_f64.sqrt();
    assert!(as_thousandths(got.leftover.unwrap()) < line);
    close(as_thousandths(got.scatter.standard), line, 1e-12);
    close(got.scatter.freedom, 24.0416, 1e-3);
    close(as_thousandths(got.offset_plus_minus), 2.064 * line * 0.5, 0.001 * line);
    close(as_thousandths(got.offset_circle), (2.0_f64 * 3.40).sqrt() * line * 0.5, 0.002 * line);
    // With one or two left over a small scatter proves nothing.
    let seven = turn(&[0.0, 3.0, 6.0, 7.0, 5.0, 2.0, -1.0]);
    let got_of_seven = fit(&seven, inches(0.001)).unwrap();
    assert!(as_thousandths(got_of_seven.leftover.unwrap()) < line);
    close(got_of_seven.scatter.freedom, 2.0, 1e-12);
    // Even marks know each direction alike, and no direction leans on another.
    for (value, expected) in got.unit_covariance.into_iter().zip([0.25, 0.0, 0.25]) {
        close(value, expected, 1e-12);
    }
    close(as_thousandths(got.ellipse.short), as_thousandths(got.offset_circle), 1e-12);
    // Five and fewer: the line alone.
    for few in [&[0.0, 4.0, -2.0][..], &[0.0, 6.0, 9.0, 2.0], &[0.0, 4.0, -2.0, 1.0, 0.0]] {
        let got = fit(&turn(few), inches(0.001)).unwrap();
        close(as_thousandths(got.scatter.standard), line, 1e-12);
        assert!(got.scatter.freedom.is_infinite());
    }
}

#[test]
fn some_set_aside() {
    // By construction: what is set aside changes nothing, whatever stands there; a place beyond the
    // last, or named twice, changes nothing either.
    let whole = turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]);
    let mut lifted = whole.clone();
    lifted[2].reading = inches(f64::NAN);
    lifted[7].reading = inches(0.5);
    let got = fit_without(&lifted, &[7, 2, 99, 2], inches(0.001)).unwrap();
    let kept: Vec<Station> = [0, 1, 3, 4, 5, 6].map(|i| whole[i]).to_vec();
    let by_itself = fit(&kept, inches(0.001)).unwrap();
    assert_eq!(got.aside, [2, 7]);
    assert_eq!(RunOut { aside: Vec::new(), ..got }, by_itself);
    let none = fit_without(&whole, &[0, 1, 2, 3, 4, 5], inches(0.001));
    assert_eq!(none, Err(NoFit::TooFew { got: 2, needed: 3 }));
}

#[test]
fn no_number_gets_in_or_out() {
    let line = inches(0.001);
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut stations = turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]);
        stations[3].reading = inches(bad);
        assert_eq!(fit(&stations, line), Err(NoFit::NoNumber));
        let mut stations = turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]);
        stations[0].at = degrees(bad);
        assert_eq!(fit(&stations, line), Err(NoFit::NoNumber));
        assert_eq!(fit(&turn(&[0.0, 4.0, -2.0]), inches(bad)), Err(NoFit::NoNumber));
    }
    assert_eq!(fit(&turn(&[0.0, 4.0, -2.0]), inches(-0.001)), Err(NoFit::NoNumber));
    // So large that squares overflow.
    let huge: Vec<Station> = turn(&[1e200, 0.0, -1e200, 1e199, 0.0, 1e200, 3.0, 0.0]);
    assert_eq!(fit(&huge, line), Err(NoFit::NoNumber));
}

#[test]
fn the_long_axis_points_where_little_is_known() {
    // By symmetry: marks near 3 and 9 o'clock alone tell right from left and hardly up from down.
    let places = [70.0, 80.0, 90.0, 100.0, 110.0, 250.0, 260.0, 270.0, 280.0, 290.0];
    let at = |at: f64| Station { at: degrees(at), reading: inches(0.0) };
    let got = fit(&places.map(at), inches(0.001)).unwrap();
    // 0° and 180° are one axis.
    close((2.0 * got.ellipse.at.base()).cos(), 1.0, 1e-9);
    assert!(got.ellipse.long.base() > 2.0 * got.ellipse.short.base());
    let (long, short) = (as_thousandths(got.ellipse.long), as_thousandths(got.ellipse.short));
    let toward = |size: f64, at: f64| Across::toward(inches(size / 1000.0), degrees(at));
    assert!(got.holds(toward(0.99 * long, 0.0)) && !got.holds(toward(1.01 * long, 180.0)));
    assert!(got.holds(toward(0.99 * short, 270.0)) && !got.holds(toward(1.01 * short, 90.0)));
}

#[test]
fn laws_of_a_turn() {
    // Laws: a pure offset e reads 2e (ASME Y14.5); turning the tube turns the answer; the dial's
    // zero changes nothing.
    let pure = |turned: f64, zero: f64| -> Vec<Station> {
        (0..16)
            .map(|i| {
                let at = f64::from(i) * 22.5;
                let reading = zero + 6.0 * (at - turned).to_radians().cos();
                Station { at: degrees(at), reading: inches(reading / 1000.0) }
            })
            .collect()
    };
    for (turned, zero) in [(0.0, 0.0), (90.0, 25.0), (202.5, -400.0)] {
        let got = fit(&pure(turned, zero), inches(0.001)).unwrap();
        close(as_thousandths(got.total), 12.0, 1e-9);
        close(as_thousandths(got.offset.size()), 6.0, 1e-9);
        close(as_degrees(got.offset.at()), turned, 1e-7);
    }
}

#[test]
fn bad_turns() {
    let mut same = turn(&[1.0, 2.0, 3.0, 4.0]);
    same[3].at = degrees(0.2);
    assert!(matches!(fit(&same, inches(0.001)), Err(NoFit::SamePlace { .. })));
    let close_by: Vec<Station> =
        (0..3).map(|i| Station { at: degrees(f64::from(i)), reading: inches(0.001) }).collect();
    // Three stations within two degrees still have a solution, with a ± that says it all.
    let got = fit(&close_by, inches(0.001)).unwrap();
    assert!(!got.offset_is_seen());
}
