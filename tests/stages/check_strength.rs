//! Check on the invented shaft: its torque, and what bears it.
//!
//! By tests/handbook/shaft_check.py unless another source is named; yields as the handbook's section 12 has them.

use shaftwright::job::{Entry, Gearbox, Grade, Job, TubeMaterial};
use shaftwright::quantity::{as_degrees, as_pound_feet, in_inches};
use shaftwright::stage::check::{Fit, FitReason, FitSense, Governs};
use shaftwright::stage::{Reason, Source, Verdict};

use super::check::{amount, checked, find, found, near, needed, sense, vehicle, watched};
use super::shaft::{by_hand, number, shaft, with, with_all, without_gearbox};

/// How many times as much it bears.
fn factor(job: &Job, fit: Fit) -> f64 {
    match sense(job, fit) {
        FitSense::Factor(factor) => factor,
        other => panic!("{other:?}"),
    }
}

fn said(job: &Job, fit: Fit) -> &'static str {
    match find(job, fit).verdict {
        Verdict::Good => "good",
        Verdict::Figure => "figure",
        Verdict::IfWanted => "if wanted",
        Verdict::Watch(Reason::Fit(FitReason::NotTwice | FitReason::WeldNotTwice { .. })) => "not twice",
        Verdict::Stop(Reason::Fit(FitReason::Fails | FitReason::SmallWeld { .. })) => "fails",
        other => panic!("{fit:?}: {other:?}"),
    }
}

/// Of two that are known.
fn counts(this: bool) -> Governs {
    if this { Governs::Lesser } else { Governs::Never }
}

/// Just under and just over once and twice as strong as is asked.
const SIDES: [(f64, &str); 4] =
    [(0.9995, "fails"), (1.0005, "not twice"), (1.9995, "not twice"), (2.0005, "good")];

#[test]
fn the_torque_by_engine_and_by_slip() {
    let job = vehicle(&[]);
    near(amount(&job, Fit::ByEngine), checked("by engine"), 1e-9);
    assert_eq!(sense(&job, Fit::ByEngine), FitSense::Governs(Governs::Alone));
    // Of slip nothing was said.
    assert!(found(&job, Fit::BySlip).is_none());
    for (entries, fit, key) in [
        (&[(Entry::LowRange, "2.5")][..], Fit::ByEngine, "by engine low"),
        (&[(Entry::ReverseRatio, "3.9")], Fit::ByEngine, "by engine reverse"),
        // A reverse that is no lower than first changes nothing.
        (&[(Entry::ReverseRatio, "3.3")], Fit::ByEngine, "by engine"),
        (&[(Entry::AxleLoad, "2600")], Fit::BySlip, "by slip"),
        (&[(Entry::AxleLoad, "2600"), (Entry::Friction, "0.9")], Fit::BySlip, "by slip soft tyres"),
    ] {
        near(amount(&vehicle(entries), fit), checked(key), 1e-9);
    }
    // The lesser goes on into the tube.
    for (load, by_slip) in [("2560", true), ("2590", false)] {
        let job = vehicle(&[(Entry::AxleLoad, load)]);
        assert_eq!(sense(&job, Fit::BySlip), FitSense::Governs(counts(by_slip)), "{load}");
        assert_eq!(sense(&job, Fit::ByEngine), FitSense::Governs(counts(!by_slip)), "{load}");
        let torque = amount(&job, if by_slip { Fit::BySlip } else { Fit::ByEngine });
        near(amount(&job, Fit::Shear), checked("shear") * torque / checked("by engine"), 1e-7);
    }
    // Slip alone: of the engine nothing was said, so nothing is asked.
    let slip = vehicle(&[(Entry::AxleLoad, "2600"), (Entry::EngineTorque, "")]);
    assert!(found(&slip, Fit::ByEngine).is_none());
    near(amount(&slip, Fit::Shear), checked("shear") * checked("by slip") / 578.0, 1e-7);
    let begun = vehicle(&[(Entry::AxleLoad, "2600"), (Entry::AxleRatio, "")]);
    assert_eq!(needed(&begun, Fit::BySlip), [Entry::AxleRatio]);
    near(amount(&begun, Fit::Shear), checked("shear"), 1e-7);
    // A converter's ratio is asked of an automatic alone.
    let mut automatic = vehicle(&[]);
    automatic.check.load.gearbox = Gearbox::Automatic;
    assert_eq!(needed(&automatic, Fit::ByEngine), [Entry::StallRatio]);
    automatic.put(Entry::StallRatio, "2.1");
    near(amount(&automatic, Fit::ByEngine), checked("by engine automatic"), 1e-9);
    // The lowest of all that were given, wherever it stands; none at all: the first is asked for.
    let reverse = with_all(&[(Entry::GearRatio(0), ""), (Entry::ReverseRatio, "3.9")]);
    near(amount(&reverse, Fit::ByEngine), checked("by engine reverse"), 1e-9);
    assert_eq!(needed(&with(Entry::GearRatio(0), ""), Fit::ByEngine), [Entry::GearRatio(0)]);
}

#[test]
fn a_gear_that_cannot_be_read_is_not_passed_over() {
    // It may be the lowest of them: no torque is told without it.
    for entry in [Entry::GearRatio(1), Entry::ReverseRatio] {
        let job = vehicle(&[(entry, "about 4")]);
        assert_eq!(needed(&job, Fit::ByEngine), [entry]);
        assert_eq!(needed(&job, Fit::Shear), [entry]);
    }
}

#[test]
fn shear_in_the_tube() {
    let job = shaft();
    near(amount(&job, Fit::Shear), checked("shear"), 1e-7);
    near(factor(&job, Fit::Shear), checked("bears as welded") / checked("shear"), 1e-7);
    near(amount(&job, Fit::Twist), checked("twist"), 1e-7);
    assert_eq!(said(&job, Fit::Twist), "figure");
    near(factor(&job, Fit::Folds), checked("folds at") / checked("shear"), 1e-7);
    // The engine's torque that brings each to its limit, in the gear of 3.4 at 0.85.
    for (fit, limit) in [(Fit::Shear, "bears as welded"), (Fit::Folds, "folds at")] {
        let at_limit = 200.0 * checked(limit) / checked("shear");
        for (factor, expected) in SIDES {
            let job = with(Entry::EngineTorque, &format!("{:.6}", at_limit / factor));
            assert_eq!(said(&job, fit), expected, "{fit:?} {factor}");
        }
    }
    // A thick wall does not fold (r under 10·t, our own choice), and nothing is said of it.
    let thick = with_all(&[(Entry::TubeWall, "1/4"), (Entry::SpigotDiameter, "2.49")]);
    assert!(found(&thick, Fit::Folds).is_none());
}

#[test]
fn what_each_grade_bears() {
    for (grade, key, source) in [
        (Grade::AsWelded, "bears as welded", Source::YieldAsWelded),
        (Grade::Drawn1020, "bears 1020", Source::YieldDrawn),
        (Grade::Drawn1026, "bears 1026", Source::YieldDrawn),
    ] {
        let mut job = shaft();
        job.check.load.grade = grade;
        let limit = find(&job, Fit::Shear).limit.unwrap();
        near(number(limit.amount), checked(key), 1e-9);
        assert_eq!(limit.source, source);
    }
    let own = |material: TubeMaterial, text: &str| {
        let mut job = with(Entry::OwnYield, text);
        (job.tube.material, job.check.load.grade) = (material, Grade::OwnYield);
        job
    };
    let limit = |job: &Job| find(job, Fit::Shear).limit.unwrap();
    assert_eq!(needed(&own(TubeMaterial::Steel, ""), Fit::Shear), [Entry::OwnYield]);
    let steel = limit(&own(TubeMaterial::Steel, "80 ksi"));
    near(number(steel.amount), 0.577 * 80.0, 1e-9);
    assert_eq!(steel.source, Source::OwnLimit);
    // Aluminium beside its weld: 15 ksi of 6061 (Aluminum Design Manual, from memory), by whatever grade.
    for grade in [Grade::AsWelded, Grade::OwnYield] {
        let mut job = own(TubeMaterial::Aluminium, "");
        job.check.load.grade = grade;
        near(number(limit(&job).amount), checked("bears aluminium"), 1e-9);
        assert_eq!(limit(&job).source, Source::YieldAluminium);
    }
    near(
        number(limit(&own(TubeMaterial::Aluminium, "40 ksi")).amount),
        checked("bears aluminium"),
        1e-9,
    );
    // One that is weaker than that by its paper stays what it is.
    near(number(limit(&own(TubeMaterial::Aluminium, "12 ksi")).amount), 0.577 * 12.0, 1e-9);
    // By hand its yield is asked for, whatever grade of steel stands there.
    let mut by_hand =
        with_all(&[(Entry::Modulus, "70"), (Entry::ShearModulus, "5"), (Entry::Density, "1600 kg/m3")]);
    by_hand.tube.material = TubeMaterial::ByHand;
    assert_eq!(needed(&by_hand, Fit::Shear), [Entry::OwnYield]);
    // By hand: 79.457 GPa over 5, the angle is as many times as large.
    near(amount(&by_hand, Fit::Twist), checked("twist") * (205.0 / 2.58) / 5.0, 1e-7);
}

#[test]
fn the_leg_of_the_weld() {
    near(amount(&shaft(), Fit::Weld), checked("leg"), 1e-7);
    for (factor, expected) in SIDES {
        let leg = factor * checked("leg");
        let job = with(Entry::WeldLeg, &format!("{leg:.8}"));
        assert_eq!(said(&job, Fit::Weld), expected, "{factor}");
        let FitSense::Leg { given: Some(given), factor: Some(times) } = sense(&job, Fit::Weld) else {
            panic!()
        };
        near(in_inches(given), leg, 1e-6);
        near(times, factor, 1e-6);
        match find(&job, Fit::Weld).verdict {
            Verdict::Stop(Reason::Fit(FitReason::SmallWeld { needed })) => {
                near(in_inches(needed), checked("leg"), 1e-7);
            }
            Verdict::Watch(Reason::Fit(FitReason::WeldNotTwice { needed })) => {
                near(in_inches(needed), 2.0 * checked("leg"), 1e-7);
            }
            _ => {}
        }
    }
    // Not laid yet: what is needed, and nothing judged.
    let job = with(Entry::WeldLeg, "");
    near(amount(&job, Fit::Weld), checked("leg"), 1e-7);
    assert_eq!(said(&job, Fit::Weld), "figure");
    // By hand: metal of half the strength needs twice the leg.
    near(amount(&with(Entry::ElectrodeStrength, "35 ksi"), Fit::Weld), 2.0 * checked("leg"), 1e-7);
    assert_eq!(needed(&with(Entry::ElectrodeStrength, ""), Fit::Weld), [Entry::ElectrodeStrength]);
}

#[test]
fn the_splined_part() {
    assert_eq!(said(&shaft(), Fit::Spline), "if wanted");
    let spline = |yields: &str| {
        with_all(&[
            (Entry::SplineRoot, "1-1/4"),
            (Entry::SplineBore, "1/2"),
            (Entry::SplineYield, yields),
        ])
    };
    near(amount(&spline("80 ksi"), Fit::Spline), checked("spline shear"), 1e-7);
    for (factor, expected) in SIDES {
        let yields = factor * checked("spline shear") / 0.577;
        let job = spline(&format!("{yields:.7} ksi"));
        assert_eq!(said(&job, Fit::Spline), expected, "{factor}");
    }
    assert_eq!(needed(&spline(""), Fit::Spline), [Entry::SplineYield]);
    // Without a bore it is solid: by hand 16·T/(π·D³).
    let solid = with_all(&[(Entry::SplineRoot, "1-1/4"), (Entry::SplineYield, "80 ksi")]);
    let by_hand = 16.0 * 578.0 * 12.0 / core::f64::consts::PI / 1.25_f64.powi(3) / 1000.0;
    near(amount(&solid, Fit::Spline), by_hand, 1e-9);
}

#[test]
fn the_rating_of_the_joints() {
    assert_eq!(said(&shaft(), Fit::Joints), "if wanted");
    // Without a rise under power the joints work as at ride; the rear one at more.
    let at = by_hand("angles ride rear");
    let rated = |rating: f64, to: &str| {
        with_all(&[
            (Entry::PowerRise, "0"),
            (Entry::JointRating, &format!("{rating:.6}")),
            (Entry::JointRatedTo, to),
        ])
    };
    let torque = checked("by engine");
    for (times, good) in [(0.9995, false), (1.0005, true)] {
        for to in ["", "12", &format!("{:.4}", at + 0.01)] {
            let job = rated(times * torque, to);
            let FitSense::Rated { factor, works_at: Some(works_at), .. } = sense(&job, Fit::Joints)
            else {
                panic!()
            };
            near(factor, times, 1e-7);
            near(as_degrees(works_at), at, 1e-6);
            match find(&job, Fit::Joints).verdict {
                Verdict::Good => assert!(good, "{times} {to}"),
                Verdict::Stop(Reason::Fit(FitReason::OverRating { rating })) => {
                    assert!(!good, "{times} {to}");
                    near(as_pound_feet(rating), times * torque, 1e-7);
                }
                other => panic!("{other:?}"),
            }
        }
    }
    // Past the angle less is left: (β₀/β)^0.3 (published: a cardan-shaft maker), under 3° as at 3°.
    for (to, from) in [(at - 0.01, at - 0.01), (3.2, 3.2), (2.0, 3.0)] {
        let left = (from / at).powf(0.3);
        let to = format!("{to:.7}");
        let enough = rated(1.0005 * torque / left, &to);
        assert_eq!(watched(&enough, Fit::Joints), FitReason::OverRatedAngle, "{to}");
        near(amount(&enough, Fit::Joints), 1.0005 * torque, 1e-6);
        let less = find(&rated(0.9995 * torque / left, &to), Fit::Joints).verdict;
        assert!(matches!(less, Verdict::Stop(Reason::Fit(FitReason::OverRating { .. }))), "{to}");
    }
    // At which angle they work is asked only where the sheet names one.
    for (to, expected) in
        [("", Verdict::Good), ("8", Verdict::Watch(Reason::Fit(FitReason::AngleUnknown)))]
    {
        let mut job = without_gearbox();
        job.put(Entry::JointRating, "900");
        job.put(Entry::JointRatedTo, to);
        assert_eq!(find(&job, Fit::Joints).verdict, expected);
    }
}
