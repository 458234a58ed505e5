//! Laws of the yokes: what a turn does not care for, and that every way to measure it finds the same.

use shaftwright::job::{Choice, End, Entry, Job, LevelDivision, PhaseMethod, PhaseTarget, Side};
use shaftwright::quantity::as_degrees;
use shaftwright::stage::phase::{off, turn};
use shaftwright::stage::{Name, Sense};

use super::shaft::{number, shaft, value};
use super::{DIVISIONS, Luck};

const TACKED: usize = 1;

/// Two yokes as they are: how far the front one leans, how far the rear one is turned against it, both
/// in degrees clockwise seen from the rear.
#[derive(Clone, Copy)]
struct Made {
    lean: f64,
    turn: f64,
}

/// The shaft with these yokes, measured in this way at a sitting: by the conventions of each way.
fn measured(job: &mut Job, made: Made, method: PhaseMethod, sitting: usize) {
    let (span, front_span, tube) = (3.5, 3.25, 3.0);
    job.phase.method = method;
    for (entry, inches) in
        [(Entry::Span, span), (Entry::FrontSpan, front_span), (Entry::TubeDiameter, tube)]
    {
        job.put(entry, &inches.to_string());
    }
    let mut put = |entry, number: f64| job.put(entry, &format!("{number:.9}"));
    let lift = |lean: f64, span: f64| span * lean.to_radians().sin().abs();
    // The yoke that turns clockwise lifts its left-hand ear.
    let higher = |lean: f64| if lean > 0.0 { Side::Left } else { Side::Right };
    let rear = made.lean + made.turn;
    match method {
        PhaseMethod::Levels => {
            put(Entry::FrontLevel(sitting, 0), made.lean);
            put(Entry::RearLevel(sitting, 0), rear);
        }
        // Its front yoke lies flat.
        PhaseMethod::Bench => {
            put(Entry::Lift(sitting, 0), lift(made.turn, span));
            job.phase.sittings[sitting].lifted = higher(made.turn);
        }
        PhaseMethod::BothLifts => {
            put(Entry::FrontLift(sitting, 0), lift(made.lean, front_span));
            put(Entry::Lift(sitting, 0), lift(rear, span));
            job.phase.sittings[sitting].front_lifted = higher(made.lean);
            job.phase.sittings[sitting].lifted = higher(rear);
        }
        PhaseMethod::Lines => put(Entry::LineArc(sitting, 0), tube / 2.0 * made.turn.to_radians()),
    }
}

/// The shaft tacked and not yet welded, nothing read of its yokes.
fn unread() -> Job {
    let mut job = shaft();
    for (sitting, list) in
        [1, 2].iter().flat_map(|s| [Entry::FrontLevel, Entry::RearLevel].map(|l| (*s, l)))
    {
        job.put(list(sitting, 0), "");
    }
    job
}

#[test]
fn every_way_finds_the_turn_that_was_made() {
    let mut luck = Luck(31);
    for _ in 0..200 {
        // Gaps of an inch at the most can be typed; none too small to have a side.
        let made = Made { lean: luck.between(0.5, 8.0), turn: luck.between(-14.0, 8.0) };
        let wanted = luck.between(-90.0, 90.0);
        for end in End::ALL {
            let mut told = Vec::new();
            for method in PhaseMethod::ALL {
                let mut job = unread();
                (job.cut.end, job.phase.target) = (*end, PhaseTarget::Own);
                job.put(Entry::OwnTarget, &format!("{wanted:.6}"));
                measured(&mut job, made, *method, TACKED);
                let got = as_degrees(turn(&job, TACKED).unwrap().best);
                assert!((got - made.turn).abs() < 1e-5, "{method:?}: {got} of {}", made.turn);
                told.push(as_degrees(off(&job, TACKED).unwrap().best));
                let error = number(value(&job, Name::PhaseError).amount);
                assert!((error - told[0].abs()).abs() < 1e-5 && error <= 90.0, "{method:?}");
            }
            assert!(told.iter().all(|off| (off - told[0]).abs() < 1e-5));
        }
    }
}

#[test]
fn the_end_that_is_cut_decides_which_way_its_yoke_goes() {
    let mut luck = Luck(32);
    for _ in 0..200 {
        let method = luck.choice::<PhaseMethod>();
        let sign = if luck.between(0.0, 1.0) < 0.5 { -1.0 } else { 1.0 };
        let made = Made { lean: 0.7, turn: sign * luck.between(4.0, 8.0) };
        let way = |end: End, made: Made| {
            let mut job = unread();
            job.cut.end = end;
            measured(&mut job, made, method, TACKED);
            [Name::PhaseError, Name::PhaseArc].map(|name| value(&job, name).sense.unwrap())
        };
        let [rear, front] = [End::Rear, End::Front].map(|end| way(end, made));
        // A rear yoke that stands clockwise goes back counter-clockwise; a front one follows it.
        let (back, follow) = match made.turn > 0.0 {
            true => (Sense::TurnCounterclockwise, Sense::TurnClockwise),
            false => (Sense::TurnClockwise, Sense::TurnCounterclockwise),
        };
        assert_eq!((rear, front), ([back; 2], [follow; 2]), "{method:?} {}", made.turn);
    }
}

#[test]
fn where_the_tube_lies_and_which_ear_is_read_change_nothing() {
    let mut luck = Luck(33);
    for _ in 0..300 {
        let (turned, scatter) = (luck.between(-80.0, 80.0), luck.between(0.0, 0.3));
        // Three readings of each, wherever the tube lies, each taken on this ear or the other.
        let found = |luck: &mut Luck, start: f64, mixed: bool| {
            let mut job = unread();
            for (list, about) in
                [(Entry::FrontLevel as fn(usize, usize) -> Entry, 0.0), (Entry::RearLevel, turned)]
            {
                for (i, off) in [0.0, scatter, -scatter].into_iter().enumerate() {
                    let half = if mixed && luck.between(0.0, 1.0) < 0.5 { 180.0 } else { 0.0 };
                    let angle = (start + about + off + half + 180.0).rem_euclid(360.0) - 180.0;
                    job.put(list(TACKED, i), &format!("{angle:.9}"));
                }
            }
            let got = turn(&job, TACKED).unwrap();
            (as_degrees(got.best), as_degrees(got.spread.standard))
        };
        let (best, u) = found(&mut luck, 0.0, false);
        assert!((best - turned).abs() < 1e-6);
        for mixed in [false, true] {
            let start = luck.between(-180.0, 180.0);
            let (other, other_u) = found(&mut luck, start, mixed);
            assert!((other - best).abs() < 1e-6 && (other_u - u).abs() < 1e-6, "{start} {mixed}");
        }
    }
}

#[test]
fn a_coarser_instrument_never_looks_better() {
    let mut luck = Luck(34);
    for _ in 0..40 {
        let made = Made { lean: luck.between(0.5, 8.0), turn: luck.between(-8.0, 8.0) };
        let mut job = unread();
        measured(&mut job, made, PhaseMethod::Levels, TACKED);
        job.put(Entry::RearLevel(TACKED, 1), &format!("{:.4}", made.lean + made.turn + 0.1));
        let mut last = 0.0;
        for division in [
            LevelDivision::Twentieth,
            LevelDivision::Tenth,
            LevelDivision::Fifth,
            LevelDivision::Quarter,
            LevelDivision::Whole,
        ] {
            job.phase.level_division = division;
            let u = as_degrees(turn(&job, TACKED).unwrap().spread.standard);
            assert!(u > last, "{division:?}");
            last = u;
        }
        measured(&mut job, made, PhaseMethod::Lines, TACKED);
        last = 0.0;
        for division in DIVISIONS {
            job.measure.division = division;
            let u = as_degrees(turn(&job, TACKED).unwrap().spread.standard);
            assert!(u > last, "{division:?}");
            last = u;
        }
    }
}

#[test]
fn as_it_was_nothing_is_out_however_it_was_measured() {
    let mut luck = Luck(35);
    for _ in 0..200 {
        let method = luck.choice::<PhaseMethod>();
        let made = Made { lean: luck.between(0.5, 8.0), turn: luck.between(-14.0, 8.0) };
        let mut job = unread();
        job.phase.target = PhaseTarget::AsItWas;
        measured(&mut job, made, method, 0);
        measured(&mut job, made, method, TACKED);
        let error = value(&job, Name::PhaseError);
        assert!(number(error.amount) < 1e-9 && error.sense == Some(Sense::LeaveAlone), "{method:?}");
        assert!((number(value(&job, Name::PhaseTarget).amount) - made.turn).abs() < 1e-5);
    }
}
