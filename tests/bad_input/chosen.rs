//! What is asked only where it was chosen: each kind of shaft, route, mark, guide and cut asks for its
//! own fields, and for no others.

use shaftwright::job::{
    Choice, CutAt, Datum, DatumPair, Display, Entry, Groove, Guide, Job, Pass, PassKind, PlanBy, Route,
    RunOutLimit, ShaftBy, ShaftKind, Stations, TravelBy, YokeAt,
};
use shaftwright::quantity::Unreadable;
use shaftwright::stage::check::Fit as Fits;
use shaftwright::stage::{
    Answer, Complaint, Name, Need, Reason, Stage, Standing, Verdict, Why, read, whole,
};

use super::lost;
use super::shaft::{find, needs, repeats, shaft, value, verdict, with, with_all};

/// The shaft with its travel measured.
fn measured() -> Job {
    let at = [(Entry::AtBump, "60"), (Entry::AtRide, "60-1/16"), (Entry::AtDroop, "60-9/16")];
    let mut job = with_all(&at);
    job.slip.by = TravelBy::Measured;
    job
}

/// The shaft with its axle on a link.
fn linked() -> Job {
    let mut job = with_all(&[(Entry::LinkRadius, "24"), (Entry::LinkRise, "-1")]);
    job.slip.guide = Guide::Trailing;
    job
}

/// The shaft measured on its front joint's seat and its rear joint's ear, the old one or the new.
fn on_seats(wanted: bool) -> Job {
    let mut job = with(Entry::FrontCup, "1-1/16");
    let pair = DatumPair { front: Datum::OuterSeat, rear: Datum::InnerEar };
    if wanted {
        job.put(Entry::WantedRearEar, "1-1/4");
        job.measure.wanted_datum = pair;
    } else {
        job.put(Entry::RearEar, "1-1/4");
        job.measure.old_datum = pair;
        // The old shaft is 1-1/4 less 17/32 longer than the tape says, and its weld lies so much further.
        job.put(Entry::WeldLine, "54-19/32");
    }
    job
}

/// The shaft of this kind, its wanted length taken from the ends.
pub fn from_ends(kind: ShaftKind) -> Job {
    let mut job = with_all(&[(Entry::FrontDepth, "2-3/8"), (Entry::RearDepth, "2-1/8")]);
    (job.measure.kind, job.measure.route) = (kind, Route::Ends);
    repeats(&mut job, Entry::EndsReading, &["60", "60", "60"]);
    job
}

/// The shaft with its own slope read.
fn as_read() -> Job {
    let mut job = with(Entry::ShaftSlopeRead(0), "5.1");
    job.angles.shaft_by = ShaftBy::Read;
    job
}

/// The shaft not in line with gearbox and pinion, seen from above.
fn aside(by: PlanBy) -> Job {
    let mut job = with_all(&[
        (Entry::SideOffset, "2"),
        (Entry::GearboxPlan, "1"),
        (Entry::ShaftPlan, "-0.5"),
        (Entry::PinionPlan, "0.5"),
    ]);
    job.angles.plan_by = by;
    job
}

fn clear_of_it() -> Job {
    let mut job = with(Entry::ClearBy, "1-1/2");
    job.cut.at = CutAt::ClearOfIt;
    job
}

/// A shaft by which a field is asked, the field, and what cannot be found without it. By the formulas
/// alone.
pub fn what_needs() -> Vec<(Job, Entry, Vec<Name>)> {
    use Name::*;
    let weights = [PutBack(0), PutBack(1), LeftFront, LeftRear];
    let cut = [TubeRemoved, FinishedLength, FaceError];
    // What to change is asked for on its first card alone.
    let lying = [
        ShaftLies,
        ShakeUnderPower,
        SmoothUpTo,
        ShakeAtRide,
        ShakeAtBump,
        ShakeAtDroop,
        FrontJoint,
        RearJoint,
        SpeedSwing,
        PinionParallel,
    ];
    let fit = [Name::Fit(Fits::Elements), Name::Fit(Fits::Shear)];
    let change =
        [&[LengthChange, WhirlSpeed, SpeedShare], &fit[..], &cut[..], &weights[..], &lying[..]].concat();
    let travel = [PlungeIn, PlungeOut, EngagedSpline];
    let sealed = [&travel[..], &[LipBand]].concat();
    let wanted = [&[WantedLength], &change[..], &sealed[..]].concat();
    let unsealed = [&[WantedLength], &change[..], &travel[..]].concat();
    let mut all = Vec::new();
    for entry in [Entry::AtBump, Entry::AtRide, Entry::AtDroop] {
        all.push((measured(), entry, sealed.clone()));
    }
    for (entry, shake) in [(Entry::BumpTravel, ShakeAtBump), (Entry::DroopTravel, ShakeAtDroop)] {
        all.push((measured(), entry, [&sealed[..], &[shake]].concat()));
    }
    all.push((as_read(), Entry::ShaftSlopeRead(0), lying.to_vec()));
    // Seen from above, the planes' own turn is asked about too.
    let twisted = [&lying[..], &[PlaneTwist]].concat();
    all.push((aside(PlanBy::Offset), Entry::SideOffset, twisted.clone()));
    for entry in [Entry::GearboxPlan, Entry::ShaftPlan, Entry::PinionPlan] {
        all.push((aside(PlanBy::Angles), entry, twisted.clone()));
    }
    for entry in [Entry::LinkRadius, Entry::LinkRise, Entry::ShaftSlope] {
        all.push((linked(), entry, sealed.clone()));
    }
    for entry in [Entry::FrontCup, Entry::RearEar] {
        all.push((on_seats(false), entry, change.clone()));
    }
    for entry in [Entry::FrontCup, Entry::WantedRearEar] {
        all.push((on_seats(true), entry, wanted.clone()));
    }
    let gearbox = from_ends(ShaftKind::SlipInGearbox);
    all.push((gearbox.clone(), Entry::FrontDepth, wanted.clone()));
    all.push((gearbox.clone(), Entry::BottomedGap, wanted.clone()));
    all.push((gearbox, Entry::SetPoint, [&[SetPoint], &wanted[..]].concat()));
    let flanged = from_ends(ShaftKind::Flanged);
    all.push((flanged.clone(), Entry::FrontDepth, unsealed.clone()));
    all.push((flanged, Entry::RearDepth, unsealed.clone()));
    let on_shaft = from_ends(ShaftKind::SlipOnShaft);
    all.push((on_shaft, Entry::FrontDepth, unsealed));
    all.push((clear_of_it(), Entry::ClearBy, vec![ScrapRing]));
    all
}

#[test]
fn what_was_chosen_asks_for_its_own_field_and_nothing_else_is_lost() {
    for (job, entry, mut names) in what_needs() {
        assert_eq!(lost(&job), [], "{entry:?}");
        let given = || "about so".to_owned();
        let unread = Complaint::Unreadable(Unreadable::NotUnderstood { given: given() });
        for (text, why) in [("", Why::Empty), ("about so", Why::Wrong(unread))] {
            let mut job = job.clone();
            job.put(entry, text);
            let mut gone = lost(&job);
            let order = |name: &Name| format!("{name:?}");
            gone.sort_by_key(order);
            names.sort_by_key(order);
            assert_eq!(gone, names, "{entry:?} {text:?}");
            for name in &names {
                assert_eq!(needs(&job, *name), [Need { entry, why: why.clone() }], "{name:?}");
            }
            assert_ne!(whole(&job).shaft, Standing::Good);
        }
    }
}

/// Every field that the findings of a stage name.
fn asked(job: &Job, stage: Stage) -> Vec<Entry> {
    let mut all: Vec<Entry> = Vec::new();
    for finding in stage.findings(job) {
        if let Answer::Missing(needs) = finding.answer {
            for need in needs.iter().filter(|need| need.why == Why::Empty) {
                if !all.contains(&need.entry) {
                    all.push(need.entry);
                }
            }
        }
    }
    all
}

#[test]
fn an_empty_job_is_asked_for_what_its_choices_need_and_no_more() {
    for (kind, route) in
        ShaftKind::ALL.iter().flat_map(|kind| Route::ALL.iter().map(move |r| (*kind, *r)))
    {
        for (by, guide) in TravelBy::ALL.iter().flat_map(|by| Guide::ALL.iter().map(move |g| (*by, *g)))
        {
            for groove in Groove::ALL {
                let mut job = Job::new(Display::Sixteenth);
                (job.measure.kind, job.measure.route) = (kind, route);
                (job.slip.by, job.slip.guide, job.slip.groove) = (by, guide, *groove);
                job.measure.old_datum.front = Datum::OuterEar;
                job.measure.wanted_datum.rear = Datum::InnerEar;
                // All at once: what the tape was laid on beside the reading.
                let mut expected = vec![
                    Entry::OldReading(0),
                    Entry::FrontEar,
                    Entry::SetPoint,
                    Entry::SplineLength,
                    Entry::BumpTravel,
                    Entry::DroopTravel,
                ];
                // Where the slip stood comes into the length that it was read with: the old one of a
                // shaft with its own slip, the distance between the joints with one in the gearbox.
                if kind != ShaftKind::SlipInGearbox || route != Route::Ends {
                    expected.push(Entry::TakenAt);
                }
                if route != Route::Ends {
                    expected.extend([Entry::WantedReading(0), Entry::WantedRearEar]);
                }
                if route != Route::Joints {
                    expected.extend([Entry::EndsReading(0), Entry::FrontDepth]);
                    match kind {
                        ShaftKind::SlipInGearbox => expected.push(Entry::BottomedGap),
                        ShaftKind::Flanged => expected.push(Entry::RearDepth),
                        ShaftKind::SlipOnShaft => {}
                    }
                }
                match by {
                    TravelBy::Measured => {
                        expected.extend([Entry::AtBump, Entry::AtRide, Entry::AtDroop]);
                    }
                    TravelBy::Reckoned => {
                        expected.push(Entry::ShaftSlope);
                        if guide != Guide::Straight {
                            expected.extend([Entry::LinkRadius, Entry::LinkRise]);
                        }
                    }
                }
                if kind == ShaftKind::SlipInGearbox {
                    expected.extend([Entry::LipDepth, Entry::BarrelLength]);
                    if route == Route::Joints {
                        expected.push(Entry::BottomedGap);
                    }
                    if *groove == Groove::Worn {
                        expected.extend([Entry::GroovePlace, Entry::GrooveWidth]);
                    }
                }
                let names = |mut list: Vec<Entry>| {
                    list.sort_by_key(|entry| entry.name());
                    list.iter().map(|entry| entry.name()).collect::<Vec<_>>()
                };
                let about = format!("{kind:?} {route:?} {by:?} {guide:?} {groove:?}");
                assert_eq!(names(asked(&job, Stage::Measure)), names(expected), "{about}");
            }
        }
    }
}

#[test]
fn what_was_not_chosen_may_hold_anything() {
    // Every field that this shaft's choices do not ask holds nonsense: nothing is lost and nothing
    // judged otherwise.
    let mut job = shaft();
    for entry in [
        Entry::AtBump,
        Entry::AtRide,
        Entry::AtDroop,
        Entry::LinkRadius,
        Entry::LinkRise,
        Entry::FrontCup,
        Entry::RearCup,
        Entry::FrontEar,
        Entry::RearEar,
        Entry::WantedFrontEar,
        Entry::WantedRearEar,
        Entry::FrontDepth,
        Entry::RearDepth,
        Entry::EndsReading(0),
        Entry::ClearBy,
        Entry::ShaftSlopeRead(0),
        Entry::SideOffset,
        Entry::GearboxPlan,
        Entry::ShaftPlan,
        Entry::PinionPlan,
        // The shaft turns in its own joints.
        Entry::FrontVee,
        Entry::RearVee,
        // Eight marks have places by themselves.
        Entry::StationAt(0, 0, 3),
        Entry::OwnLimit,
    ] {
        job.put(entry, "about so");
        assert!(read(&job, entry).is_err());
    }
    for stage in Stage::ALL {
        assert_eq!(stage.findings(&job), stage.findings(&shaft()));
    }
}

#[test]
fn marks_round_the_tube_ask_for_their_own_readings_and_no_places() {
    for stations in Stations::ALL.iter().filter(|stations| stations.evenly().is_some()) {
        let mut job = shaft();
        job.truing.passes = vec![Pass::new(PassKind::Welded, *stations)];
        let readings = (0..stations.evenly().unwrap()).map(|mark| Entry::StationReading(0, 0, mark));
        // An offset needs three points (three unknowns: the middle's two and the mean): the next is named.
        for reading in readings.clone().take(3) {
            let asked = needs(&job, Name::OffsetReading);
            assert_eq!(asked, [Need { entry: reading, why: Why::Empty }], "{stations:?}");
            job.put(reading, "0");
        }
        // From there on it is found, and not judged before the last one.
        for reading in readings.skip(3) {
            assert_eq!(verdict(&job, Name::OffsetReading), Verdict::Unjudged(Reason::PartRead));
            job.put(reading, "0");
        }
        assert_ne!(verdict(&job, Name::OffsetReading), Verdict::Unjudged(Reason::PartRead));
        assert_eq!(lost(&job), []);
    }
}

#[test]
fn the_own_limit_alone_asks_for_its_number() {
    for limit in RunOutLimit::ALL {
        let mut job = with(Entry::OwnLimit, "");
        job.truing.limit = *limit;
        assert_eq!(find(&job, Name::TotalReading).value().is_none(), *limit == RunOutLimit::Own);
    }
}

#[test]
fn a_check_that_was_meant_to_be_fed_is_not_dropped_without_a_word() {
    // Left empty, these prove nothing and stop nothing, and where the old weld line hangs on one that is
    // said; wrong, the tube to take out is not called good.
    let unproved = Verdict::Watch(Reason::WeldLineNotProved);
    for (entry, gone, empty) in [
        (Entry::Shoulder, vec![], unproved),
        (Entry::FarWeldLine, vec![Name::Fit(Fits::Elements)], Verdict::Good),
        (Entry::Spigot, vec![Name::SpigotFit], Verdict::Good),
        (Entry::Trim, vec![Name::ScrapRing], Verdict::Good),
    ] {
        let wrong = with(entry, "about so");
        assert_eq!(
            verdict(&wrong, Name::TubeRemoved),
            Verdict::Unjudged(Reason::WrongField),
            "{entry:?}"
        );
        assert_eq!(lost(&wrong), gone, "{entry:?}");
        for name in gone {
            assert_eq!(needs(&wrong, name)[0].entry, entry);
        }
        assert_eq!(verdict(&with(entry, ""), Name::TubeRemoved), empty, "{entry:?}");
    }
    // A wrong one among the readings of the face, or of the spigot, is named.
    for (entry, name) in
        [(Entry::FaceReading(3), Name::FaceFound), (Entry::SpigotDiameter, Name::SpigotFit)]
    {
        let wrong = with(entry, "about so");
        assert_eq!(lost(&wrong), [name]);
        assert_eq!(needs(&wrong, name)[0].entry, entry);
        assert_eq!(lost(&with(entry, "")), []);
    }
    // The cut clear of the weld is proved by its place, the slot's width and the spigot: without any of
    // them, empty or wrong, nothing is. Opening the old weld the slot's width decides nothing.
    for entry in [Entry::ClearBy, Entry::Kerf, Entry::Spigot] {
        for text in ["", "about so"] {
            let mut clear = clear_of_it();
            clear.put(entry, text);
            let wrong = entry == Entry::Spigot && !text.is_empty();
            let reason = if wrong { Reason::WrongField } else { Reason::FirstCutNotProved };
            assert_eq!(verdict(&clear, Name::TubeRemoved), Verdict::Unjudged(reason), "{entry:?}");
        }
    }
    assert_eq!(verdict(&with(Entry::Kerf, "about so"), Name::TubeRemoved), Verdict::Good);
}

#[test]
fn all_that_a_length_needs_is_asked_at_once() {
    let asked = |job: &Job, name: Name| needs(job, name).iter().map(|n| n.entry).collect::<Vec<_>>();
    let mut job = Job::new(Display::Sixteenth);
    let pair = DatumPair { front: Datum::OuterSeat, rear: Datum::OuterEar };
    (job.measure.old_datum, job.measure.wanted_datum) = (pair, pair);
    job.measure.yoke_at = YokeAt::Bottomed;
    // The reading first, then what brings it to the joints; the cup once for both lengths.
    let old = [Entry::OldReading(0), Entry::FrontCup, Entry::RearEar];
    let wanted = [Entry::WantedReading(0), Entry::FrontCup, Entry::WantedRearEar, Entry::SetPoint];
    assert_eq!(asked(&job, Name::WantedLength), wanted);
    let both = [&old[..], &[wanted[0], wanted[2], wanted[3]]].concat();
    assert_eq!(asked(&job, Name::LengthChange), both);
    // A slip in the shaft: the set point is the old length's.
    job.measure.kind = ShaftKind::SlipOnShaft;
    assert_eq!(asked(&job, Name::WantedLength), wanted[..3]);
    let both = [&old[..], &[Entry::SetPoint, wanted[0], wanted[2]]].concat();
    assert_eq!(asked(&job, Name::LengthChange), both);
    // From the ends, and both ways.
    (job.measure.kind, job.measure.route) = (ShaftKind::SlipInGearbox, Route::Ends);
    let ends = [Entry::EndsReading(0), Entry::BottomedGap, Entry::SetPoint, Entry::FrontDepth];
    assert_eq!(asked(&job, Name::WantedLength), ends);
    job.measure.route = Route::Both;
    let both = [&wanted[..], &[ends[0], ends[1], ends[3]]].concat();
    assert_eq!(asked(&job, Name::RoutesDiffer), both);
    // A wrong reading hides nothing that is empty beside it.
    job.put(Entry::WantedReading(1), "about so");
    let mut said = wanted;
    said[0] = Entry::WantedReading(1);
    assert_eq!(asked(&job, Name::WantedLength), said);
}

#[test]
fn the_set_point_is_asked_where_it_comes_in() {
    // Pushed in or drawn out by what was measured, either kind reckons it in; read at it, neither length
    // needs it.
    for kind in ShaftKind::ALL {
        let mut job = with_all(&[(Entry::SetPoint, ""), (Entry::TakenAt, "")]);
        job.measure.kind = *kind;
        job.measure.yoke_at = YokeAt::SetPoint;
        assert!(find(&job, Name::LengthChange).value().is_some(), "{kind:?}");
        for (yoke_at, asked) in [
            (YokeAt::Bottomed, &[Entry::SetPoint][..]),
            (YokeAt::Drawn, &[Entry::SetPoint, Entry::TakenAt]),
        ] {
            job.measure.yoke_at = yoke_at;
            let named: Vec<Entry> = needs(&job, Name::LengthChange).iter().map(|n| n.entry).collect();
            assert_eq!(named, asked, "{kind:?}");
            let wanted = find(&job, Name::WantedLength).value().is_none();
            assert_eq!(wanted, *kind == ShaftKind::SlipInGearbox, "{kind:?}");
        }
    }
    assert!(value(&shaft(), Name::SetPoint).plus_minus.is_some());
}
