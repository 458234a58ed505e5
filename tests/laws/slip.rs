//! Laws of the slip: what a set point moves, and what a mirror leaves alone.

use shaftwright::job::{Entry, Guide, Job, ShaftKind, TravelBy, YokeAt};
use shaftwright::quantity::in_inches;
use shaftwright::stage::seal::lip_band;
use shaftwright::stage::slip::travel;
use shaftwright::stage::{Name, Reason, Verdict};

use super::Luck;
use super::shaft::{find, number, value, without_gearbox};

/// A travel measured or reckoned, by any guide.
fn any_travel(luck: &mut Luck) -> Job {
    let mut job = without_gearbox();
    // Read again wherever the set point is, so that it does not move the length.
    job.measure.yoke_at = YokeAt::SetPoint;
    job.slip.by = luck.choice::<TravelBy>();
    job.slip.guide = luck.choice::<Guide>();
    for (entry, least, most) in [
        (Entry::BumpTravel, 1.0, 5.0),
        (Entry::DroopTravel, 1.0, 6.0),
        (Entry::ShaftSlope, -8.0, 8.0),
        (Entry::LinkRadius, 15.0, 40.0),
        (Entry::LinkRise, -4.0, 4.0),
        (Entry::AtBump, 59.8, 60.2),
        (Entry::AtRide, 59.9, 60.1),
        (Entry::AtDroop, 60.1, 60.7),
    ] {
        job.put(entry, &format!("{:.4}", luck.between(least, most)));
    }
    job
}

/// Room left at bump, engaged spline, and both edges of the lip's band.
fn left(job: &Job) -> [f64; 4] {
    let room = number(find(job, Name::PlungeIn).working[1].gives);
    // What the working says, since a spline drawn out altogether is shown as nothing.
    let engaged = number(find(job, Name::EngagedSpline).working[0].gives);
    let band = lip_band(job).unwrap();
    [room, engaged, in_inches(band.from), in_inches(band.to)]
}

#[test]
fn a_set_point_moves_room_and_spline_against_each_other() {
    let mut luck = Luck(21);
    for _ in 0..200 {
        let mut job = any_travel(&mut luck);
        let [room, engaged, from, to] = left(&job);
        // Pushed in deeper by so much: room is lost, spline gained, and the lip runs further in. The
        // travel itself rests on the shaft's length, which the set point does not change here.
        let deeper = luck.between(-0.8, 0.8);
        job.put(Entry::SetPoint, &format!("{:.9}", 0.875 - deeper));
        let after = left(&job);
        for (got, expected) in
            after.into_iter().zip([room - deeper, engaged + deeper, from - deeper, to - deeper])
        {
            assert!((got - expected).abs() < 1e-8, "{got} and {expected}");
        }
    }
}

#[test]
fn a_way_out_of_the_groove_is_enough_and_none_is_kept_back() {
    let (mut luck, mut told, mut none) = (Luck(25), 0, 0);
    for round in 0..300 {
        let mut job = any_travel(&mut luck);
        for (entry, least, most) in [
            (Entry::GroovePlace, 1.3, 2.3),
            (Entry::GrooveWidth, 0.05, 0.2),
            (Entry::SplineLength, 3.0, 5.0),
            (Entry::BarrelLength, 2.6, 4.0),
        ] {
            job.put(entry, &format!("{:.4}", luck.between(least, most)));
        }
        // Read again at the set point, or once for all where the slip then stood.
        job.measure.yoke_at = if round % 2 == 0 { YokeAt::SetPoint } else { YokeAt::Drawn };
        let lip = find(&job, Name::LipBand);
        let Verdict::Watch(Reason::LipInGroove { out, inward }) = lip.verdict else { continue };
        // As far as the groove's edge, the margin and the ± ask, by definition.
        let band = lip_band(&job).unwrap();
        let (inner, outer) = band.groove.unwrap();
        let clear = in_inches(band.margin) + number(lip.value().unwrap().plus_minus.unwrap());
        for (offered, needed, way) in [
            (out, in_inches(outer - band.from) + clear, 1.0),
            (inward, in_inches(band.to - inner) + clear, -1.0),
        ] {
            let mut moved = job.clone();
            // Where the length follows the set point its travel and its ± do too, a little.
            let follows = job.measure.yoke_at == YokeAt::Drawn;
            let needed = offered.filter(|_| follows).map_or(needed, in_inches);
            // A hair further, for what the text of it rounds off; a hair less is not enough.
            let at = |by: f64| format!("{:.9}", 0.875 + way * by);
            moved.put(Entry::SetPoint, &at(needed - 1e-5));
            let less = find(&moved, Name::LipBand).verdict;
            moved.put(Entry::SetPoint, &at(needed + 1e-8));
            let slip = [Name::PlungeIn, Name::PlungeOut, Name::EngagedSpline, Name::LipBand];
            let stops = |name: &Name| {
                let verdict = find(&moved, *name).verdict;
                // Further than the slip goes at all, the set point itself is refused.
                matches!(verdict, Verdict::Stop(_) | Verdict::NotYet)
            };
            match offered {
                Some(by) => {
                    assert!((in_inches(by) - needed).abs() < 1e-9);
                    assert_eq!(find(&moved, Name::LipBand).verdict, Verdict::Good);
                    assert_eq!(less, Verdict::Watch(Reason::NearGroove));
                    assert!(!slip.iter().any(stops));
                    told += 1;
                }
                None if follows => {}
                None => {
                    assert!(slip.iter().any(stops), "{way} by {needed}");
                    none += 1;
                }
            }
        }
    }
    assert!(told > 30 && none > 30, "{told} {none}");
}

#[test]
fn a_level_shaft_minds_height_and_not_direction() {
    let mut luck = Luck(22);
    for _ in 0..200 {
        let mut job = any_travel(&mut luck);
        job.slip.by = TravelBy::Reckoned;
        job.slip.guide = Guide::Straight;
        job.measure.kind = luck.choice::<ShaftKind>();
        job.put(Entry::ShaftSlope, "0");
        let (bump, droop) = (luck.between(0.5, 6.0), luck.between(0.5, 6.0));
        let goes = |bump: f64, droop: f64, slope: f64| {
            let mut job = job.clone();
            job.put(Entry::BumpTravel, &format!("{bump:.6}"));
            job.put(Entry::DroopTravel, &format!("{droop:.6}"));
            job.put(Entry::ShaftSlope, &format!("{slope:.6}"));
            let found = travel(&job).unwrap();
            [found.inward, found.outward, found.inward_at, found.spread.standard].map(in_inches)
        };
        // Level at ride: bump and droop may change places, and the shaft never gets shorter.
        let (there, back) = (goes(bump, droop, 0.0), goes(droop, bump, 0.0));
        assert!(there[0].abs() < 1e-9 && (there[1] - back[1]).abs() < 1e-9);
        assert!((there[3] - back[3]).abs() < 1e-9);
        // The longer way is to the farther end: Pythagoras, by definition. With its front joint fixed the
        // shaft is the long side; on a level output shaft it is, with the height, what the square leaves.
        let length = in_inches(shaftwright::stage::measure::wanted(&job).unwrap().best);
        let height = bump.max(droop);
        let by_hand = match job.measure.kind {
            ShaftKind::SlipInGearbox => length - (length * length - height * height).sqrt(),
            _ => length.hypot(height) - length,
        };
        assert!((there[1] - by_hand).abs() < 1e-6, "{} and {by_hand}", there[1]);
        // Sloping down with bump first is sloping up with droop first.
        let slope = luck.between(-10.0, 10.0);
        let (down, up) = (goes(bump, droop, slope), goes(droop, bump, -slope));
        assert!((down[0] - up[0]).abs() < 1e-9 && (down[1] - up[1]).abs() < 1e-9);
        assert!((down[2] + up[2]).abs() < 1e-4);
    }
}

#[test]
fn a_link_as_long_as_the_road_guides_straight() {
    // A circle of 2500 mm round a pivot level with the axle bends by h²/2R: 0.0005 in for a tenth.
    let mut luck = Luck(23);
    for _ in 0..50 {
        let mut job = any_travel(&mut luck);
        job.slip.by = TravelBy::Reckoned;
        for (entry, text) in [
            (Entry::LinkRadius, "2500 mm"),
            (Entry::LinkRise, "0"),
            (Entry::BumpTravel, "0.1"),
            (Entry::DroopTravel, "0.1"),
        ] {
            job.put(entry, text);
        }
        let goes = |guide: Guide| {
            let mut job = job.clone();
            job.slip.guide = guide;
            let found = travel(&job).unwrap();
            [found.inward, found.outward].map(in_inches)
        };
        let [straight, trailing, leading] = [Guide::Straight, Guide::Trailing, Guide::Leading].map(goes);
        let bends = 0.1_f64.powi(2) / (2.0 * 2500.0 / 25.4);
        for end in 0..2 {
            // Either way round the pivot by as much.
            assert!((trailing[end] - straight[end]).abs() <= bends * 1.01);
            assert!((leading[end] - straight[end]).abs() <= bends * 1.01);
        }
    }
}

#[test]
fn more_travel_never_leaves_more() {
    let mut luck = Luck(24);
    for _ in 0..100 {
        let mut job = any_travel(&mut luck);
        job.slip.by = TravelBy::Reckoned;
        // Links that every one of these travels can follow.
        job.put(Entry::LinkRadius, "24");
        let mut last = [f64::INFINITY; 2];
        for droop in ["1", "2", "4", "6"] {
            job.put(Entry::DroopTravel, droop);
            let here = left(&job);
            assert!(here[0] <= last[0] + 1e-9 && here[1] <= last[1] + 1e-9);
            last = [here[0], here[1]];
        }
        assert!(value(&job, Name::LipBand).plus_minus.is_some());
    }
}
