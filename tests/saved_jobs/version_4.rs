//! Version 4: places along the tube, how the shaft is set up and the dial counts, marks set aside, times.

use std::fs;

use serde_json::json;
use shaftwright::job::{
    Dial, Display, Entry, Job, MarkNames, NotAJob, PassKind, Plunger, RunOutLimit, SeamBy, SetUp,
    Stations, TurnedHow, from_text,
};
use shaftwright::quantity::Unit;

use super::{fixtures, version_1, version_2, version_3, with};

/// A job as version 4 saved it.
pub fn text() -> String {
    fs::read_to_string(fixtures().join("job-v4.json")).unwrap()
}

/// The marks that are set aside: pass, place, mark.
fn aside(job: &Job) -> Vec<(usize, usize, usize)> {
    let mut all = Vec::new();
    for (pass, taken) in job.truing.passes.iter().enumerate() {
        for (place, turn) in taken.turns.iter().enumerate() {
            let marks = turn.aside.iter().enumerate().filter(|(_, aside)| **aside);
            all.extend(marks.map(|(mark, _)| (pass, place, mark)));
        }
    }
    all
}

#[test]
fn opens_and_says_what_it_said() {
    let job = from_text(&text()).unwrap();
    assert_eq!(job.name, "Hop-yard sprayer, “straight” — № 10 ⅜");
    assert_eq!(job.display, Display::Millimetre);
    assert_eq!((job.truing.set_up, job.truing.plunger), (SetUp::Vees, Plunger::InIsMinus));
    assert_eq!((job.truing.marks, job.truing.seam), (MarkNames::Numbers, SeamBy::Known));
    assert_eq!(job.truing.turned, TurnedHow::Counterclockwise);
    assert_eq!((job.truing.dial, job.truing.limit), (Dial::HalfThousandth, RunOutLimit::SlipNeck));
    assert_eq!(job.truing.places.len(), 3);
    let passes = job.truing.passes.iter().map(|p| (p.kind, p.stations, p.count(), p.begun));
    assert_eq!(
        passes.collect::<Vec<_>>(),
        [
            (PassKind::AsFitted, Stations::Sixteen, 16, Some(1_795_000_000_123)),
            (PassKind::Tacked, Stations::Free, 7, None),
            (PassKind::Tacked, Stations::TwentyFour, 24, Some(1_795_002_400_000)),
            (PassKind::Welded, Stations::ThirtySix, 36, Some(0)),
            (PassKind::Welded, Stations::HighLow, 2, None),
        ]
    );
    for pass in &job.truing.passes {
        let marks: Vec<_> = pass.turns.iter().map(|turn| turn.readings.len()).collect();
        assert_eq!(marks, [pass.count(); 3]);
    }
    assert_eq!(aside(&job), [(0, 0, 3), (0, 2, 15), (1, 1, 6), (3, 2, 0), (3, 2, 35)]);
    for (entry, text, unit) in [
        (Entry::FrontVee, "9-1/2", Unit::Inch),
        (Entry::RearVee, "1190", Unit::Millimetre),
        (Entry::Backlash, "½", Unit::Thousandth),
        (Entry::PlaceAlong(0), "6-1/4", Unit::Inch),
        (Entry::PlaceAlong(1), "702,5", Unit::Millimetre),
        (Entry::PlaceAlong(2), "about 50", Unit::Inch),
        (Entry::StationReading(0, 0, 0), "0", Unit::Thousandth),
        (Entry::StationReading(0, 0, 3), "14.5", Unit::Thousandth),
        (Entry::StationReading(0, 2, 15), "−2", Unit::Thousandth),
        (Entry::Closing(0, 2), "½", Unit::Thousandth),
        (Entry::StationAt(1, 0, 0), "112.5°", Unit::Hour),
        (Entry::StationReading(1, 0, 0), "0,5", Unit::Thousandth),
        (Entry::StationAt(1, 1, 6), "7:30", Unit::Hour),
        (Entry::StationReading(1, 1, 6), "-3", Unit::Thousandth),
        (Entry::StationReading(2, 1, 23), "4", Unit::Thousandth),
        (Entry::StationReading(3, 2, 35), "0.02 mm", Unit::Thousandth),
        (Entry::Closing(3, 0), "0", Unit::Thousandth),
        (Entry::StationReading(4, 0, 0), "5", Unit::Thousandth),
        (Entry::StationAt(4, 0, 1), "8:00", Unit::Hour),
        // What stood in the forms before stands in this one too.
        (Entry::OldReading(3), "1455,7 mm", Unit::Inch),
        (Entry::TurnedRound, "about 3", Unit::Degree),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    // A reading at one place is none at another.
    for entry in [Entry::StationReading(0, 1, 3), Entry::StationReading(3, 0, 35), Entry::Closing(0, 0)]
    {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
}

#[test]
fn what_earlier_versions_did_not_ask_has_its_usual_value() {
    // As in a new job, which has one place along the tube; it stood there without a distance.
    let new = Job::default();
    for old in [version_1(), version_2::text(), version_3::text()] {
        let old = from_text(&old).unwrap();
        assert_eq!((old.truing.set_up, old.truing.plunger), (new.truing.set_up, new.truing.plunger));
        assert_eq!((old.truing.marks, old.truing.turned), (new.truing.marks, new.truing.turned));
        assert_eq!(old.truing.seam, new.truing.seam);
        assert_eq!(old.truing.places, new.truing.places);
        for entry in [Entry::FrontVee, Entry::RearVee, Entry::Backlash, Entry::PlaceAlong(0)] {
            assert_eq!(old.typed(entry).unwrap().text, "", "{entry:?}");
        }
        assert!(old.truing.passes.iter().all(|pass| pass.turns.len() == 1 && pass.begun.is_none()));
        assert_eq!(aside(&old), []);
    }
    // What a dial read was read with its plunger in as plus, at marks on the tube.
    assert_eq!((new.truing.plunger, new.truing.turned), (Plunger::InIsPlus, TurnedHow::ByMarks));
}

#[test]
fn what_the_dial_read_before_it_had_places_is_what_it_read_at_the_first() {
    for (name, now) in [
        ("station-0-5", "station-0-0-5"),
        ("station-at-0-5", "station-at-0-0-5"),
        ("closing-0", "closing-0-0"),
    ] {
        let read = |version: u32, name: &str| {
            let whole = json!({
                "shaftwright-job": version, "name": "", "choices": {},
                "turns": [{"kind": "Tacked", "marks": 6, "stations": "Free"}], "counts": {},
                "fields": {name: {"text": "4", "unit": "thou"}},
            });
            from_text(&whole.to_string())
        };
        let unknown = |name: &str| Err(NotAJob::Damaged { detail: format!("unknown field: {name}") });
        for version in [1, 2, 3] {
            let job = read(version, name).unwrap();
            assert_eq!(job.typed(Entry::from_name(now).unwrap()).unwrap().text, "4", "{name}");
            // Each name is of its own time.
            assert_eq!(read(version, now), unknown(now));
        }
        assert_eq!(read(4, name), unknown(name));
        assert_eq!(read(4, now), read(3, name));
    }
    for name in [
        "station-",
        "station-5",
        "station-at-5",
        "station-at--5",
        "station-0-05",
        "closing-",
        "closing-x",
    ] {
        let field = json!({name: {"text": "4", "unit": "thou"}});
        let text = |version: u32| json!({"shaftwright-job": version, "name": "", "choices": {}, "turns": [], "counts": {}, "fields": field});
        let detail = format!("unknown field: {name}");
        assert_eq!(from_text(&text(3).to_string()), Err(NotAJob::Damaged { detail }));
    }
}

#[test]
fn a_pass_without_the_new_members_is_a_usual_one() {
    let job = with(json!({"turns": [{}, {"aside": [], "marks": 8}], "counts": {"places": 2}})).unwrap();
    for pass in &job.truing.passes {
        assert_eq!((pass.turns.len(), pass.count(), pass.begun), (2, 8, None));
    }
    assert_eq!(aside(&job), []);
    // Twice the same is the same.
    let twice = json!({"turns": [{"aside": [[1, 7], [1, 7]]}], "counts": {"places": 2}});
    assert_eq!(aside(&with(twice).unwrap()), [(0, 1, 7)]);
}

#[test]
fn no_number_but_a_time_is_the_time_of_a_pass() {
    for begun in [json!(-1), json!(1.5), json!("1795000000000"), json!(null), json!([])] {
        let detail = "not a time: begun".to_owned();
        let said = with(json!({"turns": [{"begun": begun}]}));
        assert_eq!(said, Err(NotAJob::Damaged { detail }), "{begun}");
    }
    let latest = with(json!({"turns": [{"begun": u64::MAX}]})).unwrap();
    assert_eq!(latest.truing.passes[0].begun, Some(u64::MAX));
}

#[test]
fn a_mark_aside_is_a_place_and_a_mark_that_are_there() {
    for aside in [
        json!(null),
        json!({}),
        json!([0, 1]),
        json!([[]]),
        json!([[0]]),
        json!([[0, 1, 2]]),
        json!([["0", "1"]]),
        json!([[0, -1]]),
        json!([[0.5, 1]]),
        json!([[0, 8]]),
        json!([[1, 0]]),
        json!([[u64::MAX, u64::MAX]]),
    ] {
        let detail = "no such mark: aside".to_owned();
        let said = with(json!({"turns": [{"aside": aside}]}));
        assert_eq!(said, Err(NotAJob::Damaged { detail }), "{aside}");
    }
}
