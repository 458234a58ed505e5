//! Cut.

use leptos::prelude::*;

use super::truing::limit_questions;
use crate::drawing::elevation;
use crate::job::Entry;
use crate::quantity::show_length;
use crate::screen::parts::{choice, fields, picture, slot};
use crate::screen::state::State;
use crate::sheet::{mark_note, mark_title};
use crate::stage::cut::{Mark, cut_list};

/// The questions.
pub fn questions(state: State) -> AnyView {
    view! {
        {choice(state, "Cut at the", |job| job.cut.end, |job, to| job.cut.end = to)}
        {fields(state, &[Entry::WeldLine, Entry::FarWeldLine, Entry::Kerf, Entry::RootGap, Entry::Shrinkage, Entry::Spigot, Entry::TubeDiameter])}
        {limit_questions(state)}
    }
    .into_any()
}

/// The drawing and the cut list.
pub fn pictures(state: State) -> AnyView {
    view! {
        {list(state)}
        {picture(state, "Side view, broken in the middle, not to scale", elevation)}
    }
    .into_any()
}

/// The cut list: every place from the far datum, in its order.
fn list(state: State) -> AnyView {
    let marks: Memo<Vec<Mark>> = Memo::new(move |_| {
        state.job.with(|job| cut_list(job).map(|list| list.marks).unwrap_or_default())
    });
    slot(move || {
        let display = state.job.with(|job| job.display.lengths());
        let row = |mark: &Mark| {
            view! {
                <tr>
                    <th scope="row">{mark_title(mark.name)}<small>{mark_note(mark.name)}</small></th>
                    <td>{show_length(mark.from_far, display)}</td>
                </tr>
            }
            .into_any()
        };
        let rows: Vec<AnyView> = marks.with(|marks| marks.iter().map(row).collect());
        (!rows.is_empty()).then(|| {
            view! {
                <table class="cut-list">
                    <caption>"Cut list, from the far joint's centre"</caption>
                    <tbody>{rows.into_any()}</tbody>
                </table>
            }
            .into_any()
        })
    })
}
