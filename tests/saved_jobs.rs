//! Saved jobs: one written by an earlier version opens for ever and says what it said; damaged ones are
//! told apart and never stop the page.
//!
//! tests/fixtures/job-v1.json to job-v6.json are jobs as those versions saved them, byte for byte. They
//! are never written anew: a later form gets its own file beside them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use shaftwright::job::{
    BEFORE_TACKING, Dial, Display, Division, End, Entry, FACE_PLACES, Job, LONGEST_NAME, LevelDivision,
    MOST_PASSES, MOST_PLACES, MOST_READINGS, MOST_STATIONS, MOST_WEIGHTS, NotAJob, Pass, PassKind,
    PhaseMethod, RunOutLimit, Side, Stations, TubeMaterial, Typed, WeightRow, WhirlShare, YokeAt,
    from_text, to_text,
};
use shaftwright::quantity::Unit;
use shaftwright::stage::{Answer, Stage, whole};

#[path = "saved_jobs/version_2.rs"]
mod version_2;
#[path = "saved_jobs/version_3.rs"]
mod version_3;
#[path = "saved_jobs/version_4.rs"]
mod version_4;
#[path = "saved_jobs/version_5.rs"]
mod version_5;
#[path = "saved_jobs/version_6.rs"]
mod version_6;

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
    assert_eq!((job.display, job.tube.material), (Display::Millimetre, TubeMaterial::Aluminium));
    assert_eq!((job.measure.division, job.measure.yoke_at), (Division::SixtyFourth, YokeAt::Bottomed));
    assert_eq!((job.check.whirl_share, job.cut.end), (WhirlShare::CardanMaker, End::Front));
    assert_eq!((job.phase.method, job.phase.sittings[1].lifted), (PhaseMethod::Bench, Side::Left));
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
        (Entry::Lift(1, 0), "0.034", Unit::Inch),
        (Entry::Span, "3-1/4", Unit::Inch),
        (Entry::FrontLevel(1, 0), "−0.2", Unit::Degree),
        (Entry::PhaseLimit, "0.5", Unit::Degree),
        (Entry::OwnLimit, "0.012", Unit::Inch),
        (Entry::StationReading(0, 0, 7), "5", Unit::Thousandth),
        (Entry::StationAt(1, 0, 0), "12:30", Unit::Hour),
        (Entry::StationReading(1, 0, 0), "-1", Unit::Thousandth),
        (Entry::StationReading(2, 0, 0), "4", Unit::Hundredth),
        (Entry::StationReading(2, 0, 3), "about 3", Unit::Thousandth),
        (Entry::Closing(2, 0), "0", Unit::Thousandth),
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
    for entry in
        [Entry::WantedReading(2), Entry::RearLevel(1, 0), Entry::Closing(0, 0), Entry::WeightMass(1)]
    {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
}

#[test]
fn nothing_in_it_is_lost_by_saving_it_again() {
    // What is added later may stand beside what was there; what was there stays word for word.
    for text in [version_1(), version_2::text(), version_3::text(), version_4::text()] {
        let mut before: Value = serde_json::from_str(&text).unwrap();
        let version = before.as_object_mut().unwrap().remove("shaftwright-job").unwrap();
        let fields = before["fields"].as_object_mut().unwrap();
        let named: Vec<String> = fields.keys().cloned().collect();
        for name in named {
            let field = fields.remove(&name).unwrap();
            assert!(fields.insert(name_now(version.as_u64().unwrap(), &name), field).is_none());
        }
        let after: Value = serde_json::from_str(&to_text(&from_text(&text).unwrap()).unwrap()).unwrap();
        assert!(holds(&after, &before), "{after}");
        // And nothing stands there that was not said, but usual values.
        assert_eq!(after["turns"].as_array().unwrap().len(), before["turns"].as_array().unwrap().len());
        let said = after["fields"].as_object().unwrap().keys();
        let added: Vec<_> = said.filter(|name| before["fields"].get(name).is_none()).collect();
        let since_2 = ["bump-room", "groove-margin", "least-engaged", "trim"];
        let since_3 =
            ["bump-rise", "droop-rise", "inertia-limit", "least-angle", "power-rise", "torsional-limit"];
        let mut usual: Vec<&str> = Vec::new();
        usual.extend(since_2.iter().filter(|_| version == 1));
        usual.extend(since_3.iter().filter(|_| version.as_u64() < Some(3)));
        usual.extend(["electrode-strength", "friction"].iter().filter(|_| version.as_u64() < Some(6)));
        usual.sort_unstable();
        assert_eq!(added, usual, "version {version}");
    }
}

/// What a field that a version saved is called now. Until version 2 each yoke was measured once: that is
/// the first of three readings before tacking. Until version 3 the dial stood at one place, now the first.
fn name_now(version: u64, name: &str) -> String {
    let parts: Vec<&str> = name.rsplitn(3, '-').collect();
    match (version, &parts[..]) {
        (..3, _) if ["lift", "front-level", "rear-level"].contains(&name) => {
            format!("{name}-{BEFORE_TACKING}-0")
        }
        (..4, [mark, pass, word @ ("station" | "station-at")]) => format!("{word}-{pass}-0-{mark}"),
        (..4, [pass, "closing"]) => format!("closing-{pass}-0"),
        _ => name.to_owned(),
    }
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

/// A job's text with these groups in place of empty ones.
fn with(groups: Value) -> Result<Job, NotAJob> {
    let mut whole = json!({"shaftwright-job": 6, "name": "", "choices": {}, "turns": [], "counts": {}, "fields": {}});
    for (name, group) in groups.as_object().unwrap() {
        whole[name] = group.clone();
    }
    from_text(&whole.to_string())
}

#[test]
fn what_is_absent_is_empty_and_usual_and_what_stands_beside_is_passed_over() {
    let job = with(json!({"paint": "red", "name": "x"})).unwrap();
    assert_eq!(job.name, "x");
    for entry in job.entries() {
        assert_eq!(job.typed(entry).unwrap().text, "", "{entry:?}");
    }
    // All but the usual values is as in a new job.
    let mut new = Job { name: "x".to_owned(), ..Job::default() };
    new.entries().into_iter().for_each(|entry| new.put(entry, ""));
    // Where the slip stood is asked of a new job alone: until then a length was taken at the set point.
    new.measure.yoke_at = YokeAt::SetPoint;
    assert_eq!(job, new);
}

fn comes_back(job: &Job) {
    assert_eq!(&from_text(&to_text(job).unwrap()).unwrap(), job);
}

#[test]
fn a_usual_value_that_was_emptied_stays_empty() {
    for display in [Display::Sixteenth, Display::Millimetre] {
        let mut job = Job::new(display);
        for entry in [Entry::Shrinkage, Entry::RootGap, Entry::PhaseLimit, Entry::YokeTurned] {
            assert_ne!(job.typed(entry).unwrap().text, "", "{entry:?} has no usual value");
            job.put(entry, "");
            comes_back(&job);
        }
    }
}

#[test]
fn an_emptied_field_leaves_nothing_behind() {
    // By the rule of `Job::put`: an empty field takes the unit in force when it is typed into.
    let mut job = Job::new(Display::Millimetre);
    job.put(Entry::OldReading(0), "1455");
    job.put(Entry::OldReading(0), "");
    comes_back(&job);
    job.put(Entry::Closing(0, 0), "  ");
    job.put(Entry::OldReading(1), " 1455.7 mm\t\"\u{0}");
    comes_back(&job);
}

#[test]
fn rows_without_text_stay() {
    let mut job = Job::default();
    job.measure.old.resize_with(MOST_READINGS, Typed::default);
    job.measure.wanted.resize_with(1, Typed::default);
    job.weights.rows.resize_with(4, WeightRow::default);
    job.truing.passes.push(Pass::new(PassKind::Tacked, Stations::Free));
    job.truing.passes[1].add_station();
    // Twelve marks laid out, then four shown: the other eight wait.
    job.truing.passes.push(Pass::new(PassKind::Welded, Stations::Twelve));
    job.truing.passes[2].stations = Stations::Four;
    comes_back(&job);
    job.put(Entry::StationReading(2, 0, 10), "3");
    job.put(Entry::StationAt(1, 0, 2), "7:30");
    job.put(Entry::WeightRadius(2), "40 mm");
    comes_back(&job);
    // Places along the tube where nothing was read yet, and one where all but the place was.
    (0..3).for_each(|_| job.truing.add_place());
    comes_back(&job);
    job.put(Entry::StationReading(1, 2, 6), "4");
    job.put(Entry::Closing(2, 2), "1");
    comes_back(&job);
}

#[test]
fn a_mark_set_aside_and_the_time_of_a_pass_come_back() {
    let mut job = Job::default();
    job.truing.add_place();
    assert!(job.truing.begin(PassKind::Tacked, Stations::HighLow));
    // The first mark and the last, read or not, and one that waits behind a coarser division.
    job.put(Entry::StationReading(0, 0, 0), "5");
    for (pass, place, mark) in [(0, 0, 0), (0, 1, 7), (1, 0, 1), (1, 1, 0)] {
        job.truing.passes[pass].turns[place].aside[mark] = true;
        comes_back(&job);
    }
    job.truing.passes[0].stations = Stations::Four;
    comes_back(&job);
    for begun in [0, 1, 1_795_000_000_123, u64::MAX] {
        job.truing.passes[1].begun = Some(begun);
        comes_back(&job);
    }
    assert_eq!(job.truing.passes[0].begun, None);
}

#[test]
fn lists_reach_to_their_last_text_and_are_never_empty() {
    let field = json!({"text": "1", "unit": "in"});
    let job = with(json!({
        "counts": {"old": 2, "weights": 0},
        "turns": [{"stations": "Free", "marks": 0}, {"stations": "Twelve", "marks": 4}, {}],
        "fields": {"old-4": field, "wanted-1": field, "station-at-0-0-1": field, "station-2-0-9": field},
    }))
    .unwrap();
    let marks: Vec<_> = job
        .truing
        .passes
        .iter()
        .map(|pass| (pass.turns[0].at.len(), pass.turns[0].readings.len()))
        .collect();
    assert_eq!((job.measure.old.len(), job.measure.wanted.len(), job.weights.rows.len()), (5, 3, 1));
    assert_eq!(marks, [(2, 2), (12, 12), (10, 10)]);
    let none = with(json!({"counts": {"old": 0, "wanted": 0, "weights": 0}})).unwrap();
    assert_eq!((none.measure.old.len(), none.measure.wanted.len(), none.weights.rows.len()), (1, 1, 1));
    assert_eq!(none.truing.passes, [Pass::default()]);
    // With nothing to read, the first reading is named as missing.
    let Answer::Missing(needs) = &Stage::Measure.findings(&none)[0].answer else { panic!("{none:?}") };
    assert!(!needs.is_empty());
}

#[test]
fn damaged_files_are_told_apart() {
    let read = |name: &str| fs::read_to_string(fixtures().join("damaged").join(name)).unwrap();
    assert_eq!(from_text(&read("cut-short.json")), Err(NotAJob::OtherText));
    for (name, said) in [
        ("unknown-unit.json", "unknown unit of tube-wall: cubit"),
        ("unknown-choice.json", "unknown material: Oak"),
        ("unknown-choice-name.json", "unknown choice: paint"),
        ("unknown-field.json", "unknown field: horn"),
        ("unknown-count.json", "unknown count: wheels"),
        ("unknown-turn-kind.json", "unknown kind: Glued"),
        ("unknown-turn-member.json", "unknown choice: marx"),
        ("text-for-begun.json", "not a time: begun"),
        ("text-for-aside.json", "no such mark: aside"),
        ("half-a-mark-aside.json", "no such mark: aside"),
        ("three-for-a-mark-aside.json", "no such mark: aside"),
        ("aside-of-no-mark.json", "no such mark: aside"),
        ("aside-of-no-place.json", "no such mark: aside"),
        ("text-for-places.json", "not a count: places"),
        ("field-of-no-place.json", "no such place: station-0-1-0"),
        ("place-of-no-count.json", "no such place: place-2"),
        ("field-of-no-turn.json", "no such place: closing-1"),
        ("number-for-text.json", "no text or no unit: tube-wall"),
        ("half-a-field.json", "no text or no unit: tube-wall"),
        ("text-for-count.json", "not a count: old"),
        ("list-for-turn.json", "not a group: turn"),
        ("no-fields.json", "missing: fields"),
        ("null-choices.json", "not a group: choices"),
    ] {
        let detail = said.to_owned();
        assert_eq!(from_text(&read(name)), Err(NotAJob::Damaged { detail }), "{name}");
    }
    // One field has one name: another spelling must not take its place.
    let twice =
        json!({"fields": {"old-1": {"text": "1", "unit": "in"}, "old-01": {"text": "2", "unit": "in"}}});
    assert!(matches!(with(twice), Err(NotAJob::Damaged { .. })));
    for text in ["", "null", "[]", "7", "\"job\"", "{}", "{\"job\":{}}", "\u{feff}{}", "🔧"] {
        assert_eq!(from_text(text), Err(NotAJob::OtherText), "{text:?}");
    }
    for version in ["-1", "1.5", "\"1\"", "null", "99999999999"] {
        let text = format!("{{\"shaftwright-job\":{version},\"name\":\"\"}}");
        assert_eq!(from_text(&text), Err(NotAJob::OtherText), "{version}");
    }
    let newer = r#"{"shaftwright-job":7,"fields":"a form not thought of yet"}"#;
    assert_eq!(from_text(newer), Err(NotAJob::Newer { version: 7, known: 6 }));
}

#[test]
fn a_file_of_version_1_cut_off_is_refused_and_one_byte_changed_never_stops_the_page() {
    damage(&version_1());
}

#[test]
fn a_file_of_version_2_cut_off_is_refused_and_one_byte_changed_never_stops_the_page() {
    damage(&version_2::text());
}

#[test]
fn a_file_of_version_3_cut_off_is_refused_and_one_byte_changed_never_stops_the_page() {
    damage(&version_3::text());
}

#[test]
fn a_file_of_version_4_cut_off_is_refused_and_one_byte_changed_never_stops_the_page() {
    damage(&version_4::text());
}

/// Cuts the text off anywhere, and changes every byte in turn.
fn damage(text: &str) {
    for (at, _) in text.char_indices() {
        assert!(from_text(&text[..at]).is_err(), "cut off at {at}");
    }
    for (at, c) in text.char_indices().filter(|(_, c)| c.is_ascii()) {
        for other in ['0', '"', '}', '-', 'e', '9'] {
            let mut changed = text.to_owned();
            changed.replace_range(at..at + c.len_utf8(), &other.to_string());
            // It may still be a job; then it must be one that can be looked at and saved.
            if let Ok(job) = from_text(&changed)
                && at % 16 == 0
            {
                assert_eq!(whole(&job).stages.len(), Stage::ALL.len());
                comes_back(&job);
            }
        }
    }
}

#[test]
fn more_than_there_are_places_for_is_refused() {
    let field = json!({"text": "1", "unit": "in"});
    let last = |name: &str, count: usize| json!({"fields": {format!("{name}-{}", count - 1): field}});
    let marks =
        |stations: &str, marks: usize| json!({"turns": [{"stations": stations, "marks": marks}]});
    for (fits, change) in [
        (
            true,
            json!({"counts": {
                "old": MOST_READINGS,
                "wanted": MOST_READINGS,
                "ends": MOST_READINGS,
                "weights": MOST_WEIGHTS,
            }}),
        ),
        (false, json!({"counts": {"ends": MOST_READINGS + 1}})),
        (true, last("ends", MOST_READINGS)),
        (false, last("ends", MOST_READINGS + 1)),
        (true, last("face", FACE_PLACES)),
        (false, json!({"counts": {"old": MOST_READINGS + 1}})),
        (false, json!({"counts": {"wanted": MOST_READINGS + 1}})),
        (false, json!({"counts": {"weights": MOST_WEIGHTS + 1}})),
        (false, json!({"counts": {"old": u64::MAX}})),
        (true, last("old", MOST_READINGS)),
        (false, last("old", MOST_READINGS + 1)),
        (false, last("wanted", MOST_READINGS + 1)),
        (false, last("wanted", usize::MAX)),
        (true, last("weight-clock", MOST_WEIGHTS)),
        (false, last("weight-clock", MOST_WEIGHTS + 1)),
        (true, last("station-0-0", MOST_STATIONS)),
        (false, last("station-0-0", MOST_STATIONS + 1)),
        (false, last("station-at-0-0", MOST_STATIONS + 1)),
        (true, json!({"counts": {"places": MOST_PLACES}})),
        (true, json!({"counts": {"places": 0}})),
        (false, json!({"counts": {"places": MOST_PLACES + 1}})),
        (false, json!({"counts": {"places": u64::MAX}})),
        (
            true,
            json!({"counts": {"places": MOST_PLACES}, "fields": {
                format!("place-{}", MOST_PLACES - 1): field,
                format!("station-0-{}-{}", MOST_PLACES - 1, MOST_STATIONS - 1): field,
            }}),
        ),
        (true, json!({"name": "é".repeat(LONGEST_NAME)})),
        (false, json!({"name": "é".repeat(LONGEST_NAME + 1)})),
        (true, json!({"turns": vec![json!({}); MOST_PASSES]})),
        (false, json!({"turns": vec![json!({}); MOST_PASSES + 1]})),
        (true, marks("Free", MOST_STATIONS)),
        (true, marks("Four", MOST_STATIONS)),
        (false, marks("Free", MOST_STATIONS + 1)),
        (false, marks("Twelve", usize::MAX)),
    ] {
        let got = with(change.clone());
        assert_eq!(got.is_ok(), fits, "{change}: {got:?}");
        assert_eq!(got == Err(NotAJob::TooMuch), !fits, "{change}: {got:?}");
    }
}
