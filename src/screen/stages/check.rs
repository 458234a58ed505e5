//! Check.

use leptos::prelude::*;

use crate::job::Entry;
use crate::screen::parts::{all, choice, field, fields};
use crate::screen::state::State;

/// The questions.
pub fn questions(state: State) -> AnyView {
    all([
        fields(state, &[Entry::TubeDiameter, Entry::TubeWall]),
        choice(state, "Tube is of", |job| job.tube.material, |job, to| job.tube.material = to),
        field(state, Entry::TopSpeed),
        choice(
            state,
            "Share of the whirl speed allowed",
            |job| job.check.whirl_share,
            |job, to| job.check.whirl_share = to,
        ),
    ])
}
