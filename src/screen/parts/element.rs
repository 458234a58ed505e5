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

/// An element in the making. Boxed, and its steps kept from being inlined, so that each step of a
/// chain is one short call: the chains are many.
pub struct Element(Box<Parts>);

struct Parts {
    tag: &'static str,
    attributes: Vec<AnyAttribute>,
    children: Vec<AnyView>,
}

/// Begins an element.
#[inline(never)]
pub fn el(tag: &'static str) -> Element {
    Element(Box::new(Parts { tag, attributes: Vec::new(), children: Vec::new() }))
}

impl Element {
    /// A class that never changes.
    pub fn class(self, class: &'static str) -> Self {
        if class.is_empty() { self } else { self.attr("class", class) }
    }

    /// An attribute that never changes.
    #[inline(never)]
    pub fn attr(mut self, key: &'static str, value: &str) -> Self {
        self.0.attributes.push(custom_attribute(key, value.to_owned()).into_any_attr());
        self
    }

    /// An attribute that follows the job.
    #[inline(never)]
    pub fn live(mut self, key: &'static str, value: Signal<String>) -> Self {
        self.0.attributes.push(custom_attribute(key, value).into_any_attr());
        self
    }

    /// A property, such as what stands in an input, that follows the job.
    #[inline(never)]
    pub fn prop(mut self, key: &'static str, value: Signal<String>) -> Self {
        self.0.attributes.push(prop(key, value).into_any_attr());
        self
    }

    /// What to do on an event.
    pub fn on(self, event: &'static str, act: impl FnMut(Event) + 'static) -> Self {
        self.listen(event, Box::new(act))
    }

    #[inline(never)]
    fn listen(mut self, event: &'static str, act: Box<dyn FnMut(Event)>) -> Self {
        self.0.attributes.push(on(Custom::<Event>::new(event), act).into_any_attr());
        self
    }

    /// Text that never changes.
    #[inline(never)]
    pub fn text(self, words: &str) -> Self {
        self.with(words.to_owned().into_any())
    }

    /// Text that follows the job.
    #[inline(never)]
    pub fn words(self, words: Signal<String>) -> Self {
        self.with(words.into_any())
    }

    /// An element or any other part within.
    pub fn child(self, child: impl Into<AnyView>) -> Self {
        self.with(child.into())
    }

    #[inline(never)]
    fn with(mut self, child: AnyView) -> Self {
        self.0.children.push(child);
        self
    }

    /// Several parts within.
    pub fn children(mut self, children: impl IntoIterator<Item = AnyView>) -> Self {
        self.0.children.extend(children);
        self
    }

    /// A part that may be there or not.
    pub fn slot(self, draw: impl Fn() -> Option<AnyView> + Send + 'static) -> Self {
        self.child(slot(draw))
    }
}

impl From<Element> for AnyView {
    #[inline(never)]
    fn from(element: Element) -> AnyView {
        let Parts { tag, attributes, children } = *element.0;
        custom(tag).child(children).add_any_attr(attributes).into_any()
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
    boxed_slot(Box::new(draw))
}

#[inline(never)]
fn boxed_slot(draw: Box<dyn Fn() -> Option<AnyView> + Send>) -> AnyView {
    (move || draw()).into_any()
}

/// A line of text that may be there or not. Once it was there only its text changes, and while it is not
/// it is hidden: drawing it anew at every keystroke would cost more than all the sums.
pub fn line(class: &'static str, words: impl Fn() -> Option<String> + Send + Sync + 'static) -> AnyView {
    let words: Memo<Option<String>> = Memo::new(move |_| words());
    let gone = Memo::new(move |_| words.with(Option::is_none));
    let begun = once_there(gone);
    slot(move || {
        let words = text(move || words.get().unwrap_or_default());
        begun.get().then(|| hideable(el("p").class(class), gone).words(words).into())
    })
}

/// Whether something was ever there, so that it is hidden from then on and not taken away.
pub fn once_there(gone: Memo<bool>) -> Memo<bool> {
    Memo::new(move |begun| begun == Some(&true) || !gone.get())
}

/// Hides an element while a condition holds: cheaper than to take it away and make it anew.
pub fn hideable(element: Element, gone: Memo<bool>) -> Element {
    element.prop("hidden", either(move || gone.get(), "hidden", ""))
}

/// A key to press.
pub fn key(class: &'static str, words: &str, act: impl Fn() + 'static) -> Element {
    el("button").attr("type", "button").class(class).text(words).on("click", move |_| act())
}

/// Questions that belong together, under a heading.
pub fn part(title: &'static str, inside: AnyView) -> AnyView {
    el("section").class("asked").child(el("h2").text(title)).child(inside).into()
}

/// Questions that few will need, drawn only once they are asked for, or while something in them counts.
pub fn fold(
    title: &'static str,
    counts: Memo<bool>,
    inside: impl Fn() -> AnyView + Send + 'static,
) -> AnyView {
    let asked = RwSignal::new(false);
    let open = Memo::new(move |_| asked.get() || counts.get());
    let key = el("button")
        .attr("type", "button")
        .class("plain")
        .live("aria-expanded", either(move || open.get(), "true", "false"))
        .text(title)
        .on("click", move |_| asked.update(|asked| *asked = !*asked));
    el("section").class("asked").child(key).slot(move || open.get().then(&inside)).into()
}

/// Many parts as one.
pub fn all(parts: impl IntoIterator<Item = AnyView>) -> AnyView {
    parts.into_iter().collect::<Vec<AnyView>>().into_any()
}
