//! When the shaft as a whole may be called good: rules of this house, nothing outside.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::job::{Entry, Job, PassKind, PlanBy, Ready, ShaftBy, TravelBy, WeightsCame, sample};
use shaftwright::stage::{Caution, Name, Reason, Stage, Standing, Verdict, whole};

fn shaft(change: impl FnOnce(&mut Job)) -> Standing {
    let mut job = sample();
    change(&mut job);
    whole(&job).shaft
}

fn stage(job: &Job, which: Stage) -> Standing {
    whole(job).stages.iter().find(|(stage, _)| *stage == which).unwrap().1
}

/// Why a stage of the job is not good.
fn against(job: &Job, which: Stage) -> Vec<(Name, Verdict)> {
    let all = which.findings(job).into_iter().map(|finding| (finding.name, finding.verdict));
    all.filter(|(_, verdict)| !matches!(verdict, Verdict::Good | Verdict::Figure | Verdict::IfWanted))
        .collect()
}

#[test]
fn the_sample_is_as_good_as_can_be() {
    let job = sample();
    for which in Stage::ALL {
        assert_eq!(against(&job, which), [], "{which:?}");
        let asked = which != Stage::Balance;
        let standing = if asked { Standing::Good } else { Standing::IfWanted };
        assert_eq!(stage(&job, which), standing, "{which:?}");
    }
    assert_eq!(whole(&job).shaft, Standing::Good);
    assert!(!whole(&job).lengthened);
}

#[test]
fn never_good_while_the_travel_is_not_known() {
    for entry in [Entry::BumpTravel, Entry::DroopTravel, Entry::AtBump, Entry::AtRide, Entry::AtDroop] {
        for text in ["", "banana"] {
            assert_eq!(shaft(|job| job.put(entry, text)), Standing::NotYet, "{entry:?} {text:?}");
        }
        // The set point alone proves nothing, and says so.
        let mut job = sample();
        job.put(entry, "");
        let unproved = (Name::SetPoint, Verdict::Unjudged(Reason::TravelNotChecked));
        assert!(against(&job, Stage::Measure).contains(&unproved), "{entry:?}");
    }
    let reckoned = |job: &mut Job| job.slip.by = TravelBy::Reckoned;
    assert_eq!(shaft(reckoned), Standing::NotYet);
    // Room, spline and seal each want their own number beside it.
    for entry in [Entry::BumpRoom, Entry::SplineLength, Entry::LeastEngaged, Entry::BarrelLength] {
        assert_eq!(shaft(|job| job.put(entry, "")), Standing::NotYet, "{entry:?}");
    }
}

#[test]
fn never_good_while_the_angles_are_not_known() {
    for entry in [
        Entry::GearboxSlope(0),
        Entry::PinionSlope(0),
        Entry::FrontHeight,
        Entry::RearHeight,
        Entry::TurnedRound,
        Entry::PowerRise,
        Entry::PinionArm,
        Entry::BumpRise,
        Entry::DroopRise,
        Entry::TorsionalLimit,
        Entry::InertiaLimit,
        Entry::LeastAngle,
    ] {
        for text in ["", "banana"] {
            let without = |job: &mut Job| {
                job.put(entry, text);
                // The other readings of a slope are as good as the first.
                if let Entry::GearboxSlope(_) | Entry::PinionSlope(_) = entry {
                    for reading in 1..3 {
                        let other = match entry {
                            Entry::GearboxSlope(_) => Entry::GearboxSlope(reading),
                            _ => Entry::PinionSlope(reading),
                        };
                        job.put(other, "");
                    }
                }
            };
            assert_eq!(shaft(without), Standing::NotYet, "{entry:?} {text:?}");
        }
    }
    // Read on the shaft, or with angles seen from above, it is not known before these are.
    assert_eq!(shaft(|job| job.angles.shaft_by = ShaftBy::Read), Standing::NotYet);
    assert_eq!(shaft(|job| job.angles.plan_by = PlanBy::Offset), Standing::NotYet);
    assert_eq!(shaft(|job| job.angles.plan_by = PlanBy::Angles), Standing::NotYet);
    // What only adds to what is said holds nothing up, empty or wrong.
    for entry in [Entry::SpringPad, Entry::MountArm, Entry::JointOverhang, Entry::RoadSpeed] {
        for text in ["", "banana"] {
            assert_eq!(shaft(|job| job.put(entry, text)), Standing::Good, "{entry:?} {text:?}");
        }
    }
    // A maker's figure that was meant to be there holds up what is judged by it; without it there is none.
    assert_eq!(shaft(|job| job.put(Entry::JointMost, "")), Standing::Good);
    assert_eq!(shaft(|job| job.put(Entry::JointMost, "banana")), Standing::NotYet);
    assert_eq!(shaft(|job| job.put(Entry::JointMost, "6")), Standing::Stop);
    // A shake that passes is a watch, one under power a stop.
    assert_eq!(shaft(|job| job.put(Entry::DroopRise, "6")), Standing::Watch);
    assert_eq!(shaft(|job| job.put(Entry::PowerRise, "10")), Standing::Stop);
}

#[test]
fn never_good_before_check() {
    // The fastest the shaft turns follows from engine and gears, or from the road, as well.
    let speeds = [Entry::TopSpeed, Entry::EngineLimit, Entry::RoadTop];
    for entries in [&speeds[..], &[Entry::TubeWall], &[Entry::EngineTorque, Entry::AxleLoad]] {
        let without = |job: &mut Job| entries.iter().for_each(|entry| job.put(*entry, ""));
        assert_eq!(shaft(without), Standing::NotYet, "{entries:?}");
    }
    assert_eq!(shaft(|job| job.put(Entry::TopSpeed, "")), Standing::Good);
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
    for entry in [
        Entry::Spigot,
        Entry::FarWeldLine,
        Entry::Kerf,
        Entry::SetPoint,
        Entry::ShaftMass,
        Entry::Shoulder,
        Entry::SpigotDiameter,
        Entry::Trim,
        Entry::FaceReading(4),
    ] {
        assert_eq!(shaft(|job| job.put(entry, "banana")), Standing::NotYet, "{entry:?}");
    }
}

#[test]
fn a_shaft_without_weights_can_be_judged() {
    let without = |job: &mut Job| {
        job.weights.came = WeightsCame::None;
        job.weights.rows.clear();
    };
    assert_eq!(shaft(without), Standing::Good);
}

#[test]
fn nobody_must_balance_on_the_car() {
    // Our own rule: a job without it can be good, one that began it waits for its answer.
    assert_eq!(shaft(|_| {}), Standing::Good);
    assert_eq!(stage(&sample(), Stage::Balance), Standing::IfWanted);
    // The clips' own numbers begin nothing.
    for entry in [Entry::RunSpeed, Entry::ClipRadius, Entry::ClipMass, Entry::RunScatter] {
        assert_eq!(shaft(|job| job.put(entry, "2000")), Standing::Good, "{entry:?}");
    }
    assert_eq!(shaft(|job| job.balance.ready = Ready::Ready), Standing::NotYet);
    for entry in [
        Entry::TrialMass(1),
        Entry::TrialClock(2),
        Entry::RunAmplitude(0, 0),
        Entry::RunPhase(1, 1),
        Entry::CheckAmplitude(1),
    ] {
        assert_eq!(shaft(|job| job.put(entry, "6")), Standing::NotYet, "{entry:?}");
    }
    // Nothing but the balance's own answer is kept back by it.
    let mut job = sample();
    job.balance.ready = Ready::Ready;
    for which in Stage::ALL.into_iter().filter(|which| *which != Stage::Balance) {
        assert_eq!(stage(&job, which), Standing::Good, "{which:?}");
    }
}

#[test]
fn one_stop_stops_the_shaft() {
    // Each of these alone, and no other verdict than a stop for it at its own stage.
    for (entry, text, name) in [
        // Room at bump: 1/8 drawn out leaves less than the 1/4 wanted.
        (Entry::SetPoint, "1/8", Name::PlungeIn),
        // Spline at droop: 2-1/2 less 7/8 less 9/16 is under the 1-1/2 wanted.
        (Entry::SplineLength, "2-1/2", Name::EngagedSpline),
        (Entry::BarrelLength, "2", Name::LipBand),
        // The weld line an inch out, as measured from the wrong joint's cup.
        (Entry::WeldLine, "54-7/8", Name::WeldLine),
        (Entry::Shoulder, "2-7/16", Name::TubeRemoved),
        (Entry::TopSpeed, "6000", Name::SpeedShare),
        // Joints of 2.6° and 3.6°: 348 rad/s² at 3200 rpm is a joint of 3.2°.
        (Entry::InertiaLimit, "348", Name::RearJoint),
        (Entry::PowerRise, "10", Name::ShakeUnderPower),
        (Entry::RearLevel(2, 0), "3", Name::PhaseWelded),
        (Entry::StationReading(2, 0, 4), "40", Name::OffsetReading),
    ] {
        let mut job = sample();
        job.put(entry, text);
        assert_eq!(whole(&job).shaft, Standing::Stop, "{entry:?}");
        let stops: Vec<Name> = Stage::ALL
            .into_iter()
            .flat_map(|which| against(&job, which))
            .filter(|(_, verdict)| matches!(verdict, Verdict::Stop(_)))
            .map(|(name, _)| name)
            .collect();
        assert!(stops.contains(&name), "{entry:?}: {stops:?}");
    }
    // A face cut at a slant, ten times what the sample's shows; one bad gap among good ones is noise.
    let slanted = |job: &mut Job| {
        for (place, gap) in
            ["0", "0", "0.01", "0.02", "0.03", "0.03", "0.02", "0.01"].into_iter().enumerate()
        {
            job.put(Entry::FaceReading(place), gap);
        }
    };
    assert_eq!(shaft(slanted), Standing::Stop);
    assert_eq!(shaft(|job| job.put(Entry::FaceReading(6), "0.03")), Standing::NotYet);
}

#[test]
fn cautions_stand_where_they_bite() {
    // The stages at which each thing is done: measured under the vehicle at two; the shaft comes off to be measured, tacking begins at
    // Phase, weights are put back by welding.
    for (caution, stages) in [
        (Caution::LoadedSuspension, &[Stage::Measure, Stage::Angles][..]),
        (Caution::ChockBothWays, &[Stage::Measure, Stage::Angles]),
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
        (Caution::NobodyInThePlane, &[Stage::Weights, Stage::Balance]),
        (Caution::AxleLoaded, &[Stage::Balance]),
        (Caution::BothWheelsOn, &[Stage::Balance]),
        (Caution::ChockWhatStands, &[Stage::Balance]),
        (Caution::SpeedCap, &[Stage::Balance]),
        (Caution::ControlsOff, &[Stage::Balance]),
        (Caution::FumesOut, &[Stage::Balance]),
        (Caution::StopSignal, &[Stage::Balance]),
        (Caution::ClipsLookedAt, &[Stage::Balance]),
        (Caution::ShortRuns, &[Stage::Balance]),
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
