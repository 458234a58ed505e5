//! Version 2: slip, seal, marks that the tape was laid on, the cut's own choices and the face.

use std::fs;

use shaftwright::job::{
    ClockMarks, CutAt, Datum, DatumPair, Dial, Display, Division, End, Entry, FACE_PLACES, Groove,
    Guide, Job, LevelDivision, NotAJob, Paper, PassKind, PhaseMethod, Route, RunOutLimit, ShaftKind,
    Side, SquareBy, Stations, TravelBy, TubeMaterial, WeightsCame, WhirlShare, YokeAt, from_text,
};
use shaftwright::quantity::Unit;

use super::{fixtures, version_1, with};

/// A job as version 2 saved it.
pub fn text() -> String {
    fs::read_to_string(fixtures().join("job-v2.json")).unwrap()
}

#[test]
fn opens_and_says_what_it_said() {
    let job = from_text(&text()).unwrap();
    assert_eq!(job.name, "Orchard sled, “short” — № 8 ½");
    assert_eq!((job.display, job.tube.material), (Display::Millimetre, TubeMaterial::Aluminium));
    assert_eq!((job.measure.kind, job.measure.route), (ShaftKind::SlipOnShaft, Route::Both));
    let pair = |front, rear| DatumPair { front, rear };
    assert_eq!(job.measure.old_datum, pair(Datum::OuterSeat, Datum::InnerEar));
    assert_eq!(job.measure.wanted_datum, pair(Datum::OuterEar, Datum::InnerSeat));
    assert_eq!((job.measure.division, job.measure.yoke_at), (Division::HalfMillimetre, YokeAt::Drawn));
    assert_eq!(
        (job.slip.by, job.slip.guide, job.slip.groove),
        (TravelBy::Reckoned, Guide::Leading, Groove::None)
    );
    assert_eq!((job.cut.at, job.cut.square_by), (CutAt::ClearOfIt, SquareBy::Feeler));
    assert_eq!(
        (job.cut.marks, job.cut.paper, job.cut.end),
        (ClockMarks::Sixteen, Paper::Letter, End::Front)
    );
    assert_eq!((job.check.whirl_share, job.weights.came), (WhirlShare::Industrial, WeightsCame::None));
    assert_eq!((job.phase.method, job.phase.sittings[1].lifted), (PhaseMethod::Bench, Side::Left));
    assert_eq!(job.phase.level_division, LevelDivision::Fifth);
    assert_eq!((job.truing.dial, job.truing.limit), (Dial::HalfThousandth, RunOutLimit::EightTenths));
    let turns: Vec<_> = job.truing.passes.iter().map(|p| (p.kind, p.stations, p.count())).collect();
    assert_eq!(turns, [(PassKind::Tacked, Stations::Free, 6), (PassKind::Welded, Stations::Twelve, 12)]);
    assert_eq!((job.measure.old.len(), job.measure.wanted.len()), (4, 3));
    assert_eq!(
        (job.measure.ends.len(), job.weights.rows.len(), job.cut.face.len()),
        (5, 2, FACE_PLACES)
    );
    for (entry, text, unit) in [
        (Entry::OldReading(3), "1455,7 mm", Unit::Inch),
        (Entry::WantedReading(1), "1,409", Unit::Inch),
        (Entry::EndsReading(0), "59 9/32\"", Unit::Inch),
        (Entry::EndsReading(1), "1506", Unit::Millimetre),
        (Entry::EndsReading(4), "about 59", Unit::Inch),
        (Entry::SetPoint, "⅞", Unit::Inch),
        (Entry::TakenAt, "1⅛", Unit::Inch),
        (Entry::SplineLength, "4", Unit::Inch),
        (Entry::LeastEngaged, "1-3/8", Unit::Inch),
        (Entry::BumpTravel, "3", Unit::Inch),
        (Entry::DroopTravel, "4-1/2″", Unit::Inch),
        (Entry::AtBump, "1519", Unit::Millimetre),
        (Entry::AtRide, "1524,5", Unit::Millimetre),
        (Entry::AtDroop, "1538", Unit::Millimetre),
        (Entry::ShaftSlope, "−5.5", Unit::Degree),
        (Entry::LinkRadius, "610", Unit::Millimetre),
        (Entry::LinkRise, "-1-1/4", Unit::Inch),
        (Entry::BottomedGap, "1/2", Unit::Inch),
        (Entry::LipDepth, "1/4", Unit::Inch),
        (Entry::BarrelLength, "5½", Unit::Inch),
        (Entry::GroovePlace, "1-1/8", Unit::Inch),
        (Entry::GrooveWidth, "1/8", Unit::Inch),
        (Entry::GrooveMargin, "3/32", Unit::Inch),
        (Entry::FrontCup, "1.0625", Unit::Inch),
        (Entry::RearCup, "30.2", Unit::Millimetre),
        (Entry::FrontEar, "1-1/8", Unit::Inch),
        (Entry::RearEar, "1-1/4", Unit::Inch),
        (Entry::WantedFrontEar, "1-3/16", Unit::Inch),
        (Entry::WantedRearEar, "33.3", Unit::Millimetre),
        (Entry::FrontDepth, "2-3/8", Unit::Inch),
        (Entry::RearDepth, "54", Unit::Millimetre),
        (Entry::ClearBy, "38", Unit::Millimetre),
        (Entry::SpigotDiameter, "2.83", Unit::Inch),
        (Entry::Shoulder, "3-7/16", Unit::Inch),
        (Entry::Trim, "1", Unit::Millimetre),
        (Entry::SeamClock, "10:30", Unit::Hour),
        (Entry::FaceReading(0), "0", Unit::Inch),
        (Entry::FaceReading(3), "0.002", Unit::Inch),
        (Entry::FaceReading(7), "0.05 mm", Unit::Inch),
        (Entry::StationReading(1, 0, 11), "3", Unit::Thousandth),
        (Entry::WeightClock(1), "225°", Unit::Hour),
        (Entry::ShaftMass, "18.5", Unit::Pound),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    // Emptied by hand, though it has a usual value: it stays empty.
    for entry in [Entry::BumpRoom, Entry::EndsReading(2), Entry::FaceReading(1), Entry::WeightMass(0)] {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
}

#[test]
fn what_version_1_did_not_ask_has_its_usual_value() {
    // As in a new job of the same display; nobody can have emptied them.
    let usual = |job: &Job| {
        [Entry::LeastEngaged, Entry::BumpRoom, Entry::GrooveMargin, Entry::Trim]
            .map(|entry| job.typed(entry).unwrap().clone())
    };
    let old = from_text(&version_1()).unwrap();
    assert_eq!(usual(&old), usual(&Job::new(Display::Millimetre)));
    assert_eq!(usual(&old).map(|typed| typed.text), ["38", "6.5", "1.6", "0"]);
    let inches = version_1().replace("\"Millimetre\"", "\"ThirtySecond\"");
    let texts = usual(&from_text(&inches).unwrap()).map(|typed| typed.text);
    assert_eq!(texts, ["1-1/2", "1/4", "1/16", "0"]);
    // All else that came with version 2 is empty, and chosen as in a new job.
    let new = Job::default();
    let version_2: serde_json::Value = serde_json::from_str(&text()).unwrap();
    for entry in old.entries() {
        let word = entry.name();
        if version_2["fields"].get(&word).is_some()
            && !version_1().contains(&format!("\"{word}\""))
            && usual(&old).iter().all(|u| old.typed(entry) != Some(u))
        {
            assert_eq!(old.typed(entry).unwrap().text, "", "{word}");
        }
    }
    assert_eq!((old.measure.kind, old.measure.route), (new.measure.kind, new.measure.route));
    assert_eq!(old.measure.old_datum, DatumPair::default());
    assert_eq!((old.slip.by, old.slip.groove), (new.slip.by, new.slip.groove));
    assert_eq!((old.cut.at, old.cut.square_by), (new.cut.at, new.cut.square_by));
    assert_eq!((old.cut.marks, old.cut.paper), (new.cut.marks, new.cut.paper));
}

#[test]
fn a_place_past_the_last_of_the_face_is_damage() {
    let past = serde_json::json!({"fields": {"face-8": {"text": "1", "unit": "in"}}});
    let detail = "no such place: face-8".to_owned();
    assert_eq!(with(past), Err(NotAJob::Damaged { detail }));
}
