//! Version 5: weights known by their size and how they go back, and runs with trial weights on the car.

use std::fs;

use serde_json::{Value, json};
use shaftwright::job::{
    BalanceBy, End, Entry, Job, Joined, MOST_RUNS, Material, NotAJob, PickUp, PutBack, Ready, Spin,
    TrialLeft, Weighed, from_text, to_text,
};
use shaftwright::quantity::Unit;

use super::{fixtures, version_1, version_2, version_3, version_4, with};

/// A job as version 5 saved it.
pub fn text() -> String {
    fs::read_to_string(fixtures().join("job-v5.json")).unwrap()
}

#[test]
fn opens_and_says_what_it_said() {
    let job = from_text(&text()).unwrap();
    assert_eq!(job.name, "Seed drill, “quiet” at last — № 3 ¼");
    let (weights, balance) = (&job.weights, &job.balance);
    assert_eq!((weights.weighed, weights.material), (Weighed::Size, Material::Aluminium));
    assert_eq!((weights.put_back, weights.joined), (PutBack::BothShares, Joined::OneAnEnd));
    // Whether what must be so is so is never kept: it is said anew each time a job is opened.
    assert_eq!((balance.ready, balance.by), (Ready::NotYet, BalanceBy::TwoPlanes));
    assert_eq!((balance.pick_up, balance.spin), (PickUp::Mark, Spin::Clockwise));
    assert_eq!((balance.left, balance.end), (TrialLeft::LeftOn, End::Front));
    assert_eq!((weights.rows.len(), balance.runs.len()), (3, 6));
    for (entry, text, unit) in [
        (Entry::WeightLength(0), "1-3/8", Unit::Inch),
        (Entry::WeightWidth(0), "19 mm", Unit::Inch),
        (Entry::WeightThickness(2), "3", Unit::Millimetre),
        (Entry::WeightNote(0), "thin, “lifted” at one corner ½", Unit::Plain),
        (Entry::WeightNote(2), "12 o'clock?", Unit::Plain),
        (Entry::EarClock, "1:30", Unit::Hour),
        (Entry::FrontPlane, "4-1/2", Unit::Inch),
        (Entry::RearPlane, "1210,5", Unit::Millimetre),
        (Entry::StripThickness, "1/8", Unit::Inch),
        (Entry::StripWidth, "about 20", Unit::Millimetre),
        (Entry::RunSpeed, "2400 rpm", Unit::Rpm),
        (Entry::ClipRadius, "1.72", Unit::Inch),
        (Entry::ClipMass, "6.5", Unit::Gram),
        (Entry::RunScatter, "0,2", Unit::Plain),
        (Entry::TrialMass(1), "1/2 oz", Unit::Gram),
        (Entry::TrialClock(5), "240°", Unit::Hour),
        (Entry::RunAmplitude(0, 0), "8", Unit::Plain),
        (Entry::RunAmplitude(3, 1), "13.17", Unit::Plain),
        (Entry::RunPhase(0, 1), "160", Unit::Degree),
        (Entry::RunPhase(2, 0), "7:30", Unit::Degree),
        (Entry::CheckAmplitude(0), "0.9", Unit::Plain),
        // What stood in the forms before stands in this one too.
        (Entry::StationAt(1, 1, 6), "7:30", Unit::Hour),
        (Entry::OldReading(3), "1455,7 mm", Unit::Inch),
    ] {
        let typed = job.typed(entry).unwrap();
        assert_eq!((typed.text.as_str(), typed.unit), (text, unit), "{entry:?}");
    }
    // As it was read it is written, but for what version 6 asks beside it.
    let mut now: Value = serde_json::from_str(&to_text(&job).unwrap()).unwrap();
    now["shaftwright-job"] = json!(5);
    for (group, name) in [
        ("choices", "tyre-by"),
        ("choices", "gearbox"),
        ("choices", "drives"),
        ("choices", "grade"),
        ("choices", "runs-made"),
        ("counts", "gears"),
        ("fields", "friction"),
        ("fields", "electrode-strength"),
    ] {
        assert!(now[group].as_object_mut().unwrap().remove(name).is_some(), "{name}");
    }
    assert_eq!(now, serde_json::from_str::<Value>(&text()).unwrap());
}

#[test]
fn what_earlier_versions_did_not_ask_has_its_usual_value() {
    // As in a new job: nothing of it typed, each weight back with its own yoke.
    let new = Job::default();
    for old in [version_1(), version_2::text(), version_3::text(), version_4::text()] {
        let old = from_text(&old).unwrap();
        assert_eq!(old.balance, new.balance);
        assert!(old.balance.is_blank());
        assert_eq!((old.weights.weighed, old.weights.put_back), (Weighed::Scale, PutBack::OwnYoke));
        assert_eq!((old.weights.material, old.weights.joined), (Material::Steel, Joined::Apart));
        let rows = 0..old.weights.rows.len();
        let of_rows = rows.flat_map(|row| [Entry::WeightThickness(row), Entry::WeightNote(row)]);
        let all = [Entry::EarClock, Entry::FrontPlane, Entry::RearPlane, Entry::StripThickness];
        for entry in all.into_iter().chain(of_rows) {
            assert_eq!(old.typed(entry).unwrap().text, "", "{entry:?}");
        }
    }
}

#[test]
fn readings_of_one_end_stand_at_that_end() {
    // Until version 5 one end's readings stood in the first end's place, whichever end it was.
    let open = |version: u32, by: &str, end: &str, fields: &[(&str, &str)]| {
        let fields: serde_json::Map<_, _> = fields
            .iter()
            .map(|(name, text)| ((*name).to_owned(), json!({"text": text, "unit": ""})))
            .collect();
        let text = json!({
            "shaftwright-job": version, "name": "", "turns": [], "counts": {"runs": 4},
            "choices": {"balance-by": by, "balance-end": end}, "fields": fields,
        });
        from_text(&text.to_string()).unwrap()
    };
    let read = |job: &Job, end| {
        [Entry::RunAmplitude(0, end), Entry::RunPhase(2, end), Entry::CheckAmplitude(end)]
            .map(|entry| job.typed(entry).unwrap().text.clone())
    };
    let front = [("run-amplitude-0-0", "8"), ("run-phase-2-0", "70"), ("check-amplitude-0", "0.9")];
    let (there, none) = (["8", "70", "0.9"], ["", "", ""]);
    for by in ["Amplitudes", "Phase"] {
        let moved = open(5, by, "Rear", &front);
        assert_eq!(
            (read(&moved, 0), read(&moved, 1)),
            (none.map(String::from), there.map(String::from))
        );
        for (version, end) in [(5, "Front"), (6, "Rear"), (6, "Front")] {
            let kept = open(version, by, end, &front);
            assert_eq!(
                (read(&kept, 0), read(&kept, 1)),
                (there.map(String::from), none.map(String::from))
            );
        }
    }
    let both = open(5, "TwoPlanes", "Rear", &front);
    assert_eq!(read(&both, 0), there);
    // What was read at the other end while both were is kept; alone it is where it belongs.
    let with_rear = [front[0], ("run-amplitude-0-1", "3")];
    let swapped = open(5, "Phase", "Rear", &with_rear);
    assert_eq!([read(&swapped, 0)[0].as_str(), read(&swapped, 1)[0].as_str()], ["3", "8"]);
    let alone = open(5, "Phase", "Rear", &with_rear[1..]);
    assert_eq!([read(&alone, 0)[0].as_str(), read(&alone, 1)[0].as_str()], ["", "3"]);
    // A missing choice is the usual one of that version: without phase, at the axle end.
    let text = r#"{"shaftwright-job":5,"name":"","choices":{},"turns":[],"counts":{},
        "fields":{"run-amplitude-0-0":{"text":"8","unit":""}}}"#;
    assert_eq!(read(&from_text(text).unwrap(), 1)[0], "8");
}

#[test]
fn runs_are_as_many_as_were_kept_and_no_more_than_there_are_places() {
    let runs = |count: usize| with(json!({"counts": {"runs": count}}));
    // By definition of the form: a first run is always there to fill in.
    for (kept, there) in [(0, 1), (1, 1), (4, 4), (MOST_RUNS, MOST_RUNS)] {
        assert_eq!(runs(kept).unwrap().balance.runs.len(), there);
    }
    assert_eq!(runs(MOST_RUNS + 1), Err(NotAJob::TooMuch));
    let read = |name: &str| with(json!({"fields": {name: {"text": "4", "unit": ""}}}));
    // A reading makes room for its run.
    assert_eq!(read("run-amplitude-6-1").unwrap().balance.runs.len(), 7);
    assert_eq!(read("run-amplitude-8-0"), Err(NotAJob::TooMuch));
    for name in ["run-amplitude-0-2", "run-phase-1-7", "check-amplitude-2"] {
        let detail = format!("no such place: {name}");
        assert_eq!(read(name), Err(NotAJob::Damaged { detail }));
    }
}
