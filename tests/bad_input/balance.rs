//! Balance on the car with fields that are missing or wrong: what is needed is named, the rest stays.
//!
//! The bounds are our own choice and stand here a second time.

use shaftwright::job::{BalanceBy, End, Entry, Job, Ready, Run};
use shaftwright::quantity::as_millimetres;
use shaftwright::stage::balance::{OnTheCar, Plane};
use shaftwright::stage::{Amount, Answer, Complaint, Finding, Name, Need, Stage, Why, read};

use super::shaft::with_all;

/// Every field that a method needs, filled in.
fn filled(by: BalanceBy) -> Job {
    let mut job = with_all(&[
        (Entry::RunSpeed, "900"),
        (Entry::ClipRadius, "45 mm"),
        (Entry::ClipMass, "9"),
        (Entry::RunScatter, "0.1"),
    ]);
    (job.balance.ready, job.balance.by) = (Ready::Ready, by);
    // The one end without phase, the other with.
    job.balance.end = if by == BalanceBy::Amplitudes { End::Front } else { End::Rear };
    job.balance.runs = vec![Run::default(); 4];
    for (run, [mass, at, front, front_phase, rear, rear_phase]) in [
        ["", "", "8", "0", "2.1", "260"],
        ["10", "0°", "3.13", "20", "3.53", "304"],
        ["10", "120°", "10.8", "30", "5.28", "108"],
        ["10", "240°", "13.17", "40", "9", "9"],
    ]
    .into_iter()
    .enumerate()
    {
        for (entry, text) in [
            (Entry::TrialMass(run), mass),
            (Entry::TrialClock(run), at),
            (Entry::RunAmplitude(run, 0), front),
            (Entry::RunPhase(run, 0), front_phase),
            (Entry::RunAmplitude(run, 1), rear),
            (Entry::RunPhase(run, 1), rear_phase),
        ] {
            job.put(entry, text);
        }
    }
    job
}

fn finding(job: &Job, name: OnTheCar) -> Option<Finding> {
    Stage::Balance.findings(job).into_iter().find(|finding| finding.name == Name::OnTheCar(name))
}

fn needs(job: &Job, name: OnTheCar) -> Vec<Need> {
    match finding(job, name).map(|finding| finding.answer) {
        Some(Answer::Missing(needs)) => needs,
        _ => Vec::new(),
    }
}

/// The fields of a method, by the method alone.
fn needed(by: BalanceBy) -> Vec<Entry> {
    let (trials, ends, phase) = match by {
        BalanceBy::Amplitudes => (3, 0..1, false),
        BalanceBy::Phase => (1, 1..2, true),
        BalanceBy::TwoPlanes => (2, 0..2, true),
    };
    let mut all = vec![Entry::ClipRadius, Entry::RunScatter];
    for run in 0..=trials {
        if run > 0 {
            all.extend([Entry::TrialMass(run), Entry::TrialClock(run)]);
        }
        for end in ends.clone() {
            all.push(Entry::RunAmplitude(run, end));
            if phase {
                all.push(Entry::RunPhase(run, end));
            }
        }
    }
    all
}

#[test]
fn each_field_of_a_method_stands_in_its_way_and_no_other_does() {
    for by in [BalanceBy::Amplitudes, BalanceBy::Phase, BalanceBy::TwoPlanes] {
        let put_on = OnTheCar::PutOn(if by == BalanceBy::TwoPlanes { Plane::Front } else { Plane::One });
        let all = needed(by);
        assert_eq!(needs(&filled(by), put_on), [], "{by:?}");
        for entry in filled(by).entries() {
            for (text, wrong) in [("", false), ("about so", true)] {
                let mut job = filled(by);
                job.put(entry, text);
                let got = needs(&job, put_on);
                if !all.contains(&entry) {
                    assert_eq!(got, [], "{by:?} {entry:?}");
                    continue;
                }
                assert!(got.iter().any(|need| need.entry == entry), "{by:?} {entry:?}: {got:?}");
                for need in got.iter().filter(|need| need.entry == entry) {
                    assert_eq!(matches!(need.why, Why::Wrong(_)), wrong, "{by:?} {entry:?}");
                }
                // How heavy a trial may be does not hang on its reading.
                let most = finding(&job, OnTheCar::MostTrial).unwrap();
                assert_eq!(most.value().is_some(), entry != Entry::ClipRadius, "{by:?} {entry:?}");
            }
        }
    }
}

#[test]
fn what_is_asked_elsewhere_is_named_with_what_needs_it() {
    let mut job = filled(BalanceBy::Amplitudes);
    job.put(Entry::ShaftMass, "");
    job.put(Entry::RunSpeed, "fast");
    let named: Vec<Entry> =
        needs(&job, OnTheCar::MostTrial).into_iter().map(|need| need.entry).collect();
    assert_eq!(named, [Entry::ShaftMass, Entry::RunSpeed]);
    assert!(finding(&job, OnTheCar::PutOn(Plane::One)).unwrap().value().is_some());
    let mut heads = filled(BalanceBy::Amplitudes);
    heads.put(Entry::ClipMass, "a screw");
    let named = needs(&heads, OnTheCar::Screws(Plane::One));
    assert!(matches!(named[..], [Need { entry: Entry::ClipMass, why: Why::Wrong(_) }]));
    // A check run that cannot be read is asked for, not dropped.
    job.put(Entry::CheckAmplitude(0), "fine");
    let named = needs(&job, OnTheCar::Check(Plane::One));
    assert!(matches!(named[..], [Need { entry: Entry::CheckAmplitude(0), why: Why::Wrong(_) }]));
}

#[test]
fn a_screw_inside_the_tube_is_told() {
    let mut job = filled(BalanceBy::Amplitudes);
    job.put(Entry::TubeDiameter, "3");
    // By geometry: half of 3 in is 38.1 mm.
    job.put(Entry::ClipRadius, "38.0 mm");
    let Err(Complaint::TooLittle { other: Entry::TubeDiameter, least: Amount::PlainLength(least) }) =
        read(&job, Entry::ClipRadius)
    else {
        panic!("{:?}", read(&job, Entry::ClipRadius))
    };
    assert!((as_millimetres(least) - 38.1).abs() < 1e-9);
    let named = needs(&job, OnTheCar::PutOn(Plane::One));
    assert!(matches!(named[..], [Need { entry: Entry::ClipRadius, why: Why::Wrong(_) }]));
    job.put(Entry::ClipRadius, "38.1 mm");
    assert!(read(&job, Entry::ClipRadius).is_ok());
    // While the tube is not known, or wrong itself, the screw is not measured by it.
    for tube in ["", "three"] {
        job.put(Entry::TubeDiameter, tube);
        job.put(Entry::ClipRadius, "20 mm");
        assert!(read(&job, Entry::ClipRadius).is_ok(), "{tube}");
    }
}

#[test]
fn bounds() {
    for (entry, inside, outside) in [
        (Entry::RunSpeed, ["100", "20000"], ["99", "20001"]),
        (Entry::ClipRadius, ["10 mm", "120 mm"], ["9.9 mm", "120.1 mm"]),
        (Entry::ClipMass, ["0.5 g", "200 g"], ["0.4 g", "201 g"]),
        (Entry::RunScatter, ["0", "100000"], ["-0.01", "100001"]),
        (Entry::TrialMass(2), ["0.5 g", "200 g"], ["0.4 g", "201 g"]),
        (Entry::TrialClock(2), ["0", "12"], ["-1", "13"]),
        (Entry::RunAmplitude(2, 1), ["0", "100000"], ["-0.01", "100001"]),
        (Entry::RunPhase(2, 1), ["0", "360"], ["-1", "361"]),
        (Entry::CheckAmplitude(1), ["0", "100000"], ["-0.01", "100001"]),
    ] {
        for text in inside {
            let mut job = filled(BalanceBy::TwoPlanes);
            // A screw lies on the tube, so a thin one.
            job.put(Entry::TubeDiameter, "20 mm");
            job.put(entry, text);
            assert!(matches!(read(&job, entry), Ok(Some(_))), "{entry:?} {text}");
        }
        for text in outside {
            let mut job = filled(BalanceBy::TwoPlanes);
            job.put(Entry::TubeDiameter, "20 mm");
            job.put(entry, text);
            let found = read(&job, entry);
            assert!(matches!(found, Err(Complaint::OutOfRange { .. })), "{entry:?} {text}: {found:?}");
        }
    }
}
