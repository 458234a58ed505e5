//! Check on the invented shaft: where it whirls, by elements and by the closed form.
//!
//! By tests/handbook/shaft_check.py unless another source is named.

use std::fs;
use std::path::Path;

use shaftwright::job::{End, Entry, Job, ShaftKind, TubeMaterial, WhirlShare};
use shaftwright::quantity::{as_kilograms, as_pounds_per_inch, as_rpm};
use shaftwright::stage::check::{Fit, FitReason, FitSense, chart};
use shaftwright::stage::{Amount, Answer, Finding, Law, Name, Reason, Sense, Stage, Verdict};

use super::shaft::{number, shaft, with_all};

/// What the script shaft_check.py printed for a key. Its units stand in its head.
pub fn checked(key: &str) -> f64 {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/shaft_check.txt");
    let text = fs::read_to_string(path).unwrap();
    let line = text.lines().find_map(|line| line.rsplit_once(' ').filter(|(known, _)| *known == key));
    line.unwrap_or_else(|| panic!("shaft_check.txt has no line {key}")).1.parse().unwrap()
}

pub fn near(got: f64, expected: f64, share: f64) {
    assert!((got - expected).abs() <= share * expected.abs(), "{got} against {expected}");
}

pub fn found(job: &Job, fit: Fit) -> Option<Finding> {
    Stage::Check.findings(job).into_iter().find(|finding| finding.name == Name::Fit(fit))
}

pub fn find(job: &Job, fit: Fit) -> Finding {
    found(job, fit).unwrap_or_else(|| panic!("no {fit:?}"))
}

pub fn amount(job: &Job, fit: Fit) -> f64 {
    number(find(job, fit).value().unwrap_or_else(|| panic!("{:?}", find(job, fit))).amount)
}

pub fn doubt(job: &Job, fit: Fit) -> f64 {
    find(job, fit).value().and_then(|value| value.plus_minus).map(number).unwrap()
}

pub fn sense(job: &Job, fit: Fit) -> FitSense {
    match find(job, fit).value().and_then(|value| value.sense) {
        Some(Sense::Fit(sense)) => sense,
        other => panic!("{fit:?}: {other:?}"),
    }
}

/// The reason of a verdict that is to be minded.
pub fn watched(job: &Job, fit: Fit) -> FitReason {
    match find(job, fit).verdict {
        Verdict::Watch(Reason::Fit(reason)) => reason,
        other => panic!("{fit:?}: {other:?}"),
    }
}

pub fn needed(job: &Job, fit: Fit) -> Vec<Entry> {
    match find(job, fit).answer {
        Answer::Missing(needs) => needs.into_iter().map(|need| need.entry).collect(),
        other => panic!("{fit:?}: {other:?}"),
    }
}

fn impossible(job: &Job, fit: Fit) -> Reason {
    match find(job, fit).answer {
        Answer::Impossible(reason) => reason,
        other => panic!("{fit:?}: {other:?}"),
    }
}

/// The shaft in a vehicle: engine, gears, axle and tyre, and no speed of its own.
pub fn vehicle(entries: &[(Entry, &str)]) -> Job {
    let mut job = with_all(&[
        (Entry::TopSpeed, ""),
        (Entry::EngineLimit, "5200"),
        (Entry::GearRatio(0), "3.4"),
        (Entry::GearRatio(1), "1.95"),
        (Entry::GearRatio(2), "1.3"),
        (Entry::GearRatio(3), "1"),
        (Entry::GearRatio(4), "0.78"),
        (Entry::AxleRatio, "3.73"),
        (Entry::TyreSize, "215/75R15"),
        (Entry::RoadTop, "80 mph"),
    ]);
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

/// The shaft with its yokes weighed.
pub fn weighed(entries: &[(Entry, &str)]) -> Job {
    let mut job = with_all(&[(Entry::FrontYokeMass, "2.1 kg"), (Entry::RearYokeMass, "1.6 kg")]);
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

#[test]
fn the_first_speed_by_elements() {
    // Sixteen elements are within 0.01 % of the exact speeds, a little more for the third.
    let job = shaft();
    near(amount(&job, Fit::Elements), checked("first"), 1e-4);
    near(doubt(&job, Fit::Elements), checked("first doubt"), 2e-3);
    near(amount(&job, Fit::ElementsBefore), checked("first before"), 1e-4);
    let FitSense::Modes { next: [second, third], share: Some(share) } = sense(&job, Fit::Elements)
    else {
        panic!()
    };
    near(as_rpm(second), checked("second"), 2e-4);
    near(as_rpm(third), checked("third"), 1e-3);
    near(share, 3500.0 / checked("first"), 1e-4);
    // Half each of what the shaft weighs beyond its tube, and as large a share of the ± as by hand.
    yoke_masses(&job).into_iter().for_each(|mass| near(mass, checked("yoke half"), 1e-8));
    let finding = find(&job, Fit::Elements);
    for (entry, name) in [
        (Entry::TubeDiameter, "diameter"),
        (Entry::TubeWall, "wall"),
        (Entry::WantedReading(0), "length"),
        // Both yokes are half of what it weighs beyond its tube.
        (Entry::ShaftMass, "yokes"),
        (Entry::Modulus, "modulus"),
    ] {
        let share = finding.causes.iter().find(|(known, _)| *known == entry).unwrap().1;
        near(share, checked(&format!("first share {name}")), 1e-2);
    }
    assert!(finding.causes.is_sorted_by(|one, next| one.1 >= next.1));
    // Weighed each, it is their own scale.
    let causes = find(&weighed(&[]), Fit::Elements).causes;
    let names: Vec<Entry> = causes.into_iter().map(|(entry, _)| entry).collect();
    assert!(names.contains(&Entry::FrontYokeMass) && !names.contains(&Entry::ShaftMass), "{names:?}");
}

/// Both masses that the yokes were taken for.
fn yoke_masses(job: &Job) -> Vec<f64> {
    let finding = find(job, Fit::Elements);
    let step = finding.working.iter().find(|step| step.law == Law::Elements).unwrap();
    let masses = step.put_in.iter().filter_map(|amount| match amount {
        Amount::Mass(mass) => Some(as_kilograms(*mass)),
        _ => None,
    });
    masses.collect()
}

#[test]
fn yokes_halved_are_what_no_other_part_weighs() {
    let job = with_all(&[
        (Entry::StepAt, "30"),
        (Entry::StepDiameter, "2-1/2"),
        (Entry::StepWall, "0.12"),
        (Entry::LumpAt, "25"),
        (Entry::LumpMass, "0.5 kg"),
        (Entry::SlipMass, "0.8 kg"),
    ]);
    let masses = yoke_masses(&job);
    assert_eq!(masses.len(), 2);
    masses.into_iter().for_each(|mass| near(mass, checked("yoke half of less"), 1e-7));
    near(amount(&job, Fit::Elements), checked("halved of less"), 1e-4);
    // What hangs behind a bearing was not on that scale.
    let hung = with_all(&[(Entry::BearingAt, "50"), (Entry::HungBehind, "3 kg")]);
    yoke_masses(&hung).into_iter().for_each(|mass| near(mass, checked("yoke half"), 1e-7));
    // Neither weighed: the whole is what is asked for.
    assert_eq!(needed(&with_all(&[(Entry::ShaftMass, "")]), Fit::Elements), [Entry::ShaftMass]);
    // Nothing is left for them: by hand, 8.391 kg less 2 × 1.8128 kg is the tube's.
    for (slip, left) in [("3.62 kg", true), ("3.63 kg", false)] {
        let job = with_all(&[(Entry::SlipMass, slip)]);
        assert_eq!(find(&job, Fit::Elements).value().is_some(), left, "{slip}");
        assert!(left || matches!(impossible(&job, Fit::Elements), Reason::Weight(_)));
    }
}

#[test]
fn yokes_heavier_than_the_shaft_are_asked_about() {
    // By definition of the pound, 18.5 lb are 8.391459 kg.
    for (rear, heavier) in [("4.391 kg", false), ("4.392 kg", true)] {
        let job = with_all(&[(Entry::FrontYokeMass, "4 kg"), (Entry::RearYokeMass, rear)]);
        if heavier {
            let FitReason::YokesHeavier { yokes, whole } = watched(&job, Fit::Elements) else {
                panic!()
            };
            near(as_kilograms(yokes), 8.392, 1e-9);
            near(as_kilograms(whole), 18.5 * 0.453_592_37, 1e-9);
        } else {
            assert_eq!(find(&job, Fit::Elements).verdict, Verdict::Good);
        }
        // Of a shaft that was not weighed nothing is said.
        let job = with_all(&[
            (Entry::FrontYokeMass, "4 kg"),
            (Entry::RearYokeMass, rear),
            (Entry::ShaftMass, ""),
        ]);
        assert_eq!(find(&job, Fit::Elements).verdict, Verdict::Good);
    }
}

#[test]
fn the_share_by_elements_is_judged_on_either_side() {
    let said = |job: &Job, fit: Fit| match find(job, fit).verdict {
        Verdict::Good => "good",
        Verdict::Watch(Reason::NearWhirlShare { .. }) => "near",
        Verdict::Stop(Reason::OverWhirlShare { .. }) => "over",
        Verdict::Stop(Reason::Fit(FitReason::SoftHold { .. })) => "too soft",
        other => panic!("{other:?}"),
    };
    // Shares that makers publish (handbook, section 11): light vehicles, industrial, a cardan-shaft maker.
    for (by, allowed) in
        [(WhirlShare::Light, 0.70), (WhirlShare::Industrial, 0.65), (WhirlShare::CardanMaker, 0.75)]
    {
        for (off, expected) in [(-0.02, "good"), (-0.005, "near"), (0.005, "over")] {
            let typed = |first: f64| format!("{:.3}", (allowed + off) * first);
            let mut job = with_all(&[(Entry::TopSpeed, &typed(checked("first")))]);
            job.check.whirl_share = by;
            assert_eq!(said(&job, Fit::Elements), expected, "{by:?} {off}");
            let mut soft = weighed(&[
                (Entry::FrontSupport, "3000 N/mm"),
                (Entry::RearSupport, "5000 N/mm"),
                (Entry::TopSpeed, &typed(checked("springs"))),
            ]);
            soft.check.whirl_share = by;
            // Held rigidly it would do.
            let expected = if expected == "over" { "too soft" } else { expected };
            assert_eq!(said(&soft, Fit::Soft), expected, "{by:?} {off}");
        }
    }
    // How hard it must be held is told; where not even a rigid hold would do, it is the speed that is wrong.
    let held = |top: f64| {
        weighed(&[
            (Entry::FrontSupport, "3000 N/mm"),
            (Entry::RearSupport, "5000 N/mm"),
            (Entry::TopSpeed, &format!("{top:.3}")),
        ])
    };
    let Verdict::Stop(Reason::Fit(FitReason::SoftHold { least })) =
        find(&held(0.705 * checked("springs")), Fit::Soft).verdict
    else {
        panic!()
    };
    // Softer by up to a hundredth is not told: the least that surely holds.
    let times = as_pounds_per_inch(least) / checked("softest weighed");
    assert!((0.999..1.011).contains(&times), "{times}");
    assert_eq!(said(&held(0.695 * checked("weighed")), Fit::Soft), "too soft");
    assert_eq!(said(&held(0.705 * checked("weighed")), Fit::Soft), "over");
    // Without a top speed it is a figure.
    let job = with_all(&[(Entry::TopSpeed, "")]);
    assert_eq!(find(&job, Fit::Elements).verdict, Verdict::Figure);
    assert!(matches!(sense(&job, Fit::Elements), FitSense::Modes { share: None, .. }));
}

#[test]
fn what_holds_it_and_what_hangs_on_it() {
    near(amount(&weighed(&[]), Fit::Elements), checked("weighed"), 1e-4);
    near(doubt(&weighed(&[]), Fit::Elements), checked("weighed doubt"), 2e-3);
    let front = (Entry::FrontSupport, "3000 N/mm");
    let both = [front, (Entry::RearSupport, "5000 N/mm")];
    let job = weighed(&both);
    near(amount(&job, Fit::Soft), checked("springs"), 1e-4);
    near(doubt(&job, Fit::Soft), checked("springs doubt"), 2e-3);
    // Held rigidly it is told as before, and nothing of how soft it might be.
    near(amount(&job, Fit::Elements), checked("weighed"), 1e-4);
    assert!(found(&job, Fit::Softest).is_none() && found(&weighed(&[]), Fit::Soft).is_none());
    let hung = weighed(&[both[0], both[1], (Entry::SlipMass, "2 kg")]);
    near(amount(&hung, Fit::Soft), checked("springs hung"), 1e-4);
    // Of every kind of shaft.
    for kind in [ShaftKind::SlipOnShaft, ShaftKind::Flanged] {
        let mut other = hung.clone();
        other.measure.kind = kind;
        near(amount(&other, Fit::Soft), checked("springs hung"), 1e-4);
    }
    // Where nothing gives way it hangs on the gearbox.
    near(amount(&weighed(&[(Entry::SlipMass, "2 kg")]), Fit::Elements), checked("weighed"), 1e-4);
    near(amount(&weighed(&[front]), Fit::Soft), checked("front spring"), 1e-4);
    let FitSense::Held { by: [Some(_), None], .. } = sense(&weighed(&[front]), Fit::Soft) else {
        panic!()
    };
    // Softer by up to a hundredth is not told: the least that surely holds.
    let softest = amount(&shaft(), Fit::Softest);
    let by_hand = checked("softest");
    assert!((0.999..1.011).contains(&(softest / by_hand)), "{softest} against {by_hand}");
    // Over the share already when held rigidly, there is no such softness.
    let fast = with_all(&[(Entry::TopSpeed, &format!("{:.3}", 0.705 * checked("first")))]);
    assert!(found(&fast, Fit::Softest).is_none());
}

#[test]
fn shafts_of_other_kinds() {
    let two_sizes = [(Entry::StepAt, "30"), (Entry::StepDiameter, "2-1/2"), (Entry::StepWall, "0.12")];
    let job = weighed(&two_sizes);
    near(amount(&job, Fit::Elements), checked("step"), 1e-4);
    near(amount(&job, Fit::ElementsBefore), checked("step before"), 1e-4);
    near(doubt(&job, Fit::Elements), checked("step doubt"), 2e-3);
    // Cut at the front: the weld lines change over, and what lies behind comes nearer to the front joint.
    let at_front = |entries: &[(Entry, &str)]| {
        let mut job = weighed(entries);
        job.cut.end = End::Front;
        job
    };
    let front = at_front(&two_sizes);
    near(amount(&front, Fit::Elements), checked("step front"), 1e-4);
    near(amount(&front, Fit::ElementsBefore), checked("step front before"), 1e-4);
    let lump = |at: &'static str| [(Entry::LumpAt, at), (Entry::LumpMass, "1.5 kg")];
    near(amount(&at_front(&lump("25")), Fit::Elements), checked("lump front"), 1e-4);
    let bearing = [(Entry::BearingAt, "50"), (Entry::HungBehind, "3 kg")];
    let sprung = [bearing[0], bearing[1], (Entry::RearSupport, "5000 N/mm")];
    for (entries, fit, key) in [
        (&lump("25")[..], Fit::Elements, "lump"),
        (&lump("54.5"), Fit::Elements, "lump behind"),
        (&lump("54.5"), Fit::ElementsBefore, "lump behind before"),
        (&bearing, Fit::Elements, "bearing"),
        (&sprung, Fit::Soft, "bearing spring"),
    ] {
        near(amount(&weighed(entries), fit), checked(key), 1e-4);
    }
    // Without a bearing nothing hangs behind it.
    near(amount(&weighed(&[bearing[1]]), Fit::Elements), checked("weighed"), 1e-4);
    let other = [(Entry::TubeDiameter, "3-1/2"), (Entry::TubeWall, "1/8")];
    let mut aluminium = weighed(&other);
    aluminium.tube.material = TubeMaterial::Aluminium;
    near(amount(&aluminium, Fit::Elements), checked("aluminium"), 1e-4);
    let mut by_hand = weighed(&other);
    by_hand.tube.material = TubeMaterial::ByHand;
    assert_eq!(needed(&by_hand, Fit::Elements), [Entry::Modulus, Entry::ShearModulus, Entry::Density]);
    for (entry, text) in
        [(Entry::Modulus, "70"), (Entry::ShearModulus, "5"), (Entry::Density, "1600 kg/m3")]
    {
        by_hand.put(entry, text);
    }
    near(amount(&by_hand, Fit::Elements), checked("by hand"), 1e-4);
    near(doubt(&by_hand, Fit::Elements), checked("by hand doubt"), 2e-3);
    let causes = find(&by_hand, Fit::Elements).causes;
    assert_eq!(causes[0].0, Entry::Modulus);
    near(causes[0].1, checked("by hand share modulus"), 1e-3);
    near(amount(&super::longer(), Fit::Elements), checked("longer"), 1e-4);
}

#[test]
fn of_two_sizes_the_one_that_bends_sooner_stands_for_both() {
    let whirl = |job: &Job| number(super::shaft::value(job, Name::WhirlSpeed).amount);
    let of = |diameter: &'static str, wall: &'static str| {
        [(Entry::StepAt, "30"), (Entry::StepDiameter, diameter), (Entry::StepWall, wall)]
    };
    // By hand: the closed form goes with √(D² + d²).
    let across = |outer: f64, inner: f64| outer.hypot(inner);
    let smaller = across(2.5, 2.26) / across(3.0, 2.834) * super::shaft::by_hand("whirl");
    near(whirl(&with_all(&of("2-1/2", "0.12"))), smaller, 1e-8);
    near(whirl(&with_all(&of("3-1/2", "0.083"))), super::shaft::by_hand("whirl"), 1e-8);
    // So the chart, as long as the yokes are not known.
    let curve = |step: &[(Entry, &str)]| {
        let mut job = with_all(&[(Entry::ShaftMass, "")]);
        step.iter().for_each(|(entry, text)| job.put(*entry, text));
        let chart = chart(&job).unwrap();
        assert!(!chart.by_elements);
        as_rpm(chart.whirl[0].1)
    };
    near(curve(&of("2-1/2", "0.12")) / curve(&[]), across(2.5, 2.26) / across(3.0, 2.834), 1e-9);
    near(curve(&of("3-1/2", "0.083")), curve(&[]), 1e-12);
}

#[test]
fn half_as_stiff_a_yoke_moves_it_less_than_the_wall_does() {
    // What the beam of the shaft claims of its yokes: less than the wall's ±0.1 mm, either way.
    let moved = |key: &str| (checked(key) - checked("first")).abs();
    assert!(moved("soft yokes") < moved("thin wall") && moved("soft yokes") < moved("thick wall"));
}

#[test]
fn parts_that_do_not_fit() {
    for entries in [
        // Beyond the rear weld, before the front one; on the front yoke; off the shaft.
        &[(Entry::StepAt, "54"), (Entry::StepDiameter, "2.5"), (Entry::StepWall, "0.12")][..],
        &[(Entry::StepAt, "3"), (Entry::StepDiameter, "2.5"), (Entry::StepWall, "0.12")],
        &[(Entry::BearingAt, "3"), (Entry::HungBehind, "3 kg")],
        &[(Entry::BearingAt, "57.5"), (Entry::HungBehind, "3 kg")],
        &[(Entry::LumpAt, "57.5"), (Entry::LumpMass, "1 kg")],
        // On the piece that is sawn out: by hand, the 1.792 in before the old weld at 53.875 in.
        &[(Entry::LumpAt, "52.2"), (Entry::LumpMass, "1 kg")],
        &[(Entry::LumpAt, "53.8"), (Entry::LumpMass, "1 kg")],
        &[(Entry::BearingAt, "53"), (Entry::HungBehind, "3 kg")],
    ] {
        let job = weighed(entries);
        assert_eq!(impossible(&job, Fit::Elements), Reason::Fit(FitReason::NoSuchShaft), "{entries:?}");
    }
    for at in ["52", "53.9", "57"] {
        let job = weighed(&[(Entry::LumpAt, at), (Entry::LumpMass, "1 kg")]);
        assert!(find(&job, Fit::Elements).value().is_some(), "{at}");
    }
    // Cut at the front it is what lies behind the weld there.
    for (at, there) in [("3.4", true), ("3.5", false), ("5.2", false), ("5.3", true)] {
        let mut job = weighed(&[(Entry::LumpAt, at), (Entry::LumpMass, "1 kg")]);
        job.cut.end = End::Front;
        assert_eq!(find(&job, Fit::Elements).value().is_some(), there, "{at}");
    }
    // By hand: the tube alone weighs 3.852 kg/m · 1.235 m, over 10 lb.
    let light = with_all(&[(Entry::ShaftMass, "10")]);
    assert!(matches!(impossible(&light, Fit::Elements), Reason::Weight(_)));
    // One yoke weighed, the other not; one of two that go together.
    for (entries, missing) in [
        (&[(Entry::FrontYokeMass, "2 kg")][..], Entry::RearYokeMass),
        (&[(Entry::LumpAt, "25")], Entry::LumpMass),
        (&[(Entry::BearingAt, "50")], Entry::HungBehind),
        (&[(Entry::StepAt, "30"), (Entry::StepWall, "0.1")], Entry::StepDiameter),
    ] {
        assert_eq!(needed(&with_all(entries), Fit::Elements), [missing], "{entries:?}");
    }
}
