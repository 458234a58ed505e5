//! The shape of a standing: never colour alone.

use leptos::prelude::*;

use super::element::el;
use crate::stage::Standing;

/// A shape of its own for each standing: tick in a ring, triangle, barred octagon, open ring.
/// Said to a screen reader by the word beside it, so it is hidden there.
pub fn standing_mark(standing: Option<Standing>) -> AnyView {
    let (class, path) = match standing {
        Some(Standing::Good) => {
            ("mark good", "M12 2a10 10 0 1 0 0 20a10 10 0 1 0 0-20zM7 12.5l3.5 3.5l6.5-8")
        }
        Some(Standing::Watch) => ("mark watch", "M12 3L22.5 21H1.5zM12 9.5v5.5M12 17.6v.6"),
        Some(Standing::Stop) => ("mark stop", "M8 2h8l6 6v8l-6 6H8l-6-6V8zM7 12h10"),
        Some(Standing::NotYet) => ("mark not-yet", "M12 3a9 9 0 1 0 0 18a9 9 0 1 0 0-18"),
        Some(Standing::IfWanted) => ("mark figure", "M6 12h.1M12 12h.1M18 12h.1"),
        None => ("mark figure", "M4 8h16M4 16h16"),
    };
    let markup = format!(r#"<svg viewBox="0 0 24 24" focusable="false"><path d="{path}"/></svg>"#);
    el("span").class(class).attr("aria-hidden", "true").prop("innerHTML", Signal::stored(markup)).into()
}
