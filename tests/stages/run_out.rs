//! What the run-out adds, read along the tube as a mechanic would.
//!
//! By tests/handbook/weights.py unless another source is named.

use shaftwright::job::{Entry, Job, Pass, PassKind, RunOutLimit, SetUp, Stations, WhirlShare};
use shaftwright::quantity::{as_degrees, as_gram_millimetres, as_grams, as_millimetres, in_inches};
use shaftwright::stage::truing::{self, turn};
use shaftwright::stage::weights::{Drive, WeightReason, WeightSense};
use shaftwright::stage::{Amount, Answer, Finding, Law, Name, Reason, Sense, Stage, Verdict};

use super::shaft::{by_hand, find, needs, number, shaft, value};
use super::weights_back::{close, there, weighed};

const READ: [(&str, [f64; 8]); 3] = [
    ("49", [0.0, 2.0, 4.0, 6.0, 6.0, 4.0, 2.0, 0.0]),
    ("28", [0.0, -0.5, -1.5, -2.0, -2.0, -1.5, -0.5, 0.0]),
    ("8", [0.0, 0.0, 0.5, 0.5, 1.0, 0.5, 0.5, 0.0]),
];

/// The shaft read at these places after welding, every reading so many times as large.
fn read_at(places: &[(&str, [f64; 8])], times: f64) -> Job {
    let mut job = shaft();
    while job.truing.places.len() < places.len() {
        job.truing.add_place();
    }
    for (place, (z, readings)) in places.iter().enumerate() {
        job.put(Entry::PlaceAlong(place), z);
        for (mark, reading) in readings.iter().enumerate() {
            // A dial is read to half a line.
            let read = (2.0 * times * reading).round() / 2.0;
            job.put(Entry::StationReading(0, place, mark), &format!("{read}"));
        }
        job.put(Entry::Closing(0, place), "");
    }
    job
}

fn along() -> Job {
    read_at(&READ, 1.0)
}

/// By hand from 1/(1 − (n/N)²), N by shaft.py.
fn grows_by(rpm: f64) -> f64 {
    1.0 / (1.0 - (rpm / by_hand("whirl")).powi(2))
}

fn grade(job: &Job) -> Finding {
    find(job, Name::RunOutGrade)
}

fn reached(job: &Job) -> (f64, f64) {
    match grade(job).value().map(|value| (value.amount, value.plus_minus)) {
        Some((Amount::Grade(reached), Some(Amount::Grade(doubt)))) => (reached, doubt),
        None => panic!("{:?}", grade(job).answer),
        other => panic!("{other:?}"),
    }
}

fn drive(job: &Job) -> Option<Drive> {
    match grade(job).value()?.sense? {
        Sense::Weight(WeightSense::RunOut { drive, .. }) => drive,
        other => panic!("{other:?}"),
    }
}

#[test]
fn three_places() {
    let job = along();
    for (name, plane, which) in [(Name::RunOutFront, "front", 0), (Name::RunOutRear, "rear", 1)] {
        let found = value(&job, name);
        // The script's rings are a fifth of a thousandth of an inch long.
        close(number(found.amount), weighed(&format!("adds {plane}")), 1e-5);
        // Each place's circle as it comes through, the yokes anywhere from joint to weld, the wall, what a
        // smooth curve adds between the places; each factor by the script, the circles as the dial's own tests have them. √(2·2.995732) is the 95 %
        // circle of a plane's normal law, from −2·ln 0.05: a plane's unbalance has a size and a direction.
        let circle = |place: usize| turn(&job, 0, place).unwrap().run_out.offset_circle;
        let mut squares = 0.0;
        for (place, (z, _)) in READ.iter().enumerate() {
            let by = weighed(&format!("by {z} {plane}"));
            squares += (by * as_millimetres(circle(place)) / (2.0 * 2.995_732_f64).sqrt()).powi(2);
        }
        for part in ["yokes", "wall", "between"] {
            squares += weighed(&format!("{part} {plane}")).powi(2) / 3.0;
        }
        let doubt = found.plus_minus.map(number).unwrap();
        close(doubt, (2.0 * 2.995_732_f64).sqrt() * squares.sqrt(), 1e-4);
        match (which, found.sense) {
            // 10.6 ± 19 says no direction.
            (0, None) => {}
            (1, Some(Sense::At(at))) => close(as_degrees(at), weighed("adds rear at"), 1e-4),
            other => panic!("{other:?}"),
        }
    }
    let (got, doubt) = reached(&job);
    close(got, weighed("grade"), 1e-5);
    // Inside G 16 with its ±, but not as it bows out: by the growth below.
    let grows = Verdict::Watch(Reason::Weight(WeightReason::GrowsPastSixteen));
    assert_eq!((grade(&job).verdict, drive(&job)), (grows, Some(Drive::Gently)));
    let rear = value(&job, Name::RunOutRear).plus_minus.map(number).unwrap();
    close(doubt / got, rear / weighed("adds rear"), 1e-6);
    let step = |law| grade(&job).working.into_iter().find(|step| step.law == law).unwrap();
    close(number(step(Law::MassOfParts).put_in[0]), weighed("tube mass"), 1e-3);
}

#[test]
fn what_would_cancel_it() {
    let job = along();
    // 0.16 g is less than a kitchen scale tells.
    let front = value(&job, Name::CancelFront);
    close(number(front.amount), weighed("cancel front"), 1e-6);
    assert_eq!(front.sense, Some(Sense::Weight(WeightSense::TooLight)));
    close(number(value(&job, Name::CancelRear).amount), weighed("cancel rear"), 1e-6);
    let rear = there(&find(&job, Name::CancelRear));
    close(as_degrees(rear.clock), weighed("cancel rear at"), 1e-4);
    // An inch inside the new weld, since nobody said where.
    close(in_inches(rear.distance), 53.875 - by_hand("removed") - 1.0, 1e-6);
    close(in_inches(rear.inside_weld.unwrap()), 1.0, 1e-12);
    // Where places are named they go there.
    let mut named = along();
    named.put(Entry::RearPlane, "50");
    let there = there(&find(&named, Name::CancelRear));
    assert!(there.inside_weld.is_none());
    close(in_inches(there.distance), 50.0, 1e-9);
    // Law: put back as they are told, they leave nothing: twice the run-out asks for twice as much.
    let mut twice = read_at(&READ, 2.0);
    // A tube that True stops at is trued, not hidden behind weights; a wider limit lets it pass.
    let held = Reason::Weight(WeightReason::TrueItFirst);
    let stopped = find(&twice, Name::CancelFront);
    assert_eq!((stopped.answer, stopped.verdict), (Answer::Impossible(held), Verdict::Figure));
    twice.truing.limit = RunOutLimit::Anywhere;
    close(number(value(&twice, Name::CancelRear).amount), 2.0 * weighed("cancel rear"), 1e-6);
    // What is not seen is not cancelled.
    let straight = read_at(&READ, 0.0);
    let names: Vec<Name> = Stage::Weights.findings(&straight).iter().map(|one| one.name).collect();
    assert!(!names.contains(&Name::CancelRear) && names.contains(&Name::RunOutRear));
}

#[test]
fn one_place_is_a_guess() {
    let job = read_at(&READ[1..2], 1.0);
    for (name, plane) in [(Name::RunOutFront, "front"), (Name::RunOutRear, "rear")] {
        let found = value(&job, name);
        close(number(found.amount), weighed(&format!("bow {plane}")), 1e-4);
        // At least as wide as a kink or the yoke would be off: a half-width of what is as likely.
        let off = weighed(&format!("bow {plane} off"));
        assert!(found.plus_minus.map(number).unwrap() > (2.0 * 2.995_732_f64 / 3.0).sqrt() * off);
    }
    // By the guess and its ± it may be over G 16, and nothing is judged by it.
    assert_eq!((grade(&job).verdict, drive(&job)), (Verdict::Figure, Some(Drive::Guess)));
    let names: Vec<Name> = Stage::Weights.findings(&job).iter().map(|one| one.name).collect();
    assert!(!names.contains(&Name::CancelRear));
    // Straight there and with a slow shaft, it is inside G 16 whatever bends it.
    let mut slow = read_at(&[("28", [0.0; 8])], 1.0);
    slow.put(Entry::TopSpeed, "1500");
    assert_eq!(grade(&slow).verdict, Verdict::Good);
    // Over G 40 by all that its ± leaves open it is stopped, not before.
    let mut stopped = 0;
    for times in 1..40_u8 {
        let job = read_at(&READ[1..2], f64::from(times));
        let (got, doubt) = reached(&job);
        let over = got - doubt > 40.0;
        let stop = Verdict::Stop(Reason::Weight(WeightReason::OverForty));
        let expected = if over { (stop, Drive::Shop) } else { (Verdict::Figure, Drive::Guess) };
        assert_eq!((grade(&job).verdict, drive(&job).unwrap()), expected, "{got} ± {doubt}");
        stopped += u8::from(over);
    }
    assert!((1..39).contains(&stopped), "{stopped}");
}

#[test]
fn without_the_middle_a_bow_is_not_seen() {
    // A half sine of joint to joint, read close to either weld and then along it. By hand at its middle:
    // 1.2 times 10 lines from the dial's least to its most.
    let length = by_hand("wanted");
    let turn = |z: f64| {
        let here = 6.0 * (core::f64::consts::PI * z / length).sin();
        core::array::from_fn(|mark| here * (1.0 - (45.0 * mark as f64).to_radians().cos()))
    };
    let at = |names: &[&'static str]| {
        let all: Vec<(&str, [f64; 8])> =
            names.iter().map(|name| (*name, turn(name.parse().unwrap()))).collect();
        read_at(&all, 1.0)
    };
    let ends = at(&["6", "48"]);
    assert_eq!((grade(&ends).verdict, drive(&ends)), (Verdict::Figure, Some(Drive::Ends)));
    let names: Vec<Name> = Stage::Weights.findings(&ends).iter().map(|one| one.name).collect();
    assert!(!names.contains(&Name::CancelRear));
    // With its middle it is judged, and what five places find is inside its ±.
    let (with_middle, five) = (at(&["6", "27", "48"]), at(&["6", "16", "27", "37", "48"]));
    assert!(matches!(grade(&with_middle).verdict, Verdict::Watch(_)));
    let ((got, doubt), (true_one, _), (of_ends, ends_doubt)) =
        (reached(&with_middle), reached(&five), reached(&ends));
    // Both ends alone say less; what a smooth curve adds between them is in their ±, which is wider by it.
    assert!((got - true_one).abs() < doubt && of_ends < true_one && true_one < of_ends + ends_doubt);
    // The middle third ends at two thirds: 37 of 55.51 in by the script.
    for (place, judged) in [("36.9", true), ("37.1", false), ("18.6", true), ("18.4", false)] {
        let two = at(&["5", place]);
        assert_eq!(drive(&two) != Some(Drive::Ends), judged, "{place}");
    }
}

#[test]
fn from_drive_it_to_take_it_to_a_shop() {
    // The same shaft with larger and larger run-out. Everything but the dial's own line grows with it.
    let mut seen = Vec::new();
    let times = grows_by(3500.0);
    for tenths in 5..80_u8 {
        let mut job = read_at(&READ, f64::from(tenths) / 10.0);
        let ((got, doubt), found) = (reached(&job), grade(&job));
        let (watch, gently) = (|why| Verdict::Watch(Reason::Weight(why)), Drive::Gently);
        // By definition: G 16 and G 40 of ISO 21940-11, the ± on the safe side, bowed out as well.
        let expected = match () {
            () if (got + doubt) * times <= 16.0 => (Verdict::Good, Drive::Freely),
            () if got > 40.0 => (Verdict::Stop(Reason::Weight(WeightReason::OverForty)), Drive::Shop),
            () if got + doubt > 40.0 => (watch(WeightReason::NearForty), gently),
            () if got > 16.0 => (watch(WeightReason::OverSixteen), gently),
            () if got + doubt > 16.0 => (watch(WeightReason::NearSixteen), gently),
            () => (watch(WeightReason::GrowsPastSixteen), gently),
        };
        assert_eq!((found.verdict, drive(&job).unwrap()), expected, "{got} ± {doubt}");
        if seen.last() != Some(&found.verdict) {
            seen.push(found.verdict);
        }
        // Before welding nobody is told to drive: it is judged after it, and stopped where it is over.
        job.truing.passes[0].kind = PassKind::Tacked;
        let expected = match expected.0 {
            Verdict::Good => Verdict::Unjudged(Reason::NotWelded),
            Verdict::Watch(_) => Verdict::Unjudged(Reason::Weight(WeightReason::AfterWelding)),
            stop => stop,
        };
        assert_eq!((grade(&job).verdict, drive(&job)), (expected, None), "{got} ± {doubt}");
    }
    assert_eq!(seen.len(), 6, "{seen:?}");
}

#[test]
fn a_bow_near_the_whirl_speed() {
    let job = along();
    let times = grows_by(3500.0);
    let Some(Amount::Times(got)) = Some(value(&job, Name::BowGrows).amount) else { panic!() };
    close(got, times, 1e-6);
    let Some(Sense::Weight(WeightSense::Grows { still, grown })) = value(&job, Name::BowGrows).sense
    else {
        panic!()
    };
    close(still, weighed("grade"), 1e-5);
    close(grown, weighed("grade") * times, 1e-4);
    // From memory, ISO 21940-12: rigid up to 0.70 of the whirl speed.
    for (share, rigid) in [(0.699, true), (0.701, false), (0.74, false), (1.2, false)] {
        let mut job = along();
        job.check.whirl_share = WhirlShare::CardanMaker;
        job.put(Entry::TopSpeed, &format!("{:.0}", share * by_hand("whirl")));
        let reason = Reason::Weight(WeightReason::NotRigid { share: 0.70 });
        assert_eq!(grade(&job).verdict == Verdict::Unjudged(reason), !rigid, "{share}");
        assert_eq!(drive(&job) == Some(Drive::Shop), !rigid, "{share}");
        // Past it there is no such figure.
        let grows = Stage::Weights.findings(&job).iter().any(|one| one.name == Name::BowGrows);
        assert_eq!(grows, share < 1.0);
    }
}

#[test]
fn what_keeps_it_from_being_judged() {
    let mut tacked = along();
    tacked.truing.passes[0].kind = PassKind::Tacked;
    let reason = Reason::Weight(WeightReason::AfterWelding);
    assert_eq!((grade(&tacked).verdict, drive(&tacked)), (Verdict::Unjudged(reason), None));
    // Nor are weights named before welding, or for a shaft that bows as it turns.
    let mut fast = along();
    fast.put(Entry::TopSpeed, "4600");
    for (job, named) in [(along(), true), (tacked, false), (fast, false)] {
        let found = Stage::Weights.findings(&job);
        assert_eq!(found.iter().any(|one| one.name == Name::CancelRear), named);
    }
    // The latest pass after welding tells, whatever was read later in another state.
    let mut later = along();
    let mut pass = Pass::new(PassKind::AsFitted, Stations::Eight);
    pass.turns = later.truing.passes[0].turns.clone();
    later.truing.passes.push(pass);
    later.put(Entry::StationReading(1, 0, 4), "60");
    assert_eq!(reached(&later), reached(&along()));
    let by = |job: &Job| grade(job).value().and_then(|value| value.sense);
    assert!(matches!(
        by(&later),
        Some(Sense::Weight(WeightSense::RunOut { pass: 0, welded: true, .. }))
    ));
    // A tube that weighs more than the shaft; no tube between the welds.
    let mut light = along();
    light.put(Entry::ShaftMass, "4 kg");
    let Verdict::Figure = grade(&light).verdict else { panic!() };
    let Answer::Impossible(Reason::Weight(WeightReason::TubeHeavier { tube })) = grade(&light).answer
    else {
        panic!()
    };
    close(as_grams(tube), weighed("tube mass"), 1e-3);
    let mut none = along();
    none.put(Entry::FarWeldLine, "53");
    let reason = Reason::Weight(WeightReason::NoTubeLeft);
    assert_eq!(grade(&none).answer, Answer::Impossible(reason));
}

#[test]
fn on_other_supports_what_explains_it_tells() {
    // A kink at the new weld as two vees show it: the offset less the line through both vees. Derived by
    // hand from the kink's shape z/w and (L − z)/(L − w).
    let (length, weld) = (by_hand("wanted"), 53.875 - by_hand("removed"));
    let kink = |z: f64| if z < weld { z / weld } else { (length - z) / (length - weld) };
    let (front, rear) = (10.0, 54.0);
    let seen = |z: f64| {
        40.0 * (kink(z) - kink(front) - (kink(rear) - kink(front)) * (z - front) / (rear - front))
    };
    let turn = |z: f64| core::array::from_fn(|mark| seen(z) * (45.0 * mark as f64).to_radians().cos());
    let about =
        |z: f64| core::array::from_fn(|mark| 40.0 * kink(z) * (45.0 * mark as f64).to_radians().cos());
    let places = [5.0, 20.0, 30.0, 44.0, 52.0];
    let names = ["5", "20", "30", "44", "52"];
    let at = |turn: &dyn Fn(f64) -> [f64; 8]| {
        let all: Vec<(&str, [f64; 8])> =
            names.into_iter().zip(places).map(|(name, z)| (name, turn(z))).collect();
        read_at(&all, 1.0)
    };
    let joints = at(&about);
    let mut vees = at(&turn);
    vees.truing.set_up = SetUp::Vees;
    vees.put(Entry::FrontVee, "10");
    vees.put(Entry::RearVee, "54");
    for name in [Name::RunOutFront, Name::RunOutRear] {
        let (one, other) = (value(&vees, name), value(&joints, name));
        // Readings to half a line; from place to place the corner at the weld, 0.05 in on, is cut.
        let (one, other) = (number(one.amount), number(other.amount));
        assert!((one - other).abs() < 0.03 * other, "{name:?}: {one} and {other}");
    }
    assert!(!matches!(grade(&vees).verdict, Verdict::Good));
    // Two places explain nothing there.
    let mut few = read_at(&READ[..2], 1.0);
    few.truing.set_up = SetUp::Centres;
    let reason = Reason::Weight(WeightReason::OtherAxis);
    assert_eq!((grade(&few).answer, grade(&few).verdict), (Answer::Impossible(reason), Verdict::Figure));
}

#[test]
fn each_field_is_asked_for_by_what_needs_it() {
    for entry in [
        Entry::PlaceAlong(1),
        Entry::ShaftMass,
        Entry::TubeDiameter,
        Entry::TubeWall,
        Entry::FarWeldLine,
        Entry::WeldLine,
        Entry::TopSpeed,
    ] {
        let mut job = along();
        job.put(entry, "");
        let asked = needs(&job, Name::RunOutGrade);
        assert!(asked.iter().all(|need| need.entry == entry), "{entry:?}: {asked:?}");
        assert_eq!(grade(&job).verdict, Verdict::Figure, "{entry:?}");
        let known = |name| find(&job, name).value().is_some();
        let planes = Stage::Weights.findings(&job).iter().any(|one| one.name == Name::RunOutRear);
        assert_eq!(planes && known(Name::RunOutRear), entry == Entry::TopSpeed, "{entry:?}");
    }
    // Two at one place, a place beyond the joint, marks unread.
    let mut same = along();
    same.put(Entry::PlaceAlong(1), "49");
    assert!(matches!(grade(&same).answer, Answer::Impossible(Reason::SamePlaceAlong { .. })));
    let mut beyond = along();
    beyond.put(Entry::PlaceAlong(0), "56");
    assert!(matches!(grade(&beyond).answer, Answer::Impossible(Reason::PlaceOffTheShaft { .. })));
    let mut unread = along();
    unread.put(Entry::StationReading(0, 1, 3), "");
    assert!(matches!(grade(&unread).answer, Answer::Impossible(Reason::PartRead)));
    let mut none = along();
    none.truing.passes.clear();
    none.truing.begin(PassKind::Welded, Stations::Eight);
    assert_eq!(needs(&none, Name::RunOutGrade)[0].entry, Entry::StationReading(0, 0, 0));
    // The planes are those of the stage itself: what is known of the line is not lost by that.
    assert!(truing::centreline(&along(), 0).is_ok());
    assert!(
        as_gram_millimetres(shaftwright::stage::weights::leaves(&along()).unwrap().front.size()) > 0.0
    );
}
