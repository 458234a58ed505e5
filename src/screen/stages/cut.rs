//! Cut.

use leptos::prelude::*;

use super::truing::limit_questions;
use crate::drawing::elevation;
use crate::job::Entry;
use crate::quantity::show_length;
use crate::screen::parts::{Follows, all, choice, el, fields, picture, slot};
use crate::screen::state::State;
use crate::sheet::{far_joint, mark_note, mark_title};
use crate::stage::cut::{Mark, cut_list};

/// The questions.
pub fn questions(state: State) -> AnyView {
    const ENTRIES: [Entry; 7] = [
        Entry::WeldLine,
        Entry::FarWeldLine,
        Entry::Kerf,
        Entry::RootGap,
        Entry::Shrinkage,
        Entry::Spigot,
        Entry::TubeDiameter,
    ];
    all([
        choice(state, "Cut at the", |job| job.cut.end, |job, to| job.cut.end = to),
        fields(state, &ENTRIES),
        limit_questions(state),
    ])
}

/// The drawing and the cut list.
pub fn pictures(state: State) -> AnyView {
    all([
        list(state),
        picture(state, "Side view, broken in the middle, not to scale", Follows::Pause, elevation),
    ])
}

/// The cut list: every place from the far datum, in its order.
fn list(state: State) -> AnyView {
    let marks: Memo<Vec<Mark>> = Memo::new(move |_| {
        state.job.with(|job| cut_list(job).map(|list| list.marks).unwrap_or_default())
    });
    slot(move || {
        let display = state.job.with(|job| job.display.lengths());
        let row = |mark: &Mark| {
            let what = el("th")
                .attr("scope", "row")
                .text(mark_title(mark.name))
                .child(el("small").text(mark_note(mark.name)));
            el("tr").child(what).child(el("td").text(&show_length(mark.from_far, display))).into()
        };
        let rows: Vec<AnyView> = marks.with(|marks| marks.iter().map(row).collect());
        (!rows.is_empty()).then(|| {
            el("table")
                .class("cut-list")
                .child(
                    el("caption").text(
                        &state
                            .job
                            .with(|job| format!("Cut list, from the {} joint's centre", far_joint(job))),
                    ),
                )
                .child(el("tbody").children(rows))
                .into()
        })
    })
}
