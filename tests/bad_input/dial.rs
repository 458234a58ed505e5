//! Turns of the dial that repeat, contradict or fall short: each is told why, and what to read next.

use shaftwright::job::{
    End, Entry, Job, Pass, PassKind, Plunger, RunOutLimit, SeamBy, SetUp, Stations, YokeAt,
};
use shaftwright::quantity::{as_degrees, in_inches};
use shaftwright::stage::{
    Answer, Complaint, Name, Need, Reason, Standing, Verdict, Why, standing, truing,
};

use super::shaft::{find, needs, readings, shaft};
use super::{all, lost};

/// The three that a turn of the dial is read for.
const THREE: [Name; 3] = [Name::Correction, Name::OffsetReading, Name::TotalReading];

/// Why each of the three cannot be found, and nothing else is lost.
fn reason(job: &Job) -> Reason {
    let mut gone = lost(job);
    gone.retain(|name| *name != Name::JointOpens);
    assert_eq!(gone, THREE);
    let [one, two, three] = THREE.map(|name| match find(job, name) {
        found if found.verdict != Verdict::NotYet => match found.answer {
            Answer::Impossible(reason) => reason,
            other => panic!("{other:?}"),
        },
        other => panic!("{other:?}"),
    });
    assert!(one == two && two == three, "{one:?}");
    one
}

/// The same, of what has to be typed first.
fn asked(job: &Job) -> Need {
    assert_eq!(lost(job), THREE);
    let [one, two, three] = THREE.map(|name| needs(job, name));
    assert!(one == two && two == three && one.len() == 1, "{one:?}");
    one[0].clone()
}

/// The shaft with its highest and its lowest place alone.
fn extremes(high: [&str; 2], low: [&str; 2]) -> Job {
    let mut job = shaft();
    job.truing.passes = vec![Pass::new(PassKind::Welded, Stations::HighLow)];
    for (station, [at, reading]) in [high, low].into_iter().enumerate() {
        job.put(Entry::StationAt(0, 0, station), at);
        job.put(Entry::StationReading(0, 0, station), reading);
    }
    job
}

#[test]
fn highest_and_lowest_that_contradict_each_other() {
    assert_eq!(lost(&extremes(["2:00", "3"], ["8:00", "-2"])), []);
    let swapped = extremes(["2:00", "-2"], ["8:00", "3"]);
    assert_eq!(reason(&swapped), Reason::HighBelowLow);
    // The same readings of a dial that counts the other way are what they should be.
    let mut counts = swapped.clone();
    counts.truing.plunger = Plunger::InIsMinus;
    assert_eq!(lost(&counts), []);
    // Sixty degrees beside the place opposite is the most; either way round, over the witness mark too.
    for (low, beside) in [
        ("10:00", Some(0.0)),
        ("12:00", Some(60.0)),
        ("8:00", Some(60.0)),
        ("12:30", None),
        ("7:30", None),
    ] {
        let job = extremes(["4:00", "3"], [low, "-2"]);
        match beside {
            Some(_) => assert_eq!(lost(&job), [], "{low}"),
            None => {
                let Reason::NotOpposite { beside } = reason(&job) else { panic!("{low}") };
                assert!((as_degrees(beside).abs() - 75.0).abs() < 1e-9, "{low}");
            }
        }
    }
    // One place for both.
    for low in ["4:00", "120°"] {
        let Reason::SamePlace { at } = reason(&extremes(["4:00", "3"], [low, "-2"])) else { panic!() };
        assert!((as_degrees(at) - 120.0).abs() < 1e-9);
    }
    // Half typed, the next field is asked.
    for (high, low, entry) in [
        (["4:00", "3"], ["", ""], Entry::StationReading(0, 0, 1)),
        (["4:00", "3"], ["10:00", ""], Entry::StationReading(0, 0, 1)),
        (["4:00", "3"], ["", "-2"], Entry::StationAt(0, 0, 1)),
        (["", "3"], ["10:00", "-2"], Entry::StationAt(0, 0, 0)),
        (["", ""], ["", ""], Entry::StationReading(0, 0, 0)),
    ] {
        assert_eq!(asked(&extremes(high, low)), Need { entry, why: Why::Empty }, "{entry:?}");
    }
    let wrong = extremes(["25:00", "3"], ["10:00", "-2"]);
    assert!(matches!(asked(&wrong), Need { entry: Entry::StationAt(0, 0, 0), why: Why::Wrong(_) }));
}

/// The shaft read at so many free marks, evenly round the tube.
fn free(count: usize) -> Job {
    let mut job = shaft();
    job.truing.passes = vec![Pass::new(PassKind::Welded, Stations::Free)];
    for mark in 0..count {
        job.put(Entry::StationAt(0, 0, mark), &format!("{}°", 360 * mark / count.max(3)));
        job.put(Entry::StationReading(0, 0, mark), "1");
    }
    job
}

#[test]
fn too_few_readings() {
    for got in [0, 1, 2] {
        assert_eq!(reason(&free(got)), Reason::TooFewStations { got, needed: 3 });
    }
    assert_eq!(lost(&free(3)), []);
    // Set aside by hand, a reading does not count.
    let mut job = free(4);
    for mark in [0, 2] {
        assert!(lost(&job).is_empty());
        job.truing.passes[0].turns[0].aside[mark] = true;
    }
    assert_eq!(reason(&job), Reason::TooFewStations { got: 2, needed: 3 });
}

#[test]
fn marks_all_on_one_side_tell_no_offset() {
    // Three marks at −β, 0 and β: the offset is the middle reading less the mean of the others over 1 − cos β,
    // so a line of the dial comes to √1.5/(1 − cos β) of them. Ten are allowed, our own choice: that is
    // at β = 28.65°.
    for (aside, told) in [(1, false), (28, false), (29, true), (120, true)] {
        let mut job = free(3);
        for (mark, at) in [0, aside, 360 - aside].into_iter().enumerate() {
            job.put(Entry::StationAt(0, 0, mark), &format!("{at}°"));
        }
        match told {
            true => assert_eq!(lost(&job), [], "{aside}"),
            false => assert_eq!(reason(&job), Reason::OneSided, "{aside}"),
        }
    }
    // A turn that is only begun is no such thing: it is read on.
    let mut begun = shaft();
    begun.truing.passes = vec![Pass::new(PassKind::Welded, Stations::ThirtySix)];
    for mark in 0..4 {
        begun.put(Entry::StationReading(0, 0, mark), "1");
    }
    assert_eq!(find(&begun, Name::OffsetReading).verdict, Verdict::Unjudged(Reason::PartRead));
}

#[test]
fn what_stands_beside_a_turn_is_asked_for_by_name() {
    // The seam's place where it is said to be known, and not where it is looked for.
    let mut job = shaft();
    job.truing.seam = SeamBy::Known;
    assert_eq!(asked(&job), Need { entry: Entry::SeamClock, why: Why::Empty });
    job.put(Entry::SeamClock, "19:00");
    assert!(matches!(
        asked(&job),
        Need { entry: Entry::SeamClock, why: Why::Wrong(Complaint::OutOfRange { .. }) }
    ));
    job.truing.seam = SeamBy::Found;
    assert_eq!(lost(&job), []);
    // Lost motion may be left out, but not be wrong.
    for text in ["-1", "0.5 in", "about so"] {
        let mut job = shaft();
        job.put(Entry::Backlash, text);
        assert!(matches!(asked(&job), Need { entry: Entry::Backlash, why: Why::Wrong(_) }), "{text}");
    }
    let mut job = shaft();
    job.put(Entry::Closing(0, 0), "about so");
    assert!(matches!(asked(&job), Need { entry: Entry::Closing(0, 0), why: Why::Wrong(_) }));
    job = shaft();
    job.truing.limit = RunOutLimit::Own;
    job.put(Entry::OwnLimit, "5");
    assert!(THREE.iter().all(|name| needs(&job, *name)[0].entry == Entry::OwnLimit));
}

#[test]
fn a_dial_that_did_not_come_back() {
    for (closing, drifted) in [("1", false), ("-1", false), ("1.5", true), ("-2", true), ("40", true)] {
        let mut job = shaft();
        job.put(Entry::Closing(0, 0), closing);
        assert_eq!(lost(&job), []);
        for name in THREE {
            let stop = matches!(find(&job, name).verdict, Verdict::Stop(Reason::DialDrifted { .. }));
            assert_eq!(stop, drifted, "{closing} {name:?}");
        }
        assert!(find(&job, Name::DialDrift).value().is_some());
    }
    // Nothing to hold it against: the first mark has no reading. It is asked for, not judged.
    let mut job = shaft();
    job.put(Entry::StationReading(0, 0, 0), "");
    assert_eq!(find(&job, Name::OffsetReading).verdict, Verdict::Unjudged(Reason::PartRead));
    assert!(all(&job).iter().all(|finding| finding.name != Name::DialDrift));
}

/// The shaft with the dial at these places from the far joint, alike at each.
fn along(places: &[&str]) -> Job {
    let mut job = shaft();
    for (place, at) in places.iter().enumerate() {
        if place > 0 {
            job.truing.add_place();
        }
        job.put(Entry::PlaceAlong(place), at);
        for (mark, text) in ["0", "2", "4", "6", "6", "4", "2", "0"].iter().enumerate() {
            job.put(Entry::StationReading(0, place, mark), text);
        }
    }
    job
}

#[test]
fn places_along_the_tube_that_cannot_be() {
    let why = |job: &Job| {
        assert_eq!(lost(job), [Name::BentBy]);
        let found = find(job, Name::BentBy);
        // It says where to look; the limits judge the shaft, and the stage does not wait for it.
        assert_eq!(found.verdict, Verdict::Figure);
        assert_ne!(standing(&truing::findings(job, 0, 0)), Standing::NotYet);
        match found.answer {
            Answer::Impossible(reason) => reason,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(lost(&along(&["10", "30", "50"])), []);
    // Told as they were typed, whichever joint they are measured from.
    for end in [End::Rear, End::Front] {
        let with_end = |places: &[&str]| {
            let mut job = along(places);
            job.cut.end = end;
            job
        };
        let Reason::SamePlaceAlong { z } = why(&with_end(&["10", "30.02", "30"])) else { panic!() };
        assert!((in_inches(z) - 30.02).abs() < 1e-6, "{end:?} {}", in_inches(z));
        let Reason::PlaceOffTheShaft { z } = why(&with_end(&["10", "30", "60"])) else { panic!() };
        assert!((in_inches(z) - 60.0).abs() < 1e-6, "{end:?} {}", in_inches(z));
    }
    // Vees: both asked for by name, and not in each other's place. From the rear joint the front one is
    // the farther.
    let in_vees = |end: End, front: &str, rear: &str| {
        let mut job = along(&["10", "30", "50"]);
        job.cut.end = end;
        job.truing.set_up = SetUp::Vees;
        job.put(Entry::FrontVee, front);
        job.put(Entry::RearVee, rear);
        job
    };
    let empty = |entry: Entry| Need { entry, why: Why::Empty };
    assert_eq!(
        needs(&in_vees(End::Rear, "", ""), Name::BentBy),
        [empty(Entry::FrontVee), empty(Entry::RearVee)]
    );
    assert_eq!(needs(&in_vees(End::Rear, "14", ""), Name::BentBy), [empty(Entry::RearVee)]);
    let wrong = needs(&in_vees(End::Rear, "about so", "40"), Name::BentBy);
    assert!(matches!(&wrong[..], [Need { entry: Entry::FrontVee, why: Why::Wrong(_) }]));
    for (end, front, rear, sound) in [
        (End::Rear, "14", "40", true),
        (End::Rear, "40", "14", false),
        (End::Rear, "14", "14", false),
        (End::Rear, "14", "58", false),
        (End::Front, "40", "14", true),
        (End::Front, "14", "40", false),
    ] {
        let job = in_vees(end, front, rear);
        if sound {
            assert_eq!(lost(&job), [], "{end:?} {front} {rear}");
        } else {
            assert_eq!(why(&job), Reason::VeesOrWeldOff, "{end:?} {front} {rear}");
        }
    }
}

#[test]
fn a_place_that_is_missing_or_wrong_is_named_where_it_is_needed() {
    let mut job = along(&["10", "30", "50"]);
    job.put(Entry::PlaceAlong(1), "");
    assert_eq!(lost(&job), [Name::BentBy]);
    assert_eq!(needs(&job, Name::BentBy), [Need { entry: Entry::PlaceAlong(1), why: Why::Empty }]);
    for text in ["-3", "5 m", "about so"] {
        job.put(Entry::PlaceAlong(1), text);
        assert_eq!(lost(&job), [Name::BentBy], "{text}");
        let named = needs(&job, Name::BentBy);
        assert!(matches!(&named[..], [Need { entry: Entry::PlaceAlong(1), why: Why::Wrong(_) }]));
    }
    // A reading that cannot be read at one place loses what rests on that place alone.
    let mut job = along(&["10", "30", "50"]);
    job.put(Entry::StationReading(0, 1, 4), "about so");
    assert_eq!(lost(&job), [Name::WorstAlong, Name::BentBy]);
    for name in lost(&job) {
        assert_eq!(needs(&job, name)[0].entry, Entry::StationReading(0, 1, 4), "{name:?}");
    }
    // The lengths are wanted for the shaft's line and for how far the joint opens, not for the dial.
    let mut job = along(&["10", "30", "50"]);
    job.truing.passes[0].kind = PassKind::AsFitted;
    readings(&mut job, 0, &["0", "5", "11", "15", "14", "9", "3", "-1"], "0");
    job.put(Entry::WeldLine, "");
    for name in [Name::BentBy, Name::JointOpens] {
        assert_eq!(needs(&job, name), [Need { entry: Entry::WeldLine, why: Why::Empty }], "{name:?}");
        assert_eq!(find(&job, name).verdict, Verdict::Figure);
    }
    assert!(THREE.iter().all(|name| find(&job, *name).value().is_some()));
    // Each need once, though both the shaft and its places want it.
    job.put(Entry::WeldLine, "53-7/8");
    job.put(Entry::SetPoint, "");
    job.measure.yoke_at = YokeAt::Bottomed;
    let named = needs(&job, Name::JointOpens);
    assert_eq!(named.len(), 1, "{named:?}");
}
