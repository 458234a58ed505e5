//! The mends held against what is so by construction and against every other change tried.
#![cfg(test)]

use super::super::luck::luck;
use super::*;
use crate::quantity::{as_degrees, degrees, in_inches, inches};
use Layout::{Intersecting, Parallel};

fn attitude(gearbox: (f64, f64), shaft: (f64, f64), pinion: (f64, f64)) -> Attitude {
    let lean = |(slope, plan)| Leaning { slope: degrees(slope), plan: degrees(plan) };
    let [gearbox, shaft, pinion] = [gearbox, shaft, pinion].map(lean);
    Attitude { gearbox, shaft, pinion, phase: degrees(0.0) }
}

/// A joint at the axle's own centre: the shaft stays as it is.
fn still() -> Ties {
    Ties { length: inches(50.0), slides: false, arm: inches(0.0) }
}

/// Slopes alone.
fn flat(gearbox: f64, shaft: f64, pinion: f64) -> Attitude {
    attitude((gearbox, 0.0), (shaft, 0.0), (pinion, 0.0))
}

/// Alike to the last bits: the shaft is laid anew from its direction.
fn same(one: &Attitude, other: &Attitude) -> bool {
    let slopes = |a: &Attitude| [a.gearbox, a.shaft, a.pinion].map(|lean| lean.slope.base());
    slopes(one).into_iter().zip(slopes(other)).all(|(a, b)| (a - b).abs() < 1e-14)
}

fn residual(attitude: &Attitude) -> f64 {
    attitude.line().map_or(f64::INFINITY, |line| line.peaks().pinion_gain)
}

#[test]
fn a_pinion_that_carries_its_joint_up_flattens_the_shaft() {
    // By construction: with 10 in from the axle's centre to the joint and 50 in of shaft, the nose up by
    // c lifts the joint by 10·(sin(σ + c) − sin σ). Intersecting, the pinion then leans as far from the
    // shaft as the gearbox does on the other side, found here by halving.
    let ties = Ties { length: inches(50.0), slides: true, arm: inches(10.0) };
    let (gearbox, shaft, now) = (1.0_f64, 4.0_f64, 5.5_f64);
    let (sine, start) = (|slope: f64| slope.to_radians().sin(), now);
    // A level output shaft's slide is of second order and left out: hence 0.01°.
    let falls =
        |c: f64| (sine(shaft) - 10.0 / 50.0 * (sine(start + c) - sine(start))).asin().to_degrees();
    let (mut low, mut high) = (0.0, 3.0);
    for _ in 0..60 {
        let c = (low + high) / 2.0;
        let short = (start + c - falls(c)) < (falls(c) - gearbox);
        (low, high) = if short { (c, high) } else { (low, c) };
    }
    let got = pinion(&flat(gearbox, shaft, now), Intersecting, degrees(10.0), ties).unwrap();
    assert!((as_degrees(got.change) - low).abs() < 0.01, "{} {low}", as_degrees(got.change));
    assert!(got.residual < 1e-7 && low < 1.2, "less than the 1.5° of a shaft that stays: {low}");
}

#[test]
fn pinion_in_the_side_view() {
    // By construction: parallel is the gearbox's own slope, intersecting as far on the shaft's other
    // side, and both leave nothing.
    for (gearbox, shaft, now) in
        [(3.0, 6.0, 1.0), (3.0, 6.0, 8.0), (4.0, -1.0, 2.5), (-2.0, -8.0, -3.0), (0.5, 0.0, 0.0)]
    {
        let at = flat(gearbox, shaft, now);
        for (layout, expected) in [(Parallel, gearbox), (Intersecting, 2.0 * shaft - gearbox)] {
            let got = pinion(&at, layout, degrees(20.0), still()).unwrap();
            let slope = as_degrees(got.attitude.pinion.slope);
            assert!((slope - expected).abs() < 1e-6, "{slope} against {expected}");
            assert!((as_degrees(got.change) - (expected - now)).abs() < 1e-6);
            assert!(got.residual < 1e-8 && got.residual == residual(&got.attitude));
            let only_the_slope = Attitude { pinion: at.pinion, ..got.attitude };
            assert!(same(&only_the_slope, &at) && got.attitude.pinion.plan == at.pinion.plan);
        }
    }
    // A straight front joint: both sides end at the shaft's slope.
    for layout in [Parallel, Intersecting] {
        let got = pinion(&flat(2.0, 2.0, 5.0), layout, degrees(10.0), still()).unwrap();
        assert!((as_degrees(got.change) + 3.0).abs() < 1e-6);
    }
}

#[test]
fn the_bound_is_kept() {
    // By construction: 3° to go and 2° allowed ends at the bound, with something left.
    let at = flat(3.0, 6.0, 0.0);
    let got = pinion(&at, Parallel, degrees(2.0), still()).unwrap();
    assert!((as_degrees(got.change) - 2.0).abs() < 1e-6 && got.residual > 1e-4);
    // The other side begins 6° away: no room within 5, its border within 7.
    assert!(pinion(&at, Intersecting, degrees(5.0), still()).is_none());
    let got = pinion(&at, Intersecting, degrees(7.0), still()).unwrap();
    assert!((as_degrees(got.change) - 7.0).abs() < 1e-6);
    // No change allowed is how it stands.
    let got = pinion(&at, Parallel, degrees(0.0), still()).unwrap();
    assert!(got.change.base() == 0.0 && same(&got.attitude, &at));
    for most in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(pinion(&at, Parallel, degrees(most), still()).is_none());
        assert!(gearbox(&at, Parallel, inches(20.0), inches(50.0), degrees(most)).is_none());
    }
}

#[test]
fn pinion_in_space_leaves_least() {
    // Law, over luck: of two thousand slopes on that side none leaves less; with plan angles that
    // differ the least is not nothing.
    let mut between = luck(31);
    let mut left = 0;
    for _ in 0..100 {
        let mut lean = || (between(-9.0, 9.0), between(-5.0, 5.0));
        let (ends, most) = ([lean(), lean(), lean()], 12.0);
        let mut at = attitude(ends[0], ends[1], ends[2]);
        at.phase = degrees(between(-20.0, 20.0));
        for layout in [Parallel, Intersecting] {
            let above = (ends[0].0 >= ends[1].0) == (layout == Parallel);
            let slopes = (0..=2000)
                .map(|i| ends[2].0 - most + 2.0 * most * f64::from(i) / 2000.0)
                .filter(|slope| if above { *slope >= ends[1].0 } else { *slope <= ends[1].0 });
            let best = slopes
                .map(|slope| {
                    let mut at = at;
                    at.pinion.slope = degrees(slope);
                    residual(&at)
                })
                .fold(f64::INFINITY, f64::min);
            let got = pinion(&at, layout, degrees(most), still());
            assert_eq!(got.is_some(), best.is_finite());
            let Some(got) = got else { continue };
            assert!(got.residual <= best + 1e-12, "{} against {best}", got.residual);
            assert!(as_degrees(got.change).abs() <= most + 1e-9);
            let slope = as_degrees(got.attitude.pinion.slope);
            assert!(if above { slope >= ends[1].0 - 1e-9 } else { slope <= ends[1].0 + 1e-9 });
            left += u32::from(got.residual > 1e-4);
        }
    }
    assert!(left > 50, "{left}");
}

#[test]
fn a_sharp_pinion_is_mended_too() {
    // By construction: 50° at the rear joint is no line, 3° within the bound is.
    let at = flat(3.0, 0.0, 50.0);
    assert!(at.line().is_err());
    let got = pinion(&at, Parallel, degrees(60.0), still()).unwrap();
    assert!((as_degrees(got.attitude.pinion.slope) - 3.0).abs() < 1e-6);
    assert!(pinion(&at, Parallel, degrees(4.0), still()).is_none());
    // A front joint that is too sharp no pinion can mend; nor can one that is no number be mended.
    assert!(pinion(&flat(46.0, 0.0, 3.0), Parallel, degrees(20.0), still()).is_none());
    for bad in [flat(f64::NAN, 0.0, 1.0), flat(1.0, f64::NAN, 1.0), flat(1.0, 0.0, f64::NAN)] {
        assert!(pinion(&bad, Parallel, degrees(5.0), still()).is_none());
        assert!(gearbox(&bad, Parallel, inches(9.0), inches(50.0), degrees(5.0)).is_none());
        assert!(phase(&bad).is_none());
    }
}

#[test]
fn gearbox_in_the_side_view() {
    for (gears, shaft, axle) in [(1.0, 6.0, 3.0), (4.0, -1.0, 2.0), (-3.0, -8.0, -2.0)] {
        for arm in [0.0, 20.0, 45.0] {
            let at = flat(gears, shaft, axle);
            let find = |layout: Layout| {
                let (arm, length) = (inches(arm), inches(50.0));
                gearbox(&at, layout, arm, length, degrees(25.0)).unwrap()
            };
            // By construction: parallel is the pinion's own slope, however the shaft then runs.
            let got = find(Parallel);
            assert!((as_degrees(got.attitude.gearbox.slope) - axle).abs() < 1e-6);
            assert!((as_degrees(got.change) - (axle - gears)).abs() < 1e-6);
            // Intersecting: equal angles to the shaft as it then runs.
            let other = find(Intersecting);
            let [one, mid, two] = [other.attitude.gearbox, other.attitude.shaft, other.attitude.pinion]
                .map(|lean| as_degrees(lean.slope));
            assert!((one + two - 2.0 * mid).abs() < 1e-6, "{one} {mid} {two}");
            for mend in [got, other] {
                assert!(mend.residual < 1e-8);
                // The shaft falls less by what the front joint went down: from the places of the joints.
                let turned = as_degrees(mend.attitude.gearbox.slope).to_radians();
                let down = arm * (turned.sin() - gears.to_radians().sin());
                let slope = shaft.to_radians();
                let fall = (50.0 * slope.sin() - down) / (50.0 * slope.cos());
                assert!((mend.attitude.shaft.slope.base() - fall.atan()).abs() < 1e-12);
            }
        }
    }
    // What is no arm and no length.
    let at = flat(1.0, 6.0, 3.0);
    for (arm, length) in [(-1.0, 50.0), (20.0, 0.0), (20.0, -50.0), (f64::NAN, 50.0), (20.0, f64::NAN)] {
        assert!(gearbox(&at, Parallel, inches(arm), inches(length), degrees(9.0)).is_none());
    }
}

#[test]
fn gearbox_in_space_leaves_least() {
    // Law, over luck: no change within the bound that keeps to the layout leaves less. The moved
    // shaft's direction is built here from the joints' places.
    let mut between = luck(32);
    let (mut found, most) = (0, 8.0);
    for _ in 0..60 {
        let mut lean = || (between(-9.0, 9.0), between(-4.0, 4.0));
        let at = attitude(lean(), lean(), lean());
        let (arm, length) = (between(0.0, 40.0), 50.0);
        let moved = |change: f64| {
            let mut at = at;
            let before = at.gearbox.slope.base().sin();
            at.gearbox.slope += degrees(change);
            let down = arm * (at.gearbox.slope.base().sin() - before);
            let (fall, right) = (at.shaft.slope.base().tan(), at.shaft.plan.base().tan());
            let back = length / (1.0 + fall * fall + right * right).sqrt();
            at.shaft.slope = Angle::from_base(((back * fall - down) / back).atan());
            at
        };
        // + above the shaft's slope.
        let sides = |at: &Attitude| {
            [at.gearbox, at.pinion].map(|end| (end.slope - at.shaft.slope).base() >= 0.0)
        };
        let [_, axle_above] = sides(&at);
        for layout in [Parallel, Intersecting] {
            let best = (0..=1600)
                .map(|i| moved(-most + 2.0 * most * f64::from(i) / 1600.0))
                .filter(|at| {
                    let [gears, axle] = sides(at);
                    axle == axle_above && (gears == axle) == (layout == Parallel)
                })
                .map(|at| residual(&at))
                .fold(f64::INFINITY, f64::min);
            let got = gearbox(&at, layout, inches(arm), inches(length), degrees(most));
            assert!(got.is_some() || best == f64::INFINITY);
            let Some(got) = got else { continue };
            assert!(got.residual <= best + 1e-12, "{} against {best}", got.residual);
            let expected = moved(as_degrees(got.change));
            assert!((got.attitude.shaft.slope - expected.shaft.slope).base().abs() < 1e-12);
            assert_eq!(got.attitude.shaft.plan, at.shaft.plan);
            found += 1;
        }
    }
    assert!(found > 60, "{found}");
}

#[test]
fn phase_leaves_least() {
    // By construction: in one plane, and where both joints' planes are one, it is 0.
    let mut out = flat(3.0, 6.0, 3.0);
    for (now, change) in [(10.0, -10.0), (-90.0, 90.0), (100.0, 80.0), (180.0, 0.0)] {
        out.phase = degrees(now);
        let got = phase(&out).unwrap();
        assert!(got.attitude.phase.base().abs() < 1e-12 && got.residual < 1e-12);
        assert!((as_degrees(got.change) - change).abs() < 1e-9, "{now}");
    }
    // A straight joint: as good as any, so none.
    let got = phase(&Attitude { phase: degrees(4.0), ..flat(3.0, 6.0, 6.0) }).unwrap();
    assert!(got.attitude.phase.base() == 0.0 && (as_degrees(got.change) + 4.0).abs() < 1e-9);
    // Law, over luck: of 1800 phases none leaves less.
    let mut between = luck(33);
    for _ in 0..60 {
        let mut lean = || (between(-12.0, 12.0), between(-12.0, 12.0));
        let mut at = attitude(lean(), lean(), lean());
        let got = phase(&at).unwrap();
        for i in 0..1800 {
            at.phase = degrees(f64::from(i) / 10.0);
            assert!(got.residual <= residual(&at) + 1e-13);
        }
        let phase = as_degrees(got.attitude.phase);
        assert!(phase > -90.0 && phase <= 90.0);
    }
}

#[test]
fn wedge_and_mount() {
    // Derived by the tangent table: tan 2° = 0.034921, so 3 in of pad take 0.10476 in.
    assert!((in_inches(wedge(inches(3.0), degrees(2.0))) - 0.104_76).abs() < 5e-6);
    // Law: the mount goes down by the difference of its heights, and back up by the way back.
    for (slope, change) in [(3.0, 1.0), (-2.0, 5.0), (4.0, -2.5), (0.0, 0.0)] {
        let got = in_inches(mount_drop(inches(24.0), degrees(slope), degrees(change)));
        let height = |at: f64| -24.0 * at.to_radians().sin();
        assert!((got - (height(slope) - height(slope + change))).abs() < 1e-12);
        let back = mount_drop(inches(24.0), degrees(slope + change), degrees(-change));
        assert!((in_inches(back) + got).abs() < 1e-12);
    }
}
