//! The page as a hand meets it: taps by touch, text by keys. Nothing is put into the page by a script.

use std::time::{SystemTime, UNIX_EPOCH};

use serde_json::{Value, json};

use crate::page::{Page, quoted};

impl Page {
    /// Taps the first element that the selector finds.
    pub fn tap(&self, selector: &str) {
        self.tap_word(selector, "");
    }

    /// Taps the first such element that has just these words; none: whatever it says.
    pub fn tap_word(&self, selector: &str, words: &str) {
        let what = format!("{selector} “{words}” to tap");
        let place = self.look(&what, || {
            let place: Place = self.try_ask(&place_of(selector, words))?;
            match place.covered_by {
                None => Ok(place),
                Some(cover) => Err(format!("{cover}\n{}", self.seen())),
            }
        });
        let finger = json!([{"x": place.x, "y": place.y}]);
        let when = self.next_tap();
        for (kind, points) in [("touchStart", finger), ("touchEnd", json!([]))] {
            let touch = json!({"type": kind, "touchPoints": points, "timestamp": when});
            self.call("Input.dispatchTouchEvent", touch);
        }
    }

    /// A moment for the next tap, in seconds since 1970. Every field is brought to the middle of the glass,
    /// so two quick taps there would be one double tap; a hand is slower, and these are as far apart as its.
    fn next_tap(&self) -> f64 {
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs_f64();
        let next = now.max(self.last_tap.get() + 0.5);
        self.last_tap.set(next);
        next
    }

    /// Taps a field and types over what stands in it.
    pub fn write(&self, id: &str, text: &str) {
        self.write_into(&format!("#{id}"), text);
    }

    /// The same for a field without an id.
    pub fn write_into(&self, selector: &str, text: &str) {
        self.focus(selector);
        let field = format!("document.querySelector({})", quoted(selector));
        let whole =
            "((field) => field.selectionStart === 0 && field.selectionEnd === field.value.length)";
        let ready = format!("{whole}({field})");
        self.look(&format!("{selector} ready to be typed over"), || {
            self.press("a", json!({"modifiers": 2, "commands": ["selectAll"]}));
            if self.ask(&ready) { Ok(()) } else { Err(self.seen()) }
        });
        if text.is_empty() {
            self.press("Backspace", json!({"windowsVirtualKeyCode": 8}));
        }
        self.type_on(text);
        self.look(&format!("“{text}” in {selector}"), || {
            let stands: String = self.ask(&format!("{field}.value"));
            if stands == text { Ok(()) } else { Err(stands) }
        });
        self.no_bad_number();
    }

    /// Taps a field and waits for its caret.
    pub fn focus(&self, selector: &str) {
        self.tap(selector);
        let field = format!("document.querySelector({})", quoted(selector));
        self.until(&format!("{selector} to type into"), &format!("document.activeElement === {field}"));
    }

    /// Types into whatever has the focus.
    pub fn type_on(&self, text: &str) {
        for letter in text.chars() {
            self.press(&letter.to_string(), json!({"text": letter.to_string()}));
        }
    }

    /// Presses a key.
    pub fn press(&self, key: &str, mut how: Value) {
        how["type"] = Value::from("keyDown");
        how["key"] = Value::from(key);
        self.call("Input.dispatchKeyEvent", how);
        self.call("Input.dispatchKeyEvent", json!({"type": "keyUp", "key": key}));
    }

    /// Goes down or up a drop-down with the arrow keys to this word. The list that a finger opens is
    /// the system's own and no part of the page.
    pub fn choose(&self, label: &str, word: &str) {
        let (label, word) = (quoted(label), quoted(word));
        let select = format!(
            "[...document.querySelectorAll('.choice')].find((choice) => \
             choice.querySelector('.label').innerText.trim() === {label}).querySelector('select')"
        );
        let way = format!(
            "(() => {{ const list = {select}; list.focus(); return [...list.options].findIndex((item) => \
             item.text === {word}) - list.selectedIndex; }})()"
        );
        let steps: i32 = self.ask(&way);
        let (key, code) = if steps < 0 { ("ArrowUp", 38) } else { ("ArrowDown", 40) };
        for _ in 0..steps.abs() {
            self.press(key, json!({"code": key, "windowsVirtualKeyCode": code}));
        }
        self.until(
            &format!("{word} chosen in {label}"),
            &format!("{select}.selectedOptions[0].text === {word}"),
        );
        self.no_bad_number();
    }
}

/// Where a finger goes down, and what lies over the element there.
#[derive(serde::Deserialize)]
struct Place {
    x: f64,
    y: f64,
    covered_by: Option<String>,
}

/// Brings an element to the middle of the glass and says where it is once that is drawn.
fn place_of(selector: &str, words: &str) -> String {
    let (selector, words) = (quoted(selector), quoted(words));
    format!(
        "(async () => {{
            const frame = () => new Promise((drawn) => requestAnimationFrame(drawn));
            const found = [...document.querySelectorAll({selector})]
                .find((each) => {words} === '' || each.innerText.trim() === {words});
            if (!found) return {{ x: 0, y: 0, covered_by: 'it is not there' }};
            found.scrollIntoView({{ block: 'center', behavior: 'instant' }});
            await frame(); await frame();
            const box = found.getBoundingClientRect();
            const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
            const top = document.elementFromPoint(x, y);
            const free = top && (found.contains(top) || top.contains(found));
            return {{ x, y, covered_by: free ? null : 'covered by ' + (top?.outerHTML.slice(0, 200) ?? 'nothing') }};
        }})()"
    )
}
