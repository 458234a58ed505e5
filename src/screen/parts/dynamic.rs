//! What follows the job: text, keys and parts of the page that come and go.
//!
//! Each closure in a view is a type of its own, and the framework's code is compiled anew for each.
//! Behind a box they are all one type; that halves the program, and the program is what a tablet
//! must load before anything shows.

use leptos::prelude::*;

/// Text that follows the job.
pub fn text(words: impl Fn() -> String + Send + Sync + 'static) -> Signal<String> {
    Signal::derive(words)
}

/// A part of the page that may be there or not.
pub fn slot(draw: impl Fn() -> Option<AnyView> + Send + 'static) -> AnyView {
    let draw: Box<dyn Fn() -> Option<AnyView> + Send> = Box::new(draw);
    (move || draw()).into_any()
}

/// A line of text that may be there or not.
pub fn line(class: &'static str, words: impl Fn() -> Option<String> + Send + 'static) -> AnyView {
    slot(move || words().map(|words| view! { <p class=class>{words}</p> }.into_any()))
}

/// A key to press.
pub fn button(class: &'static str, words: Signal<String>, act: impl Fn() + 'static) -> AnyView {
    let act: Box<dyn Fn()> = Box::new(act);
    view! { <button type="button" class=class on:click=move |_| act()>{words}</button> }.into_any()
}

/// A key whose words never change.
pub fn key(class: &'static str, words: impl Into<String>, act: impl Fn() + 'static) -> AnyView {
    button(class, Signal::stored(words.into()), act)
}

/// A key that is down or up; `state` says which in the attribute that fits it.
pub fn switch(
    attribute: Switch,
    words: Signal<String>,
    on: impl Fn() -> bool + Send + Sync + 'static,
    act: impl Fn() + 'static,
) -> AnyView {
    let act: Box<dyn Fn()> = Box::new(act);
    let on = Signal::derive(move || if on() { "true" } else { "false" });
    match attribute {
        Switch::Pressed => {
            view! { <button type="button" aria-pressed=on on:click=move |_| act()>{words}</button> }.into_any()
        }
        Switch::Expanded => {
            view! { <button type="button" class="plain" aria-expanded=on on:click=move |_| act()>{words}</button> }
                .into_any()
        }
    }
}

/// What a switch says of itself.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Switch {
    /// One of several is chosen.
    Pressed,
    /// Something is folded out.
    Expanded,
}

/// Many views as one.
pub fn all(views: impl Iterator<Item = AnyView>) -> AnyView {
    views.collect::<Vec<AnyView>>().into_any()
}
