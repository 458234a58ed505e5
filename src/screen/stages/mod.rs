//! One file a stage, all in one frame: questions at the left, answers at the right.

mod check;
mod cut;
mod measure;
mod phase;
mod truing;
mod weights;

use leptos::prelude::*;

use super::parts::{all, answer_strip, cards, text};
use super::state::State;
use crate::sheet::{caution, stage_lead, stage_title};
use crate::stage::{Finding, Stage, truing as truing_stage};

/// A stage: its questions, its drawing, its answers.
pub fn stage_screen(state: State, stage: Stage) -> AnyView {
    let findings: Memo<Vec<Finding>> = Memo::new(move |_| {
        state.job.with(|job| match stage {
            Stage::True => truing_stage::findings(job, state.pass.get()),
            _ => stage.findings(job),
        })
    });
    let (questions, pictures) = match stage {
        Stage::Measure => (measure::questions(state), measure::pictures(state)),
        Stage::Check => (check::questions(state), ().into_any()),
        Stage::Cut => (cut::questions(state), cut::pictures(state)),
        Stage::Phase => (phase::questions(state), phase::pictures(state)),
        Stage::True => (truing::questions(state), truing::pictures(state)),
        Stage::Weights => (weights::questions(state), weights::pictures(state)),
    };
    let place = Stage::ALL.iter().position(|known| *known == stage).unwrap_or(0);
    let next = Stage::ALL.get(place + 1).copied();
    view! {
        <section class="stage" data-stage=stage.slug()>
            <h1>{stage_title(stage)}</h1>
            <p class="lead">{stage_lead(stage)}</p>
            {cautions(stage)}
            <div class="columns">
                <div class="questions">{questions}</div>
                <div class="answers" id="answers">
                    {cards(state, findings)}
                    {pictures}
                </div>
            </div>
            {next.map(|next| view! {
                <p class="onward"><a class="button" href=text(move || state.address(next))>{format!("On to {}", stage_title(next))}</a></p>
            }.into_any())}
            {answer_strip(state, findings)}
        </section>
    }
    .into_any()
}

fn cautions(stage: Stage) -> AnyView {
    let items = stage.cautions().iter().map(|which| view! { <li>{caution(*which)}</li> }.into_any());
    view! {
        <details class="cautions" open>
            <summary>"Before you start"</summary>
            <ul>{all(items)}</ul>
        </details>
    }
    .into_any()
}
