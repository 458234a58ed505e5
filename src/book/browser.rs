//! The browser: storage, files, the address, the clock, the worker's news.

use gloo_storage::{LocalStorage, Storage as _};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{
    Blob, BlobPropertyBag, Event, FileReader, FocusOptions, HtmlAnchorElement, HtmlElement,
    HtmlInputElement, Url, Window,
};

use super::store::{MemoryStore, Store, StoreError};

/// A file larger than this is no job.
const LARGEST_FILE: f64 = 2_000_000.0;

fn window() -> Option<Window> {
    web_sys::window()
}

/// Local storage. Made only after a probe, since asking for it where it is blocked would panic.
struct BrowserStore;

/// What a refusal by the browser means.
fn refusal(error: &JsValue) -> StoreError {
    let name = js_sys::Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string());
    if name.is_some_and(|name| name.contains("Quota")) { StoreError::Full } else { StoreError::Blocked }
}

impl Store for BrowserStore {
    fn read(&self, key: &str) -> Result<Option<String>, StoreError> {
        LocalStorage::raw().get_item(key).map_err(|error| refusal(&error))
    }

    fn write(&self, key: &str, text: &str) -> Result<(), StoreError> {
        LocalStorage::raw().set_item(key, text).map_err(|error| refusal(&error))
    }

    fn remove(&self, key: &str) {
        LocalStorage::delete(key);
    }

    fn keys(&self, prefix: &str) -> Vec<String> {
        let storage = LocalStorage::raw();
        (0..LocalStorage::length())
            .filter_map(|i| storage.key(i).ok().flatten())
            .filter(|key| key.starts_with(prefix))
            .collect()
    }
}

/// The browser's storage, or memory and the reason why.
pub fn open_store() -> (Box<dyn Store>, Option<StoreError>) {
    let storage = window().map(|window| window.local_storage());
    let Some(Ok(Some(storage))) = storage else {
        return (Box::new(MemoryStore::default()), Some(StoreError::Blocked));
    };
    const PROBE: &str = "shaftwright.probe";
    match storage.set_item(PROBE, "1") {
        Ok(()) => {
            let _ = storage.remove_item(PROBE);
            (Box::new(BrowserStore), None)
        }
        // A full store can still be read and made room in; each write that fails is said by itself.
        Err(error) if refusal(&error) == StoreError::Full => {
            (Box::new(BrowserStore), Some(StoreError::Full))
        }
        Err(_) => (Box::new(MemoryStore::default()), Some(StoreError::Blocked)),
    }
}

/// Now, in milliseconds since 1970.
pub fn now_ms() -> u64 {
    js_sys::Date::now() as u64
}

/// A moment as the browser writes dates here.
pub fn date_text(ms: u64) -> String {
    let date = js_sys::Date::new(&JsValue::from_f64(ms as f64));
    String::from(date.to_locale_string("default", &JsValue::UNDEFINED))
}

/// An id that no other job has: the time and a random part, short enough for an address.
pub fn fresh_id() -> String {
    let time = now_ms();
    let chance = (js_sys::Math::random() * 1e6) as u64;
    format!("{time:x}{chance:05x}")
}

/// Asks the browser not to clear our storage by itself. It may say no; nothing depends on it.
pub fn ask_for_lasting_storage() {
    if let Some(window) = window().filter(|window| window.is_secure_context()) {
        let _ = window.navigator().storage().persist();
    }
}

/// Whether the address is one that the browser allows offline use on.
pub fn is_secure() -> bool {
    window().is_some_and(|window| window.is_secure_context())
}

/// What stands behind `#` in the address.
pub fn hash() -> String {
    let hash = window().and_then(|window| window.location().hash().ok()).unwrap_or_default();
    hash.trim_start_matches('#').to_owned()
}

/// Goes to another place; the browser's way back leads here.
pub fn go(hash: &str) {
    if let Some(window) = window() {
        let _ = window.location().set_hash(hash);
    }
}

/// Begins a screen: from its top, under its own title, with the focus at its beginning.
pub fn begin_screen(title: &str) {
    let Some(window) = window() else { return };
    window.scroll_to_with_x_and_y(0.0, 0.0);
    if let Some(document) = window.document() {
        document.set_title(&format!("{title} · Shaftwright"));
    }
    focus_main();
}

/// Puts the cursor into the first field that this selector finds.
pub fn focus(selector: &str) {
    let found = window().and_then(|window| window.document()?.query_selector(selector).ok()?);
    if let Some(input) = found.and_then(|found| found.dyn_into::<HtmlInputElement>().ok()) {
        let _ = input.focus();
        input.select();
    }
}

/// Puts the focus on a key, and brings it into sight.
pub fn focus_button(id: &str) {
    let found = window().and_then(|window| window.document()?.get_element_by_id(id));
    if let Some(found) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        let _ = found.focus();
    }
}

/// Puts the focus at the beginning of the screen, without scrolling to it.
pub fn focus_main() {
    let main = window().and_then(|window| window.document()?.get_element_by_id("main"));
    if let Some(main) = main.and_then(|main| main.dyn_into::<HtmlElement>().ok()) {
        let how = FocusOptions::new();
        how.set_prevent_scroll(true);
        let _ = main.focus_with_options(&how);
    }
}

/// Calls back on an event of the window, for as long as the page lives.
pub fn on_event(name: &str, call: impl FnMut(Event) + 'static) {
    let closure = Closure::<dyn FnMut(Event)>::new(call);
    if let Some(window) = window() {
        let _ = window.add_event_listener_with_callback(name, closure.as_ref().unchecked_ref());
    }
    closure.forget();
}

/// Calls back when the page may be about to go away: hidden, left, or the tablet shut.
pub fn on_leaving(call: impl Fn() + Clone + 'static) {
    let on_hide = call.clone();
    on_event("pagehide", move |_| on_hide());
    let closure = Closure::<dyn FnMut(Event)>::new(move |_| call());
    if let Some(document) = window().and_then(|window| window.document()) {
        let _ = document
            .add_event_listener_with_callback("visibilitychange", closure.as_ref().unchecked_ref());
    }
    closure.forget();
}

/// Sends an event to the start script.
pub fn send(name: &str) {
    if let (Some(window), Ok(event)) = (window(), Event::new(name)) {
        let _ = window.dispatch_event(&event);
    }
}

/// Whether the start script has set this flag on the page.
pub fn flag(name: &str) -> bool {
    let root = window().and_then(|window| window.document()).and_then(|page| page.document_element());
    root.and_then(|root| root.get_attribute(name)).is_some_and(|value| value == "ready")
}

/// Sets an attribute of the page's root, such as its theme.
pub fn set_root_attribute(name: &str, value: &str) {
    let root = window().and_then(|window| window.document()).and_then(|page| page.document_element());
    if let Some(root) = root {
        let _ = root.set_attribute(name, value);
    }
}

/// Prints sheets alone: while `#print-strip` holds any, the style sheet leaves all else out.
pub fn print_alone(sheets: &str) {
    hold_for_print(sheets);
    if let Some(window) = window() {
        let _ = window.print();
    }
}

fn hold_for_print(sheets: &str) {
    let holder = window().and_then(|window| window.document()?.get_element_by_id("print-strip"));
    if let Some(holder) = holder {
        holder.set_inner_html(sheets);
    }
}

/// Takes printed sheets out of the page once the hand is back on it. Not when the browser says that it
/// has printed: some say so as soon as their dialog opens, and draw the pages only after that.
pub fn put_print_away_on_return() {
    for sign in ["pointerdown", "keydown", "focus"] {
        on_event(sign, |_| hold_for_print(""));
    }
}

/// Offers a text as a file to keep.
pub fn save_file(name: &str, text: &str) {
    let parts = js_sys::Array::of1(&text.into());
    let kind = BlobPropertyBag::new();
    kind.set_type(if name.ends_with(".json") { "application/json" } else { "text/plain" });
    let Ok(blob) = Blob::new_with_str_sequence_and_options(&parts, &kind) else { return };
    let Ok(address) = Url::create_object_url_with_blob(&blob) else { return };
    let anchor = window()
        .and_then(|window| window.document())
        .and_then(|page| page.create_element("a").ok())
        .and_then(|element| element.dyn_into::<HtmlAnchorElement>().ok());
    if let Some(anchor) = anchor {
        anchor.set_href(&address);
        anchor.set_download(name);
        anchor.click();
    }
    // Some browsers fetch the text only after this turn: let go of it later.
    let release = Closure::once_into_js(move || {
        let _ = Url::revoke_object_url(&address);
    });
    if let Some(window) = window() {
        let _ = window
            .set_timeout_with_callback_and_timeout_and_arguments_0(release.unchecked_ref(), 30_000);
    }
}

/// Reads the file chosen in an input; `None` where it cannot be read or is far too large.
pub fn read_file(input: &HtmlInputElement, then: impl Fn(Option<String>) + 'static) {
    let file = input.files().and_then(|files| files.get(0));
    input.set_value("");
    let Some(file) = file else { return };
    if file.size() > LARGEST_FILE {
        then(None);
        return;
    }
    let Ok(reader) = FileReader::new() else { return };
    let done = reader.clone();
    let closure = Closure::once_into_js(move || {
        then(done.result().ok().and_then(|text| text.as_string()));
    });
    reader.set_onloadend(Some(closure.unchecked_ref()));
    let _ = reader.read_as_text(&file);
}
