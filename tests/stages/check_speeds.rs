//! Check on the invented shaft: how fast it turns, and what makes it so.
//!
//! By tests/handbook/shaft_check.py unless another source is named.

use shaftwright::job::{Entry, Job, TyreBy, WhirlShare};
use shaftwright::quantity::{as_miles_per_hour, as_rpm};
use shaftwright::stage::check::{Fastest, Fit, FitReason, FitSense, gears, road_at};
use shaftwright::stage::{Name, Verdict};

use super::check::{amount, checked, doubt, find, near, needed, sense, vehicle, watched};
use super::shaft::{number, shaft, with_all};

#[test]
fn every_gear_and_the_road() {
    let job = vehicle(&[]);
    for (row, speed) in gears(&job) {
        near(as_rpm(speed), checked(&format!("gear {row}")), 1e-9);
    }
    assert_eq!(gears(&job).len(), 5);
    let road = road_at(&job, gears(&job)[4].1).unwrap();
    near(as_miles_per_hour(road), checked("mph in fifth"), 1e-8);
    // The lesser of both, since neither can be passed; the engine's own is told beside it.
    near(amount(&job, Fit::TopSpeed), checked("road 80"), 1e-8);
    near(doubt(&job, Fit::TopSpeed), checked("road 80 doubt"), 1e-8);
    let FitSense::Fastest { by: Fastest::Road(road), engine: Some(engine) } = sense(&job, Fit::TopSpeed)
    else {
        panic!()
    };
    near(as_miles_per_hour(road), 80.0, 1e-9);
    near(as_rpm(engine), checked("gear 4"), 1e-9);
    // On either side of where the fifth gear ends.
    for (mph, by_gear) in [("142.85", false), ("142.86", true)] {
        let job = vehicle(&[(Entry::RoadTop, &format!("{mph} mph"))]);
        let FitSense::Fastest { by, .. } = sense(&job, Fit::TopSpeed) else { panic!() };
        assert_eq!(by == Fastest::Gear(4), by_gear, "{mph}");
    }
    // Every other way to know the tyre.
    for (by, entry, text, key) in [
        (TyreBy::Turns, Entry::TyreTurns, "750 /mi", "road 80 by turns"),
        (TyreBy::RolledOut, Entry::RolledOut, "84.5", "road 80 rolled out"),
    ] {
        let mut job = vehicle(&[(Entry::TyreSize, ""), (entry, text)]);
        job.check.speeds.tyre_by = by;
        near(amount(&job, Fit::TopSpeed), checked(key), 1e-9);
        // ±1 % of either, our own choice.
        near(doubt(&job, Fit::TopSpeed), 0.01 * checked(key), 1e-9);
    }
}

#[test]
fn what_makes_it_turn_so_fast_is_judged() {
    // By the engine alone.
    let job = vehicle(&[(Entry::RoadTop, "")]);
    near(amount(&job, Fit::TopSpeed), checked("gear 4"), 1e-9);
    assert_eq!(sense(&job, Fit::TopSpeed), FitSense::Fastest { by: Fastest::Gear(4), engine: None });
    // By the road alone nothing stops an engine.
    let job = vehicle(&[(Entry::EngineLimit, "")]);
    assert_eq!(watched(&job, Fit::TopSpeed), FitReason::RoadOnly);
    // What was typed goes before; less than engine and road make by over 2 % of it (our own choice) is said.
    let least = checked("road 80") / 1.02;
    for (typed, said) in [(least + 1.0, false), (least - 1.0, true)] {
        let job = slow(&[(Entry::TopSpeed, &format!("{typed:.3}"))]);
        near(amount(&job, Fit::TopSpeed), typed, 1e-6);
        if said {
            let FitReason::FasterThanTyped { reckoned } = watched(&job, Fit::TopSpeed) else { panic!() };
            near(as_rpm(reckoned), checked("road 80"), 1e-8);
        } else {
            assert_eq!(find(&job, Fit::TopSpeed).verdict, Verdict::Figure);
        }
    }
    // More than the engine makes by over 2 % of it (our own choice): by hand, 3120 rpm over 0.78.
    for (typed, said) in [(4000.0 * 1.02 - 1.0, false), (4000.0 * 1.02 + 1.0, true)] {
        let job = slow(&[(Entry::TopSpeed, &format!("{typed:.3}"))]);
        if said {
            let FitReason::NothingMakesIt { reckoned } = watched(&job, Fit::TopSpeed) else { panic!() };
            near(as_rpm(reckoned), 4000.0, 1e-9);
        } else {
            assert_eq!(find(&job, Fit::TopSpeed).verdict, Verdict::Figure);
        }
    }
    // Nothing of it: the one field that would do.
    assert_eq!(needed(&with_all(&[(Entry::TopSpeed, "")]), Fit::TopSpeed), [Entry::TopSpeed]);
    // The share is judged by what was reckoned as by what was typed.
    let mut typed = shaft();
    typed.put(Entry::TopSpeed, &format!("{:.9}", checked("road 80")));
    let share = |job: &Job| super::shaft::value(job, Name::SpeedShare).amount;
    near(number(share(&vehicle(&[]))), number(share(&typed)), 1e-8);
    // And what the tyre leaves open of the speed is in its ±, beside what the tube does.
    let doubt = |job: &Job| number(super::shaft::value(job, Name::SpeedShare).plus_minus.unwrap());
    let whirl = super::shaft::by_hand("whirl");
    let own = super::shaft::by_hand("whirl doubt") / whirl;
    near(doubt(&typed), checked("road 80") / whirl * own, 1e-4);
    let tyre = checked("road 80 doubt") / checked("road 80");
    near(doubt(&vehicle(&[])), checked("road 80") / whirl * own.hypot(tyre), 1e-4);
}

/// The vehicle with an engine that turns the shaft no faster than 4000 rpm, under 0.70 of the whirl speed (by hand:
/// 3120 rpm over 0.78, against 0.70 of 6349 rpm).
fn slow(entries: &[(Entry, &str)]) -> Job {
    let mut job = vehicle(&[(Entry::EngineLimit, "3120")]);
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

#[test]
fn an_engine_that_spins_it_past_its_whirl_speed_is_said() {
    let whirl = super::shaft::by_hand("whirl");
    // Shares that makers publish (handbook, section 11).
    for (by, share) in
        [(WhirlShare::Light, 0.70), (WhirlShare::Industrial, 0.65), (WhirlShare::CardanMaker, 0.75)]
    {
        for (times, past) in [(0.9995, false), (1.0005, true)] {
            let limit = format!("{:.6}", share * whirl * 0.78 * times);
            let mut road = vehicle(&[(Entry::EngineLimit, &limit)]);
            let mut typed = road.clone();
            typed.put(Entry::TopSpeed, "3900");
            (road.check.whirl_share, typed.check.whirl_share) = (by, by);
            // By the road, whose driver may spin a wheel, and as typed.
            for (job, otherwise) in [(road, Verdict::Good), (typed, Verdict::Figure)] {
                if past {
                    let FitReason::SpinsPastWhirl { engine, allowed } = watched(&job, Fit::TopSpeed)
                    else {
                        panic!()
                    };
                    near(as_rpm(engine), share * whirl * times, 1e-6);
                    near(allowed, share, 1e-12);
                } else {
                    assert_eq!(find(&job, Fit::TopSpeed).verdict, otherwise, "{by:?}");
                }
            }
        }
    }
    // Of a whirl speed that is not known nothing is said.
    let bare = vehicle(&[(Entry::TubeWall, "")]);
    assert_eq!(find(&bare, Fit::TopSpeed).verdict, Verdict::Good);
}

#[test]
fn a_gear_above_those_given_is_asked_about() {
    let of = |gears: [&str; 5]| {
        let row = |row: usize| (Entry::GearRatio(row), gears[row]);
        slow(&[row(0), row(1), row(2), row(3), row(4), (Entry::RoadTop, "")])
    };
    for (gears, whole) in [
        (["3.4", "1.95", "1.3", "1", "0.78"], true),
        // Direct drive may be the highest, a ratio over 1 is not.
        (["3.4", "1.95", "1.3", "1", ""], true),
        (["3.4", "1.95", "1.3", "1.001", ""], false),
        (["3.4", "1.95", "1.3", "", ""], false),
        (["3.4", "", "", "", ""], false),
        // A row before it was left out.
        (["3.4", "1.95", "", "1", "0.78"], false),
        (["", "1.95", "1.3", "1", "0.78"], false),
        (["1", "", "", "", ""], true),
    ] {
        let job = of(gears);
        if whole {
            assert_eq!(find(&job, Fit::TopSpeed).verdict, Verdict::Good, "{gears:?}");
        } else {
            assert_eq!(watched(&job, Fit::TopSpeed), FitReason::IsItTheHighest, "{gears:?}");
        }
    }
}
