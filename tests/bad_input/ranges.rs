//! What each field of slip, angles, yokes and cut can be, by itself and beside another.
//!
//! The bounds are our own choice and stand here a second time.

use shaftwright::job::{Datum, DatumPair, Entry, Job, SetUp, ShaftBy, ShaftKind};
use shaftwright::quantity::Unreadable;
use shaftwright::stage::{Complaint, Standing, read, whole};

use super::chosen::{from_ends, what_needs};
use super::shaft::{needs, number, shaft, with_all};
use super::{in_base, lost};

/// The shaft by whose choices a field is asked.
fn asking(entry: Entry) -> Job {
    let chosen = what_needs().into_iter().find(|(_, asked, _)| *asked == entry);
    match (entry, chosen) {
        (Entry::RearCup | Entry::FrontEar, _) => {
            let mut job = with_all(&[(Entry::RearCup, "1"), (Entry::FrontEar, "1")]);
            job.measure.old_datum = DatumPair { front: Datum::OuterEar, rear: Datum::OuterSeat };
            job
        }
        (Entry::WantedFrontEar, _) => {
            let mut job = with_all(&[(Entry::WantedFrontEar, "1")]);
            job.measure.wanted_datum.front = Datum::InnerEar;
            job
        }
        (Entry::EndsReading(_), _) => from_ends(ShaftKind::Flanged),
        (Entry::ShaftSlopeRead(_), _) => {
            let mut job = with_all(&[(Entry::ShaftSlopeRead(1), "5")]);
            job.angles.shaft_by = ShaftBy::Read;
            job
        }
        (Entry::FrontVee | Entry::RearVee, _) => {
            let mut job = with_all(&[(Entry::FrontVee, "6"), (Entry::RearVee, "48")]);
            job.truing.set_up = SetUp::Vees;
            job
        }
        (Entry::PlaceAlong(_) | Entry::StationReading(..) | Entry::Closing(..), _) => {
            let mut job = shaft();
            job.truing.add_place();
            job.put(Entry::PlaceAlong(0), "50");
            job.put(Entry::PlaceAlong(1), "20");
            job
        }
        (_, Some((job, ..))) => job,
        _ => shaft(),
    }
}

#[test]
fn thousands_or_decimals_is_asked_of_the_angles_too() {
    for (entry, text, taken) in [
        (Entry::TorsionalLimit, "1,000", "1000"),
        (Entry::InertiaLimit, "1,000 rad/s²", "1000"),
        (Entry::RoadSpeed, "100,000 km/h", "100"),
        (Entry::GearboxSlope(0), "2,125", "2.125"),
        (Entry::FrontHeight, "25,125", "25.125"),
    ] {
        let mut job = shaft();
        job.put(entry, text);
        let Err(Complaint::Unreadable(Unreadable::Ambiguous { given, grouped, decimal })) =
            read(&job, entry)
        else {
            panic!("{entry:?}: {:?}", read(&job, entry))
        };
        // What was typed is kept as it was, and one of the two answers is the one that was meant.
        assert_eq!((given.as_str(), job.typed(entry).unwrap().text.as_str()), (text, text));
        let bare = |answer: &str| answer.split(' ').next().unwrap().parse::<f64>().unwrap();
        let meant = taken.parse::<f64>().unwrap();
        assert!([&grouped, &decimal].map(|answer| bare(answer)).contains(&meant), "{grouped} {decimal}");
    }
    // A unit of another kind is no unit here, and the text stays.
    for (entry, text) in [
        (Entry::TorsionalLimit, "400 rpm"),
        (Entry::RoadSpeed, "75 rpm"),
        (Entry::GearboxSlope(0), "3 mm"),
        (Entry::FrontHeight, "25°"),
        (Entry::MountArm, "31 kg"),
    ] {
        let mut job = shaft();
        job.put(entry, text);
        let said = read(&job, entry);
        assert!(matches!(said, Err(Complaint::Unreadable(_))), "{entry:?}: {said:?}");
        assert_eq!(job.typed(entry).unwrap().text, text);
    }
}

#[test]
fn absurd_numbers_are_told_what_is_allowed() {
    for (entry, text, given, least, most) in [
        (Entry::EndsReading(0), "4 m", 4000.0, 200.0, 3500.0),
        (Entry::AtBump, "6", 152.4, 200.0, 3500.0),
        (Entry::AtRide, "-60", -1524.0, 200.0, 3500.0),
        (Entry::AtDroop, "4 m", 4000.0, 200.0, 3500.0),
        (Entry::SplineLength, "40", 1016.0, 20.0, 300.0),
        (Entry::LeastEngaged, "1/16", 1.5875, 5.0, 200.0),
        (Entry::BumpRoom, "-1/4", -6.35, 0.0, 50.0),
        (Entry::BumpTravel, "0", 0.0, 1.0, 500.0),
        (Entry::DroopTravel, "45", 1143.0, 1.0, 500.0),
        (Entry::ShaftSlope, "45", 45.0, -30.0, 30.0),
        (Entry::ShaftSlope, "-31", -31.0, -30.0, 30.0),
        (Entry::LinkRadius, "2", 50.8, 100.0, 2500.0),
        (Entry::LinkRise, "-2 m", -2000.0, -1000.0, 1000.0),
        (Entry::BottomedGap, "-1/2", -12.7, 0.0, 100.0),
        (Entry::LipDepth, "2", 50.8, 0.0, 30.0),
        (Entry::BarrelLength, "5 mm", 5.0, 20.0, 300.0),
        (Entry::GroovePlace, "-1", -25.4, 0.0, 300.0),
        (Entry::GrooveWidth, "0", 0.0, 0.1, 20.0),
        (Entry::GrooveMargin, "1", 25.4, 0.0, 10.0),
        (Entry::FrontCup, "27 cm", 270.0, 10.0, 80.0),
        (Entry::RearCup, "0", 0.0, 10.0, 80.0),
        (Entry::FrontEar, "-1", -25.4, 0.0, 100.0),
        (Entry::RearEar, "12", 304.8, 0.0, 100.0),
        (Entry::WantedFrontEar, "-1", -25.4, 0.0, 100.0),
        (Entry::WantedRearEar, "12", 304.8, 0.0, 100.0),
        (Entry::FrontDepth, "-2", -50.8, 10.0, 400.0),
        (Entry::RearDepth, "20", 508.0, 10.0, 400.0),
        (Entry::Shoulder, "20", 508.0, 10.0, 400.0),
        (Entry::ClearBy, "0", 0.0, 3.0, 500.0),
        (Entry::SpigotDiameter, "1/2", 12.7, 15.0, 200.0),
        (Entry::Trim, "1", 25.4, 0.0, 10.0),
        (Entry::FaceReading(4), "3", 76.2, -10.0, 10.0),
        (Entry::SeamClock, "19 o'clock", 570.0, 0.0, 360.0),
        (Entry::GearboxSlope(1), "31", 31.0, -30.0, 30.0),
        (Entry::ShaftSlopeRead(0), "-45", -45.0, -30.0, 30.0),
        (Entry::PinionSlope(2), "87.5", 87.5, -30.0, 30.0),
        (Entry::OneWay, "90", 90.0, -30.0, 30.0),
        (Entry::TurnedRound, "-90", -90.0, -30.0, 30.0),
        (Entry::FrontHeight, "1", 25.4, 50.0, 2500.0),
        (Entry::RearHeight, "3 m", 3000.0, 50.0, 2500.0),
        (Entry::SideOffset, "25", 635.0, -600.0, 600.0),
        (Entry::GearboxPlan, "21", 21.0, -20.0, 20.0),
        (Entry::ShaftPlan, "-21", -21.0, -20.0, 20.0),
        (Entry::PinionPlan, "90", 90.0, -20.0, 20.0),
        (Entry::PowerRise, "13", 13.0, -5.0, 12.0),
        (Entry::PowerRise, "-6", -6.0, -5.0, 12.0),
        (Entry::BumpRise, "26", 26.0, -25.0, 25.0),
        (Entry::DroopRise, "-26", -26.0, -25.0, 25.0),
        (Entry::TorsionalLimit, "4", 4.0, 20.0, 10_000.0),
        (Entry::InertiaLimit, "0", 0.0, 20.0, 10_000.0),
        (Entry::LeastAngle, "4", 4.0, 0.0, 3.0),
        (Entry::LeastAngle, "-1", -1.0, 0.0, 3.0),
        (Entry::RoadSpeed, "3 km/h", 3.0, 5.0, 500.0),
        (Entry::RoadSpeed, "400", 400.0 * 1.609_344, 5.0, 500.0),
        (Entry::SpringPad, "1/2", 12.7, 20.0, 400.0),
        (Entry::MountArm, "4", 101.6, 200.0, 3000.0),
        (Entry::PinionArm, "-9", -228.6, 0.0, 800.0),
        (Entry::PinionArm, "95", 2413.0, 0.0, 800.0),
        (Entry::JointOverhang, "-1", -25.4, 0.0, 800.0),
        (Entry::JointMost, "4", 4.0, 5.0, 44.0),
        (Entry::JointMost, "45", 45.0, 5.0, 44.0),
        (Entry::Backlash, "-1", -0.0254, 0.0, 0.25),
        (Entry::Backlash, "10", 0.254, 0.0, 0.25),
        (Entry::Backlash, "0.3 mm", 0.3, 0.0, 0.25),
        (Entry::FrontVee, "-1", -25.4, 0.0, 3000.0),
        (Entry::FrontVee, "4 m", 4000.0, 0.0, 3000.0),
        (Entry::RearVee, "-1/2", -12.7, 0.0, 3000.0),
        (Entry::RearVee, "120", 3048.0, 0.0, 3000.0),
        (Entry::PlaceAlong(0), "0", 0.0, 10.0, 3000.0),
        (Entry::PlaceAlong(1), "-6", -152.4, 10.0, 3000.0),
        (Entry::PlaceAlong(1), "3.5 m", 3500.0, 10.0, 3000.0),
        (Entry::StationReading(0, 1, 7), "13 mm", 13.0, -12.0, 12.0),
        (Entry::Closing(0, 1), "-500", -12.7, -12.0, 12.0),
    ] {
        let mut job = asking(entry);
        job.put(entry, text);
        let Err(Complaint::OutOfRange { given: g, least: l, most: m }) = read(&job, entry) else {
            panic!("{entry:?} {text:?}: {:?}", read(&job, entry))
        };
        for (got, expected) in [(g, given), (l, least), (m, most)] {
            assert!((in_base(got) - expected).abs() < 1e-6, "{entry:?} {text:?}: {got:?}");
        }
        // A road speed is only drawn, and pad and mount only add
        // a thickness; where the dial stands along the tube says what bends it and how far a joint opens, and
        // the shaft is judged by what the dial reads: nothing is judged by them. In vees no shaft is good.
        let idle = matches!(
            entry,
            Entry::RoadSpeed
                | Entry::SpringPad
                | Entry::MountArm
                | Entry::JointOverhang
                | Entry::PlaceAlong(_)
        );
        assert_eq!(whole(&job).shaft == Standing::Good, idle, "{entry:?} {text:?}");
        for need in lost(&job).into_iter().flat_map(|name| needs(&job, name)) {
            assert_eq!(need.entry, entry, "{text:?}");
        }
    }
}

#[test]
fn one_field_against_another() {
    for (entry, text, other, most) in [
        (Entry::LeastEngaged, "4-1/2", Entry::SplineLength, 4.0),
        (Entry::SetPoint, "3.9", Entry::SplineLength, 3.5),
        (Entry::TakenAt, "3.9", Entry::SplineLength, 3.5),
        (Entry::GroovePlace, "6", Entry::BarrelLength, 5.5),
        (Entry::BottomedGap, "3-1/2", Entry::BarrelLength, 3.25),
        (Entry::SpigotDiameter, "3", Entry::TubeDiameter, 3.0),
        (Entry::Shoulder, "15", Entry::OldReading(0), 12.0),
        (Entry::ClearBy, "9", Entry::WeldLine, 8.0),
    ] {
        let mut job = asking(entry);
        job.put(other, &format!("{most}"));
        job.put(entry, text);
        let Err(Complaint::NotBelow { other: against, most: allowed, .. }) = read(&job, entry) else {
            panic!("{entry:?}: {:?}", read(&job, entry))
        };
        assert_eq!(against, other);
        assert!((number(allowed) - most).abs() < 1e-9);
        // A hair below it is taken.
        job.put(entry, &format!("{}", most - 0.001));
        assert!(read(&job, entry).is_ok(), "{entry:?}");
    }
}
