//! Laws of balancing on the car: what must not change the answer, and what must change with it.

use shaftwright::job::{BalanceBy, Display, Entry, Job, PickUp, Ready, Run, sample};
use shaftwright::quantity::{as_degrees, as_grams};
use shaftwright::stage::balance::{OnTheCar, Plane, RunSense};
use shaftwright::stage::{Amount, Name, Sense, Stage};

/// First reading and trials: grams, degrees, reading.
type Runs = (f64, Vec<(f64, f64, f64)>);

/// Derived from T² = O² + t² + 2·O·t·cos(φ − θ): 40 g at 217°.
fn derived() -> Runs {
    (10.0, vec![(20.0, 0.0, 14.313055), (20.0, 120.0, 11.712683), (20.0, 240.0, 5.740167)])
}

fn job(runs: &Runs, scatter: f64) -> Job {
    let mut job = sample();
    job.balance.ready = Ready::Ready;
    job.balance.runs = vec![Run::default(); runs.1.len() + 1];
    job.put(Entry::ClipRadius, "45 mm");
    job.put(Entry::RunScatter, &format!("{scatter:.6}"));
    job.put(Entry::RunAmplitude(0, 1), &format!("{:.6}", runs.0));
    for (i, (mass, at, reading)) in runs.1.iter().enumerate() {
        job.put(Entry::TrialMass(i + 1), &format!("{mass:.6} g"));
        job.put(Entry::TrialClock(i + 1), &format!("{:.6}°", at.rem_euclid(360.0)));
        job.put(Entry::RunAmplitude(i + 1, 1), &format!("{reading:.6}"));
    }
    job
}

/// Grams, their ±, and degrees of the correction.
fn answer(job: &Job, plane: Plane) -> (f64, f64, f64) {
    let name = Name::OnTheCar(OnTheCar::PutOn(plane));
    let finding = Stage::Balance.findings(job).into_iter().find(|found| found.name == name).unwrap();
    let value = finding.value().unwrap_or_else(|| panic!("{finding:?}"));
    match (value.amount, value.plus_minus, value.sense) {
        (
            Amount::Mass(mass),
            Some(Amount::Mass(doubt)),
            Some(Sense::OnTheCar(RunSense::PutOn { at, .. })),
        ) => (as_grams(mass), as_grams(doubt), as_degrees(at)),
        other => panic!("{other:?}"),
    }
}

fn alike(one: (f64, f64, f64), other: (f64, f64, f64), what: &str) {
    let aside = (one.2 - other.2 + 180.0).rem_euclid(360.0) - 180.0;
    let near = |a: f64, b: f64| (a - b).abs() < 1e-3 * b.abs();
    // Texts have six decimals.
    assert!(
        near(one.0, other.0) && near(one.1, other.1) && aside.abs() < 0.01,
        "{what}: {one:?} {other:?}"
    );
}

#[test]
fn turning_the_clock_turns_the_answer() {
    let (size, doubt, at) = answer(&job(&derived(), 0.1), Plane::One);
    for turn in [-200.0, -35.0, 12.5, 90.0, 181.0] {
        let (first, mut trials) = derived();
        trials.iter_mut().for_each(|(_, at, _)| *at += turn);
        let got = answer(&job(&(first, trials), 0.1), Plane::One);
        alike(got, (size, doubt, at + turn), &format!("turned by {turn}"));
    }
}

#[test]
fn the_order_of_the_trials_never_matters() {
    let usual = answer(&job(&derived(), 0.1), Plane::One);
    let (first, trials) = derived();
    for [a, b, c] in [[0, 2, 1], [1, 0, 2], [2, 1, 0], [1, 2, 0]] {
        let other = (first, vec![trials[a], trials[b], trials[c]]);
        alike(answer(&job(&other, 0.1), Plane::One), usual, &format!("{a} {b} {c}"));
    }
}

#[test]
fn the_unit_of_a_reading_goes_out_of_the_answer() {
    let usual = answer(&job(&derived(), 0.1), Plane::One);
    for times in [0.01, 0.102, 25.4, 1000.0] {
        let (first, mut trials) = derived();
        trials.iter_mut().for_each(|(_, _, reading)| *reading *= times);
        let got = answer(&job(&(first * times, trials), 0.1 * times), Plane::One);
        alike(got, usual, &format!("times {times}"));
    }
}

#[test]
fn heavier_trials_with_the_same_readings_call_for_as_much_more() {
    let (size, doubt, at) = answer(&job(&derived(), 0.1), Plane::One);
    let (first, mut trials) = derived();
    trials.iter_mut().for_each(|(mass, ..)| *mass *= 1.7);
    let got = answer(&job(&(first, trials), 0.1), Plane::One);
    alike(got, (1.7 * size, 1.7 * doubt, at), "1.7 times heavier");
    // In ounces, and shown in millimetres: the text's own unit is its own.
    let mut ounces = job(&derived(), 0.1);
    for run in 1..=3 {
        ounces.put(Entry::TrialMass(run), "0.705479239 oz");
    }
    ounces.display = Display::Millimetre;
    alike(answer(&ounces, Plane::One), (size, doubt, at), "ounces");
}

#[test]
fn a_mirrored_phase_mirrors_the_answer_where_it_must_not_be_mirrored() {
    // By geometry: a strobe and a mark read of one shaft run against each other; taken for the other, the same
    // texts give the answer mirrored at the line of the trial.
    let mut mark = sample();
    (mark.balance.ready, mark.balance.by) = (Ready::Ready, BalanceBy::Phase);
    mark.balance.pick_up = PickUp::Mark;
    for (entry, text) in [
        (Entry::ClipRadius, "45 mm"),
        (Entry::RunScatter, "0.1"),
        (Entry::RunAmplitude(0, 1), "7"),
        (Entry::RunPhase(0, 1), "160"),
        (Entry::TrialMass(1), "100 g"),
        (Entry::TrialClock(1), "0°"),
        (Entry::RunAmplitude(1, 1), "5"),
        (Entry::RunPhase(1, 1), "70"),
    ] {
        mark.put(entry, text);
    }
    let right = answer(&mark, Plane::One);
    mark.balance.pick_up = PickUp::Strobe;
    let wrong = answer(&mark, Plane::One);
    alike(wrong, (right.0, right.1, -right.2), "mirrored");
}
