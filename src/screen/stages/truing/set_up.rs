//! What is asked once about the dial, folded away unless something in it is wanted.

use leptos::prelude::*;

use crate::book::browser;
use crate::job::{Entry, Job, RunOutLimit, SeamBy, SetUp};
use crate::screen::parts::{all, choice, either, el, field, fields, key, line, slot};
use crate::screen::state::State;
use crate::sheet::{set_up_line, set_up_shows, turned_shows};
use crate::stage::read;

/// The limit of the total reading, asked here and at the cut.
pub fn limit_questions(state: State) -> AnyView {
    let own = state.follows(|job| job.truing.limit == RunOutLimit::Own);
    all([
        choice(
            state,
            "Limit of the total reading",
            |job| job.truing.limit,
            |job, to| job.truing.limit = to,
        ),
        slot(move || own.get().then(|| field(state, Entry::OwnLimit))),
    ])
}

/// Open when the stage is opened: something in it is needed or cannot be read, so that a way there from
/// another stage finds its field. Otherwise the readings come first, also on an empty job.
fn wanted(job: &Job) -> bool {
    let asked = &job.truing;
    let (vees, seam) = (asked.set_up == SetUp::Vees, asked.seam == SeamBy::Known);
    let own = asked.limit == RunOutLimit::Own;
    let needed = [
        (Entry::FrontVee, vees),
        (Entry::RearVee, vees),
        (Entry::SeamClock, seam),
        (Entry::OwnLimit, own),
        (Entry::Backlash, false),
    ];
    needed.iter().any(|(entry, needed)| match read(job, *entry) {
        Ok(typed) => typed.is_none() && *needed,
        Err(_) => true,
    })
}

/// The set-up: its questions, or all of it in one line.
pub fn set_up(state: State) -> AnyView {
    let open = state.set_up_open;
    open.set(state.job.with_untracked(wanted));
    let heading = el("button")
        .attr("type", "button")
        .attr("id", "set-up")
        .class("plain")
        .live("aria-expanded", either(move || open.get(), "true", "false"))
        .text("Set-up, asked once")
        .on("click", move |_| open.update(|open| *open = !*open));
    let granted = |job: &Job| format!("Taken for granted: {}", set_up_line(job));
    let short = move || (!open.get()).then(|| state.at_rest(granted));
    // The key goes with the questions: the eye and the focus go back to where they were asked.
    let fold_away = move || {
        browser::focus_button("set-up");
        open.set(false);
    };
    let inside = move || {
        open.get().then(|| all([questions(state), key("", "Set up: fold it away", fold_away).into()]))
    };
    el("section").class("asked").child(heading).child(line("small", short)).slot(inside).into()
}

fn questions(state: State) -> AnyView {
    let vees = state.follows(|job| job.truing.set_up == SetUp::Vees);
    let seam = state.follows(|job| job.truing.seam == SeamBy::Known);
    let (on, turned) = (state.follows(|job| job.truing.set_up), state.follows(|job| job.truing.turned));
    all([
        choice(
            state,
            "What the shaft turns on",
            |job| job.truing.set_up,
            |job, to| job.truing.set_up = to,
        ),
        line("small", move || Some(set_up_shows(on.get()).to_owned())),
        slot(move || vees.get().then(|| fields(state, &[Entry::FrontVee, Entry::RearVee]))),
        choice(state, "Dial reads to", |job| job.truing.dial, |job, to| job.truing.dial = to),
        choice(
            state,
            "Its plunger, pushed in",
            |job| job.truing.plunger,
            |job, to| job.truing.plunger = to,
        ),
        field(state, Entry::Backlash),
        choice(state, "Marks are called by", |job| job.truing.marks, |job, to| job.truing.marks = to),
        choice(
            state,
            "How a reading's place is known",
            |job| job.truing.turned,
            |job, to| job.truing.turned = to,
        ),
        line("small", move || Some(turned_shows(turned.get()).to_owned())),
        choice(state, "The tube's own seam", |job| job.truing.seam, |job, to| job.truing.seam = to),
        slot(move || seam.get().then(|| field(state, Entry::SeamClock))),
        limit_questions(state),
    ])
}
