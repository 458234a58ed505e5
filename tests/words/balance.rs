//! What balancing on the car says, word for word, of everything that can be met there.

use shaftwright::job::{BalanceBy, Entry, Job, PickUp, Ready, Run, Spin, TrialLeft};
use shaftwright::sheet::{
    balance_limits, balance_not_for, balance_same_runs, clip_table, complaint, report, trial_place,
};
use shaftwright::stage::read;

use super::{against_golden, sample};

/// The sample ready to be balanced, its clips weighed.
fn ready(by: BalanceBy, entries: &[(Entry, &str)]) -> Job {
    let mut job = sample();
    (job.balance.ready, job.balance.by, job.balance.pick_up) = (Ready::Ready, by, PickUp::Mark);
    job.balance.runs.resize(5, Run::default());
    for (entry, text) in [
        (Entry::RunSpeed, "700"),
        (Entry::ClipRadius, "1-3/4"),
        (Entry::ClipMass, "9"),
        (Entry::RunScatter, "0.1"),
    ] {
        job.put(entry, text);
    }
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

fn amplitudes(first: &str, trials: &[(&str, &str)], entries: &[(Entry, &str)]) -> Job {
    let mut job = ready(BalanceBy::Amplitudes, &[(Entry::RunAmplitude(0, 1), first)]);
    for (i, (at, reading)) in trials.iter().enumerate() {
        job.put(Entry::TrialMass(i + 1), "10");
        job.put(Entry::TrialClock(i + 1), at);
        job.put(Entry::RunAmplitude(i + 1, 1), reading);
    }
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

const AGREE: [(&str, &str); 3] = [("12", "3.13"), ("4", "10.8"), ("8", "13.17")];

/// Published inputs that contradict themselves (article on balancing without phase).
const APART: [(&str, &str); 3] = [("12", "7"), ("4", "12"), ("8", "18")];

fn phase(run: (&str, &str), entries: &[(Entry, &str)]) -> Job {
    let mut job = ready(
        BalanceBy::Phase,
        &[
            (Entry::RunAmplitude(0, 1), "7"),
            (Entry::RunPhase(0, 1), "160"),
            (Entry::TrialMass(1), "10"),
            (Entry::TrialClock(1), "12"),
            (Entry::RunAmplitude(1, 1), run.0),
            (Entry::RunPhase(1, 1), run.1),
        ],
    );
    entries.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

fn two_planes(second: [(&str, &str); 2]) -> Job {
    let mut job = ready(
        BalanceBy::TwoPlanes,
        &[
            (Entry::TrialMass(1), "10"),
            (Entry::TrialClock(1), "12"),
            (Entry::TrialMass(2), "8"),
            (Entry::TrialClock(2), "3"),
        ],
    );
    let read = [[("3.6", "120"), ("2.1", "260")], [("8.18", "45.7"), ("3.53", "304.2")], second];
    for (run, ends) in read.into_iter().enumerate() {
        for (end, (amplitude, angle)) in ends.into_iter().enumerate() {
            job.put(Entry::RunAmplitude(run, end), amplitude);
            job.put(Entry::RunPhase(run, end), angle);
        }
    }
    job
}

fn all() -> Vec<(&'static str, Job)> {
    let set = |entry, text| [(entry, text)];
    let mut unready = amplitudes("8", &AGREE, &[]);
    unready.balance.ready = Ready::NotYet;
    let mut left_on = phase(("5", "70"), &[]);
    (left_on.balance.left, left_on.balance.spin) = (TrialLeft::LeftOn, Spin::Clockwise);
    vec![
        ("said nothing of what must be so", unready),
        ("just begun", ready(BalanceBy::Amplitudes, &[])),
        ("first run read", amplitudes("8", &[], &[])),
        ("first run read, with phase", ready(BalanceBy::Phase, &set(Entry::RunAmplitude(0, 1), "7"))),
        ("two trials", amplitudes("8", &AGREE[..2], &[])),
        ("three trials", amplitudes("8", &AGREE, &[])),
        (
            "three trials and a good check",
            amplitudes("8", &AGREE, &set(Entry::CheckAmplitude(1), "0.2")),
        ),
        ("a check not as predicted", amplitudes("8", &AGREE, &set(Entry::CheckAmplitude(1), "3"))),
        ("a check no better", amplitudes("8", &AGREE, &set(Entry::CheckAmplitude(1), "8"))),
        ("readings that contradict", amplitudes("10", &APART, &set(Entry::RunScatter, "0.05"))),
        ("readings that hardly go together", amplitudes("10", &APART, &[])),
        ("a scatter of nothing", amplitudes("8", &AGREE, &set(Entry::RunScatter, "0"))),
        ("a coarse instrument", amplitudes("8", &AGREE, &set(Entry::RunScatter, "1.5"))),
        ("a reading of nothing", amplitudes("8", &AGREE, &set(Entry::RunAmplitude(2, 1), "0"))),
        ("nothing shakes", amplitudes("0.1", &AGREE, &[])),
        ("trials in one place", amplitudes("8", &[("12", "4"), ("12", "4.1"), ("12", "3.9")], &[])),
        ("trials that change nothing", amplitudes("8", &[("12", "8"), ("4", "8.1"), ("8", "7.9")], &[])),
        ("trials on one line", amplitudes("8", &[("12", "3.13"), ("6", "13.79"), ("12", "3.13")], &[])),
        ("heads too light", amplitudes("8", &AGREE, &set(Entry::ClipMass, "6"))),
        ("heads not weighed", amplitudes("8", &AGREE, &set(Entry::ClipMass, ""))),
        ("a trial too heavy", amplitudes("8", &AGREE, &set(Entry::RunSpeed, "1500"))),
        ("a trial far too heavy", amplitudes("8", &AGREE, &set(Entry::RunSpeed, "3500"))),
        ("a trial that heads do not make", amplitudes("8", &[], &set(Entry::RunSpeed, "2200"))),
        ("a trial that cannot show", phase(("7.1", "160"), &set(Entry::TrialMass(1), "16"))),
        ("with phase", phase(("5", "70"), &[])),
        ("with phase, trial left on", left_on),
        ("with phase, small change", phase(("8", "140"), &[])),
        ("with phase, no change", phase(("7.1", "160"), &[])),
        (
            "with phase, next to nothing to correct",
            phase(("9", "160"), &set(Entry::RunAmplitude(0, 1), "0.15")),
        ),
        ("both ends", two_planes([("5.91", "128"), ("5.28", "107.8")])),
        ("both ends told alike", two_planes([("9.4", "38"), ("3.7", "312")])),
        ("both ends read the same twice", two_planes([("8.18", "45.7"), ("3.53", "304.2")])),
        ("kept of a strip", {
            let strip = [(Entry::StripWidth, "3/4"), (Entry::StripThickness, "1/8")];
            amplitudes("8", &AGREE, &[strip[0], strip[1], (Entry::RearPlane, "49")])
        }),
        ("kept where a weight is", {
            let there = [(Entry::WeightClock(1), "20°"), (Entry::RearPlane, "50-1/4")];
            amplitudes("8", &AGREE, &there)
        }),
        ("kept where the welds are not known", amplitudes("8", &AGREE, &set(Entry::WeldLine, ""))),
        ("kept where no tube is known", amplitudes("8", &AGREE, &set(Entry::TubeDiameter, ""))),
        ("both ends, checked", {
            let mut job = two_planes([("5.91", "128"), ("5.28", "107.8")]);
            job.put(Entry::CheckAmplitude(0), "0.1");
            job
        }),
    ]
}

/// The lines of the stage in the report.
fn section(job: &Job) -> String {
    let report = report(job);
    let from = report.find("\nBALANCE\n").unwrap() + "\nBALANCE\n".len();
    let section = &report[from..];
    section[..section.find("\n\n").unwrap()].to_owned()
}

#[test]
fn balance_as_it_is_read() {
    let mut text = String::new();
    for by in [BalanceBy::Amplitudes, BalanceBy::Phase, BalanceBy::TwoPlanes] {
        text.push_str(&format!("{by:?}: {}\n", balance_limits(by)));
        for run in 1..=2 {
            let words = trial_place(&ready(by, &[]), run).unwrap_or("nothing");
            text.push_str(&format!("  trial {run}: {words}\n"));
        }
    }
    text.push_str(&format!("{}\n{}\n", balance_same_runs(), balance_not_for()));
    for (half, made) in clip_table(&ready(BalanceBy::Amplitudes, &[])) {
        text.push_str(&format!("  {half}: {made}\n"));
    }
    let usual = section(&ready(BalanceBy::Amplitudes, &[]));
    for (name, job) in all() {
        text.push_str(&format!("== {name}\n"));
        for line in section(&job).lines() {
            // The cautions stand once.
            if name == "just begun" || !(line.starts_with("  ! ") && usual.contains(line)) {
                text.push_str(&format!("{line}\n"));
            }
        }
    }
    against_golden("balance.txt", &text);
}

#[test]
fn sentences_at_a_field_of_the_balance() {
    let mut text = String::new();
    for (entry, given) in [
        (Entry::RunSpeed, "55 mph"),
        (Entry::RunSpeed, "50"),
        (Entry::ClipRadius, "1/4"),
        (Entry::ClipRadius, "1-1/4"),
        (Entry::ClipMass, "a screw"),
        (Entry::ClipMass, "9 kg"),
        (Entry::RunScatter, "-0.1"),
        (Entry::TrialMass(1), "0"),
        (Entry::TrialClock(2), "19"),
        (Entry::TrialClock(2), "half past"),
        (Entry::RunAmplitude(0, 1), "8 mm/s"),
        (Entry::RunAmplitude(0, 1), "1,455"),
        (Entry::RunPhase(0, 1), "400"),
        (Entry::CheckAmplitude(1), "fine"),
    ] {
        let job = ready(BalanceBy::Phase, &[(entry, given)]);
        let what = read(&job, entry).expect_err(given);
        text.push_str(&format!("{}: {}\n", entry.name(), complaint(&job, entry, &what)));
    }
    against_golden("balance-sentences.txt", &text);
}
