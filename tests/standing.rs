//! When the shaft as a whole may be called good: rules of this house, nothing outside.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::job::{Entry, Job, PassKind, WeightsCame, sample};
use shaftwright::stage::{Caution, Stage, Standing, whole};

fn shaft(change: impl FnOnce(&mut Job)) -> Standing {
    let mut job = sample();
    change(&mut job);
    whole(&job).shaft
}

fn stage(job: &Job, which: Stage) -> Standing {
    whole(job).stages.iter().find(|(stage, _)| *stage == which).unwrap().1
}

/// The best that can be said so far: the slip yoke's travel is not asked, and its set point stays at
/// "watch" until it is.
const BEST: Standing = Standing::Watch;

#[test]
fn the_sample_is_as_good_as_can_be() {
    assert_eq!(shaft(|_| {}), BEST);
    let job = sample();
    let others = Stage::ALL.into_iter().filter(|which| *which != Stage::Measure);
    assert!(others.into_iter().all(|which| stage(&job, which) == Standing::Good));
}

#[test]
fn never_good_before_check() {
    for entry in [Entry::TopSpeed, Entry::TubeWall] {
        assert_eq!(shaft(|job| job.put(entry, "")), Standing::NotYet, "{entry:?}");
    }
}

#[test]
fn never_good_lengthened() {
    let longer = |job: &mut Job| {
        job.put(Entry::TopSpeed, "3500");
        for reading in 0..3 {
            job.put(Entry::WantedReading(reading), "57-3/4");
        }
    };
    assert_eq!(shaft(longer), Standing::Watch);
}

#[test]
fn never_good_before_a_turn_after_welding() {
    let before_welding = |job: &mut Job| {
        job.truing.passes.retain(|pass| pass.kind != PassKind::Welded);
    };
    assert_eq!(shaft(before_welding), Standing::NotYet);
    let mut job = sample();
    before_welding(&mut job);
    assert_eq!(stage(&job, Stage::True), Standing::NotYet);
}

#[test]
fn never_good_with_a_wrong_entry_that_something_is_checked_by() {
    for entry in [Entry::Spigot, Entry::FarWeldLine, Entry::Kerf, Entry::SetPoint, Entry::ShaftMass] {
        assert_eq!(shaft(|job| job.put(entry, "banana")), Standing::NotYet, "{entry:?}");
    }
}

#[test]
fn a_shaft_without_weights_can_be_judged() {
    let without = |job: &mut Job| {
        job.weights.came = WeightsCame::None;
        job.weights.rows.clear();
    };
    assert_eq!(shaft(without), BEST);
}

#[test]
fn one_stop_stops_the_shaft() {
    assert_eq!(shaft(|job| job.put(Entry::SetPoint, "1/8")), Standing::Stop);
    assert_eq!(shaft(|job| job.put(Entry::TopSpeed, "6000")), Standing::Stop);
    assert_eq!(shaft(|job| job.put(Entry::RearLevel, "3")), Standing::Stop);
    assert_eq!(shaft(|job| job.put(Entry::StationReading(2, 4), "40")), Standing::Stop);
}

#[test]
fn cautions_stand_where_they_bite() {
    // The stages at which each thing is done: the shaft comes off to be measured, tacking begins at
    // Phase, weights are put back by welding.
    for (caution, stages) in [
        (Caution::LoadedSuspension, &[Stage::Measure][..]),
        (Caution::ChockBothWays, &[Stage::Measure]),
        (Caution::SupportTheShaft, &[Stage::Measure, Stage::Cut]),
        (Caution::EstimateOnly, &[Stage::Check]),
        (Caution::CuttingThinTube, &[Stage::Cut]),
        (Caution::ScrapTube, &[Stage::Cut]),
        (Caution::MarkFirst, &[Stage::Cut, Stage::Phase]),
        (Caution::OutOfPhaseOnPurpose, &[Stage::Phase]),
        (Caution::TurnByHand, &[Stage::True]),
        (Caution::BeforeWelding, &[Stage::Phase, Stage::True, Stage::Weights]),
        (Caution::HeatSparingly, &[Stage::True]),
        (Caution::NotABalancingMachine, &[Stage::Weights]),
        (Caution::NobodyInThePlane, &[Stage::Weights]),
    ] {
        for stage in Stage::ALL {
            assert_eq!(
                stage.cautions().contains(&caution),
                stages.contains(&stage),
                "{caution:?} {stage:?}"
            );
        }
    }
}
