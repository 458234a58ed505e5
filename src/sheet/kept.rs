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

/// Where it goes and what it must be: where on the clock, along the shaft and out from its axis; then what not every
/// weight has, and the caution.
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
    let along = match (kept.distance, kept.inside_weld) {
        (Some(distance), inside) => {
            let taken = inside.map_or(String::new(), |inside| {
                format!(" not typed, taken as {} inside the weld,", show_length(inside, display))
            });
            format!(":{taken} {} from {}", show_length(distance, display), far_datum(job))
        }
        (None, _) => String::new(),
    };
    let mut words = format!(
        "{place}, seen from the rear, in place of {off}. Only at the clips' own place along the shaft{along}. Its centre of mass {} from the shaft's axis.",
        show_plain_length(kept.radius, display)
    );
    if let Some(alone) = kept.alone {
        words.push_str(&format!(" Or all of it at {}: as near as the ± tells.", show_clock(alone)));
    }
    if kept.distance.is_none() {
        words.push_str(" Keep it 1/2 in, 13 mm, off the welds.");
    }
    words.push_str(&of_strip(kept.cut, kept.split.is_some(), display));
    words.push_str(&by_eye(kept.by_eye));
    words.push_str(if kept.checked {
        " Weld it with the shaft off the car."
    } else {
        " Weld it with the shaft off the car, and not before the check run is good."
    });
    words
}
