//! Laws that hold whatever the numbers: symmetries, scalings and round trips, over seeded luck.
//!
//! No outside values; each law is stated at its test. Tolerances are a few last bits of the sizes met.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaft::{find, number, shaft, value};
use shaftwright::job::{Choice, Division, Entry, Job};
use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::phase::from_levels;
use shaftwright::mechanics::runout::{RunOut, Station, fit, without_drift};
use shaftwright::mechanics::unbalance::{Weight, shares};
use shaftwright::quantity::{
    Angle, Unbalance, as_degrees, as_gram_millimetres, as_thousandths, clockwise_angle, degrees, grams,
    in_inches, inches, millimetres,
};
use shaftwright::stage::{Name, weights};

#[path = "laws/angles.rs"]
mod angles;
#[path = "laws/balance.rs"]
mod balance;
#[path = "laws/check.rs"]
mod check;
#[path = "laws/dial.rs"]
mod dial;
#[path = "laws/lengths.rs"]
mod lengths;
#[path = "laws/line.rs"]
mod line;
#[path = "stages/shaft.rs"]
mod shaft;
#[path = "laws/slip.rs"]
mod slip;
#[path = "laws/weights.rs"]
mod weights_back;
#[path = "laws/yokes.rs"]
mod yokes;

/// Every division of a tape, rule or calliper, from the finest to the coarsest: 0.02 mm, 0.001 in, 1/64 in,
/// 0.5 mm, 1/32 in, 1 mm, 1/16 in, in order of size by definition of the inch.
const DIVISIONS: [Division; 7] = [
    Division::Fiftieth,
    Division::Thousandth,
    Division::SixtyFourth,
    Division::HalfMillimetre,
    Division::ThirtySecond,
    Division::Millimetre,
    Division::Sixteenth,
];

/// A linear congruential generator (constants of Knuth's MMIX, from memory), high bits only.
struct Luck(u64);

impl Luck {
    fn between(&mut self, least: f64, most: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + (most - least) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn choice<C: Choice>(&mut self) -> C {
        C::ALL[self.between(0.0, C::ALL.len() as f64) as usize]
    }

    fn weights(&mut self) -> Vec<Weight> {
        let count = self.between(1.0, 7.0) as usize;
        let one = |luck: &mut Luck| Weight {
            mass: grams(luck.between(1.0, 60.0)),
            radius: millimetres(luck.between(30.0, 60.0)),
            at: degrees(luck.between(0.0, 360.0)),
            z: inches(luck.between(-5.0, 65.0)),
        };
        (0..count).map(|_| one(self)).collect()
    }

    fn turn(&mut self, count: usize) -> Vec<Station> {
        let step = 360.0 / count as f64;
        let one = |luck: &mut Luck, i: usize| Station {
            at: degrees(step * (i as f64 + luck.between(-0.3, 0.3))),
            reading: inches(luck.between(-0.02, 0.02)),
        };
        (0..count).map(|i| one(self, i)).collect()
    }
}

fn small(left: Across<Unbalance>) -> bool {
    as_gram_millimetres(left.size()) < 1e-7
}

/// How far two places on the clock are apart, in degrees.
fn apart(one: Angle, other: Angle) -> f64 {
    let gap = as_degrees(clockwise_angle(one - other));
    gap.min(360.0 - gap)
}

#[test]
fn two_planes_keep_force_and_couple() {
    let mut luck = Luck(1);
    for _ in 0..500 {
        let (weights, length) = (luck.weights(), luck.between(30.0, 70.0));
        let both = shares(&weights, inches(length));
        let sum = |arm: &dyn Fn(&Weight) -> f64| {
            let part = |sum: Across<Unbalance>, w: &Weight| sum + w.unbalance().scaled(arm(w));
            weights.iter().fold(Across::zero(), part)
        };
        assert!(small(both.front + both.rear - sum(&|_| 1.0)));
        let about = luck.between(-40.0, 100.0);
        let couple = both.front.scaled(-about) + both.rear.scaled(length - about);
        assert!(small(couple - sum(&|w| in_inches(w.z) - about)));
        // Order changes nothing; moving a weight by Δz moves u·Δz/L from the front to the rear.
        let turned: Vec<Weight> = weights.iter().rev().copied().collect();
        assert!(small(shares(&turned, inches(length)).rear - both.rear));
        let mut moved = weights.clone();
        moved[0].z += inches(2.5);
        let shift = shares(&moved, inches(length)).rear - both.rear;
        assert!(small(shift - weights[0].unbalance().scaled(2.5 / length)));
        // Another zero of the clock turns the answers by as much.
        let zero = degrees(luck.between(-400.0, 400.0));
        let clocked: Vec<Weight> = weights.iter().map(|w| Weight { at: w.at + zero, ..*w }).collect();
        assert!(small(shares(&clocked, inches(length)).front - both.front.turned(zero)));
    }
}

#[test]
fn a_turn_of_the_dial() {
    let mut luck = Luck(2);
    let line = inches(0.001);
    let offsets_meet = |one: &RunOut, other: &RunOut, turned: f64, scaled: f64| {
        let hand = one.offset.turned(degrees(turned)).scaled(scaled);
        as_thousandths((other.offset - hand).size()) < 1e-7
    };
    for round in 0..600 {
        let count = 3 + round % 20;
        let stations = luck.turn(count);
        let first = fit(&stations, line).unwrap();
        // The order of reading changes nothing.
        let back: Vec<Station> = stations.iter().rev().copied().collect();
        assert!(offsets_meet(&first, &fit(&back, line).unwrap(), 0.0, 1.0));
        // Another zero of the clock turns the answer; the dial's own zero changes nothing; readings
        // k times as great make an answer k times as great.
        let (zero, dial, k) =
            (luck.between(-360.0, 360.0), luck.between(-0.1, 0.1), luck.between(0.1, 9.0));
        let with = |turn: f64, add: f64, times: f64| -> RunOut {
            let one = |s: &Station| Station {
                at: s.at + degrees(turn),
                reading: s.reading * times + inches(add),
            };
            fit(&stations.iter().map(one).collect::<Vec<_>>(), line).unwrap()
        };
        assert!(offsets_meet(&first, &with(zero, 0.0, 1.0), zero, 1.0));
        assert!(offsets_meet(&first, &with(0.0, dial, 1.0), 0.0, 1.0));
        assert!(offsets_meet(&first, &with(0.0, 0.0, k), 0.0, k));
        // A coarser dial never looks better.
        let mut last = 0.0;
        for division in [0.0001, 0.0005, 0.001, 0.002, 0.005, 0.02] {
            let u = as_thousandths(fit(&stations, inches(division)).unwrap().offset_standard);
            assert!(u >= last, "{count} stations, {division}");
            last = u;
        }
    }
}

#[test]
fn stations_anywhere_find_a_pure_offset() {
    // By construction: readings of a tube that stands off and is oval, at any stations that suffice.
    let mut luck = Luck(3);
    for round in 0..400 {
        let count = 3 + round % 12;
        let (size, at) = (luck.between(1.0, 20.0), luck.between(0.0, 360.0));
        // Three and four stations cannot tell ovality, so there is none for them.
        let (oval, lobe) =
            (if count < 5 { 0.0 } else { luck.between(0.5, 5.0) }, luck.between(0.0, 180.0));
        let mut stations = luck.turn(count);
        for station in &mut stations {
            let part = |order: f64, at: f64| (order * (as_degrees(station.at) - at).to_radians()).cos();
            let (one, two) = (part(1.0, at), part(2.0, lobe));
            station.reading = inches((3.0 + size * one + oval * two) / 1000.0);
        }
        let got = fit(&stations, inches(0.001)).unwrap();
        assert!((as_thousandths(got.offset.size()) - size).abs() < 1e-6, "{count}");
        assert!(apart(got.offset.at(), degrees(at)) < 1e-5);
        match got.ovality {
            Some(found) => {
                assert!((as_thousandths(found.size) - oval).abs() < 1e-6);
                let gap = as_degrees(clockwise_angle((found.at - degrees(lobe)) * 2.0)) / 2.0;
                assert!(gap.min(180.0 - gap) < 1e-4);
                assert!((0.0..180.000_001).contains(&as_degrees(found.at)));
            }
            None => assert!(count < 5),
        }
        // A steady drift laid on top comes off again without a trace.
        let drift = luck.between(-0.001, 0.001);
        let laid: Vec<_> = (stations.iter().enumerate())
            .map(|(i, s)| s.reading + inches(drift * i as f64 / count as f64))
            .collect();
        let closing = stations[0].reading + inches(drift);
        let clean = without_drift(&laid, closing, inches(0.001)).unwrap();
        for (station, reading) in stations.iter().zip(clean) {
            assert!(as_thousandths(station.reading - reading).abs() < 1e-9);
        }
    }
}

#[test]
fn levels_care_for_the_difference_alone() {
    // A yoke is a line: half a turn on either changes nothing, nor does a common tilt of both.
    let mut luck = Luck(5);
    for _ in 0..500 {
        let (front, turn, tilt) =
            (luck.between(-180.0, 180.0), luck.between(-89.0, 89.0), luck.between(-500.0, 500.0));
        for half_turns in [0.0, 180.0, -360.0] {
            let rear = degrees(front + turn + tilt + half_turns);
            let got = as_degrees(from_levels(degrees(front + tilt), rear));
            assert!((got - turn).abs() < 1e-9);
        }
        let (there, back) =
            (from_levels(degrees(front), degrees(turn)), from_levels(degrees(turn), degrees(front)));
        assert!((as_degrees(there) + as_degrees(back)).abs() < 1e-9 || as_degrees(there) > 89.999);
    }
}

#[test]
fn rows_and_clock_zero_of_the_weights_do_not_matter() {
    let planes = |job: &Job| [Name::LeftFront, Name::LeftRear].map(|name| value(job, name));
    let mut small_permit = shaft();
    // A light shaft and heavy weights, so that what is left has a direction worth showing.
    small_permit.put(Entry::WeightMass(1), "300");
    let [front, rear] = planes(&small_permit);
    let mut swapped = small_permit.clone();
    swapped.weights.rows.reverse();
    let mut turned = small_permit.clone();
    turned.put(Entry::WeightClock(0), "5:00");
    turned.put(Entry::WeightClock(1), "10:30");
    for (one, other) in [
        (front, planes(&swapped)[0]),
        (rear, planes(&swapped)[1]),
        (front, planes(&turned)[0]),
        (rear, planes(&turned)[1]),
    ] {
        assert!((number(one.amount) - number(other.amount)).abs() < 1e-6);
        let doubts = [one, other].map(|value| number(value.plus_minus.unwrap()));
        assert!((doubts[0] - doubts[1]).abs() < 1e-6);
    }
    // The vectors themselves: rows change nothing, the clock's zero turns both.
    let [here, there, round] =
        [&small_permit, &swapped, &turned].map(|job| weights::leaves(job).unwrap());
    for (one, other, by) in [
        (here.front, there.front, 0.0),
        (here.rear, there.rear, 0.0),
        (here.front, round.front, 90.0),
        (here.rear, round.rear, 90.0),
    ] {
        assert!(apart(other.at(), one.at() + degrees(by)) < 1e-6);
    }
    assert!(find(&small_permit, Name::LeftFront).limit.is_some());
}
