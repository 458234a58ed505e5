//! A window of the browser: where it is, and what an eye sees in it.
//!
//! Scripts only look. Each look is repeated until it shows what is wanted or the time is up, and then
//! what was seen instead is said.

use std::cell::Cell;
use std::sync::Arc;
use std::thread;
use std::time::{Duration, Instant};

use serde::de::DeserializeOwned;
use serde_json::{Value, from_value, json};

use crate::chromium::Chromium;

/// Far longer than anything here takes, so that a slow machine is no failure.
const DEADLINE: Duration = Duration::from_secs(15);
/// Between two looks.
const PAUSE: Duration = Duration::from_millis(5);
/// What must never be read on the page, whatever was typed.
const NO_NUMBER: &str = r"/\bNaN\b|\binf(inity)?\b|no figure|\bundefined\b/i";

/// A window of the browser.
pub struct Page {
    browser: Arc<Chromium>,
    session: String,
    /// When it was last tapped, in seconds since 1970.
    pub last_tap: Cell<f64>,
}

/// A text as JavaScript writes it.
pub fn quoted(text: &str) -> String {
    Value::from(text).to_string()
}

impl Page {
    /// A window of this size, touched with a finger.
    pub fn of(browser: Arc<Chromium>, session: String, size: (u32, u32)) -> Page {
        let page = Page { browser, session, last_tap: Cell::new(0.0) };
        page.resize(size);
        page.call("Emulation.setTouchEmulationEnabled", json!({"enabled": true, "maxTouchPoints": 1}));
        page.call("Emulation.setFocusEmulationEnabled", json!({"enabled": true}));
        page
    }

    /// Another size of the glass.
    pub fn resize(&self, (width, height): (u32, u32)) {
        self.call(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": true}),
        );
    }

    /// Runs a script before anything of the page, at every load from now on.
    pub fn prepare(&self, script: &str) {
        self.call("Page.addScriptToEvaluateOnNewDocument", json!({"source": script}));
    }

    /// Asks something of the window.
    pub fn call(&self, method: &str, params: Value) -> Value {
        self.browser.call(&self.session, method, params).unwrap()
    }

    // ---- where it is ---------------------------------------------------------------------------

    /// Opens an address and waits for the program to have drawn.
    pub fn open(&self, address: &str) {
        let sent = self.call("Page.navigate", json!({"url": address}));
        assert!(sent["errorText"].is_null(), "{address}: {sent}");
        self.drawn();
    }

    /// Loads the page again.
    pub fn reload(&self) {
        // The mark goes with the page that is left.
        self.ask::<()>("void (window.left = true)");
        self.call("Page.reload", json!({}));
        self.until("a fresh page", "!window.left");
        self.drawn();
    }

    /// The browser's way back.
    pub fn back(&self) {
        self.ask::<()>("void history.back()");
    }

    /// Waits until the program has drawn.
    pub fn drawn(&self) {
        self.until("the page drawn by the program", "!!document.querySelector('#main > section')");
    }

    /// Waits until the page would open without signal.
    pub fn kept_for_offline(&self) {
        self.until(
            "the page kept for offline use",
            "document.documentElement.dataset.offline === 'ready'",
        );
    }

    // ---- the eye -------------------------------------------------------------------------------

    /// What a script that only looks finds.
    pub fn ask<T: DeserializeOwned>(&self, script: &str) -> T {
        self.try_ask(script).unwrap_or_else(|why| panic!("{script}\n{why}"))
    }

    /// The same, where the page may be between two loads.
    pub fn try_ask<T: DeserializeOwned>(&self, script: &str) -> Result<T, String> {
        let asked = json!({"expression": script, "returnByValue": true, "awaitPromise": true});
        let mut answer = self.browser.call(&self.session, "Runtime.evaluate", asked)?;
        if !answer["exceptionDetails"].is_null() {
            return Err(answer["exceptionDetails"].to_string());
        }
        from_value(answer["result"]["value"].take()).map_err(|error| error.to_string())
    }

    /// Waits until a script that only looks says yes.
    pub fn until(&self, what: &str, script: &str) {
        self.look(what, || match self.try_ask::<bool>(script) {
            Ok(true) => Ok(()),
            Ok(false) => Err(self.seen()),
            Err(why) => Err(why),
        });
    }

    /// Looks until it is seen; `what` is wanted, the error is what was seen instead.
    pub fn look<T>(&self, what: &str, mut at: impl FnMut() -> Result<T, String>) -> T {
        let end = Instant::now() + DEADLINE;
        loop {
            match at() {
                Ok(found) => return found,
                Err(seen) if Instant::now() > end => panic!("wanted: {what}\nseen: {seen}"),
                Err(_) => thread::sleep(PAUSE),
            }
        }
    }

    /// All that can be read, for a failure's message.
    pub fn seen(&self) -> String {
        self.try_ask("location.href + '\\n' + document.body.innerText").unwrap_or_else(|why| why)
    }

    /// The text of an element, or nothing where there is none.
    pub fn text(&self, selector: &str) -> String {
        self.ask(&format!("document.querySelector({})?.innerText.trim() ?? ''", quoted(selector)))
    }

    /// The texts of all such elements.
    pub fn texts(&self, selector: &str) -> Vec<String> {
        let all = format!("[...document.querySelectorAll({})]", quoted(selector));
        self.ask(&format!("{all}.map((found) => found.innerText.trim())"))
    }

    /// Waits until an element's text holds these words.
    pub fn reads(&self, selector: &str, words: &str) {
        self.look(&format!("“{words}” in {selector}"), || {
            let text = self.text(selector);
            if text.contains(words) { Ok(()) } else { Err(format!("“{text}”\n{}", self.seen())) }
        });
    }

    /// What stands in a field.
    pub fn value(&self, id: &str) -> String {
        self.ask(&format!("document.getElementById({}).value", quoted(id)))
    }

    /// Whatever has been typed, nothing on the page may be a number that is none.
    pub fn no_bad_number(&self) {
        let found: Option<String> =
            self.ask(&format!("document.body.innerText.match({NO_NUMBER})?.[0]"));
        assert_eq!(found, None, "a number that is none on the page:\n{}", self.seen());
    }
}
