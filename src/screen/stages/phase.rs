//! Phase.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{
    AFTER_WELDING, BEFORE_CUT, BEFORE_TACKING, Choice, Entry, Job, PHASE_READINGS, PhaseMethod,
    PhaseTarget, Side, Sitting,
};
use crate::screen::parts::{
    Follows, LevelTarget, Placing, all, choice, el, field, field_row, fields, fold, labelled,
    level_panel, line, part, picture, slot,
};
use crate::screen::state::State;
use crate::sheet::{Worded, cut_yoke};
use crate::stage::phase::begun;

/// The questions: how it is measured, what is wanted, and each time it is measured.
pub fn questions(state: State) -> AnyView {
    let method = state.follows(|job| job.phase.method);
    let target = state.follows(|job| job.phase.target);
    let welded = state.follows(|job| begun(job, AFTER_WELDING));
    let before_cut = move || {
        let why = "The same way as after it. Cut already? Choose another turn above.";
        (target.get() == PhaseTarget::AsItWas).then(|| {
            let asked = all([small(why), sitting(state, BEFORE_CUT, method)]);
            part("As it was, before the cut", asked)
        })
    };
    all([
        choice(state, "Measured by", |job| job.phase.method, |job, to| job.phase.method = to),
        slot(move || Some(of_method(state, method.get()))),
        choice(
            state,
            "How the yokes shall stand",
            |job| job.phase.target,
            |job, to| job.phase.target = to,
        ),
        slot(move || (target.get() == PhaseTarget::Own).then(|| field(state, Entry::OwnTarget))),
        fields(state, &[Entry::TubeDiameter, Entry::PhaseLimit]),
        slot(before_cut),
        part(
            "Before you tack",
            all([
                line("reason", move || {
                    let yoke = state.job.with(cut_yoke);
                    Some(format!(
                        "The {yoke} yoke is the one to turn: it is at the end that is cut. Changed at Cut."
                    ))
                }),
                sitting(state, BEFORE_TACKING, method),
            ]),
        ),
        fold("After welding", welded, move || sitting(state, AFTER_WELDING, method)),
    ])
}

fn small(words: &str) -> AnyView {
    el("p").class("small").text(words).into()
}

/// What is asked once for all sittings.
fn of_method(state: State, method: PhaseMethod) -> AnyView {
    match method {
        PhaseMethod::Levels => choice(
            state,
            "Level reads to",
            |job| job.phase.level_division,
            |job, to| job.phase.level_division = to,
        ),
        PhaseMethod::Bench => all([
            small("Front yoke's cups flat on the bench, tube held level."),
            field(state, Entry::Span),
        ]),
        PhaseMethod::BothLifts => all([
            small(
                "Tube propped level over one flat bench. Of each yoke: how much higher one ear is than the other.",
            ),
            fields(state, &[Entry::FrontSpan, Entry::Span]),
        ]),
        PhaseMethod::Lines => all([
            small(
                "Along each yoke, level with the middle of one ear, a line along the tube. Wrap the rule round the tube from the front yoke's line to the rear yoke's.",
            ),
            choice(
                state,
                "Tape, rule or calliper reads to",
                |job| job.measure.division,
                |job, to| job.measure.division = to,
            ),
        ]),
    }
}

/// The readings of one time that the yokes are measured.
fn sitting(state: State, at: usize, method: Memo<PhaseMethod>) -> AnyView {
    let row = move |legend, list: fn(usize, usize) -> Entry| {
        field_row(state, legend, (0..PHASE_READINGS).map(|reading| list(at, reading)).collect())
    };
    let rear_ear = move || {
        let set = |sitting: &mut Sitting, to| sitting.lifted = to;
        ear(state, at, "Rear yoke's higher ear, seen from the rear", |sitting| sitting.lifted, set)
    };
    let front_ear = move || {
        let set = |sitting: &mut Sitting, to| sitting.front_lifted = to;
        ear(
            state,
            at,
            "Front yoke's higher ear, seen from the rear",
            |sitting| sitting.front_lifted,
            set,
        )
    };
    slot(move || {
        let asked = match method.get() {
            PhaseMethod::Levels => all([
                row("Level on the front yoke: once will do", Entry::FrontLevel),
                row("Level on the rear yoke", Entry::RearLevel),
                by_device(state, at),
            ]),
            PhaseMethod::Bench => all([row("Gap, rear yoke: once will do", Entry::Lift), rear_ear()]),
            PhaseMethod::BothLifts => all([
                row("Gap, front yoke: once will do", Entry::FrontLift),
                front_ear(),
                row("Gap, rear yoke", Entry::Lift),
                rear_ear(),
            ]),
            PhaseMethod::Lines => row("Arc, front line to rear line: once will do", Entry::LineArc),
        };
        Some(asked)
    })
}

/// The tablet or phone as the level.
fn by_device(state: State, at: usize) -> AnyView {
    let yoke = move |name, list: fn(usize, usize) -> Entry| LevelTarget {
        name,
        entries: (0..PHASE_READINGS).map(|reading| list(at, reading)).collect(),
        turned: false,
    };
    let targets =
        move || vec![yoke("Front yoke", Entry::FrontLevel), yoke("Rear yoke", Entry::RearLevel)];
    let placing = Placing {
        how: "Lay it across the ears, screen up, the same way on both yokes; tap and let go.",
        toward: "the right, seen from the rear",
    };
    level_panel(state, placing, |job| job.phase.level_division, targets)
}

/// Which ear of a yoke is the higher one.
fn ear(
    state: State,
    at: usize,
    label: &'static str,
    get: fn(&Sitting) -> Side,
    set: fn(&mut Sitting, Side),
) -> AnyView {
    let chosen = move || {
        let side = state.job.with(|job: &Job| job.phase.sittings.get(at).map(get));
        Side::ALL.iter().position(|item| Some(*item) == side).unwrap_or(0)
    };
    let choose = move |chosen: usize| {
        state.change(|job| {
            if let (Some(sitting), Some(side)) = (job.phase.sittings.get_mut(at), Side::ALL.get(chosen))
            {
                set(sitting, *side);
            }
        });
    };
    labelled(
        label,
        Side::ALL.iter().map(|item| item.word()).collect(),
        Box::new(chosen),
        Box::new(choose),
    )
}

/// The drawing.
pub fn pictures(state: State) -> AnyView {
    picture(
        state,
        "Both yokes from the rear: dashed where the cut end's belongs, solid where it stands",
        Follows::Pause,
        drawing::phase,
    )
}
