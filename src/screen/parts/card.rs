//! A finding as a card: value, ±, verdict, what is missing, working and sources.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::element::{Element, all, either, el, hideable, key, line, once_there, text};
use super::field::field_id;
use super::mark::standing_mark;
use crate::book::browser;
use crate::job::Entry;
use crate::screen::state::State;
use crate::sheet::{
    causes, need, shown, source, standing_word, title, verdict_reason, verdict_standing, verdict_word,
    working,
};
use crate::stage::{Answer, Finding, Name, Stage, Standing, Step, standing};

/// What a card shows, in words.
#[derive(Clone, PartialEq, Default)]
struct Face {
    title: String,
    value: Option<String>,
    plus_minus: Option<String>,
    sense: Option<String>,
    standing: Option<Standing>,
    word: &'static str,
    reason: Option<String>,
    causes: Option<String>,
    needs: Vec<(Entry, String)>,
    steps: Vec<Step>,
    sources: Vec<&'static str>,
}

/// The face of a finding now. It follows the finding; what it takes from the job besides, the display
/// above all, it follows when the hand has paused.
fn face(state: State, finding: &Finding) -> Face {
    state.at_rest(|job| {
        let display = job.display.lengths();
        let shown = shown(finding, job).unwrap_or_default();
        let needs = match &finding.answer {
            Answer::Missing(needs) => needs.iter().map(|n| (n.entry, need(job, n))).collect(),
            _ => Vec::new(),
        };
        Face {
            title: title(finding.name),
            value: Some(shown.value).filter(|value| !value.is_empty()),
            plus_minus: shown.plus_minus,
            sense: shown.sense,
            standing: verdict_standing(&finding.verdict),
            word: verdict_word(&finding.verdict),
            reason: verdict_reason(finding, display),
            causes: causes(job, finding),
            needs,
            steps: finding.working.clone(),
            sources: finding.all_sources().into_iter().map(source).collect(),
        }
    })
}

/// Which cards of a stage.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The one that says what to do.
    First,
    /// All others.
    Rest,
}

/// The cards of a stage. Each stays in place while its numbers change, so an opened working stays open.
pub fn cards(state: State, findings: Memo<Vec<Finding>>, part: Part) -> AnyView {
    let (class, from, most) = match part {
        Part::First => ("cards first", 0, 1),
        Part::Rest => ("cards", 1, usize::MAX),
    };
    let names: Memo<Vec<Name>> = Memo::new(move |_| {
        findings.with(|all| all.iter().skip(from).take(most).map(|finding| finding.name).collect())
    });
    let each = move || Some(all(names.get().into_iter().map(|name| card(state, findings, name))));
    el("div").class(class).slot(each).into()
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
    let unsourced = Memo::new(move |_| face.with(|face| face.sources.is_empty()));
    let begun = once_there(unsourced);
    let verdict = el("p")
        .class("verdict")
        .slot(move || Some(standing_mark(standing.get())))
        .child(el("span").words(text(move || face.with(|face| face.word.to_owned()))));
    el("article")
        .class("card")
        .attr("data-name", &name.code())
        .child(el("h2").text(&title(name)))
        .child(verdict)
        .child(line("value", part(|face| face.value.clone())))
        .child(line("doubt", part(|face| face.plus_minus.clone())))
        .child(line("sense", part(|face| face.sense.clone())))
        .child(line("reason", part(|face| face.reason.clone())))
        .child(line("doubt", part(|face| face.causes.clone())))
        .slot(move || needs_list(state, needs.get()))
        .slot(move || begun.get().then(|| hideable(working_details(state, face), unsourced).into()))
        .into()
}

/// What is missing, each a jump to its field.
fn needs_list(state: State, needs: Vec<(Entry, String)>) -> Option<AnyView> {
    if needs.is_empty() {
        return None;
    }
    let items = needs
        .into_iter()
        .map(|(entry, words)| el("li").child(key("need", &words, move || jump_to(state, entry))).into());
    let list = el("ul").children(items.collect::<Vec<AnyView>>());
    Some(el("div").class("needs").child(el("p").text("Still needed:")).child(list).into())
}

/// Goes to a field: on this page, or at the stage that asks for it.
pub fn jump_to(state: State, entry: Entry) {
    if !focus_field(entry) {
        show_place(state, entry);
        browser::go(&state.address(Stage::of(entry)));
        // The stage is drawn when the browser has told of the new address.
        set_timeout(move || _ = focus_field(entry), core::time::Duration::from_millis(120));
    }
}

/// Of a reading of the dial only one place in one pass is drawn, and its set-up may be folded away.
fn show_place(state: State, entry: Entry) {
    let (pass, along) = match entry {
        Entry::StationReading(pass, along, _) | Entry::Closing(pass, along) => (Some(pass), along),
        Entry::StationAt(pass, along, _) => (Some(pass), along),
        Entry::PlaceAlong(along) => (None, along),
        _ => return state.set_up_open.set(true),
    };
    if let Some(pass) = pass {
        state.pass.set(pass);
    }
    state.along.set(along);
}

/// Brings a field into sight with the cursor in it; false where it is not on the page.
fn focus_field(entry: Entry) -> bool {
    let Some(field) = document().get_element_by_id(&field_id(entry)) else { return false };
    field.scroll_into_view();
    if let Ok(field) = field.dyn_into::<web_sys::HtmlElement>() {
        let _ = field.focus();
    }
    true
}

/// The working, drawn only while it is open.
fn working_details(state: State, face: Memo<Face>) -> Element {
    let open = RwSignal::new(false);
    let fold = el("button")
        .attr("type", "button")
        .class("plain")
        .live("aria-expanded", either(move || open.get(), "true", "false"))
        .words(either(move || open.get(), "Hide working", "Working and source"))
        .on("click", move |_| open.update(|open| *open = !*open));
    el("div").class("details").child(fold).slot(move || open.get().then(|| working_lines(state, face)))
}

fn working_lines(state: State, face: Memo<Face>) -> AnyView {
    let display = state.job.with(|job| job.display.lengths());
    let (steps, sources) = face.with(|face| (face.steps.clone(), face.sources.clone()));
    let steps = steps.iter().map(|step| {
        let line = working(step, display);
        el("li").child(el("span").text(line.law)).child(el("code").text(&line.numbers)).into()
    });
    let sources = sources.into_iter().map(|words| el("li").text(words).into());
    all([
        el("ol").class("working").children(steps.collect::<Vec<AnyView>>()).into(),
        el("p").class("small").text("From:").into(),
        el("ul").class("sources").children(sources.collect::<Vec<AnyView>>()).into(),
    ])
}

/// On a narrow screen the first answer stays in sight at the foot of the page.
pub fn answer_strip(state: State, findings: Memo<Vec<Finding>>, all: Memo<Vec<Finding>>) -> AnyView {
    let first = Memo::new(move |_| {
        findings.with(|all| all.first().map(|finding| face(state, finding)).unwrap_or_default())
    });
    // The verdict is the whole stage's: what stands in sight must not be better than what does not.
    let worst = Memo::new(move |_| all.with(|all| standing(all)));
    // Where it is another card's, that card is named: a good figure beside “Stop” would mislead.
    let others = Memo::new(move |_| {
        let worst = worst.get();
        let bad = matches!(worst, Standing::Stop | Standing::Watch);
        let is_worst = |finding: &&Finding| verdict_standing(&finding.verdict) == Some(worst);
        all.with(|all| all.iter().find(is_worst).filter(|_| bad).map(|finding| title(finding.name)))
    });
    let words = text(move || {
        first.with(|face| {
            let own = face.standing == Some(worst.get());
            let other = if own { None } else { others.get() };
            other.or_else(|| face.value.clone()).unwrap_or_else(|| face.title.clone())
        })
    });
    let word = text(move || standing_word(worst.get()).to_owned());
    let to_answers = |_| {
        if let Some(answers) = document().get_element_by_id("answers") {
            answers.scroll_into_view();
        }
    };
    el("button")
        .attr("type", "button")
        .class("strip")
        .on("click", to_answers)
        .slot(move || Some(standing_mark(Some(worst.get()))))
        .child(el("span").class("word").words(word))
        .child(el("span").class("value").words(words))
        .into()
}
