//! Where weights go along the new shaft at an end.

use crate::job::{End, Entry, Job};
use crate::quantity::{Length, inches};
use crate::stage::cut_list::cut_list;
use crate::stage::field::Fields;

/// Where a weight goes that nobody gave a place: so far inside the weld. Our own choice.
fn inside_weld() -> Length {
    inches(1.0)
}

/// Where weights of an end go along the shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Distance from the far datum.
    pub distance: Length,
    /// Nobody said where: so far inside the weld.
    pub inside_weld: Option<Length>,
}

/// Where the place of an end's weights is typed.
pub(super) const fn plane(end: End) -> Entry {
    match end {
        End::Front => Entry::FrontPlane,
        End::Rear => Entry::RearPlane,
    }
}

/// The place of an end's weights: as typed; else so far inside that end's weld. `None`, with what is needed
/// in the fields, while neither is known.
pub(in crate::stage) fn place(job: &Job, fields: &mut Fields, end: End) -> Option<Place> {
    let entry = plane(end);
    if !fields.is_empty(entry) {
        return fields.length(entry).map(|distance| Place { distance, inside_weld: None });
    }
    let inside = inside_weld();
    let distance = if end == job.cut.end {
        let line = fields.length(Entry::WeldLine);
        let list = fields.sum(cut_list(job));
        line.and(list)?.new_weld()? - inside
    } else {
        fields.length(Entry::FarWeldLine)? + inside
    };
    Some(Place { distance, inside_weld: Some(inside) })
}
