//! The check run: what was predicted against what came.

use super::found::{Clips, OnTheCar, Plane, RunReason, RunSense};
use super::judged::Outcome;
use super::runs::planes;
use super::solved::{Solved, said};
use super::{unsolved, why};
use crate::job::{Entry, Job};
use crate::mechanics::student::circle_95;
use crate::mechanics::trial::{Correction, FREEDOM_OF_FIVE};
use crate::stage::amount::Amount;
use crate::stage::field::{Fields, read};
use crate::stage::finding::{Answer, Finding, Name, Sense, Source, Value, Verdict};

/// What came of the correction at each end; nothing before it was read at one.
pub(super) fn findings(job: &Job, outcome: &Outcome) -> Vec<Finding> {
    let ends = job.balance.ends();
    if !is_begun(job) {
        return Vec::new();
    }
    let each = planes(job.balance.by).iter().zip(ends).enumerate().map(|(number, (plane, end))| {
        let name = OnTheCar::Check(*plane);
        let mut fields = Fields::of(job);
        let Some(came) = fields.reading(Entry::CheckAmplitude(*end)) else {
            return Finding::missing(Name::OnTheCar(name), fields.needs());
        };
        match outcome {
            Err(why) => unsolved(name, why),
            Ok(solved) => match solved.corrections.get(number) {
                Some(correction) => judge(*plane, came, solved, correction),
                None => Finding::impossible(Name::OnTheCar(name), crate::stage::Reason::NotComputable),
            },
        }
    });
    each.collect()
}

/// As was predicted, or better at all.
///
/// Told with the ± that the correction foretold, so that it is the same number there and here. That and the scatter of this run go together by the root of their squares; less than
/// predicted is never held against it. What is within the scatter of nothing is good, however little it gained:
/// no reading can tell more. What shakes surely more than before comes off again. An end that had nothing to gain is never asked to be better.
fn judge(plane: Plane, came: f64, solved: &Solved, correction: &Correction) -> Finding {
    let (before, scatter) = (solved.before(plane), solved.runs.scatter);
    let by_scatter = circle_95(FREEDOM_OF_FIVE) * scatter;
    let doubt = correction.left_doubt.hypot(by_scatter);
    let left = said(correction.expected_left, correction.left_doubt);
    let (done, as_predicted) = (came <= by_scatter, came <= left + doubt);
    let gains = solved.has_to_gain(plane, correction);
    // Two readings and both at the same chance: so much apart they are surely two.
    let worse = came - before > by_scatter.hypot(by_scatter);
    let verdict = if done && as_predicted {
        Verdict::Good
    } else if worse {
        Verdict::Stop(why(RunReason::Worse))
    } else if gains && before - came <= scatter {
        Verdict::Watch(why(RunReason::NoBetter))
    } else if as_predicted {
        Verdict::Good
    } else if gains {
        Verdict::Watch(why(RunReason::NotAsPredicted))
    } else {
        Verdict::Watch(why(RunReason::MoreThanPredicted))
    };
    let value = Value {
        amount: Amount::Reading(came),
        plus_minus: Some(Amount::Reading(by_scatter)),
        sense: Some(Sense::OnTheCar(RunSense::Predicted {
            left,
            doubt: correction.left_doubt,
            before,
            done,
        })),
    };
    Finding::known(Name::OnTheCar(OnTheCar::Check(plane)), value, verdict).from(&[Source::DoubtOfRuns])
}

/// After a check run that is good at every end, what was to be put on is done: good, whatever the correction's own ±
/// was, since the run proved it. What pulls too hard to be run stays stopped.
pub(super) fn finish(
    job: &Job,
    outcome: &Outcome,
    found: &mut [Finding],
    check: &[Finding],
    kept: &[Finding],
) {
    let Ok(solved) = outcome else { return };
    if check.is_empty() || check.iter().any(|one| one.verdict != Verdict::Good) {
        return;
    }
    for (correction, plane) in solved.corrections.iter().zip(planes(job.balance.by)) {
        let named = |what: OnTheCar| move |one: &&Finding| one.name == Name::OnTheCar(what);
        let read = check.iter().find(named(OnTheCar::Check(*plane))).and_then(Finding::value);
        let Some(came) = read.map(|value| value.amount) else { continue };
        let Amount::Reading(reading) = came else { continue };
        let keeps = kept.iter().find(named(OnTheCar::Kept(*plane)));
        let clips = if !solved.is_worth(*plane, correction) {
            Clips::None
        } else if keeps.is_some_and(|one| one.verdict == Verdict::Good) {
            Clips::Kept
        } else {
            Clips::NotTold
        };
        let name = Name::OnTheCar(OnTheCar::PutOn(*plane));
        let put_on = found.iter_mut().find(|one| one.name == name);
        let Some(put_on) = put_on.filter(|one| !matches!(one.verdict, Verdict::Stop(_))) else {
            continue;
        };
        let sense = RunSense::Done { came: reading, before: solved.before(*plane), clips };
        let value = Value { amount: came, plus_minus: None, sense: Some(Sense::OnTheCar(sense)) };
        put_on.answer = Answer::Known(value);
        put_on.verdict = Verdict::Good;
    }
}

/// Whether a check run was begun, at an end that is read.
pub(super) fn is_begun(job: &Job) -> bool {
    let empty = |end: &usize| matches!(read(job, Entry::CheckAmplitude(*end)), Ok(None));
    !job.balance.ends().iter().all(empty)
}

/// Whether the check run is what comes next: a correction is worth it, and none was begun.
pub fn check_is_next(job: &Job) -> bool {
    let worth = |solved: &Solved| {
        let mut all = solved.corrections.iter().zip(planes(job.balance.by));
        all.any(|(correction, plane)| solved.is_worth(*plane, correction))
    };
    !is_begun(job) && super::solved(job).is_ok_and(|solved| worth(&solved))
}
