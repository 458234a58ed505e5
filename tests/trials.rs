//! Trial weights: what another road finds in the same readings, and how honest the regions are.
//!
//! `trials/trials.txt` is the kept output of `handbook/trials.py`: runs made up, their corrections found by
//! another library. The other tests throw runs over seeded luck and know the truth by construction; the
//! shares they must reach are what a region at 95 % promises.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use core::f64::consts::TAU;
use std::fs;
use std::path::Path;

use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::trial::{
    Correction, FREEDOM_OF_FIVE, LEAST_EFFECT, NoCorrection, TrialRun, Vibration, amplitudes, one_plane,
    two_planes,
};
use shaftwright::mechanics::uncertainty::Spread;
use shaftwright::quantity::{Angle, Base, Unbalance, as_gram_millimetres, degrees, gram_millimetres};

/// How many runs each share is taken over.
const RUNS: usize = 10_000;

/// A linear congruential generator (constants of Knuth's MMIX, from memory), high bits only.
struct Luck(u64);

impl Luck {
    fn between(&mut self, least: f64, most: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + (most - least) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number of the normal law, by Box and Muller.
    fn normal(&mut self) -> f64 {
        let size = (-2.0 * (1.0 - self.between(0.0, 1.0)).ln()).sqrt();
        size * (TAU * self.between(0.0, 1.0)).cos()
    }

    /// The scatter as so many degrees of freedom would estimate it, the true one being 1.
    /// As five readings tell it: two fifths of what the largest and the smallest differ by.
    fn scatter(&mut self, freedom: f64) -> Spread<f64> {
        let standard = if freedom == FREEDOM_OF_FIVE {
            let five: [f64; 5] = core::array::from_fn(|_| self.normal());
            let (least, most) = (f64::INFINITY, f64::NEG_INFINITY);
            0.4 * (five.iter().copied().fold(most, f64::max)
                - five.iter().copied().fold(least, f64::min))
        } else if freedom.is_finite() {
            let squares: f64 = (0..freedom as u32).map(|_| self.normal().powi(2)).sum();
            (squares / freedom).sqrt()
        } else {
            1.0
        };
        Spread { standard, freedom }
    }
}

/// A vector as two numbers; amplitudes in scatters, weights in g·mm.
type Pair = [f64; 2];

fn polar(size: f64, at: f64) -> Pair {
    let (sin, cos) = at.to_radians().sin_cos();
    [size * cos, size * sin]
}

fn times([a, b]: Pair, [c, d]: Pair) -> Pair {
    [a * c - b * d, a * d + b * c]
}

fn plus([a, b]: Pair, [c, d]: Pair) -> Pair {
    [a + c, b + d]
}

fn size([a, b]: Pair) -> f64 {
    a.hypot(b)
}

fn weight([up, right]: Pair) -> Across<Unbalance> {
    Across { up: gram_millimetres(up), right: gram_millimetres(right) }
}

fn vibration(of: Pair) -> Vibration {
    Vibration { amplitude: size(of), phase: Angle::from_base(of[1].atan2(of[0])) }
}

// What the other road finds.

/// The numbers of a line.
fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn shown(amplitude: f64, at: f64) -> Vibration {
    Vibration { amplitude, phase: degrees(at) }
}

fn toward(size: f64, at: f64) -> Across<Unbalance> {
    Across::toward(gram_millimetres(size), degrees(at))
}

fn parts(of: Across<Unbalance>) -> Pair {
    [as_gram_millimetres(of.up), as_gram_millimetres(of.right)]
}

/// Trials without phase: size, place and reading of each.
fn trials(given: &[f64]) -> Vec<(Across<Unbalance>, f64)> {
    given.chunks(3).map(|run| (toward(run[0], run[1]), run[2])).collect()
}

/// Correction, middle and radius in the order of the script.
fn disc(of: &Correction) -> Vec<f64> {
    assert!(of.region.ellipse.long == of.region.ellipse.short);
    let radius = as_gram_millimetres(of.region.ellipse.long);
    [parts(of.weight), parts(of.region.middle)].concat().into_iter().chain([radius]).collect()
}

#[test]
fn a_hundred_and_twenty_corrections_as_another_road_finds_them() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/trials/trials.txt");
    let text = fs::read_to_string(path).unwrap();
    let (mut kinds, mut worst, mut worst_oval) = ([0; 4], 0.0_f64, 0.0_f64);
    for line in text.lines().skip(1) {
        let (kind, rest) = line.split_once(' ').unwrap();
        let (given, wanted) = rest.split_once('=').unwrap();
        let (given, mut wanted) = (numbers(given), numbers(wanted));
        let (found, scale) = match kind {
            "phase" => {
                kinds[0] += 1;
                let [left_on, standard, freedom, o, at_o, w, at_w, r, at_r] = given[..] else {
                    panic!()
                };
                let scatter = Spread { standard, freedom };
                let trial = toward(w, at_w);
                let got = one_plane(shown(o, at_o), trial, shown(r, at_r), left_on > 0.5, scatter);
                (disc(&got.unwrap()), w)
            }
            "planes" => {
                kinds[1] += 1;
                let scatter = Spread { standard: given[0], freedom: given[1] };
                let both = |from: usize| [from, from + 2].map(|i| (given[i], given[i + 1]));
                let read = |from: usize| both(from).map(|(amplitude, at)| shown(amplitude, at));
                let run = |from: usize| TrialRun {
                    weights: both(from).map(|(size, at)| toward(size, at)),
                    read: read(from + 4),
                };
                let got = two_planes(read(2), [run(6), run(14)], scatter).unwrap();
                (got.iter().flat_map(disc).collect(), given[6].max(given[14]))
            }
            "refused" => {
                kinds[3] += 1;
                let scatter = Spread { standard: given[0], freedom: given[1] };
                let got = amplitudes(given[2], &trials(&given[3..]), scatter);
                let Err(NoCorrection::Disagree(told)) = got else { panic!("{line}: {got:?}") };
                (vec![told.found.chi_squared, told.found.allowed], 1.0)
            }
            "alone" => {
                kinds[2] += 1;
                let scatter = Spread { standard: given[0], freedom: given[1] };
                let got = amplitudes(given[2], &trials(&given[3..]), scatter).unwrap();
                // The region from 24 rays against one from 2000, each ray to the last bits: the middle and
                // how far the ellipse reaches toward 12 and toward 3, in its own long half axis.
                let oval = wanted.split_off(4);
                let ellipse = got.region.ellipse;
                let (sin, cos) = ellipse.at.base().sin_cos();
                let [long, short] = [ellipse.long, ellipse.short].map(as_gram_millimetres);
                let reach = [(long * cos).hypot(short * sin), (long * sin).hypot(short * cos)];
                for (value, expected) in parts(got.region.middle).iter().chain(&reach).zip(&oval) {
                    let off = (value - expected) / long;
                    assert!(off.abs() < 2e-3, "{line}: {value}, expected {expected}");
                    worst_oval = worst_oval.max(off.abs());
                }
                let told = got.disagreement.unwrap();
                let [up, right] = parts(got.weight);
                // Squares and what luck allows are pure numbers: in hundredths of the weight's scale.
                (vec![up, right, told.chi_squared * 100.0, told.allowed * 100.0], 100.0)
            }
            _ => panic!("{kind}"),
        };
        if kind == "alone" {
            wanted[2..].iter_mut().for_each(|number| *number *= 100.0);
        }
        assert_eq!(found.len(), wanted.len(), "{line}");
        for (value, expected) in found.iter().zip(&wanted) {
            // Of the trial's size, or of its own where it is larger.
            let off = (value - expected) / expected.abs().max(scale);
            assert!(off.abs() < 1e-9, "{line}: {value}, expected {expected}");
            worst = worst.max(off.abs());
        }
    }
    println!("furthest off: {worst:e}; ellipses: {worst_oval:e}");
    assert_eq!(kinds, [40, 40, 40, 3]);
}

// Runs whose truth is known.

/// How often there was an answer, and how often its region held the truth.
#[derive(Clone, Copy, Debug, Default)]
struct Count {
    runs: usize,
    answered: usize,
    held: usize,
    /// Those that say themselves that their trials changed enough, and of these whose region held the truth.
    shows: usize,
    shows_held: usize,
    two: usize,
    disagree: usize,
}

impl Count {
    fn add(&mut self, got: Result<&Correction, &NoCorrection>, truth: Pair) {
        self.runs += 1;
        match got {
            Ok(found) => {
                self.answered += 1;
                let held = usize::from(found.region.holds(weight(truth)));
                let shows = usize::from(found.effect >= found.needed);
                self.held += held;
                self.shows += shows;
                self.shows_held += shows * held;
            }
            Err(NoCorrection::TwoAnswers(_)) => self.two += 1,
            Err(NoCorrection::Disagree(_)) => self.disagree += 1,
            Err(NoCorrection::NoEffect { .. } | NoCorrection::IllConditioned { .. }) => {}
            Err(other) => panic!("{other:?}"),
        }
    }

    fn held(&self) -> f64 {
        self.held as f64 / self.answered as f64
    }

    fn answered(&self) -> f64 {
        self.answered as f64 / self.runs as f64
    }

    fn print(&self, what: &str) {
        println!(
            "{what}: answered {:.4}, of these held {:.4}; shows enough {:.4}, of these held {:.4}; two \
             answers {:.4}, contradictions {:.4}",
            self.answered(),
            self.held(),
            self.shows as f64 / self.runs as f64,
            self.shows_held as f64 / self.shows as f64,
            self.two as f64 / self.runs as f64,
            self.disagree as f64 / self.runs as f64,
        );
    }

    /// What a region at 95 % promises, of those that are given at all.
    fn keeps_its_promise(&self) -> bool {
        (0.93..=0.97).contains(&self.held())
    }
}

/// Degrees of freedom of the scatter, turn and turn about: known, and estimated from a few readings.
fn mixed(run: usize) -> f64 {
    if run.is_multiple_of(4) { 6.0 } else { f64::INFINITY }
}

/// The scatter as the page has it: from the range of five readings, anew for each case.
fn of_five(_: usize) -> f64 {
    FREEDOM_OF_FIVE
}

/// The effect that is enough, in true scatters.
fn enough(times: f64, freedom: f64) -> f64 {
    use shaftwright::mechanics::student::circle_95;
    times * circle_95(freedom) / circle_95(f64::INFINITY)
}

#[test]
fn one_plane_holds_the_truth() {
    one_plane_holds(Luck(81), mixed);
}

#[test]
fn one_plane_holds_the_truth_with_the_scatter_of_five_runs() {
    one_plane_holds(Luck(91), of_five);
}

fn one_plane_holds(mut luck: Luck, freedom: fn(usize) -> f64) {
    for times in [LEAST_EFFECT, 10.0, 30.0] {
        let mut all = Count::default();
        for run in 0..RUNS {
            let freedom = freedom(run);
            let effect = polar(enough(times, freedom), luck.between(0.0, 360.0));
            // The correction from a third of the trial to eight times as much.
            let truth = polar(0.33 * 24.0_f64.powf(luck.between(0.0, 1.0)), luck.between(0.0, 360.0));
            let first = times_minus(effect, truth);
            let noise = |luck: &mut Luck| [luck.normal(), luck.normal()];
            let (o, r) = (plus(first, noise(&mut luck)), plus(plus(first, effect), noise(&mut luck)));
            let scatter = luck.scatter(freedom);
            let trial = weight([1.0, 0.0]);
            let left_on = run % 2 == 1;
            let got = one_plane(vibration(o), trial, vibration(r), left_on, scatter);
            let truth = if left_on { plus(truth, [-1.0, 0.0]) } else { truth };
            all.add(got.as_ref(), truth);
        }
        all.print(&format!("one plane, effect {times}"));
        assert!(all.keeps_its_promise() && all.answered() > 0.85, "{times}: {all:?}");
    }
}

/// −a·b: what is there when b takes it away.
fn times_minus(a: Pair, b: Pair) -> Pair {
    let [x, y] = times(a, b);
    [-x, -y]
}

/// Three, four and five trials, even and not: size and place of each, in degrees.
const TRIALS: [&[(f64, f64)]; 6] = [
    &[(1.0, 0.0), (1.0, 120.0), (1.0, 240.0)],
    &[(1.0, 0.0), (1.0, 90.0), (1.0, 180.0)],
    &[(1.0, 10.0), (1.0, 100.0), (1.0, 230.0)],
    &[(1.0, 10.0), (1.5, 100.0), (1.2, 230.0)],
    &[(1.0, 0.0), (1.0, 90.0), (1.0, 180.0), (1.0, 270.0)],
    &[(1.0, 0.0), (1.0, 72.0), (1.0, 144.0), (1.0, 216.0), (1.0, 288.0)],
];

/// Runs without phase, the first amplitude so many times a trial's effect.
fn alone(
    luck: &mut Luck,
    effect: f64,
    ratio: f64,
    trials: &[(f64, f64)],
) -> (f64, Vec<(Pair, f64)>, Pair) {
    let truth = polar(ratio, luck.between(0.0, 360.0));
    let mut read = |w: Pair| {
        let made = effect * size(plus(w, [-truth[0], -truth[1]]));
        // No instrument shows less than nothing.
        (w, (made + luck.normal()).abs())
    };
    let first = read([0.0, 0.0]).1;
    let runs = trials.iter().map(|(size, at)| read(polar(*size, *at))).collect();
    (first, runs, truth)
}

#[test]
fn amplitudes_alone_hold_the_truth() {
    amplitudes_hold(Luck(82), mixed);
}

#[test]
fn amplitudes_alone_hold_the_truth_with_the_scatter_of_five_runs() {
    amplitudes_hold(Luck(92), of_five);
}

fn amplitudes_hold(mut luck: Luck, freedom: fn(usize) -> f64) {
    for times in [LEAST_EFFECT, 10.0, 30.0] {
        let mut all = Count::default();
        let mut of = [Count::default(); TRIALS.len()];
        for run in 0..RUNS {
            let freedom = freedom(run / TRIALS.len());
            let which = run % TRIALS.len();
            let ratio = 8.0_f64.powf(luck.between(0.0, 1.0));
            let (first, runs, truth) = alone(&mut luck, enough(times, freedom), ratio, TRIALS[which]);
            let runs: Vec<_> = runs.iter().map(|(w, read)| (weight(*w), *read)).collect();
            let got = amplitudes(first, &runs, luck.scatter(freedom));
            all.add(got.as_ref(), truth);
            of[which].add(got.as_ref(), truth);
        }
        for (trials, count) in TRIALS.iter().zip(&of) {
            count.print(&format!("    {trials:?}"));
            // A sixth of the runs each: its share is luck to ±1.1 in 100 (twice the binomial law's).
            assert!((0.92..=0.98).contains(&count.held()), "{times} {trials:?}: {count:?}");
        }
        all.print(&format!("amplitudes alone, effect {times}"));
        assert!(all.keeps_its_promise() && all.answered() > 0.9, "{times}: {all:?}");
        // Luck alone is refused once in a hundred; the answer's own law leaves a little less.
        assert!((all.disagree as f64) < 0.015 * RUNS as f64, "{all:?}");
    }
}

#[test]
fn below_the_effect_that_is_enough_it_is_said() {
    // Why the result carries `effect` and `needed`: at twice the scatter half is refused, and what is
    // answered says itself that the trial was too light.
    let mut luck = Luck(84);
    let (mut answered, mut too_light) = (0, 0);
    for run in 0..RUNS / 5 {
        let (first, runs, _) = alone(&mut luck, 2.0, 3.0, TRIALS[run % TRIALS.len()]);
        let runs: Vec<_> = runs.iter().map(|(w, read)| (weight(*w), *read)).collect();
        let scatter = Spread { standard: 1.0, freedom: f64::INFINITY };
        if let Ok(found) = amplitudes(first, &runs, scatter) {
            answered += 1;
            too_light += usize::from(found.effect < found.needed);
        }
    }
    println!("effect 2: answered {answered} of {}, too light said {too_light}", RUNS / 5);
    assert!(too_light * 100 >= 98 * answered, "{too_light} of {answered}");
}

/// Effects on two pick-ups, rows for these: size and angle; condition 2.0, 3.3, 4.6.
const PLANES: [[[(f64, f64); 2]; 2]; 3] = [
    [[(0.8, 20.0), (0.3, 50.0)], [(0.25, 340.0), (0.9, 10.0)]],
    [[(1.0, 0.0), (0.6, 90.0)], [(0.5, 0.0), (0.9, 57.3)]],
    [[(1.0, 0.0), (0.65, 20.0)], [(0.65, -30.0), (1.0, 0.0)]],
];

/// The lesser singular value of two columns of complex numbers.
fn lesser([[a, b], [c, d]]: [[Pair; 2]; 2]) -> f64 {
    let sum: f64 = [a, b, c, d].iter().map(|one| size(*one).powi(2)).sum();
    let [x, y] = times(b, c);
    let determinant = size(plus(times(a, d), [-x, -y]));
    ((sum - (sum * sum - 4.0 * determinant * determinant).sqrt()) / 2.0).sqrt()
}

#[test]
fn two_planes_hold_the_truth() {
    two_planes_hold(Luck(83), mixed);
}

#[test]
fn two_planes_hold_the_truth_with_the_scatter_of_five_runs() {
    two_planes_hold(Luck(93), of_five);
}

fn two_planes_hold(mut luck: Luck, freedom: fn(usize) -> f64) {
    for (which, effects) in PLANES.iter().enumerate() {
        // The least mix of the trials at 5, 10 and 30 times the scatter.
        for times_scatter in [LEAST_EFFECT, 10.0, 30.0] {
            let mut of = [Count::default(); 2];
            for run in 0..RUNS / 3 {
                let freedom = freedom(run);
                let unit = effects.map(|row| row.map(|(size, at)| polar(size, at)));
                let by = enough(times_scatter, freedom) / lesser(unit);
                let h = unit.map(|row| row.map(|[x, y]| [x * by, y * by]));
                let ratio = 0.33 * 24.0_f64.powf(luck.between(0.0, 1.0));
                let truth = [1.0, 0.7].map(|share| polar(share * ratio, luck.between(0.0, 360.0)));
                let at =
                    |row: [Pair; 2], on: [Pair; 2]| plus(times(row[0], on[0]), times(row[1], on[1]));
                let first = h.map(|row| at(row, truth).map(|part| -part));
                // Each trial in its own plane; or the first stays on.
                let kept = if run % 2 == 0 { [0.0, 0.0] } else { [1.0, 0.0] };
                let on = [[[1.0, 0.0], [0.0, 0.0]], [kept, [1.0, 0.0]]];
                let noisy =
                    |of: Pair, luck: &mut Luck| vibration(plus(of, [luck.normal(), luck.normal()]));
                let read = first.map(|one| noisy(one, &mut luck));
                let runs = on.map(|on| TrialRun {
                    weights: on.map(weight),
                    read: [0, 1].map(|s| noisy(plus(first[s], at(h[s], on)), &mut luck)),
                });
                let got = two_planes(read, runs, luck.scatter(freedom));
                for plane in [0, 1] {
                    let one = got.as_ref().map(|both| &both[plane]);
                    of[plane].add(one, truth[plane]);
                }
            }
            for (plane, count) in ["A", "B"].iter().zip(of) {
                count.print(&format!("two planes, set {which}, least effect {times_scatter}, {plane}"));
                assert!(count.keeps_its_promise(), "{which} {times_scatter} {plane}: {count:?}");
            }
        }
    }
}
