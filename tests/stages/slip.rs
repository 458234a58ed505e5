//! The slip on the invented shaft: travel, room at bump, spline at droop, where the seal runs.

use shaftwright::job::{Choice, Display, Entry, Groove, Guide, Job, ShaftKind, TravelBy, YokeAt};
use shaftwright::quantity::{as_millimetres, in_inches};
use shaftwright::sheet::verdict_reason;
use shaftwright::stage::seal::lip_band;
use shaftwright::stage::slip::travel;
use shaftwright::stage::{Name, Reason, Sense, Source, Stage, Standing, Verdict, whole};

use super::EXACT;
use super::shaft::{agrees, by_hand, find, number, value, verdict, without_gearbox as shaft};

/// The gearbox's slope not read: the output shaft is taken to lie as the shaft does.
fn with_all(fields: &[(Entry, &str)]) -> Job {
    let mut job = shaft();
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

fn with(entry: Entry, text: &str) -> Job {
    with_all(&[(entry, text)])
}

/// In, out, room and engaged spline with their ±, against the script.
fn goes(job: &Job, key: &str) {
    let hand = |what: &str| by_hand(&format!("{key} {what}"));
    agrees(value(job, Name::PlungeIn), hand("in"), Some(hand("in doubt")), EXACT);
    agrees(value(job, Name::PlungeOut), hand("out"), Some(hand("out doubt")), EXACT);
    agrees(value(job, Name::EngagedSpline), hand("engaged"), Some(hand("out doubt")), EXACT);
    let room = find(job, Name::PlungeIn).working[1].gives;
    assert!((number(room) - hand("room")).abs() < 1e-6, "{room:?}");
}

#[test]
fn travel_from_the_slope() {
    let job = shaft();
    goes(&job, "slip");
    // With the gearbox's slope read at Angles the yoke slides along that.
    goes(&super::shaft::shaft(), "slip along gearbox");
    // A slip in the shaft: the front joint stays where it is, and the wanted length is the same.
    let mut in_shaft = shaft();
    in_shaft.measure.kind = ShaftKind::SlipOnShaft;
    goes(&in_shaft, "slip in shaft");
    // About level and evenly moved the slope's ± does not cancel.
    for (entry, text) in [(Entry::ShaftSlope, "0"), (Entry::BumpTravel, "3"), (Entry::DroopTravel, "3")]
    {
        in_shaft.put(entry, text);
    }
    goes(&in_shaft, "slip in shaft about level");
    assert!(find(&job, Name::PlungeIn).sources.contains(&Source::DoubtOfTravel));
    // By hand: 7/8 less 1/4 of room; 4 less 1-1/2 less 7/8.
    for (name, there_is) in [(Name::PlungeIn, 0.625), (Name::PlungeOut, 1.625)] {
        let Some(Sense::Of { available }) = value(&job, name).sense else { panic!("{name:?}") };
        assert!((in_inches(available) - there_is).abs() < 1e-9);
    }
}

#[test]
fn shortest_inside_the_travel() {
    // Neither end is the shortest: looking at the ends alone would find less than half of it.
    let job = with(Entry::ShaftSlope, "2");
    goes(&job, "slip level inside");
    // The height is found to a ten-thousandth of a millimetre (src/mechanics/extremes.rs).
    let at = |job: &Job, key: &str| {
        let off = in_inches(travel(job).unwrap().inward_at) - by_hand(&format!("{key} in at"));
        assert!(off.abs() < 1e-4 / 25.4, "{off}");
    };
    at(&job, "slip level inside");
    let job = measured();
    goes(&job, "slip measured");
    at(&job, "slip measured");
    assert!(!find(&job, Name::PlungeIn).sources.contains(&Source::DoubtOfTravel));
}

/// The travel measured at bump, ride and droop.
fn measured() -> Job {
    let mut job = with_all(&[
        (Entry::AtBump, "60-1/32"),
        (Entry::AtRide, "60-1/16"),
        (Entry::AtDroop, "60-9/16"),
        (Entry::ShaftSlope, ""),
    ]);
    job.slip.by = TravelBy::Measured;
    job
}

#[test]
fn an_axle_on_a_link() {
    for (guide, radius, rise, key) in
        [(Guide::Trailing, "24", "-1", "slip trailing"), (Guide::Leading, "20", "2", "slip leading")]
    {
        let mut job = with_all(&[(Entry::LinkRadius, radius), (Entry::LinkRise, rise)]);
        job.slip.guide = guide;
        goes(&job, key);
        // A link shorter than the travel it must follow is no link.
        job.put(Entry::LinkRadius, "5");
        for name in [Name::PlungeIn, Name::PlungeOut, Name::EngagedSpline, Name::LipBand] {
            assert_eq!(verdict(&job, name), Verdict::Stop(Reason::TravelUnfit), "{guide:?} {name:?}");
        }
    }
}

/// The shaft with its wanted distance read while the slip stood at this set point.
fn read_at(set_point: &str) -> Job {
    with_all(&[(Entry::SetPoint, set_point), (Entry::TakenAt, set_point)])
}

#[test]
fn room_at_bump() {
    // By hand of the script's 0.1810 in and ± 0.0885: set points that leave 1/4 and more than the ±,
    // less than it, and nothing.
    for (set_point, expected) in [("0.53", "good"), ("0.50", "watch"), ("0.43", "stop"), ("0.1", "stop")]
    {
        let job = read_at(set_point);
        let got = match verdict(&job, Name::PlungeIn) {
            Verdict::Good => "good",
            Verdict::Watch(Reason::NearBump { .. }) => "watch",
            Verdict::Stop(Reason::TooCloseToBump { least }) => {
                assert!((in_inches(least) - 0.25).abs() < 1e-12);
                "stop"
            }
            other => panic!("{other:?}"),
        };
        assert_eq!(got, expected, "{set_point}");
    }
    // By hand: as many sixteenths shorter at bump as the set point has over 1/4 leave the 1/4 wanted, the
    // least and not less, whatever the last bit of the sum says; and so at droop with 1-1/2 of spline.
    for k in 1..=12 {
        let sixteenths = |count: i32| format!("{}", f64::from(count) / 16.0);
        let out = k + k / 2 + 2;
        let mut exact = with_all(&[
            (Entry::AtBump, &sixteenths(960 - k)),
            (Entry::AtRide, &sixteenths(960)),
            (Entry::AtDroop, &sixteenths(960 + out)),
            (Entry::SetPoint, &sixteenths(4 + k)),
            (Entry::SplineLength, &sixteenths(24 + 4 + k + out)),
        ]);
        exact.slip.by = TravelBy::Measured;
        let said = verdict(&exact, Name::PlungeIn);
        assert!(matches!(said, Verdict::Watch(Reason::NearBump { .. })), "{k}: {said:?}");
        let said = verdict(&exact, Name::EngagedSpline);
        assert!(matches!(said, Verdict::Watch(Reason::NearLeastSpline { .. })), "{k}: {said:?}");
    }
    // The mechanic's own least room.
    let own = with(Entry::BumpRoom, "3/4");
    assert!(matches!(verdict(&own, Name::PlungeIn), Verdict::Stop(Reason::TooCloseToBump { .. })));
}

#[test]
fn a_shaft_that_may_come_out_long_is_in_the_room() {
    // By hand: the script's u of each length is 0.01276, so that their two add 0.03536 at 95 %; without
    // them the room's ± would be the root of 0.0885² − 0.0354², 0.0812. An old length known worse
    // takes room, spline and lip with it: readings 57-5/16 and 57-1/16 have a half-range of 1/8, and at
    // 95 % that alone is 0.1415.
    let (room, alone) = (by_hand("slip in doubt"), by_hand("change doubt"));
    let without = (room * room - alone * alone).sqrt();
    assert!((without - 0.0812).abs() < 5e-5);
    let wide = with_all(&[(Entry::OldReading(1), "57-1/16"), (Entry::OldReading(2), "")]);
    let doubt = |job: &Job, name: Name| number(value(job, name).plus_minus.unwrap());
    for name in [Name::PlungeIn, Name::PlungeOut, Name::EngagedSpline, Name::LipBand] {
        let (here, there) = (doubt(&wide, name), doubt(&shaft(), name));
        let [change, usual] = [&wide, &shaft()].map(|job| doubt(job, Name::LengthChange));
        // Only the change's own ± has grown, and by as much in squares.
        let grown = here * here - there * there - (change * change - usual * usual);
        assert!(grown.abs() < 1e-9 && here > 0.1415, "{name:?}: {here}");
    }
    // A set point that left room enough by a good old length leaves it only within the ± by that one.
    let near = |mut job: Job| {
        job.put(Entry::SetPoint, "0.53");
        job.put(Entry::TakenAt, "0.53");
        verdict(&job, Name::PlungeIn)
    };
    assert_eq!(near(shaft()), Verdict::Good);
    assert!(matches!(near(wide), Verdict::Watch(Reason::NearBump { .. })));
}

#[test]
fn spline_at_droop() {
    // By hand of the script's 0.5735 out and ± 0.0903: 1-1/2 engaged needs 2.9485 of spline.
    for (spline, expected) in
        [("3.05", "good"), ("3.03", "watch"), ("3", "watch"), ("2.94", "stop"), ("1.2", "stop")]
    {
        let job = with_all(&[(Entry::SplineLength, spline), (Entry::LeastEngaged, "1.5")]);
        // Less spline than shall stay engaged cannot be typed: then that stands in the way.
        if spline == "1.2" {
            assert_eq!(verdict(&job, Name::EngagedSpline), Verdict::NotYet);
            continue;
        }
        for name in [Name::PlungeOut, Name::EngagedSpline] {
            let got = match verdict(&job, name) {
                Verdict::Good => "good",
                Verdict::Watch(Reason::NearLeastSpline { .. }) => "watch",
                Verdict::Stop(Reason::TooLittleSpline { .. }) => "stop",
                other => panic!("{other:?}"),
            };
            assert_eq!(got, expected, "{spline} {name:?}");
        }
    }
    // Out of its spline altogether nothing is engaged, and it is said.
    let out = with_all(&[(Entry::SplineLength, "1.6"), (Entry::SetPoint, "1.5")]);
    assert_eq!(number(value(&out, Name::EngagedSpline).amount), 0.0);
    assert_eq!(whole(&out).shaft, Standing::Stop);
}

#[test]
fn where_the_lip_runs() {
    for (job, key) in [(shaft(), "lip"), (measured(), "lip measured")] {
        let lip = value(&job, Name::LipBand);
        let doubt = if key == "lip" { "slip lip doubt" } else { "slip measured lip doubt" };
        agrees(lip, by_hand(&format!("{key} from")), Some(by_hand(doubt)), EXACT);
        let Some(Sense::UpTo { to }) = lip.sense else { panic!("{lip:?}") };
        assert!((in_inches(to) - by_hand(&format!("{key} to"))).abs() < 1e-6);
        assert_eq!(verdict(&job, Name::LipBand), Verdict::Good);
    }
    // No groove to feel: nothing of it is asked, and the barrel's end alone is looked at.
    let mut none =
        with_all(&[(Entry::GroovePlace, ""), (Entry::GrooveWidth, ""), (Entry::GrooveMargin, "")]);
    none.slip.groove = Groove::None;
    assert_eq!(verdict(&none, Name::LipBand), Verdict::Good);
    // A slip in the shaft has no seal on a gearbox.
    let mut on_shaft = shaft();
    on_shaft.measure.kind = ShaftKind::SlipOnShaft;
    assert!(Stage::Measure.findings(&on_shaft).iter().all(|finding| finding.name != Name::LipBand));
}

#[test]
fn a_lip_in_the_groove_and_its_ways_out() {
    let in_groove = |changes: &[(Entry, &str)]| {
        let mut job = with(Entry::GroovePlace, "2");
        // The length is read again wherever the set point is, so that it does not move the length.
        job.measure.yoke_at = YokeAt::SetPoint;
        changes.iter().for_each(|(entry, text)| job.put(*entry, text));
        match verdict(&job, Name::LipBand) {
            Verdict::Watch(Reason::LipInGroove { out, inward }) => (out, inward),
            other => panic!("{other:?}"),
        }
    };
    let (out, inward) = in_groove(&[]);
    for (by, key) in [(out, "lip slid out"), (inward, "lip slid in")] {
        assert!((in_inches(by.unwrap()) - by_hand(key)).abs() < 1e-6, "{key}");
    }
    // Taken at their word the lip stands off by the margin and its ±, and neither room nor spline stops
    // it; a hair less, and the ± is not clear.
    for (way, hair) in [(out.unwrap(), -1e-3), (-inward.unwrap(), 1e-3)] {
        let moved = |by: f64| {
            let at = format!("{:.7} mm", 0.875 * 25.4 + as_millimetres(way) + by);
            with_all(&[(Entry::GroovePlace, "2"), (Entry::SetPoint, &at), (Entry::TakenAt, &at)])
        };
        let job = moved(0.0);
        let band = lip_band(&job).unwrap();
        let (inner, outer) = band.groove.unwrap();
        let off = in_inches(if inner > band.to { inner - band.to } else { band.from - outer });
        assert!((off - (1.0 / 16.0 + by_hand("slip lip doubt"))).abs() < 1e-6, "{off}");
        for name in [Name::PlungeIn, Name::PlungeOut, Name::EngagedSpline] {
            assert!(!matches!(verdict(&job, name), Verdict::Stop(_)), "{name:?}");
        }
        assert_eq!(verdict(&job, Name::LipBand), Verdict::Good);
        assert_eq!(verdict(&moved(hair), Name::LipBand), Verdict::Watch(Reason::NearGroove));
    }
    // A way that leaves too little spline, too little room or no barrel is not offered.
    let (out, inward) = in_groove(&[(Entry::SplineLength, "3-1/2")]);
    assert!(out.is_none() && inward.is_some());
    let (out, inward) = in_groove(&[(Entry::BumpRoom, "1/2")]);
    assert!(out.is_some() && inward.is_none());
    // By hand: 2.1985 and 0.7746 out is 2.9731, and 0.0937 of ± beyond it 3.0668.
    for (barrel, on_it) in [("2-3/4", false), ("3", false), ("3.06", false), ("3.08", true)] {
        let (out, inward) = in_groove(&[(Entry::BarrelLength, barrel)]);
        assert!(out.is_some() == on_it && inward.is_some(), "{barrel}");
    }
    let (out, inward) = in_groove(&[(Entry::SplineLength, "3-1/2"), (Entry::BumpRoom, "1/2")]);
    assert!(out.is_none() && inward.is_none());
}

#[test]
fn what_is_said_of_the_set_point_is_done_without_reading_anew() {
    // Read at 3/8, which leaves too little room at bump. By hand: 1/2 more of set point is 1/2 less of
    // shaft, since the joint behind stays where it is, and 1/2 more to take out; and room enough.
    let short = read_at("3/8");
    assert!(matches!(verdict(&short, Name::PlungeIn), Verdict::Stop(Reason::TooCloseToBump { .. })));
    let mut told = short.clone();
    told.put(Entry::SetPoint, "7/8");
    assert_eq!(verdict(&told, Name::PlungeIn), Verdict::Good);
    let of = |job: &Job, name: Name| number(value(job, name).amount);
    for (name, by) in [(Name::WantedLength, -0.5), (Name::LengthChange, 0.5), (Name::TubeRemoved, 0.5)] {
        assert!((of(&told, name) - of(&short, name) - by).abs() < 1e-9, "{name:?}");
    }
    // And out of the groove, either way, by just what is said.
    let in_groove = with(Entry::GroovePlace, "2");
    let Verdict::Watch(Reason::LipInGroove { out, inward }) = verdict(&in_groove, Name::LipBand) else {
        panic!("{:?}", verdict(&in_groove, Name::LipBand))
    };
    for (by, way) in [(out, 1.0), (inward, -1.0)] {
        let by = in_inches(by.unwrap()) * way;
        let mut told = in_groove.clone();
        told.put(Entry::SetPoint, &format!("{:.9}", 0.875 + by));
        assert_eq!(verdict(&told, Name::LipBand), Verdict::Good);
        let longer = of(&told, Name::LengthChange) - of(&in_groove, Name::LengthChange);
        assert!((longer - by).abs() < 1e-8, "{longer} and {by}");
    }
}

/// What the advice says after these words, as a text to be typed.
fn told(said: &str, words: &str) -> String {
    let (_, rest) = said.split_once(words).unwrap_or_else(|| panic!("no {words:?} in {said:?}"));
    rest.split_once(" further").unwrap().0.to_owned()
}

#[test]
fn what_is_said_against_the_groove_is_enough_in_every_display() {
    // The words, not the numbers behind them: rounded to nearest, half of them would end in the groove's
    // ± again. Grooves that have both ways out, at places that leave other last digits each.
    for step in 0..20 {
        let groove = format!("{:.5}", 1.985 + 0.003_53 * f64::from(step));
        let in_groove = with(Entry::GroovePlace, &groove);
        for display in Display::ALL {
            let said = verdict_reason(&find(&in_groove, Name::LipBand), display.lengths()).unwrap();
            for (words, way) in [("slip out at least ", 1.0), ("Push it in at least ", -1.0)] {
                let by = read_length(&told(&said, words));
                let at = format!("{:.7} mm", 0.875 * 25.4 + way * by);
                let mut job = with_all(&[(Entry::GroovePlace, &groove), (Entry::SetPoint, &at)]);
                assert_eq!(verdict(&job, Name::LipBand), Verdict::Good, "{said}");
                // And where the length is read again with the slip standing there.
                job.put(Entry::TakenAt, &at);
                assert_eq!(verdict(&job, Name::LipBand), Verdict::Good, "{said}");
            }
        }
    }
}

/// A length as it is shown with decimals, in millimetres.
fn read_length(text: &str) -> f64 {
    let (number, unit) = text.split_once(' ').unwrap();
    number.parse::<f64>().unwrap() * if unit == "mm" { 1.0 } else { 25.4 }
}

#[test]
fn close_to_the_groove_or_to_the_barrels_end() {
    // By hand: the lip's inner edge at 1.4440; a groove of 1/8 whose edge is 0.10 off, past the margin
    // of 1/16 by less than the ± of 0.0937.
    let near = with(Entry::GroovePlace, "1.28");
    assert_eq!(verdict(&near, Name::LipBand), Verdict::Watch(Reason::NearGroove));
    // The lip's outer edge at 2.1985 and its ± of 0.0937: a barrel that ends 0.0885 further is inside it,
    // one that ends 0.0985 further is not.
    for (barrel, stops) in [("2.247", true), ("2.287", true), ("2.297", false), ("2.1", true)] {
        let job = with(Entry::BarrelLength, barrel);
        assert_eq!(
            verdict(&job, Name::LipBand) == Verdict::Stop(Reason::LipOffBarrel),
            stops,
            "{barrel}"
        );
    }
}
