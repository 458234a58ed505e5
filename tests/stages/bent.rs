//! The dial on the invented shaft, at several places along the tube: the worst of them, and what bends it.

use shaftwright::job::{End, Entry, Job, Pass, PassKind, SetUp, Stations};
use shaftwright::quantity::{as_degrees, in_inches};
use shaftwright::stage::{
    Answer, Name, Need, Reason, Sense, Standing, Value, Verdict, Why, standing, truing,
};

use super::dial::{THOU, begin, finding, findings, pure, says_nothing_of, untaken, value};
use super::shaft::{agrees, by_hand, readings};

/// The shaft read at the script's places, the dial as the bent shaft shows it in a set-up.
pub fn bent(set_up: SetUp, cause: &str) -> Job {
    let mut job = untaken();
    job.truing.set_up = set_up;
    let named = match set_up {
        SetUp::Joints => "joints",
        SetUp::Gearbox => "gearbox",
        SetUp::Vees => "vees",
        SetUp::Centres => "centres",
    };
    job.put(Entry::FrontVee, "14");
    job.put(Entry::RearVee, "40");
    // Four marks: what they leave open is the dial's line, whatever they scatter.
    begin(&mut job, PassKind::AsFitted, Stations::Four);
    for place in 0..5 {
        if place > 0 {
            job.truing.add_place();
        }
        job.put(Entry::PlaceAlong(place), &by_hand(&format!("place {place}")).to_string());
        let part = |part: &str| by_hand(&format!("{named} {cause} {place} {part}")) / THOU;
        let (up, right) = (part("up"), part("right"));
        pure(&mut job, 0, place, up.hypot(right), right.atan2(up).to_degrees());
    }
    job
}

/// What bends the shaft: the cause by its name, the others, the high place.
fn cause_of(job: &Job) -> (String, Vec<String>, f64, Value) {
    let found = value(job, Name::BentBy);
    let Some(Sense::Bent(by)) = found.sense else { panic!("{found:?}") };
    assert!(by.beside.is_none() && (by.cause.is_none() || by.explains), "{by:?}");
    let name = |cause| format!("{cause:?}");
    let others = by.others.into_iter().flatten().map(name).collect();
    (by.cause.map_or("straight".to_owned(), name), others, as_degrees(by.at), found)
}

/// Each bent shaft of the script: its name there, the cause's name, the place in the script.
const BENT: [(&str, &str, f64); 5] = [
    ("kink", "Kink", 130.0),
    ("step", "Step", 250.0),
    ("bow", "Bow", 40.0),
    ("front yoke", "FrontYoke", 310.0),
    ("rear yoke", "RearYoke", 100.0),
];

#[test]
fn each_cause_is_named_about_the_joints() {
    for (key, cause, at) in BENT {
        let job = bent(SetUp::Joints, key);
        let (name, others, found_at, found) = cause_of(&job);
        assert_eq!((name.as_str(), others.len()), (cause, 0), "{key}: {others:?}");
        agrees(found, by_hand(&format!("{key} size")), None, 1e-5);
        assert!((found_at - at).abs() < 1e-3, "{key}: {found_at}");
        let Some(Sense::Bent(by)) = found.sense else { panic!() };
        assert_eq!(by.hidden, [false; 5]);
        let kink = by.kink.map(as_degrees);
        assert_eq!(kink.is_some(), key == "kink");
        if let Some(kink) = kink {
            assert!((kink - by_hand("kink angle")).abs() < 1e-5, "{kink}");
            agrees(found, by_hand("kink size"), Some(by_hand("kink doubt") * THOU), 1e-5);
        }
        // The line that is drawn is the one that was built.
        let line = truing::centreline(&job, 0).unwrap();
        for sixteenth in [4, 8, 12] {
            let (_, shown) = line.shape[3 * sixteenth];
            let part = |part: &str| by_hand(&format!("{key} shape {sixteenth} {part}"));
            assert!((in_inches(shown.up) - part("up")).abs() < 2e-7, "{key} {sixteenth}");
            assert!((in_inches(shown.right) - part("right")).abs() < 2e-7, "{key} {sixteenth}");
        }
    }
}

#[test]
fn cut_at_the_front_the_bent_shaft_is_mirrored() {
    // Every distance counts from the rear joint: the same numbers, the yokes changed over, and of a step
    // it is the other piece that is asked for.
    for (key, cause, at) in BENT {
        let mut job = bent(SetUp::Joints, key);
        job.cut.end = End::Front;
        let (name, others, found_at, found) = cause_of(&job);
        let (expected, at) = match cause {
            "FrontYoke" => ("RearYoke", at),
            "RearYoke" => ("FrontYoke", at),
            "Step" => ("Step", at - 180.0),
            other => (other, at),
        };
        assert_eq!((name.as_str(), others.len()), (expected, 0), "{key}: {others:?}");
        assert!((found_at - at).abs() < 1e-3, "{key}: {found_at}");
        agrees(found, by_hand(&format!("{key} size")), None, 1e-5);
        let line = truing::centreline(&job, 0).unwrap();
        let length = in_inches(line.length);
        assert!((in_inches(line.places[0].0) - (length - by_hand("place 0"))).abs() < 1e-9);
        let (_, shown) = line.shape[36];
        assert!((in_inches(shown.up) - by_hand(&format!("{key} shape 4 up"))).abs() < 2e-7, "{key}");
    }
}

#[test]
fn what_each_set_up_turns_about_is_taken_out() {
    // Both vees stand on the tube, so that a kink and a step look alike beyond the weld, and what a yoke
    // does is not seen. Where the tail is held no one knows, a rear yoke is not seen. Between centres
    // neither is; the one place beyond the weld again tells a kink from a step by nothing.
    for (set_up, hidden, seen) in [
        (SetUp::Vees, [true, true], [Some("Kink"), Some("Kink"), Some("Bow"), None, None]),
        (
            SetUp::Gearbox,
            [false, true],
            [Some("Kink"), Some("Kink"), Some("Bow"), Some("FrontYoke"), None],
        ),
        (SetUp::Centres, [true, true], [Some("Kink"), Some("Kink"), Some("Bow"), None, None]),
    ] {
        for ((key, cause, at), seen) in BENT.into_iter().zip(seen) {
            let (name, others, found_at, found) = cause_of(&bent(set_up, key));
            assert_eq!(name, seen.unwrap_or("straight"), "{set_up:?} {key}");
            let Some(Sense::Bent(by)) = found.sense else { panic!() };
            assert_eq!(by.hidden, [false, false, false, hidden[0], hidden[1]], "{set_up:?} {key}");
            match key {
                "kink" | "step" => assert_eq!(others, ["Step"], "{set_up:?} {key}"),
                _ => assert!(others.is_empty(), "{set_up:?} {key}: {others:?}"),
            }
            if seen == Some(cause) {
                agrees(found, by_hand(&format!("{key} size")), None, 1e-5);
                assert!((found_at - at).abs() < 1e-3, "{set_up:?} {key}: {found_at}");
            }
        }
    }
}

#[test]
fn places_before_the_weld_alone_cannot_tell_a_kink_from_a_yoke() {
    // Without the place on the neck behind it, a kink, a step and a bent rear yoke all rise evenly.
    let mut job = bent(SetUp::Joints, "kink");
    job.truing.drop_place();
    let (name, others, at, _) = cause_of(&job);
    assert_eq!((name.as_str(), others), ("Kink", vec!["Step".to_owned(), "RearYoke".to_owned()]));
    assert!((at - 130.0).abs() < 1e-3, "{at}");
}

#[test]
fn which_place_to_read_next() {
    let needs = |job: &Job| match finding(job, Name::BentBy).answer {
        Answer::Missing(needs) => needs,
        other => panic!("{other:?}"),
    };
    let clear = |job: &mut Job, place: usize| {
        (0..4).for_each(|mark| job.put(Entry::StationReading(0, place, mark), ""));
    };
    let mut job = bent(SetUp::Centres, "kink");
    clear(&mut job, 2);
    clear(&mut job, 4);
    // Three of the four that free centres need: the next one that is laid out.
    let next = Need { entry: Entry::StationReading(0, 2, 0), why: Why::Empty };
    assert_eq!(needs(&job), [next]);
    // Begun there, its own next mark; and its distance, where that is missing.
    job.put(Entry::StationReading(0, 2, 0), "20");
    assert_eq!(needs(&job), [Need { entry: Entry::StationReading(0, 2, 1), why: Why::Empty }]);
    let mut far = bent(SetUp::Centres, "kink");
    far.put(Entry::PlaceAlong(3), "");
    assert_eq!(needs(&far), [Need { entry: Entry::PlaceAlong(3), why: Why::Empty }]);
    // Nothing more is laid out.
    let mut few = bent(SetUp::Centres, "kink");
    few.truing.drop_place();
    few.truing.drop_place();
    let too_few = finding(&few, Name::BentBy);
    let reason = Reason::TooFewPlaces { got: 3, needed: 4 };
    assert_eq!(too_few.answer, Answer::Impossible(reason));
    assert_eq!(too_few.verdict, Verdict::Figure);
    // One place alone is not spoken of.
    (0..2).for_each(|_| few.truing.drop_place());
    says_nothing_of(&few, Name::BentBy);
}

/// Four places at eight marks: nothing, and what is given for the others.
fn along(others: [[&str; 8]; 3]) -> Job {
    let mut job = untaken();
    begin(&mut job, PassKind::Welded, Stations::Eight);
    readings(&mut job, 0, &["0", "1", "2", "3", "3", "2", "1", "0"], "");
    for (place, texts) in (1..).zip(others) {
        job.truing.add_place();
        for (mark, text) in texts.iter().enumerate() {
            job.put(Entry::StationReading(0, place, mark), text);
        }
    }
    job
}

#[test]
fn the_worst_place_is_the_one_judged_worst() {
    const FLAT: [&str; 8] = ["0", "1", "1", "1", "1", "0", "0", "0"];
    // By construction: 7 of second order reads 14 and runs true; 5.5 of first order reads less than 12.
    const OVAL: [&str; 8] = ["7", "0", "-7", "0", "7", "0", "-7", "0"];
    const OFF: [&str; 8] = ["6", "4", "0", "-4", "-6", "-4", "0", "4"];
    let worst = |job: &Job| {
        let found = finding(job, Name::WorstAlong);
        let Some(Sense::AtPlace(at)) = found.value().unwrap().sense else { panic!("{found:?}") };
        (at, found.verdict)
    };
    assert_eq!(worst(&along([FLAT, FLAT, FLAT])), (1, Verdict::Good));
    let (at, verdict) = worst(&along([FLAT, OVAL, FLAT]));
    assert!(at == 2 && matches!(verdict, Verdict::Watch(Reason::TotalOverLimit { .. })));
    for others in [[OVAL, FLAT, OFF], [FLAT, OVAL, OFF]] {
        let job = along(others);
        let (at, verdict) = worst(&job);
        assert!(at == 3 && matches!(verdict, Verdict::Stop(Reason::WeldedOffset { .. })), "{verdict:?}");
        assert_eq!(standing(&findings(&job)), Standing::Stop);
    }
    // A turn in which something moved is not hidden behind one that reads more.
    let mut moved = along([FLAT, OVAL, FLAT]);
    moved.put(Entry::Closing(0, 1), "3");
    let (at, verdict) = worst(&moved);
    assert!(at == 1 && matches!(verdict, Verdict::Stop(Reason::DialDrifted { .. })), "{verdict:?}");
    // What must be mended is said while another place is half read.
    let mut half = along([FLAT, FLAT, OFF]);
    half.put(Entry::StationReading(0, 2, 5), "about so");
    assert_eq!(worst(&half).0, 3);
    // Before welding nothing is good yet, at no place.
    let mut tacked = along([FLAT, FLAT, FLAT]);
    tacked.truing.passes[0].kind = PassKind::Tacked;
    assert_eq!(worst(&tacked).1, Verdict::Unjudged(Reason::NotWelded));
    // The second pass is judged by its own places.
    tacked.truing.passes.push(Pass::new(PassKind::Welded, Stations::Eight));
    readings(&mut tacked, 1, &["0", "1", "2", "3", "3", "2", "1", "0"], "");
    says_nothing_of(&tacked, Name::WorstAlong);
}

#[test]
fn a_place_at_which_the_dial_moved_explains_nothing() {
    let mut job = bent(SetUp::Joints, "bow");
    job.put(Entry::Closing(0, 2), "44");
    let found = finding(&job, Name::BentBy);
    let Answer::Impossible(Reason::DialDrifted { .. }) = found.answer else { panic!("{found:?}") };
    assert_eq!(found.verdict, Verdict::Figure);
}
