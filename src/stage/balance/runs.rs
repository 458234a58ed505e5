//! The runs as they were typed, in the sense of the sums.

use super::Plane;
use crate::job::{self, BalanceBy, End, Entry, Job, TrialLeft};
use crate::mechanics::across::Across;
use crate::mechanics::trial::{PickUp, Spin, Vibration, shaft_phase};
use crate::quantity::{Angle, Base, Length, Mass, Unbalance};
use crate::stage::field::Fields;
use crate::stage::finding::Need;

/// Trials without phase that leave one answer.
pub const TRIALS_WITHOUT_PHASE: usize = 3;

/// What a weight works, as a vector.
pub type Weight = Across<Unbalance>;

/// A run with a trial weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trial {
    /// The run it was.
    pub run: usize,
    /// The weight's mass.
    pub mass: Mass,
    /// Its place on the clock.
    pub at: Angle,
    /// What it works.
    pub weight: Across<Unbalance>,
    /// What was read at each end; where one end is read, both are that.
    pub read: [Vibration; 2],
}

/// All runs but the check run.
#[derive(Clone, Debug, PartialEq)]
pub struct Runs {
    /// What was read.
    pub by: BalanceBy,
    /// The end that weights are put at, where there is but one.
    pub end: Option<End>,
    /// Screw head to the axis.
    pub radius: Length,
    /// How far a reading moves by itself.
    pub scatter: f64,
    /// The first run.
    pub first: [Vibration; 2],
    /// Those with a trial weight.
    pub trials: Vec<Trial>,
    /// The trial stays on.
    pub left_on: bool,
}

impl Runs {
    /// Whether both trials, each at its own end, read the same at both ends, within the scatter.
    pub(super) fn read_the_same(&self) -> bool {
        // By the cosine rule.
        let apart = |one: &Vibration, other: &Vibration| {
            let (a, b) = (one.amplitude, other.amplitude);
            a * a + b * b - 2.0 * a * b * (one.phase.base() - other.phase.base()).cos()
        };
        let within =
            |(one, other): (&Vibration, &Vibration)| apart(one, other) <= self.scatter * self.scatter;
        match (self.by, self.trials.as_slice()) {
            (BalanceBy::TwoPlanes, [one, two, ..]) => one.read.iter().zip(&two.read).all(within),
            _ => false,
        }
    }

    /// Whether an amplitude is nothing, at an end that is read.
    pub(super) fn reads_nothing(&self) -> bool {
        let nothing = |read: &[Vibration; 2]| read.iter().any(|end| end.amplitude <= 0.0);
        nothing(&self.first) || self.trials.iter().any(|trial| nothing(&trial.read))
    }
}

/// How many trials are asked for; those without phase may be more.
pub fn trials_asked(job: &Job) -> usize {
    match job.balance.by {
        BalanceBy::Phase => 1,
        BalanceBy::TwoPlanes => 2,
        BalanceBy::Amplitudes => job.balance.runs.len().saturating_sub(1).max(TRIALS_WITHOUT_PHASE),
    }
}

/// Where weights go: one plane or two.
pub const fn planes(by: BalanceBy) -> &'static [Plane] {
    match by {
        BalanceBy::TwoPlanes => &[Plane::Front, Plane::Rear],
        _ => &[Plane::One],
    }
}

/// Whether the answer hangs on which way the shaft turns: a lag alone runs with it.
pub fn spin_counts(job: &Job) -> bool {
    job.balance.by != BalanceBy::Amplitudes && job.balance.pick_up == job::PickUp::Lag
}

/// Phase as it was read, in the sense of the weights.
fn phase(job: &Job, read: Angle) -> Angle {
    let pick_up = match job.balance.pick_up {
        job::PickUp::Strobe => PickUp::Strobe,
        job::PickUp::Mark => PickUp::Mark,
        job::PickUp::Lag => PickUp::Lag,
    };
    let spin = match job.balance.spin {
        job::Spin::Clockwise => Spin::Clockwise,
        job::Spin::Counterclockwise => Spin::Counter,
    };
    shaft_phase(read, pick_up, spin)
}

/// What was read at each end of a run.
pub fn vibrations(
    job: &Job,
    fields: &mut Fields,
    amplitude: impl Fn(usize) -> Entry,
    angle: impl Fn(usize) -> Entry,
) -> Option<[Vibration; 2]> {
    let by = job.balance.by;
    let mut at_end = |end: usize| {
        let amplitude = fields.reading(amplitude(end));
        let phase = match by {
            BalanceBy::Amplitudes => Some(Angle::from_base(0.0)),
            _ => fields.angle(angle(end)).map(|read| phase(job, read)),
        };
        amplitude.zip(phase).map(|(amplitude, phase)| Vibration { amplitude, phase })
    };
    match job.balance.ends() {
        [front, rear] => {
            let both = (at_end(*front), at_end(*rear));
            Some([both.0?, both.1?])
        }
        ends => {
            let one = ends.first().and_then(|end| at_end(*end))?;
            Some([one, one])
        }
    }
}

/// Nothing stands in a trial's fields that count: it was not made.
fn is_blank(job: &Job, run: usize) -> bool {
    let read = job.balance.ends().iter().map(|end| Entry::RunAmplitude(run, *end));
    [Entry::TrialMass(run), Entry::TrialClock(run)]
        .into_iter()
        .chain(read)
        .all(|entry| job.typed(entry).is_none_or(|typed| typed.is_blank()))
}

/// The runs that trials were made at. Without phase, trials may be left out; two are read, since they
/// say already that there are two answers.
fn made(job: &Job) -> Vec<usize> {
    let all = 1..=trials_asked(job);
    if job.balance.by != BalanceBy::Amplitudes {
        return all.collect();
    }
    let filled: Vec<usize> = all.clone().filter(|run| !is_blank(job, *run)).collect();
    if filled.len() >= 2 { filled } else { all.take(TRIALS_WITHOUT_PHASE).collect() }
}

/// A trial.
fn trial(job: &Job, fields: &mut Fields, run: usize, radius: Option<Length>) -> Option<Trial> {
    let mass = fields.mass(Entry::TrialMass(run));
    let at = fields.angle(Entry::TrialClock(run));
    let read =
        vibrations(job, fields, |end| Entry::RunAmplitude(run, end), |end| Entry::RunPhase(run, end));
    let (mass, at) = (mass?, at?);
    Some(Trial { run, mass, at, weight: Across::toward(mass * radius?, at), read: read? })
}

/// The first run alone, where it is read.
pub fn first_run(job: &Job) -> Option<[Vibration; 2]> {
    first(job, &mut Fields::of(job))
}

fn first(job: &Job, fields: &mut Fields) -> Option<[Vibration; 2]> {
    vibrations(job, fields, |end| Entry::RunAmplitude(0, end), |end| Entry::RunPhase(0, end))
}

/// Where each trial sits that has a place; none of runs that were made for other ends.
pub fn trial_places(job: &Job) -> Vec<(usize, Angle)> {
    if job.balance.made_for_others().is_some() {
        return Vec::new();
    }
    let mut fields = Fields::of(job);
    let place = |run| fields.angle(Entry::TrialClock(run)).map(|at| (run, at));
    (1..=trials_asked(job)).filter_map(place).collect()
}

/// Every trial that can be read, so that what is too heavy is said before its run.
pub fn trial_masses(job: &Job) -> Vec<Mass> {
    if job.balance.made_for_others().is_some() {
        return Vec::new();
    }
    let mut fields = Fields::of(job);
    (1..=trials_asked(job)).filter_map(|run| fields.mass(Entry::TrialMass(run))).collect()
}

/// All that was read.
///
/// # Errors
/// The fields that are needed.
pub fn runs(job: &Job) -> Result<Runs, Vec<Need>> {
    let mut fields = Fields::of(job);
    let radius = fields.length(Entry::ClipRadius);
    let scatter = fields.reading(Entry::RunScatter);
    let first = first(job, &mut fields);
    let trials: Vec<Option<Trial>> =
        made(job).into_iter().map(|run| trial(job, &mut fields, run, radius)).collect();
    let all: Option<Vec<Trial>> = trials.into_iter().collect();
    let (Some(radius), Some(scatter), Some(first), Some(trials)) = (radius, scatter, first, all) else {
        return Err(fields.needs());
    };
    let left_on = job.balance.by == BalanceBy::Phase && job.balance.left == TrialLeft::LeftOn;
    let end = (job.balance.by != BalanceBy::TwoPlanes).then_some(job.balance.end);
    Ok(Runs { by: job.balance.by, end, radius, scatter, first, trials, left_on })
}
