//! Angles.

use leptos::prelude::*;

use crate::drawing::{line_views, speed_curve, turn_curve};
use crate::job::{Entry, PlanBy, SLOPE_READINGS, ShaftBy};
use crate::screen::parts::{
    Follows, LevelTarget, Placing, all, choice, field_row, fields, fold, level_panel, part, picture,
    slot,
};
use crate::screen::state::State;

/// The questions.
pub fn questions(state: State) -> AnyView {
    all([
        choice(
            state,
            "Protractor or level reads to",
            |job| job.angles.division,
            |job, to| job.angles.division = to,
        ),
        part(
            "Slopes at ride height",
            all([
                slopes(state, "Gearbox", Entry::GearboxSlope),
                slopes(state, "Pinion", Entry::PinionSlope),
                shaft(state),
            ]),
        ),
        fold("Cancel the instrument's own error?", turned(state), move || {
            fields(state, &[Entry::OneWay, Entry::TurnedRound])
        }),
        by_device(state),
        part("Seen from above", plan(state)),
        part(
            "As the axle moves",
            fields(
                state,
                &[
                    Entry::PowerRise,
                    Entry::PinionArm,
                    Entry::BumpTravel,
                    Entry::BumpRise,
                    Entry::DroopTravel,
                    Entry::DroopRise,
                ],
            ),
        ),
        part(
            "Speed and limits",
            fields(
                state,
                &[
                    Entry::TopSpeed,
                    Entry::RoadSpeed,
                    Entry::TorsionalLimit,
                    Entry::InertiaLimit,
                    Entry::LeastAngle,
                    Entry::JointMost,
                ],
            ),
        ),
        part(
            "For the size of a wedge or shim",
            fields(state, &[Entry::SpringPad, Entry::MountArm, Entry::JointOverhang]),
        ),
    ])
}

fn slopes(state: State, legend: &'static str, entry: fn(usize) -> Entry) -> AnyView {
    field_row(state, legend, (0..SLOPE_READINGS).map(entry).collect())
}

fn shaft(state: State) -> AnyView {
    let by = state.follows(|job| job.angles.shaft_by);
    let asked = move || {
        Some(match by.get() {
            ShaftBy::Heights => fields(state, &[Entry::FrontHeight, Entry::RearHeight]),
            ShaftBy::Read => slopes(state, "Shaft", Entry::ShaftSlopeRead),
        })
    };
    all([
        choice(
            state,
            "Slope of the new shaft",
            |job| job.angles.shaft_by,
            |job, to| job.angles.shaft_by = to,
        ),
        slot(asked),
    ])
}

/// The tablet or phone as the level.
fn by_device(state: State) -> AnyView {
    let read = state.follows(|job| job.angles.shaft_by == ShaftBy::Read);
    let row = |name, entry: fn(usize) -> Entry| LevelTarget {
        name,
        entries: (0..SLOPE_READINGS).map(entry).collect(),
        turned: false,
    };
    let one = |name, entry, turned| LevelTarget { name, entries: vec![entry], turned };
    let targets = move || {
        let mut all = vec![row("Gearbox", Entry::GearboxSlope), row("Pinion", Entry::PinionSlope)];
        if read.get() {
            all.push(row("Shaft", Entry::ShaftSlopeRead));
        }
        all.push(one("One spot", Entry::OneWay, false));
        all.push(one("The same spot, turned", Entry::TurnedRound, true));
        all
    };
    let placing = Placing {
        how: "Lay it on the part, screen up, so that the arrow runs along it; tap and let go. For the same spot turned, lay it end for end. That takes out what a case or camera adds.",
        toward: "the rear",
    };
    level_panel(state, placing, |job| job.angles.division, targets)
}

/// The instrument was read both ways round, or is being.
fn turned(state: State) -> Memo<bool> {
    state.follows(|job| {
        let filled = |entry| job.typed(entry).is_some_and(|typed| !typed.is_blank());
        [Entry::OneWay, Entry::TurnedRound].into_iter().any(filled)
    })
}

fn plan(state: State) -> AnyView {
    let by = state.follows(|job| job.angles.plan_by);
    let asked = move || match by.get() {
        PlanBy::Straight => None,
        PlanBy::Offset => Some(fields(state, &[Entry::SideOffset])),
        PlanBy::Angles => {
            Some(fields(state, &[Entry::GearboxPlan, Entry::ShaftPlan, Entry::PinionPlan]))
        }
    };
    all([
        choice(
            state,
            "Gearbox, shaft and pinion",
            |job| job.angles.plan_by,
            |job, to| job.angles.plan_by = to,
        ),
        slot(asked),
    ])
}

/// The drawings.
pub fn pictures(state: State) -> AnyView {
    all([
        picture(
            state,
            "Gearbox, shaft and pinion at ride, no load: slopes, + falling toward the rear; from above, + going right",
            Follows::Pause,
            line_views,
        ),
        picture(
            state,
            "How hard pinion and shaft are shaken as speed rises, and where each comes to its limit",
            Follows::Pause,
            speed_curve,
        ),
        picture(
            state,
            "Speed over one turn of the gearbox, under power: shaft thin, pinion bold",
            Follows::Pause,
            turn_curve,
        ),
    ])
}
