//! The dial on the invented shaft: marks that do not count, and marks that were not read.

use shaftwright::job::{Entry, Job, PassKind, SeamBy, Stations};
use shaftwright::stage::{AsideBy, Name, Reason, Sense, Verdict};

use super::EXACT;
use super::dial::{THOU, begin, finding, place, pure, says_nothing_of, tap, untaken, value};
use super::shaft::{agrees, number};

/// A pure offset of 8 toward 200°, with some marks lifted.
fn lifted(stations: Stations, lift: f64, marks: &[usize]) -> Job {
    let mut job = untaken();
    let pass = begin(&mut job, PassKind::AsFitted, stations);
    pure(&mut job, pass, 0, 8.0, 200.0);
    for mark in marks {
        let text = &job.typed(Entry::StationReading(0, 0, *mark)).unwrap().text;
        let reading = text.parse::<f64>().unwrap() + lift;
        job.put(Entry::StationReading(0, 0, *mark), &format!("{reading:.7}"));
    }
    job
}

#[test]
fn what_is_set_aside_is_named_and_does_not_count() {
    let set_aside = |job: &Job, lift: f64, at: f64, count: usize, by: AsideBy| {
        let found = value(job, Name::SetAside);
        agrees(found, lift.abs() * THOU, None, EXACT);
        let Some(Sense::SetAside { at: got, out, count: many, by: who }) = found.sense else { panic!() };
        place(got, at);
        assert_eq!((out, many, who), (lift > 0.0, count, by));
        agrees(value(job, Name::Correction), 8.0 * THOU, None, EXACT);
        place(shaftwright::quantity::degrees(tap(job).0), 200.0);
    };
    // By hand, at eight marks.
    for lift in [6.0, -6.0] {
        let mut job = lifted(Stations::Eight, lift, &[3]);
        says_nothing_of(&job, Name::SetAside);
        assert!((number(value(&job, Name::Correction).amount) - 8.0 * THOU).abs() > 1e-4);
        job.truing.passes[0].turns[0].aside[3] = true;
        set_aside(&job, lift, 135.0, 1, AsideBy::Mark);
    }
    // On the seam, whose place is known: marks within 10° of it.
    for seam in ["4:30", "4:50", "4:10"] {
        let mut job = lifted(Stations::Eight, 6.0, &[3]);
        job.truing.seam = SeamBy::Known;
        job.put(Entry::SeamClock, seam);
        set_aside(&job, 6.0, 135.0, 1, AsideBy::Mark);
    }
    // Found by itself from twelve marks on; two of thirty-six that stand side by side.
    set_aside(&lifted(Stations::Twelve, 15.0, &[4]), 15.0, 120.0, 1, AsideBy::StoodOut);
    let mut dent = lifted(Stations::ThirtySix, -9.0, &[35, 0]);
    let deepest = 19.0 + 8.0 * 150.0_f64.to_radians().cos() - 9.0;
    dent.put(Entry::StationReading(0, 0, 35), &format!("{deepest:.7}"));
    set_aside(&dent, -10.0, 350.0, 2, AsideBy::StoodOut);
    // Where everything counts, or at eight marks, it stays in and shows in what is left.
    let mut counted = lifted(Stations::Twelve, 15.0, &[4]);
    counted.truing.seam = SeamBy::Counted;
    for job in [counted, lifted(Stations::Eight, 15.0, &[4])] {
        says_nothing_of(&job, Name::SetAside);
        assert_eq!(finding(&job, Name::Leftover).verdict, Verdict::Watch(Reason::Rough));
    }
}

#[test]
fn nothing_waits_for_a_mark_that_is_set_aside() {
    // Rule of this house: the mark on the seam is passed over and never read.
    let mut job = lifted(Stations::Twelve, 0.0, &[]);
    job.truing.passes[0].kind = PassKind::Welded;
    job.put(Entry::StationReading(0, 0, 3), "");
    assert_eq!(finding(&job, Name::OffsetReading).verdict, Verdict::Unjudged(Reason::PartRead));
    job.truing.passes[0].turns[0].aside[3] = true;
    assert!(matches!(finding(&job, Name::OffsetReading).verdict, Verdict::Stop(_)));
    agrees(value(&job, Name::Correction), 8.0 * THOU, None, EXACT);
    says_nothing_of(&job, Name::SetAside);
}

#[test]
fn a_closing_reading_asks_for_the_first() {
    // Rule of this house: without the first one it says nothing of the dial, and is not passed over.
    let mut job = untaken();
    begin(&mut job, PassKind::Welded, Stations::Free);
    (6..9).for_each(|_| job.truing.passes[0].add_station());
    for mark in 0..9 {
        job.put(Entry::StationAt(0, 0, mark), &format!("{}°", 40 * mark));
        if mark > 0 {
            job.put(Entry::StationReading(0, 0, mark), "20");
        }
    }
    assert_eq!(finding(&job, Name::TotalReading).verdict, Verdict::Good);
    job.put(Entry::Closing(0, 0), "35");
    assert_eq!(finding(&job, Name::TotalReading).verdict, Verdict::Unjudged(Reason::PartRead));
    job.put(Entry::StationReading(0, 0, 0), "20");
    let verdict = finding(&job, Name::TotalReading).verdict;
    assert!(matches!(verdict, Verdict::Stop(Reason::DialDrifted { .. })), "{verdict:?}");
}

#[test]
fn a_deep_dent_is_not_set_aside_in_silence() {
    // Published: new tube is oval by 0.020 in at most (ASTM A513, most of 2 to 4 in): what stands out of the
    // fit by more is neither that nor a seam.
    let found = |lift: f64, by_hand: bool| {
        let mut job = lifted(Stations::Twelve, lift, &[4]);
        job.truing.passes[0].turns[0].aside[4] = by_hand;
        finding(&job, Name::SetAside).verdict
    };
    for lift in [60.0, -60.0, 21.0] {
        assert!(matches!(found(lift, false), Verdict::Stop(Reason::DentOrKink { .. })), "{lift}");
        // Whoever marks it has looked at it.
        assert!(matches!(found(lift, true), Verdict::Watch(Reason::DentOrKink { .. })), "{lift}");
    }
    for by_hand in [false, true] {
        assert_eq!(found(-15.0, by_hand), Verdict::Figure);
    }
}
