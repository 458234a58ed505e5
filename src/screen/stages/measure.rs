//! Measure.

use leptos::prelude::*;

use crate::drawing::{elevation, slip};
use crate::job::{
    Datum, Entry, Groove, Guide, Job, MOST_READINGS, Route, ShaftKind, TravelBy, Typed, YokeAt,
};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, fold, key, part, picture, slot,
};
use crate::screen::state::State;

/// The questions.
pub fn questions(state: State) -> AnyView {
    let kind = state.follows(|job| job.measure.kind);
    all([
        choice(state, "Kind of shaft", |job| job.measure.kind, |job, to| job.measure.kind = to),
        choice(
            state,
            "Tape, rule or calliper reads to",
            |job| job.measure.division,
            |job, to| job.measure.division = to,
        ),
        part("Old shaft", old_shaft(state, kind)),
        part("Wanted length", wanted(state, kind)),
        fold("Tape not laid on cup centres?", off_centre(state), move || datums(state)),
        part(
            "Slip",
            fields(state, &[Entry::SetPoint, Entry::SplineLength, Entry::LeastEngaged, Entry::BumpRoom]),
        ),
        part("Axle travel", travel(state)),
        slot(move || {
            (kind.get() == ShaftKind::SlipInGearbox).then(|| part("Gearbox seal", seal(state)))
        }),
    ])
}

fn slip_stood(state: State, label: &'static str) -> AnyView {
    let drawn = state.follows(|job| job.measure.yoke_at == YokeAt::Drawn);
    all([
        choice(state, label, |job| job.measure.yoke_at, |job, to| job.measure.yoke_at = to),
        slot(move || drawn.get().then(|| field(state, Entry::TakenAt))),
    ])
}

fn old_shaft(state: State, kind: Memo<ShaftKind>) -> AnyView {
    let read = readings(
        state,
        "On the bench, joint to joint",
        Entry::OldReading,
        |job| &job.measure.old,
        |job| &mut job.measure.old,
    );
    // A slip in the shaft is part of its length.
    let stood = move || {
        (kind.get() != ShaftKind::SlipInGearbox)
            .then(|| slip_stood(state, "Its slip, while it was measured"))
    };
    all([read, slot(stood)])
}

fn wanted(state: State, kind: Memo<ShaftKind>) -> AnyView {
    let route = state.follows(|job| job.measure.route);
    let joints = move || {
        let read = readings(
            state,
            "Under the car, joint to joint",
            Entry::WantedReading,
            |job| &job.measure.wanted,
            |job| &mut job.measure.wanted,
        );
        let stood = move || {
            (kind.get() == ShaftKind::SlipInGearbox)
                .then(|| slip_stood(state, "Slip yoke, while this was taken"))
        };
        (route.get() != Route::Ends).then(|| all([read, slot(stood)]))
    };
    let ends = move || (route.get() != Route::Joints).then(|| from_ends(state, kind.get()));
    all([
        choice(state, "Measured", |job| job.measure.route, |job, to| job.measure.route = to),
        slot(joints),
        slot(ends),
    ])
}

fn from_ends(state: State, kind: ShaftKind) -> AnyView {
    let (legend, parts): (_, &[Entry]) = match kind {
        ShaftKind::SlipInGearbox => {
            ("Gearbox seal face to axle joint centre", &[Entry::BottomedGap, Entry::FrontDepth])
        }
        ShaftKind::SlipOnShaft => ("Gearbox flange to axle joint centre", &[Entry::FrontDepth]),
        ShaftKind::Flanged => ("Gearbox flange to axle flange", &[Entry::FrontDepth, Entry::RearDepth]),
    };
    let read = readings(
        state,
        legend,
        Entry::EndsReading,
        |job| &job.measure.ends,
        |job| &mut job.measure.ends,
    );
    all([read, fields(state, parts)])
}

/// What the tape lay on: old front and rear, wanted front and rear.
const fn laid_on(job: &Job) -> [Datum; 4] {
    let (old, wanted) = (job.measure.old_datum, job.measure.wanted_datum);
    [old.front, old.rear, wanted.front, wanted.rear]
}

/// Whether the tape lay anywhere but on cup centres: what was chosen is then never folded away.
fn off_centre(state: State) -> Memo<bool> {
    state.follows(|job| laid_on(job).iter().any(|at| *at != Datum::CupCentre))
}

/// Where the tape lay, and what brings it to the cup centres.
fn datums(state: State) -> AnyView {
    let places = state.follows(laid_on);
    let sizes = move || {
        use crate::job::Datum::{InnerEar, InnerSeat, OuterEar, OuterSeat};
        let [front, rear, wanted_front, wanted_rear] = places.get();
        let mut asked = Vec::new();
        for (datum, cup, ear) in [
            (front, Entry::FrontCup, Entry::FrontEar),
            (rear, Entry::RearCup, Entry::RearEar),
            (wanted_front, Entry::FrontCup, Entry::WantedFrontEar),
            (wanted_rear, Entry::RearCup, Entry::WantedRearEar),
        ] {
            match datum {
                OuterSeat | InnerSeat if !asked.contains(&cup) => asked.push(cup),
                OuterEar | InnerEar => asked.push(ear),
                _ => {}
            }
        }
        Some(fields(state, &asked))
    };
    // From the ends there are no joint marks to choose.
    let joints = state.follows(|job| job.measure.route != Route::Ends);
    let wanted = move || {
        joints.get().then(|| {
            all([
                choice(
                    state,
                    "Wanted, front",
                    |job| job.measure.wanted_datum.front,
                    |job, to| job.measure.wanted_datum.front = to,
                ),
                choice(
                    state,
                    "Wanted, rear",
                    |job| job.measure.wanted_datum.rear,
                    |job, to| job.measure.wanted_datum.rear = to,
                ),
            ])
        })
    };
    all([
        el("p").class("small").text("Outer: away from the other joint. The same marks at both ends, old and wanted, are surest.").into(),
        choice(
            state,
            "Old, front",
            |job| job.measure.old_datum.front,
            |job, to| job.measure.old_datum.front = to,
        ),
        choice(
            state,
            "Old, rear",
            |job| job.measure.old_datum.rear,
            |job, to| job.measure.old_datum.rear = to,
        ),
        slot(wanted),
        slot(sizes),
    ])
}

fn travel(state: State) -> AnyView {
    let by = state.follows(|job| job.slip.by);
    let guide = state.follows(|job| job.slip.guide);
    let link = move || {
        (guide.get() != Guide::Straight).then(|| fields(state, &[Entry::LinkRadius, Entry::LinkRise]))
    };
    let asked = move || {
        Some(match by.get() {
            TravelBy::Measured => fields(state, &[Entry::AtBump, Entry::AtRide, Entry::AtDroop]),
            TravelBy::Reckoned => all([
                field(state, Entry::ShaftSlope),
                choice(state, "The axle moves", |job| job.slip.guide, |job, to| job.slip.guide = to),
                slot(link),
            ]),
        })
    };
    all([
        choice(state, "Way of the slip", |job| job.slip.by, |job, to| job.slip.by = to),
        fields(state, &[Entry::BumpTravel, Entry::DroopTravel]),
        slot(asked),
    ])
}

fn seal(state: State) -> AnyView {
    let groove = state.follows(|job| job.slip.groove);
    let from_ends = state.follows(|job| job.measure.route != Route::Joints);
    let asked = move || {
        (groove.get() == Groove::Worn)
            .then(|| fields(state, &[Entry::GroovePlace, Entry::GrooveWidth, Entry::GrooveMargin]))
    };
    // Asked with the distance from the ends, where that is measured.
    let bottomed = move || (!from_ends.get()).then(|| field(state, Entry::BottomedGap));
    all([
        slot(bottomed),
        fields(state, &[Entry::LipDepth, Entry::BarrelLength]),
        choice(
            state,
            "Old seal's groove in the barrel",
            |job| job.slip.groove,
            |job, to| job.slip.groove = to,
        ),
        slot(asked),
    ])
}

/// Repeat readings of one length, with a key for one more.
fn readings(
    state: State,
    legend: &'static str,
    entry: fn(usize) -> Entry,
    list: fn(&Job) -> &Vec<Typed>,
    list_mut: fn(&mut Job) -> &mut Vec<Typed>,
) -> AnyView {
    let count = Memo::new(move |_| state.job.with(|job| list(job).len()));
    let more = move || {
        let add = move || state.change(|job| list_mut(job).push(Typed::default()));
        (count.get() < MOST_READINGS).then(|| key("plain", "One more reading", add).into())
    };
    el("div")
        .class("readings")
        .slot(move || Some(field_row(state, legend, (0..count.get()).map(entry).collect())))
        .slot(more)
        .into()
}

/// The drawings.
pub fn pictures(state: State) -> AnyView {
    all([
        picture(state, "Side view, broken in the middle, not to scale", Follows::Pause, elevation),
        picture(
            state,
            "The slip over the whole travel, to scale: hatched where it runs, dashed where it must not",
            Follows::Pause,
            slip,
        ),
    ])
}
