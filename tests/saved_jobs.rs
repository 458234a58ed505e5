//! Saved jobs: one written by version 1 opens for ever and says what it said; damaged ones are told
//! apart and never stop the page.
//!
//! tests/fixtures/job-v1.json is a job as version 1 saved it, byte for byte. It is never written anew:
//! a later form gets its own file beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use shaftwright::job::{
    Dial, Display, Division, End, Entry, Job, LONGEST_NAME, LevelDivision, MOST_PASSES, MOST_READINGS,
    MOST_STATIONS, MOST_WEIGHTS, Material, NotAJob, PassKind, PhaseMethod, RunOutLimit, Side, Stations,
    WhirlShare, YokeAt, from_text, sample, to_text,
};
use shaftwright::quantity::Unit;
use shaftwright::stage::{Stage, whole};

fn fixtures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures")
}

fn version_1() -> String {
    fs::read_to_string(fixtures().join("job-v1.json")).unwrap()
}

#[test]
fn version_1_opens_and_says_what_it_said() {
    let job = from_text(&version_1()).unwrap();
    assert_eq!(job.name, "Hay cart, “long” ½-ton — № 7");
    assert_eq!((job.display, job.tube.material), (Display::Millimetre, Material::Aluminium));
    assert_eq!((job.measure.division, job.measure.yoke_at), (Division::SixtyFourth, YokeAt::Bottomed));
    assert_eq!((job.check.whirl_share, job.cut.end), (WhirlShare::CardanMaker, End::Front));
    assert_eq!((job.phase.method, job.phase.lifted), (PhaseMethod::Bench, Side::Left));
    assert_eq!(job.phase.level_division, LevelDivision::Quarter);
    assert_eq!((job.truing.dial, job.truing.limit), (Dial::Hundredth, RunOutLimit::Own));
    let turns: Vec<_> = job.truing.passes.iter().map(|p| (p.kind, p.stations, p.count())).collect();
    assert_eq!(
        turns,
        [
            (PassKind::AsFitted, Stations::Eight, 8),
            (PassKind::Tacked, Stations::Free, 6),
            (PassKind::Welded, Stations::Four, 4),
        ]
    );
    assert_eq!((job.measure.wanted.len(), job.weights.rows.len()), (3, 3));
    for (entry, text, unit) in [
        (Entry::OldReading(0), "57-5/16", Unit::Inch),
        (Entry::OldReading(1), "1455,7 mm", Unit::Inch),
        (Entry::OldReading(2), "1,455", Unit::Inch),
        (Entry::WantedReading(0), "4' 7-1/2\"", Unit::Inch),
        (Entry::WantedReading(1), "1409.7", Unit::Millimetre),
        (Entry::SetPoint, "7/8", Unit::Inch),
        (Entry::TubeDiameter, "3.5", Unit::Inch),
        (Entry::TubeWall, "1/8", Unit::Inch),
        (Entry::TopSpeed, "4200 rpm", Unit::Rpm),
        (Entry::WeldLine, "53⅞", Unit::Inch),
        (Entry::FarWeldLine, "3-3/8", Unit::Inch),
        (Entry::Kerf, "3/32", Unit::Inch),
        (Entry::RootGap, "0", Unit::Inch),
        (Entry::Shrinkage, "1/64", Unit::Inch),
        (Entry::Spigot, "1-1/4″", Unit::Inch),
        (Entry::Lift, "0.034", Unit::Inch),
        (Entry::Span, "3-1/4", Unit::Inch),
        (Entry::FrontLevel, "−0.2", Unit::Degree),
        (Entry::PhaseLimit, "0.5", Unit::Degree),
        (Entry::OwnLimit, "0.012", Unit::Inch),
        (Entry::StationReading(0, 7), "5", Unit::Thousandth),
        (Entry::StationAt(1, 0), "12:30", Unit::Hour),
        (Entry::StationReading(1, 0), "-1", Unit::Thousandth),
        (Entry::StationReading(2, 0), "4", Unit::Hundredth),
        (Entry::StationReading(2, 3), "about 3", Unit::Thousandth),
        (Entry::Closing(2), "0", Unit::Thousandth),
        (Entry::WeightMass(0), "½ oz", Unit::Gram),
        (Entry::WeightClock(0), "7:30", Unit::Hour),
        (Entry::WeightDistance(0), "5-1/4", Unit::Inch),
        (Entry::WeightRadius(0), "40 mm", Unit::Inch),
        (Entry::WeightDistance(1), "1320", Unit::Millimetre),
        (Entry::YokeTurned, "-3", Unit::Degree),
        (Entry::ShaftMass, "18.5", Unit::Pound),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    for entry in [Entry::WantedReading(2), Entry::RearLevel, Entry::Closing(0), Entry::WeightMass(1)] {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
}

#[test]
fn nothing_in_it_is_lost_by_saving_it_again() {
    // A field added later may stand beside what was there; what was there stays word for word.
    let before: Value = serde_json::from_str(&version_1()).unwrap();
    let after: Value =
        serde_json::from_str(&to_text(&from_text(&version_1()).unwrap()).unwrap()).unwrap();
    assert!(holds(&after["job"], &before["job"]), "{after}");
}

/// Whether `whole` says everything that `part` says.
fn holds(whole: &Value, part: &Value) -> bool {
    match (whole, part) {
        (Value::Object(whole), Value::Object(part)) => {
            part.iter().all(|(key, value)| whole.get(key).is_some_and(|known| holds(known, value)))
        }
        (Value::Array(whole), Value::Array(part)) => {
            whole.len() == part.len() && whole.iter().zip(part).all(|(w, p)| holds(w, p))
        }
        _ => whole == part,
    }
}

#[test]
fn fields_not_known_yet_and_fields_no_longer_known() {
    let job = from_text(r#"{"shaftwright-job":1,"job":{}}"#).unwrap();
    assert_eq!(job, Job::default());
    let odd = r#"{"shaftwright-job":1,"paint":"red","job":{"name":"x","horn":{"text":"loud"}}}"#;
    assert_eq!(from_text(odd).unwrap().name, "x");
}

#[test]
fn damaged_files_are_told_apart() {
    let read = |name: &str| fs::read_to_string(fixtures().join("damaged").join(name)).unwrap();
    assert_eq!(from_text(&read("cut-short.json")), Err(NotAJob::OtherText));
    for name in [
        "unknown-unit.json",
        "unknown-choice.json",
        "number-for-text.json",
        "no-job.json",
        "null-job.json",
        "half-a-field.json",
    ] {
        let Err(NotAJob::Damaged { detail }) = from_text(&read(name)) else {
            panic!("{name}: {:?}", from_text(&read(name)))
        };
        assert!(!detail.is_empty(), "{name}");
    }
    for text in ["", "null", "[]", "7", "\"job\"", "{}", "{\"job\":{}}", "\u{feff}{}", "🔧"] {
        assert_eq!(from_text(text), Err(NotAJob::OtherText), "{text:?}");
    }
    for version in ["-1", "1.5", "\"1\"", "null", "99999999999"] {
        let text = format!("{{\"shaftwright-job\":{version},\"job\":{{}}}}");
        assert_eq!(from_text(&text), Err(NotAJob::OtherText), "{version}");
    }
    let newer = r#"{"shaftwright-job":2,"job":"a form not thought of yet"}"#;
    assert_eq!(from_text(newer), Err(NotAJob::Newer { version: 2, known: 1 }));
}

#[test]
fn a_file_cut_off_anywhere_is_refused_and_one_byte_changed_never_stops_the_page() {
    let text = version_1();
    for (at, _) in text.char_indices() {
        assert!(from_text(&text[..at]).is_err(), "cut off at {at}");
    }
    for (at, c) in text.char_indices().filter(|(_, c)| c.is_ascii()) {
        for other in ['0', '"', '}', '-', 'e'] {
            let mut changed = text.clone();
            changed.replace_range(at..at + c.len_utf8(), &other.to_string());
            // It may still be a job; then it must be one that can be looked at and saved.
            if let Ok(job) = from_text(&changed)
                && at % 16 == 0
            {
                assert_eq!(whole(&job).stages.len(), Stage::ALL.len());
                assert_eq!(from_text(&to_text(&job).unwrap()).unwrap(), job);
            }
        }
    }
}

/// The sample job's text with one list or word made longer.
fn swollen(change: impl Fn(&mut Value)) -> Result<Job, NotAJob> {
    let mut whole: Value = serde_json::from_str(&to_text(&sample()).unwrap()).unwrap();
    change(&mut whole["job"]);
    from_text(&whole.to_string())
}

#[test]
fn more_than_there_are_places_for_is_refused() {
    let field = json!({"text": "1", "unit": "in"});
    let many = |count: usize| Value::Array(vec![field.clone(); count]);
    let pass = |stations: &str, at: usize, readings: usize| json!({"stations": stations, "at": many(at), "readings": many(readings)});
    for (fits, change) in [
        (true, json!({"measure": {"old": many(MOST_READINGS)}})),
        (false, json!({"measure": {"old": many(MOST_READINGS + 1)}})),
        (false, json!({"measure": {"wanted": many(MOST_READINGS + 1)}})),
        (true, json!({"name": "é".repeat(LONGEST_NAME)})),
        (false, json!({"name": "é".repeat(LONGEST_NAME + 1)})),
        (true, json!({"weights": {"rows": vec![json!({}); MOST_WEIGHTS]}})),
        (false, json!({"weights": {"rows": vec![json!({}); MOST_WEIGHTS + 1]}})),
        (true, json!({"truing": {"passes": vec![json!({}); MOST_PASSES]}})),
        (false, json!({"truing": {"passes": vec![json!({}); MOST_PASSES + 1]}})),
        (true, json!({"truing": {"passes": [pass("free", MOST_STATIONS, MOST_STATIONS)]}})),
        (false, json!({"truing": {"passes": [pass("free", MOST_STATIONS + 1, MOST_STATIONS + 1)]}})),
        (false, json!({"truing": {"passes": [pass("free", 3, 4)]}})),
        (false, json!({"truing": {"passes": [pass("twelve", 8, 8)]}})),
    ] {
        let got = swollen(|job| *job = change.clone());
        let refused = got == Err(NotAJob::TooMuch);
        assert!(got.is_ok() == fits && refused != fits, "{change}: {got:?}");
    }
}
