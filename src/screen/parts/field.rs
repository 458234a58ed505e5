//! A field that is typed into: label, text, unit, and one plain sentence where something is wrong.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::dynamic::{all, key, line, slot, text};
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
        .any(|c| c.is_ascii_alphabetic() || matches!(c, '\'' | '"' | '°' | '′' | '″' | '’' | '”' | ':'));
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
    let keypad = state.job.with_untracked(|job| keypad(job, entry));
    let label = text(move || face.with(|face| face.label.clone()));
    let wrong = Memo::new(move |_| face.with(|face| face.complaint.is_some()));
    let class = Signal::derive(move || if wrong.get() { "field wrong" } else { "field" });
    let invalid = Signal::derive(move || if wrong.get() { "true" } else { "false" });
    let typed = Signal::derive(move || face.with(|face| face.text.clone()));
    view! {
        <div class=class>
            <label class="label" for=id.clone()>{label}</label>
            <span class="entry">
                {takes_sign(entry).then(|| sign_key(state, entry, label))}
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
                    aria-invalid=invalid
                    prop:value=typed
                    on:input=move |event| state.put(entry, &event_target_value(&event))
                    on:keydown=move |event| next_on_enter(&event)
                />
                <span class="unit">{text(move || face.with(|face| face.unit.to_owned()))}</span>
            </span>
            {note(state, entry, face, note_id)}
        </div>
    }
    .into_any()
}

fn sign_key(state: State, entry: Entry, label: Signal<String>) -> AnyView {
    let says = text(move || format!("Turn the sign of {}", label.get()));
    view! {
        <button type="button" class="sign" aria-label=says on:click=move |_| turn_sign(state, entry)>"±"</button>
    }
    .into_any()
}

/// What stands under a field: what is wrong, both readings of an ambiguous text, what was understood,
/// what to know.
fn note(state: State, entry: Entry, face: Memo<Face>, id: String) -> AnyView {
    let complaint = Memo::new(move |_| face.with(|face| (face.complaint.clone(), face.either.clone())));
    let wrong = move || {
        let (sentence, either) = complaint.get();
        let put = move |words: String| {
            let typed = words.clone();
            key("", words, move || state.put(entry, &typed))
        };
        sentence.map(|sentence| {
            let keys = either.map(|(grouped, decimal)| {
                view! { <span class="either">{put(grouped)}{put(decimal)}</span> }.into_any()
            });
            view! { <strong>{sentence}</strong>{keys} }.into_any()
        })
    };
    let hint = hint(entry);
    let understood = Memo::new(move |_| face.with(|face| face.understood.clone()));
    view! {
        <div class="note" id=id>
            {slot(wrong)}
            {line("understood", move || understood.get())}
            {(!hint.is_empty()).then(|| view! { <small>{hint}</small> }.into_any())}
        </div>
    }
    .into_any()
}

/// Several fields, one under the other.
pub fn fields(state: State, entries: &[Entry]) -> AnyView {
    all(entries.iter().map(|entry| field(state, *entry)))
}

/// Several small fields side by side under one heading.
pub fn field_row(state: State, legend: &'static str, entries: Vec<Entry>) -> AnyView {
    view! {
        <fieldset class="row">
            <legend>{legend}</legend>
            <div>{fields(state, &entries)}</div>
        </fieldset>
    }
    .into_any()
}
