//! Tilt as the browser tells it, and how the page stands turned in the device.

use std::cell::Cell;
use std::rc::Rc;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Event, EventTarget};

use super::browser;

/// Between two looks at what was told last, in milliseconds.
const LOOK_MS: i32 = 50;

/// Why the browser tells no tilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTilt {
    /// It does so at secure addresses alone.
    Insecure,
    /// It never does.
    Never,
    /// Whoever was asked did not allow it.
    Refused,
    /// It could, but nothing came: a desk computer has the event and no sensor.
    Silent,
}

impl NoTilt {
    /// What to say.
    pub const fn sentence(self) -> &'static str {
        match self {
            NoTilt::Insecure => {
                "This device tells no tilt here: the address is not secure (https). Nothing was put in."
            }
            NoTilt::Never => {
                "This device tells no tilt here: the browser does not know how. Nothing was put in."
            }
            NoTilt::Refused => {
                "This device tells no tilt here: it was not allowed. Allow motion and orientation for this page, then tap again."
            }
            NoTilt::Silent => {
                "This device tells no tilt here: it has no such sensor, or the browser withholds it. Nothing was put in."
            }
        }
    }
}

/// A member of an object; nothing where there is none, or no object.
pub(super) fn get(of: &JsValue, name: &str) -> JsValue {
    Reflect::get(of, &name.into()).unwrap_or(JsValue::UNDEFINED)
}

/// Asks for leave to hear of the tilt, where the browser wants to be asked: from a tap, and then it may
/// ask whoever tapped. Where it does not, the answer comes at once.
pub fn ask(mut then: Box<dyn FnMut(Result<(), NoTilt>)>) {
    let refused = |why| if browser::is_secure() { why } else { NoTilt::Insecure };
    let kind = get(&js_sys::global(), "DeviceOrientationEvent");
    if kind.is_undefined() {
        return then(Err(refused(NoTilt::Never)));
    }
    let Ok(asks) = get(&kind, "requestPermission").dyn_into::<Function>() else {
        return then(Ok(()));
    };
    let Some(promise) = asks.call0(&kind).ok().and_then(|answer| answer.dyn_into::<Promise>().ok())
    else {
        return then(Err(refused(NoTilt::Refused)));
    };
    // An error is as good as no.
    let answered = Closure::<dyn FnMut(JsValue)>::new(move |answer: JsValue| {
        let granted = answer.as_string().is_some_and(|answer| answer == "granted");
        then(if granted { Ok(()) } else { Err(refused(NoTilt::Refused)) });
    });
    let _ = promise.then2(&answered, &answered);
    answered.forget();
}

/// Hears of the tilt until it is dropped.
struct Ear {
    told: Rc<Cell<Option<f64>>>,
    closure: Closure<dyn FnMut(Event)>,
}

const EVENT: &str = "deviceorientation";

fn window() -> EventTarget {
    js_sys::global().unchecked_into()
}

impl Ear {
    fn begin() -> Ear {
        let told = Rc::new(Cell::new(None));
        let tells = Rc::clone(&told);
        // Where there is no sensor some browsers send one event, and nothing in it.
        let closure = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
            tells.set(get(&event, "beta").as_f64());
        });
        let call = closure.as_ref().unchecked_ref();
        let _ = window().add_event_listener_with_callback(EVENT, call);
        Ear { told, closure }
    }
}

impl Drop for Ear {
    fn drop(&mut self) {
        let call = self.closure.as_ref().unchecked_ref();
        let _ = window().remove_event_listener_with_callback(EVENT, call);
    }
}

/// Listens, and shows every so often what was told last, `beta` in degrees, for as long as whoever
/// looks wants more. A browser tells a tilt when it changes: until then it stands.
pub fn listen(look: Box<dyn FnMut(Option<f64>) -> bool>) {
    wait(Ear::begin(), look);
}

fn wait(ear: Ear, mut look: Box<dyn FnMut(Option<f64>) -> bool>) {
    let next = Closure::once_into_js(move || {
        if look(ear.told.get()) {
            wait(ear, look);
        }
    });
    if let Some(window) = web_sys::window() {
        let next = next.unchecked_ref();
        let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(next, LOOK_MS);
    }
}

/// Quarter turns, counterclockwise, of the device against the way it was made to be held: its tilt is
/// told of the edge that is its top as made, not of the page's. Calls back at once and at every turn,
/// for as long as the page lives.
///
/// Source: W3C Screen Orientation: the angle is how far the device was turned counterclockwise, so at
/// 90° its top is on the left. Older browsers have the window's own, −90° in place of 270°.
pub fn on_turn(call: impl Fn(usize) + 'static) {
    let screen = get(&get(&window(), "screen"), "orientation");
    let (to, event, key) = if screen.is_object() {
        (screen.unchecked_into(), "change", "angle")
    } else {
        (window(), "orientationchange", "orientation")
    };
    let of = to.clone();
    let look = move || {
        let angle = get(&of, key).as_f64().unwrap_or(0.0);
        call((angle / 90.0) as i32 as usize & 3);
    };
    look();
    let closure = Closure::<dyn FnMut(Event)>::new(move |_| look());
    let _ = to.add_event_listener_with_callback(event, closure.as_ref().unchecked_ref());
    closure.forget();
}
