//! A finding as a card: value, ±, verdict, what is missing, working and sources.

use leptos::prelude::*;

use super::field::field_id;
use super::mark::standing_mark;
use crate::job::Entry;
use crate::screen::state::State;
use crate::sheet::{
    need, shown, source, title, verdict_reason, verdict_standing, verdict_word, working,
};
use crate::stage::{Answer, Finding, Name, Standing, Step};

/// What a card shows, in words.
#[derive(Clone, PartialEq)]
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
        let shown = shown(finding, display);
        let needs = match &finding.answer {
            Answer::Missing(needs) => needs.iter().map(|n| (n.entry, need(job, n))).collect(),
            _ => Vec::new(),
        };
        Face {
            value: shown.as_ref().map(|shown| shown.value.clone()),
            plus_minus: shown.as_ref().and_then(|shown| shown.plus_minus.clone()),
            sense: shown.and_then(|shown| shown.sense),
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
        findings.with(|all| {
            all.iter().find(|finding| finding.name == name).map(|finding| face(state, finding))
        })
    });
    let part =
        move |pick: fn(&Face) -> Option<String>| move || face.with(|face| face.as_ref().and_then(pick));
    let standing = move || face.with(|face| face.as_ref().and_then(|face| face.standing));
    let word = move || face.with(|face| face.as_ref().map(|face| face.word));
    let needs = move || {
        let needs = face.with(|face| face.as_ref().map(|face| face.needs.clone()).unwrap_or_default());
        (!needs.is_empty()).then(|| needs_list(needs))
    };
    view! {
        <article class="card" data-name=format!("{name:?}")>
            <h2>{title(name)}</h2>
            <p class="verdict">{move || standing_mark(standing())}<span>{word}</span></p>
            {move || part(|face| face.value.clone())().map(|value| view! { <p class="value">{value}</p> })}
            {move || part(|face| face.plus_minus.clone())().map(|doubt| view! { <p class="doubt">{doubt}</p> })}
            {move || part(|face| face.sense.clone())().map(|sense| view! { <p class="sense">{sense}</p> })}
            {move || part(|face| face.reason.clone())().map(|reason| view! { <p class="reason">{reason}</p> })}
            {needs}
            {move || has_working(face).then(|| working_details(state, face))}
        </article>
    }
    .into_any()
}

fn has_working(face: Memo<Option<Face>>) -> bool {
    face.with(|face| face.as_ref().is_some_and(|face| !face.sources.is_empty()))
}

/// What is missing, each a jump to its field where that field is on this page.
fn needs_list(needs: Vec<(Entry, String)>) -> AnyView {
    let item = |(entry, text): (Entry, String)| {
        let id = field_id(entry);
        let jump = move |_| {
            if let Some(field) = document().get_element_by_id(&id) {
                use wasm_bindgen::JsCast;
                field.scroll_into_view();
                if let Ok(field) = field.dyn_into::<web_sys::HtmlElement>() {
                    let _ = field.focus();
                }
            }
        };
        view! { <li><button type="button" class="need" on:click=jump>{text}</button></li> }
    };
    view! {
        <div class="needs"><p>"Still needed:"</p><ul>{needs.into_iter().map(item).collect_view()}</ul></div>
    }
    .into_any()
}

/// The working, drawn only while it is open.
fn working_details(state: State, face: Memo<Option<Face>>) -> AnyView {
    let open = RwSignal::new(false);
    let lines = move || {
        open.get().then(|| {
            let display = state.job.with(|job| job.display.lengths());
            let (steps, sources) = face.with(|face| {
                face.as_ref().map(|face| (face.steps.clone(), face.sources.clone())).unwrap_or_default()
            });
            let steps = steps.iter().map(|step| working(step, display)).map(|line| {
                view! { <li><span>{line.law}</span><code>{line.numbers}</code></li> }
            });
            let sources = sources.into_iter().map(|words| view! { <li>{words}</li> });
            view! {
                <ol class="working">{steps.collect_view()}</ol>
                <p class="small">"From:"</p>
                <ul class="sources">{sources.collect_view()}</ul>
            }
        })
    };
    view! {
        <div class="details">
            <button type="button" class="plain" aria-expanded=move || if open.get() { "true" } else { "false" }
                on:click=move |_| open.update(|open| *open = !*open)>
                {move || if open.get() { "Hide working" } else { "Working and source" }}
            </button>
            {lines}
        </div>
    }
    .into_any()
}

/// On a narrow screen the first answer stays in sight at the foot of the page.
pub fn answer_strip(state: State, findings: Memo<Vec<Finding>>) -> AnyView {
    let first = Memo::new(move |_| {
        findings.with(|all| all.first().map(|finding| (finding.name, face(state, finding))))
    });
    let text = move || {
        first.with(|first| {
            first.as_ref().map(|(name, face)| match &face.value {
                Some(value) => value.clone(),
                None => title(*name),
            })
        })
    };
    let standing = move || first.with(|first| first.as_ref().and_then(|(_, face)| face.standing));
    let word = move || first.with(|first| first.as_ref().map(|(_, face)| face.word));
    let to_answers = |_| {
        if let Some(answers) = document().get_element_by_id("answers") {
            answers.scroll_into_view();
        }
    };
    view! {
        <button type="button" class="strip" on:click=to_answers>
            {move || standing_mark(standing())}
            <span class="word">{word}</span>
            <span class="value">{text}</span>
        </button>
    }
    .into_any()
}
