//! True.

mod readings;
mod set_up;
mod turns;

use leptos::prelude::*;

use crate::drawing;
use crate::screen::parts::{Follows, all, picture};
use crate::screen::state::State;
pub use set_up::limit_questions;

/// The questions: the set-up once, then which turn at which place, and its readings.
pub fn questions(state: State) -> AnyView {
    all([set_up::set_up(state), turns::passes(state), turns::places(state), readings::readings(state)])
}

/// The curve and the clock.
pub fn pictures(state: State) -> AnyView {
    let clock = picture(
        state,
        "Tube from the rear: the high side, and which way to move it",
        Follows::Pause,
        move |job| drawing::high_spot(job, state.pass.get()),
    );
    let curve = picture(
        state,
        "Readings round the clock, in the dial's lines: points read, thin line fitted, bold line the offset, faint lines earlier turns",
        Follows::Keystroke,
        move |job| drawing::runout_curve(job, state.pass.get()),
    );
    all([curve, clock])
}
