//! The page.
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// Puts the page into `#app`.
pub fn mount() {
    let Some(place) = document().get_element_by_id("app") else {
        return;
    };
    place.set_inner_html("");
    let Ok(place) = place.dyn_into::<web_sys::HtmlElement>() else {
        return;
    };
    mount_to(place, || view! { <main><h1>"Shaftwright"</h1></main> }).forget();
}
