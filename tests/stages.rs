//! Whole stages on one real-sized shaft: fill in a job, read what is found.
//!
//! Expected numbers are worked out by tests/handbook/shaft.py, which takes other routes than the
//! program, and are read from its kept output; limits' sources stand in tests/handbook/limits.json.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaft::{agrees, by_hand, find, number, readings, repeats, shaft, value, with};
use shaftwright::job::{End, Entry, Job, Pass, PassKind, Stations};
use shaftwright::quantity::{as_degrees, in_inches};
use shaftwright::stage::{Name, Reason, Sense, Stage, Standing, Verdict, truing, weights, whole};
use weights_back::place;

#[path = "stages/angles.rs"]
mod angles;
#[path = "stages/at_weld.rs"]
mod at_weld;
#[path = "stages/balance.rs"]
mod balance;
#[path = "stages/balance_runs.rs"]
mod balance_runs;
#[path = "stages/bent.rs"]
mod bent;
#[path = "stages/check.rs"]
mod check;
#[path = "stages/check_speeds.rs"]
mod check_speeds;
#[path = "stages/check_strength.rs"]
mod check_strength;
#[path = "stages/check_tubes.rs"]
mod check_tubes;
#[path = "stages/cut.rs"]
mod cut;
#[path = "stages/truing.rs"]
mod dial;
#[path = "stages/face.rs"]
mod face;
#[path = "stages/joints.rs"]
mod joints;
#[path = "stages/kept.rs"]
mod kept;
#[path = "stages/marks.rs"]
mod marks;
#[path = "stages/measure.rs"]
mod measure;
#[path = "stages/phase.rs"]
mod phase;
#[path = "stages/resets.rs"]
mod resets;
#[path = "stages/run_out.rs"]
mod run_out;
#[path = "stages/shaft.rs"]
mod shaft;
#[path = "stages/slip.rs"]
mod slip;
#[path = "stages/weights.rs"]
mod weights_back;

/// Exact sums: only the script's nine printed decimals and a double's last bits lie between.
const EXACT: f64 = 2e-6;

/// The shaft made longer by 2-1/4 in.
fn longer() -> Job {
    let mut job = shaft();
    repeats(&mut job, Entry::WantedReading, &["59-9/16", "59-17/32", "59-9/16"]);
    job
}

#[test]
fn a_lengthened_shaft_is_never_good() {
    let standing = whole(&longer());
    assert!(standing.lengthened && standing.shaft != Standing::Good);
    // Slow enough that nothing but the lengthening stands against it: still not good.
    let mut slow = longer();
    slow.put(Entry::TopSpeed, "2500");
    assert_eq!(whole(&slow).shaft, Standing::Watch);
    assert_eq!(find(&slow, Name::SpeedShare).verdict, Verdict::Watch(Reason::Lengthened));
}

#[test]
fn check() {
    let job = shaft();
    let whirl = value(&job, Name::WhirlSpeed);
    // The doubt's sensitivities are first order by hand, a finite swing in the program.
    agrees(whirl, by_hand("whirl"), None, EXACT);
    agrees(whirl, by_hand("whirl"), Some(by_hand("whirl doubt")), 1e-4);
    agrees(value(&job, Name::SpeedShare), by_hand("share"), Some(by_hand("share doubt")), 1e-4);
    let before = find(&job, Name::WhirlSpeed).working[1].gives;
    assert!((number(before) - by_hand("whirl before")).abs() < 0.01);
    // 0.70 of it: on either side of the limit and of the ±.
    let whirl = by_hand("whirl");
    for (share, expected) in [(0.68, "good"), (0.695, "watch"), (0.705, "stop")] {
        let job = with(Entry::TopSpeed, &format!("{:.0}", share * whirl));
        let got = match find(&job, Name::SpeedShare).verdict {
            Verdict::Good => "good",
            Verdict::Watch(Reason::NearWhirlShare { .. }) => "watch",
            Verdict::Stop(Reason::OverWhirlShare { .. }) => "stop",
            other => panic!("{other:?}"),
        };
        assert_eq!(got, expected, "{share}");
    }
}

#[test]
fn the_first_answer_of_a_stage_found_alone_is_the_one_among_the_rest() {
    let mut wrong = with(Entry::Kerf, "about so");
    wrong.put(Entry::OldReading(1), "57-5/61");
    for job in [shaft(), longer(), Job::default(), with(Entry::WeldLine, "54-7/8"), wrong] {
        for stage in Stage::ALL {
            assert_eq!(stage.first(&job), stage.findings(&job).into_iter().next(), "{stage:?}");
        }
    }
}

#[test]
fn no_overall_good_before_check_is_done() {
    assert_eq!(whole(&shaft()).shaft, Standing::Good);
    for entry in [Entry::TopSpeed, Entry::TubeDiameter, Entry::TubeWall] {
        assert_eq!(whole(&with(entry, "")).shaft, Standing::NotYet, "{entry:?}");
        assert_eq!(whole(&with(entry, "about so")).shaft, Standing::NotYet, "{entry:?}");
    }
    assert_eq!(whole(&Job::default()).shaft, Standing::NotYet);
    // What must be mended is said even while something is missing.
    let mut stop = with(Entry::TopSpeed, "");
    stop.put(Entry::RearLevel(2, 0), "9");
    assert_eq!(whole(&stop).shaft, Standing::Stop);
}

/// Adds a turn of the dial.
fn add_turn(job: &mut Job, kind: PassKind, stations: Stations, texts: &[&str], closing: &str) -> usize {
    job.truing.passes.push(Pass::new(kind, stations));
    readings(job, job.truing.passes.len() - 1, texts, closing);
    job.truing.passes.len() - 1
}

const TURN: [&str; 8] = ["0", "5", "11", "15", "14", "9", "3", "-1"];

#[test]
fn true_with_eight_stations() {
    let mut job = shaft();
    job.truing.passes.clear();
    let pass = add_turn(&mut job, PassKind::AsFitted, Stations::Eight, &TURN, "0");
    let found = truing::findings(&job, pass, 0);
    let of = |name: Name| found.iter().find(|f| f.name == name).unwrap().value().unwrap();
    let thou = 0.001;
    agrees(of(Name::TotalReading), 16.0 * thou, None, EXACT);
    let (offset, doubt) = (by_hand("offset") * thou, by_hand("offset doubt") * thou);
    agrees(of(Name::OffsetReading), 2.0 * offset, Some(2.0 * doubt), EXACT);
    agrees(of(Name::Correction), offset, Some(doubt), EXACT);
    // The high spot is where the dial reads most; the tube is moved away from it.
    let Some(Sense::Tap { at, by, answered: None, may_stay: false }) = of(Name::Correction).sense else {
        panic!()
    };
    assert!((as_degrees(at) - by_hand("offset at")).abs() < 1e-5);
    assert!((in_inches(by) - offset).abs() < 1e-9);
    agrees(of(Name::Leftover), by_hand("leftover") * thou, None, EXACT);
    assert!(number(of(Name::Ovality).amount).abs() < 1e-9);
    // 16 thousandths of order 1 over the 10 of a careful hand.
    assert!(matches!(find(&job, Name::OffsetReading).verdict, Verdict::Stop(_)));
}

#[test]
fn a_drift_of_one_line_is_spread_and_of_more_is_not_believed() {
    let mut job = shaft();
    job.truing.passes.clear();
    let pass = add_turn(&mut job, PassKind::AsFitted, Stations::Eight, &TURN, "1");
    let turn = truing::turn(&job, pass, 0).unwrap();
    assert!(!turn.drifted);
    let offset = turn.run_out.offset;
    assert!((in_inches(offset.size()) * 1000.0 - by_hand("drift offset")).abs() < 1e-6);
    assert!((as_degrees(offset.at()) - by_hand("drift offset at")).abs() < 1e-5);
    let mut job = shaft();
    job.put(Entry::Closing(0, 0), "2");
    for name in [Name::TotalReading, Name::OffsetReading, Name::Correction] {
        assert!(
            matches!(find(&job, name).verdict, Verdict::Stop(Reason::DialDrifted { .. })),
            "{name:?}"
        );
    }
    // Something moved: no direction is given, and the shaft stops until the turn is read again.
    assert_eq!(value(&job, Name::Correction).sense, None);
    assert_eq!(whole(&job).shaft, Standing::Stop);
}

#[test]
fn the_weld_pulled() {
    let mut job = shaft();
    let tacked = ["0", "1", "3", "4", "4", "3", "1", "0"];
    job.truing.passes.insert(0, Pass::new(PassKind::Tacked, Stations::Eight));
    readings(&mut job, 0, &tacked, "0");
    let welded = truing::findings(&job, 1, 0);
    let pull = welded.iter().find(|finding| finding.name == Name::WeldPull).unwrap().value().unwrap();
    agrees(pull, by_hand("pull") * 0.001, None, EXACT);
    let Some(Sense::At(at)) = pull.sense else { panic!("{pull:?}") };
    assert!((as_degrees(at) - by_hand("pull at")).abs() < 1e-5);
    // A weld that was cut off and tacked again is judged by its new turn, which no weld has pulled yet.
    add_turn(&mut job, PassKind::Tacked, Stations::Eight, &tacked, "0");
    assert_eq!(truing::latest(&job), 2);
    assert!(truing::findings(&job, 2, 0).iter().all(|finding| finding.name != Name::WeldPull));
}

#[test]
fn weights_at_both_ends_stay_with_their_own_yokes() {
    let job = shaft();
    let places = [(0, 60.0, 5.25), (1, 228.0, by_hand("second distance"))];
    for (row, clock, distance) in places {
        let finding = find(&job, Name::PutBack(row));
        assert_eq!(finding.verdict, Verdict::Good);
        let (at, from) = place(&finding);
        assert!((as_degrees(at) - clock).abs() < 1e-9 && (in_inches(from) - distance).abs() < 1e-6);
    }
    let planes = |job: &Job| [value(job, Name::LeftFront), value(job, Name::LeftRear)];
    let [front, rear] = planes(&job);
    agrees(front, by_hand("left far"), None, EXACT);
    agrees(rear, by_hand("left cut"), None, EXACT);
    let limit = find(&job, Name::LeftRear).limit.unwrap();
    assert!((number(limit.amount) - by_hand("permitted half")).abs() < 1e-5);
}

#[test]
fn cut_at_the_front_the_same_shaft_is_mirrored() {
    // Every distance now counts from the rear joint: the same numbers, the planes changed over. What
    // is left is a couple, so only its direction tells the planes apart.
    for end in [End::Rear, End::Front] {
        let mut job = with(Entry::WeightMass(1), "300");
        job.cut.end = end;
        let (far, cut) = match end {
            End::Rear => (Name::LeftFront, Name::LeftRear),
            End::Front => (Name::LeftRear, Name::LeftFront),
        };
        for (name, key) in [(far, "heavy far"), (cut, "heavy cut")] {
            let left = value(&job, name);
            agrees(left, by_hand(key), None, EXACT);
            let both = weights::leaves(&job).unwrap();
            let at = if name == Name::LeftFront { both.front.at() } else { both.rear.at() };
            assert!((as_degrees(at) - by_hand(&format!("{key} at"))).abs() < 1e-5, "{end:?} {key}");
        }
        // The first weight belongs to the yoke that is not cut off, the second to the one that is.
        let (logged, needs) = weights::all_logged(&job);
        let own: Vec<End> = logged.iter().map(|weight| weight.own).collect();
        let other = if end == End::Rear { End::Front } else { End::Rear };
        assert!(needs.is_empty() && own == [other, end]);
        agrees(value(&job, Name::TubeRemoved), by_hand("removed"), None, EXACT);
        agrees(value(&job, Name::FaceError), by_hand("face"), None, EXACT);
        for row in 0..2 {
            let sense = |job: &Job| value(job, Name::PutBack(row)).sense;
            assert_eq!(sense(&job), sense(&shaft()));
        }
    }
}
