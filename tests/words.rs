//! What people read, word for word: the report of the sample job and of an empty one, and the sentence
//! that stands at a field when something is wrong.
//!
//! The kept texts in tests/golden are not outside values: they show, in review, every change of what is
//! read. After a wanted change: `GOLDEN=write cargo test --test words`, then read the difference.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::Path;

use shaftwright::job::{Display, Entry, Job, sample};
use shaftwright::sheet::{complaint, report};
use shaftwright::stage::read;

fn against_golden(name: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if std::env::var("GOLDEN").is_ok_and(|value| value == "write") {
        fs::write(&path, text).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap();
    for (line, (got, kept)) in text.lines().zip(kept.lines()).enumerate() {
        assert_eq!(got, kept, "{name}, line {}", line + 1);
    }
    assert_eq!(text.lines().count(), kept.lines().count(), "{name}");
}

#[test]
fn reports() {
    against_golden("sample.txt", &report(&sample()));
    against_golden("empty.txt", &report(&Job::new(Display::Millimetre)));
    let mut lengthened = sample();
    for reading in 0..3 {
        lengthened.put(Entry::WantedReading(reading), "59-1/4");
    }
    lengthened.display = Display::Millimetre;
    against_golden("lengthened-in-mm.txt", &report(&lengthened));
}

#[test]
fn sentences_at_a_field() {
    let mut text = String::new();
    for (entry, given) in [
        (Entry::OldReading(0), "3 mm"),
        (Entry::OldReading(0), "1,455"),
        (Entry::OldReading(0), "57-17/16"),
        (Entry::OldReading(0), "57-5/61"),
        (Entry::OldReading(0), "-57"),
        (Entry::OldReading(0), "4' 13\""),
        (Entry::OldReading(0), "57 furlongs"),
        (Entry::OldReading(0), "gearbox"),
        (Entry::OldReading(0), "5731255731255731255731255731255731255731255731"),
        (Entry::TubeWall, "1.6"),
        (Entry::WeldLine, "70"),
        (Entry::FrontLevel, "200"),
        (Entry::TopSpeed, "42"),
        (Entry::StationReading(0, 0), "2 in"),
        (Entry::WeightMass(0), "9 kg"),
        (Entry::WeightClock(0), "19"),
        (Entry::WeightClock(0), "7:75"),
        (Entry::ShaftMass, "0.2"),
    ] {
        let mut job = sample();
        job.put(entry, given);
        let what = read(&job, entry).expect_err(given);
        text.push_str(&format!("{}: {}\n", entry.name(), complaint(&job, entry, &what)));
    }
    against_golden("sentences.txt", &text);
}

#[test]
fn nothing_read_is_without_a_number() {
    // The word that stands in for a number that cannot be shown must never be read.
    for job in [sample(), Job::default()] {
        let text = report(&job);
        assert!(!text.contains("no figure") && !text.contains("NaN") && !text.contains("inf"));
    }
}
