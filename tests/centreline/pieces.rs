//! The handbook's pieces one by one and two by two, a fit by hand, what cannot be told apart.

use shaftwright::mechanics::centreline::opening;
use shaftwright::quantity::Base;

use super::laws::{LENGTH, PLACES, WELD, alike, ask, axes};
use super::*;

#[test]
fn the_handbooks_pieces_come_back() {
    // Handbook of this house, each cause's offset along the shaft (`handbook`); read without noise, nothing is
    // left of it and it is drawn where it was.
    let wanted = vector(0.25, -0.12);
    for cause in Cause::ALL {
        let made = |z: f64| wanted.scaled(handbook(cause, LENGTH, WELD, z));
        let places = PLACES.map(|z| place(z, made(z), 12.0));
        for axis in axes() {
            let vees = matches!(axis, Axis::Vees { .. });
            let hidden = match cause {
                Cause::FrontYoke => vees || axis == Axis::Free,
                Cause::RearYoke => axis != Axis::Joints,
                _ => false,
            };
            // On vees the tube is read off their line.
            let seen = |z: f64| match vees {
                true => {
                    made(z) - made(150.0) - (made(1250.0) - made(150.0)).scaled((z - 150.0) / 1100.0)
                }
                false => made(z),
            };
            let places = places.map(|one| Place { offset: seen(as_millimetres(one.z)), ..one });
            let found = ask(axis, &places);
            assert_eq!(found.cannot_show.contains(&cause), hidden, "{cause:?} {axis:?}");
            if hidden {
                // What cannot be told is not taken for bent.
                assert!(found.straight && found.straight_luck > 1.0 - 1e-9);
                continue;
            }
            let alone = found.single[0];
            assert!(!found.straight && alone.cause == cause && alone.explains(), "{cause:?} {axis:?}");
            alike((alone.size - wanted).size(), millimetres(0.0), "size");
            assert!(as_millimetres(alone.left) < 1e-12 && alone.luck > 1.0 - 1e-9);
            for z in [0.0, 10.0, 640.0, 1090.0, 1110.0, 1399.0] {
                alike((alone.at(millimetres(z)) - seen(z)).size(), millimetres(0.0), "drawn");
            }
        }
    }
}

#[test]
fn by_hand() {
    // Derived by hand: about the joints, a front yoke off by e shows e·(1 − z/L). Read at a quarter and at
    // half of the length by eight even marks, s = 0.01 and 3 degrees of freedom each: e = Σf·c/Σf², f = 3/4
    // and 1/2, so (0.75·0.4 + 0.5·0.2)/(13/16) = 0.492308; u = 0.01·√(2/8/(13/16)) = 0.0055470; its circle
    // √(6·(0.05^(−1/3) − 1)) = 3.207258 of it; left 0.0307692 and −0.0461538, so √(0.0030769/2) = 0.0392232
    // and F = (0.0030769/(2/8)/2)/0.01² = 61.538, of which (1 + 61.538/3)^(−3) = 1.0044e-4 is luck.
    let two = [place(400.0, vector(0.4, 0.0), 8.0), place(800.0, vector(0.2, 0.0), 8.0)];
    let found = explain(&shaft(1600.0, 1500.0), Axis::Joints, &two).unwrap();
    let yoke = found.single.iter().find(|suspect| suspect.cause == Cause::FrontYoke).unwrap();
    let close = |value: f64, expected: f64, within: f64| {
        assert!((value - expected).abs() < within, "{value} against {expected}");
    };
    close(as_millimetres(yoke.size.up), 0.492_308, 5e-7);
    close(as_millimetres(yoke.standard), 0.005_547_0, 5e-8);
    close(as_millimetres(yoke.circle) / as_millimetres(yoke.standard), 3.207_258, 5e-7);
    close(as_millimetres(yoke.left), 0.039_223_2, 5e-8);
    close(yoke.luck, 1.0044e-4, 5e-9);
    // With the dial's lines instead, luck is e^(−F) for two degrees of freedom: e^(−61.538) = 1.88e-27; and
    // two lines of 0.006 and 0.008 are one of √((0.006² + 0.008²)/2) = 0.0070711.
    let lined = |standard: f64| Spread { standard: millimetres(standard), freedom: f64::INFINITY };
    let known = two.map(|place| Place { scatter: lined(0.01), ..place });
    let found = explain(&shaft(1600.0, 1500.0), Axis::Joints, &known).unwrap();
    let yoke = found.single.iter().find(|suspect| suspect.cause == Cause::FrontYoke).unwrap();
    close(yoke.luck / (-61.538_46_f64).exp(), 1.0, 1e-4);
    let unlike = [Place { scatter: lined(0.006), ..two[0] }, Place { scatter: lined(0.008), ..two[1] }];
    let found = explain(&shaft(1600.0, 1500.0), Axis::Joints, &unlike).unwrap();
    close(as_millimetres(found.scatter.standard), 0.007_071_1, 5e-8);
    assert!(found.scatter.freedom.is_infinite());
    // A turn whose scatter was told counts, a line beside it does not.
    let found = explain(&shaft(1600.0, 1500.0), Axis::Joints, &[two[0], unlike[1]]).unwrap();
    close(as_millimetres(found.scatter.standard), 0.01, 1e-12);
    close(found.scatter.freedom, 3.0, 1e-12);
}

#[test]
fn what_stands_behind_the_weld_cannot_be_told_apart() {
    // Law: behind the weld a kink, a step and a front yoke all fall in a straight line to the rear joint.
    let weld = 80.0;
    let behind = PLACES.map(|z| place(z, vector(0.0, 0.5).scaled(1.0 - z / LENGTH), 12.0));
    let found = explain(&shaft(LENGTH, weld), Axis::Joints, &behind).unwrap();
    let possible: Vec<Cause> = found.possible().map(|suspect| suspect.cause).collect();
    assert_eq!(possible, [Cause::Kink, Cause::Step, Cause::FrontYoke]);
    // Freely held, that straight line is nothing.
    let free = explain(&shaft(LENGTH, weld), Axis::Free, &behind).unwrap();
    assert!(free.straight && free.cannot_show.len() == 4);
    // One turn on the neck before it tells them apart.
    let neck = place(40.0, vector(0.0, 0.5).scaled(1.0 - 40.0 / LENGTH), 12.0);
    let with_neck: Vec<Place> = behind.into_iter().chain([neck]).collect();
    let found = explain(&shaft(LENGTH, weld), Axis::Joints, &with_neck).unwrap();
    assert_eq!(found.possible().map(|suspect| suspect.cause).collect::<Vec<_>>(), [Cause::FrontYoke]);
}

#[test]
fn two_causes() {
    // By construction: a kink and a bow, told by seven places about the joints.
    let (kink, bow) = (vector(0.3, 0.1), vector(-0.2, 0.25));
    let made = |z: f64| {
        kink.scaled(handbook(Cause::Kink, LENGTH, WELD, z))
            + bow.scaled(handbook(Cause::Bow, LENGTH, WELD, z))
    };
    let places = PLACES.map(|z| place(z, made(z), 12.0));
    let found = ask(Axis::Joints, &places);
    assert!(!found.straight && found.possible().next().is_none());
    let pair = found.pair.unwrap();
    assert_eq!((pair.one.cause, pair.other.cause), (Cause::Kink, Cause::Bow));
    alike((pair.one.size - kink).size(), millimetres(0.0), "kink");
    alike((pair.other.size - bow).size(), millimetres(0.0), "bow");
    alike((pair.at(millimetres(640.0)) - made(640.0)).size(), millimetres(0.0), "drawn");
    assert!(pair.one.luck > 1.0 - 1e-9 && pair.other.kink().is_none());
    // Two places leave nothing for doubt once two causes are asked for.
    assert!(ask(Axis::Joints, &places[..2]).pair.is_none());
}

#[test]
fn the_joint_opens_by_the_kink() {
    // Law: whatever place of a kinked tube is to be brought in, the joint opens by the same κ·D; and at the
    // weld the suspect's own angle is that κ.
    let wanted = vector(0.4, 0.3);
    let places = PLACES.map(|z| place(z, wanted.scaled(handbook(Cause::Kink, LENGTH, WELD, z)), 12.0));
    let kink = ask(Axis::Joints, &places).single[0];
    // Derived by hand: 0.5·1400/(1100·300) = 0.00212121 rad, on 80 mm 0.169697 mm.
    assert!((kink.kink().unwrap().base() - 0.002_121_21).abs() < 5e-9);
    for z in [10.0, 700.0, WELD, 1250.0] {
        let there = kink.at(millimetres(z)).size();
        let opened = opening(there, millimetres(z), &shaft(LENGTH, WELD), millimetres(80.0)).unwrap();
        assert!((as_millimetres(opened) - 0.169_697).abs() < 5e-7, "{z}");
    }
    assert_eq!(size(&ask(Axis::Joints, &places), Cause::Kink), parts(kink.size));
}
