//! Balance: runs on the car with trial weights, what they call for, and what came of it.

mod check;
mod found;
mod judged;
mod kept;
mod runs;
mod size;
mod solved;
mod speed;

pub use crate::mechanics::trial::Vibration;
pub use check::check_is_next;
pub use found::{Agreement, Clips, OnTheCar, Plane, RunReason, RunSense};
pub use kept::Kept;
pub use runs::{Runs, Trial, Weight, planes, runs, spin_counts, trial_places, trials_asked};
pub use size::{clip_places, heads_together, most_trial};
pub use solved::{Solved, Unsolved, rim, solved};

use super::amount::Amount;
use super::finding::{Blocked, Finding, Name, Reason, Value, Verdict};
use crate::job::{Job, Ready};

/// A reason of this stage as any other.
const fn why(reason: RunReason) -> Reason {
    Reason::OnTheCar(reason)
}

/// What follows from the runs. Nobody must balance on the car: while nothing was said here, the one finding
/// says when it is wanted, and holds nothing up.
pub fn findings(job: &Job) -> Vec<Finding> {
    let asked = Name::OnTheCar(OnTheCar::Asked);
    if job.balance.is_blank() {
        return vec![Finding::if_wanted(asked, why(RunReason::IfItShakes))];
    }
    if job.balance.ready == Ready::NotYet {
        return vec![Finding::later(asked, why(RunReason::NotReady))];
    }
    let outcome = solved(job);
    let mut found = judged::put_on(job, &outcome);
    found.extend(speed::run_speed(job));
    found.push(size::most_trial_finding(job, &outcome));
    found.extend(judged::effect(job, &outcome));
    found.extend(judged::apart(&outcome));
    found.extend(judged::told(&outcome));
    let check = check::findings(job, &outcome);
    let kept = kept::findings(job, &outcome, &found, &check);
    check::finish(job, &outcome, &mut found, &check, &kept);
    found.extend(check);
    found.extend(kept);
    found
}

/// A finding of a plain number.
fn reading(name: OnTheCar, amount: f64, doubt: Option<f64>, verdict: Verdict) -> Finding {
    let value =
        Value { amount: Amount::Reading(amount), plus_minus: doubt.map(Amount::Reading), sense: None };
    Finding::known(Name::OnTheCar(name), value, verdict)
}

/// What stands in the way of a finding.
fn unsolved(name: OnTheCar, outcome: &Unsolved) -> Finding {
    let name = Name::OnTheCar(name);
    match outcome {
        Unsolved::Blocked(blocked) => Finding::blocked(name, blocked.clone()),
        Unsolved::Later(reason) => Finding::later(name, why(*reason)),
        Unsolved::Nothing(reason) => {
            Finding { verdict: Verdict::Good, ..Finding::impossible(name, why(*reason)) }
        }
        Unsolved::Apart(_, reason, _) => Finding::blocked(name, Blocked::Impossible(why(*reason))),
    }
}
