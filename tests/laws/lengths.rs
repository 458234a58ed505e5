//! Laws of the lengths: from any marks, by any route, in any unit, with any tape.

use std::mem::discriminant;

use shaftwright::job::{
    Choice, CutAt, Datum, DatumPair, Display, Division, End, Entry, Job, Route, ShaftKind, YokeAt,
};
use shaftwright::mechanics::uncertainty::mean_of;
use shaftwright::quantity::{as_millimetres, in_inches, inches};
use shaftwright::stage::cut::{MarkName, cut_list};
use shaftwright::stage::measure::length_change;
use shaftwright::stage::{Amount, Answer, Finding, Name, Stage, Verdict, read};

use super::shaft::{find, number, shaft, value};
use super::{DIVISIONS, Luck};

#[test]
fn coarser_tapes_never_look_better() {
    let mut luck = Luck(4);
    for round in 0..300 {
        let readings: Vec<_> = (0..1 + round % 12).map(|_| inches(luck.between(57.0, 57.2))).collect();
        let mut last = 0.0;
        for division in [0.0, 0.001, 0.02, 1.0 / 64.0 + 0.01, 1.0 / 16.0, 0.125, 0.5] {
            let u = in_inches(mean_of(&readings, inches(division)).unwrap().spread.standard);
            assert!(u >= last);
            last = u;
        }
    }
}

/// A shaft of any kind, measured by any route from any marks; what it truly is does not matter here.
fn any_measured(luck: &mut Luck) -> Job {
    let mut job = shaft();
    job.measure.kind = luck.choice::<ShaftKind>();
    job.measure.route = luck.choice::<Route>();
    job.measure.yoke_at = luck.choice::<YokeAt>();
    let mut pair = || DatumPair { front: luck.choice(), rear: luck.choice() };
    (job.measure.old_datum, job.measure.wanted_datum) = (pair(), pair());
    for (entry, least, most) in [
        (Entry::FrontCup, 1.0, 1.25),
        (Entry::RearCup, 1.0, 1.25),
        (Entry::FrontEar, 0.5, 1.5),
        (Entry::RearEar, 0.5, 1.5),
        (Entry::WantedFrontEar, 0.5, 1.5),
        (Entry::WantedRearEar, 0.5, 1.5),
        (Entry::FrontDepth, 1.5, 4.0),
        (Entry::RearDepth, 1.5, 4.0),
        (Entry::TakenAt, 0.5, 1.5),
        // Two and more readings of one length that do not contradict each other: within 1/16 in.
        (Entry::EndsReading(0), 62.50, 62.55),
        (Entry::EndsReading(1), 62.50, 62.55),
    ] {
        job.put(entry, &format!("{:.4}", luck.between(least, most)));
    }
    // One to five readings of the old length, so that each way to a spread comes up.
    job.measure.old.resize_with(5, Default::default);
    let readings = luck.between(1.0, 6.0) as usize;
    for reading in 0..5 {
        let text = format!("{:.4}", luck.between(57.28, 57.33));
        job.put(Entry::OldReading(reading), if reading < readings { &text } else { "" });
    }
    job
}

/// Its old weld laid off where its own shoulder says, as the shaft lies on the bench.
fn laid_off(job: &mut Job) {
    let weld = in_inches(length_change(job).unwrap().bench.best) - 3.4375;
    job.put(Entry::WeldLine, &format!("{weld:.4}"));
}

#[test]
fn a_coarser_division_never_shrinks_the_doubt_of_the_change() {
    assert!(Division::ALL.iter().all(|division| DIVISIONS.contains(division)));
    let mut luck = Luck(14);
    for _ in 0..300 {
        let mut job = any_measured(&mut luck);
        let (mut last, mut removed) = (0.0, 0.0);
        for division in DIVISIONS {
            job.measure.division = division;
            let u = in_inches(length_change(&job).unwrap().change.spread.standard);
            assert!(u > last, "{division:?}: {u} after {last}");
            let cut = in_inches(cut_list(&job).unwrap().removed.spread.standard);
            assert!(cut > removed, "{division:?}: {cut} after {removed}");
            (last, removed) = (u, cut);
        }
    }
}

/// Where a tape's mark stands on the line of the shaft, beside a joint's centre at `at`.
fn mark(at: f64, outward: f64, datum: Datum, cup: f64, ear: f64) -> f64 {
    match datum {
        Datum::CupCentre => at,
        Datum::OuterSeat => at + outward * cup / 2.0,
        Datum::InnerSeat => at - outward * cup / 2.0,
        Datum::OuterEar => at + outward * ear,
        Datum::InnerEar => at - outward * ear,
    }
}

#[test]
fn marks_that_the_tape_is_laid_on_never_move_the_answer() {
    let mut luck = Luck(15);
    for _ in 0..600 {
        let (old, wanted, drawn) =
            (luck.between(40.0, 70.0), luck.between(40.0, 70.0), luck.between(0.5, 1.5));
        let [front_cup, rear_cup] = [0; 2].map(|_| luck.between(0.9, 1.3));
        // The cups are the cross's own; the ears are of other yokes under the car.
        let [front_ear, rear_ear, car_front, car_rear] = [0; 4].map(|_| luck.between(0.2, 1.6));
        let mut job = shaft();
        job.measure.kind = luck.choice::<ShaftKind>();
        job.measure.yoke_at = luck.choice::<YokeAt>();
        let mut pair = || DatumPair { front: luck.choice(), rear: luck.choice() };
        (job.measure.old_datum, job.measure.wanted_datum) = (pair(), pair());
        // Pushed in, a slip in the gearbox lets the tape see the distance longer by what it has still to
        // come out to its set point; a shaft with its own slip is itself shorter by that.
        let taken_at = luck.between(0.2, 1.8);
        let pushed = match job.measure.yoke_at {
            YokeAt::Bottomed => drawn,
            YokeAt::Drawn => drawn - taken_at,
            YokeAt::SetPoint => 0.0,
        };
        let (old_is, wanted_is) = match job.measure.kind {
            ShaftKind::SlipInGearbox => (old, wanted + pushed),
            ShaftKind::SlipOnShaft | ShaftKind::Flanged => (old - pushed, wanted),
        };
        let tape = |length: f64, pair: DatumPair, [front_ear, rear_ear]: [f64; 2]| {
            mark(length, 1.0, pair.rear, rear_cup, rear_ear)
                - mark(0.0, -1.0, pair.front, front_cup, front_ear)
        };
        let readings = [
            tape(old_is, job.measure.old_datum, [front_ear, rear_ear]),
            tape(wanted_is, job.measure.wanted_datum, [car_front, car_rear]),
        ];
        for reading in 0..3 {
            job.put(Entry::OldReading(reading), &format!("{:.6}", readings[0]));
            job.put(Entry::WantedReading(reading), &format!("{:.6}", readings[1]));
        }
        for (entry, size) in [
            (Entry::SetPoint, drawn),
            (Entry::TakenAt, taken_at),
            (Entry::FrontCup, front_cup),
            (Entry::RearCup, rear_cup),
            (Entry::FrontEar, front_ear),
            (Entry::RearEar, rear_ear),
            (Entry::WantedFrontEar, car_front),
            (Entry::WantedRearEar, car_rear),
        ] {
            job.put(entry, &format!("{size:.6}"));
        }
        let got = length_change(&job).unwrap();
        // Half a millionth for each text at most: the tape, the set point and where the slip stood, one
        // size at each joint.
        let typed = 0.5e-6;
        assert!((in_inches(got.old.best) - old).abs() < 5.0 * typed + 1e-9);
        // On the bench it is as long as it lay there.
        assert!((in_inches(got.bench.best) - old_is).abs() < 3.0 * typed + 1e-9);
        assert!((in_inches(got.old.best - got.bench.best - got.pushed_in)).abs() < 1e-9);
        assert!((in_inches(got.wanted.best) - wanted).abs() < 5.0 * typed + 1e-9);
        assert!((in_inches(got.change.best) - (old - wanted)).abs() < 9.0 * typed + 1e-9);
    }
}

#[test]
fn the_cut_list_always_closes() {
    let mut luck = Luck(6);
    let (mut shorter, mut longer) = (0, 0);
    for round in 0..600 {
        let mut job = shaft();
        job.cut.end = if round % 2 == 0 { End::Rear } else { End::Front };
        // The shoulder's proof is of another shaft.
        job.put(Entry::Shoulder, "");
        let (old, weld, far) =
            (luck.between(50.0, 60.0), luck.between(44.0, 49.5), luck.between(2.0, 6.0));
        let wanted = old + luck.between(-12.0, 12.0);
        let (gap, shrinkage) = (luck.between(0.0, 0.2), luck.between(0.0, 0.2));
        for reading in 0..3 {
            job.put(Entry::OldReading(reading), &format!("{old:.6}"));
            job.put(Entry::WantedReading(reading), &format!("{wanted:.6}"));
        }
        for (entry, size) in [
            (Entry::WeldLine, weld),
            (Entry::FarWeldLine, far),
            (Entry::RootGap, gap),
            (Entry::Shrinkage, shrinkage),
        ] {
            job.put(entry, &format!("{size:.6}"));
        }
        // Put together again from what the list says, with what was typed.
        let typed = |entry: Entry| job.typed(entry).unwrap().text.parse::<f64>().unwrap();
        let [old, wanted, weld, far, gap, shrinkage] = [
            Entry::OldReading(0),
            Entry::WantedReading(0),
            Entry::WeldLine,
            Entry::FarWeldLine,
            Entry::RootGap,
            Entry::Shrinkage,
        ]
        .map(typed);
        let list = cut_list(&job).unwrap();
        let yoke = old - weld;
        let made = if wanted > old {
            longer += 1;
            assert!((list.new_welds - 2.0).abs() < 1e-12);
            let tube = number(value(&job, Name::NewTube).amount);
            far + gap + tube + gap + yoke - 2.0 * shrinkage
        } else {
            assert!((list.new_welds - 1.0).abs() < 1e-12);
            let Some(end) = list.place(MarkName::TubeEnd) else {
                // Within a gap and a weld of the old length nothing is sawn, nor within the tape's doubt: its
                // ± for two lengths read alike, by the script's scatterless one.
                assert!(!list.saws() || old - wanted < 0.026, "{old} and {wanted}");
                continue;
            };
            shorter += 1;
            in_inches(end) + gap + yoke - shrinkage
        };
        assert!((made - wanted).abs() < 1e-9, "{made} for {wanted}");
        let finished = in_inches(list.finished.unwrap());
        assert!((finished - wanted).abs() < 1e-9);
    }
    assert!(shorter > 200 && longer > 200, "{shorter} {longer}");
}

#[test]
fn how_far_a_slip_was_pushed_in_moves_every_place_alike_and_the_cut_not_at_all() {
    let mut luck = Luck(18);
    for round in 0..200 {
        let mut drawn_out = any_measured(&mut luck);
        drawn_out.measure.kind =
            if round % 2 == 0 { ShaftKind::SlipOnShaft } else { ShaftKind::Flanged };
        drawn_out.measure.yoke_at = YokeAt::SetPoint;
        laid_off(&mut drawn_out);
        // Both ways to the wanted length were drawn by luck and contradict each other: one alone.
        if drawn_out.measure.route == Route::Both {
            drawn_out.measure.route = Route::Joints;
        }
        let (by, taken_at) = (luck.between(0.1, 1.5), luck.between(0.2, 0.8));
        // All that the tape is laid off along the shaft comes nearer by as much as the slip goes in.
        let mut pushed_in = drawn_out.clone();
        // Bottomed, or drawn out less than it will be in use.
        let set_point = if round % 4 < 2 {
            pushed_in.measure.yoke_at = YokeAt::Bottomed;
            by
        } else {
            pushed_in.measure.yoke_at = YokeAt::Drawn;
            pushed_in.put(Entry::TakenAt, &format!("{taken_at:.9}"));
            by + taken_at
        };
        for job in [&mut drawn_out, &mut pushed_in] {
            job.put(Entry::SetPoint, &format!("{set_point:.9}"));
        }
        let along = (0..5).map(Entry::OldReading).chain([Entry::WeldLine, Entry::FarWeldLine]);
        for entry in along {
            if let Ok(Some(Amount::PlainLength(length))) = read(&drawn_out, entry) {
                pushed_in.put(entry, &format!("{:.9}", in_inches(length) - by));
            }
        }
        let (there, here) = (cut_list(&drawn_out).unwrap(), cut_list(&pushed_in).unwrap());
        assert_eq!((there.stop, here.stop), (None, None));
        assert!((in_inches(there.removed.best - here.removed.best)).abs() < 1e-8);
        assert!((in_inches(there.finished.unwrap() - here.finished.unwrap())).abs() < 1e-8);
        assert_eq!(there.marks.len(), here.marks.len());
        for (mark, other) in there.marks.iter().zip(&here.marks) {
            assert_eq!(mark.name, other.name);
            let nearer = in_inches(mark.from_far - other.from_far);
            assert!((nearer - by).abs() < 1e-8, "{:?} nearer by {nearer}, not {by}", mark.name);
            let [out, also] = [mark, other].map(|mark| in_inches(mark.nearest.unwrap().1));
            assert!((out - also).abs() < 1e-8, "{:?}", mark.name);
        }
        // The set point is in the length that is wanted of it, and its doubt in the cut; the shoulder is
        // proved without it.
        assert!(here.removed.spread.standard > there.removed.spread.standard);
        let [proof, also] = [&drawn_out, &pushed_in].map(|job| value(job, Name::WeldLine));
        for (one, other) in
            [(proof.amount, also.amount), (proof.plus_minus.unwrap(), also.plus_minus.unwrap())]
        {
            assert!((number(one) - number(other)).abs() < 1e-8);
        }
    }
}

#[test]
fn the_same_added_to_both_lengths_changes_nothing() {
    let mut luck = Luck(16);
    for _ in 0..300 {
        let mut job = any_measured(&mut luck);
        job.measure.route = Route::Joints;
        let before = length_change(&job).unwrap();
        let more = luck.between(-5.0, 5.0);
        for entry in (0..5).map(Entry::OldReading).chain((0..3).map(Entry::WantedReading)) {
            if let Ok(Some(Amount::PlainLength(length))) = read(&job, entry) {
                job.put(entry, &format!("{:.9}", in_inches(length) + more));
            }
        }
        let after = length_change(&job).unwrap();
        let (one, other) = (before.change, after.change);
        assert!((in_inches(one.best) - in_inches(other.best)).abs() < 1e-8);
        let spreads = [one, other].map(|change| in_inches(change.spread.standard));
        assert!((spreads[0] - spreads[1]).abs() < 1e-8);
        assert!((in_inches(after.wanted.best - before.wanted.best) - more).abs() < 1e-8);
    }
}

/// Every length of a finding, in metres: value, ±, limit and working.
fn lengths(finding: &Finding) -> Vec<f64> {
    let metres = |amount: &Amount| match amount {
        Amount::Length(q) | Amount::PlainLength(q) | Amount::FineLength(q) => {
            Some(as_millimetres(*q) / 1000.0)
        }
        _ => None,
    };
    let value = finding.value().unwrap();
    let mut all = vec![value.amount];
    all.extend(value.plus_minus);
    all.extend(finding.limit.map(|limit| limit.amount));
    all.extend(finding.working.iter().flat_map(|step| step.put_in.iter().copied().chain([step.gives])));
    all.iter().filter_map(metres).collect()
}

#[test]
fn inches_and_millimetres_of_one_length_agree() {
    let mut luck = Luck(17);
    let (mut known, mut blocked) = (0, 0);
    for _ in 0..60 {
        let mut inch = any_measured(&mut luck);
        laid_off(&mut inch);
        inch.cut.at = luck.choice::<CutAt>();
        // Asked where the tube is cut clear of the weld, and of the spigot.
        inch.put(Entry::ClearBy, "1/4");
        inch.put(Entry::Spigot, "1/8");
        inch.put(Entry::Trim, "1/64");
        let mut metric = inch.clone();
        let mut retyped = 0;
        for entry in inch.entries() {
            let length = match read(&inch, entry) {
                Ok(Some(Amount::PlainLength(length) | Amount::FineLength(length))) => length,
                _ => continue,
            };
            metric.put(entry, &format!("{:.9} mm", as_millimetres(length)));
            retyped += 1;
        }
        // Every length the shaft has was typed anew; a handful would prove little.
        assert!(retyped > 40, "{retyped}");
        for stage in [Stage::Measure, Stage::Cut] {
            let (ours, theirs) = (stage.findings(&inch), stage.findings(&metric));
            assert_eq!(ours.len(), theirs.len());
            for (one, other) in ours.iter().zip(&theirs) {
                assert_eq!(
                    (one.name, discriminant(&one.verdict), discriminant(&one.answer)),
                    (other.name, discriminant(&other.verdict), discriminant(&other.answer))
                );
                if one.value().is_none() {
                    // Nothing that is asked is missing: only what cannot be cut is without a value.
                    let reason = |finding: &Finding| match finding.answer {
                        Answer::Impossible(reason) => discriminant(&reason),
                        _ => panic!("{finding:?}"),
                    };
                    assert_eq!(reason(one), reason(other));
                    blocked += 1;
                    continue;
                }
                known += 1;
                let (one_all, other_all) = (lengths(one), lengths(other));
                assert!(!one_all.is_empty() && one_all.len() == other_all.len());
                for (a, b) in one_all.iter().zip(&other_all) {
                    assert!((a - b).abs() < 1e-9, "{:?}: {a} and {b} m", one.name);
                }
            }
        }
    }
    // Two routes drawn by luck contradict each other, and then the list is stopped: finished length, ring
    // and the face's limit are without a value in each third job.
    assert!(known > 10 * blocked, "{known} {blocked}");
}

#[test]
fn a_display_or_a_unit_never_changes_an_answer() {
    let inch = shaft();
    // Another display after the typing: every finding the same to the last bit.
    for display in Display::ALL {
        let mut job = shaft();
        job.display = *display;
        for stage in Stage::ALL {
            assert_eq!(stage.findings(&job), stage.findings(&inch));
        }
    }
    // Mass and clock in other units too: the same but for rounding of the text itself.
    let mut metric = shaft();
    for entry in inch.entries() {
        if let Ok(Some(Amount::PlainLength(length))) = read(&inch, entry) {
            metric.put(entry, &format!("{:.9} mm", as_millimetres(length)));
        }
    }
    metric.put(Entry::ShaftMass, "8.391458845 kg");
    metric.put(Entry::WeightMass(1), "0.511472434 oz");
    metric.put(Entry::WeightClock(0), "60°");
    for stage in Stage::ALL {
        for (one, other) in stage.findings(&inch).iter().zip(stage.findings(&metric)) {
            assert_eq!(
                (one.name, discriminant(&one.verdict)),
                (other.name, discriminant(&other.verdict))
            );
            let (Some(a), Some(b)) = (one.value(), other.value()) else {
                // Nobody asked for it, or the tube was not read at a place of its own, in either.
                assert!(
                    one.verdict == Verdict::IfWanted
                        || one.name == Name::RunOutGrade && other.value() == one.value()
                );
                continue;
            };
            let (a, b) = (number(a.amount), number(b.amount));
            assert!((a - b).abs() < 1e-6 * a.abs().max(1.0), "{:?}: {a} and {b}", one.name);
        }
    }
    assert!(find(&metric, Name::SpeedShare).value().is_some());
}
