//! The job book: every job on this device.

use leptos::prelude::*;

use crate::book::{Card, Shelf, browser};
use crate::job::LONGEST_NAME;
use crate::stage::Stage;

use super::state::State;

/// The screen.
pub fn job_book(state: State) -> AnyView {
    let list = move || {
        let cards = state.cards.get();
        if cards.is_empty() {
            return view! { <p class="empty">"No job yet. Start one, or look at the sample first."</p> }
                .into_any();
        }
        cards.into_iter().map(|card| job_row(state, card)).collect_view().into_any()
    };
    view! {
        <section class="book">
            <h1>"Job book"</h1>
            <p class="lead">"Shorten or lengthen a drive shaft by hand and have it come out right."</p>
            <div class="actions">
                <button type="button" class="primary" id="new-job" on:click=move |_| state.begin()>"Start a job"</button>
                <button type="button" id="sample-job" on:click=move |_| state.begin_sample()>"Open the sample job"</button>
                <label class="button">
                    "Open a job file"
                    <input type="file" accept=".json,application/json" on:change=move |event| {
                        browser::read_file(&event_target(&event), move |text| state.open_text(text));
                    }/>
                </label>
            </div>
            <div class="jobs">{list}</div>
            {move || bin(state)}
            {move || kept(state)}
            <p class="small">
                {move || if state.offline_ready.get() {
                    "Ready without signal: this page now opens in a garage with no network."
                } else {
                    "Not yet ready without signal: keep the network on for a moment."
                }}
            </p>
            <p class="small">"Everything here is an estimate, not an approval. A person qualified to weld, a driveline shop and your local vehicle rules have the last word."</p>
        </section>
    }
    .into_any()
}

fn job_row(state: State, card: Card) -> AnyView {
    let renaming = RwSignal::new(false);
    let name = RwSignal::new(card.name.clone());
    let card = StoredValue::new(card);
    let id = move || card.with_value(|card| card.id.clone());
    let address = format!("#/{}/{}", id(), Stage::Measure.slug());
    let changed = card.with_value(|card| card.changed_ms);
    let finish = move || {
        renaming.set(false);
        state.rename(&id(), &name.get_untracked());
    };
    let save = move |_| {
        if let Some(text) = state.with_shelf(|shelf| shelf.text(&id())) {
            browser::save_file(&file_name(&card.with_value(|card| card.name.clone())), &text);
        }
    };
    let shown_name = move || {
        let text = name.get();
        if text.trim().is_empty() { "(no name)".to_owned() } else { text }
    };
    let heading = move || {
        if renaming.get() {
            view! {
                <label class="field rename">
                    <span class="label">"Name of the job"</span>
                    <input type="text" maxlength=LONGEST_NAME.to_string() prop:value=name
                        on:input=move |event| name.set(event_target_value(&event))
                        on:keydown=move |event| if event.key() == "Enter" { finish() }/>
                </label>
                <button type="button" on:click=move |_| finish()>"Keep this name"</button>
            }
            .into_any()
        } else {
            view! { <a class="job-link" href=address.clone()>{shown_name}</a> }.into_any()
        }
    };
    view! {
        <article class="job">
            {heading}
            <p class="small">{(changed > 0.0).then(|| format!("Changed {}", browser::date_text(changed)))}</p>
            <div class="actions">
                <button type="button" on:click=move |_| renaming.set(true)>"Rename"</button>
                <button type="button" on:click=move |_| state.duplicate(&id())>"Duplicate"</button>
                <button type="button" on:click=save>"Save as a file"</button>
                <button type="button" on:click=move |_| card.with_value(|card| state.delete(card))>"Delete"</button>
            </div>
        </article>
    }
    .into_any()
}

/// A file name made of what every system takes.
fn file_name(job: &str) -> String {
    let plain: String = job.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let name = plain.trim_matches('-');
    format!("{}.json", if name.is_empty() { "shaft" } else { name })
}

/// Jobs in the bin.
fn bin(state: State) -> Option<AnyView> {
    state.cards.track();
    let cards = state.with_shelf(Shelf::bin);
    let row = move |card: Card| {
        let id = card.id.clone();
        view! {
            <li><span>{card.name}</span>
            <button type="button" on:click=move |_| state.put_back(&id)>"Put back"</button></li>
        }
    };
    (!cards.is_empty()).then(|| {
        view! {
            <details class="bin">
                <summary>{format!("Bin ({})", cards.len())}</summary>
                <ul>{cards.into_iter().map(row).collect_view()}</ul>
                <button type="button" on:click=move |_| {
                    state.with_shelf(Shelf::empty_bin);
                    state.deleted.set(None);
                    state.cards.notify();
                }>"Empty the bin for good"</button>
            </details>
        }
        .into_any()
    })
}

/// Texts that could not be read.
fn kept(state: State) -> Option<AnyView> {
    state.cards.track();
    let texts = state.with_shelf(Shelf::kept);
    let row = move |kept: crate::book::Kept| {
        let key = kept.key.clone();
        view! {
            <li>
                <span>{kept.key}</span>
                <button type="button" on:click=move |_| browser::save_file("unreadable-job.txt", &kept.text)>"Save its text"</button>
                <button type="button" on:click=move |_| {
                    state.with_shelf(|shelf| shelf.drop_kept(&key));
                    state.cards.notify();
                }>"Forget it"</button>
            </li>
        }
    };
    (!texts.is_empty()).then(|| {
        view! {
            <details class="bin">
                <summary>{format!("Texts that cannot be read ({})", texts.len())}</summary>
                <ul>{texts.into_iter().map(row).collect_view()}</ul>
            </details>
        }
        .into_any()
    })
}
