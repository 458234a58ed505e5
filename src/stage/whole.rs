//! The shaft as a whole: the worst of its stages, and never good before Check is done.

use super::finding::{Finding, Verdict};
use super::{Stage, measure};
use crate::job::Job;

/// The standing of a stage, or of the whole shaft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing stands against it.
    Good,
    /// Something wants care.
    Watch,
    /// Something must be mended first.
    Stop,
    /// Something is still missing.
    NotYet,
    /// Nobody asked for it, and nothing waits for it.
    IfWanted,
}

/// The standing of every stage and of the shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct Whole {
    /// Each stage, in the order of the work.
    pub stages: Vec<(Stage, Standing)>,
    /// The shaft.
    pub shaft: Standing,
    /// The shaft is made longer.
    pub lengthened: bool,
}

/// The standing of a stage from its findings.
pub fn standing(findings: &[Finding]) -> Standing {
    let any = |test: fn(&Verdict) -> bool| findings.iter().any(|finding| test(&finding.verdict));
    if any(|verdict| matches!(verdict, Verdict::Stop(_))) {
        Standing::Stop
    } else if any(|verdict| matches!(verdict, Verdict::NotYet | Verdict::Unjudged(_))) {
        Standing::NotYet
    } else if any(|verdict| matches!(verdict, Verdict::Watch(_))) {
        Standing::Watch
    } else if !findings.is_empty() && findings.iter().all(|found| found.verdict == Verdict::IfWanted) {
        Standing::IfWanted
    } else {
        Standing::Good
    }
}

/// Looks at the whole shaft. Until every stage has its answer, Check among them, the shaft is not
/// judged; a lengthened shaft is never better than "watch". A stage that is there only for those who want it
/// holds nothing up while nobody asked for it.
pub fn whole(job: &Job) -> Whole {
    let stages: Vec<(Stage, Standing)> =
        Stage::ALL.into_iter().map(|stage| (stage, standing(&stage.findings(job)))).collect();
    let lengthened = measure::length_change(job).is_ok_and(|change| change.lengthens());
    let any = |what: Standing| stages.iter().any(|(_, standing)| *standing == what);
    let shaft = if any(Standing::Stop) {
        Standing::Stop
    } else if any(Standing::NotYet) {
        Standing::NotYet
    } else if lengthened || any(Standing::Watch) {
        Standing::Watch
    } else {
        Standing::Good
    };
    Whole { stages, shaft, lengthened }
}
