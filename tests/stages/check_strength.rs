//! Check on the invented shaft: its torque, and what bears it.
//!
//! By tests/handbook/shaft_check.py unless another source is named; yields as the handbook's section 12 has them.

use shaftwright::job::{Drives, End, Entry, Gearbox, Grade, Job, TubeMaterial};
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
    // First gear is always asked for: a higher one or reverse would stand for the lowest.
    let others = [(Entry::ReverseRatio, "3.9"), (Entry::GearRatio(1), "1.95")];
    for more in [&[][..], &others[..1], &others[1..], &others] {
        let mut job = with_all(more);
        job.put(Entry::GearRatio(0), "");
        for fit in [Fit::ByEngine, Fit::Shear] {
            assert_eq!(needed(&job, fit), [Entry::GearRatio(0)], "{more:?}");
        }
    }
}

#[test]
fn slip_bounds_the_torque_of_one_axle_alone() {
    let mut job = vehicle(&[(Entry::AxleLoad, "2560")]);
    assert_eq!(sense(&job, Fit::BySlip), FitSense::Governs(Governs::Lesser));
    job.check.load.drives = Drives::More;
    // The engine counts, and of slip nothing is said.
    assert!(found(&job, Fit::BySlip).is_none());
    assert_eq!(sense(&job, Fit::ByEngine), FitSense::Governs(Governs::Alone));
    near(amount(&job, Fit::Shear), checked("shear"), 1e-7);
    // By slip alone nothing is known of it.
    job.put(Entry::EngineTorque, "");
    assert_eq!(needed(&job, Fit::ByEngine), [Entry::EngineTorque]);
    assert_eq!(needed(&job, Fit::Shear), [Entry::EngineTorque]);
}

#[test]
fn a_gear_that_cannot_be_read_is_not_passed_over() {
    // It may be the lowest of them: no torque is told without it.
    for entry in [Entry::GearRatio(0), Entry::GearRatio(1), Entry::ReverseRatio, Entry::LowRange] {
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
    // Of two sizes the one with more shear in it; they wind up one behind the other.
    let two_sizes = [(Entry::StepAt, "30"), (Entry::StepDiameter, "2-1/2"), (Entry::StepWall, "0.12")];
    let mut job = with_all(&two_sizes);
    near(amount(&job, Fit::Shear), checked("shear of the smaller"), 1e-7);
    near(amount(&job, Fit::Twist), checked("twist of both"), 1e-7);
    // The larger one has the thinner wall, and folds first.
    near(factor(&job, Fit::Folds), checked("folds at") / checked("shear"), 1e-7);
    // Cut at the front, the place comes nearer to the front joint.
    job.cut.end = End::Front;
    near(amount(&job, Fit::Twist), checked("twist of both front"), 1e-7);
    // A thick wall does not fold (r under 10·t, our own choice), and nothing is said of it.
    let thick = with_all(&[(Entry::TubeWall, "1/4"), (Entry::SpigotDiameter, "2.49")]);
    assert!(found(&thick, Fit::Folds).is_none());
}

#[test]
fn a_drawn_tube_softens_beside_its_weld() {
    // Down to 32 ksi of one as welded: good by its own yield, it is still to bear twice the torque there.
    for (grade, key) in [(Grade::Drawn1020, "bears 1020"), (Grade::Drawn1026, "bears 1026")] {
        let job = |limit: &str, factor: f64| {
            let torque = 200.0 * checked(limit) / checked("shear") / factor;
            let mut job = with(Entry::EngineTorque, &format!("{torque:.6}"));
            job.check.load.grade = grade;
            job
        };
        let soft = Verdict::Watch(Reason::Fit(FitReason::DrawnSoftens));
        assert_eq!(find(&job("bears as welded", 2.0005), Fit::Shear).verdict, Verdict::Good);
        assert_eq!(find(&job("bears as welded", 1.9995), Fit::Shear).verdict, soft);
        assert_eq!(find(&job(key, 2.0005), Fit::Shear).verdict, soft);
        assert_eq!(said(&job(key, 1.9995), Fit::Shear), "not twice");
        assert_eq!(said(&job(key, 0.9995), Fit::Shear), "fails");
    }
}

#[test]
fn of_what_is_no_metal_nothing_is_judged() {
    let mut job = with_all(&[
        (Entry::Modulus, "70"),
        (Entry::ShearModulus, "5"),
        (Entry::Density, "1600 kg/m3"),
        (Entry::OwnYield, "80 ksi"),
    ]);
    job.tube.material = TubeMaterial::ByHand;
    // By hand: at ten times the torque a metal of that yield would fail.
    for torque in ["200", "2000"] {
        job.put(Entry::EngineTorque, torque);
        assert_eq!(said(&job, Fit::Shear), "figure", "{torque}");
        assert!(found(&job, Fit::Folds).is_none());
        assert_eq!(find(&job, Fit::Weld).verdict, Verdict::IfWanted);
    }
    near(factor(&job, Fit::Shear), 0.577 * 80.0 / (10.0 * checked("shear")), 1e-7);
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

/// The leg that is needed, typed or not, in a job with so much torque from the engine, in lbf·ft.
fn laid(torque: f64, leg: &str) -> Job {
    with_all(&[(Entry::EngineTorque, &format!("{torque:.7}")), (Entry::WeldLeg, leg)])
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
    // Not laid yet: what is needed, and nobody looked at it.
    let job = with(Entry::WeldLeg, "");
    near(amount(&job, Fit::Weld), checked("leg"), 1e-7);
    assert_eq!(watched(&job, Fit::Weld), FitReason::LegNotGiven);
    assert_eq!(needed(&with(Entry::ElectrodeStrength, ""), Fit::Weld), [Entry::ElectrodeStrength]);
    // On the tube that the cut end has.
    let two_sizes = [(Entry::StepAt, "30"), (Entry::StepDiameter, "2-1/2"), (Entry::StepWall, "0.12")];
    let mut job = with_all(&two_sizes);
    near(amount(&job, Fit::Weld), checked("leg on the smaller"), 1e-7);
    job.cut.end = End::Front;
    near(amount(&job, Fit::Weld), checked("leg"), 1e-7);
}

#[test]
fn a_weld_is_no_stronger_than_what_is_beside_it() {
    // The weaker of both: E70 metal on a tube of 32 ksi is not, metal of half its strength is, and on a drawn
    // tube E70 metal is.
    near(amount(&with(Entry::ElectrodeStrength, "35 ksi"), Fit::Weld), checked("leg of half"), 1e-7);
    let mut drawn = shaft();
    drawn.check.load.grade = Grade::Drawn1020;
    near(amount(&drawn, Fit::Weld), checked("leg of E70"), 1e-7);
    let mut aluminium = shaft();
    aluminium.tube.material = TubeMaterial::Aluminium;
    near(amount(&aluminium, Fit::Weld), checked("leg aluminium"), 1e-7);
    // By hand: 0.30·70 is 0.577·36.395 ksi.
    for (yields, needed) in [("36.3 ksi", 21.0 / (0.577 * 36.3)), ("36.5 ksi", 1.0)] {
        let mut own = with(Entry::OwnYield, yields);
        own.check.load.grade = Grade::OwnYield;
        near(amount(&own, Fit::Weld), needed * checked("leg of E70"), 1e-7);
    }
}

#[test]
fn a_leg_counts_up_to_the_wall() {
    let most = checked("most of a leg");
    for (leg, counts) in [(0.999 * most, 0.999 * most), (1.001 * most, most), (0.25, most)] {
        let job = with(Entry::WeldLeg, &format!("{leg:.8}"));
        let FitSense::Leg { given: Some(given), factor: Some(factor) } = sense(&job, Fit::Weld) else {
            panic!()
        };
        near(in_inches(given), counts, 1e-6);
        near(factor, counts / checked("leg"), 1e-6);
    }
    // The torque of the engine at which a weld as thick as the wall just bears it.
    let all_used = 200.0 * most / checked("leg");
    for (leg, times) in [("1/4", 1.0), ("", 1.0), ("1/4", 5.0), ("0.04", 1.0)] {
        let FitReason::WallTooThin { wall } =
            (match find(&laid(1.0005 * times * all_used, leg), Fit::Weld).verdict {
                Verdict::Stop(Reason::Fit(reason)) => reason,
                other => panic!("{leg}: {other:?}"),
            })
        else {
            panic!("{leg}")
        };
        near(in_inches(wall), 0.083, 1e-9);
    }
    let FitReason::WallNotTwice { wall } = watched(&laid(0.9995 * all_used, "1/4"), Fit::Weld) else {
        panic!()
    };
    near(in_inches(wall), 0.083, 1e-9);
    assert_eq!(said(&laid(0.9995 * all_used, "0.04"), Fit::Weld), "fails");
    assert_eq!(watched(&laid(0.9995 * all_used, ""), Fit::Weld), FitReason::LegNotGiven);
    // Half of that: just twice it, or just not, however large the leg; a smaller leg could still be larger.
    assert_eq!(said(&laid(0.9995 * all_used / 2.0, "1/4"), Fit::Weld), "good");
    let over = watched(&laid(1.0005 * all_used / 2.0, "1/4"), Fit::Weld);
    assert!(matches!(over, FitReason::WallNotTwice { .. }), "{over:?}");
    let larger = watched(&laid(0.9995 * all_used / 2.0, "0.1"), Fit::Weld);
    let FitReason::WeldNotTwice { needed } = larger else { panic!("{larger:?}") };
    near(in_inches(needed), 0.9995 * most, 1e-6);
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
    for (times, expected) in SIDES {
        for to in ["", "12", &format!("{:.4}", at + 0.01)] {
            let job = rated(times * torque, to);
            let FitSense::Rated { factor, works_at: Some(works_at), .. } = sense(&job, Fit::Joints)
            else {
                panic!()
            };
            near(factor, times, 1e-7);
            near(as_degrees(works_at), at, 1e-6);
            if expected == "fails" {
                let verdict = find(&job, Fit::Joints).verdict;
                let Verdict::Stop(Reason::Fit(FitReason::OverRating { rating })) = verdict else {
                    panic!("{to}: {verdict:?}")
                };
                near(as_pound_feet(rating), times * torque, 1e-7);
            } else {
                assert_eq!(said(&job, Fit::Joints), expected, "{times} {to}");
            }
        }
        // Past the angle they are rated up to, nothing is called good; the rating stays what it is.
        let past = rated(times * torque, &format!("{:.4}", at - 0.01));
        near(amount(&past, Fit::Joints), times * torque, 1e-7);
        if expected == "fails" {
            let verdict = find(&past, Fit::Joints).verdict;
            assert!(matches!(verdict, Verdict::Stop(Reason::Fit(FitReason::OverRating { .. }))));
        } else {
            assert_eq!(watched(&past, Fit::Joints), FitReason::OverRatedAngle, "{times}");
        }
    }
    // At which angle they work is asked only where the sheet names one.
    for (to, expected) in
        [("", Verdict::Good), ("8", Verdict::Watch(Reason::Fit(FitReason::AngleUnknown)))]
    {
        let mut job = without_gearbox();
        // By hand: over twice 578 lbf·ft.
        job.put(Entry::JointRating, "1160");
        job.put(Entry::JointRatedTo, to);
        assert_eq!(find(&job, Fit::Joints).verdict, expected);
    }
}
