//! The weight that is kept after balancing on the car, in words.

use super::label::far_datum;
use super::weights::{around, by_eye, of_strip, piece};
use crate::job::Job;
use crate::quantity::{show_clock, show_length, show_plain_length};
use crate::stage::balance::{Kept, Plane};

/// Its name.
pub(super) const fn kept_title(plane: Plane) -> &'static str {
    match plane {
        Plane::One => "For keeps, weld on",
        Plane::Front => "For keeps, weld on at the gearbox end",
        Plane::Rear => "For keeps, weld on at the axle end",
    }
}

/// Where it goes and what it must be.
pub(super) fn worded_kept(kept: &Kept, job: &Job) -> String {
    let display = job.display.lengths();
    let at = around(kept.clock, kept.around);
    let place = match &kept.split {
        Some([one, other]) => {
            format!("Instead of {at}: {} and {}", piece(one, display), piece(other, display))
        }
        None => format!("At {at}"),
    };
    let off = if kept.trial { "the clips and the trial" } else { "the clips" };
    let mut words = format!(
        "{place}, seen from the rear, in place of {off}. Its centre of mass {} from the shaft's axis.",
        show_plain_length(kept.radius, display)
    );
    if let Some(alone) = kept.alone {
        words.push_str(&format!(" Or all of it at {}: as near as the ± tells.", show_clock(alone)));
    }
    words.push_str(&of_strip(kept.cut, kept.split.is_some(), display));
    words.push_str(
        " At the same place along the shaft as the clips: elsewhere along it does not do the same.",
    );
    match (kept.distance, kept.inside_weld) {
        (Some(distance), Some(inside)) => words.push_str(&format!(
            " No place was named for them: taken as {} inside the weld, {} from {}.",
            show_length(inside, display),
            show_length(distance, display),
            far_datum(job)
        )),
        (Some(distance), None) => words.push_str(&format!(
            " Taken as {} from {}.",
            show_length(distance, display),
            far_datum(job)
        )),
        (None, _) => words.push_str(" Keep it 1/2 in, 13 mm, off the welds."),
    }
    words.push_str(&by_eye(kept.by_eye));
    words.push_str(" Weld it with the shaft off the car.");
    if !kept.checked {
        words.push_str(" Not before the check run is good.");
    }
    words
}
