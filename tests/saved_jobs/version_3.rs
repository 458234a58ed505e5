//! Version 3: the driveline's angles, and the yokes measured at three sittings.

use std::fs;

use shaftwright::job::{
    AFTER_WELDING, BEFORE_CUT, BEFORE_TACKING, Entry, Job, LevelDivision, NotAJob, PassKind,
    PhaseMethod, PhaseTarget, PlanBy, ShaftBy, Side, Stations, from_text,
};
use shaftwright::quantity::Unit;

use super::{fixtures, version_1, version_2, with};

/// A job as version 3 saved it.
pub fn text() -> String {
    fs::read_to_string(fixtures().join("job-v3.json")).unwrap()
}

#[test]
fn opens_and_says_what_it_said() {
    let job = from_text(&text()).unwrap();
    assert_eq!(job.name, "Cider press cart, “raised” — № 9 ¾");
    assert_eq!((job.phase.method, job.phase.target), (PhaseMethod::BothLifts, PhaseTarget::Own));
    let sides = job.phase.sittings.each_ref().map(|sitting| (sitting.front_lifted, sitting.lifted));
    assert_eq!(sides, [(Side::Left, Side::Right), (Side::Right, Side::Left), (Side::Left, Side::Left)]);
    assert_eq!(job.angles.division, LevelDivision::Twentieth);
    assert_eq!((job.angles.shaft_by, job.angles.plan_by), (ShaftBy::Read, PlanBy::Angles));
    for (entry, text, unit) in [
        (Entry::FrontSpan, "3-1/8", Unit::Inch),
        (Entry::Span, "82", Unit::Millimetre),
        (Entry::Lift(BEFORE_CUT, 0), "0.03", Unit::Inch),
        (Entry::Lift(BEFORE_TACKING, 2), "0,8", Unit::Millimetre),
        (Entry::FrontLift(AFTER_WELDING, 1), "1/64", Unit::Inch),
        (Entry::FrontLevel(BEFORE_CUT, 1), "−0.4", Unit::Degree),
        (Entry::RearLevel(AFTER_WELDING, 2), "89.9°", Unit::Degree),
        (Entry::LineArc(BEFORE_TACKING, 0), "-3/32", Unit::Inch),
        (Entry::OwnTarget, "12.5", Unit::Degree),
        (Entry::PhaseLimit, "0.5", Unit::Degree),
        (Entry::GearboxSlope(0), "3.5", Unit::Degree),
        (Entry::ShaftSlopeRead(1), "6,05", Unit::Degree),
        (Entry::PinionSlope(2), "−2.6", Unit::Degree),
        (Entry::FrontHeight, "25-1/4", Unit::Inch),
        (Entry::RearHeight, "492", Unit::Millimetre),
        (Entry::OneWay, "3.6", Unit::Degree),
        (Entry::TurnedRound, "about 3", Unit::Degree),
        (Entry::SideOffset, "-1-1/2", Unit::Inch),
        (Entry::GearboxPlan, "0.5", Unit::Degree),
        (Entry::ShaftPlan, "-1", Unit::Degree),
        (Entry::PinionPlan, "1.5 deg", Unit::Degree),
        (Entry::PowerRise, "1.5", Unit::Degree),
        (Entry::DroopRise, "0", Unit::Degree),
        (Entry::TorsionalLimit, "300 rad/s²", Unit::RadianPerSquareSecond),
        (Entry::InertiaLimit, "500", Unit::RadianPerSquareSecond),
        (Entry::LeastAngle, "1/2", Unit::Degree),
        (Entry::RoadSpeed, "75", Unit::MilePerHour),
        (Entry::SpringPad, "114", Unit::Millimetre),
        (Entry::MountArm, "31", Unit::Inch),
        (Entry::PinionArm, "9-1/2", Unit::Inch),
        (Entry::JointOverhang, "178", Unit::Millimetre),
        (Entry::JointMost, "22.5 deg", Unit::Degree),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    // Emptied by hand, though it has a usual value: it stays empty.
    for entry in [Entry::BumpRise, Entry::GearboxSlope(1), Entry::LineArc(BEFORE_CUT, 0)] {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
    // The dial's readings, at the one place where it stood.
    let turns: Vec<_> = job.truing.passes.iter().map(|p| (p.kind, p.stations, p.count())).collect();
    assert_eq!(turns, [(PassKind::Tacked, Stations::Free, 6), (PassKind::Welded, Stations::Twelve, 12)]);
    for (entry, text, unit) in [
        (Entry::StationReading(0, 0, 5), "-1", Unit::Thousandth),
        (Entry::StationAt(0, 0, 5), "7:30", Unit::Hour),
        (Entry::StationReading(1, 0, 11), "3", Unit::Thousandth),
        (Entry::Closing(1, 0), "0", Unit::Thousandth),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
}

#[test]
fn what_earlier_versions_did_not_ask_has_its_usual_value() {
    // As in a new job; nobody can have emptied them.
    for old in [version_1(), version_2::text()] {
        let old = from_text(&old).unwrap();
        for entry in [
            Entry::PowerRise,
            Entry::BumpRise,
            Entry::DroopRise,
            Entry::TorsionalLimit,
            Entry::InertiaLimit,
            Entry::LeastAngle,
        ] {
            assert_eq!(old.typed(entry), Job::default().typed(entry), "{entry:?}");
            assert!(!old.typed(entry).unwrap().is_blank());
        }
        assert_eq!(old.phase.target, PhaseTarget::InLine);
    }
}

#[test]
fn a_yoke_read_once_is_the_first_reading_before_tacking() {
    for name in ["lift", "front-level", "rear-level"] {
        let field = serde_json::json!({name: {"text": "0.4", "unit": "°"}});
        let read = |version: u32| {
            let whole = serde_json::json!({
                "shaftwright-job": version, "name": "", "choices": {}, "turns": [], "counts": {},
                "fields": field,
            });
            from_text(&whole.to_string())
        };
        for version in [1, 2] {
            let job = read(version).unwrap();
            let entry = Entry::from_name(&format!("{name}-{BEFORE_TACKING}-0")).unwrap();
            assert_eq!(job.typed(entry).unwrap().text, "0.4", "{name}");
        }
        // Since version 3 there is no such field.
        let detail = format!("unknown field: {name}");
        assert_eq!(read(3), Err(NotAJob::Damaged { detail }));
    }
}

#[test]
fn a_reading_or_a_sitting_past_the_last_is_damage() {
    for name in ["gearbox-slope-3", "lift-3-0", "rear-level-1-3"] {
        let past = serde_json::json!({"fields": {name: {"text": "1", "unit": "°"}}});
        assert_eq!(with(past), Err(NotAJob::Damaged { detail: format!("no such place: {name}") }));
    }
}
