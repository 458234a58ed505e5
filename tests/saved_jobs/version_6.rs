//! Version 6: speeds of the vehicle, what the shaft is built of and hangs in, and what it must carry.

use std::fs;

use serde_json::json;
use shaftwright::job::{
    Display, Drives, Entry, Gearbox, Grade, Job, MOST_GEARS, NotAJob, RunsMade, TubeMaterial, TyreBy,
    from_text, to_text,
};
use shaftwright::quantity::Unit;

use super::{fixtures, version_1, version_2, version_3, version_4, version_5, with};

/// A job as version 6 saved it.
fn text() -> String {
    fs::read_to_string(fixtures().join("job-v6.json")).unwrap()
}

#[test]
fn opens_and_says_what_it_said() {
    let job = from_text(&text()).unwrap();
    assert_eq!(job.name, "Cider press’s cart, “third” shaft — № 6 ⅝");
    assert_eq!((job.display, job.tube.material), (Display::Millimetre, TubeMaterial::ByHand));
    assert_eq!((job.check.speeds.tyre_by, job.check.speeds.gears.len()), (TyreBy::Turns, 7));
    assert_eq!((job.check.load.gearbox, job.check.load.grade), (Gearbox::Automatic, Grade::OwnYield));
    assert_eq!((job.balance.made, job.balance.made_for_others()), (RunsMade::BothEnds, None));
    assert_eq!(job.check.load.drives, Drives::More);
    for (entry, text, unit) in [
        (Entry::OldReading(0), "61-1/8", Unit::Inch),
        (Entry::WantedReading(0), "58⅞", Unit::Inch),
        (Entry::TopSpeed, "3650 rpm", Unit::Rpm),
        (Entry::EngineLimit, "4900", Unit::Rpm),
        (Entry::GearRatio(0), "4.12", Unit::Plain),
        (Entry::GearRatio(1), "2,41", Unit::Plain),
        (Entry::GearRatio(3), "1.0 “direct”", Unit::Plain),
        (Entry::GearRatio(6), "0.69", Unit::Plain),
        (Entry::ReverseRatio, "3.9", Unit::Plain),
        (Entry::LowRange, "2.6", Unit::Plain),
        (Entry::AxleRatio, "4.10", Unit::Plain),
        (Entry::TyreSize, "LT245/75 R16 — worn", Unit::Plain),
        (Entry::TyreTurns, "688 /mi", Unit::TurnPerMile),
        (Entry::RolledOut, "2337,5", Unit::Millimetre),
        (Entry::RoadTop, "70 mph", Unit::MilePerHour),
        (Entry::Cruise, "88", Unit::KilometrePerHour),
        (Entry::Modulus, "71,5", Unit::Gigapascal),
        (Entry::ShearModulus, "5.2 GPa", Unit::Gigapascal),
        (Entry::Density, "1580 kg/m³", Unit::KilogramPerCubicMetre),
        (Entry::FrontYokeMass, "4-1/2 lb", Unit::Pound),
        (Entry::RearYokeMass, "1,85", Unit::Kilogram),
        (Entry::SlipMass, "2100 g", Unit::Kilogram),
        (Entry::FrontSupport, "18,000", Unit::PoundPerInch),
        (Entry::RearSupport, "4500", Unit::NewtonPerMillimetre),
        (Entry::StepAt, "31½", Unit::Inch),
        (Entry::StepDiameter, "2-3/4", Unit::Inch),
        (Entry::StepWall, "2.4", Unit::Millimetre),
        (Entry::LumpMass, "about 1½", Unit::Kilogram),
        (Entry::LumpAt, "640 mm", Unit::Millimetre),
        (Entry::BearingAt, "< 50\"", Unit::Inch),
        (Entry::HungBehind, "7-1/4 lb, “with” joint", Unit::Kilogram),
        (Entry::EngineTorque, "240 lbf·ft", Unit::PoundFoot),
        (Entry::StallRatio, "1.9", Unit::Plain),
        (Entry::AxleLoad, "3400", Unit::Pound),
        (Entry::Friction, "0,8", Unit::Plain),
        (Entry::OwnYield, "58", Unit::Ksi),
        (Entry::WeldLeg, "3/16\"", Unit::Inch),
        (Entry::ElectrodeStrength, "80 ksi", Unit::Ksi),
        (Entry::SplineRoot, "1.31", Unit::Inch),
        (Entry::SplineBore, "12,7", Unit::Millimetre),
        (Entry::SplineYield, "620 MPa ± 20", Unit::Megapascal),
        (Entry::JointRating, "1150", Unit::PoundFoot),
        (Entry::JointRatedTo, "8°", Unit::Degree),
        // What stood in the forms before stands in this one too.
        (Entry::RunPhase(2, 0), "7:30", Unit::Degree),
        (Entry::StripWidth, "about 20", Unit::Millimetre),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    for entry in [Entry::GearRatio(2), Entry::GearRatio(4), Entry::GearRatio(5)] {
        assert!(job.typed(entry).unwrap().is_blank(), "{entry:?}");
    }
    // As it was read it is written, to the byte.
    assert_eq!(to_text(&job).unwrap(), text());
}

#[test]
fn what_earlier_versions_did_not_ask_has_its_usual_value() {
    // Published: friction 0.71 (driveshaft installation manual J3311-1); E70 metal, 70 ksi or 480 MPa (AWS A5.1
    // and A5.1M, from memory).
    let olds = [version_1(), version_2::text(), version_3::text(), version_4::text(), version_5::text()];
    for (version, old) in olds.iter().enumerate() {
        let old = from_text(old).unwrap();
        let new = Job::new(old.display);
        let text = |entry: Entry| old.typed(entry).unwrap().text.clone();
        assert_eq!(text(Entry::Friction), "0.71");
        let metal = old.typed(Entry::ElectrodeStrength).unwrap();
        let (strength, unit) =
            if old.display.is_inch() { ("70", Unit::Ksi) } else { ("480", Unit::Megapascal) };
        assert_eq!((metal.text.as_str(), metal.unit), (strength, unit), "version {}", version + 1);
        // All else is as in a new job: nothing typed, the usual choices, as many gears.
        assert_eq!((&old.check.speeds, &old.check.build), (&new.check.speeds, &new.check.build));
        assert_eq!(old.check.load, new.check.load, "version {}", version + 1);
    }
}

#[test]
fn gears_are_as_many_as_were_kept_and_no_more_than_there_are_places() {
    let gears = |count: usize| with(json!({"counts": {"gears": count}}));
    for count in [1, 5, MOST_GEARS] {
        assert_eq!(gears(count).unwrap().check.speeds.gears.len(), count);
    }
    assert_eq!(gears(MOST_GEARS + 1), Err(NotAJob::TooMuch));
    let read = |name: &str| with(json!({"fields": {name: {"text": "1.2", "unit": ""}}}));
    // A ratio makes room for its gear.
    assert_eq!(read("gear-ratio-8").unwrap().check.speeds.gears.len(), 9);
    assert_eq!(read("gear-ratio-10"), Err(NotAJob::TooMuch));
    for choice in ["tyre-by", "gearbox", "drives", "grade"] {
        assert!(with(json!({"choices": {choice: "Banana"}})).is_err(), "{choice}");
    }
}
