//! Laws of a whole turn of the dial: what may be chosen freely changes nothing, and what turns, turns all.

use shaftwright::job::{Entry, Job, MarkNames, Pass, PassKind, Plunger, SeamBy, Stations, TurnedHow};
use shaftwright::quantity::{Angle, as_degrees};
use shaftwright::stage::{Amount, Finding, Name, Sense, TackSide, Verdict, truing};

use super::Luck;
use super::shaft::{number, shaft};

/// Passes as they were read: place in degrees and reading in thousandths, one list a pass.
type Read = Vec<Vec<(f64, f64)>>;

/// A tube that stands off, is oval, has a seam now and then, and scatters; read two or three times.
fn luck_reads(luck: &mut Luck, count: usize) -> Read {
    let passes = luck.between(1.0, 4.0) as usize;
    let (lobe, oval) = (luck.between(0.0, 180.0), luck.between(0.0, 4.0));
    let seam = if luck.between(0.0, 1.0) < 0.5 { 18.0 } else { 0.0 };
    let lifted = luck.between(0.0, count as f64) as usize;
    let one_pass = |luck: &mut Luck| {
        let (size, at) = (luck.between(0.0, 12.0), luck.between(0.0, 360.0));
        let one_mark = |luck: &mut Luck, mark: usize| {
            let place = (360.0 * mark as f64 / count as f64).round();
            let part = |order: f64, phase: f64| (order * (place - phase).to_radians()).cos();
            let lift = if mark == lifted { seam } else { 0.0 };
            let exact = 40.0 + size * part(1.0, at) + oval * part(2.0, lobe) + lift;
            (place, ((exact + luck.between(-1.0, 1.0)) * 10.0).round() / 10.0)
        };
        (0..count).map(|mark| one_mark(luck, mark)).collect()
    };
    (0..passes).map(|_| one_pass(luck)).collect()
}

/// The shaft with these passes at free marks.
fn typed(kind: PassKind, read: &Read) -> Job {
    let mut job = shaft();
    job.truing.passes.clear();
    for (pass, marks) in read.iter().enumerate() {
        job.truing.passes.push(Pass::new(kind, Stations::Free));
        for (mark, (at, reading)) in marks.iter().enumerate() {
            if mark >= job.truing.passes[pass].count() {
                job.truing.passes[pass].add_station();
            }
            job.put(Entry::StationAt(pass, 0, mark), &format!("{}°", at.rem_euclid(360.0)));
            job.put(Entry::StationReading(pass, 0, mark), &format!("{reading:.4}"));
        }
    }
    job.put(Entry::PlaceAlong(0), "33");
    job
}

fn last(job: &Job) -> Vec<Finding> {
    truing::findings(job, job.truing.passes.len() - 1, 0)
}

/// Where a sense points to, and how often that looks alike in a turn.
fn place(sense: Sense) -> Option<(Angle, f64)> {
    match sense {
        Sense::At(at)
        | Sense::Tap { at, .. }
        | Sense::OpenAt(at)
        | Sense::HeatAt(at)
        | Sense::LeaveWelded(at)
        | Sense::LeaveToShop(at)
        | Sense::SetAside { at, .. }
        | Sense::Moved { toward: at, .. }
        | Sense::InThisOrder { from: at, side: TackSide::High | TackSide::Kink } => Some((at, 360.0)),
        Sense::LobesAt(at) => Some((at, 180.0)),
        _ => None,
    }
}

fn verdict(verdict: Verdict) -> String {
    // The name of a reason, without its numbers.
    format!("{verdict:?}").split(" {").next().unwrap().to_owned()
}

/// Both say the same, all places of the second one turned on by so many degrees.
fn same(one: &[Finding], other: &[Finding], turned: f64, what: &str) {
    let names = |all: &[Finding]| -> Vec<Name> { all.iter().map(|finding| finding.name).collect() };
    assert_eq!(names(one), names(other), "{what}");
    for (one, other) in one.iter().zip(other) {
        assert_eq!(verdict(one.verdict), verdict(other.verdict), "{what}: {one:?}, {other:?}");
        let (Some(here), Some(there)) = (one.value(), other.value()) else {
            assert!(one.value().is_none() && other.value().is_none());
            continue;
        };
        let near = |one: Amount, other: Amount| (number(one) - number(other)).abs() < 1e-9;
        let is_clock = matches!(here.amount, Amount::Clock(_));
        assert!(is_clock || near(here.amount, there.amount), "{what}: {here:?}, {there:?}");
        match (here.plus_minus, there.plus_minus) {
            (Some(one), Some(other)) => assert!(near(one, other), "{what}: {here:?}, {there:?}"),
            (one, other) => assert_eq!(one, other, "{what}"),
        }
        match (here.sense.and_then(place), there.sense.and_then(place)) {
            (Some((at, again)), Some((later, _))) => {
                let gap = (as_degrees(later) - as_degrees(at) - turned).rem_euclid(again);
                assert!(gap.min(again - gap) < 1e-5, "{what}: {here:?}, {there:?}");
            }
            (one, other) => assert_eq!(one, other, "{what}: {here:?}, {there:?}"),
        }
        let learned = |sense| match sense {
            Some(Sense::Tap { answered, .. } | Sense::Moved { answered, .. }) => answered,
            _ => None,
        };
        match (learned(here.sense), learned(there.sense)) {
            (Some(one), Some(other)) => {
                assert!((one.share - other.share).abs() < 1e-7, "{what}");
                assert!((as_degrees(one.turned) - as_degrees(other.turned)).abs() < 1e-5, "{what}");
            }
            (one, other) => assert_eq!(one.is_some(), other.is_some(), "{what}"),
        }
    }
}

const KINDS: [PassKind; 3] = [PassKind::AsFitted, PassKind::Tacked, PassKind::Welded];

#[test]
fn what_may_be_chosen_freely_changes_nothing_and_another_zero_of_the_clock_turns_all() {
    let mut luck = Luck(41);
    let (mut set_aside, mut learned) = (0, 0);
    for round in 0..150 {
        let count = [6, 8, 12, 18][round % 4];
        let read = luck_reads(&mut luck, count);
        let kind = KINDS[round / 4 % 3];
        let mut job = typed(kind, &read);
        let first = last(&job);
        set_aside += usize::from(first.iter().any(|finding| finding.name == Name::SetAside));
        learned += usize::from(first.iter().any(|finding| {
            matches!(finding.value().and_then(|v| v.sense), Some(Sense::Tap { answered: Some(_), .. }))
        }));
        // Another mark called the witness mark.
        let turn = luck.between(1.0, 359.0).round();
        let all = |change: &dyn Fn(f64, f64) -> (f64, f64)| -> Read {
            let pass = |marks: &Vec<(f64, f64)>| marks.iter().map(|(at, r)| change(*at, *r)).collect();
            read.iter().map(pass).collect()
        };
        let turned = typed(kind, &all(&|at, reading| (at + turn, reading)));
        same(&first, &last(&turned), turn, "turned");
        // The dial set to another zero, clear of nothing, near which a dial is asked how fine it is; one
        // that counts the other way.
        let zero = luck.between(-10.0, 60.0).round();
        let set = typed(kind, &all(&|at, reading| (at, reading + zero + 0.7)));
        same(&first, &last(&set), 0.0, "zero");
        let mut other_way = typed(kind, &all(&|at, reading| (at, -reading)));
        other_way.truing.plunger = Plunger::InIsMinus;
        same(&first, &last(&other_way), 0.0, "plunger");
        // The marks taken in another order, another one for each pass.
        let shuffled = read.iter().enumerate().map(|(pass, marks)| {
            let mut marks = marks.clone();
            marks.rotate_left((pass + round) % count);
            marks.reverse();
            marks
        });
        same(&first, &last(&typed(kind, &shuffled.collect())), 0.0, "order");
        // The same lengths in another unit; marks by another name; a way of turning that free marks
        // do not ask for.
        let mut metric = job.clone();
        for (pass, marks) in read.iter().enumerate() {
            for (mark, (_, reading)) in marks.iter().enumerate() {
                let text = format!("{:.9} mm", reading * 0.0254);
                metric.put(Entry::StationReading(pass, 0, mark), &text);
            }
        }
        same(&first, &last(&metric), 0.0, "unit");
        for names in [MarkNames::Degrees, MarkNames::Numbers] {
            job.truing.marks = names;
            assert_eq!(first, last(&job));
        }
        job.truing.turned = TurnedHow::Clockwise;
        assert_eq!(first, last(&job));
    }
    // Both were met, so that they turned too.
    assert!(set_aside > 10 && learned > 3, "{set_aside} {learned}");
}

#[test]
fn even_marks_are_free_marks_at_their_places_and_a_known_seam_turns_along() {
    let mut luck = Luck(42);
    for round in 0..60 {
        let (stations, count) =
            [(Stations::Eight, 8), (Stations::Twelve, 12), (Stations::TwentyFour, 24)][round % 3];
        let read = luck_reads(&mut luck, count);
        let free = typed(PassKind::AsFitted, &read);
        let even = |shift: usize| {
            let mut job = free.clone();
            for (pass, marks) in read.iter().enumerate() {
                job.truing.passes[pass] = Pass::new(PassKind::AsFitted, stations);
                for (mark, (_, reading)) in marks.iter().enumerate() {
                    let entry = Entry::StationReading(pass, 0, (mark + shift) % count);
                    job.put(entry, &format!("{reading:.4}"));
                }
            }
            job
        };
        same(&last(&free), &last(&even(0)), 0.0, "even");
        let shift = luck.between(0.0, count as f64) as usize;
        let by = 360.0 * shift as f64 / count as f64;
        same(&last(&free), &last(&even(shift)), by, "shifted");
        // The seam's place and marks set aside by hand go with it.
        let (mut here, mut there) = (even(0), even(shift));
        let seam = luck.between(0.0, 350.0).round();
        for (job, at) in [(&mut here, seam), (&mut there, (seam + by).rem_euclid(360.0))] {
            job.truing.seam = SeamBy::Known;
            job.put(Entry::SeamClock, &format!("{at}°"));
        }
        let mark = luck.between(0.0, count as f64) as usize;
        here.truing.passes[0].turns[0].aside[mark] = true;
        there.truing.passes[0].turns[0].aside[(mark + shift) % count] = true;
        same(&last(&here), &last(&there), by, "seam");
    }
}
