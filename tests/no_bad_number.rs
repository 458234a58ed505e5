//! No text, however bad, makes a stage give a number that is none, or stop.
//!
//! A seeded walk: the same jobs at every run, so that what fails once can be looked at. No outside
//! values; the law is that every amount in every finding is finite and in its place.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::BTreeSet;

use any_job::{Luck, any_job, near_the_sample};
use shaftwright::job::{Entry, Job, Ready, WeightRow, from_text, to_text};
use shaftwright::quantity::{as_millimetres, in_inches};
use shaftwright::stage::balance::{RunReason, RunSense};
use shaftwright::stage::{
    Against, Amount, Answer, Answered, Finding, Name, Need, Reason, Sense, Stage, Verdict, Why, cut,
    read, truing, whole,
};

#[path = "no_bad_number/any_job.rs"]
mod any_job;
#[path = "no_bad_number/check.rs"]
mod fitness;
#[path = "no_bad_number/weights.rs"]
mod weights;

/// Every number that a sense carries. No wildcard: a new sense must say here what it holds.
fn amounts_of(sense: Sense) -> Vec<Amount> {
    match sense {
        Sense::At(at)
        | Sense::LobesAt(at)
        | Sense::OpenAt(at)
        | Sense::InThisOrder { from: at, side: _ }
        | Sense::SetAside { at, out: _, count: _, by: _ }
        | Sense::FitsLeast(at)
        | Sense::HeatAt(at)
        | Sense::LeaveToShop(at)
        | Sense::LeaveWelded(at)
        | Sense::FileAt(at) => vec![Amount::Clock(at)],
        Sense::NotHere { at, cause: _, kink } => {
            core::iter::once(at).chain(kink).map(Amount::Clock).collect()
        }
        Sense::Of { available: q } | Sense::UpTo { to: q } | Sense::Closes { wanted: q } => {
            vec![Amount::Length(q)]
        }
        Sense::Tap { at, by, answered, may_stay: _ } => {
            let mut all = vec![Amount::Clock(at), Amount::FineLength(by)];
            all.extend(answered.into_iter().flat_map(amounts_of_answer));
            all
        }
        Sense::Moved { toward, answered, elsewhere: _ } => {
            let answer = answered.into_iter().flat_map(amounts_of_answer);
            core::iter::once(Amount::Clock(toward)).chain(answer).collect()
        }
        Sense::Bent(by) => {
            let kink = by.kink.map(Amount::Angle);
            [Amount::Clock(by.at), Amount::FineLength(by.left)].into_iter().chain(kink).collect()
        }
        Sense::AtPlace(place) => vec![Amount::Count(place)],
        Sense::Loose { lean } => vec![Amount::Angle(lean)],
        Sense::AsOneJoint { angle, front, rear } => [angle, front, rear].map(Amount::Angle).into(),
        Sense::ShakesShaft(q) | Sense::InsteadOf(q) => vec![Amount::Acceleration(q)],
        Sense::LimitedBy { shaft, by: _ } => vec![Amount::Speed(shaft)],
        Sense::Steeper { by, was } => [by, was].map(Amount::Angle).into(),
        Sense::ShaftSwings { share, lead } => vec![Amount::Share(share), Amount::Angle(lead)],
        Sense::Reset(reset) => {
            let mut all: Vec<Amount> = reset.joints.map(Amount::Angle).into();
            all.extend([Amount::Angle(reset.to), Amount::Acceleration(reset.left)]);
            all.extend(reset.thick.map(Amount::Length));
            all.extend(reset.against.and_then(|against| match against {
                Against::NoBetter => None,
                Against::TooMuchForAWedge { most: q }
                | Against::TooSharp { allowed: q }
                | Against::TooStraight { least: q }
                | Against::Parallel { allowed: q } => Some(Amount::Angle(q)),
                Against::Shakes { allowed } => Some(Amount::Acceleration(allowed)),
            }));
            all
        }
        Sense::OnTheCar(sense) => amounts_of_runs(sense),
        Sense::Fit(sense) => fitness::amounts_of(sense),
        Sense::Weight(sense) => weights::amounts_of(sense),
        Sense::Remove
        | Sense::Add
        | Sense::TakenOut
        | Sense::LeaveAlone
        | Sense::Tight
        | Sense::FileBack
        | Sense::TurnClockwise
        | Sense::TwistClockwise
        | Sense::TwistCounterclockwise
        | Sense::NoPlane
        | Sense::TurnCounterclockwise
        | Sense::StandsClockwise
        | Sense::StandsCounterclockwise => Vec::new(),
    }
}

fn amounts_of_runs(sense: RunSense) -> Vec<Amount> {
    match sense {
        RunSense::PutOn { end: _, at, doubt, radius, added: _, pull, check_next: _ } => {
            let (around, pull) = (doubt.map(Amount::Angle), pull.map(Amount::Force));
            let placed = [Amount::Clock(at), Amount::Length(radius)];
            placed.into_iter().chain(around).chain(pull).collect()
        }
        RunSense::Screws { half, at: [one, other], middle, alone: _ } => {
            let mut all: Vec<Amount> = [one, other, middle].map(Amount::Clock).into();
            all.push(Amount::Angle(half));
            all
        }
        RunSense::Done { came, before, clips: _ } => [came, before].map(Amount::Reading).into(),
        RunSense::Was { first } => vec![Amount::Reading(first)],
        RunSense::AtThatSpeed { share, road } => {
            share.map(Amount::Share).into_iter().chain(road.map(Amount::RoadSpeed)).collect()
        }
        RunSense::AsClips { head, half, far: _ } => {
            core::iter::once(Amount::Mass(head)).chain(half.map(Amount::Angle)).collect()
        }
        RunSense::TimesScatter { least: number, phase: _ }
        | RunSense::ByLuck { freedom: number, agree: _ } => {
            vec![Amount::Share(number)]
        }
        RunSense::Predicted { left, doubt, before, done: _ } => {
            [left, doubt, before].map(Amount::Reading).into()
        }
        RunSense::Kept(kept) => weights::amounts_of_kept(kept),
        RunSense::NotKnown { at, doubt } => vec![Amount::Clock(at), Amount::Mass(doubt)],
        RunSense::Nothing | RunSense::StopHere | RunSense::ToOne { .. } => Vec::new(),
    }
}

fn amounts_in_runs(reason: RunReason) -> Vec<Amount> {
    match reason {
        RunReason::TwoAnswers { pair } => {
            pair.into_iter().flat_map(|(mass, at)| [Amount::Mass(mass), Amount::Clock(at)]).collect()
        }
        RunReason::NoEffect { times, needed } => [times, needed].map(Amount::Share).into(),
        RunReason::NotTold { condition: number }
        | RunReason::BarelyTold { condition: number }
        | RunReason::SmallEffect { least: number } => vec![Amount::Share(number)],
        RunReason::HeavyTrial { most: mass }
        | RunReason::TooHeavyTrial { most: mass }
        | RunReason::NoTrialShows { least: mass }
        | RunReason::LightHeads { needed: mass } => vec![Amount::Mass(mass)],
        RunReason::HeavyCorrection { tenth: force } | RunReason::TooHeavyCorrection { load: force } => {
            vec![Amount::Force(force)]
        }
        RunReason::NoTrialByHeads { head, speed } => vec![Amount::Mass(head), Amount::Speed(speed)],
        RunReason::Disagree { scatter } | RunReason::HardlyAgree { scatter } => {
            vec![Amount::Reading(scatter)]
        }
        RunReason::OverWhirl { allowed } => vec![Amount::Share(allowed)],
        RunReason::IfItShakes
        | RunReason::OtherRuns { .. }
        | RunReason::NotReady
        | RunReason::SameRuns
        | RunReason::NoScatter
        | RunReason::NothingShakes
        | RunReason::ReadsNothing
        | RunReason::SamePlace
        | RunReason::SmallChange
        | RunReason::NotKnownEnough
        | RunReason::NoBetter
        | RunReason::Worse
        | RunReason::PullUnknown
        | RunReason::FastOnTheRoad
        | RunReason::NoSum
        | RunReason::MoreThanPredicted
        | RunReason::NotKept
        | RunReason::NoPlaceToKeep
        | RunReason::NotAsPredicted => Vec::new(),
    }
}

fn amounts_of_answer(answered: Answered) -> [Amount; 2] {
    [Amount::Share(answered.share), Amount::Angle(answered.turned)]
}

/// Every number that a reason carries. No wildcard: a new reason must say here what it holds.
fn amounts_in(reason: Reason) -> Vec<Amount> {
    match reason {
        Reason::LooseLength { allowed: q }
        | Reason::TooCloseToBump { least: q }
        | Reason::NearBump { least: q }
        | Reason::TooLittleSpline { least: q }
        | Reason::NearLeastSpline { least: q }
        | Reason::TwoReadingsDiffer { by: q }
        | Reason::WeldLineDisagrees { by: q }
        | Reason::CutTooFarIn { removed: q }
        | Reason::CutOnSpigot { least: q }
        | Reason::CutNearSpigot { least: q }
        | Reason::WeldLineFar { beyond: q }
        | Reason::LessThanAKerf { slots: q }
        | Reason::SlotTakesTooMuch { kerf: q }
        | Reason::SamePlaceAlong { z: q }
        | Reason::PlaceOffTheShaft { z: q }
        | Reason::OnTheWeld { keep: q } => vec![Amount::Length(q)],
        Reason::FaceOverLimit { allowed: q }
        | Reason::FaceNearLimit { allowed: q }
        | Reason::DentOrKink { most: q }
        | Reason::DialDrifted { by: q }
        | Reason::WeldedOffset { limit: q }
        | Reason::OffsetNearLimit { limit: q }
        | Reason::TotalOverLimit { limit: q } => vec![Amount::FineLength(q)],
        Reason::OffsetOverLimit { limit, shows } => [limit, shows].map(Amount::FineLength).into(),
        Reason::WorseAt { place } => vec![Amount::Count(place)],
        Reason::RoutesDisagree { by, doubt } => vec![Amount::Length(by), Amount::Length(doubt)],
        Reason::ReadingApart { entry: _, by, others } => {
            vec![Amount::Length(by), Amount::Length(others)]
        }
        Reason::LipInGroove { out, inward } => {
            out.into_iter().chain(inward).map(Amount::Length).collect()
        }
        Reason::OverWhirlShare { allowed: q }
        | Reason::NearWhirlShare { allowed: q }
        | Reason::CutItOff { times: q } => {
            vec![Amount::Share(q)]
        }
        Reason::OverShake { allowed: q }
        | Reason::OverShakeThere { allowed: q }
        | Reason::NearShake { allowed: q } => {
            vec![Amount::Acceleration(q)]
        }
        Reason::JointOverMost { allowed: q }
        | Reason::JointNearLeast { least: q }
        | Reason::JointOverMaker { allowed: q }
        | Reason::JointFar { angle: q }
        | Reason::ParallelOver { allowed: q }
        | Reason::JointNearMost { allowed: q }
        | Reason::JointTooStraight { least: q }
        | Reason::JointTooSharp { rear: _, angle: q }
        | Reason::OutOfPhase { allowed: q }
        | Reason::PhaseWithinDoubt { allowed: q }
        | Reason::WeldedOutOfPhase { allowed: q }
        | Reason::WeldedNearLimit { allowed: q }
        | Reason::NotOpposite { beside: q }
        | Reason::TwoAnglesDiffer { by: q } => vec![Amount::Angle(q)],
        Reason::AngleApart { entry: _, by, others } => vec![Amount::Angle(by), Amount::Angle(others)],
        Reason::SamePlace { at } => vec![Amount::Clock(at)],
        Reason::Weight(reason) => weights::amounts_in(reason),
        Reason::OverGrade { permitted: q } | Reason::NearGrade { permitted: q } => {
            vec![Amount::Unbalance(q)]
        }
        Reason::FewStations { better: count } | Reason::ThreeStations { better: count } => {
            vec![Amount::Count(count)]
        }
        Reason::TooFewStations { got, needed } | Reason::TooFewPlaces { got, needed } => {
            vec![Amount::Count(got), Amount::Count(needed)]
        }
        Reason::DifferenceWithinDoubt
        | Reason::OneReading
        | Reason::OutOfReach
        | Reason::NoRoomToReset
        | Reason::ReadAtSetPoint
        | Reason::Lengthened
        | Reason::LipOffBarrel
        | Reason::NearGroove
        | Reason::TravelUnfit
        | Reason::MoreThanTheTube
        | Reason::WeldDrawsMore
        | Reason::FaceOverSpigot
        | Reason::TravelNotChecked
        | Reason::SpigotLoose
        | Reason::SpigotTight
        | Reason::FaceNotSeen
        | Reason::FaceLimitUnknown
        | Reason::OpenTheWeld
        | Reason::FirstCutNotProved
        | Reason::WeldLineNotProved
        | Reason::OtherFace
        | Reason::PartRead
        | Reason::SpigotWontGoIn
        | Reason::OffsetNotSeen
        | Reason::OneSided
        | Reason::HeatDoesNoMore
        | Reason::Rough
        | Reason::HighBelowLow
        | Reason::VeesOrWeldOff
        | Reason::NothingToTell
        | Reason::SetUpHides
        | Reason::GradeUnknown
        | Reason::OffTheShaft
        | Reason::WrongField
        | Reason::NotWelded
        | Reason::PhaseNotWelded
        | Reason::QuarterTurn
        | Reason::NotComputable => Vec::new(),
        Reason::OnTheCar(reason) => amounts_in_runs(reason),
        Reason::Fit(reason) => fitness::amounts_in(reason),
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
    all.extend(reason_of(finding).into_iter().flat_map(amounts_in));
    all
}

fn reason_of(finding: &Finding) -> Option<Reason> {
    match finding.verdict {
        Verdict::Watch(reason) | Verdict::Stop(reason) | Verdict::Unjudged(reason) => Some(reason),
        Verdict::Good | Verdict::Figure | Verdict::NotYet | Verdict::IfWanted => None,
    }
}

/// A value has no sign of its own where a sense says which way, and a ± never has one.
fn is_negative(amount: Amount) -> bool {
    match amount {
        Amount::Length(q) | Amount::BothUnits(q) | Amount::PlainLength(q) | Amount::FineLength(q) => {
            as_millimetres(q) < 0.0
        }
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
            // Figures that nothing is judged by hold nothing up.
            let of_a_change = needs.iter().all(|need| {
                matches!(need.entry, Entry::SpringPad | Entry::MountArm | Entry::JointOverhang)
            });
            let of_a_help = matches!(finding.name, Name::JointOpens | Name::BentBy | Name::RunOutGrade);
            let held_up = if of_a_change || of_a_help { Verdict::Figure } else { Verdict::NotYet };
            assert_eq!(finding.verdict, held_up, "{}", about());
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

/// What a walk met on its way.
#[derive(Default)]
struct Walk {
    known: usize,
    good: usize,
    reasons: BTreeSet<String>,
    senses: BTreeSet<String>,
}

impl Walk {
    fn look(&mut self, job: &Job) {
        for stage in Stage::ALL {
            for finding in stage.findings(job) {
                check(&finding, job);
                self.reasons.extend(reason_of(&finding).map(word));
                self.senses.extend(finding.value().and_then(|value| value.sense).map(word));
                self.known += usize::from(matches!(finding.answer, Answer::Known(_)));
                self.good += usize::from(finding.verdict == Verdict::Good);
            }
        }
        for pass in 0..=job.truing.passes.len() {
            for place in 0..=job.truing.places.len() {
                truing::findings(job, pass, place).iter().for_each(|finding| check(finding, job));
            }
        }
        for mark in cut::cut_list(job).iter().flat_map(|list| &list.marks) {
            let places = [Some(mark.from_far), mark.nearest.map(|(_, out)| out)];
            assert!(places.into_iter().flatten().all(|place| in_inches(place).is_finite()));
        }
        assert!(cut::clock_arcs(job).iter().all(|(_, arc)| in_inches(*arc).is_finite()));
        let standing = whole(job);
        assert_eq!(standing.stages.len(), Stage::ALL.len());
        // What was typed comes back from the disk as it was typed; a list comes back with a row.
        let mut kept = job.clone();
        kept.weights.rows.resize_with(job.weights.rows.len().max(1), WeightRow::default);
        // That the cautions are met is said anew each time.
        kept.balance.ready = Ready::NotYet;
        assert_eq!(from_text(&to_text(job).unwrap()).unwrap(), kept);
    }
}

/// The name of a reason or a sense, without its numbers.
fn word(what: impl std::fmt::Debug) -> String {
    format!("{what:?}").split([' ', '(']).next().unwrap().to_owned()
}

/// Jobs in one walk: a few seconds, unoptimised.
const JOBS: usize = 2500;

#[test]
fn whatever_is_typed() {
    let (mut luck, mut walk) = (Luck(20_260_101), Walk::default());
    (0..JOBS).for_each(|_| walk.look(&any_job(&mut luck)));
    // The walk must reach the sums and not only their guards: three values a job at the least, and two
    // good in five jobs.
    let Walk { known, good, .. } = walk;
    assert!(known > 3 * JOBS && good > 2 * JOBS / 5, "{known} known, {good} good");
}

#[test]
fn whatever_is_changed_of_a_job_that_is_good() {
    const JOBS: usize = 600;
    let (mut luck, mut walk) = (Luck(20_260_102), Walk::default());
    (0..JOBS).for_each(|_| walk.look(&near_the_sample(&mut luck)));
    // Most of the sample's values are left, and much is met of what can be said against a shaft.
    let Walk { known, good, reasons, senses } = walk;
    assert!(known > 20 * JOBS && good > 10 * JOBS, "{known} known, {good} good");
    assert!(reasons.len() > 40 && senses.len() > 13, "{reasons:?} {senses:?}");
    // Seldom said, and each with a sum of its own behind it. Too few stations are never said: the next
    // mark is asked before there is anything to fit.
    for seldom in ["NearLeastSpline", "OneSided", "SpigotWontGoIn", "WeldDrawsMore", "CutOnSpigot"] {
        assert!(reasons.contains(seldom), "{seldom} is not met");
    }
}
