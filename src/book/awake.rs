//! The screen kept from going dark while both hands are on the shaft.
//!
//! Source: W3C Screen Wake Lock: `navigator.wakeLock.request("screen")` gives a lock that the browser
//! takes back whenever the page is hidden, so it is asked for again when the page is seen again.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Event, EventTarget};

use super::tilt::get;

const SEEN: &str = "visibilitychange";

/// Keeps the screen awake until it is dropped.
pub struct Awake {
    kept: Rc<Kept>,
    seen: Closure<dyn FnMut(Event)>,
}

struct Kept {
    lock: RefCell<JsValue>,
    /// Whoever asked has not gone on.
    wanted: Cell<bool>,
    tell: Box<dyn Fn(bool)>,
}

/// Asks for the screen to stay awake, and tells whether it does, now and whenever that changes.
pub fn stay_awake(tell: Box<dyn Fn(bool)>) -> Awake {
    let kept = Rc::new(Kept { lock: RefCell::new(JsValue::UNDEFINED), wanted: Cell::new(true), tell });
    ask(&kept);
    let again = Rc::clone(&kept);
    let seen = Closure::<dyn FnMut(Event)>::new(move |_: Event| {
        // The lock of a hidden page is gone by itself.
        if get(&page(), "hidden").as_bool() == Some(false) {
            ask(&again);
        }
    });
    let call = seen.as_ref().unchecked_ref();
    let _ = page().unchecked_into::<EventTarget>().add_event_listener_with_callback(SEEN, call);
    Awake { kept, seen }
}

impl Drop for Awake {
    fn drop(&mut self) {
        self.kept.wanted.set(false);
        release(&self.kept.lock.replace(JsValue::UNDEFINED));
        let call = self.seen.as_ref().unchecked_ref();
        let _ = page().unchecked_into::<EventTarget>().remove_event_listener_with_callback(SEEN, call);
    }
}

fn page() -> JsValue {
    get(&js_sys::global(), "document")
}

/// At an insecure address, and in an older browser, there is nobody to ask.
fn ask(kept: &Rc<Kept>) {
    let keeper = get(&get(&js_sys::global(), "navigator"), "wakeLock");
    let promise = get(&keeper, "request")
        .dyn_into::<Function>()
        .and_then(|request| request.call1(&keeper, &"screen".into()))
        .and_then(JsCast::dyn_into::<Promise>);
    let Ok(promise) = promise else { return (kept.tell)(false) };
    let kept = Rc::clone(kept);
    // A lock, or an error, which is as good as no.
    let answered = Closure::<dyn FnMut(JsValue)>::new(move |lock: JsValue| {
        if !kept.wanted.get() {
            return release(&lock);
        }
        let awake = get(&lock, "release").is_function();
        if awake {
            watch(&kept, &lock);
            release(&kept.lock.replace(lock));
        }
        (kept.tell)(awake);
    });
    let _ = promise.then2(&answered, &answered);
    answered.forget();
}

/// Tells when the browser takes the lock back, as it may on a low battery.
fn watch(kept: &Rc<Kept>, lock: &JsValue) {
    let kept = Rc::downgrade(kept);
    let gone = Closure::once_into_js(move || {
        let kept = kept.upgrade().filter(|kept| kept.wanted.get());
        // One that a newer lock stands in for is let go of by ourselves.
        if let Some(kept) = kept
            && get(&kept.lock.borrow(), "released").as_bool() != Some(false)
        {
            (kept.tell)(false);
        }
    });
    let _ = Reflect::set(lock, &"onrelease".into(), &gone);
}

fn release(lock: &JsValue) {
    if let Ok(release) = get(lock, "release").dyn_into::<Function>()
        && let Some(promise) = release.call0(lock).ok().and_then(|done| done.dyn_into::<Promise>().ok())
    {
        // Nothing is left to do if it fails; but an error that nobody hears would stand on the console.
        let heard = Closure::<dyn FnMut(JsValue)>::new(|_| ());
        let _ = promise.catch(&heard);
        heard.forget();
    }
}
