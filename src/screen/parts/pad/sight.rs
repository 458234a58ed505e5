//! Where the caret is, and how the chosen box comes into sight above the pad.

use leptos::prelude::{document, window};
use web_sys::{DomRect, Element, FocusOptions, HtmlInputElement};

/// Left free between a box and the pad, in CSS pixels.
const ROOM_BELOW: f64 = 12.0;
/// What a box needs above it: its label.
const LABEL: f64 = 32.0;
/// Left free above a box that had to come down into sight: its label, the heading of the readings, and what
/// is said of a new turn.
const ROOM_ABOVE: f64 = 140.0;

/// The caret is in a box that is none of the pad's.
pub(super) fn in_another_box() -> bool {
    document().active_element().is_some_and(|at| {
        at.matches("input").unwrap_or(false) && !matches!(at.closest(".reading"), Ok(Some(_)))
    })
}

/// The caret is in this box.
pub(super) fn has_focus(input: &HtmlInputElement) -> bool {
    document().active_element().is_some_and(|at| at.is_same_node(Some(input)))
}

/// Puts the caret into a box and leaves the page where it is.
pub(super) fn put_caret(input: &HtmlInputElement) {
    let how = FocusOptions::new();
    how.set_prevent_scroll(true);
    let _ = input.focus_with_options(&how);
}

/// Brings what to do into sight.
pub(super) fn show_answers() {
    if let Some(answers) = document().get_element_by_id("answers") {
        answers.scroll_into_view();
    }
}

/// Scrolls no farther than needed for a box to be seen above the pad, and the whole pad with it. Reckoned
/// from where they are: the pad stands over the page only while the readings reach below it.
pub(super) fn show_above_pad(input: &Element) {
    let here = input.get_bounding_client_rect();
    let Some(pad) = place_of(".pad") else { return };
    let height = window().inner_height().ok().and_then(|height| height.as_f64()).unwrap_or(0.0);
    let foot = place_of(".strip").map_or(height, |strip| strip.top());
    let down = (here.bottom() + ROOM_BELOW - pad.top()).max(pad.bottom() - foot).max(0.0);
    let spare = here.top() - LABEL;
    let by = if spare < 0.0 { here.top() - ROOM_ABOVE } else { down.min(spare) };
    if by.abs() >= 1.0 {
        window().scroll_by_with_x_and_y(0.0, by);
    }
}

/// Where something is on the screen, if it is drawn.
fn place_of(selector: &str) -> Option<DomRect> {
    let found = document().query_selector(selector).ok()??;
    Some(found.get_bounding_client_rect()).filter(|place| place.height() > 0.0)
}
