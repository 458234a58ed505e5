//! Tilt as the browser tells it, and how the page stands turned in the device.

use std::cell::Cell;
use std::rc::Rc;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Event, EventTarget};

use super::browser;

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

fn get(of: &JsValue, name: &str) -> JsValue {
    Reflect::get(of, &name.into()).unwrap_or(JsValue::UNDEFINED)
}

/// Asks for leave to hear of the tilt, where the browser wants to be asked: from a tap, and then it may
/// ask whoever tapped. Where it does not, the answer comes at once.
pub fn ask(mut then: impl FnMut(Result<(), NoTilt>) + 'static) {
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

/// Someone who listens until it is dropped.
struct Listener {
    to: EventTarget,
    event: &'static str,
    closure: Closure<dyn FnMut(Event)>,
}

impl Listener {
    fn new(to: EventTarget, event: &'static str, call: Box<dyn FnMut(Event)>) -> Listener {
        let closure = Closure::wrap(call);
        let _ = to.add_event_listener_with_callback(event, closure.as_ref().unchecked_ref());
        Listener { to, event, closure }
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        let closure = self.closure.as_ref().unchecked_ref();
        let _ = self.to.remove_event_listener_with_callback(self.event, closure);
    }
}

/// Hears of the tilt until it is dropped.
pub struct Ear {
    told: Rc<Cell<Option<f64>>>,
    _listener: Listener,
}

impl Ear {
    /// Begins to listen.
    pub fn begin() -> Ear {
        let told = Rc::new(Cell::new(None));
        let tells = Rc::clone(&told);
        // Where there is no sensor some browsers send one event, and nothing in it.
        let hear = move |event: Event| tells.set(get(&event, "beta").as_f64());
        let to = js_sys::global().unchecked_into();
        Ear { told, _listener: Listener::new(to, "deviceorientation", Box::new(hear)) }
    }

    /// `beta` in degrees as told last. A browser tells a tilt when it changes: until then it stands.
    pub fn beta(&self) -> Option<f64> {
        self.told.get()
    }
}

/// Follows the way the page stands in the device until it is dropped.
pub struct Turn {
    _listener: Listener,
}

impl Turn {
    /// Calls back at once and at every turn, with an arrow to the edge that is the device's top as
    /// made: its tilt is told of that edge, not of the page's.
    ///
    /// Source: W3C Screen Orientation: the angle is how far the device was turned counterclockwise, so
    /// at 90° its top is on the left. Older browsers have the window's own, −90° in place of 270°.
    pub fn follow(mut call: impl FnMut(&'static str) + 'static) -> Turn {
        let window: JsValue = js_sys::global().into();
        let screen = get(&get(&window, "screen"), "orientation");
        let (to, event, key) = if screen.is_object() {
            (screen, "change", "angle")
        } else {
            (window, "orientationchange", "orientation")
        };
        let of = to.clone();
        let mut look = move || {
            call(match get(&of, key).as_f64().unwrap_or(0.0) as i32 {
                90 => "←",
                180 => "↓",
                270 | -90 => "→",
                _ => "↑",
            });
        };
        look();
        Turn { _listener: Listener::new(to.unchecked_into(), event, Box::new(move |_| look())) }
    }
}
