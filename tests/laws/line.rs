//! Laws of gearbox, shaft and pinion: what cancels, what a turn or a mirroring of the whole line leaves,
//! how lead, speed and gain hang together, and that no place of a grid mends better than what is advised.

use std::f64::consts::PI;

use shaftwright::mechanics::attitude::{Attitude, Leaning, Ties};
use shaftwright::mechanics::line::{Direction, Line, Peaks};
use shaftwright::mechanics::mend::{self, Layout, Mend};
use shaftwright::quantity::{Angle, Base, as_degrees, degrees, inches};

use super::Luck;

type Vector = [f64; 3];

/// Places of a grid that a mend is held against.
const PLACES: u32 = 2000;

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Rearward along an axis of this slope and plan angle, in degrees; as long as it comes.
fn vector(slope: f64, plan: f64) -> Vector {
    [1.0, plan.to_radians().tan(), -slope.to_radians().tan()]
}

fn direction(v: Vector) -> Direction {
    let degrees_of = |part: f64| degrees((part / v[0]).atan().to_degrees());
    Direction::new(degrees_of(-v[2]), degrees_of(v[1])).unwrap()
}

fn line(axes: [Vector; 3], phase: f64) -> Line {
    let [gearbox, shaft, pinion] = axes.map(direction);
    Line::new(gearbox, shaft, pinion, degrees(phase)).unwrap()
}

impl Luck {
    fn axis(&mut self, most: f64) -> Vector {
        vector(self.between(-most, most), self.between(-most, most))
    }

    fn leaning(&mut self, slope: f64, plan: f64) -> Leaning {
        Leaning { slope: degrees(self.between(-slope, slope)), plan: degrees(self.between(-plan, plan)) }
    }

    /// As it stands under a vehicle, and worse.
    fn attitude(&mut self) -> Attitude {
        let [gearbox, shaft, pinion] = [(); 3].map(|()| self.leaning(12.0, 5.0));
        Attitude { gearbox, shaft, pinion, phase: degrees(self.between(-20.0, 20.0)) }
    }
}

fn numbers(peaks: Peaks) -> [f64; 7] {
    let ((a, b), (c, d)) = (peaks.shaft_ratio, peaks.pinion_ratio);
    [a, b, c, d, peaks.shaft_gain, peaks.pinion_gain, peaks.error.base()]
}

fn alike(one: &[f64], other: &[f64]) -> bool {
    one.iter().zip(other).all(|(a, b)| (a - b).abs() < 1e-13)
}

/// How far two angles of lines are apart: half a turn on it is the same line.
fn lines_apart(one: f64, other: f64) -> f64 {
    let gap = (one - other).rem_euclid(PI);
    gap.min(PI - gap)
}

#[test]
fn equal_angles_in_phase_leave_nothing() {
    // Both layouts, in space: the pinion along the gearbox's own direction, or along its mirror image
    // behind the shaft (the gearbox's axis turned half round about the shaft's).
    let mut luck = Luck(20);
    for _ in 0..1000 {
        let (gearbox, shaft) = (luck.axis(15.0), luck.axis(15.0));
        let along = 2.0 * dot(gearbox, shaft) / dot(shaft, shaft);
        let mirrored = [0, 1, 2].map(|i| along * shaft[i] - gearbox[i]);
        for pinion in [gearbox, mirrored] {
            for phase in [0.0, 180.0] {
                let found = line([gearbox, shaft, pinion], phase);
                let [.., least, greatest, _, gain, error] = numbers(found.peaks());
                assert!(alike(&[least, greatest, gain, error], &[1.0, 1.0, 0.0, 0.0]), "{found:?}");
                assert!((found.front_joint() - found.rear_joint()).base().abs() < 1e-13);
            }
            // Out of phase it is uneven as soon as the joints bend.
            let out = line([gearbox, shaft, pinion], luck.between(5.0, 85.0));
            assert!(out.peaks().pinion_gain > 0.1 * out.peaks().shaft_gain);
        }
    }
}

/// A vector turned about a unit axis (O. Rodrigues).
fn turned(v: Vector, axis: Vector, by: f64) -> Vector {
    let (sin, cos) = by.sin_cos();
    let across = [
        axis[1] * v[2] - axis[2] * v[1],
        axis[2] * v[0] - axis[0] * v[2],
        axis[0] * v[1] - axis[1] * v[0],
    ];
    let along = dot(axis, v) * (1.0 - cos);
    [0, 1, 2].map(|i| v[i] * cos + across[i] * sin + axis[i] * along)
}

#[test]
fn turning_the_whole_line_in_space_changes_nothing() {
    let mut luck = Luck(21);
    for _ in 0..1000 {
        let axes = [(); 3].map(|()| luck.axis(15.0));
        let phase = luck.between(-180.0, 180.0);
        let (roll, tip) = (luck.between(-PI, PI), luck.between(-0.7, 0.7));
        let about = luck.between(0.0, 2.0 * PI);
        let moved =
            axes.map(|v| turned(turned(v, [1.0, 0.0, 0.0], roll), [0.0, about.cos(), about.sin()], tip));
        let (one, other) = (line(axes, phase), line(moved, phase));
        assert!(alike(&numbers(one.peaks()), &numbers(other.peaks())), "{one:?} {other:?}");
        let angles = |line: &Line| [line.front_joint(), line.rear_joint()].map(Base::base);
        assert!(alike(&angles(&one), &angles(&other)));
        // A plane is known to the last bits over the joint's own angle.
        let least = angles(&one)[0].min(angles(&one)[1]);
        let twists = [one, other].map(|line| line.twist().unwrap().base());
        assert!(lines_apart(twists[0], twists[1]) < 1e-14 / least, "{one:?} {other:?}");
        let equivalents = [one, other].map(|line| line.equivalent().base());
        assert!((equivalents[0] - equivalents[1]).abs() < 1e-11);
    }
}

#[test]
fn a_mirror_turns_the_other_way() {
    // In a mirror standing along the vehicle right is left, lying on the ground up is down; clockwise is
    // counter-clockwise in both.
    let mut luck = Luck(22);
    for _ in 0..500 {
        let axes = [(); 3].map(|()| luck.axis(15.0));
        let phase = luck.between(-180.0, 180.0);
        let here = line(axes, phase);
        for mirror in [[1.0, -1.0, 1.0], [1.0, 1.0, -1.0]] {
            let there = line(axes.map(|v| [0, 1, 2].map(|i| v[i] * mirror[i])), -phase);
            assert!(alike(&numbers(here.peaks()), &numbers(there.peaks())));
            let twists = [here, there].map(|line| line.twist().unwrap().base());
            assert!(lines_apart(twists[0], -twists[1]) < 1e-11);
            let place = degrees(luck.between(-400.0, 400.0));
            let (one, other) = (here.moment(place), there.moment(-place));
            let left = [one.shaft_ratio, one.pinion_ratio, one.shaft_gain, one.pinion_gain];
            let right = [other.shaft_ratio, other.pinion_ratio, -other.shaft_gain, -other.pinion_gain];
            assert!(alike(&left, &right));
            let leads = [one.shaft_lead + other.shaft_lead, one.pinion_lead + other.pinion_lead];
            assert!(alike(&leads.map(Base::base), &[0.0, 0.0]));
        }
    }
}

#[test]
fn swapped_ends_turn_the_line_inside_out() {
    let mut luck = Luck(23);
    for _ in 0..500 {
        let [gearbox, shaft, pinion] = [(); 3].map(|()| luck.axis(15.0));
        let phase = luck.between(-90.0, 90.0);
        let drive = line([gearbox, shaft, pinion], phase);
        let overrun = drive.overrun();
        // The axle drives: its ratio is the other's inverse, and what is ahead is as far behind.
        let ([.., least, greatest, _, _, error], [.., low, high, _, _, back]) =
            (numbers(drive.peaks()), numbers(overrun.peaks()));
        assert!(alike(&[1.0 / greatest, 1.0 / least, error], &[low, high, back]));
        assert!((drive.front_joint() - overrun.rear_joint()).base().abs() < 1e-15);
        assert!((drive.equivalent() - overrun.equivalent()).base().abs() < 1e-11);
        // Now the rear yoke drives the shaft, and the turn to the other yoke counts backward.
        let swapped = line([pinion, shaft, gearbox], -phase);
        assert!(alike(&numbers(swapped.peaks()), &numbers(overrun.peaks())));
        for place in [0.0, 33.0, 160.0] {
            let [one, other] = [swapped, overrun].map(|line| line.moment(degrees(place)));
            assert!((one.pinion_lead - other.pinion_lead).base().abs() < 1e-13);
        }
        assert!(alike(&numbers(drive.peaks()), &numbers(overrun.overrun().peaks())));
    }
}

#[test]
fn lead_speed_and_gain_are_one_anothers_rates() {
    let mut luck = Luck(24);
    for _ in 0..200 {
        let axes = [(); 3].map(|()| luck.axis(14.0));
        let found = line(axes, luck.between(-180.0, 180.0));
        let (step, at) = (1e-5, luck.between(-10.0, 10.0));
        let [before, here, after] =
            [-step, 0.0, step].map(|off| found.moment(Angle::from_base(at + off)));
        let rate = |f: &dyn Fn(usize) -> f64| (f(2) - f(0)) / (2.0 * step);
        let all = [before, here, after];
        // Differences over 2e-5: a third rate below 10 leaves 2e-10, and last bits leave 1e-11.
        for (rate, value) in [
            (rate(&|i| all[i].shaft_lead.base()), here.shaft_ratio - 1.0),
            (rate(&|i| all[i].pinion_lead.base()), here.pinion_ratio - 1.0),
            (rate(&|i| all[i].shaft_ratio), here.shaft_gain),
            (rate(&|i| all[i].pinion_ratio), here.pinion_gain),
        ] {
            assert!((rate - value).abs() < 2e-9, "{rate} {value}");
        }
        // Nothing is gained over a turn, a yoke is the same half a turn on, and no place goes beyond the
        // peaks, which are reached: a place of 720 is within a quarter of a degree of them.
        let turn = found.turn(720);
        let (count, peaks) = (turn.len() as f64, found.peaks());
        let sum = |f: &dyn Fn(usize) -> f64| (0..turn.len()).map(f).sum::<f64>() / count;
        assert!(sum(&|i| turn[i].pinion_lead.base()).abs() < 1e-14);
        assert!((sum(&|i| turn[i].pinion_ratio) - 1.0).abs() < 1e-14);
        let half = found.moment(turn[100].turn + degrees(180.0));
        assert!(alike(
            &[half.shaft_ratio, half.pinion_gain],
            &[turn[100].shaft_ratio, turn[100].pinion_gain]
        ));
        let most = |f: &dyn Fn(usize) -> f64| (0..turn.len()).map(f).fold(f64::MIN, f64::max);
        let error = most(&|i| turn[i].pinion_lead.base()) + most(&|i| -turn[i].pinion_lead.base());
        for (seen, peak) in [
            (most(&|i| turn[i].shaft_ratio - 1.0), peaks.shaft_ratio.1 - 1.0),
            (most(&|i| 1.0 - turn[i].pinion_ratio), 1.0 - peaks.pinion_ratio.0),
            (most(&|i| turn[i].pinion_gain.abs()), peaks.pinion_gain),
            (most(&|i| turn[i].shaft_gain.abs()), peaks.shaft_gain),
            (error, peaks.error.base()),
        ] {
            assert!(seen <= peak + 1e-14 && seen >= peak * 0.9995, "{seen} {peak}");
        }
    }
}

/// The least residual over a grid of changes, of those that are allowed.
fn least(most: f64, changed: &dyn Fn(f64) -> Option<Attitude>) -> Option<f64> {
    let at = |k: u32| -most + 2.0 * most * f64::from(k) / f64::from(PLACES - 1);
    let residual = |k| Some(changed(at(k))?.line().ok()?.peaks().pinion_gain);
    (0..PLACES).filter_map(residual).fold(None, |best, r| Some(best.map_or(r, |b: f64| b.min(r))))
}

/// What was advised is no worse than the grid's best, says what it does, and keeps to its bound and its
/// layout.
fn held(found: Option<Mend>, best: Option<f64>, most: f64, layout: Option<Layout>) -> bool {
    let Some(best) = best else {
        return false;
    };
    let found = found.unwrap_or_else(|| panic!("nothing, where a grid leaves {best}"));
    assert!(found.residual <= best + 1e-9, "{found:?}, and a grid leaves {best}");
    let left = found.attitude.line().unwrap().peaks().pinion_gain;
    assert!((left - found.residual).abs() < 1e-15);
    assert!(as_degrees(found.change).abs() <= most + 1e-9);
    // At the shaft's own slope both layouts end.
    let product = side(&found.attitude);
    assert!(match layout {
        None => true,
        Some(Layout::Parallel) => product >= -1e-12,
        Some(Layout::Intersecting) => product <= 1e-12,
    });
    true
}

/// The slope of one end less the shaft's, in degrees.
fn above(end: Leaning, attitude: &Attitude) -> f64 {
    as_degrees(end.slope - attitude.shaft.slope)
}

/// More than nothing where both ends stand on one side of the shaft's slope, less where on different ones.
fn side(attitude: &Attitude) -> f64 {
    above(attitude.gearbox, attitude) * above(attitude.pinion, attitude)
}

/// Whether the ends stand to the shaft as the layout says.
fn stands(layout: Layout, attitude: &Attitude) -> bool {
    if layout == Layout::Parallel { side(attitude) > 0.0 } else { side(attitude) < 0.0 }
}

#[test]
fn no_place_of_a_grid_mends_the_pinion_better() {
    let (mut luck, mut compared) = (Luck(25), 0);
    for _ in 0..150 {
        let (attitude, most) = (luck.attitude(), luck.between(1.0, 20.0));
        let ties = Ties {
            length: inches(luck.between(25.0, 70.0)),
            slides: luck.between(0.0, 1.0) < 0.5,
            arm: inches(luck.between(0.0, 14.0)),
        };
        // Side of the shaft where the gearbox lies: another layout is not reached by way of the shaft.
        let gearbox = above(attitude.gearbox, &attitude);
        for layout in [Layout::Parallel, Layout::Intersecting] {
            let best = least(most, &|change| {
                let changed = attitude.raised(inches(0.0), degrees(change), ties).ok()?;
                let stays = above(changed.gearbox, &changed) * gearbox > 0.0;
                (stays && stands(layout, &changed)).then_some(changed)
            });
            compared += u32::from(held(
                mend::pinion(&attitude, layout, degrees(most), ties),
                best,
                most,
                Some(layout),
            ));
        }
    }
    assert!(compared > 200, "{compared}");
}

#[test]
fn no_place_of_a_grid_mends_the_gearbox_better() {
    let (mut luck, mut compared) = (Luck(26), 0);
    for _ in 0..150 {
        let (attitude, most) = (luck.attitude(), luck.between(1.0, 20.0));
        let (arm, length) = (luck.between(0.0, 40.0), luck.between(25.0, 70.0));
        // Side of the shaft where the pinion lies: another layout is not reached by way of the shaft.
        let pinion = above(attitude.pinion, &attitude);
        for layout in [Layout::Parallel, Layout::Intersecting] {
            let changed = |change: f64| {
                let mut changed = attitude;
                changed.gearbox.slope += degrees(change);
                // The front joint is carried down about the cross-axis, and the shaft, a vector from the
                // front joint to the rear, falls by so much less.
                let sine = |slope: Angle| slope.base().sin();
                let down = arm * (sine(changed.gearbox.slope) - sine(attitude.gearbox.slope));
                let v = vector(as_degrees(attitude.shaft.slope), as_degrees(attitude.shaft.plan));
                let to_rear = v.map(|part| part * length / dot(v, v).sqrt());
                let now = [to_rear[0], to_rear[1], to_rear[2] + down];
                changed.shaft.slope = degrees((-now[2]).atan2(now[0]).to_degrees());
                Some(changed)
            };
            let best = least(most, &|change| {
                let changed = changed(change)?;
                let stays = above(changed.pinion, &changed) * pinion > 0.0;
                (stays && stands(layout, &changed)).then_some(changed)
            });
            let found = mend::gearbox(&attitude, layout, inches(arm), inches(length), degrees(most));
            if let Some(found) = found {
                let other = changed(as_degrees(found.change)).unwrap();
                let off = other.shaft.slope - found.attitude.shaft.slope;
                assert!(off.base().abs() < 1e-13, "{found:?} {other:?}");
            }
            compared += u32::from(held(found, best, most, Some(layout)));
        }
    }
    assert!(compared > 200, "{compared}");
}

#[test]
fn no_phase_of_a_grid_leaves_less() {
    let mut luck = Luck(27);
    for _ in 0..150 {
        let attitude = luck.attitude();
        let best = least(90.0, &|phase| Some(Attitude { phase: degrees(phase), ..attitude }));
        let found = mend::phase(&attitude);
        assert!(held(found, best, 90.0, None));
        let phase = as_degrees(found.unwrap().attitude.phase);
        assert!(phase > -90.0 && phase <= 90.0);
    }
}
