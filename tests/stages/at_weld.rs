//! The dial on the invented shaft: what several places, or a set-up, change in what is done at the new weld.

use shaftwright::job::{End, Entry, Job, PassKind, SetUp, Stations};
use shaftwright::quantity::as_degrees;
use shaftwright::stage::{Answer, Cause, Name, Reason, Sense, Standing, TackSide, Verdict, standing};

use super::bent::bent;
use super::dial::{THOU, begin, finding, findings, place, pure, roomy, says_nothing_of, untaken, value};
use super::shaft::{agrees, by_hand};

/// The first side to tack, and which it is.
fn tack_first(job: &Job) -> (f64, TackSide) {
    match value(&roomy(job), Name::TackFrom).sense {
        Some(Sense::InThisOrder { from, side }) => (as_degrees(from), side),
        other => panic!("{other:?}"),
    }
}

/// By hand: the script's angle between the pieces over the tube's 3 in.
fn kink_opens() -> f64 {
    3.0 * by_hand("kink angle").to_radians()
}

fn opens_for_the_kink(job: &Job) {
    let opens = value(job, Name::JointOpens);
    // What the dial shows is typed to seven decimals of a thousandth.
    agrees(opens, kink_opens(), None, 2e-5);
    let Some(Sense::OpenAt(low)) = opens.sense else { panic!("{opens:?}") };
    place(low, 130.0 + 180.0);
    let (from, side) = tack_first(job);
    assert!((from - 130.0).abs() < 1e-3 && side == TackSide::Kink, "{from} {side:?}");
}

/// One turn at four marks at so many places along the tube: offset in thousandths toward 130°, by place.
fn along(places: &[f64], shape: &dyn Fn(f64) -> f64) -> Job {
    let mut job = untaken();
    begin(&mut job, PassKind::AsFitted, Stations::Four);
    for (index, z) in places.iter().enumerate() {
        if index > 0 {
            job.truing.add_place();
        }
        job.put(Entry::PlaceAlong(index), &z.to_string());
        pure(&mut job, 0, index, shape(*z), 130.0);
    }
    job
}

#[test]
fn a_kink_is_opened_on_its_low_side_wherever_the_dial_stands() {
    for set_up in [SetUp::Joints, SetUp::Vees, SetUp::Gearbox, SetUp::Centres] {
        opens_for_the_kink(&bent(set_up, "kink"));
    }
}

#[test]
fn beyond_both_vees_the_high_side_is_the_kinks_low_one() {
    // By thought: the tail swings away from the high side of the kink before it, so the dial on it is high
    // on the low side; a tack there would draw it farther out.
    let mut job = bent(SetUp::Vees, "kink");
    let (at, up, right) = (54.0, by_hand("vees kink 4 up"), by_hand("vees kink 4 right"));
    (1..5).for_each(|_| job.truing.drop_place());
    job.put(Entry::PlaceAlong(0), &at.to_string());
    pure(&mut job, 0, 0, up.hypot(right) / THOU, right.atan2(up).to_degrees());
    let Some(Sense::Tap { at, .. }) = value(&job, Name::Correction).sense else { panic!() };
    place(at, 310.0);
    let (from, side) = tack_first(&job);
    assert!((from - 130.0).abs() < 1e-3 && side == TackSide::Kink, "{from} {side:?}");
    // Between the joints it is the same side.
    job.truing.set_up = SetUp::Joints;
    let (from, side) = tack_first(&job);
    assert!((from - 310.0).abs() < 1e-3 && side == TackSide::High, "{from} {side:?}");
}

#[test]
fn with_the_tail_held_one_place_opens_only_a_front_weld() {
    let mut job = along(&[33.0], &|_| 8.0);
    job.truing.set_up = SetUp::Gearbox;
    says_nothing_of(&job, Name::JointOpens);
    job.cut.end = End::Front;
    assert!(value(&job, Name::JointOpens).sense.is_some());
}

#[test]
fn what_is_no_kink_has_no_side_to_draw_in_and_nothing_to_open() {
    for (key, elsewhere) in
        [("bow", Some(Cause::Bow)), ("front yoke", Some(Cause::FrontYoke)), ("step", None)]
    {
        let job = bent(SetUp::Joints, key);
        says_nothing_of(&job, Name::JointOpens);
        assert_eq!(tack_first(&job).1, TackSide::Any, "{key}");
        let sense = value(&job, Name::Correction).sense;
        match (sense, elsewhere) {
            (Some(Sense::NotHere { cause, kink: None, .. }), Some(wanted)) => assert_eq!(cause, wanted),
            (Some(Sense::Tap { .. }), None) => {}
            other => panic!("{key}: {other:?}"),
        }
    }
}

/// The invented shaft, from joint to joint, and its weld; as `by_hand` lays them.
const PLACES: [f64; 5] = [8.0, 20.0, 33.0, 46.0, 54.0];

#[test]
fn a_kink_beside_a_bow_is_not_tapped_where_the_bow_is_high() {
    // By construction: a bow of 12 the other way outdoes a kink of 12 near the front joint.
    let (long, weld) = (by_hand("wanted"), by_hand("new weld"));
    let kink = |z: f64| if z < weld { z / weld } else { (long - z) / (long - weld) };
    let job = along(&PLACES, &|z| 12.0 * kink(z) - 48.0 * z * (long - z) / long / long);
    let Some(Sense::NotHere { at, cause, kink: Some(high) }) = value(&job, Name::Correction).sense
    else {
        panic!("{:?}", value(&job, Name::Correction))
    };
    assert_eq!(cause, Cause::Bow);
    place(at, 310.0);
    assert!((as_degrees(high) - 130.0).abs() < 1e-3);
    let Some(Sense::OpenAt(low)) = value(&job, Name::JointOpens).sense else { panic!() };
    assert!((as_degrees(low) - 310.0).abs() < 1e-3);
    assert!((tack_first(&job).0 - 130.0).abs() < 1e-3);
}

#[test]
fn two_causes_that_others_explain_as_well_are_not_acted_on() {
    // By construction: a front yoke and a rise from the front joint, which kink, step and rear yoke all make.
    let long = by_hand("wanted");
    let job = along(&PLACES[..4], &|z| 12.0 * (1.0 - z / long) - 20.0 * z / long);
    let Some(Sense::Bent(by)) = value(&job, Name::BentBy).sense else { panic!() };
    assert!(by.beside.is_some() && by.other_pairs, "{by:?}");
    assert_eq!(tack_first(&job).1, TackSide::High);
    says_nothing_of(&job, Name::JointOpens);
}

#[test]
fn a_kink_that_the_places_do_not_show_is_named_as_hidden() {
    // Between free centres, from places before the weld alone, a kink is a straight line.
    let mut job = bent(SetUp::Centres, "kink");
    job.truing.drop_place();
    let Some(Sense::Bent(by)) = value(&job, Name::BentBy).sense else { panic!() };
    assert_eq!((by.cause, by.hidden), (None, [true, true, false, true, true]));
    // A bow that they do show does not prove the weld straight.
    let mut bow = bent(SetUp::Centres, "bow");
    bow.truing.drop_place();
    let Some(Sense::Bent(by)) = value(&bow, Name::BentBy).sense else { panic!() };
    assert_eq!(by.cause, Some(Cause::Bow));
    assert!(matches!(value(&bow, Name::Correction).sense, Some(Sense::Tap { .. })));
}

#[test]
fn a_place_that_is_half_read_explains_nothing() {
    let mut job = bent(SetUp::Joints, "bow");
    job.put(Entry::StationReading(0, 2, 3), "");
    assert_eq!(finding(&job, Name::BentBy).answer, Answer::Impossible(Reason::PartRead));
    assert!(matches!(value(&job, Name::Correction).sense, Some(Sense::Tap { .. })));
}

#[test]
fn the_pull_is_the_welds_own() {
    let mut job = untaken();
    for (kind, size) in [(PassKind::Tacked, 2.0), (PassKind::Welded, 9.0), (PassKind::Welded, 4.0)] {
        let pass = begin(&mut job, kind, Stations::Eight);
        pure(&mut job, pass, 0, size, 70.0);
    }
    // By construction 9 − 2, whatever heat did after it.
    agrees(value(&job, Name::WeldPull), 7.0 * THOU, None, 1e-5);
    // Cut off and welded again without a turn between: nothing to hold it against.
    let fitted = begin(&mut job, PassKind::AsFitted, Stations::Eight);
    pure(&mut job, fitted, 0, 1.0, 70.0);
    let again = begin(&mut job, PassKind::Welded, Stations::Eight);
    pure(&mut job, again, 0, 5.0, 70.0);
    says_nothing_of(&job, Name::WeldPull);
}

#[test]
fn only_on_its_own_joints_is_a_shaft_called_good() {
    // Handbook, the centreline: in vees nothing shows at a vee itself, and no set-up but the joints shows both
    // yokes.
    let mut job = along(&[33.0], &|_| 2.0);
    job.truing.passes.clear();
    let pass = begin(&mut job, PassKind::Welded, Stations::Eight);
    pure(&mut job, pass, 0, 2.0, 70.0);
    assert_eq!(standing(&findings(&job)), Standing::Good);
    for set_up in [SetUp::Gearbox, SetUp::Vees, SetUp::Centres] {
        job.truing.set_up = set_up;
        assert_eq!(finding(&job, Name::TotalReading).verdict, Verdict::Watch(Reason::SetUpHides));
        assert_eq!(standing(&findings(&job)), Standing::Watch, "{set_up:?}");
    }
}
