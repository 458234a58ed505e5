//! Phase: every way to measure it, every turn that may be wanted, before tacking and after welding.
//!
//! Expected numbers: tests/handbook/shaft.txt, by shaft.py and shaft_yokes.py; what they are judged by
//! are rules of this house.

use shaftwright::job::{
    Choice, Display, End, Entry, Job, LevelDivision, PhaseMethod, PhaseTarget, Side,
};
use shaftwright::quantity::{Angle, as_degrees, degrees, in_inches};
use shaftwright::sheet::amount;
use shaftwright::stage::phase::{in_force, off, target, turn};
use shaftwright::stage::{
    Amount, Answer, Limit, Name, Need, Reason, Sense, Source, Stage, Standing, Verdict, Why, standing,
};

use super::EXACT;
use super::shaft::{agrees, by_hand, find, needs, shaft, value, verdict};

/// The shaft tacked but not yet welded.
fn tacked() -> Job {
    let mut job = shaft();
    job.put(Entry::FrontLevel(2, 0), "");
    job.put(Entry::RearLevel(2, 0), "");
    job
}

/// The shaft with nothing read of its yokes, and these fields.
fn read_by(method: PhaseMethod, fields: &[(Entry, &str)]) -> Job {
    let mut job = tacked();
    job.put(Entry::FrontLevel(1, 0), "");
    job.put(Entry::RearLevel(1, 0), "");
    job.phase.method = method;
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

fn with(mut job: Job, fields: &[(Entry, &str)]) -> Job {
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

#[test]
fn phase_by_levels() {
    let job = tacked();
    let error = value(&job, Name::PhaseError);
    agrees(error, -by_hand("turn"), Some(by_hand("turn doubt")), EXACT);
    // The rear yoke stands counter-clockwise (its left ear is the lower): turn it clockwise.
    assert_eq!(error.sense, Some(Sense::TurnClockwise));
    agrees(value(&job, Name::PhaseArc), by_hand("turn arc"), Some(by_hand("turn arc doubt")), EXACT);
    let limit = find(&job, Name::PhaseError).limit.unwrap();
    assert_eq!(limit.source, Source::ArmyDriveline);
    let own = with(tacked(), &[(Entry::PhaseLimit, "2")]);
    let limit = find(&own, Name::PhaseError).limit.unwrap();
    assert!(matches!(limit, Limit { source: Source::OwnLimit, .. }));
    for (rear, expected) in
        [("0.4", "good"), ("1.35", "watch"), ("1.5", "stop"), ("179", "stop"), ("60", "quarter")]
    {
        let got = match verdict(&with(tacked(), &[(Entry::RearLevel(1, 0), rear)]), Name::PhaseError) {
            Verdict::Good => "good",
            Verdict::Watch(Reason::PhaseWithinDoubt { .. }) => "watch",
            Verdict::Stop(Reason::OutOfPhase { .. }) => "stop",
            Verdict::Stop(Reason::QuarterTurn) => "quarter",
            other => panic!("{other:?}"),
        };
        assert_eq!(got, expected, "{rear}");
    }
    // A limit narrower than the ±: nothing says which way to turn, so nothing is ordered.
    let fields = [(Entry::PhaseLimit, "0.1"), (Entry::RearLevel(1, 0), "0.9")];
    let mut narrow = with(tacked(), &fields);
    narrow.phase.level_division = LevelDivision::Whole;
    assert!(matches!(
        verdict(&narrow, Name::PhaseError),
        Verdict::Watch(Reason::PhaseWithinDoubt { .. })
    ));
    assert_eq!(value(&narrow, Name::PhaseError).sense, Some(Sense::LeaveAlone));
    // Inside its own ± no way is told: a tenth by a level of tenths.
    let unseen = with(tacked(), &[(Entry::RearLevel(1, 0), "0.45")]);
    for name in [Name::PhaseError, Name::PhaseArc] {
        assert_eq!(value(&unseen, name).sense, Some(Sense::LeaveAlone));
    }
}

#[test]
fn bench_and_levels_give_one_answer_for_one_shaft() {
    // One physical case: the rear yoke's left ear stands lower (counter-clockwise), so on the bench
    // the gap is under its right ear; and the mirrored case; each with either end cut.
    for (end, turned, lifted, undo) in [
        (End::Rear, "-0.6", Side::Right, Sense::TurnClockwise),
        (End::Rear, "0.6", Side::Left, Sense::TurnCounterclockwise),
        (End::Front, "-0.6", Side::Right, Sense::TurnCounterclockwise),
        (End::Front, "0.6", Side::Left, Sense::TurnClockwise),
    ] {
        let mut job = tacked();
        job.cut.end = end;
        job.put(Entry::FrontLevel(1, 0), "0");
        job.put(Entry::RearLevel(1, 0), turned);
        let levels = value(&job, Name::PhaseError);
        job.phase.method = PhaseMethod::Bench;
        job.phase.sittings[1].lifted = lifted;
        job.put(Entry::Lift(1, 0), "0.0340327");
        job.put(Entry::Span, "3.25");
        let bench = value(&job, Name::PhaseError);
        agrees(bench, by_hand("bench turn"), Some(by_hand("bench doubt")), 1e-5);
        agrees(levels, by_hand("bench turn"), None, 1e-4);
        assert_eq!((bench.sense, levels.sense), (Some(undo), Some(undo)), "{end:?} {turned}");
    }
}

#[test]
fn three_readings_of_each_by_every_way() {
    let levels = [
        (Entry::FrontLevel(1, 0), "89.6"),
        (Entry::FrontLevel(1, 1), "-89.8"),
        (Entry::FrontLevel(1, 2), "90"),
        (Entry::RearLevel(1, 0), "-89.2"),
        (Entry::RearLevel(1, 1), "-89"),
        (Entry::RearLevel(1, 2), "-89.1"),
    ];
    let gaps = [
        (Entry::FrontLift(1, 0), "0.02"),
        (Entry::FrontSpan, "3.25"),
        (Entry::Lift(1, 0), "0.06"),
        (Entry::Lift(1, 1), "0.061"),
        (Entry::Lift(1, 2), "0.059"),
        (Entry::Span, "3.5"),
    ];
    let lines = [(Entry::LineArc(1, 0), "3/32"), (Entry::LineArc(1, 2), "1/8")];
    for (method, fields, key) in [
        (PhaseMethod::Levels, &levels[..], "wrapped levels"),
        (PhaseMethod::BothLifts, &gaps, "gaps"),
        (PhaseMethod::Lines, &lines, "lines"),
    ] {
        let mut job = read_by(method, fields);
        job.phase.sittings[1].lifted = Side::Left;
        let (hand, doubt) = (by_hand(&format!("{key} turn")), by_hand(&format!("{key} doubt")));
        agrees(value(&job, Name::PhaseError), hand, Some(doubt), EXACT);
        let got = turn(&job, 1).unwrap();
        assert!((as_degrees(got.best) - hand).abs() < 1e-6, "{key}");
        // One reading of each is enough, and says no less than three in doubt.
        let first = |(entry, _): &&(Entry, &str)| {
            matches!(entry, Entry::Span | Entry::FrontSpan) || entry.name().ends_with("-1-0")
        };
        let firsts: Vec<_> = fields.iter().filter(first).copied().collect();
        assert!(turn(&read_by(method, &firsts), 1).is_ok(), "{key}");
        // Every kind of reading is asked for by its first place, and nothing else is.
        let asked = needs(&read_by(method, &[]), Name::PhaseError);
        let named: Vec<Entry> = asked.iter().map(|need| need.entry).collect();
        let firsts: Vec<Entry> = firsts.iter().map(|(entry, _)| *entry).collect();
        assert!(
            named.len() == firsts.len() && named.iter().all(|entry| firsts.contains(entry)),
            "{named:?}"
        );
    }
}

#[test]
fn what_comes_into_both_sittings_goes_out_of_their_difference() {
    let bench = [(Entry::Lift(0, 0), "0.5"), (Entry::Lift(1, 0), "0.46"), (Entry::Span, "3.25")];
    let lines = [(Entry::LineArc(0, 0), "3/4"), (Entry::LineArc(1, 0), "25/32")];
    for (method, fields, key) in [
        (PhaseMethod::Bench, &bench[..], "as it was"),
        (PhaseMethod::Lines, &lines, "lines as they were"),
    ] {
        let mut job = read_by(method, fields);
        job.phase.target = PhaseTarget::AsItWas;
        for sitting in [0, 1] {
            job.phase.sittings[sitting].lifted = Side::Left;
        }
        let hand = by_hand(&format!("{key} turn"));
        let doubt = by_hand(&format!("{key} doubt"));
        agrees(value(&job, Name::PhaseError), hand.abs(), Some(doubt), EXACT);
        assert!((as_degrees(off(&job, 1).unwrap().best) - hand).abs() < 1e-6);
        // Alone, each has the whole of it.
        let each = as_degrees(turn(&job, 1).unwrap().spread.standard);
        let both = as_degrees(off(&job, 1).unwrap().spread.standard);
        assert!(both < each * 2.0_f64.sqrt(), "{key}");
    }
}

#[test]
fn a_turn_that_is_wanted() {
    let mut job = tacked();
    // The sitting before tacking stands at −0.6 with ± 0.08; no turn wanted has no card.
    assert!(!Stage::Phase.findings(&job).iter().any(|finding| finding.name == Name::PhaseTarget));
    assert!(as_degrees(target(&job).unwrap().best).abs() < 1e-12);
    job.phase.target = PhaseTarget::Own;
    assert_eq!(needs(&job, Name::PhaseError), [Need { entry: Entry::OwnTarget, why: Why::Empty }]);
    job.put(Entry::OwnTarget, "-1.5");
    // By hand: −0.6 stands 0.9 clockwise of −1.5.
    let error = value(&job, Name::PhaseError);
    agrees(error, 0.9, Some(by_hand("turn doubt")), EXACT);
    assert_eq!(error.sense, Some(Sense::TurnCounterclockwise));
    let wanted = value(&job, Name::PhaseTarget);
    agrees(wanted, -1.5, None, EXACT);
    assert_eq!((wanted.plus_minus, verdict(&job, Name::PhaseTarget)), (None, Verdict::Figure));
    // 30° on purpose, and read as 30: nothing is out.
    let on_purpose = with(job.clone(), &[(Entry::OwnTarget, "30"), (Entry::RearLevel(1, 0), "30.4")]);
    assert_eq!(verdict(&on_purpose, Name::PhaseError), Verdict::Good);
    // As it was: the sitting before the cut is asked for, then taken off with its own ±.
    job.phase.target = PhaseTarget::AsItWas;
    let asked = needs(&job, Name::PhaseTarget);
    let named: Vec<Entry> = asked.iter().map(|need| need.entry).collect();
    assert_eq!(named, [Entry::FrontLevel(0, 0), Entry::RearLevel(0, 0)]);
    let job = with(job, &[(Entry::FrontLevel(0, 0), "0.1"), (Entry::RearLevel(0, 0), "-0.1")]);
    // By hand: −0.6 less −0.2; two such turns have √2 times the ± of one.
    let doubt = by_hand("turn doubt");
    agrees(value(&job, Name::PhaseError), 0.4, Some(doubt * 2.0_f64.sqrt()), EXACT);
    agrees(value(&job, Name::PhaseTarget), -0.2, Some(doubt), EXACT);
}

#[test]
fn after_welding() {
    // Nothing read: nothing good, nothing asked, and nothing else is lost by it.
    let job = tacked();
    let waits = find(&job, Name::PhaseWelded);
    assert_eq!(waits.verdict, Verdict::Unjudged(Reason::PhaseNotWelded));
    assert_eq!(waits.answer, Answer::Impossible(Reason::PhaseNotWelded));
    assert_eq!(verdict(&job, Name::PhaseError), Verdict::Good);
    assert_eq!(standing(&Stage::Phase.findings(&job)), Standing::NotYet);
    // Read: judged, and what was before it is a figure without an order to turn anything.
    let job = shaft();
    let left = value(&job, Name::PhaseWelded);
    agrees(left, -by_hand("welded turn"), Some(by_hand("turn doubt")), EXACT);
    assert_eq!(left.sense, Some(Sense::StandsCounterclockwise));
    assert_eq!(verdict(&job, Name::PhaseWelded), Verdict::Good);
    for name in [Name::PhaseError, Name::PhaseArc] {
        assert_eq!((verdict(&job, name), value(&job, name).sense), (Verdict::Figure, None));
    }
    assert_eq!(standing(&Stage::Phase.findings(&job)), Standing::Good);
    for (rear, expected) in [
        ("1.25", Verdict::Watch(Reason::WeldedNearLimit { allowed: degrees(1.0) })),
        ("1.5", Verdict::Stop(Reason::WeldedOutOfPhase { allowed: degrees(1.0) })),
        ("-89", Verdict::Stop(Reason::QuarterTurn)),
    ] {
        let job = with(shaft(), &[(Entry::RearLevel(2, 0), rear)]);
        assert_eq!(verdict(&job, Name::PhaseWelded), expected, "{rear}");
    }
    // Only after welding: what was never read before it is no longer asked for.
    let late = with(shaft(), &[(Entry::FrontLevel(1, 0), ""), (Entry::RearLevel(1, 0), "")]);
    let names: Vec<Name> = Stage::Phase.findings(&late).iter().map(|finding| finding.name).collect();
    assert_eq!(names.first(), Some(&Name::PhaseWelded));
    assert!(!names.contains(&Name::PhaseError) && !names.contains(&Name::PhaseArc));
    // One of both: the other is asked for.
    let half = with(shaft(), &[(Entry::FrontLevel(2, 0), "")]);
    assert_eq!(
        needs(&half, Name::PhaseWelded),
        [Need { entry: Entry::FrontLevel(2, 0), why: Why::Empty }]
    );
    assert_eq!(verdict(&half, Name::PhaseError), Verdict::Good);
}

#[test]
fn the_turn_in_force_is_the_latest_that_is_known() {
    let best = |job: &Job| in_force(job).map(|turn| as_degrees(turn.best));
    let close = |job: &Job, expected: f64| (best(job).unwrap() - expected).abs() < 1e-9;
    // By definition of the fields: 0 − 0.3 welded, −0.2 − 0.4 tacked, then what is wanted.
    assert!(close(&shaft(), -0.3) && close(&tacked(), -0.6));
    let mut none = read_by(PhaseMethod::Levels, &[]);
    assert!(close(&none, 0.0));
    none.phase.target = PhaseTarget::Own;
    assert!(best(&none).is_err());
    none.put(Entry::OwnTarget, "30");
    assert!(close(&none, 30.0));
    assert_eq!(in_force(&none).unwrap().spread.standard, Angle::default());
    // Begun and wrong is not passed over.
    let wrong = with(tacked(), &[(Entry::RearLevel(2, 1), "about so")]);
    assert!(best(&wrong).unwrap_err().iter().any(|need| need.entry == Entry::RearLevel(2, 1)));
}

#[test]
fn a_reading_apart_is_said_and_counted() {
    let three = |rear: &'static str| {
        with(tacked(), &[(Entry::RearLevel(1, 1), "-0.2"), (Entry::RearLevel(1, 2), rear)])
    };
    // By hand of the rule: three lines of 0.1 and three times the others' range.
    assert_eq!(verdict(&three("-0.5"), Name::PhaseError), Verdict::Good);
    let job = three("0.7");
    let Verdict::Watch(Reason::AngleApart { entry, by, others }) = verdict(&job, Name::PhaseError)
    else {
        panic!("{:?}", verdict(&job, Name::PhaseError))
    };
    assert_eq!(entry, Entry::RearLevel(1, 2));
    assert!((as_degrees(by) - 0.9).abs() < 1e-9 && as_degrees(others).abs() < 1e-9);
    // It counts: the mean is 0.1, so 0.3 is out.
    agrees(value(&job, Name::PhaseError), 0.3, None, EXACT);
    // Far enough out that the mean is over the limit: taken again before anything is turned by it.
    let said = verdict(&three("9"), Name::PhaseError);
    assert!(matches!(said, Verdict::Stop(Reason::AngleApart { .. })), "{said:?}");
    // Two that differ cannot say which; across 90° they need not differ.
    let two = |one: &'static str, other: &'static str| {
        with(
            tacked(),
            &[
                (Entry::FrontLevel(1, 0), "89.9"),
                (Entry::RearLevel(1, 0), one),
                (Entry::RearLevel(1, 1), other),
            ],
        )
    };
    let said = verdict(&two("89.6", "-89.8"), Name::PhaseError);
    assert!(matches!(said, Verdict::Watch(Reason::TwoAnglesDiffer { .. })), "{said:?}");
    assert_eq!(verdict(&two("89.9", "-89.9"), Name::PhaseError), Verdict::Good);
    // Gaps and arcs are lengths, and say so.
    let gaps = [(Entry::Lift(1, 0), "0.02"), (Entry::Lift(1, 1), "0.05"), (Entry::Span, "3.25")];
    let said = verdict(&read_by(PhaseMethod::Bench, &gaps), Name::PhaseError);
    assert!(matches!(said, Verdict::Watch(Reason::TwoReadingsDiffer { .. })), "{said:?}");
}

#[test]
fn an_arc_is_said_in_both_systems() {
    // By definition of the inch: 0.0157 in is 0.40 mm, and 1/64 in with a little left over.
    for display in Display::ALL {
        let mut job = tacked();
        job.display = *display;
        let Amount::BothUnits(arc) = value(&job, Name::PhaseArc).amount else { panic!() };
        assert!((in_inches(arc) - by_hand("turn arc")).abs() < 1e-9);
        let text = amount(Amount::BothUnits(arc), display.lengths());
        assert!(text.contains("1/64 in (+0.0001)") && text.contains("0.40 mm"), "{text}");
        assert_eq!(text.starts_with("0.40 mm"), *display == Display::Millimetre);
    }
}
