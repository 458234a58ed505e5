//! No text, however bad, makes a stage give a number that is none, or stop.
//!
//! A seeded walk: the same jobs at every run, so that what fails once can be looked at. No outside
//! values; the law is that every amount in every finding is finite and in its place.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use any_job::{Luck, any_job};
use shaftwright::job::{Job, WeightRow, from_text, to_text};
use shaftwright::quantity::{as_millimetres, in_inches};
use shaftwright::stage::{
    Amount, Answer, Finding, Need, Reason, Sense, Stage, Verdict, Why, cut, read, truing, whole,
};

#[path = "no_bad_number/any_job.rs"]
mod any_job;

fn amounts_of(sense: Sense) -> Vec<Amount> {
    match sense {
        Sense::At(at) | Sense::LobesAt(at) | Sense::MoveAwayFrom(at) | Sense::FileAt(at) => {
            vec![Amount::Clock(at)]
        }
        Sense::Of { available: q } | Sense::UpTo { to: q } | Sense::Closes { wanted: q } => {
            vec![Amount::Length(q)]
        }
        Sense::Place { clock, distance } => vec![Amount::Clock(clock), Amount::Length(distance)],
        _ => Vec::new(),
    }
}

fn amounts_in(reason: Reason) -> Vec<Amount> {
    match reason {
        Reason::LooseLength { allowed: q }
        | Reason::TooCloseToBump { least: q }
        | Reason::NearBump { least: q }
        | Reason::TooLittleSpline { least: q }
        | Reason::NearLeastSpline { least: q }
        | Reason::TwoReadingsDiffer { by: q }
        | Reason::RoutesDisagree { doubt: q }
        | Reason::WeldLineDisagrees { by: q }
        | Reason::CutTooFarIn { removed: q }
        | Reason::FaceOverLimit { allowed: q }
        | Reason::FaceNearLimit { allowed: q } => vec![Amount::Length(q)],
        Reason::ReadingApart { by, others, .. } => vec![Amount::Length(by), Amount::Length(others)],
        Reason::LipInGroove { out, inward } => {
            out.into_iter().chain(inward).map(Amount::Length).collect()
        }
        Reason::OverWhirlShare { allowed } | Reason::NearWhirlShare { allowed } => {
            vec![Amount::Share(allowed)]
        }
        Reason::LessThanAKerf { kerf: q } | Reason::DialDrifted { by: q } => vec![Amount::Length(q)],
        Reason::OffsetOverLimit { limit: q } | Reason::OffsetNearLimit { limit: q } => {
            vec![Amount::FineLength(q)]
        }
        Reason::TotalOverLimit { limit: q } | Reason::OnTheWeld { keep: q } => vec![Amount::Length(q)],
        Reason::OutOfPhase { allowed: q } | Reason::PhaseWithinDoubt { allowed: q } => {
            vec![Amount::Angle(q)]
        }
        Reason::SamePlace { at } => vec![Amount::Clock(at)],
        Reason::OverGrade { permitted: q } | Reason::NearGrade { permitted: q } => {
            vec![Amount::Unbalance(q)]
        }
        _ => Vec::new(),
    }
}

/// Every amount that a finding would show.
fn amounts(finding: &Finding) -> Vec<Amount> {
    let mut all: Vec<Amount> = finding.limit.iter().map(|limit| limit.amount).collect();
    for step in &finding.working {
        all.extend(&step.put_in);
        all.push(step.gives);
    }
    if let Answer::Known(value) = &finding.answer {
        all.push(value.amount);
        all.extend(value.plus_minus);
        all.extend(value.sense.into_iter().flat_map(amounts_of));
    }
    all.extend(finding.causes.iter().map(|(_, share)| Amount::Share(*share)));
    match finding.verdict {
        Verdict::Watch(reason) | Verdict::Stop(reason) | Verdict::Unjudged(reason) => {
            all.extend(amounts_in(reason));
        }
        _ => {}
    }
    all
}

/// A value has no sign of its own where a sense says which way, and a ± never has one.
fn is_negative(amount: Amount) -> bool {
    match amount {
        Amount::Length(q) | Amount::PlainLength(q) | Amount::FineLength(q) => as_millimetres(q) < 0.0,
        _ => false,
    }
}

fn check(finding: &Finding, job: &Job) {
    let about = || format!("{finding:?}\nof {}", to_text(job).unwrap());
    assert!(amounts(finding).into_iter().all(Amount::is_finite), "{}", about());
    match &finding.answer {
        Answer::Known(value) => {
            assert!(!value.plus_minus.is_some_and(is_negative), "{}", about());
            // A place on the slip's own line may lie inside its zero.
            let signed = matches!(value.sense, Some(Sense::UpTo { .. }));
            assert!(!(value.sense.is_some() && !signed && is_negative(value.amount)), "{}", about());
            // What the guard catches must not happen at all with fields inside their ranges.
            assert!(!matches!(finding.verdict, Verdict::NotYet), "{}", about());
        }
        Answer::Missing(needs) => {
            assert_eq!(finding.verdict, Verdict::NotYet, "{}", about());
            assert!(!needs.is_empty(), "nothing is named: {}", about());
            needs.iter().for_each(|need| named_rightly(need, job));
        }
        Answer::Impossible(reason) => {
            assert_ne!(*reason, Reason::NotComputable, "{}", about());
        }
    }
}

/// A field said to be empty is empty, one said to be wrong is wrong when read by itself.
fn named_rightly(need: &Need, job: &Job) {
    match (&need.why, read(job, need.entry)) {
        (Why::Empty, Ok(None)) => {}
        (Why::Wrong(said), Err(found)) => assert_eq!(said, &found),
        (why, found) => panic!("{:?}: {why:?}, but read alone {found:?}", need.entry),
    }
}

/// Jobs in one walk: a few seconds, unoptimised.
const JOBS: usize = 2500;

#[test]
fn whatever_is_typed() {
    let (mut luck, mut known, mut good) = (Luck(20_260_101), 0, 0);
    for _ in 0..JOBS {
        let job = any_job(&mut luck);
        for stage in Stage::ALL {
            for finding in stage.findings(&job) {
                check(&finding, &job);
                known += usize::from(matches!(finding.answer, Answer::Known(_)));
                good += usize::from(finding.verdict == Verdict::Good);
            }
        }
        for pass in 0..=job.truing.passes.len() {
            truing::findings(&job, pass).iter().for_each(|finding| check(finding, &job));
        }
        for mark in cut::cut_list(&job).iter().flat_map(|list| &list.marks) {
            assert!(in_inches(mark.from_far).is_finite());
        }
        let standing = whole(&job);
        assert_eq!(standing.stages.len(), Stage::ALL.len());
        // What was typed comes back from the disk as it was typed; a list comes back with a row.
        let mut kept = job.clone();
        kept.weights.rows.resize_with(job.weights.rows.len().max(1), WeightRow::default);
        assert_eq!(from_text(&to_text(&job).unwrap()).unwrap(), kept);
    }
    // The walk must reach the sums and not only their guards: two values a job at the least.
    assert!(known > 2 * JOBS && good > JOBS / 4, "{known} known, {good} good");
}
