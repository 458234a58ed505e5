//! True.

mod readings;
mod set_up;
mod turns;

use leptos::prelude::*;

use crate::drawing;
use crate::screen::parts::{Follows, Pad, all, picture};
use crate::screen::state::State;
use crate::stage::truing::{Earlier, Turn, earlier, findings_of, first, turn};
use crate::stage::{Blocked, Finding};
pub use set_up::limit_questions;

/// The turn in hand as it stands on the page: read once with each keystroke, for the order, the curve and
/// the tube from the rear. What earlier passes teach follows at a pause.
#[derive(Clone, Copy)]
pub struct ShownTurn {
    turn: Memo<Result<Turn, Blocked>>,
    before: Memo<Earlier>,
}

impl ShownTurn {
    pub fn new(state: State) -> ShownTurn {
        let place = move || (state.pass.get(), state.along.get());
        ShownTurn {
            turn: Memo::new(move |_| {
                let (pass, along) = place();
                state.job.with(|job| turn(job, pass, along))
            }),
            before: Memo::new(move |_| {
                let (pass, along) = place();
                state.at_rest(|job| earlier(job, pass, along))
            }),
        }
    }

    /// The order: what to do.
    pub fn first(self, state: State) -> Finding {
        state.job.with(|job| self.turn.with(|turn| self.before.with(|before| first(job, turn, before))))
    }

    /// All that follows, at a pause.
    pub fn findings(self, state: State) -> Vec<Finding> {
        let (pass, along) = (state.pass.get(), state.along.get());
        self.before.with(|before| {
            state.at_rest(|job| {
                self.turn.with_untracked(|turn| findings_of(job, pass, along, turn, before))
            })
        })
    }

    /// A drawing of the turn; nothing while it cannot be read.
    fn drawn(self, draw: impl FnOnce(&Turn) -> Option<String>) -> Option<String> {
        self.turn.with(|turn| turn.as_ref().ok().and_then(draw))
    }
}

/// The questions: the set-up once, then which turn at which place, and its readings.
pub fn questions(state: State, shown: ShownTurn) -> AnyView {
    let pad = Pad::new(state, shown.turn);
    pad.around(all([
        set_up::set_up(state),
        turns::shown(state),
        readings::readings(state, pad),
        turns::places(state),
        turns::new_pass(state, pad),
    ]))
}

/// The curve, the tube from the rear, the passes one after the other, and the shaft's line.
pub fn pictures(state: State, shown: ShownTurn) -> AnyView {
    // The turn that is typed is drawn with each keystroke; those before it are fitted when it pauses.
    let older = Memo::new(move |_| {
        let (pass, along) = (state.pass.get(), state.along.get());
        state.at_rest(|job| drawing::older_turns(job, pass, along))
    });
    let curve = picture(
        state,
        "Readings round the tube: points as read with their ±, hollow where set aside; thin line fitted, bold line the offset; dashed the limit about the mean; shaded the seam; faint lines earlier turns",
        Follows::Keystroke,
        move |job| {
            let pass = state.pass.get();
            shown.drawn(|turn| older.with(|older| drawing::runout_curve(job, pass, turn, older)))
        },
    );
    let end = picture(
        state,
        "Tube from the rear, out of true much enlarged: dots as read, thin line fitted, bold circle the offset; its centre lies within the small ring; dashed a true tube. Dot on the rim: the high side; arrow, before welding: where to tap, and which way",
        Follows::Keystroke,
        move |job| shown.drawn(|turn| shown.before.with(|before| drawing::end_view(job, turn, before))),
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
