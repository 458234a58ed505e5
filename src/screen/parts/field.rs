//! A field that is typed into: label, text, unit, and one plain sentence where something is wrong.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::job::{Entry, Job};
use crate::quantity::{Unit, Unreadable};
use crate::screen::state::State;
use crate::sheet::{amount, complaint, hint, label};
use crate::stage::{Amount, Complaint, allowed, read};

/// What a field shows, all at once: one memo a field keeps a keystroke cheap.
#[derive(Clone, PartialEq, Default)]
struct Face {
    label: String,
    text: String,
    unit: &'static str,
    complaint: Option<String>,
    /// Both readings of an ambiguous text.
    either: Option<(String, String)>,
    /// What was understood, where that is not what stands there.
    understood: Option<String>,
}

fn face(job: &Job, entry: Entry) -> Face {
    let typed = job.typed(entry);
    let text = typed.map(|typed| typed.text.clone()).unwrap_or_default();
    let unit = job.unit_of(entry);
    let mut face = Face { label: label(job, entry), unit: unit_text(unit), text, ..Face::default() };
    match read(job, entry) {
        Ok(Some(value)) => face.understood = understood(job, entry, value, &face.text),
        Ok(None) => {}
        Err(what) => {
            face.complaint = Some(complaint(job, entry, &what));
            if let Complaint::Unreadable(Unreadable::Ambiguous { grouped, decimal, .. }) = what {
                face.either = Some((grouped, decimal));
            }
        }
    }
    face
}

const fn unit_text(unit: Unit) -> &'static str {
    match unit {
        Unit::Hour => "h",
        Unit::Hundredth => "×0.01 mm",
        other => other.symbol(),
    }
}

/// A text that carries its own unit, or was typed under another display, is read back in the display
/// in force, so that a slip shows.
fn understood(job: &Job, entry: Entry, value: Amount, text: &str) -> Option<String> {
    let foreign = job.unit_of(entry) != job.unit_in_force(entry);
    let own_unit = text
        .chars()
        .any(|c| c.is_alphabetic() || matches!(c, '\'' | '"' | '°' | '′' | '″' | '’' | '”' | ':'));
    let value = match value {
        Amount::PlainLength(length) => Amount::Length(length),
        other => other,
    };
    (foreign || own_unit).then(|| format!("= {}", amount(value, job.display.lengths())))
}

/// The keypad that a tablet should bring up: digits where digits are all it takes.
fn keypad(job: &Job, entry: Entry) -> &'static str {
    let digits = match allowed(entry).0 {
        Amount::PlainLength(_) => !job.display.is_inch(),
        Amount::Clock(_) => false,
        _ => true,
    };
    if digits { "decimal" } else { "text" }
}

/// Fields that may be negative get a key for the sign: number pads of phones have none.
fn takes_sign(entry: Entry) -> bool {
    matches!(
        entry,
        Entry::StationReading(..)
            | Entry::Closing(_)
            | Entry::FrontLevel
            | Entry::RearLevel
            | Entry::YokeTurned
    )
}

fn turn_sign(state: State, entry: Entry) {
    let text = state.job.with_untracked(|job| job.typed(entry).map(|typed| typed.text.clone()));
    let text = text.unwrap_or_default();
    let bare = text.trim_start();
    let turned = match bare.strip_prefix(['-', '−']) {
        Some(positive) => positive.trim_start().to_owned(),
        None => format!("-{bare}"),
    };
    state.put(entry, &turned);
}

/// The name a field has in the page, for labels, jumps and tests.
pub fn field_id(entry: Entry) -> String {
    match entry {
        Entry::OldReading(i) => format!("old-{i}"),
        Entry::WantedReading(i) => format!("wanted-{i}"),
        Entry::SetPoint => "set-point".to_owned(),
        Entry::TubeDiameter => "tube-diameter".to_owned(),
        Entry::TubeWall => "tube-wall".to_owned(),
        Entry::TopSpeed => "top-speed".to_owned(),
        Entry::WeldLine => "weld-line".to_owned(),
        Entry::FarWeldLine => "far-weld-line".to_owned(),
        Entry::Kerf => "kerf".to_owned(),
        Entry::RootGap => "root-gap".to_owned(),
        Entry::Shrinkage => "shrinkage".to_owned(),
        Entry::Spigot => "spigot".to_owned(),
        Entry::Lift => "lift".to_owned(),
        Entry::Span => "span".to_owned(),
        Entry::FrontLevel => "front-level".to_owned(),
        Entry::RearLevel => "rear-level".to_owned(),
        Entry::PhaseLimit => "phase-limit".to_owned(),
        Entry::OwnLimit => "own-limit".to_owned(),
        Entry::StationAt(p, s) => format!("station-at-{p}-{s}"),
        Entry::StationReading(p, s) => format!("station-{p}-{s}"),
        Entry::Closing(p) => format!("closing-{p}"),
        Entry::WeightMass(i) => format!("weight-mass-{i}"),
        Entry::WeightClock(i) => format!("weight-clock-{i}"),
        Entry::WeightDistance(i) => format!("weight-distance-{i}"),
        Entry::WeightRadius(i) => format!("weight-radius-{i}"),
        Entry::YokeTurned => "yoke-turned".to_owned(),
        Entry::ShaftMass => "shaft-mass".to_owned(),
    }
}

/// Enter goes on to the next field, as a hand on the bench wants it.
fn next_on_enter(event: &web_sys::KeyboardEvent) {
    if event.key() != "Enter" {
        return;
    }
    event.prevent_default();
    let here = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    let (Some(here), Ok(all)) = (here, document().query_selector_all("main .field input")) else {
        return;
    };
    let mut found = false;
    for place in 0..all.length() {
        let Some(node) = all.item(place) else { continue };
        if found {
            if let Ok(input) = node.dyn_into::<web_sys::HtmlInputElement>() {
                let _ = input.focus();
                input.select();
            }
            return;
        }
        found = here.is_same_node(Some(&node));
    }
}

/// A field.
pub fn field(state: State, entry: Entry) -> AnyView {
    let face = Memo::new(move |_| state.job.with(|job| face(job, entry)));
    let id = field_id(entry);
    let note_id = format!("{id}-note");
    let note = hint(entry);
    let keypad = state.job.with_untracked(|job| keypad(job, entry));
    let wrong = move || face.with(|face| face.complaint.is_some());
    let either_buttons = move || {
        face.with(|face| face.either.clone()).map(|(grouped, decimal)| {
            let button = move |text: String| {
                let put = text.clone();
                view! {
                    <button type="button" on:click=move |_| state.put(entry, &put)>{text}</button>
                }
            };
            view! { <span class="either">{button(grouped)}{button(decimal)}</span> }
        })
    };
    let sign_key = takes_sign(entry).then(|| {
        view! {
            <button type="button" class="sign" aria-label=move || format!("Turn the sign of {}", face.with(|face| face.label.clone()))
                on:click=move |_| turn_sign(state, entry)>"±"</button>
        }
    });
    view! {
        <div class="field" class:wrong=wrong>
            <label class="label" for=id.clone()>{move || face.with(|face| face.label.clone())}</label>
            <span class="entry">
                {sign_key}
                <input
                    id=id
                    type="text"
                    inputmode=keypad
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    enterkeyhint="next"
                    maxlength="60"
                    aria-describedby=note_id.clone()
                    aria-invalid=move || if wrong() { "true" } else { "false" }
                    prop:value=move || face.with(|face| face.text.clone())
                    on:input=move |event| state.put(entry, &event_target_value(&event))
                    on:keydown=move |event| next_on_enter(&event)
                />
                <span class="unit">{move || face.with(|face| face.unit)}</span>
            </span>
            <span class="note" id=note_id>
                {move || face.with(|face| face.complaint.clone()).map(|sentence| view! { <strong>{sentence}</strong> })}
                {either_buttons}
                {move || face.with(|face| face.understood.clone()).map(|text| view! { <em>{text}</em> })}
                {(!note.is_empty()).then(|| view! { <small>{note}</small> })}
            </span>
        </div>
    }
    .into_any()
}

/// Several fields, one under the other.
pub fn fields(state: State, entries: &[Entry]) -> AnyView {
    entries.iter().map(|entry| field(state, *entry)).collect_view().into_any()
}

/// Several small fields side by side under one heading.
pub fn field_row(state: State, legend: &'static str, entries: Vec<Entry>) -> AnyView {
    view! {
        <fieldset class="row">
            <legend>{legend}</legend>
            <div>{entries.into_iter().map(|entry| field(state, entry)).collect_view()}</div>
        </fieldset>
    }
    .into_any()
}
