//! The weights' own fields: what each can be, and which of them a way of weighing or a rule asks for.
//!
//! The bounds are our own choice and stand here a second time.

use shaftwright::job::{End, Entry, Joined, PutBack, Weighed};
use shaftwright::stage::{Complaint, Name, Need, Standing, Why, read, whole};

use super::shaft::{find, needs, number, shaft, with};
use super::{in_base, lost};

#[test]
fn absurd_numbers_are_told_what_is_allowed() {
    for (entry, text, given, least, most) in [
        (Entry::WeightLength(0), "1/16", 1.5875, 3.0, 350.0),
        (Entry::WeightLength(1), "14", 355.6, 3.0, 350.0),
        (Entry::WeightWidth(0), "5", 127.0, 3.0, 100.0),
        (Entry::WeightThickness(1), "1/64", 0.396_875, 0.5, 12.0),
        (Entry::StripWidth, "-1", -25.4, 3.0, 100.0),
        (Entry::StripThickness, "1", 25.4, 0.5, 12.0),
        (Entry::FrontPlane, "-5", -127.0, 0.0, 3000.0),
        (Entry::RearPlane, "3.5 m", 3500.0, 0.0, 3000.0),
        (Entry::EarClock, "19 o'clock", 570.0, 0.0, 360.0),
    ] {
        let job = with(entry, text);
        let Err(Complaint::OutOfRange { given: g, least: l, most: m }) = read(&job, entry) else {
            panic!("{entry:?} {text:?}: {:?}", read(&job, entry))
        };
        for (got, expected) in [(g, given), (l, least), (m, most)] {
            assert!((in_base(got) - expected).abs() < 1e-6, "{entry:?} {text:?}: {got:?}");
        }
        // What is not asked for as things are chosen holds nothing up; the ears are to be kept clear of, and a
        // strip's sizes say how far it reaches.
        let asked = matches!(entry, Entry::EarClock | Entry::StripWidth | Entry::StripThickness);
        assert_eq!(whole(&job).shaft == Standing::Good, !asked, "{entry:?} {text:?}");
    }
    // A note is words, and none of them is wrong.
    let noted = with(Entry::WeightNote(0), "thin, 1,455 of them; half covered by paint");
    assert_eq!((read(&noted, Entry::WeightNote(0)), whole(&noted).shaft), (Ok(None), Standing::Good));
}

#[test]
fn one_field_against_another() {
    // Once round a 3 in tube is 9.4248 in; the gearbox end lies nearer to the far datum, the front joint.
    for (entry, text, other, most) in [
        (Entry::WeightLength(0), "9.43", Entry::TubeDiameter, core::f64::consts::PI * 3.0),
        (Entry::FrontPlane, "50", Entry::RearPlane, 48.0),
    ] {
        let mut job = with(Entry::RearPlane, "48");
        job.put(entry, text);
        let Err(Complaint::NotBelow { other: against, most: allowed, .. }) = read(&job, entry) else {
            panic!("{entry:?}: {:?}", read(&job, entry))
        };
        assert_eq!(against, other);
        assert!((number(allowed) - most).abs() < 1e-9);
        // Cut at the front, the gearbox end is the farther one.
        job.cut.end = End::Front;
        if entry == Entry::FrontPlane {
            assert!(read(&job, entry).is_ok() && read(&job, other).is_ok());
            job.put(entry, "47");
            assert!(matches!(
                read(&job, other),
                Err(Complaint::NotBelow { other: Entry::FrontPlane, .. })
            ));
        }
    }
}

#[test]
fn each_way_of_weighing_asks_for_its_own_fields() {
    let mut job = shaft();
    job.weights.weighed = Weighed::Size;
    let asked = [Entry::WeightLength(0), Entry::WeightWidth(0), Entry::WeightThickness(0)];
    let named: Vec<Entry> = needs(&job, Name::PutBack(0)).iter().map(|need| need.entry).collect();
    assert_eq!(named, asked);
    assert_eq!(lost(&job), [Name::PutBack(0), Name::PutBack(1), Name::LeftFront, Name::LeftRear]);
    // Its mass is not asked for then, and may hold anything; the tube it was bent round is.
    job.put(Entry::WeightMass(0), "banana");
    for (entry, text) in asked.into_iter().zip(["1", "3/4", "1/8"]) {
        job.put(entry, text);
    }
    assert!(find(&job, Name::PutBack(0)).value().is_some());
    job.put(Entry::TubeDiameter, "");
    assert_eq!(needs(&job, Name::PutBack(0)), [Need { entry: Entry::TubeDiameter, why: Why::Empty }]);
    // By a scale the size may hold anything, but for the thickness that a radius would follow from.
    let mut job = with(Entry::WeightLength(0), "banana");
    assert!(find(&job, Name::PutBack(0)).value().is_some());
    job.put(Entry::WeightThickness(0), "banana");
    assert!(find(&job, Name::PutBack(0)).value().is_some());
    job.put(Entry::WeightRadius(0), "");
    assert_eq!(needs(&job, Name::PutBack(0))[0].entry, Entry::WeightThickness(0));
}

#[test]
fn what_one_weight_lacks_both_lack_that_stand_for_all() {
    for rule in [PutBack::OwnYoke, PutBack::BothShares, PutBack::OwnPlaces] {
        let mut job = with(Entry::WeightClock(1), "");
        job.weights.put_back = rule;
        job.weights.joined = Joined::OneAnEnd;
        job.put(Entry::FrontPlane, "5");
        job.put(Entry::RearPlane, "50");
        for name in [Name::PutFront, Name::PutRear, Name::LeftFront, Name::LeftRear] {
            let empty = Need { entry: Entry::WeightClock(1), why: Why::Empty };
            assert_eq!(needs(&job, name), [empty], "{rule:?}");
        }
    }
}
