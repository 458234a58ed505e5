//! Known corrections, laws, and what has no answer.
#![cfg(test)]

use super::*;
use crate::mechanics::luck::luck;
use crate::quantity::{
    as_degrees, as_gram_millimetres, as_newtons, centrifugal_force, degrees, gram_millimetres, rpm,
};

const FINE: Spread<f64> = Spread { standard: 1e-4, freedom: f64::INFINITY };

fn vibration(amplitude: f64, phase: f64) -> Vibration {
    Vibration { amplitude, phase: degrees(phase) }
}

fn weight(size: f64, at: f64) -> Across<Unbalance> {
    Across::toward(gram_millimetres(size), degrees(at))
}

/// How far a weight is off, of its size.
fn off(found: Across<Unbalance>, size: f64, at: f64) -> f64 {
    as_gram_millimetres((found - weight(size, at)).size()) / size
}

fn scatter(standard: f64) -> Spread<f64> {
    Spread { standard, freedom: f64::INFINITY }
}

#[test]
fn one_plane_by_hand() {
    // Inputs published (a worked example of the trade: O 7@160°, R 5@70°, 100 g at 0°; from memory); the
    // answer derived from −O·W/(R − O): 81.373 g at 324.46°. The published drawing's 77.8 g is 4.6 % off.
    let find = |left_on: bool| {
        one_plane(vibration(7.0, 160.0), weight(100.0, 0.0), vibration(5.0, 70.0), left_on, FINE)
    };
    let got = find(false).unwrap();
    assert!((as_gram_millimetres(got.weight.size()) - 81.373).abs() < 5e-4);
    assert!((as_degrees(got.weight.at()) - 324.46).abs() < 5e-3);
    // By construction: nothing is left, and 8.6023 = √(7² + 5²) is what 100 g did, at a right angle.
    assert!(got.expected_left < 1e-12);
    let effect = 74.0_f64.sqrt();
    assert!((got.left_with(weight(81.373 + 100.0, 324.4623)) - effect).abs() < 1e-3);
    assert!((got.effect - effect / 1e-4).abs() < 1e-6 && got.disagreement.is_none());
    // Law: with the trial left on, both together are what goes on without it; so are the regions.
    let kept = find(true).unwrap();
    let both = kept.weight + weight(100.0, 0.0) - got.weight;
    assert!(as_gram_millimetres(both.size()) < 1e-10 && kept.expected_left < 1e-12);
    let moved = kept.region.middle + weight(100.0, 0.0) - got.region.middle;
    assert!(as_gram_millimetres(moved.size()) < 1e-10);
}

#[test]
fn amplitudes_alone_by_construction() {
    // Derived: T² = O² + t² + 2·O·t·cos(φ − θ), the mass W·O/t at θ + 180°; seven digits of T.
    for (first, read, trial, size, at) in [
        (8.0, [3.128_819, 10.801_399, 13.173_468], 10.0, 13.3333, 20.0),
        (10.0, [14.313_055, 11.712_683, 5.740_167], 20.0, 40.0, 217.0),
        (6.0, [13.377_079, 3.067_731, 12.753_148], 12.0, 8.0, 125.0),
    ] {
        let trials = [0, 1, 2].map(|i| (weight(trial, 120.0 * i as f64), read[i]));
        let got = amplitudes(first, &trials, FINE).unwrap();
        assert!(off(got.weight, size, at) < 5e-6, "{size}");
        let told = got.disagreement.unwrap();
        assert!(told.chi_squared < 1e-2 && told.freedom == 1.0 && (told.allowed - 6.635).abs() < 1e-3);
        // Law: two of them leave a pair, one of which is the answer, and both explain the readings.
        for [one, two] in [[0, 1], [1, 2], [0, 2]] {
            let pair = amplitudes(first, &[trials[one], trials[two]], FINE);
            let Err(NoCorrection::TwoAnswers(pair)) = pair else { panic!("{pair:?}") };
            assert!(pair.iter().any(|found| off(*found, size, at) < 1e-5), "{size} {pair:?}");
            for found in pair {
                for index in [one, two] {
                    let ratio = (trials[index].0 - found).size() / found.size();
                    assert!((ratio.value * first - read[index]).abs() < 1e-5, "{size}");
                }
            }
        }
    }
}

#[test]
fn readings_that_contradict_each_other_are_refused() {
    // Inputs published (an article on balancing without phase: O 10; T 7, 12, 18 with 50 g at 0°, 120°, 240°).
    // By hand: t² = ΣT²/3 − O² = 72.3; p = ΣT²·cos φ/(3·O), q likewise: p² + q² = 65.0.
    let trials = [(weight(50.0, 0.0), 7.0), (weight(50.0, 120.0), 12.0), (weight(50.0, 240.0), 18.0)];
    let at = |standard: f64| amplitudes(10.0, &trials, scatter(standard));
    let Err(NoCorrection::Disagree(told)) = at(0.05) else { panic!("agrees") };
    let [alone, parts] = told.squares.unwrap();
    assert!((alone - 217.0 / 3.0).abs() < 1e-9 && (parts - 65.0).abs() < 0.05, "{parts}");
    // Law: the same squares, whatever the scatter; just below the one it names it refuses, above it answers.
    let squares = told.found.chi_squared * 0.05 * 0.05;
    assert!((told.scatter - (squares / told.found.allowed).sqrt()).abs() < 1e-12);
    assert!(matches!(at(told.scatter * 0.999), Err(NoCorrection::Disagree(_))));
    assert!(at(told.scatter * 1.001).is_ok());
    // Derived by tests/handbook/trials.py (its lines `refused`): squares of 0.178302 are left, so a scatter
    // under √(0.178302/6.634897) = 0.16393, 1.6 % of the first reading, refuses them.
    assert!((squares - 0.178_302).abs() < 5e-7 && (told.scatter - 0.163_93).abs() < 5e-6);
}

#[test]
fn two_planes_by_construction() {
    // Derived by complex sums: H = [[0.8@20°, 0.3@50°], [0.25@340°, 0.9@10°]], V₀ = −H·(6@280°, 4@70°),
    // runs with 10@0° at A and 8@90° at B, to six digits.
    let run = |a: (f64, f64), b: (f64, f64), read: [(f64, f64); 2]| TrialRun {
        weights: [weight(a.0, a.1), weight(b.0, b.1)],
        read: read.map(|(amplitude, phase)| vibration(amplitude, phase)),
    };
    let first = [vibration(3.6, 120.0), vibration(2.1, 260.0)];
    let at_a = run((10.0, 0.0), (0.0, 0.0), [(8.182_779, 45.674_916), (3.533_172, 304.173_202)]);
    let at_b = run((0.0, 0.0), (8.0, 90.0), [(5.912_520, 127.980_279), (5.275_765, 107.824_542)]);
    let fine = two_planes(first, [at_a, at_b], FINE).unwrap();
    for (found, (size, at)) in fine.iter().zip([(6.0, 280.0), (4.0, 70.0)]) {
        assert!(off(found.weight, size, at) < 1e-5, "{size}");
        assert!(found.expected_left < 1e-9 && found.left_doubt < 1e-3);
        assert!(found.region.holds(found.weight));
    }
    // Law: which run comes first does not matter, and the effects follow from H: its columns' greatest.
    let turned = two_planes(first, [at_b, at_a], FINE).unwrap();
    for (one, other) in fine.iter().zip(&turned) {
        assert!(as_gram_millimetres((one.weight - other.weight).size()) < 1e-9);
        assert!((one.effect / other.effect - 1.0).abs() < 1e-9);
    }
    let [a, b] = fine;
    for (found, response) in [(a, 0.8), (b, 0.9)] {
        // Amplitude per g·mm.
        let shown = found.response * gram_millimetres(1.0).base();
        assert!((shown - response).abs() < 1e-5, "{response} {shown}");
    }
    // Law: planes that do not know of each other are two times one plane.
    let alone = [
        run((10.0, 0.0), (0.0, 0.0), [(8.0, 45.0), (2.1, 260.0)]),
        run((0.0, 0.0), (8.0, 90.0), [(3.6, 120.0), (5.0, 107.0)]),
    ];
    let both = two_planes(first, alone, scatter(0.05)).unwrap();
    for (plane, found) in both.iter().enumerate() {
        let (trial, read) = (alone[plane].weights[plane], alone[plane].read[plane]);
        let one = one_plane(first[plane], trial, read, false, scatter(0.05)).unwrap();
        assert!(as_gram_millimetres((found.weight - one.weight).size()) < 1e-9, "{plane}");
    }
}

/// Three thrown runs and what they find, all weights turned and scaled, amplitudes scaled.
fn alone(seed: u64, turn: f64, by: f64, amplitude: f64, backward: bool) -> Correction {
    let mut luck = luck(seed);
    let truth = weight(by * luck(100.0, 300.0), luck(0.0, 360.0) + turn);
    let mut read = |w: Across<Unbalance>| {
        let noise = luck(-0.1, 0.1);
        amplitude * (as_gram_millimetres((w - truth).size()) / by / 20.0 + noise)
    };
    let first = read(Across::zero());
    let mut trials: Vec<_> = [(80.0, 10.0), (100.0, 120.0), (90.0, 260.0), (100.0, 200.0)]
        .map(|(size, at)| weight(by * size, at + turn))
        .into_iter()
        .map(|w| (w, read(w)))
        .collect();
    if backward {
        trials.reverse();
    }
    amplitudes(first, &trials, scatter(0.1 * amplitude)).unwrap()
}

#[test]
fn laws_of_amplitudes_alone() {
    for seed in 0..40 {
        let plain = alone(seed, 0.0, 1.0, 1.0, false);
        let size = as_gram_millimetres(plain.weight.size());
        let near = |found: Correction, turn: f64, by: f64| {
            let apart = |a: Across<Unbalance>, b: Across<Unbalance>| {
                as_gram_millimetres((a.scaled(1.0 / by).turned(degrees(-turn)) - b).size()) / size
            };
            let long = found.region.ellipse.long / plain.region.ellipse.long;
            apart(found.weight, plain.weight) < 1e-9
                && apart(found.region.middle, plain.region.middle) < 1e-2
                && (long.value / by - 1.0).abs() < 1e-2
                && (found.effect / plain.effect - 1.0).abs() < 1e-9
        };
        // Laws: the clock's zero, the unit of weights, that of amplitudes, the order of the runs. A region
        // turns but for the rays that it is laid by.
        assert!(near(alone(seed, 77.0, 1.0, 1.0, false), 77.0, 1.0), "{seed}");
        assert!(near(alone(seed, 0.0, 28.35, 1.0, false), 0.0, 28.35), "{seed}");
        assert!(near(alone(seed, 0.0, 1.0, 1e4, false), 0.0, 1.0), "{seed}");
        assert!(near(alone(seed, 0.0, 1.0, 1.0, true), 0.0, 1.0), "{seed}");
        assert!(plain.region.holds(plain.weight));
    }
}

#[test]
fn one_case_read_three_ways() {
    // By construction: the vibration's high spot at a shaft angle, its amplitude from H·(weights − truth);
    // the strobe shows K − σ, the shaft's mark σ, the lag ∓(σ − K'), for any constants, both spins.
    let truth = weight(150.0, 200.0);
    let shown = |on: Across<Unbalance>| (on - truth).turned(degrees(33.0));
    for spin in [Spin::Clockwise, Spin::Counter] {
        let sense = if spin == Spin::Clockwise { 1.0 } else { -1.0 };
        for constant in [0.0, 111.0] {
            for pick_up in [PickUp::Strobe, PickUp::Mark, PickUp::Lag] {
                let read = |on: Across<Unbalance>| {
                    let at = as_degrees(shown(on).at());
                    let angle = match pick_up {
                        PickUp::Strobe => constant - at,
                        PickUp::Mark => at + constant,
                        PickUp::Lag => sense * (constant - at),
                    };
                    Vibration {
                        amplitude: as_gram_millimetres(shown(on).size()) / 10.0,
                        phase: shaft_phase(degrees(angle), pick_up, spin),
                    }
                };
                let trial = weight(60.0, 85.0);
                let got = one_plane(read(Across::zero()), trial, read(trial), false, FINE).unwrap();
                assert!(off(got.weight, 150.0, 200.0) < 1e-9, "{spin:?} {pick_up:?}");
                // What a mirrored entry does: it is no answer, unless by accident.
                let mirrored = |mut v: Vibration| {
                    v.phase = -v.phase;
                    v
                };
                let wrong =
                    one_plane(mirrored(read(Across::zero())), trial, mirrored(read(trial)), false, FINE);
                assert!(off(wrong.unwrap().weight, 150.0, 200.0) > 0.5);
            }
        }
    }
}

#[test]
fn too_few_and_too_much_alike() {
    let two = scatter(0.1);
    let few = |trials: &[(Across<Unbalance>, f64)]| amplitudes(10.0, trials, two).unwrap_err();
    let [a, b, c] = [0.0, 120.0, 240.0].map(|at| weight(10.0, at));
    assert_eq!(few(&[]), NoCorrection::TooFewTrials { got: 0, needed: 3 });
    assert_eq!(few(&[(a, 9.0)]), NoCorrection::TooFewTrials { got: 1, needed: 3 });
    assert_eq!(few(&[(a, 9.0), (a, 9.0), (a, 9.1)]), NoCorrection::SamePlace);
    // All on one line through the axis, however many: mirror images of each other in it.
    let line = [(weight(10.0, 30.0), 8.0), (weight(10.0, 210.0), 13.2), (weight(20.0, 30.0), 7.7)];
    let NoCorrection::TwoAnswers(pair) = few(&line) else { panic!("one answer") };
    let [one, other] = pair.map(|found| found.turned(degrees(-30.0)));
    assert!(as_gram_millimetres((one.up - other.up).abs()) < 1e-3, "{pair:?}");
    assert!(as_gram_millimetres((one.right + other.right).abs()) < 1e-3, "{pair:?}");
    // Three that hardly changed anything; three that changed, but stood nearly in one place.
    let faint = few(&[(a, 10.1), (b, 10.0), (c, 9.9)]);
    assert!(matches!(faint, NoCorrection::NoEffect { effect, needed: LEAST_EFFECT } if effect < 1.1));
    // One plane: no weight; no change; changed by less than a region of an end needs, √(2·5.991) = 3.46.
    let plane = |w: f64, read: f64| {
        one_plane(vibration(5.0, 10.0), weight(w, 0.0), vibration(read, 10.0), false, two)
    };
    assert_eq!(plane(0.0, 9.0).unwrap_err(), NoCorrection::TooFewTrials { got: 0, needed: 1 });
    assert!(matches!(plane(9.0, 5.0), Err(NoCorrection::NoEffect { .. })));
    assert!(matches!(plane(9.0, 5.34), Err(NoCorrection::NoEffect { .. })) && plane(9.0, 5.35).is_ok());
    // Two planes: a run without weight, both alike, both seen alike, one not seen.
    let run = |a: f64, b: f64, reads: [f64; 2]| TrialRun {
        weights: [weight(a, 0.0), weight(b, 0.0)],
        read: reads.map(|read| vibration(read, 10.0)),
    };
    let first = [vibration(5.0, 10.0), vibration(5.0, 10.0)];
    let find = |one: TrialRun, other: TrialRun| two_planes(first, [one, other], two).unwrap_err();
    let at_a = run(9.0, 0.0, [8.0, 6.0]);
    assert_eq!(find(at_a, run(0.0, 0.0, [8.0, 6.0])), NoCorrection::TooFewTrials { got: 1, needed: 2 });
    assert_eq!(find(at_a, run(18.0, 0.0, [9.0, 7.0])), NoCorrection::SamePlace);
    let alike = find(at_a, run(0.0, 9.0, [8.0, 6.01]));
    assert!(
        matches!(alike, NoCorrection::IllConditioned { condition } if condition > 100.0),
        "{alike:?}"
    );
    let faint = find(at_a, run(0.0, 9.0, [5.0, 5.1]));
    assert!(matches!(faint, NoCorrection::NoEffect { effect, .. } if effect < 2.0), "{faint:?}");
}

#[test]
fn what_is_no_number_is_refused() {
    let sound = [(weight(10.0, 0.0), 9.0), (weight(10.0, 120.0), 12.0), (weight(10.0, 240.0), 13.0)];
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1.0] {
        let no = Err(NoCorrection::NotComputable);
        assert_eq!(amplitudes(bad, &sound, FINE), no);
        let mut trials = sound;
        trials[1].1 = bad;
        assert_eq!(amplitudes(10.0, &trials, FINE), no);
        assert_eq!(amplitudes(10.0, &sound, scatter(bad)), no);
        assert_eq!(amplitudes(10.0, &sound, Spread { standard: 0.1, freedom: bad.min(0.5) }), no);
        let (first, run) = (vibration(7.0, 160.0), vibration(5.0, 70.0));
        let w = weight(100.0, 0.0);
        assert_eq!(one_plane(Vibration { amplitude: bad, ..first }, w, run, false, FINE), no);
        assert_eq!(one_plane(first, w, Vibration { amplitude: bad, ..run }, true, FINE), no);
        assert_eq!(one_plane(first, w, run, false, scatter(bad)), no);
        if !bad.is_finite() {
            assert_eq!(one_plane(first, w, vibration(5.0, bad), false, FINE), no);
            assert_eq!(one_plane(first, weight(bad, 0.0), run, false, FINE), no);
            trials = sound;
            trials[2].0 = weight(10.0, bad);
            assert_eq!(amplitudes(10.0, &trials, FINE), no);
        }
        assert!(
            !changed_enough(vibration(bad, 0.0), run) && !changed_enough(first, vibration(bad, 0.0))
        );
    }
}

#[test]
fn whatever_is_read_no_bad_number_gets_out() {
    // A law, over seeded luck of all sizes: an answer is finite, or there is none.
    let mut luck = luck(99);
    let mut kinds = [0; 2];
    for _ in 0..3000 {
        let size = |luck: &mut dyn FnMut(f64, f64) -> f64| 10.0_f64.powf(luck(-3.0, 3.0));
        let mut any =
            || (weight(size(&mut luck), (luck(0.0, 12.0) as u32 * 30).into()), size(&mut luck));
        let trials: Vec<_> = (0..4).map(|_| any()).collect();
        let (_, first) = any();
        let (_, standard) = any();
        let Ok(found) = amplitudes(first, &trials, scatter(standard * 0.1)) else {
            kinds[0] += 1;
            continue;
        };
        kinds[1] += 1;
        assert!(found.sound().is_ok() && found.region.ellipse.short.value > 0.0);
    }
    assert!(kinds[0] > 100 && kinds[1] > 20, "{kinds:?}");
}

#[test]
fn how_heavy_a_trial_is() {
    // Derived from 0.1·F/ω²: 400 N at 3000 rpm: 40 N; and the force comes back.
    let most = most_trial(crate::quantity::Force::from_base(400.0), rpm(3000.0)).unwrap();
    assert!((as_newtons(centrifugal_force(most, rpm(3000.0))) - 40.0).abs() < 1e-9);
    assert!((as_gram_millimetres(most) - 405.28).abs() < 5e-3);
    for (load, speed) in [(0.0, 3000.0), (400.0, 0.0), (f64::NAN, 3000.0), (400.0, f64::INFINITY)] {
        let got = most_trial(crate::quantity::Force::from_base(load), rpm(speed));
        assert!(got.is_none(), "{load} {speed}");
    }
    // The rule's own bounds: 30 % up or down, 30° either way, also across 12.
    for (amplitude, phase, enough) in [
        (10.0, 5.0, false),
        (13.1, 5.0, true),
        (6.9, 5.0, true),
        (12.9, 5.0, false),
        (10.0, 35.1, true),
        (10.0, 334.9, true),
        (10.0, 335.1, false),
        (10.0, 34.9, false),
    ] {
        assert_eq!(changed_enough(vibration(10.0, 5.0), vibration(amplitude, phase)), enough, "{phase}");
    }
}
