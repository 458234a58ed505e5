//! A finding as a card: value, ±, verdict, what is missing, working and sources.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::dynamic::{Switch, all, key, line, slot, switch, text};
use super::field::field_id;
use super::mark::standing_mark;
use crate::job::Entry;
use crate::screen::state::State;
use crate::sheet::{
    need, shown, source, title, verdict_reason, verdict_standing, verdict_word, working,
};
use crate::stage::{Answer, Finding, Name, Standing, Step};

/// What a card shows, in words.
#[derive(Clone, PartialEq, Default)]
struct Face {
    value: Option<String>,
    plus_minus: Option<String>,
    sense: Option<String>,
    standing: Option<Standing>,
    word: &'static str,
    reason: Option<String>,
    needs: Vec<(Entry, String)>,
    steps: Vec<Step>,
    sources: Vec<&'static str>,
}

fn face(state: State, finding: &Finding) -> Face {
    state.job.with(|job| {
        let display = job.display.lengths();
        let shown = shown(finding, display).unwrap_or_default();
        let needs = match &finding.answer {
            Answer::Missing(needs) => needs.iter().map(|n| (n.entry, need(job, n))).collect(),
            _ => Vec::new(),
        };
        Face {
            value: Some(shown.value).filter(|value| !value.is_empty()),
            plus_minus: shown.plus_minus,
            sense: shown.sense,
            standing: verdict_standing(&finding.verdict),
            word: verdict_word(&finding.verdict),
            reason: verdict_reason(finding, display),
            needs,
            steps: finding.working.clone(),
            sources: finding.all_sources().into_iter().map(source).collect(),
        }
    })
}

/// The cards of a stage. Each stays in place while its numbers change, so an opened working stays open.
pub fn cards(state: State, findings: Memo<Vec<Finding>>) -> AnyView {
    let names =
        move || findings.with(|all| all.iter().map(|finding| finding.name).collect::<Vec<Name>>());
    view! {
        <div class="cards">
            <For each=names key=|name| *name children=move |name| card(state, findings, name)/>
        </div>
    }
    .into_any()
}

fn card(state: State, findings: Memo<Vec<Finding>>, name: Name) -> AnyView {
    let face = Memo::new(move |_| {
        let found = |all: &Vec<Finding>| {
            all.iter().find(|finding| finding.name == name).map(|finding| face(state, finding))
        };
        findings.with(found).unwrap_or_default()
    });
    let part = move |pick: fn(&Face) -> Option<String>| move || face.with(pick);
    let needs = Memo::new(move |_| face.with(|face| face.needs.clone()));
    let standing = Memo::new(move |_| face.with(|face| face.standing));
    let sourced = Memo::new(move |_| face.with(|face| !face.sources.is_empty()));
    view! {
        <article class="card" data-name=format!("{name:?}")>
            <h2>{title(name)}</h2>
            <p class="verdict">
                {slot(move || Some(standing_mark(standing.get())))}
                <span>{text(move || face.with(|face| face.word.to_owned()))}</span>
            </p>
            {line("value", part(|face| face.value.clone()))}
            {line("doubt", part(|face| face.plus_minus.clone()))}
            {line("sense", part(|face| face.sense.clone()))}
            {line("reason", part(|face| face.reason.clone()))}
            {slot(move || needs_list(needs.get()))}
            {slot(move || sourced.get().then(|| working_details(state, face)))}
        </article>
    }
    .into_any()
}

/// What is missing, each a jump to its field where that field is on this page.
fn needs_list(needs: Vec<(Entry, String)>) -> Option<AnyView> {
    if needs.is_empty() {
        return None;
    }
    let items = needs.into_iter().map(|(entry, words)| {
        view! { <li>{key("need", words, move || jump_to(entry))}</li> }.into_any()
    });
    Some(view! { <div class="needs"><p>"Still needed:"</p><ul>{all(items)}</ul></div> }.into_any())
}

fn jump_to(entry: Entry) {
    if let Some(field) = document().get_element_by_id(&field_id(entry)) {
        field.scroll_into_view();
        if let Ok(field) = field.dyn_into::<web_sys::HtmlElement>() {
            let _ = field.focus();
        }
    }
}

/// The working, drawn only while it is open.
fn working_details(state: State, face: Memo<Face>) -> AnyView {
    let open = RwSignal::new(false);
    let words = move || match open.get() {
        true => "Hide working".to_owned(),
        false => "Working and source".to_owned(),
    };
    view! {
        <div class="details">
            {switch(Switch::Expanded, text(words), move || open.get(), move || open.update(|open| *open = !*open))}
            {slot(move || open.get().then(|| working_lines(state, face)))}
        </div>
    }
    .into_any()
}

fn working_lines(state: State, face: Memo<Face>) -> AnyView {
    let display = state.job.with(|job| job.display.lengths());
    let (steps, sources) = face.with(|face| (face.steps.clone(), face.sources.clone()));
    let steps = steps.iter().map(|step| {
        let line = working(step, display);
        view! { <li><span>{line.law}</span><code>{line.numbers}</code></li> }.into_any()
    });
    let sources = sources.into_iter().map(|words| view! { <li>{words}</li> }.into_any());
    view! {
        <ol class="working">{all(steps)}</ol>
        <p class="small">"From:"</p>
        <ul class="sources">{all(sources)}</ul>
    }
    .into_any()
}

/// On a narrow screen the first answer stays in sight at the foot of the page.
pub fn answer_strip(state: State, findings: Memo<Vec<Finding>>) -> AnyView {
    let first = Memo::new(move |_| {
        let first = |all: &Vec<Finding>| all.first().map(|finding| (finding.name, face(state, finding)));
        findings.with(first)
    });
    let words = move || {
        first.with(|first| match first {
            Some((name, face)) => face.value.clone().unwrap_or_else(|| title(*name)),
            None => String::new(),
        })
    };
    let standing = move || first.with(|first| first.as_ref().and_then(|(_, face)| face.standing));
    let word = move || first.with(|first| first.as_ref().map_or("", |(_, face)| face.word).to_owned());
    let to_answers = |_| {
        if let Some(answers) = document().get_element_by_id("answers") {
            answers.scroll_into_view();
        }
    };
    view! {
        <button type="button" class="strip" on:click=to_answers>
            {slot(move || Some(standing_mark(standing())))}
            <span class="word">{text(word)}</span>
            <span class="value">{text(words)}</span>
        </button>
    }
    .into_any()
}
