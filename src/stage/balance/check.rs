//! The check run: what was predicted against what came.

use super::found::{OnTheCar, Plane, RunReason, RunSense};
use super::judged::{Outcome, first_at};
use super::runs::planes;
use super::solved::said;
use super::{unsolved, why};
use crate::job::{Entry, Job};
use crate::mechanics::student::circle_95;
use crate::mechanics::trial::Correction;
use crate::stage::amount::Amount;
use crate::stage::field::{Fields, read};
use crate::stage::finding::{Finding, Name, Sense, Source, Value, Verdict};

/// What came of the correction at each end; nothing before it was read at one.
pub(super) fn findings(job: &Job, outcome: &Outcome) -> Vec<Finding> {
    let ends = planes(job).len();
    let begun = (0..ends).any(|end| !matches!(read(job, Entry::CheckAmplitude(end)), Ok(None)));
    if !begun {
        return Vec::new();
    }
    let each = planes(job).iter().enumerate().map(|(end, plane)| {
        let name = OnTheCar::Check(*plane);
        let mut fields = Fields::of(job);
        let Some(came) = fields.reading(Entry::CheckAmplitude(end)) else {
            return Finding::missing(Name::OnTheCar(name), fields.needs());
        };
        match outcome {
            Err(why) => unsolved(name, why),
            Ok(solved) => {
                let first = first_at(&solved.runs, *plane).amplitude;
                match solved.corrections.get(end) {
                    Some(correction) => judge(*plane, came, first, solved.runs.scatter, correction),
                    None => {
                        Finding::impossible(Name::OnTheCar(name), crate::stage::Reason::NotComputable)
                    }
                }
            }
        }
    });
    each.collect()
}

/// Better at all, and as was predicted.
///
/// The prediction's own ± and the scatter of this run go together by the root of their squares; less than
/// predicted is never held against it.
fn judge(plane: Plane, came: f64, first: f64, scatter: f64, correction: &Correction) -> Finding {
    let by_scatter = circle_95(f64::INFINITY) * scatter;
    let doubt = correction.left_doubt.hypot(by_scatter);
    let left = said(correction.expected_left, correction.left_doubt);
    let verdict = if first - came <= scatter {
        Verdict::Watch(why(RunReason::NoBetter))
    } else if came > left + doubt {
        Verdict::Watch(why(RunReason::NotAsPredicted))
    } else {
        Verdict::Good
    };
    let done = came <= by_scatter;
    let value = Value {
        amount: Amount::Reading(came),
        plus_minus: Some(Amount::Reading(by_scatter)),
        sense: Some(Sense::OnTheCar(RunSense::Predicted { left, doubt, first, done })),
    };
    Finding::known(Name::OnTheCar(OnTheCar::Check(plane)), value, verdict).from(&[Source::DoubtOfRuns])
}
