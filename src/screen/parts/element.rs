//! Elements of the page, and parts that follow the job.
//!
//! The framework's own markup makes each shape of element, and each closure in it, a type of its own,
//! and compiles its code anew for each. Behind this builder they are all one type, which took a
//! quarter off the program; and the program is what a tablet must load before anything shows.

use leptos::attr::any_attribute::{AnyAttribute, IntoAnyAttribute};
use leptos::attr::custom::custom_attribute;
use leptos::ev::{Custom, on};
use leptos::prelude::*;
use leptos::tachys::html::element::custom;
use leptos::tachys::html::property::prop;
use web_sys::Event;

/// An element in the making.
pub struct Element {
    tag: &'static str,
    attributes: Vec<AnyAttribute>,
    children: Vec<AnyView>,
}

/// Begins an element.
pub const fn el(tag: &'static str) -> Element {
    Element { tag, attributes: Vec::new(), children: Vec::new() }
}

impl Element {
    /// A class that never changes.
    pub fn class(self, class: &'static str) -> Self {
        if class.is_empty() { self } else { self.attr("class", class) }
    }

    /// An attribute that never changes.
    pub fn attr(mut self, key: &'static str, value: impl Into<String>) -> Self {
        self.attributes.push(custom_attribute(key, value.into()).into_any_attr());
        self
    }

    /// An attribute that follows the job.
    pub fn live(mut self, key: &'static str, value: Signal<String>) -> Self {
        self.attributes.push(custom_attribute(key, value).into_any_attr());
        self
    }

    /// A property, such as what stands in an input, that follows the job.
    pub fn prop(mut self, key: &'static str, value: Signal<String>) -> Self {
        self.attributes.push(prop(key, value).into_any_attr());
        self
    }

    /// What to do on an event.
    pub fn on(mut self, event: &'static str, act: impl FnMut(Event) + 'static) -> Self {
        let act: Box<dyn FnMut(Event)> = Box::new(act);
        self.attributes.push(on(Custom::<Event>::new(event), act).into_any_attr());
        self
    }

    /// Text that never changes.
    pub fn text(mut self, words: impl Into<String>) -> Self {
        self.children.push(words.into().into_any());
        self
    }

    /// Text that follows the job.
    pub fn words(mut self, words: Signal<String>) -> Self {
        self.children.push(words.into_any());
        self
    }

    /// An element or any other part within.
    pub fn child(mut self, child: impl Into<AnyView>) -> Self {
        self.children.push(child.into());
        self
    }

    /// Several parts within.
    pub fn children(mut self, children: impl IntoIterator<Item = AnyView>) -> Self {
        self.children.extend(children);
        self
    }

    /// A part that may be there or not.
    pub fn slot(self, draw: impl Fn() -> Option<AnyView> + Send + 'static) -> Self {
        self.child(slot(draw))
    }
}

impl From<Element> for AnyView {
    fn from(element: Element) -> AnyView {
        custom(element.tag).child(element.children).add_any_attr(element.attributes).into_any()
    }
}

/// Text that follows the job.
pub fn text(words: impl Fn() -> String + Send + Sync + 'static) -> Signal<String> {
    Signal::derive(words)
}

/// One of two words, as a condition says.
pub fn either(
    condition: impl Fn() -> bool + Send + Sync + 'static,
    yes: &'static str,
    no: &'static str,
) -> Signal<String> {
    text(move || if condition() { yes.to_owned() } else { no.to_owned() })
}

/// A part of the page that may be there or not.
pub fn slot(draw: impl Fn() -> Option<AnyView> + Send + 'static) -> AnyView {
    let draw: Box<dyn Fn() -> Option<AnyView> + Send> = Box::new(draw);
    (move || draw()).into_any()
}

/// A line of text that may be there or not.
pub fn line(class: &'static str, words: impl Fn() -> Option<String> + Send + 'static) -> AnyView {
    slot(move || words().map(|words| el("p").class(class).text(words).into()))
}

/// A key to press.
pub fn key(class: &'static str, words: impl Into<String>, act: impl Fn() + 'static) -> Element {
    el("button").attr("type", "button").class(class).text(words).on("click", move |_| act())
}

/// Many parts as one.
pub fn all(parts: impl IntoIterator<Item = AnyView>) -> AnyView {
    parts.into_iter().collect::<Vec<AnyView>>().into_any()
}
