//! True.

mod readings;
mod set_up;
mod turns;

use leptos::prelude::*;

use crate::drawing;
use crate::screen::parts::{Follows, Pad, all, picture};
use crate::screen::state::State;
pub use set_up::limit_questions;

/// The questions: the set-up once, then which turn at which place, and its readings.
pub fn questions(state: State) -> AnyView {
    let pad = Pad::new(state);
    pad.around(all([
        set_up::set_up(state),
        turns::shown(state),
        readings::readings(state, pad),
        turns::places(state),
        turns::new_pass(state, pad),
    ]))
}

/// The curve, the tube from the rear, the passes one after the other, and the shaft's line.
pub fn pictures(state: State) -> AnyView {
    let shown = move || (state.pass.get(), state.along.get());
    // The turn that is typed is drawn with each keystroke; those before it are fitted when it pauses.
    let older = Memo::new(move |_| {
        let (pass, along) = shown();
        state.at_rest(|job| drawing::older_turns(job, pass, along))
    });
    let curve = picture(
        state,
        "Readings round the tube: points as read with their ±, hollow where set aside; thin line fitted, bold line the offset; dashed the limit about the mean; shaded the seam; faint lines earlier turns",
        Follows::Keystroke,
        move |job| {
            let (pass, along) = shown();
            older.with(|older| drawing::runout_curve(job, pass, along, older))
        },
    );
    let end = picture(
        state,
        "Tube from the rear, out of true much enlarged: dots as read, thin line fitted, bold circle the offset; its centre lies within the small ring; dashed a true tube. Dot on the rim: the high side; arrow, before welding: where to tap, and which way",
        Follows::Keystroke,
        move |job| {
            let (pass, along) = shown();
            older.with(|older| drawing::end_view(job, pass, along, older))
        },
    );
    let passes = picture(
        state,
        "Offset found by each pass with its ±; dashed: half the limit of the total reading; below: when the pass was begun, counted from the first",
        Follows::Pause,
        move |job| drawing::history(job, state.along.get()),
    );
    let line = picture(
        state,
        "The shaft from joint to joint, much enlarged across: dots the offset at each place with its ±, bold line what explains them",
        Follows::Pause,
        move |job| drawing::centreline(job, state.pass.get()),
    );
    all([curve, end, passes, line])
}
