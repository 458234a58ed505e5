//! One file a stage, all in one frame: questions at the left, answers at the right.

mod angles;
mod balance;
mod check;
mod cut;
mod measure;
mod phase;
mod strip;
mod truing;
mod weights;

use leptos::prelude::*;

use super::parts::{Part, all, answer_strip, cards, el, key, text};
use super::state::State;
use crate::job::Ready;
use crate::sheet::{caution, stage_lead, stage_title};
use crate::stage::{Finding, Stage};

/// A stage: its questions, its drawing, its answers.
///
/// In the second of the page's two files, as is all that only this calls: see `split.mjs`.
#[inline(never)]
pub fn stage_screen(state: State, stage: Stage) -> AnyView {
    let shown = (stage == Stage::True).then(|| truing::ShownTurn::new(state));
    // Only the first answer is watched while typing; the others follow when the hand has paused.
    let first: Memo<Vec<Finding>> = Memo::new(move |_| match shown {
        Some(shown) => vec![shown.first(state)],
        None => state.job.with(|job| stage.first(job)).into_iter().collect(),
    });
    let at_rest: Memo<Vec<Finding>> = Memo::new(move |_| match shown {
        Some(shown) => shown.findings(state),
        None => state.at_rest(|job| stage.findings(job)),
    });
    // Nothing of this stage is seen before what must be so was read and said to be so.
    let open = state.follows(|job| job.balance.ready == Ready::Ready);
    let open = Memo::new(move |_| stage != Stage::Balance || open.get());
    let inside = move || open.get().then(|| inside(state, stage, shown, first, at_rest));
    let ready = move || {
        let key = key("", "All of this is so", move || balance::say_ready(state, true));
        (!open.get()).then(|| el("div").class("onward").child(key).into())
    };
    let folded = Memo::new(move |_| stage == Stage::Balance && open.get());
    el("section")
        .class("stage")
        .attr("data-stage", stage.slug())
        .child(el("h1").text(stage_title(stage)))
        .child(el("p").class("lead").text(stage_lead(stage)))
        .slot(move || (!folded.get()).then(|| cautions(stage)))
        .slot(ready)
        .slot(inside)
        .into()
}

/// Questions, answers, and where to go from here.
fn inside(
    state: State,
    stage: Stage,
    shown: Option<truing::ShownTurn>,
    first: Memo<Vec<Finding>>,
    at_rest: Memo<Vec<Finding>>,
) -> AnyView {
    let (questions, pictures) = match stage {
        Stage::Measure => (measure::questions(state), measure::pictures(state)),
        Stage::Angles => (angles::questions(state), angles::pictures(state)),
        Stage::Check => (check::questions(state), check::pictures(state)),
        Stage::Cut => (cut::questions(state), cut::pictures(state)),
        Stage::Phase => (phase::questions(state), phase::pictures(state)),
        Stage::True => match shown {
            Some(shown) => (truing::questions(state, shown), truing::pictures(state, shown)),
            None => (().into_any(), ().into_any()),
        },
        Stage::Weights => (weights::questions(state), weights::pictures(state)),
        Stage::Balance => (balance::questions(state), balance::pictures(state)),
    };
    let place = Stage::ALL.iter().position(|known| *known == stage).unwrap_or(0);
    let next = Stage::ALL.get(place + 1).copied();
    let rest = cards(state, at_rest, Part::Rest);
    // Half of a correction at both ends stands on its second card: nothing may come between the two.
    let below = if stage == Stage::Balance { [rest, pictures] } else { [pictures, rest] };
    let answers = el("div")
        .class("answers")
        .attr("id", "answers")
        .child(cards(state, first, Part::First))
        .children(below)
        .children((stage == Stage::Cut).then(|| cut::marks_round_the_tube(state)));
    let columns =
        el("div").class("columns").child(el("div").class("questions").child(questions)).child(answers);
    let save = key("plain", "Save this job as a file", move || state.save_file());
    let print = key("plain", "Save it in plain words", move || state.save_report());
    let onward = next.map(|next| {
        el("a")
            .class("button")
            .live("href", text(move || state.address(next)))
            .text(&format!("On to {}", stage_title(next)))
            .into()
    });
    all([
        columns.into(),
        el("div").class("onward").child(save).child(print).children(onward).into(),
        answer_strip(state, first, at_rest),
    ])
}

fn cautions(stage: Stage) -> AnyView {
    let items = stage.cautions().iter().map(|which| el("li").text(caution(*which)).into());
    // The bench has no room for them: there they are folded, and what they come to stands on the fold.
    let details = el("details").class("cautions");
    let (details, title) = match stage {
        Stage::True => {
            (details, "Before you start: turned by hand, welded off the car, heat only on the high side")
        }
        _ => (details.attr("open", ""), "Before you start"),
    };
    details
        .child(el("summary").text(title))
        .child(el("ul").children(items.collect::<Vec<AnyView>>()))
        .into()
}
