//! Runs with trial weights: where everything sits on the clock, the weights as vectors, the readings as
//! vectors.

use super::clock::{CENTRE, RIM, ROW, face, off_the_mark, place, turning_arrow, words};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{BalanceBy, Job, Spin};
use crate::quantity::{Angle, Base, Mass, as_grams, degrees, show_number, three_figures};
use crate::stage::balance::{
    Plane, RunReason, Runs, Solved, Trial, Unsolved, clip_places, planes, rim, runs, solved,
    spin_counts, trial_places,
};

/// Farther out than this no vector goes.
const EDGE: f64 = RIM - 14.0;
/// Points of an arc.
const STEPS: u32 = 96;
/// Two readings nearer to each other than this make a circle that cannot be told from a line.
const AS_A_LINE: f64 = 1e-6;

/// The plane of this number: the only one, or the gearbox end and the axle end.
fn plane(job: &Job, number: usize) -> Option<Plane> {
    // Runs that were made for other ends say nothing of these.
    let made_for_these = job.balance.made_for_others().is_none();
    planes(job.balance.by).get(number).copied().filter(|_| made_for_these)
}

/// Whether a trial sits in this plane: of two, the first in front and the second at the rear.
fn sits_in(plane: Plane, run: usize) -> bool {
    match plane {
        Plane::One => true,
        Plane::Front => run == 1,
        Plane::Rear => run == 2,
    }
}

fn of_plane(plane: Plane) -> Option<String> {
    match plane {
        Plane::One => None,
        Plane::Front => Some("gearbox end".to_owned()),
        Plane::Rear => Some("axle end".to_owned()),
    }
}

/// The shaft from the rear: the trials, where the screw heads go, which way it turns. `None` before a trial has
/// a place.
pub fn clips_on_the_clock(job: &Job, number: usize) -> Option<String> {
    let plane = plane(job, number)?;
    let trials: Vec<(usize, Angle)> =
        trial_places(job).into_iter().filter(|(run, _)| sits_in(plane, *run)).collect();
    if trials.is_empty() {
        return None;
    }
    let clips = clip_places(job, number);
    let turns = spin_counts(job);
    let mut rows: Vec<String> = of_plane(plane).into_iter().collect();
    rows.push("hollow: trials".to_owned());
    if clips.is_some() {
        rows.push("filled: screw heads".to_owned());
    }
    let clockwise = job.balance.spin == Spin::Clockwise;
    if turns {
        rows.push(format!("turns {}clockwise", if clockwise { "" } else { "counter-" }));
    }
    let mut svg = face(ROW * (rows.len() - 1) as f64);
    for (run, at) in trials {
        svg.circle(Pen::Part, place(RIM, at), 9.0, false);
        let (x, y) = off_the_mark(place(RIM - 26.0, at));
        svg.text(Pen::Thin, (x, y + 7.0), Anchor::Middle, &run.to_string());
    }
    if let Some((heads, middle)) = clips {
        for at in heads {
            svg.circle(Pen::Accent, place(RIM, at), 8.0, true);
            svg.line(Pen::Ghost, CENTRE, place(RIM - 46.0, at));
        }
        svg.arrow(Pen::Accent, CENTRE, place(RIM - 46.0, middle));
    }
    if turns {
        let way = if clockwise { 1.0 } else { -1.0 };
        turning_arrow(&mut svg, degrees(180.0 - 25.0 * way), way);
    }
    words(&mut svg, &rows);
    Some(svg.finish())
}

/// What is to be marked in the plane of weights.
struct Weights {
    /// Trials: run, place on the drawing's plane in grams up and right.
    trials: Vec<(usize, (f64, f64))>,
    /// Answers: one, or the two of a mirrored pair.
    answers: Vec<(f64, f64)>,
    /// The answer is not known: no weight is put on, and no arrow points to one.
    not_known: bool,
    /// Rim of the region at 95 %.
    region: Vec<(f64, f64)>,
    /// Of each trial without phase: how its reading stands to the first.
    shares: Vec<f64>,
}

fn on_the_plane(size: f64, at: Angle) -> (f64, f64) {
    let (sin, cos) = at.base().sin_cos();
    (size * cos, size * sin)
}

fn weights(runs: &Runs, outcome: &Result<Solved, Unsolved>, plane: Plane, number: usize) -> Weights {
    let radius = runs.radius;
    let grams = |mass: Mass| as_grams(mass);
    let sits = |trial: &&Trial| sits_in(plane, trial.run);
    let trials: Vec<&Trial> = runs.trials.iter().filter(sits).collect();
    let [first, _] = runs.first;
    let share = |trial: &&Trial| {
        let [read, _] = trial.read;
        read.amplitude / first.amplitude
    };
    let mut found = Weights {
        trials: trials.iter().map(|t| (t.run, on_the_plane(grams(t.mass), t.at))).collect(),
        answers: Vec::new(),
        not_known: false,
        region: Vec::new(),
        shares: if runs.by == BalanceBy::Amplitudes {
            trials.iter().map(share).collect()
        } else {
            Vec::new()
        },
    };
    match outcome {
        Ok(solved) => {
            let Some(correction) = solved.corrections.get(number) else { return found };
            let point = |weight: crate::stage::balance::Weight| {
                on_the_plane(grams(weight.size() / radius), weight.at())
            };
            found.answers.push(point(correction.weight));
            found.not_known = solved.is_not_known(plane, correction);
            found.region = rim(&correction.region).into_iter().map(point).collect();
        }
        Err(Unsolved::Later(RunReason::TwoAnswers { pair })) => {
            found.answers = pair.iter().map(|(mass, at)| on_the_plane(grams(*mass), *at)).collect();
        }
        Err(_) => {}
    }
    found
}

fn size((up, right): (f64, f64)) -> f64 {
    up.hypot(right)
}

/// The weights as vectors: trials, answer and its region, the region alone where the answer is not known;
/// without phase one circle a trial, which hold all weights that explain its reading beside the first: they
/// cross at the answer. `None` before the runs are read.
pub fn weight_plane(job: &Job, number: usize) -> Option<String> {
    let plane = plane(job, number)?;
    let runs = runs(job).ok()?;
    let found = weights(&runs, &solved(job), plane, number);
    let mut most = 0.0_f64;
    for point in found.trials.iter().map(|(_, point)| point).chain(&found.answers) {
        most = most.max(size(*point));
    }
    // A region much wider than its answer is not shown whole: the drawing would show nothing else.
    let widest = found.region.iter().fold(0.0, |most: f64, point| most.max(size(*point)));
    let whole = widest <= 3.0 * most;
    let reach = if whole { most.max(widest) } else { most };
    if !(reach > 0.0 && reach.is_finite()) {
        return None;
    }
    let scale = EDGE / (1.05 * reach);
    let at = |(up, right): (f64, f64)| (CENTRE.0 + right * scale, CENTRE.1 - up * scale);
    let mut rows: Vec<String> = of_plane(plane).into_iter().collect();
    rows.push(format!("rim: {} g", show_number(RIM / scale, 1)));
    if !whole {
        rows.push("its ± is off the drawing".to_owned());
    }
    let mut svg = face(ROW * (rows.len() - 1) as f64);
    let limit = EDGE / scale;
    for ((_, trial), share) in found.trials.iter().zip(&found.shares) {
        let arc: Vec<[(f64, f64); 2]> =
            circle_of(*trial, *share, limit).into_iter().map(|pair| pair.map(at)).collect();
        svg.lines(Pen::Thin, &arc);
    }
    for (run, point) in &found.trials {
        svg.circle(Pen::Part, at(*point), 6.0, false);
        let (up, right) = *point;
        let out = 1.0 - 20.0 / (scale * size(*point)).max(40.0);
        let (x, y) = off_the_mark(at((up * out, right * out)));
        svg.text(Pen::Thin, (x, y + 6.0), Anchor::Middle, &run.to_string());
    }
    if whole && !found.region.is_empty() {
        let ring: Vec<(f64, f64)> = found.region.iter().map(|point| at(*point)).collect();
        svg.path(Pen::Accent, &ring, false);
    }
    for point in found.answers.iter().filter(|_| !found.not_known) {
        svg.arrow(Pen::Accent, CENTRE, at(*point));
    }
    words(&mut svg, &rows);
    Some(svg.finish())
}

/// All weights that make a trial's reading so many times the first: those whose distances from the trial and
/// from no weight stand so to each other. A circle, as strokes, as far as it lies within the limit.
fn circle_of(trial: (f64, f64), share: f64, limit: f64) -> Vec<[(f64, f64); 2]> {
    let mut less = 1.0 - share * share;
    if less.abs() < AS_A_LINE {
        less = AS_A_LINE;
    }
    let centre = (trial.0 / less, trial.1 / less);
    let radius = (share * size(trial) / less).abs();
    let away = size(centre);
    // Only the arc that the drawing sees, so that a large circle is round there too.
    let half = if away > limit { (limit / away).asin() } else { core::f64::consts::PI };
    let toward = (-centre.1).atan2(-centre.0);
    let point = |step: u32| {
        let turn = toward + half * (2.0 * f64::from(step) / f64::from(STEPS) - 1.0);
        (centre.0 + radius * turn.cos(), centre.1 + radius * turn.sin())
    };
    let seen = |pair: &[(f64, f64); 2]| pair.iter().all(|point| size(*point) <= limit);
    (0..STEPS).map(|step| [point(step), point(step + 1)]).filter(seen).collect()
}

/// The readings with phase as vectors on the shaft: the first run, each trial's, and what it did. `None`
/// without phase, or before the runs are read.
pub fn run_vectors(job: &Job, number: usize) -> Option<String> {
    let plane = plane(job, number)?;
    let runs = runs(job).ok().filter(|runs| runs.by != BalanceBy::Amplitudes)?;
    let of_end = |[front, rear]: [crate::stage::balance::Vibration; 2]| {
        let read = if plane == Plane::Rear { rear } else { front };
        on_the_plane(read.amplitude, read.phase)
    };
    let first = of_end(runs.first);
    let with: Vec<(usize, (f64, f64))> =
        runs.trials.iter().map(|trial| (trial.run, of_end(trial.read))).collect();
    let most = with.iter().fold(size(first), |most, (_, point)| most.max(size(*point)));
    if !(most > 0.0 && most.is_finite()) {
        return None;
    }
    let scale = (EDGE - 16.0) / most;
    let at = |(up, right): (f64, f64)| (CENTRE.0 + right * scale, CENTRE.1 - up * scale);
    let mut rows: Vec<String> = of_plane(plane).into_iter().collect();
    rows.push(format!("rim reads {}", three_figures(RIM / scale)));
    let mut svg = face(ROW * (rows.len() - 1) as f64);
    let name = |svg: &mut Svg, (up, right): (f64, f64), text: &str| {
        let out = 1.0 + 14.0 / (scale * up.hypot(right)).max(7.0);
        let (x, y) = off_the_mark(at((up * out, right * out)));
        svg.text(Pen::Thin, (x, y + 6.0), Anchor::Middle, text);
    };
    for (run, point) in &with {
        svg.line(Pen::Ghost, at(first), at(*point));
        svg.arrow(Pen::Thin, CENTRE, at(*point));
        name(&mut svg, *point, &run.to_string());
    }
    svg.arrow(Pen::Part, CENTRE, at(first));
    name(&mut svg, first, "O");
    words(&mut svg, &rows);
    Some(svg.finish())
}
