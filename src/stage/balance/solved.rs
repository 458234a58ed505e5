//! What the runs come to: the correction of each plane with its ±.

use super::found::{Plane, RunReason};
use super::runs::{Runs, planes, runs};
use crate::job::{BalanceBy, Entry, Job};
use crate::mechanics::across::Across;
use crate::mechanics::student::circle_95;
use crate::mechanics::trial::{
    Correction, Disagreement, FREEDOM_OF_FIVE, NoCorrection, Region, TrialRun, Vibration, amplitudes,
    one_plane, two_planes,
};
use crate::mechanics::uncertainty::Spread;
use crate::quantity::{Angle, Base, Length, Mass, Unbalance, degrees};
use crate::stage::finding::{Blocked, Need, Reason, Why};

/// Points of a region's rim that its ± is read off: within a thousandth of its width.
const RIM_POINTS: u32 = 72;

/// A reading under this share of its ± is rounding, and none of its digits can be read. Our own choice.
const NOT_SAID: f64 = 0.002;

/// The runs and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The runs.
    pub runs: Runs,
    /// One correction a plane.
    pub corrections: Vec<Correction>,
}

/// Why there is none.
#[derive(Clone, Debug, PartialEq)]
pub enum Unsolved {
    /// Fields are needed, or numbers do not go together.
    Blocked(Blocked),
    /// More is to be read before there is one.
    Later(RunReason),
    /// There is nothing to balance.
    Nothing(RunReason),
    /// The readings contradict each other: by how much, why, and the scatter they were held against.
    Apart(Disagreement, RunReason, f64),
}

impl Unsolved {
    fn reason(reason: RunReason) -> Unsolved {
        Unsolved::Blocked(Blocked::Impossible(Reason::OnTheCar(reason)))
    }
}

/// An unbalance as a mass at the clips' radius.
pub fn as_mass(unbalance: Unbalance, radius: Length) -> Mass {
    Mass::from_base(unbalance.base() / radius.base())
}

/// Solves the runs.
///
/// # Errors
/// What is needed, or why these readings give no answer.
pub fn solved(job: &Job) -> Result<Solved, Unsolved> {
    // Before anything is asked for: weights that sat at another end say nothing of this one.
    if let Some(made) = job.balance.made_for_others() {
        return Err(Unsolved::Later(RunReason::OtherRuns { made }));
    }
    let runs = runs(job).map_err(|needs| Unsolved::Blocked(Blocked::Missing(needs)))?;
    if runs.scatter <= 0.0 {
        return Err(Unsolved::reason(RunReason::NoScatter));
    }
    let [front, rear] = runs.first;
    if front.amplitude <= runs.scatter && rear.amplitude <= runs.scatter {
        return Err(Unsolved::Nothing(RunReason::NothingShakes));
    }
    match corrections(&runs) {
        Ok(corrections) => Ok(Solved { runs, corrections }),
        Err(why) => Err(unsolved(job, &runs, why)),
    }
}

fn corrections(runs: &Runs) -> Result<Vec<Correction>, NoCorrection> {
    // As the field asks for it: from the range of five first runs.
    let scatter = Spread { standard: runs.scatter, freedom: FREEDOM_OF_FIVE };
    let first = runs.first;
    match (runs.by, runs.trials.as_slice()) {
        (BalanceBy::Amplitudes, trials) => {
            let read: Vec<(Across<Unbalance>, f64)> =
                trials.iter().map(|trial| (trial.weight, front(trial.read).amplitude)).collect();
            Ok(vec![amplitudes(front(first).amplitude, &read, scatter)?])
        }
        (BalanceBy::Phase, [trial, ..]) => {
            let read = front(trial.read);
            Ok(vec![one_plane(front(first), trial.weight, read, runs.left_on, scatter)?])
        }
        (BalanceBy::TwoPlanes, [one, two, ..]) => {
            let one = TrialRun { weights: [one.weight, Across::zero()], read: one.read };
            let two = TrialRun { weights: [Across::zero(), two.weight], read: two.read };
            Ok(two_planes(first, [one, two], scatter)?.to_vec())
        }
        (_, trials) => Err(NoCorrection::TooFewTrials { got: trials.len(), needed: 2 }),
    }
}

/// The front one of both ends, or the one that was read.
pub(super) fn front([front, _]: [Vibration; 2]) -> Vibration {
    front
}

/// Why there is no correction, in the sense of the page.
fn unsolved(job: &Job, runs: &Runs, why: NoCorrection) -> Unsolved {
    match why {
        NoCorrection::TooFewTrials { got, .. } => {
            // The next run that was not made is what is missing.
            let run = got + 1;
            let mut needed = vec![Entry::TrialMass(run), Entry::TrialClock(run)];
            needed.extend(job.balance.ends().iter().map(|end| Entry::RunAmplitude(run, *end)));
            let needs = needed.into_iter().map(|entry| Need { entry, why: Why::Empty });
            Unsolved::Blocked(Blocked::Missing(needs.collect()))
        }
        NoCorrection::SamePlace | NoCorrection::IllConditioned { .. } if runs.read_the_same() => {
            Unsolved::Later(RunReason::SameRuns)
        }
        NoCorrection::SamePlace => Unsolved::Later(RunReason::SamePlace),
        NoCorrection::NoEffect { effect, needed } => {
            Unsolved::Later(RunReason::NoEffect { times: effect, needed })
        }
        NoCorrection::Disagree(found) => {
            Unsolved::Apart(found.found, RunReason::Disagree { scatter: found.scatter }, runs.scatter)
        }
        NoCorrection::TwoAnswers(pair) => {
            let pair = pair.map(|weight| (as_mass(weight.size(), runs.radius), weight.at()));
            Unsolved::Later(RunReason::TwoAnswers { pair })
        }
        NoCorrection::IllConditioned { condition } => Unsolved::Later(RunReason::NotTold { condition }),
        NoCorrection::NotComputable if runs.reads_nothing() => Unsolved::reason(RunReason::ReadsNothing),
        NoCorrection::NotComputable => Unsolved::reason(RunReason::NoSum),
    }
}

impl Solved {
    /// All that is on with a correction, and what of it is a trial that stays.
    pub(super) fn all_on(&self, correction: &Correction) -> (Across<Unbalance>, Across<Unbalance>) {
        let stays = self.runs.trials.first().filter(|_| self.runs.left_on);
        let trial = stays.map_or(Across::zero(), |trial| trial.weight);
        (trial + correction.weight, trial)
    }

    /// What was read at a plane's end before the correction: in the first run, or in the trial's that stays on.
    pub fn before(&self, plane: Plane) -> f64 {
        let [front, rear] = match self.runs.trials.first() {
            Some(trial) if self.runs.left_on => trial.read,
            _ => self.runs.first,
        };
        if plane == Plane::Rear { rear.amplitude } else { front.amplitude }
    }

    /// Whether its own end may gain more than the scatter, however well the correction is known.
    fn may_gain(&self, plane: Plane, correction: &Correction) -> bool {
        self.before(plane) - correction.expected_left > self.runs.scatter
    }

    /// Whether there is something to gain at its own end: it is told from nothing, and gains more than the scatter.
    pub(super) fn has_to_gain(&self, plane: Plane, correction: &Correction) -> bool {
        !correction.region.holds(Across::zero()) && self.may_gain(plane, correction)
    }

    /// Whether a correction gains at its own end: there is something to gain, its ± is no larger than itself, and
    /// with it the end surely reads less than before.
    fn gains(&self, plane: Plane, correction: &Correction) -> bool {
        let (doubt, _) = doubts(correction);
        self.has_to_gain(plane, correction)
            && doubt <= correction.weight.size()
            && correction.expected_left + correction.left_doubt < self.before(plane)
    }

    /// Whether it surely shakes, and what would cure this end is not known, so that nothing is put on there.
    pub fn is_not_known(&self, plane: Plane, correction: &Correction) -> bool {
        !self.is_worth(plane, correction) && self.is_unknown(plane, correction)
    }

    /// Whether it surely shakes, and what cures this end is not known well enough to be put on for its own sake.
    ///
    /// Where the other end gains, this one's may go on for that one's sake; else both stand or fall together.
    pub(super) fn is_unknown(&self, plane: Plane, correction: &Correction) -> bool {
        let shakes = |end: Plane| self.before(end) > circle_95(FREEDOM_OF_FIVE) * self.runs.scatter;
        let open = self.may_gain(plane, correction) && !self.gains(plane, correction);
        if self.any_gains() {
            open && shakes(plane) && self.is_worth(plane, correction)
        } else {
            open && planes(self.runs.by).iter().any(|end| shakes(*end))
        }
    }

    /// Whether a correction is worth putting on.
    ///
    /// The answer of two planes holds with both weights on: where one end gains, the other's weight goes on
    /// too, unless what it does at either end is within the scatter.
    pub fn is_worth(&self, plane: Plane, correction: &Correction) -> bool {
        let shows = correction.response * correction.weight.size().base() > self.runs.scatter;
        self.gains(plane, correction) || (shows && self.any_gains())
    }

    /// The last plane whose correction is worth putting on.
    pub(super) fn last_worth(&self) -> Option<Plane> {
        let all = self.corrections.iter().zip(planes(self.runs.by)).rev();
        let mut worth = all.filter(|(correction, plane)| self.is_worth(**plane, correction));
        worth.next().map(|(_, plane)| *plane)
    }

    fn any_gains(&self) -> bool {
        self.corrections
            .iter()
            .zip(planes(self.runs.by))
            .any(|(correction, plane)| self.gains(*plane, correction))
    }
}

/// A reading as it is said: what is nothing beside its ± is said as nothing.
pub(super) fn said(value: f64, doubt: f64) -> f64 {
    if value < NOT_SAID * doubt { 0.0 } else { value }
}

/// Points round the rim of a region.
pub fn rim(region: &Region) -> Vec<Across<Unbalance>> {
    let ellipse = region.ellipse;
    let point = |step: u32| {
        let turn = degrees(360.0 * f64::from(step) / f64::from(RIM_POINTS));
        let (sin, cos) = turn.base().sin_cos();
        let from_middle = Across { up: ellipse.long * cos, right: ellipse.short * sin };
        region.middle + from_middle.turned(ellipse.at)
    };
    (0..=RIM_POINTS).map(point).collect()
}

/// How far the correction may be off at 95 %: in size, and in place where the region leaves out zero.
///
/// The farthest point of the region's rim either way, since a region need not lie evenly about it.
pub fn doubts(correction: &Correction) -> (Unbalance, Option<Angle>) {
    let (size, at) = (correction.weight.size().base(), correction.weight.at());
    let (mut most, mut widest) = (0.0_f64, 0.0_f64);
    for point in rim(&correction.region) {
        most = most.max((point.size().base() - size).abs());
        let aside = point.turned(-at);
        widest = widest.max(aside.right.base().atan2(aside.up.base()).abs());
    }
    let placed = !correction.region.holds(Across::zero());
    // Where nothing is possible too, it may be smaller by all of itself.
    let most = if placed { most } else { most.max(size) };
    (Unbalance::from_base(most), placed.then(|| Angle::from_base(widest)))
}
