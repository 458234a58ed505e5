//! The fields of Check: what each can be, in which units, and what a wrong one holds up.
//!
//! The bounds are our own choice and stand here a second time.

use shaftwright::job::{Entry, Job, TubeMaterial, TyreBy};
use shaftwright::quantity::{
    Unreadable, as_gigapascals, as_kilograms_per_cubic_metre, as_kilometres_per_hour, as_megapascals,
    as_newton_metres, as_newtons_per_millimetre, as_turns_per_kilometre,
};
use shaftwright::stage::check::{Fit, NoSuchTyre, TyrePart};
use shaftwright::stage::{Amount, Complaint, Name, Need, Standing, Why, read, whole};

use super::shaft::{find, needs, number, with, with_all};
use super::{in_base, lost};

/// In the metric unit of its kind: mm, g, °, rpm, km/h, N·m, MPa, GPa, kg/m³, N/mm, turns a km.
fn metric(amount: Amount) -> f64 {
    match amount {
        Amount::Torque(q) => as_newton_metres(q),
        Amount::Stress(q) => as_megapascals(q),
        Amount::Modulus(q) => as_gigapascals(q),
        Amount::Density(q) => as_kilograms_per_cubic_metre(q),
        Amount::Rate(q) => as_newtons_per_millimetre(q),
        Amount::Turns(q) => as_turns_per_kilometre(q),
        Amount::RoadSpeed(q) => as_kilometres_per_hour(q),
        Amount::Reading(q) => q,
        other => in_base(other),
    }
}

/// Every field with its unit, its least and its most.
fn all() -> Vec<(Entry, &'static str, f64, f64)> {
    vec![
        (Entry::EngineLimit, "rpm", 500.0, 15_000.0),
        (Entry::GearRatio(0), "", 0.4, 15.0),
        (Entry::GearRatio(4), "", 0.4, 15.0),
        (Entry::ReverseRatio, "", 0.8, 20.0),
        (Entry::LowRange, "", 1.0, 10.0),
        (Entry::AxleRatio, "", 1.5, 12.0),
        (Entry::TyreTurns, "/km", 200.0, 1200.0),
        (Entry::RolledOut, "mm", 800.0, 5000.0),
        (Entry::RoadTop, "km/h", 5.0, 500.0),
        (Entry::Cruise, "km/h", 5.0, 500.0),
        (Entry::Modulus, "GPa", 10.0, 500.0),
        (Entry::ShearModulus, "GPa", 1.0, 200.0),
        (Entry::Density, "kg/m3", 1000.0, 12_000.0),
        (Entry::FrontYokeMass, "g", 50.0, 40_000.0),
        (Entry::RearYokeMass, "g", 50.0, 40_000.0),
        (Entry::SlipMass, "g", 100.0, 60_000.0),
        (Entry::HungBehind, "g", 100.0, 60_000.0),
        (Entry::FrontSupport, "N/mm", 50.0, 1_000_000.0),
        (Entry::RearSupport, "N/mm", 50.0, 1_000_000.0),
        (Entry::StepAt, "mm", 10.0, 3000.0),
        (Entry::StepDiameter, "mm", 20.0, 200.0),
        (Entry::StepWall, "mm", 0.8, 12.0),
        (Entry::LumpMass, "g", 10.0, 20_000.0),
        (Entry::LumpAt, "mm", 10.0, 3000.0),
        (Entry::BearingAt, "mm", 10.0, 3000.0),
        (Entry::EngineTorque, "N·m", 5.0, 5000.0),
        (Entry::StallRatio, "", 1.0, 4.0),
        (Entry::AxleLoad, "g", 50_000.0, 20_000_000.0),
        (Entry::Friction, "", 0.1, 1.5),
        (Entry::OwnYield, "MPa", 20.0, 3000.0),
        (Entry::WeldLeg, "mm", 0.8, 20.0),
        (Entry::ElectrodeStrength, "MPa", 100.0, 1500.0),
        (Entry::SplineRoot, "mm", 10.0, 120.0),
        (Entry::SplineBore, "mm", 0.0, 110.0),
        (Entry::SplineYield, "MPa", 20.0, 3000.0),
        (Entry::JointRating, "N·m", 20.0, 100_000.0),
        (Entry::JointRatedTo, "°", 0.5, 45.0),
    ]
}

#[test]
fn bounds_may_be_typed_and_nothing_past_them() {
    for (entry, unit, least, most) in all() {
        let read_of = |value: f64| {
            let text =
                if unit.is_empty() { format!("{value:.6}") } else { format!("{value:.6} {unit}") };
            let mut job = with(entry, &text);
            // A gear is held against the one before it, see below.
            if matches!(entry, Entry::GearRatio(1..)) {
                job.put(Entry::GearRatio(0), "");
            }
            read(&job, entry)
        };
        for bound in [least, most] {
            let got = read_of(bound).unwrap().unwrap();
            assert!((metric(got) - bound).abs() <= 1e-6 * bound.max(1.0), "{entry:?} {bound}: {got:?}");
        }
        for value in [least - 0.001 * least.max(1.0), most * 1.001, -most] {
            let Err(Complaint::OutOfRange { given, least: l, most: m }) = read_of(value) else {
                panic!("{entry:?} {value}: {:?}", read_of(value))
            };
            for (got, expected) in [(given, value), (l, least), (m, most)] {
                let close = (metric(got) - expected).abs() <= 1e-6 * expected.abs().max(1.0);
                assert!(close, "{entry:?}: {got:?} against {expected}");
            }
        }
    }
}

#[test]
fn words_and_other_units_are_not_read() {
    for (entry, ..) in all() {
        let said = read(&with(entry, "about so"), entry);
        let given = "about so".to_owned();
        assert_eq!(said, Err(Complaint::Unreadable(Unreadable::NotUnderstood { given })), "{entry:?}");
        for wrong in ["12 furlongs", "1/0", "--3", "1,455,55"] {
            let said = read(&with(entry, wrong), entry);
            assert!(matches!(said, Err(Complaint::Unreadable(_))), "{entry:?} {wrong}: {said:?}");
        }
        assert_eq!(read(&with(entry, "  "), entry), Ok(None), "{entry:?}");
    }
    // A unit of another kind is not passed over.
    for (entry, text) in [
        (Entry::EngineTorque, "200 hp"),
        (Entry::EngineTorque, "200 ksi"),
        (Entry::OwnYield, "55 GPa"),
        (Entry::Modulus, "205 MPa"),
        (Entry::Density, "7850 kg"),
        (Entry::FrontSupport, "3000 N"),
        (Entry::TyreTurns, "750 mm"),
        (Entry::AxleLoad, "3 in"),
        (Entry::WeldLeg, "3 kg"),
        (Entry::GearRatio(0), "3.4 in"),
    ] {
        let said = read(&with(entry, text), entry);
        assert!(matches!(said, Err(Complaint::Unreadable(_))), "{entry:?} {text}: {said:?}");
    }
}

#[test]
fn markings_of_tyres() {
    // By definition of the marking, ISO 4000-1 (from memory): 205/55R16 is 631.9 mm, and rolls 0.97 of its round.
    for (text, across) in [
        ("205/55R16", 631.9),
        ("p205/55 zr16 91v", 631.9),
        ("31x10.50R15LT", 31.0 * 25.4),
        ("LT245/75R16", 773.9),
    ] {
        let turns = metric(read(&with(Entry::TyreSize, text), Entry::TyreSize).unwrap().unwrap());
        let by_hand = 1e6 / (core::f64::consts::PI * across * 0.97);
        assert!((turns / by_hand - 1.0).abs() < 1e-9, "{text}: {turns}");
    }
    for (text, why) in [
        ("205", NoSuchTyre::Missing(TyrePart::Aspect)),
        ("205/", NoSuchTyre::Missing(TyrePart::Aspect)),
        ("205/55", NoSuchTyre::Missing(TyrePart::Construction)),
        ("205/55R", NoSuchTyre::Missing(TyrePart::Rim)),
        ("big ones", NoSuchTyre::Missing(TyrePart::Width)),
        ("55/205R16", NoSuchTyre::OutOfRange(TyrePart::Width)),
        ("205/555R16", NoSuchTyre::OutOfRange(TyrePart::Aspect)),
        ("205/55R61", NoSuchTyre::OutOfRange(TyrePart::Rim)),
        ("205/55R16 or so", NoSuchTyre::Behind),
        ("205/55R16 205/55R16 205/55R16 205/55R16 205/55R16", NoSuchTyre::TooLong),
    ] {
        let said = read(&with(Entry::TyreSize, text), Entry::TyreSize);
        assert_eq!(said, Err(Complaint::NoTyre(why)), "{text}");
    }
    assert_eq!(read(&with(Entry::TyreSize, " "), Entry::TyreSize), Ok(None));
}

#[test]
fn one_field_against_another() {
    for (entry, text, other, limit, most) in [
        (Entry::StepWall, "0.41", Entry::StepDiameter, "0.8", 0.4),
        (Entry::SplineBore, "1.25", Entry::SplineRoot, "1-1/4", 1.25),
    ] {
        let job = with_all(&[(entry, text), (other, limit)]);
        let Err(Complaint::NotBelow { other: against, most: allowed, .. }) = read(&job, entry) else {
            panic!("{entry:?}: {:?}", read(&job, entry))
        };
        assert_eq!(against, other);
        assert!((number(allowed) - most).abs() < 1e-9, "{entry:?}");
        // Without the other it stands alone.
        assert!(read(&with(entry, text), entry).is_ok(), "{entry:?}");
    }
    // As fast as the fastest may be cruised, in whichever unit; as large as the root no bore is.
    for text in ["80 mph", "128.74752 km/h"] {
        let job = with_all(&[(Entry::Cruise, text), (Entry::RoadTop, "80 mph")]);
        assert!(read(&job, Entry::Cruise).is_ok(), "{text}");
    }
    let fast = with_all(&[(Entry::Cruise, "81 mph"), (Entry::RoadTop, "80 mph")]);
    let Err(Complaint::Above { other: Entry::RoadTop, most, .. }) = read(&fast, Entry::Cruise) else {
        panic!()
    };
    assert!((metric(most) - 80.0 * 1.609_344).abs() < 1e-9);
    assert!(read(&with(Entry::Cruise, "81 mph"), Entry::Cruise).is_ok());
    let below = with_all(&[(Entry::SplineBore, "1.249"), (Entry::SplineRoot, "1-1/4")]);
    assert!(read(&below, Entry::SplineBore).is_ok());
}

#[test]
fn gears_fall_from_first_up() {
    let of = |gears: &[(usize, &'static str)]| {
        let entries: Vec<(Entry, &str)> =
            gears.iter().map(|(row, text)| (Entry::GearRatio(*row), *text)).collect();
        with_all(&entries)
    };
    // Against the one given before it, be there a blank row between; first gear is 3.4 in the shaft itself.
    for (gears, row, against) in [
        (&[(1, "3.41")][..], 1, 0),
        (&[(1, "1.95"), (2, "1.96")], 2, 1),
        (&[(3, "3.5")], 3, 0),
        (&[(1, "1.95"), (4, "2")], 4, 1),
    ] {
        let job = of(gears);
        let Err(Complaint::Above { other, most, .. }) = read(&job, Entry::GearRatio(row)) else {
            panic!("{gears:?}")
        };
        assert_eq!(other, Entry::GearRatio(against));
        let limit = metric(read(&job, Entry::GearRatio(against)).unwrap().unwrap());
        assert!((metric(most) - limit).abs() < 1e-12);
        // It may be the lowest: no torque without it, nor a top speed that was not typed.
        let entry = Entry::GearRatio(row);
        assert_eq!(needs(&job, Name::Fit(Fit::ByEngine))[0].entry, entry, "{gears:?}");
    }
    for gears in [&[(1, "3.4")][..], &[(1, "1.95"), (2, "1.95")], &[(3, "3.39")], &[(0, ""), (1, "9")]] {
        let job = of(gears);
        for (row, _) in gears {
            assert!(read(&job, Entry::GearRatio(*row)).is_ok(), "{gears:?}");
        }
    }
    // One that is wrong itself says nothing of another.
    let wrong = of(&[(1, "one"), (2, "3")]);
    assert!(read(&wrong, Entry::GearRatio(2)).is_ok() && read(&wrong, Entry::GearRatio(1)).is_err());
}

/// The shaft with its speed reckoned.
fn reckoned(entries: &[(Entry, &str)]) -> Job {
    let mut job = with_all(&[
        (Entry::TopSpeed, ""),
        (Entry::EngineLimit, "4000"),
        (Entry::GearRatio(3), "1"),
        (Entry::AxleRatio, "3.73"),
        (Entry::TyreSize, "215/75R15"),
        (Entry::RoadTop, "75 mph"),
    ]);
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

#[test]
fn a_wrong_entry_holds_the_top_speed_up_and_is_named() {
    assert_eq!(lost(&reckoned(&[])), []);
    for (entry, text) in [
        (Entry::EngineLimit, "four thousand"),
        (Entry::GearRatio(1), "0.1"),
        (Entry::GearRatio(3), "one"),
        (Entry::AxleRatio, "37.3"),
        (Entry::TyreSize, "215/75"),
        (Entry::RoadTop, "750 mph"),
    ] {
        let job = reckoned(&[(entry, text)]);
        let why = Why::Wrong(read(&job, entry).unwrap_err());
        for name in [Name::Fit(Fit::TopSpeed), Name::SpeedShare] {
            assert_eq!(needs(&job, name), [Need { entry, why: why.clone() }], "{entry:?}");
        }
        assert_eq!(whole(&job).shaft, Standing::NotYet, "{entry:?}");
        // What it does not need stays.
        assert!(find(&job, Name::WhirlSpeed).value().is_some());
        assert!(find(&job, Name::Fit(Fit::Elements)).value().is_some());
    }
    // What was typed holds whatever stands below it, unless it is wrong itself.
    let typed = reckoned(&[(Entry::TopSpeed, "3500"), (Entry::RoadTop, "750 mph")]);
    assert!(find(&typed, Name::SpeedShare).value().is_some());
    let wrong = reckoned(&[(Entry::TopSpeed, "35,00,0")]);
    assert_eq!(needs(&wrong, Name::SpeedShare)[0].entry, Entry::TopSpeed);
    // Of the ways to know a tyre the chosen one alone counts.
    let mut other = reckoned(&[(Entry::TyreTurns, "banana"), (Entry::RolledOut, "banana")]);
    assert_eq!(lost(&other), []);
    other.check.speeds.tyre_by = TyreBy::Turns;
    assert_eq!(needs(&other, Name::Fit(Fit::TopSpeed))[0].entry, Entry::TyreTurns);
}

#[test]
fn a_wrong_entry_of_what_may_be_left_out_holds_up_what_it_would_change() {
    let elements = Name::Fit(Fit::Elements);
    let (shear, weld, twist) = (Name::Fit(Fit::Shear), Name::Fit(Fit::Weld), Name::Fit(Fit::Twist));
    for (entry, text, gone) in [
        (Entry::FrontSupport, "soft", &[elements][..]),
        (Entry::RearSupport, "1", &[elements]),
        (Entry::SlipMass, "-1", &[elements]),
        (Entry::BearingAt, "here", &[elements]),
        (Entry::LumpAt, "here", &[elements]),
        // A tube of two sizes is whirled and twisted by both.
        (Entry::StepWall, "thin", &[elements, Name::WhirlSpeed, Name::SpeedShare, shear]),
        (Entry::FrontYokeMass, "heavy", &[elements]),
        (Entry::LowRange, "0.5", &[Name::Fit(Fit::ByEngine), shear]),
        (Entry::GearRatio(3), "one", &[Name::Fit(Fit::ByEngine), shear]),
        (Entry::ReverseRatio, "low", &[Name::Fit(Fit::ByEngine), shear]),
        (Entry::WeldLeg, "1/64", &[weld]),
        (Entry::SplineBore, "wide", &[Name::Fit(Fit::Spline)]),
        (Entry::JointRating, "high", &[Name::Fit(Fit::Joints)]),
        (Entry::AxleLoad, "heavy", &[Name::Fit(Fit::BySlip)]),
        (Entry::Cruise, "slowly", &[Name::Fit(Fit::Half)]),
    ] {
        let job = with(entry, text);
        let mut now = lost(&job);
        now.retain(|name| !gone.contains(name));
        assert_eq!(now, [], "{entry:?}");
        for name in gone {
            let named = needs(&job, *name);
            let why = Why::Wrong(read(&job, entry).unwrap_err());
            assert!(named.contains(&Need { entry, why }), "{entry:?}: {named:?}");
        }
    }
    // What was not chosen may hold anything.
    for entry in [
        Entry::Modulus,
        Entry::ShearModulus,
        Entry::Density,
        Entry::StallRatio,
        Entry::OwnYield,
        // Without a bearing nothing hangs behind it.
        Entry::HungBehind,
    ] {
        assert_eq!(lost(&with(entry, "banana")), [], "{entry:?}");
    }
    let mut by_hand = with(Entry::Modulus, "banana");
    by_hand.tube.material = TubeMaterial::ByHand;
    assert!(lost(&by_hand).contains(&twist) || lost(&by_hand).contains(&elements));
    assert_eq!(needs(&by_hand, elements)[0].entry, Entry::Modulus);
}
