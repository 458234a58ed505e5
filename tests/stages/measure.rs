//! Measure on the invented shaft: lengths by every route, of every kind of shaft, from every mark.

use shaftwright::job::{Datum, DatumPair, Division, Entry, Job, Route, ShaftKind, YokeAt};
use shaftwright::quantity::in_inches;
use shaftwright::stage::cut::cut_list;
use shaftwright::stage::measure::{length_change, reading_apart};
use shaftwright::stage::{Amount, Law, Name, Reason, Sense, Stage, Standing, Verdict, whole};

use super::EXACT;
use super::shaft::{
    agrees, by_hand, find, number, repeats, shaft, shares_agree, value, verdict, with, with_all,
};

/// The wanted length, the change and the ± of both, against the script.
fn comes_to(job: &Job, wanted: &str, change: &str) {
    let hand = |key: &str| (by_hand(key), Some(by_hand(&format!("{key} doubt"))));
    let (length, doubt) = hand(wanted);
    agrees(value(job, Name::WantedLength), length, doubt, EXACT);
    let (length, doubt) = hand(change);
    agrees(value(job, Name::LengthChange), length, doubt, EXACT);
}

#[test]
fn the_change_of_length() {
    let job = shaft();
    comes_to(&job, "wanted", "change");
    assert_eq!(value(&job, Name::LengthChange).sense, Some(Sense::Remove));
    agrees(value(&job, Name::SetPoint), 0.875, None, EXACT);
    for finding in Stage::Measure.findings(&job) {
        // The set point is a figure to work with: the cards on the travel judge it.
        let expected = if finding.name == Name::SetPoint { Verdict::Figure } else { Verdict::Good };
        assert_eq!(finding.verdict, expected, "{finding:?}");
    }
    // With the yoke bottomed the set point comes off, and its own line adds to the doubt.
    let mut bottomed = shaft();
    bottomed.measure.yoke_at = YokeAt::Bottomed;
    let (length, doubt) = (by_hand("wanted from bottomed"), by_hand("wanted from bottomed doubt"));
    agrees(value(&bottomed, Name::WantedLength), length, Some(doubt), EXACT);
}

#[test]
fn the_factor_at_95_percent_is_said_where_scatter_made_it() {
    let coverage = |job: &Job| {
        let working = find(job, Name::LengthChange).working;
        working.iter().find(|step| step.law == Law::Coverage).map(|step| (step.put_in[0], step.gives))
    };
    // Three readings take their half-range, and nothing is estimated from scatter.
    assert_eq!(coverage(&shaft()), None);
    let mut four = shaft();
    four.measure.old.resize_with(4, Default::default);
    four.put(Entry::OldReading(3), "57-1/4");
    let (change, doubt) = (by_hand("four change"), by_hand("four change doubt"));
    agrees(value(&four, Name::LengthChange), change, Some(doubt), EXACT);
    let (freedom, factor) = coverage(&four).unwrap();
    assert_eq!(freedom, Amount::Count(by_hand("four freedom") as usize));
    assert!((number(factor) - by_hand("four factor")).abs() < 1e-6, "{factor:?}");
}

/// The shaft with the distance measured from the ends as well.
fn from_ends(kind: ShaftKind, route: Route, ends: &[&str]) -> Job {
    let mut job = with_all(&[
        (Entry::FrontDepth, "2-3/8"),
        (Entry::RearDepth, "2-1/8"),
        (Entry::BottomedGap, "1/2"),
    ]);
    (job.measure.kind, job.measure.route) = (kind, route);
    repeats(&mut job, Entry::EndsReading, ends);
    job
}

const SEAL_TO_AXLE: [&str; 3] = ["59-9/32", "59-5/16", "59-9/32"];

#[test]
fn a_slip_yoke_by_both_routes() {
    let by_ends = from_ends(ShaftKind::SlipInGearbox, Route::Ends, &SEAL_TO_AXLE);
    comes_to(&by_ends, "from ends", "from ends change");
    let parts = [
        (Entry::OldReading(0), "old"),
        (Entry::EndsReading(0), "ends"),
        (Entry::BottomedGap, "bottomed"),
        (Entry::SetPoint, "drawn"),
        (Entry::FrontDepth, "depth"),
    ];
    shares_agree(&find(&by_ends, Name::LengthChange), "from ends change", &parts);
    // Both ways: the joints' way counts, and the difference is held against its own ±.
    let mut both = by_ends.clone();
    both.measure.route = Route::Both;
    comes_to(&both, "wanted", "change");
    let differ = value(&both, Name::RoutesDiffer);
    agrees(differ, -by_hand("routes"), Some(by_hand("routes doubt")), EXACT);
    assert_eq!(verdict(&both, Name::RoutesDiffer), Verdict::Good);
    // Bottomed, the set point comes off both ways: it is no part of the difference, nor of its ±. The
    // joints' readings were taken drawn out, so that they are 7/8 short now.
    both.measure.yoke_at = YokeAt::Bottomed;
    let differ = value(&both, Name::RoutesDiffer);
    agrees(differ, -by_hand("routes bottomed"), Some(by_hand("routes bottomed doubt")), EXACT);
    let Verdict::Watch(Reason::RoutesDisagree { doubt, .. }) = verdict(&both, Name::RoutesDiffer) else {
        panic!("{:?}", verdict(&both, Name::RoutesDiffer))
    };
    assert!((in_inches(doubt) - by_hand("routes bottomed doubt")).abs() < 1e-6);
    // 29/32 is more than a finished length may be off: the change says so, and nothing may be cut by it.
    let said = verdict(&both, Name::LengthChange);
    let Verdict::Stop(reason @ Reason::RoutesDisagree { by, .. }) = said else { panic!("{said:?}") };
    assert!((in_inches(by) + by_hand("routes bottomed")).abs() < 1e-6);
    assert_eq!(cut_list(&both).unwrap().stop, Some(reason));
    assert_eq!(verdict(&both, Name::TubeRemoved), Verdict::Stop(reason));
    // A single reading says less than that, one that can be pointed at says more.
    for (reading, text) in [(1, ""), (2, "")] {
        both.put(Entry::OldReading(reading), text);
    }
    assert_eq!(verdict(&both, Name::LengthChange), Verdict::Stop(reason));
    for (reading, text) in [(1, "57-5/16"), (2, "58-5/16")] {
        both.put(Entry::OldReading(reading), text);
    }
    let said = verdict(&both, Name::LengthChange);
    assert!(matches!(said, Verdict::Stop(Reason::ReadingApart { .. })), "{said:?}");
    // One route alone has nothing to compare.
    for route in [Route::Joints, Route::Ends] {
        both.measure.route = route;
        assert!(Stage::Measure.findings(&both).iter().all(|f| f.name != Name::RoutesDiffer));
    }
}

#[test]
fn a_length_read_with_the_slip_elsewhere_follows_the_set_point() {
    // Read drawn out 7/8, to be 1-1/8 in use: in the gearbox the shaft comes out shorter by 1/4, in the
    // shaft the old one is longer by it. Left where it stood, nothing is added to the doubt.
    let mut job = with(Entry::SetPoint, "1-1/8");
    comes_to(&job, "drawn on wanted", "drawn on change");
    let mut parts = vec![
        (Entry::OldReading(0), "old"),
        (Entry::WantedReading(0), "wanted"),
        (Entry::SetPoint, "point"),
        (Entry::TakenAt, "taken"),
    ];
    shares_agree(&find(&job, Name::LengthChange), "drawn on change", &parts);
    job.measure.kind = ShaftKind::SlipOnShaft;
    comes_to(&job, "wanted", "drawn on in shaft change");
    shares_agree(&find(&job, Name::LengthChange), "drawn on in shaft change", &parts);
    job.put(Entry::SetPoint, "7/8");
    comes_to(&job, "wanted", "change");
    // Pushed in is drawn out by nothing, but nothing had to be measured for it.
    parts.retain(|(entry, _)| *entry != Entry::TakenAt);
    let mut nothing = with(Entry::TakenAt, "0");
    let wanted = number(value(&nothing, Name::WantedLength).amount);
    assert!((wanted - by_hand("wanted from bottomed")).abs() < 1e-6);
    nothing.measure.yoke_at = YokeAt::Bottomed;
    comes_to(&nothing, "wanted from bottomed", "bottomed change");
    shares_agree(&find(&nothing, Name::LengthChange), "bottomed change", &parts);
}

#[test]
fn the_old_lengths_working() {
    // What was read and what was made of it, by hand: 57-5/16, 57-9/32 and 57-5/16 have the mean
    // 57.302083; ears of 1-1/8 and 1-1/4 outside the centres come off.
    let ears = DatumPair { front: Datum::OuterEar, rear: Datum::OuterEar };
    let mut job = with_all(&[(Entry::FrontEar, "1-1/8"), (Entry::RearEar, "1-1/4")]);
    for (pair, steps) in [
        (DatumPair::default(), &[(Law::MeanRead, 57.302_083_333), (Law::OldLength, 57.302_083_333)][..]),
        (
            ears,
            &[
                (Law::MeanRead, 57.302_083_333),
                (Law::ToJointCentres, 54.927_083_333),
                (Law::OldLength, 54.927_083_333),
            ],
        ),
    ] {
        job.measure.old_datum = pair;
        let working = find(&job, Name::LengthChange).working;
        for (step, (law, gives)) in working.iter().zip(steps) {
            assert_eq!(step.law, *law);
            assert!((number(step.gives) - gives).abs() < 1e-8, "{law:?}: {:?}", step.gives);
        }
    }
}

#[test]
fn a_slip_on_the_shaft() {
    let mut job = shaft();
    job.measure.kind = ShaftKind::SlipOnShaft;
    // Measured drawn out, it is as any shaft.
    comes_to(&job, "wanted", "change");
    // Measured pushed in, the old shaft is longer by the set point; the wanted distance is not.
    job.measure.yoke_at = YokeAt::Bottomed;
    comes_to(&job, "wanted", "slip on shaft change");
    let old = length_change(&job).unwrap().old;
    assert!((in_inches(old.best) - by_hand("slip on shaft old")).abs() < 1e-6);
    assert!((in_inches(old.spread.expanded()) - by_hand("slip on shaft old doubt")).abs() < 1e-6);
    let parts =
        [(Entry::OldReading(0), "old"), (Entry::SetPoint, "drawn"), (Entry::WantedReading(0), "wanted")];
    shares_agree(&find(&job, Name::LengthChange), "slip on shaft change", &parts);
    // From the front flange's face to the rear joint; with its own rear yoke there is no rear depth.
    let ends = ["57-7/8", "57-29/32", "57-7/8"];
    let job = from_ends(ShaftKind::SlipOnShaft, Route::Ends, &ends);
    let doubt = by_hand("slip on shaft from ends doubt");
    agrees(value(&job, Name::WantedLength), by_hand("slip on shaft from ends"), Some(doubt), EXACT);
}

#[test]
fn flange_to_flange() {
    let job = from_ends(ShaftKind::Flanged, Route::Ends, &["60", "60-1/32", "60"]);
    comes_to(&job, "flanged", "flanged change");
    let parts = [
        (Entry::OldReading(0), "old"),
        (Entry::EndsReading(0), "ends"),
        (Entry::FrontDepth, "front"),
        (Entry::RearDepth, "rear"),
    ];
    shares_agree(&find(&job, Name::LengthChange), "flanged change", &parts);
}

#[test]
fn tape_on_seats_and_ears() {
    use Datum::{CupCentre, InnerEar, InnerSeat, OuterEar, OuterSeat};
    let sizes = [
        (Entry::FrontCup, "1-1/16"),
        (Entry::RearCup, "1-3/16"),
        (Entry::FrontEar, "1-1/8"),
        (Entry::RearEar, "1-1/4"),
        (Entry::WantedFrontEar, "1-3/16"),
        (Entry::WantedRearEar, "1-5/16"),
    ];
    let front_ears = [(Entry::FrontEar, "front_ear"), (Entry::WantedFrontEar, "car_front_ear")];
    let rear_ears = [(Entry::RearEar, "rear_ear"), (Entry::WantedRearEar, "car_rear_ear")];
    let ears = [front_ears, rear_ears].concat();
    let lengths = [(Entry::OldReading(0), "old"), (Entry::WantedReading(0), "wanted")];
    let cups = [(Entry::FrontCup, "front_cup"), (Entry::RearCup, "rear_cup")];
    for (key, old, wanted, extra) in [
        // The same seats for both: the cups cancel with their doubt.
        ("alike", [OuterSeat, OuterSeat], [OuterSeat, OuterSeat], &[][..]),
        ("seats", [OuterSeat, OuterSeat], [CupCentre, InnerSeat], &cups),
        // The ears are those of other yokes under the car, and nothing of them cancels.
        ("ears", [OuterEar, InnerEar], [OuterEar, OuterEar], &ears),
        ("front ears", [InnerEar, OuterSeat], [InnerEar, OuterSeat], &front_ears),
    ] {
        let mut job = with_all(&sizes);
        let pair = |[front, rear]: [Datum; 2]| DatumPair { front, rear };
        (job.measure.old_datum, job.measure.wanted_datum) = (pair(old), pair(wanted));
        comes_to(&job, &format!("datums {key} wanted"), &format!("datums {key} change"));
        let parts = [&lengths[..], extra].concat();
        shares_agree(&find(&job, Name::LengthChange), &format!("datums {key} change"), &parts);
        // What is brought in to the centres is taken off, what is brought out is added: no line has two
        // signs.
        let hand = by_hand(&format!("datums {key} wanted"));
        // The mean of the readings is the wanted length where the tape lies on the centres.
        let mean = by_hand("wanted");
        let law = if hand < mean { Law::ToJointCentres } else { Law::OutToJointCentres };
        let working = find(&job, Name::WantedLength).working;
        let [read, step] = &working[..] else { panic!("{working:?}") };
        assert_eq!((read.law, step.law), (Law::MeanRead, law), "{key}");
        let lies = [step.put_in[0], step.put_in[1], step.gives].map(number);
        for (got, expected) in lies.into_iter().zip([mean, (mean - hand).abs(), hand]) {
            assert!((got - expected).abs() < 1e-6, "{key}: {got}, by hand {expected}");
        }
    }
}

#[test]
fn routes_known_no_better_than_a_wide_doubt_prove_nothing() {
    // By a tape of sixteenths the two ways differ by less than their ±, and that is wider than the 1/16
    // that a finished length may miss by: anything would agree with anything.
    let mut both = from_ends(ShaftKind::SlipInGearbox, Route::Both, &SEAL_TO_AXLE);
    both.measure.division = Division::Sixteenth;
    let (by, doubt) = (by_hand("routes coarse").abs(), by_hand("routes coarse doubt"));
    assert!(by < doubt && doubt > 1.0 / 16.0);
    agrees(value(&both, Name::RoutesDiffer), by, Some(doubt), EXACT);
    let Verdict::Watch(Reason::LooseLength { allowed }) = verdict(&both, Name::RoutesDiffer) else {
        panic!("{:?}", verdict(&both, Name::RoutesDiffer))
    };
    assert!((in_inches(allowed) - 1.0 / 16.0).abs() < 1e-12);
    // Apart by more than that, the same tape says so: 5/32 further from the ends.
    repeats(&mut both, Entry::EndsReading, &["59-7/16", "59-15/32", "59-7/16"]);
    let said = verdict(&both, Name::RoutesDiffer);
    assert!(matches!(said, Verdict::Watch(Reason::RoutesDisagree { .. })), "{said:?}");
}

#[test]
fn readings_that_do_not_go_together() {
    // By hand: 57-5/16 and 57-9/32 have the mean 57-19/64; a foot-mark slipped by an inch, 58-5/16, is
    // 1-1/64 over it. Named is the row it stands in, and the length still has a value.
    for row in 0..3 {
        let mut texts = vec!["57-5/16", "57-9/32"];
        texts.insert(row, "58-5/16");
        let mut job = shaft();
        repeats(&mut job, Entry::OldReading, &texts);
        let Verdict::Stop(Reason::ReadingApart { entry, by, others }) =
            verdict(&job, Name::LengthChange)
        else {
            panic!("{:?}", verdict(&job, Name::LengthChange))
        };
        assert_eq!(entry, Entry::OldReading(row));
        assert!((in_inches(by) - (1.0 + 1.0 / 64.0)).abs() < 1e-9);
        assert!((in_inches(others) - 1.0 / 32.0).abs() < 1e-9);
        for other in 0..3 {
            assert_eq!(reading_apart(&job, Entry::OldReading(other)).is_some(), other == row);
        }
        // Over the 1/16 in that a finished length may be off: nothing is to be cut by it.
        assert_eq!(whole(&job).shaft, Standing::Stop);
        assert!(cut_list(&job).unwrap().marks.is_empty());
    }
    // Rows that hold no reading are not counted: the fourth row is pointed at, and not the third.
    let mut unread = shaft();
    unread.measure.old.resize_with(4, Default::default);
    repeats(&mut unread, Entry::OldReading, &["banana", "57-5/16", "57-5/16", "58-5/16"]);
    for row in 0..4 {
        assert_eq!(reading_apart(&unread, Entry::OldReading(row)).is_some(), row == 3, "{row}");
    }
    // An empty row between them moves no name.
    let mut gap = with_all(&[(Entry::WantedReading(1), "")]);
    gap.measure.wanted.resize_with(4, Default::default);
    gap.put(Entry::WantedReading(3), "54.5");
    gap.measure.wanted.resize_with(5, Default::default);
    gap.put(Entry::WantedReading(4), "55.5");
    assert!(matches!(
        verdict(&gap, Name::WantedLength),
        Verdict::Watch(Reason::ReadingApart { entry: Entry::WantedReading(3), .. })
    ));
    // Two: no telling which.
    let two = with_all(&[(Entry::WantedReading(0), "56"), (Entry::WantedReading(1), "")]);
    let Verdict::Watch(Reason::TwoReadingsDiffer { by }) = verdict(&two, Name::WantedLength) else {
        panic!("{:?}", verdict(&two, Name::WantedLength))
    };
    assert!((in_inches(by) - 0.5).abs() < 1e-9);
    assert!(matches!(
        verdict(&two, Name::LengthChange),
        Verdict::Stop(Reason::TwoReadingsDiffer { .. })
    ));
    // By a tape of thousandths two readings 1/32 apart differ too, and no more than a length may be off.
    let mut fine = with_all(&[(Entry::WantedReading(0), "55-9/16"), (Entry::WantedReading(2), "")]);
    fine.measure.division = Division::Thousandth;
    repeats(&mut fine, Entry::OldReading, &["57-5/16", "57-5/16", "57-5/16"]);
    let said = verdict(&fine, Name::LengthChange);
    assert!(matches!(said, Verdict::Watch(Reason::TwoReadingsDiffer { .. })), "{said:?}");
    assert_eq!(cut_list(&fine).unwrap().stop, None);
    // One: nothing shows its own mistakes.
    let one = with_all(&[(Entry::OldReading(1), ""), (Entry::OldReading(2), "")]);
    assert_eq!(verdict(&one, Name::LengthChange), Verdict::Watch(Reason::OneReading));
    // A reading apart is said before a single one of the other length.
    let mut both = one.clone();
    both.put(Entry::WantedReading(2), "56.5");
    let said = verdict(&both, Name::LengthChange);
    assert!(matches!(said, Verdict::Stop(Reason::ReadingApart { .. })), "{said:?}");
}

#[test]
fn a_difference_that_the_tape_cannot_see() {
    // By hand: the ± of the difference is 0.0354; 1/64 is inside it.
    let mut job = shaft();
    repeats(&mut job, Entry::WantedReading, &["57-9/32", "57-5/16", "57-9/32"]);
    assert_eq!(value(&job, Name::LengthChange).sense, Some(Sense::LeaveAlone));
    assert_eq!(verdict(&job, Name::LengthChange), Verdict::Watch(Reason::DifferenceWithinDoubt));
    // A coarse tape read three times alike: 1/16 in and its ± is over the 1/16 of a finished length.
    let mut coarse = with(Entry::OldReading(1), "57-3/16");
    coarse.measure.division = Division::Sixteenth;
    let said = verdict(&coarse, Name::LengthChange);
    assert!(matches!(said, Verdict::Watch(Reason::LooseLength { .. })), "{said:?}");
}

#[test]
fn a_length_read_at_its_set_point_is_never_good() {
    // A rule of this house: nobody knows which set point that was, so one changed since would pass.
    let mut job = shaft();
    job.measure.yoke_at = YokeAt::SetPoint;
    let said = find(&job, Name::LengthChange).verdict;
    assert_eq!(said, Verdict::Watch(Reason::ReadAtSetPoint));
    assert_eq!(find(&job, Name::TubeRemoved).verdict, said);
    // From the ends alone the set point is reckoned in, and nothing was read at it.
    job.measure.route = Route::Ends;
    assert_ne!(find(&job, Name::LengthChange).verdict, said);
}
