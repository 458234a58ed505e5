//! Check.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Drives, Entry, Gearbox, Grade, Job, MOST_GEARS, TubeMaterial, Typed, TyreBy};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, fold, key, part, picture, slot, standing_mark,
};
use crate::screen::state::State;
use crate::sheet::{gear_table, need, tube_table, verdict_standing, verdict_word};

/// Whether something stands in one of these fields.
fn any(job: &Job, entries: &[Entry]) -> bool {
    entries.iter().any(|entry| job.typed(*entry).is_some_and(|typed| !typed.is_blank()))
}

/// The questions: what spins it, what it is built of, what it must carry.
pub fn questions(state: State) -> AnyView {
    all([
        tube(state),
        part("How fast it turns", speeds(state)),
        part("Yokes and what holds it", build(state)),
        part("What it must carry", load(state)),
    ])
}

fn tube(state: State) -> AnyView {
    let by_hand = state.follows(|job| job.tube.material == TubeMaterial::ByHand);
    let figures = move || {
        by_hand.get().then(|| fields(state, &[Entry::Modulus, Entry::ShearModulus, Entry::Density]))
    };
    all([
        fields(state, &[Entry::TubeDiameter, Entry::TubeWall]),
        choice(state, "Tube is of", |job| job.tube.material, |job, to| job.tube.material = to),
        slot(figures),
        choice(
            state,
            "Share of the whirl speed allowed",
            |job| job.check.whirl_share,
            |job, to| job.check.whirl_share = to,
        ),
    ])
}

fn speeds(state: State) -> AnyView {
    let tyre_by = state.follows(|job| job.check.speeds.tyre_by);
    let tyre = move || {
        let entry = match tyre_by.get() {
            TyreBy::Marking => Entry::TyreSize,
            TyreBy::Turns => Entry::TyreTurns,
            TyreBy::RolledOut => Entry::RolledOut,
        };
        Some(field(state, entry))
    };
    all([
        field(state, Entry::TopSpeed),
        field(state, Entry::EngineLimit),
        gears(state),
        choice(
            state,
            "The tyre is known",
            |job| job.check.speeds.tyre_by,
            |job, to| job.check.speeds.tyre_by = to,
        ),
        slot(tyre),
        fields(state, &[Entry::AxleRatio, Entry::RoadTop, Entry::Cruise]),
    ])
}

/// The gears, and what each comes to.
fn gears(state: State) -> AnyView {
    let count = state.follows(|job| job.check.speeds.gears.len());
    let rows = move || {
        Some(field_row(state, "Gears, from first", (0..count.get()).map(Entry::GearRatio).collect()))
    };
    let more = move || {
        let add = move || state.change(|job| job.check.speeds.gears.push(Typed::default()));
        (count.get() < MOST_GEARS).then(|| key("plain more-gears", "One more gear", add).into())
    };
    let table = Memo::new(move |_| state.at_rest(gear_table));
    let shown = move || {
        let row = |row: crate::sheet::GearRow| {
            let cells = [row.shaft, row.road].map(|words| el("td").text(&words).into());
            let gear = el("th").attr("scope", "row").text(&row.gear);
            el("tr").child(gear).children(cells).into()
        };
        let rows: Vec<AnyView> = table.get().into_iter().map(row).collect();
        (!rows.is_empty()).then(|| {
            let head = ["Engine at its top speed", "shaft", "on the road"]
                .map(|words| el("th").attr("scope", "col").text(words).into());
            el("table")
                .class("figures")
                .child(el("thead").child(el("tr").children(head)))
                .child(el("tbody").children(rows))
                .into()
        })
    };
    let other = state.follows(|job| any(job, &[Entry::ReverseRatio, Entry::LowRange]));
    all([
        slot(rows),
        slot(more),
        slot(shown),
        fold("Reverse, and a transfer case", other, move || {
            fields(state, &[Entry::ReverseRatio, Entry::LowRange])
        }),
    ])
}

fn build(state: State) -> AnyView {
    const HELD: [Entry; 3] = [Entry::FrontSupport, Entry::RearSupport, Entry::SlipMass];
    const STEP: [Entry; 3] = [Entry::StepAt, Entry::StepDiameter, Entry::StepWall];
    const LUMP: [Entry; 2] = [Entry::LumpMass, Entry::LumpAt];
    const BEARING: [Entry; 2] = [Entry::BearingAt, Entry::HungBehind];
    let folded = |title, entries: &'static [Entry]| {
        let counts = Memo::new(move |_| state.job.with(|job| any(job, entries)));
        fold(title, counts, move || fields(state, entries))
    };
    all([
        fields(state, &[Entry::FarWeldLine, Entry::WeldLine]),
        fields(state, &[Entry::ShaftMass, Entry::FrontYokeMass, Entry::RearYokeMass]),
        folded("How hard it is held", &HELD),
        folded("A tube of two sizes", &STEP),
        folded("A damper or lump on it", &LUMP),
        folded("A centre bearing: the front half of two pieces", &BEARING),
    ])
}

fn load(state: State) -> AnyView {
    let automatic = state.follows(|job| job.check.load.gearbox == Gearbox::Automatic);
    let stall = move || automatic.get().then(|| field(state, Entry::StallRatio));
    let one_axle = state.follows(|job| job.check.load.drives == Drives::OneAxle);
    let slip = move || one_axle.get().then(|| fields(state, &[Entry::AxleLoad, Entry::Friction]));
    let material = state.follows(|job| job.tube.material);
    let grade = state.follows(|job| job.check.load.grade);
    let grades = move || {
        (material.get() == TubeMaterial::Steel).then(|| {
            choice(
                state,
                "Grade of the tube",
                |job| job.check.load.grade,
                |job, to| job.check.load.grade = to,
            )
        })
    };
    let yields = move || {
        let by_table = material.get() == TubeMaterial::Steel && grade.get() != Grade::OwnYield;
        (!by_table).then(|| field(state, Entry::OwnYield))
    };
    let spline =
        state.follows(|job| any(job, &[Entry::SplineRoot, Entry::SplineBore, Entry::SplineYield]));
    let joints = state.follows(|job| any(job, &[Entry::JointRating, Entry::JointRatedTo]));
    all([
        field(state, Entry::EngineTorque),
        choice(state, "Gearbox is", |job| job.check.load.gearbox, |job, to| job.check.load.gearbox = to),
        slot(stall),
        choice(
            state,
            "This shaft drives",
            |job| job.check.load.drives,
            |job, to| job.check.load.drives = to,
        ),
        slot(slip),
        slot(grades),
        slot(yields),
        fields(state, &[Entry::WeldLeg, Entry::ElectrodeStrength]),
        fold("Slip, stub or other splined part", spline, move || {
            fields(state, &[Entry::SplineRoot, Entry::SplineBore, Entry::SplineYield])
        }),
        fold("What the joints are rated for", joints, move || {
            fields(state, &[Entry::JointRating, Entry::JointRatedTo])
        }),
    ])
}

/// The chart, the shape it bends in, and which tube would do.
pub fn pictures(state: State) -> AnyView {
    let shut = Memo::new(|_| false);
    all([
        picture(
            state,
            "Whirl speed against length, this shaft's old and new length marked",
            Follows::Pause,
            drawing::whirl_chart,
        ),
        picture(
            state,
            "How it bends at its first whirl speed, out and back; triangles where it is held",
            Follows::Pause,
            drawing::bending,
        ),
        fold("Which tube would do? Common sizes for this job", shut, move || tubes(state)),
    ])
}

/// Common tubes, the best first.
fn tubes(state: State) -> AnyView {
    let rows = Memo::new(move |_| {
        state.at_rest(|job| {
            tube_table(job).map_err(|needs| needs.iter().map(|n| need(job, n)).collect::<Vec<_>>())
        })
    });
    let shown = move || {
        let found = match rows.get() {
            Ok(found) => found,
            Err(needs) => {
                let words = format!("It needs: {}.", needs.join(", "));
                return Some(el("p").class("small").text(&words).into());
            }
        };
        let row = |row: crate::sheet::TubeRow| {
            let size = el("th").attr("scope", "row").text(&row.size);
            let size = size.child(el("small").text(&row.figures));
            let mark = standing_mark(verdict_standing(&row.verdict));
            let verdict = el("td").class("judged").child(mark).text(verdict_word(&row.verdict));
            el("tr").child(size).child(verdict).into()
        };
        let table = el("table")
            .class("cut-list tubes")
            .child(el("caption").text("The good ones first, the lighter before the heavier"))
            .child(el("tbody").children(found.into_iter().map(row).collect::<Vec<AnyView>>()));
        let words = "At the new length, with these yokes and of this grade. Another diameter needs yokes with a spigot that fits it; look for room in the tunnel.";
        Some(all([table.into(), el("p").class("small").text(words).into()]))
    };
    slot(shown)
}
