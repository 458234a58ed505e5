//! Which turn of the dial is shown: the pass, and the place along the tube.

use leptos::prelude::*;

use crate::job::{Choice, DialTurn, Entry, MOST_PASSES, MOST_PLACES, Pass, PassKind};
use crate::screen::parts::{Pad, all, el, field, key, segments, slot};
use crate::screen::state::State;
use crate::sheet::Worded;

/// Which pass is shown, and which place along the tube, where there are several.
pub fn shown(state: State) -> AnyView {
    // A turn keeps its kind for good: only how many there are can change.
    let count = state.follows(|job| job.truing.passes.len());
    let along = state.follows(|job| job.truing.places.len());
    let turns = move || {
        // Read, not only tracked: a memo that nobody reads is never worked out anew.
        if count.get() < 2 {
            return None;
        }
        let named = |(i, pass): (usize, &Pass)| format!("{} {}", i + 1, pass.kind.word());
        let words =
            state.job.with_untracked(|job| job.truing.passes.iter().enumerate().map(named).collect());
        Some(segments("Turn", words, state.pass.into(), move |pass| state.pass.set(pass)))
    };
    let places = move || {
        let words = (1..=along.get()).map(|place| format!("Place {place}")).collect();
        let choose = move |place: usize| state.along.set(place);
        (along.get() > 1).then(|| segments("Along the tube", words, state.along.into(), choose))
    };
    all([slot(turns), slot(places)])
}

/// The keys that begin a pass, and the one that takes an empty one away.
pub fn new_pass(state: State, pad: Pad) -> AnyView {
    let count = state.follows(|job| job.truing.passes.len());
    let add = move |kind: PassKind| {
        let stations =
            state.job.with_untracked(|job| job.truing.passes.last().map(|pass| pass.stations));
        state.change(|job| _ = job.truing.begin(kind, stations.unwrap_or_default()));
        state.pass.set(count.get_untracked().saturating_sub(1));
        pad.show_soon();
    };
    let keys = move || {
        let each = PassKind::ALL.iter();
        all(each.map(|kind| key("plain", &format!("+ {}", kind.word()), move || add(*kind)).into()))
    };
    // A turn begun by mistake can be taken away while nothing stands in it.
    let empty = Memo::new(move |_| {
        let blank = Pass::is_blank;
        let at = state.pass.get();
        state.job.with(|job| job.truing.passes.len() > 1 && job.truing.passes.get(at).is_some_and(blank))
    });
    let take_away = move || {
        let at = state.pass.get_untracked();
        state.pass.set(at.saturating_sub(1));
        state.change(|job| {
            if at < job.truing.passes.len() {
                job.truing.passes.remove(at);
            }
        });
    };
    slot(move || {
        (count.get() < MOST_PASSES).then(|| {
            el("div")
                .class("actions")
                .attr("role", "group")
                .attr("aria-label", "Take a new turn")
                .child(el("span").class("small").text("New turn:"))
                .child(keys())
                .slot(move || {
                    empty.get().then(|| key("plain", "Take this empty turn away", take_away).into())
                })
                .into()
        })
    })
}

/// Where along the tube the dial stands, and one place more or less.
pub fn places(state: State) -> AnyView {
    let count = state.follows(|job| job.truing.places.len());
    // What was read is not thrown away with its place.
    let last_is_blank = state.follows(|job| {
        let blank = |pass: &Pass| pass.turns.last().is_none_or(DialTurn::is_blank);
        job.truing.places.len() > 1 && job.truing.passes.iter().all(blank)
    });
    let add = move || {
        state.change(|job| job.truing.add_place());
        state.along.set(count.get_untracked().saturating_sub(1));
    };
    let take_away = move || {
        let last = count.get_untracked().saturating_sub(1);
        state.along.update(|along| *along = (*along).min(last.saturating_sub(1)));
        state.change(|job| job.truing.drop_place());
    };
    // Told apart from the count, so that the key stays where the finger or the focus is.
    let room = state.follows(|job| job.truing.places.len() < MOST_PLACES);
    let more = move || room.get().then(|| key("plain", "One more place along the tube", add).into());
    let fewer =
        move || last_is_blank.get().then(|| key("plain", "Take the last place away", take_away).into());
    all([
        slot(move || Some(field(state, Entry::PlaceAlong(state.along.get())))),
        el("div").class("actions").slot(more).slot(fewer).into(),
    ])
}
