//! The other places along the tube: none must look good alone.

use super::bent::begun;
use super::dial::{Turn, turn};
use super::field::Fields;
use super::finding::{Answer, Finding, Name, Sense, Source, Verdict};
use super::judged::{as_proven, chosen_limit, offset_verdict, total};
use crate::job::Job;
use crate::quantity::{Base, Length};

/// The worst of the other places along the tube: one place must not look good alone. What is judged worst
/// comes before what reads most: an oval tube reads high and runs true.
pub(super) fn elsewhere(
    job: &Job,
    pass: usize,
    place: usize,
    limit: Length,
    source: Source,
) -> Option<Finding> {
    let mut worst: Option<(u8, f64, Finding)> = None;
    for other in begun(job, pass).into_iter().filter(|other| *other != place) {
        let (reads, finding) = match turn(job, pass, other) {
            Ok(turn) => (turn.run_out.total.base(), at_another_place(job, other, &turn, limit, source)),
            Err(blocked) => (0.0, Finding::blocked(Name::WorstAlong, blocked)),
        };
        let weight = weight(finding.verdict);
        if worst.as_ref().is_none_or(|(most, total, _)| (weight, reads) > (*most, *total)) {
            worst = Some((weight, reads, finding));
        }
    }
    worst.map(|(_, _, finding)| finding)
}

/// Another place along the tube at which the offset or the total reading stops the shaft.
pub(super) fn worse_at(job: &Job, pass: usize, place: usize) -> Option<usize> {
    let (limit, source) = chosen_limit(job, &mut Fields::of(job))?;
    let worst = elsewhere(job, pass, place, limit, source)?;
    match worst.value()?.sense {
        Some(Sense::AtPlace(other)) if matches!(worst.verdict, Verdict::Stop(_)) => Some(other),
        _ => None,
    }
}

/// Another place along the tube, judged by its total reading and by its offset.
fn at_another_place(job: &Job, other: usize, turn: &Turn, limit: Length, source: Source) -> Finding {
    let mut finding = total(job, turn, limit, source);
    let offset = offset_verdict(turn, limit);
    if weight(offset) > weight(finding.verdict) {
        finding.verdict = offset;
    }
    finding.name = Name::WorstAlong;
    if let Answer::Known(value) = &mut finding.answer {
        value.sense = Some(Sense::AtPlace(other));
    }
    as_proven(job, turn, finding)
}

/// How much a verdict says against the shaft, in the order in which a stage counts them.
const fn weight(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Good | Verdict::Figure | Verdict::IfWanted => 0,
        Verdict::Watch(_) => 1,
        Verdict::NotYet | Verdict::Unjudged(_) => 2,
        Verdict::Stop(_) => 3,
    }
}
