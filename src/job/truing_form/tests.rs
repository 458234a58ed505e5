//! Places, passes and marks of the dial's form: by the rules of the form alone, no value from outside.
#![cfg(test)]

use super::*;
use crate::job::{Entry, Job};

#[test]
fn a_reading_goes_with_its_place() {
    let mut job = Job::default();
    assert!(job.truing.set_stations(0, Stations::Four));
    job.put(Entry::StationReading(0, 0, 1), "16");
    job.put(Entry::StationReading(0, 0, 3), "4");
    // A quarter of the clock is mark 1 of four, 2 of eight and 3 of twelve.
    for (stations, first, last) in
        [(Stations::Eight, 2, 6), (Stations::Twelve, 3, 9), (Stations::Four, 1, 3)]
    {
        assert!(job.truing.set_stations(0, stations));
        assert_eq!(job.typed(Entry::StationReading(0, 0, first)).unwrap().text, "16");
        assert_eq!(job.typed(Entry::StationReading(0, 0, last)).unwrap().text, "4");
    }
    // A clock of sixteen has every mark of four too, each as it is called.
    assert!(job.truing.set_stations(0, Stations::Sixteen));
    assert!(job.truing.set_stations(0, Stations::Free));
    assert_eq!(job.typed(Entry::StationAt(0, 0, 1)).unwrap().text, "22.5°");
    assert_eq!(job.typed(Entry::StationAt(0, 0, 4)).unwrap().text, "90°");
    assert_eq!(job.typed(Entry::StationReading(0, 0, 4)).unwrap().text, "16");
}

#[test]
fn marks_laid_out_from_a_shaft_turned_clockwise_stay_where_they_were() {
    // By construction: turned clockwise, the second of four marks under the dial is the one at 9 o'clock.
    let mut job = Job::default();
    job.truing.turned = TurnedHow::Clockwise;
    assert!(job.truing.set_stations(0, Stations::Four));
    job.put(Entry::StationReading(0, 0, 1), "16");
    assert!(job.truing.set_stations(0, Stations::Free));
    for (mark, at) in ["0°", "270°", "180°", "90°"].into_iter().enumerate() {
        assert_eq!(job.typed(Entry::StationAt(0, 0, mark)).unwrap().text, at);
    }
    assert_eq!(job.typed(Entry::StationReading(0, 0, 1)).unwrap().text, "16");
}

#[test]
fn a_reading_without_a_place_among_the_new_marks_stays() {
    let mut job = Job::default();
    job.put(Entry::StationReading(0, 0, 7), "5");
    let before = job.clone();
    assert!(!job.truing.set_stations(0, Stations::Twelve));
    assert!(!job.truing.set_stations(0, Stations::Four));
    assert_eq!(job, before);
}

/// What stands in a field.
fn text(job: &Job, entry: Entry) -> &str {
    &job.typed(entry).unwrap().text
}

/// A job with three places along the tube and one pass of these marks.
fn three_places(stations: Stations) -> Job {
    let mut job = Job::default();
    job.truing.add_place();
    job.truing.add_place();
    job.truing.passes.clear();
    assert!(job.truing.begin(PassKind::Tacked, stations));
    job
}

#[test]
fn a_reading_goes_with_its_place_at_every_place_along_the_tube() {
    // A quarter turn and a half turn are marks 1 and 2 of four, 2 and 4 of eight, 4 and 8 of sixteen,
    // 6 and 12 of 24, 9 and 18 of 36: 360° over their number each.
    let mut job = three_places(Stations::Four);
    for (place, reading) in ["3", "-2", "7"].into_iter().enumerate() {
        job.put(Entry::StationReading(0, place, 1), reading);
        job.put(Entry::Closing(0, place), reading);
    }
    job.put(Entry::StationReading(0, 1, 2), "11");
    job.truing.passes[0].begun = Some(7);
    for (stations, quarter) in [
        (Stations::Eight, 2),
        (Stations::Sixteen, 4),
        (Stations::TwentyFour, 6),
        (Stations::ThirtySix, 9),
        (Stations::Twelve, 3),
        (Stations::Four, 1),
        (Stations::Free, 1),
    ] {
        assert!(job.truing.set_stations(0, stations), "{stations:?}");
        for (place, reading) in ["3", "-2", "7"].into_iter().enumerate() {
            assert_eq!(text(&job, Entry::StationReading(0, place, quarter)), reading, "{stations:?}");
            assert_eq!(text(&job, Entry::Closing(0, place)), reading);
        }
        assert_eq!(text(&job, Entry::StationReading(0, 1, 2 * quarter)), "11");
        assert_eq!(text(&job, Entry::StationReading(0, 2, 2 * quarter)), "");
        let read = job.entries().into_iter().filter(|entry| {
            matches!(entry, Entry::StationReading(..)) && !text(&job, *entry).is_empty()
        });
        assert_eq!(read.count(), 4, "{stations:?}");
        assert_eq!(job.truing.passes[0].begun, Some(7));
    }
    assert_eq!(text(&job, Entry::StationAt(0, 2, 1)), "90°");
    let same = |turn: &DialTurn| (turn.at.len(), turn.readings.len(), turn.aside.len());
    assert_eq!(job.truing.passes[0].turns.iter().map(same).collect::<Vec<_>>(), [(6, 6, 6); 3]);
}

#[test]
fn one_place_whose_reading_has_no_mark_holds_back_all() {
    let mut job = three_places(Stations::Eight);
    job.put(Entry::StationReading(0, 0, 2), "3");
    job.put(Entry::StationReading(0, 2, 1), "4");
    let before = job.clone();
    for stations in [Stations::Four, Stations::Twelve, Stations::ThirtySix, Stations::HighLow] {
        assert!(!job.truing.set_stations(0, stations), "{stations:?}");
        assert_eq!(job, before);
    }
}

#[test]
fn readings_behind_a_coarser_division_are_not_lost() {
    // As an earlier page left them: eight marks read, four shown.
    let mut job = three_places(Stations::Eight);
    job.put(Entry::StationReading(0, 0, 1), "3");
    job.put(Entry::StationReading(0, 1, 5), "4");
    job.truing.passes[0].stations = Stations::Four;
    let before = job.clone();
    for stations in [Stations::Eight, Stations::Sixteen, Stations::Free, Stations::HighLow] {
        assert!(!job.truing.set_stations(0, stations), "{stations:?}");
        assert_eq!(job, before);
    }
}

#[test]
fn the_same_marks_again_change_nothing() {
    for stations in [Stations::Free, Stations::HighLow, Stations::Eight] {
        let mut job = three_places(stations);
        job.put(Entry::StationAt(0, 1, 1), "7:30");
        for reading in ["", "3"] {
            job.put(Entry::StationReading(0, 1, 1), reading);
            let before = job.clone();
            assert!(job.truing.set_stations(0, stations), "{stations:?}");
            assert_eq!(job, before);
        }
    }
}

#[test]
fn what_was_read_where_the_mechanic_says_stays_there() {
    for from in [Stations::Free, Stations::HighLow] {
        for stations in [Stations::Four, Stations::Eight, Stations::Free, Stations::HighLow] {
            let mut job = three_places(from);
            job.put(Entry::Closing(0, 1), "1");
            // The first mark read again alone holds nothing back, and stays.
            let mut free = job.clone();
            assert!(free.truing.set_stations(0, stations));
            assert_eq!(text(&free, Entry::Closing(0, 1)), "1");
            job.put(Entry::StationReading(0, 2, 0), "3");
            let fits = job.truing.set_stations(0, stations);
            assert_eq!(fits, from == stations, "{from:?} {stations:?}");
            assert_eq!(text(&job, Entry::StationReading(0, 2, 0)), "3");
        }
    }
}

#[test]
fn that_a_mark_was_set_aside_goes_with_it() {
    let aside = |job: &Job| {
        let turns = job.truing.passes[0].turns.iter().enumerate();
        let marks = turns.flat_map(|(place, turn)| {
            turn.aside
                .iter()
                .enumerate()
                .filter(|(_, aside)| **aside)
                .map(move |(mark, _)| (place, mark))
        });
        marks.collect::<Vec<_>>()
    };
    for reading in ["", "3"] {
        let mut job = three_places(Stations::Eight);
        for (place, mark) in [(0, 2), (2, 6)] {
            job.truing.passes[0].turns[place].aside[mark] = true;
            job.put(Entry::StationReading(0, place, mark), reading);
        }
        for (stations, marks) in [
            (Stations::Sixteen, [(0, 4), (2, 12)]),
            (Stations::Twelve, [(0, 3), (2, 9)]),
            (Stations::Four, [(0, 1), (2, 3)]),
        ] {
            assert!(job.truing.set_stations(0, stations));
            assert_eq!(aside(&job), marks, "{stations:?}");
        }
    }
    let mut job = three_places(Stations::Four);
    job.put(Entry::StationReading(0, 1, 3), "3");
    job.truing.passes[0].turns[1].aside[3] = true;
    assert!(job.truing.set_stations(0, Stations::Free));
    assert_eq!((aside(&job), text(&job, Entry::StationAt(0, 1, 3))), (vec![(1, 3)], "270°"));
}

#[test]
fn every_pass_has_one_turn_a_place() {
    let turns = |job: &Job| job.truing.passes.iter().map(|pass| pass.turns.len()).collect::<Vec<_>>();
    let mut job = Job::default();
    job.put(Entry::StationReading(0, 0, 5), "5");
    assert!(job.truing.begin(PassKind::Tacked, Stations::Free));
    job.truing.passes[1].add_station();
    job.truing.add_place();
    job.truing.add_place();
    assert!(job.truing.begin(PassKind::Welded, Stations::ThirtySix));
    assert_eq!(turns(&job), [3, 3, 3]);
    // A place added later has the marks of the pass, seven with the one that was asked for.
    for (pass, marks) in [8, 7, 36].into_iter().enumerate() {
        for turn in &job.truing.passes[pass].turns {
            assert_eq!([turn.at.len(), turn.readings.len(), turn.aside.len()], [marks; 3]);
        }
    }
    job.put(Entry::StationReading(0, 1, 4), "4");
    job.put(Entry::StationReading(0, 2, 4), "6");
    job.truing.drop_place();
    assert_eq!((turns(&job), job.truing.places.len()), (vec![2, 2, 2], 2));
    assert_eq!(text(&job, Entry::StationReading(0, 1, 4)), "4");
    assert!(job.typed(Entry::StationReading(0, 2, 4)).is_none());
    assert!(job.typed(Entry::PlaceAlong(2)).is_none());
    // What was read at a place that was taken away does not come back with a new one.
    job.truing.add_place();
    assert_eq!(text(&job, Entry::StationReading(0, 2, 4)), "");
    for _ in 0..2 * MOST_PLACES {
        job.truing.drop_place();
    }
    assert_eq!((turns(&job), job.truing.places.len()), (vec![1, 1, 1], 1));
    assert_eq!(text(&job, Entry::StationReading(0, 0, 5)), "5");
    for _ in 0..2 * MOST_PLACES {
        job.truing.add_place();
    }
    assert_eq!((turns(&job), job.truing.places.len()), (vec![MOST_PLACES; 3], MOST_PLACES));
}

#[test]
fn there_is_an_end_to_passes_and_marks() {
    let mut job = three_places(Stations::Free);
    for _ in 0..2 * MOST_STATIONS {
        job.truing.passes[0].add_station();
    }
    for turn in &job.truing.passes[0].turns {
        let marks = [turn.at.len(), turn.readings.len(), turn.aside.len()];
        assert_eq!(marks, [MOST_STATIONS; 3]);
    }
    for begun in 1..MOST_PASSES {
        assert!(job.truing.begin(PassKind::Tacked, Stations::Four), "{begun}");
    }
    let before = job.clone();
    assert!(!job.truing.begin(PassKind::Tacked, Stations::Four));
    assert_eq!(job, before);
}

#[test]
fn a_bare_place_of_a_mark_is_in_what_the_marks_are_called_by() {
    let mut job = Job::default();
    assert!(job.truing.passes[0].set_stations(Stations::Free, TurnedHow::ByMarks));
    job.put(Entry::StationAt(0, 0, 0), "4");
    job.truing.marks = MarkNames::Degrees;
    job.put(Entry::StationAt(0, 0, 1), "90");
    // What was typed before keeps its meaning.
    assert_eq!(job.typed(Entry::StationAt(0, 0, 0)).unwrap().unit, Unit::Hour);
    assert_eq!(job.typed(Entry::StationAt(0, 0, 1)).unwrap().unit, Unit::Degree);
}
