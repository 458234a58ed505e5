//! The dial on the invented shaft, at one place: taps that learn, what the joint opens, welds, heat, marks.

use shaftwright::job::{
    End, Entry, Job, PassKind, Plunger, RunOutLimit, SetUp, Stations, TubeMaterial, TurnedHow,
};
use shaftwright::quantity::{as_degrees, in_inches};
use shaftwright::stage::{Finding, Name, Reason, Sense, Source, TackSide, Value, Verdict, truing};

use super::shaft::{agrees, by_hand, number, readings, shaft};
use super::{EXACT, TURN};

pub const THOU: f64 = 0.001;

/// The shaft with no turn taken yet.
pub fn untaken() -> Job {
    let mut job = shaft();
    job.truing.passes.clear();
    job
}

/// Another pass; its number.
pub fn begin(job: &mut Job, kind: PassKind, stations: Stations) -> usize {
    assert!(job.truing.begin(kind, stations));
    job.truing.passes.len() - 1
}

/// Types what a dial set to 20 reads of a tube that stands off by so many thousandths toward a place, at
/// even marks: by construction, a pure offset.
pub fn pure(job: &mut Job, pass: usize, place: usize, size: f64, at: f64) {
    let count = job.truing.passes[pass].stations.evenly().unwrap();
    for mark in 0..count {
        let mark_at = 360.0 * mark as f64 / count as f64;
        let reading = 20.0 + size * (mark_at - at).to_radians().cos();
        job.put(Entry::StationReading(pass, place, mark), &format!("{reading:.7}"));
    }
}

/// The shaft with passes at eight marks, each a pure offset.
fn passes(kind: PassKind, offsets: &[(f64, f64)]) -> Job {
    let mut job = untaken();
    for (size, at) in offsets {
        let pass = begin(&mut job, kind, Stations::Eight);
        pure(&mut job, pass, 0, *size, *at);
    }
    job
}

/// The shaft with one turn of these readings, as fitted.
fn as_fitted(stations: Stations, texts: &[&str]) -> Job {
    let mut job = untaken();
    let pass = begin(&mut job, PassKind::AsFitted, stations);
    readings(&mut job, pass, texts, "");
    job
}

/// What the last pass says at its first place.
pub fn findings(job: &Job) -> Vec<Finding> {
    truing::findings(job, job.truing.passes.len() - 1, 0)
}

pub fn finding(job: &Job, name: Name) -> Finding {
    let all = findings(job);
    all.into_iter().find(|finding| finding.name == name).unwrap_or_else(|| panic!("no {name:?}"))
}

/// The same job with a limit that nothing here comes to: what is far out is not tacked.
pub fn roomy(job: &Job) -> Job {
    let mut job = job.clone();
    job.truing.limit = RunOutLimit::Own;
    job.put(Entry::OwnLimit, "0.078");
    job
}

pub fn value(job: &Job, name: Name) -> Value {
    let found = finding(job, name);
    found.value().unwrap_or_else(|| panic!("{found:?}"))
}

pub fn says_nothing_of(job: &Job, name: Name) {
    assert!(findings(job).iter().all(|finding| finding.name != name), "{name:?}");
}

pub fn place(got: shaftwright::quantity::Angle, degrees: f64) {
    let off = (as_degrees(got) - degrees + 180.0).rem_euclid(360.0) - 180.0;
    assert!(off.abs() < 1e-4, "{} against {degrees}", as_degrees(got));
}

/// Where to tap, and how far, in thousandths.
pub fn tap(job: &Job) -> (f64, f64) {
    match value(job, Name::Correction).sense {
        Some(Sense::Tap { at, by, .. }) => (as_degrees(at), in_inches(by) / THOU),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_dial_that_counts_the_other_way_says_the_same() {
    let job = as_fitted(Stations::Eight, &TURN);
    let mut other = job.clone();
    other.truing.plunger = Plunger::InIsMinus;
    readings(&mut other, 0, &["0", "-5", "-11", "-15", "-14", "-9", "-3", "1"], "");
    place(shaftwright::quantity::degrees(tap(&job).0), by_hand("offset at"));
    assert_eq!(tap(&job), tap(&other));
    for name in [Name::Correction, Name::OffsetReading, Name::TotalReading, Name::Leftover] {
        assert_eq!(value(&job, name), value(&other, name), "{name:?}");
    }
    // Its readings as they stand, taken for those of a usual dial, name the side opposite.
    other.truing.plunger = Plunger::InIsPlus;
    place(shaftwright::quantity::degrees(tap(&other).0), by_hand("offset at") + 180.0);
}

#[test]
fn the_shaft_turned_under_a_fixed_dial() {
    // By construction: turned counter-clockwise, the marks clockwise of the witness mark come under the
    // dial one after the other; turned clockwise, the last of them comes first.
    let job = as_fitted(Stations::Eight, &TURN);
    let mut counter = job.clone();
    counter.truing.turned = TurnedHow::Counterclockwise;
    let mut clockwise = job.clone();
    clockwise.truing.turned = TurnedHow::Clockwise;
    let mut back = TURN;
    back[1..].reverse();
    readings(&mut clockwise, 0, &back, "");
    assert_eq!(findings(&job), findings(&counter));
    let (one, other) = (tap(&job), tap(&clockwise));
    assert!((one.0 - other.0).abs() < 1e-9 && (one.1 - other.1).abs() < 1e-9, "{one:?} {other:?}");
    // The same list read the wrong way round is the mirror image: 3 o'clock for 9.
    clockwise.truing.turned = TurnedHow::ByMarks;
    place(shaftwright::quantity::degrees(tap(&clockwise).0), 360.0 - by_hand("offset at"));
    // The mark that is second under the dial is called by its own place.
    clockwise.truing.turned = TurnedHow::Clockwise;
    place(truing::station_at(&clockwise, 0, 0, 1).unwrap(), 315.0);
}

#[test]
fn the_highest_and_the_lowest_alone() {
    let mut job = untaken();
    begin(&mut job, PassKind::AsFitted, Stations::HighLow);
    for (station, at, reading) in [(0, "3:30", "9"), (1, "10:00", "-2")] {
        job.put(Entry::StationAt(0, 0, station), at);
        job.put(Entry::StationReading(0, 0, station), reading);
    }
    let (offset, doubt) = (by_hand("quick offset") * THOU, by_hand("quick doubt") * THOU);
    agrees(value(&job, Name::Correction), offset, Some(doubt), EXACT);
    agrees(value(&job, Name::OffsetReading), 2.0 * offset, Some(2.0 * doubt), EXACT);
    place(shaftwright::quantity::degrees(tap(&job).0), by_hand("quick offset at"));
    says_nothing_of(&job, Name::Ovality);
    says_nothing_of(&job, Name::Leftover);
    job.put(Entry::Backlash, "1.5");
    let doubt = by_hand("quick backlash doubt") * THOU;
    agrees(value(&job, Name::Correction), offset, Some(doubt), EXACT);
    // However small, two readings never prove it good: rule of this house.
    job.put(Entry::StationReading(0, 0, 0), "-1");
    job.put(Entry::Backlash, "");
    let found = finding(&job, Name::OffsetReading);
    assert_eq!(found.verdict, Verdict::Watch(Reason::FewStations { better: 8 }));
    assert_eq!(value(&job, Name::Correction).sense, Some(Sense::LeaveAlone));
}

#[test]
fn lost_motion_stands_in_the_doubt() {
    let mut job = as_fitted(Stations::Four, &["20", "28", "20", "12"]);
    agrees(value(&job, Name::Correction), 8.0 * THOU, Some(by_hand("four marks doubt") * THOU), EXACT);
    job.put(Entry::Backlash, "1.5");
    let doubt = by_hand("four marks backlash doubt") * THOU;
    agrees(value(&job, Name::Correction), 8.0 * THOU, Some(doubt), EXACT);
}

#[test]
fn how_far_the_joint_opens() {
    // Squares of 0.004 rad lie between the pieces as laid and the small-angle rule.
    const SMALL: f64 = 1e-5;
    for end in [End::Rear, End::Front] {
        for at in ["33", "46", "54"] {
            let mut job = as_fitted(Stations::Eight, &TURN);
            // Every distance now counts from the rear joint: the same numbers.
            job.cut.end = end;
            says_nothing_of(&job, Name::JointOpens);
            job.put(Entry::PlaceAlong(0), at);
            let opens = value(&job, Name::JointOpens);
            agrees(opens, by_hand(&format!("opens at {at}")), None, SMALL);
            // The low side gapes: what is longer there pushes the tube away from the high one.
            let Some(Sense::OpenAt(low)) = opens.sense else { panic!("{opens:?}") };
            place(low, by_hand("offset at") + 180.0);
        }
    }
    let mut job = as_fitted(Stations::Eight, &TURN);
    job.put(Entry::PlaceAlong(0), "56-1/2");
    let off = finding(&job, Name::JointOpens);
    assert_eq!(off, Finding { verdict: Verdict::Figure, ..off.clone() });
    assert_eq!(off.answer, shaftwright::stage::Answer::Impossible(Reason::OffTheShaft));
    job.put(Entry::PlaceAlong(0), "33");
    job.truing.set_up = SetUp::Vees;
    says_nothing_of(&job, Name::JointOpens);
    let mut welded = passes(PassKind::Welded, &[(8.0, 30.0)]);
    welded.put(Entry::PlaceAlong(0), "33");
    says_nothing_of(&welded, Name::JointOpens);
    let mut none = passes(PassKind::AsFitted, &[(0.1, 30.0)]);
    none.put(Entry::PlaceAlong(0), "33");
    says_nothing_of(&none, Name::JointOpens);
}

/// The first turn, and what a tube that answers aside reads after the tap it asks for.
fn learned() -> Job {
    let mut job = as_fitted(Stations::Eight, &TURN);
    let pass = begin(&mut job, PassKind::AsFitted, Stations::Eight);
    for mark in 0..8 {
        let reading = by_hand(&format!("second pass mark {mark}"));
        job.put(Entry::StationReading(pass, 0, mark), &format!("{reading:.0}"));
    }
    job
}

#[test]
fn the_second_tap_learns_from_the_first() {
    let job = learned();
    let moved = value(&job, Name::LastMove);
    agrees(moved, by_hand("moved") * THOU, None, EXACT);
    let Some(Sense::Moved { toward, answered: Some(answered), elsewhere: false }) = moved.sense else {
        panic!("{moved:?}")
    };
    place(toward, by_hand("moved toward"));
    assert!((answered.share - by_hand("answered share")).abs() < 1e-7);
    place(answered.turned, by_hand("answered aside"));
    let (at, by) = tap(&job);
    place(shaftwright::quantity::degrees(at), by_hand("second tap at"));
    assert!((by - by_hand("second tap")).abs() < 2e-5, "{by}");
    agrees(value(&job, Name::Correction), by_hand("second offset") * THOU, None, EXACT);
    // The joint is judged by where it stands, not by where the tap is aimed.
    let mut placed = job.clone();
    placed.put(Entry::PlaceAlong(0), "33");
    let Some(Sense::OpenAt(low)) = value(&placed, Name::JointOpens).sense else { panic!() };
    place(low, by_hand("second offset at") + 180.0);
    // Tacked since then it is another joint: nothing learned holds.
    let mut tacked = job.clone();
    tacked.truing.passes[1].kind = PassKind::Tacked;
    says_nothing_of(&tacked, Name::LastMove);
    place(shaftwright::quantity::degrees(tap(&tacked).0), by_hand("second offset at"));
}

#[test]
fn a_tube_that_answers_aside_comes_inside_all_the_same() {
    // By construction: whatever is asked, the tube goes six tenths of it, 20° to one side; read to whole
    // lines each time.
    for side in [20.0, -20.0] {
        let mut job = as_fitted(Stations::Eight, &TURN);
        let (mut size, mut at) = (by_hand("offset"), by_hand("offset at"));
        let mut asked = Vec::new();
        while let Some(Sense::Tap { .. }) = value(&job, Name::Correction).sense {
            let (tap_at, by) = tap(&job);
            asked.push(by);
            let way = (tap_at + 180.0 + side).to_radians();
            let up = size * at.to_radians().cos() + 0.6 * by * way.cos();
            let right = size * at.to_radians().sin() + 0.6 * by * way.sin();
            (size, at) = (up.hypot(right), right.atan2(up).to_degrees());
            let pass = begin(&mut job, PassKind::AsFitted, Stations::Eight);
            for mark in 0..8 {
                let reading = size * (45.0 * f64::from(mark) - at).to_radians().cos();
                job.put(Entry::StationReading(pass, 0, mark as usize), &format!("{reading:.0}"));
            }
            assert!(asked.len() < 5, "{side}: {asked:?}");
        }
        // Straight across every time, six tenths and 20° leave 0.48 each time, after three taps 0.9.
        assert!(asked.len() <= 3 && size < 0.6, "{side}: {asked:?}, {size}");
        assert_eq!(value(&job, Name::Correction).sense, Some(Sense::LeaveAlone));
        // Over the limit of 0.010 at first, inside it now; and the weld is still to come.
        let first = truing::findings(&job, 0, 0);
        assert!(matches!(first[0].verdict, Verdict::Stop(Reason::OffsetOverLimit { .. })));
        assert_eq!(finding(&job, Name::Correction).verdict, Verdict::Good);
        assert_eq!(finding(&job, Name::TotalReading).verdict, Verdict::Unjudged(Reason::NotWelded));
    }
}

#[test]
fn in_which_order_to_tack() {
    for (kind, name) in [(PassKind::AsFitted, Name::TackFrom), (PassKind::Tacked, Name::WeldFrom)] {
        let mut job = as_fitted(Stations::Eight, &TURN);
        job.truing.passes[0].kind = kind;
        // Over its limit it is trued first.
        says_nothing_of(&job, name);
        let mut job = roomy(&job);
        // A bead draws its own side shorter, and the tube away from it: the high side first.
        let Some(Sense::InThisOrder { from, side: TackSide::High }) = value(&job, name).sense else {
            panic!()
        };
        place(from, by_hand("offset at"));
        let small = passes(kind, &[(0.1, 200.0)]);
        assert!(matches!(
            value(&small, name).sense,
            Some(Sense::InThisOrder { side: TackSide::Any, .. })
        ));
        // Something moved, or three marks: not said.
        job.put(Entry::Closing(0, 0), "3");
        says_nothing_of(&job, name);
    }
    let welded = passes(PassKind::Welded, &[(8.0, 200.0)]);
    says_nothing_of(&welded, Name::TackFrom);
    says_nothing_of(&welded, Name::WeldFrom);
}

#[test]
fn the_pull_of_a_weld_that_was_not_read_well() {
    let pulled = |closing: &str| {
        let mut job = untaken();
        begin(&mut job, PassKind::Tacked, Stations::Eight);
        begin(&mut job, PassKind::Welded, Stations::Eight);
        readings(&mut job, 0, &["0", "1", "3", "4", "4", "3", "1", "0"], "0");
        readings(&mut job, 1, &["0", "2", "4", "6", "6", "4", "2", "0"], closing);
        value(&job, Name::WeldPull)
    };
    let Some(Sense::At(at)) = pulled("0").sense else { panic!() };
    place(at, by_hand("pull at"));
    // The dial moved: how far is shown, which way is not.
    assert_eq!(pulled("3").sense, None);
}

#[test]
fn when_heat_may_mend_it_and_when_no_more() {
    let last = |offsets: &[(f64, f64)], material| {
        let mut job = passes(PassKind::Welded, offsets);
        job.tube.material = material;
        let found = finding(&job, Name::Correction);
        (found.verdict, found.value().unwrap().sense)
    };
    let steel = |offsets: &[(f64, f64)]| last(offsets, TubeMaterial::Steel);
    // Rules of this house, at a limit of 0.010 (common practice): over it the high side is heated; after
    // two passes without a gain, or over three times the limit, not any more.
    let (verdict, sense) = steel(&[(12.0, 100.0)]);
    assert!(matches!(verdict, Verdict::Stop(Reason::WeldedOffset { .. })));
    let Some(Sense::HeatAt(at)) = sense else { panic!("{sense:?}") };
    place(at, 100.0);
    for (offsets, more) in [
        (&[(12.0, 100.0), (12.5, 100.0)][..], true),
        (&[(12.0, 100.0), (12.5, 100.0), (12.2, 100.0)], false),
        (&[(12.0, 100.0), (12.5, 100.0), (11.0, 100.0)], true),
        (&[(14.9, 100.0)], true),
    ] {
        let (verdict, sense) = steel(offsets);
        assert_eq!(matches!(sense, Some(Sense::HeatAt(_))), more, "{offsets:?}");
        assert_eq!(verdict == Verdict::Stop(Reason::HeatDoesNoMore), !more, "{offsets:?}");
    }
    let (verdict, sense) = steel(&[(15.1, 100.0)]);
    assert_eq!(verdict, Verdict::Stop(Reason::CutItOff { times: 3.0 }));
    assert!(matches!(sense, Some(Sense::At(_))), "{sense:?}");
    // Inside the limit nothing is heated.
    let (verdict, sense) = steel(&[(3.0, 100.0)]);
    assert_eq!(verdict, Verdict::Good);
    assert!(matches!(sense, Some(Sense::LeaveWelded(_))), "{sense:?}");
    assert_eq!(steel(&[(0.1, 100.0)]).1, Some(Sense::LeaveAlone));
    // Aluminium is never heated, however often or however far.
    for offsets in
        [&[(12.0, 100.0)][..], &[(12.0, 100.0), (12.5, 100.0), (12.2, 100.0)], &[(16.0, 100.0)]]
    {
        let (verdict, sense) = last(offsets, TubeMaterial::Aluminium);
        assert!(matches!(verdict, Verdict::Stop(Reason::WeldedOffset { .. })), "{verdict:?}");
        let Some(Sense::LeaveToShop(at)) = sense else { panic!("{sense:?}") };
        place(at, 100.0);
    }
    assert!(matches!(last(&[(3.0, 100.0)], TubeMaterial::Aluminium).1, Some(Sense::LeaveWelded(_))));
}

#[test]
fn heat_is_not_held_against_what_a_tap_would_do() {
    let job = passes(PassKind::Welded, &[(14.0, 100.0), (13.0, 100.0)]);
    let Some(Sense::Moved { answered: None, elsewhere: false, .. }) = value(&job, Name::LastMove).sense
    else {
        panic!("{:?}", value(&job, Name::LastMove))
    };
    // The same two of a tube that is tapped went another way than was asked.
    let tapped = passes(PassKind::Tacked, &[(14.0, 100.0), (13.0, 100.0)]);
    assert!(matches!(
        value(&tapped, Name::LastMove).sense,
        Some(Sense::Moved { elsewhere: true, answered: None, .. })
    ));
}

#[test]
fn readings_too_rough_say_neither_tap_nor_stop_tapping() {
    // More than 5 of first order, so over the limit of 10 as the dial shows it, in a scatter that could
    // make as much.
    let job = as_fitted(Stations::Eight, &["0", "9", "-4", "12", "14", "2", "9", "-9"]);
    let found = finding(&job, Name::Correction);
    assert!(number(found.value().unwrap().amount) > 5.0 * THOU);
    assert_eq!(found.verdict, Verdict::Stop(Reason::OffsetNotSeen));
    assert_eq!(found.value().unwrap().sense, None);
    assert_eq!(finding(&job, Name::OffsetReading).verdict, Verdict::Stop(Reason::OffsetNotSeen));
    // Under the limit as the dial shows it, and not known to be: no reason to stop, none to call it good.
    let near = as_fitted(Stations::Eight, &["0", "4", "-4", "4", "1", "-4", "4", "-4"]);
    assert_eq!(finding(&near, Name::Correction).verdict, Verdict::Watch(Reason::OffsetNotSeen));
    assert_eq!(value(&near, Name::Correction).sense, None);
    assert_eq!(finding(&job, Name::Leftover).verdict, Verdict::Watch(Reason::Rough));
}

#[test]
fn limits_by_their_names() {
    // The figures' sources stand in tests/handbook/limits.json; here, that they judge.
    for (limit, thousandths, source) in [
        (RunOutLimit::HomeTruing, 10.0, Source::CommonPractice),
        (RunOutLimit::ArmyTube, 15.0, Source::ArmyTube),
        (RunOutLimit::NearWeld, 20.0, Source::PassengerCarManual),
        (RunOutLimit::EightTenths, 800.0 / 25.4, Source::SeveralCarManuals),
        (RunOutLimit::MiddleOfTube, 25.0, Source::PassengerCarMiddle),
        (RunOutLimit::SlipNeck, 5.0, Source::ArmyNeck),
        (RunOutLimit::Anywhere, 35.0, Source::WorkshopManual),
    ] {
        for (share, good) in [(0.99, false), (1.02, false), (0.6, true)] {
            let mut job = passes(PassKind::Welded, &[(share * thousandths / 2.0, 60.0)]);
            job.truing.limit = limit;
            let found = finding(&job, Name::OffsetReading);
            let said = found.limit.unwrap();
            assert!((number(said.amount) - thousandths * THOU).abs() < 1e-9 && said.source == source);
            assert_eq!(found.verdict == Verdict::Good, good, "{limit:?} {share}");
            assert_eq!(matches!(found.verdict, Verdict::Stop(_)), share > 1.0, "{limit:?} {share}");
        }
    }
}

#[test]
fn whole_lines_that_come_to_the_limit_are_not_over_it() {
    // Ten lines are not over ten, wherever the dial is set; eleven are.
    for zero in 0..40 {
        for (more, over) in [(0, false), (1, true)] {
            let texts: [String; 8] = std::array::from_fn(|mark| {
                let reading = [0, 1, 5, 8, 10 + more, 8, 5, 1][mark] + zero;
                reading.to_string()
            });
            let job = as_fitted(Stations::Eight, &texts.each_ref().map(String::as_str));
            let verdict = finding(&job, Name::TotalReading).verdict;
            let expected = matches!(verdict, Verdict::Watch(Reason::TotalOverLimit { .. }));
            assert_eq!(expected, over, "{zero} {more}: {verdict:?}");
        }
        // Four marks, the offset of 5 lines alone: it shows as 10.
        let texts = [zero + 5, zero, zero - 5, zero].map(|reading| reading.to_string());
        let job = as_fitted(Stations::Four, &texts.each_ref().map(String::as_str));
        let verdict = finding(&job, Name::OffsetReading).verdict;
        assert!(matches!(verdict, Verdict::Watch(Reason::OffsetNearLimit { .. })), "{verdict:?}");
    }
}

#[test]
fn an_oval_tube_reads_high_and_runs_true() {
    // By construction: 7 thousandths of second order, no first: 14 in all.
    let job = as_fitted(Stations::Eight, &["7", "0", "-7", "0", "7", "0", "-7", "0"]);
    assert!(matches!(
        finding(&job, Name::TotalReading).verdict,
        Verdict::Watch(Reason::TotalOverLimit { .. })
    ));
    assert_eq!(finding(&job, Name::OffsetReading).verdict, Verdict::Good);
    assert_eq!(value(&job, Name::Correction).sense, Some(Sense::LeaveAlone));
    agrees(value(&job, Name::Ovality), 14.0 * THOU, None, EXACT);
}
