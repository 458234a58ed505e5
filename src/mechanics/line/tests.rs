//! The line held against published joints, against the vectors step by step, and against its laws.
#![cfg(test)]

use super::super::luck::luck;
use super::*;
use crate::quantity::{as_degrees, as_radians_per_second_squared, degrees, rpm};

fn way(slope: f64, plan: f64) -> Direction {
    Direction::new(degrees(slope), degrees(plan)).unwrap()
}

/// Two joints in the side view with these angles, gearbox and pinion parallel where they are equal.
fn flat(front: f64, rear: f64, phase: f64) -> Line {
    Line::new(way(front, 0.0), way(0.0, 0.0), way(rear, 0.0), degrees(phase)).unwrap()
}

/// Lines by luck, in space and out of phase, sharp joints left out.
fn lines(seed: u64, count: usize, steep: f64) -> Vec<Line> {
    let mut between = luck(seed);
    let mut found = Vec::new();
    while found.len() < count {
        let mut axis = || way(between(-steep, steep), between(-steep, steep));
        let [gearbox, shaft, pinion] = [axis(), axis(), axis()];
        found.extend(Line::new(gearbox, shaft, pinion, degrees(between(-180.0, 180.0))));
    }
    found
}

/// A vector turned about a unit axis, clockwise for who looks against it (Rodrigues' formula).
fn turned(v: Vector, axis: Vector, by: f64) -> Vector {
    let (sin, cos) = by.sin_cos();
    let scaled = Vector([0.0; 3]).plus(cos, v).plus(-sin, axis.cross(v));
    scaled.plus((1.0 - cos) * axis.dot(v), axis)
}

/// The same line turned in space as one piece, wherever it then points.
fn moved(line: &Line, axis: Vector, by: f64) -> Line {
    let [gearbox, shaft, pinion] = [line.gearbox, line.shaft, line.pinion]
        .map(|way| Direction(turned(way.0, axis, by).unit().unwrap()));
    Line::new(gearbox, shaft, pinion, Angle::from_base(line.phase)).unwrap()
}

/// The chain by vectors, joint by joint: shaft and pinion speed over gearbox speed, and the lines of the
/// shaft's front ears and the pinion's ears.
fn chain(line: &Line, turn: f64) -> ([f64; 2], [Vector; 2]) {
    let [a0, a1, a2] = [line.gearbox.0, line.shaft.0, line.pinion.0];
    // Upright on the shaft, tilted to the gearbox's axis the shortest way.
    let [up, _] = a1.sides().unwrap();
    let zero = up.plus(-a0.dot(up) / (1.0 + a0.dot(a1)), a0.plus(1.0, a1));
    let e0 = turned(zero, a0, turn);
    let e1 = a1.cross(e0).unit().unwrap();
    let f1 = turned(e1, a1, line.phase);
    let f2 = a2.cross(f1).unit().unwrap();
    let one = a0.dot(a1) / (1.0 - a1.dot(e0).powi(2));
    ([one, one * a1.dot(a2) / (1.0 - a2.dot(f1).powi(2))], [e1, f2])
}

fn moment(line: &Line, turn: f64) -> Moment {
    line.moment(Angle::from_base(turn))
}

#[test]
fn directions() {
    // Definition of the axes and an example by hand: slope 3°, plan −1° points along
    // (1, tan −1°, −tan 3°) = (1, −0.017455, −0.052408).
    let Vector([x, y, z]) = way(3.0, -1.0).0;
    assert!((y / x + 0.017_455).abs() < 5e-7 && (z / x + 0.052_408).abs() < 5e-7);
    // Round trip, over luck.
    let mut between = luck(5);
    for _ in 0..200 {
        let (slope, plan) = (between(-89.9, 89.9), between(-89.9, 89.9));
        let axis = way(slope, plan);
        let (back, aside) = (as_degrees(axis.slope()), as_degrees(axis.plan()));
        assert!((back - slope).abs() < 1e-9 && (aside - plan).abs() < 1e-9, "{slope} {plan}");
    }
    for bad in [90.0, -90.0, 120.0, f64::NAN, f64::INFINITY] {
        assert!(Direction::new(degrees(bad), degrees(0.0)).is_none());
        assert!(Direction::new(degrees(0.0), degrees(bad)).is_none());
    }
    assert!(Direction::along(Vector([-1.0, 0.0, 0.0])).is_none());
    assert!(Direction::along(Vector([f64::NAN, 0.0, 0.0])).is_none());
}

#[test]
fn compound_angles() {
    // Derived by vectors outside this program, slope and plan of both: 4.47127°, 2.91169°; and for
    // 2.15° and 2.50° against a straight one by the tangents, 3.2956°. Published for the last, rounded:
    // 3.3° (driveshaft installation manual J3311-1).
    for (one, other, expected, near) in [
        ((3.0, 0.0), (-1.0, 2.0), 4.471_27, 5e-6),
        ((-3.0, 0.0), (-5.5, 1.5), 2.911_69, 5e-6),
        ((2.15, 2.5), (0.0, 0.0), 3.2956, 5e-5),
        ((2.15, 2.5), (0.0, 0.0), 3.3, 0.05),
    ] {
        let got = as_degrees(way(one.0, one.1).angle_to(way(other.0, other.1)));
        assert!((got - expected).abs() < near, "{got} against {expected}");
    }
    // An angle of a millionth of a degree keeps its figures: 1 minus its cosine has none left.
    let tiny = as_degrees(way(2.0, 1.0).angle_to(way(2.0 + 1e-6, 1.0)));
    assert!((tiny / 1e-6 - 1.0).abs() < 1e-3, "{tiny}");
}

#[test]
fn one_joint_alone() {
    // Published: Machinery's Handbook, universal joints: greatest and least ratio 1/cos β and cos β; the
    // figures derived from them. Fluctuation sin β·tan β: 0.002743 at 3°, 0.030619 at 10° (derived).
    for (joint, least, greatest, fluctuation) in [
        (3.0, 0.998_630, 1.001_372, 0.002_743),
        (10.0, 0.984_808, 1.015_427, 0.030_619),
        (30.0, 0.866_025, 1.154_701, 0.288_675),
    ] {
        let got = flat(joint, 0.0, 0.0).peaks();
        for (low, high) in [got.shaft_ratio, got.pinion_ratio] {
            assert!((low - least).abs() < 6e-7 && (high - greatest).abs() < 6e-7, "{joint}");
            assert!((high - low - fluctuation).abs() < 6e-7, "{joint}");
        }
    }
    // Peak angular acceleration, derived from ω²·cosβ·sin²β·sin2γ/(1 − sin²β·cos²γ)² outside this program.
    for (joint, speed, expected) in
        [(3.0, 3000.0, 270.71), (5.0, 3500.0, 1024.35), (3.0, 4000.0, 481.25)]
    {
        let gain = flat(joint, joint, 0.0).peaks().shaft_gain;
        let got = as_radians_per_second_squared(acceleration(rpm(speed), gain));
        assert!((got - expected).abs() < 0.006, "{got} against {expected}");
        let alone = as_degrees(joint_with_gain(gain).unwrap());
        assert!((alone - joint).abs() < 1e-12, "{alone} against {joint}");
    }
}

#[test]
fn two_joints_in_a_plane() {
    // Derived from the exact chain outside this program: peak to peak in degrees.
    for (front, rear, phase, expected) in [
        (3.0, 3.0, 2.0, 0.005_48),
        (3.0, 3.0, 5.0, 0.013_70),
        (3.0, 3.0, 10.0, 0.027_29),
        (3.0, 3.0, 90.0, 0.157_15),
        (3.0, 1.0, 0.0, 0.069_85),
        (5.0, 4.0, 0.0, 0.078_70),
        (6.0, 6.0, 10.0, 0.109_31),
        (10.0, 10.0, 90.0, 1.754_19),
    ] {
        let got = as_degrees(flat(front, rear, phase).peaks().error);
        assert!((got - expected).abs() < 6e-6, "{front} {rear} {phase}: {got}");
        // A yoke looks the same half a turn on; the other way round the phase is as bad.
        for alike in [phase + 180.0, phase - 180.0, -phase] {
            let again = as_degrees(flat(front, rear, alike).peaks().error);
            assert!((again - got).abs() < 1e-12);
        }
    }
}

#[test]
fn the_summary_of_a_line() {
    // Published for a plane: SAE AE-7, §3.1, √(β1² − β2²) in phase, √(β1² + β2²) a quarter turn out. With
    // equal angles β·√(2·sin ψ): 0.560°, 0.971°, 1.253° for 3° at 1°, 3°, 5° (derived).
    for (front, rear, phase, expected, near) in [
        (5.0, 4.0, 0.0, 3.0, 1e-9),
        (3.0, 4.0, 90.0, 5.0, 1e-9),
        (4.0, 5.0, 180.0, 3.0, 1e-9),
        (3.0, 3.0, 1.0, 0.560, 6e-4),
        (3.0, 3.0, -3.0, 0.971, 6e-4),
        (3.0, 3.0, 5.0, 1.253, 6e-4),
        (3.0, 0.0, 33.0, 3.0, 1e-9),
        (0.0, 2.0, 33.0, 2.0, 1e-9),
    ] {
        let got = as_degrees(flat(front, rear, phase).equivalent());
        assert!((got - expected).abs() < near, "{front} {rear} {phase}: {got}");
    }
    // Law: it is the exact joint to leading order: within 3 % for axes 8° off, so within a 25th of that,
    // 0.12 %, for a fifth of the angles. A line that cancels well has nothing to be near to.
    let mut seen = 0;
    for line in lines(11, 200, 8.0) {
        let off = |line: &Line| {
            let exact = joint_with_gain(line.peaks().pinion_gain).unwrap();
            (line.equivalent() / exact).base() - 1.0
        };
        let wide = off(&line);
        assert!(wide.abs() < 0.03 || line.equivalent() < degrees(2.0), "{wide}");
        let fifth = |way: Direction| {
            let Vector([x, y, z]) = way.0;
            Direction(Vector([1.0, y / x / 5.0, z / x / 5.0]).unit().unwrap())
        };
        let phase = Angle::from_base(line.phase);
        let small = Line::new(fifth(line.gearbox), fifth(line.shaft), fifth(line.pinion), phase);
        let narrow = off(&small.unwrap());
        assert!(narrow.abs() < 0.0012 || line.equivalent() < degrees(2.0), "{narrow}");
        seen += u32::from(line.equivalent() >= degrees(2.0));
    }
    assert!(seen > 150, "{seen}");
}

#[test]
fn the_vectors_step_by_step() {
    // Law: as one joint, the line turns as the vectors do that carry the ears over joint by joint.
    for (place, line) in lines(1, 60, 25.0).iter().enumerate() {
        let (_, start) = chain(line, 0.0);
        let first = moment(line, 0.0);
        for i in 0..24 {
            let turn = TAU * f64::from(i) / 24.0;
            let (ratios, ears) = chain(line, turn);
            let got = moment(line, turn);
            let pairs = [(got.shaft_ratio, ratios[0]), (got.pinion_ratio, ratios[1])];
            for (ratio, expected) in pairs {
                assert!((ratio - expected).abs() < 1e-12 * expected, "{place} {i}");
            }
            // How far the ears have turned about their own axis, less the gearbox's turn: as a line.
            for (k, axis, ahead) in [
                (0, line.shaft, got.shaft_lead - first.shaft_lead),
                (1, line.pinion, got.pinion_lead - first.pinion_lead),
            ] {
                let [from, to] = [start[k], ears[k]];
                let ears_turned = (-axis.0.dot(from.cross(to))).atan2(from.dot(to));
                let off = half_open_half_turn(Angle::from_base(ears_turned - turn) - ahead);
                assert!(off.base().abs() < 1e-12, "{place} {i} {k}");
            }
        }
    }
}

#[test]
fn ratios_and_gains_are_slopes() {
    // Law: the ratio is what a lead gains, and one; the gain what a ratio gains: differences over 2·10⁻⁵.
    const STEP: f64 = 1e-5;
    for line in lines(2, 100, 20.0) {
        for i in 0..12 {
            let turn = f64::from(i) * 0.7;
            let (here, before, after) =
                (moment(&line, turn), moment(&line, turn - STEP), moment(&line, turn + STEP));
            let slope = |of: fn(&Moment) -> f64| (of(&after) - of(&before)) / (2.0 * STEP);
            assert!((slope(|m| m.shaft_lead.base()) + 1.0 - here.shaft_ratio).abs() < 1e-8);
            assert!((slope(|m| m.pinion_lead.base()) + 1.0 - here.pinion_ratio).abs() < 1e-8);
            assert!((slope(|m| m.shaft_ratio) - here.shaft_gain).abs() < 1e-8);
            assert!((slope(|m| m.pinion_ratio) - here.pinion_gain).abs() < 1e-8);
        }
    }
}

#[test]
fn over_a_whole_turn() {
    // Law: over a turn the driven side gains nothing, its lead has no mean, and no place of the turn is
    // beyond the peaks, which are met to within what 3600 places can miss.
    for line in lines(3, 60, 20.0) {
        let moments = line.turn(3600);
        let peaks = line.peaks();
        let mean = |of: fn(&Moment) -> f64| moments.iter().map(of).sum::<f64>() / 3600.0;
        assert!((mean(|m| m.shaft_ratio) - 1.0).abs() < 1e-12);
        assert!((mean(|m| m.pinion_ratio) - 1.0).abs() < 1e-12);
        assert!(mean(|m| m.shaft_lead.base()).abs() < 1e-14);
        assert!(mean(|m| m.pinion_lead.base()).abs() < 1e-14);
        let most = |of: fn(&Moment) -> f64| moments.iter().map(of).fold(f64::MIN, f64::max);
        for (seen, peak) in [
            (most(|m| m.shaft_ratio), peaks.shaft_ratio.1),
            (most(|m| m.pinion_ratio), peaks.pinion_ratio.1),
            (-most(|m| -m.shaft_ratio), peaks.shaft_ratio.0),
            (-most(|m| -m.pinion_ratio), peaks.pinion_ratio.0),
            (most(|m| m.shaft_gain.abs()), peaks.shaft_gain),
            (most(|m| m.pinion_gain.abs()), peaks.pinion_gain),
            (most(|m| m.pinion_lead.base()) + most(|m| -m.pinion_lead.base()), peaks.error.base()),
        ] {
            assert!((seen - peak).abs() < 1e-5 * peak, "{seen} against {peak}");
        }
        let beyond = |m: &Moment| {
            m.pinion_ratio > peaks.pinion_ratio.1 + 1e-13
                || m.pinion_ratio < peaks.pinion_ratio.0 - 1e-13
                || m.pinion_gain.abs() > peaks.pinion_gain + 1e-13
                || m.shaft_gain.abs() > peaks.shaft_gain + 1e-13
        };
        assert!(!moments.iter().any(beyond));
    }
    assert!(flat(3.0, 3.0, 0.0).turn(0).is_empty());
}

#[test]
fn parallel_ends_undo_each_other() {
    // Law: parallel axes in phase turn as one, in any plane; so do axes that meet at equal angles.
    let mut between = luck(6);
    for _ in 0..200 {
        let mut axis = || way(between(-15.0, 15.0), between(-15.0, 15.0));
        let (end, shaft) = (axis(), axis());
        let gain = |pinion: Direction, phase: f64| {
            Line::new(end, shaft, pinion, degrees(phase)).unwrap().peaks().pinion_gain
        };
        assert!(gain(end, 0.0) <= 1e-12 && gain(end, 180.0) <= 1e-12);
        // The gearbox's axis mirrored in the shaft's.
        let mirrored = Vector([0.0; 3]).plus(2.0 * end.0.dot(shaft.0), shaft.0).plus(-1.0, end.0);
        assert!(gain(Direction(mirrored), 0.0) <= 1e-12);
        // And what they undo is worth undoing: out of phase they do not.
        let alone = gain(end, 90.0);
        assert!(alone > 1e-6 || end.angle_to(shaft).base() < 1e-3);
    }
}

#[test]
fn turned_in_space_as_one_piece() {
    // Law: nothing of it knows where up is. Twist and peaks stay, whichever way the line then points.
    let mut between = luck(7);
    for line in lines(8, 200, 20.0) {
        let Some(axis) = Vector([between(-1.0, 1.0), between(-1.0, 1.0), between(-1.0, 1.0)]).unit()
        else {
            continue;
        };
        let other = moved(&line, axis, between(-3.0, 3.0));
        assert!((line.front_joint() - other.front_joint()).base().abs() < 1e-12);
        assert!((line.rear_joint() - other.rear_joint()).base().abs() < 1e-12);
        assert!((line.equivalent() - other.equivalent()).base().abs() < 1e-9);
        if let (Some(one), Some(two)) = (line.twist(), other.twist()) {
            assert!(half_open_half_turn(one - two).base().abs() < 1e-9);
        }
        let (one, two) = (line.peaks(), other.peaks());
        for (one, two) in [
            (one.shaft_gain, two.shaft_gain),
            (one.pinion_gain, two.pinion_gain),
            (one.pinion_ratio.0, two.pinion_ratio.0),
            (one.pinion_ratio.1, two.pinion_ratio.1),
            (one.error.base(), two.error.base()),
        ] {
            assert!((one - two).abs() < 1e-12, "{one} against {two}");
        }
    }
}

#[test]
fn twist_counts_as_phase() {
    // By construction: level shaft, gearbox below it, pinion to the right: from 12 o'clock's line to 3
    // o'clock's is a quarter turn, and a pinion between the two turns clockwise from upright.
    let line = |slope: f64, plan: f64, phase: f64| {
        Line::new(way(3.0, 0.0), way(0.0, 0.0), way(slope, plan), degrees(phase)).unwrap()
    };
    let twist = |slope: f64, plan: f64| as_degrees(line(slope, plan, 0.0).twist().unwrap());
    assert!((twist(0.0, 3.0) - 90.0).abs() < 1e-9);
    assert!(twist(2.0, 0.0).abs() < 1e-9 && twist(-2.0, 0.0).abs() < 1e-9);
    // Pointing up and to the right from the shaft: half past one.
    assert!((twist(-3.0, 3.0) - 45.0).abs() < 1e-9 && (twist(-3.0, -3.0) + 45.0).abs() < 1e-9);
    assert!((twist(3.0, 3.0) + 45.0).abs() < 1e-9);
    assert!(line(0.0, 0.0, 0.0).twist().is_none());
    // Law: turning the pinion about the shaft's axis with the rear yoke changes nothing, at any angle.
    for line in lines(9, 200, 20.0) {
        for by in [0.1, -0.8, 2.0] {
            let pinion = Direction(turned(line.pinion.0, line.shaft.0, by).unit().unwrap());
            let phase = Angle::from_base(line.phase + by);
            let other = Line::new(line.gearbox, line.shaft, pinion, phase).unwrap();
            let off = |of: fn(&Line) -> f64| (of(&line) - of(&other)).abs();
            assert!(off(|l| l.peaks().pinion_gain) < 1e-12);
            assert!(off(|l| l.equivalent().base()) < 1e-9);
        }
    }
}

#[test]
fn overrun_is_the_line_from_its_other_end() {
    for line in lines(10, 200, 20.0) {
        let over = line.overrun();
        // Law: twice is nothing, and it is the line that the swapped axes make.
        assert_eq!(over.overrun(), line);
        let phase = Angle::from_base(-line.phase);
        assert_eq!(Line::new(line.pinion, line.shaft, line.gearbox, phase), Ok(over));
        // Law: joint angles swap, the twist turns round, the whole line is as uneven as it was.
        assert_eq!((over.front_joint(), over.rear_joint()), (line.rear_joint(), line.front_joint()));
        if let (Some(one), Some(two)) = (line.twist(), over.twist()) {
            assert!(half_open_half_turn(one + two).base().abs() < 1e-9);
        }
        let (one, two) = (line.peaks(), over.peaks());
        assert!((one.pinion_gain - two.pinion_gain).abs() < 1e-12);
        assert!((one.error - two.error).base().abs() < 1e-12);
        assert!((one.pinion_ratio.0 - two.pinion_ratio.0).abs() < 1e-12);
        assert!((line.equivalent() - over.equivalent()).base().abs() < 1e-9);
        // Law: what drives there stands still against what is driven here: ratios are inverse. The
        // pinion's ears by vectors, then the overrun at the place where they stand.
        let (ratios, [_, ears]) = chain(&line, 0.4);
        let [up, _] = line.shaft.0.sides().unwrap();
        let (axis, shaft) = (line.pinion.0, line.shaft.0);
        let zero = up.plus(-axis.dot(up) / (1.0 + axis.dot(shaft)), axis.plus(1.0, shaft));
        let turn = (-axis.dot(zero.cross(ears))).atan2(zero.dot(ears));
        assert!((moment(&over, turn).pinion_ratio * ratios[1] - 1.0).abs() < 1e-11);
    }
}

#[test]
fn straight_and_sharp() {
    // By definition: no angle, nothing uneven, no plane.
    for phase in [0.0, 37.0, 90.0] {
        let straight = Line::new(way(2.0, 1.0), way(2.0, 1.0), way(2.0, 1.0), degrees(phase)).unwrap();
        let peaks = straight.peaks();
        // Not nothing to the last bit: two bits of the axis squared.
        assert!(peaks.shaft_gain.max(peaks.pinion_gain).max(peaks.error.base()) < 1e-30);
        assert_eq!((peaks.shaft_ratio, peaks.pinion_ratio), ((1.0, 1.0), (1.0, 1.0)));
        assert!(straight.twist().is_none() && straight.equivalent().base() < 1e-15);
        let moment = straight.moment(degrees(20.0));
        assert!(moment.pinion_ratio == 1.0 && moment.pinion_gain.abs() < 1e-30);
        assert!(moment.pinion_lead.base().abs() < 1e-30 && moment.shaft_lead.base().abs() < 1e-30);
    }
    // A joint too straight to have a plane, and one a little sharper.
    assert!(flat(3.0, 5e-5, 0.0).twist().is_none() && flat(3.0, 6e-5, 0.0).twist().is_some());
    // 45° is too sharp, from either side, whichever joint; a hair less is not.
    let at = |front: f64, rear: f64| {
        Line::new(way(front, 0.0), way(0.0, 0.0), way(rear, 0.0), degrees(0.0)).map_err(|e| e.joint)
    };
    for sharp in [45.0, -45.0, 60.0, 89.0] {
        assert_eq!(at(sharp, 3.0), Err(JointAt::Front));
        assert_eq!(at(3.0, sharp), Err(JointAt::Rear));
        assert_eq!(at(sharp, sharp), Err(JointAt::Front));
    }
    assert!(at(44.999, -44.999).is_ok());
    let err = Line::new(way(30.0, 0.0), way(-20.0, 0.0), way(0.0, 0.0), degrees(0.0)).unwrap_err();
    assert!((as_degrees(err.angle) - 50.0).abs() < 1e-9);
    // A phase that is no number is no line.
    for phase in [f64::NAN, f64::INFINITY] {
        let err = Line::new(way(3.0, 0.0), way(0.0, 0.0), way(2.0, 0.0), degrees(phase)).unwrap_err();
        assert!(err.joint == JointAt::Rear && (as_degrees(err.angle) - 2.0).abs() < 1e-9);
    }
}

#[test]
fn a_joint_for_a_gain() {
    // Round trip over all sizes; the ends of the range by definition.
    for joint in [1e-6, 1e-3, 0.5, 3.0, 10.0, 20.0, 30.0, 40.0, 44.999] {
        let got = joint_with_gain(flat(joint, 0.0, 0.0).peaks().shaft_gain).unwrap();
        assert!((as_degrees(got) / joint - 1.0).abs() < 1e-9, "{joint}");
    }
    assert_eq!(joint_with_gain(0.0), Some(degrees(0.0)));
    for bad in [-1e-9, 0.788, 5.0, f64::NAN, f64::INFINITY] {
        assert_eq!(joint_with_gain(bad), None);
    }
    // Law: the exact joint of a whole line turns as unevenly as the line.
    for line in lines(12, 100, 15.0) {
        let peaks = line.peaks();
        let one = joint_with_gain(peaks.pinion_gain).unwrap();
        let alone = flat(as_degrees(one), 0.0, 0.0).peaks();
        assert!((alone.error - peaks.error).base().abs() < 1e-12);
        assert!((alone.shaft_ratio.0 - peaks.pinion_ratio.0).abs() < 1e-12);
    }
}
