//! A change of slope or turn in words: what to do, with what, what is left, and what speaks against it.

use super::amount::amount;
use crate::job::Job;
use crate::quantity::{show_acceleration, show_angle};
use crate::stage::{Against, Amount, Name, Reset};

/// The value and what to do of a change of this size.
pub(super) fn worded_reset(
    name: Name,
    size: &str,
    reset: &Reset,
    job: &Job,
) -> (String, Option<String>) {
    let value = match (reset.leave, name, reset.plus) {
        (true, ..) => "Leave it".to_owned(),
        (_, Name::GearboxMount, true) => format!("Tail down {size}"),
        (_, Name::GearboxMount, false) => format!("Tail up {size}"),
        (_, Name::PhaseForTwist, true) => format!("{size} clockwise"),
        (_, Name::PhaseForTwist, false) => format!("{size} counter-clockwise"),
        (_, _, true) => format!("Nose up {size}"),
        (_, _, false) => format!("Nose down {size}"),
    };
    let mut text = String::new();
    let to = show_angle(reset.to, 2);
    match name {
        // What is left as it is goes nowhere.
        _ if reset.leave => {}
        Name::PhaseForTwist => text.push_str(&format!(
            "Rear yoke turned against the front one to {to}, + clockwise seen from the rear. "
        )),
        _ => text.push_str(&format!("Until your instrument reads {to}, without load. ")),
    }
    if let Some(thick) = reset.thick.filter(|_| !reset.leave) {
        let thick = amount(Amount::PlainLength(thick), job.display.lengths());
        match (name, reset.plus) {
            (Name::GearboxMount, true) => text.push_str(&format!("Take {thick} out under the mount. ")),
            (Name::GearboxMount, false) => text.push_str(&format!("Shim the mount up by {thick}. ")),
            (_, up) => {
                let (on, under) = if up { ("rear", "front") } else { ("front", "rear") };
                text.push_str(&format!(
                    "Wedge {thick} thick, the thick end to the {on} where the spring lies on the axle, to the {under} where it hangs below. "
                ));
            }
        }
    }
    if name == Name::GearboxMount && !reset.leave {
        text.push_str("The front joint moves with it: measure its height again. ");
    }
    let [front, rear] = reset.joints.map(|joint| show_angle(joint, 2));
    let left = show_acceleration(reset.left);
    text.push_str(&format!("Leaves {left}; joints {front} and {rear}."));
    match reset.against {
        Some(Against::TooSharp { allowed }) => text.push_str(&format!(
            " Against it: a joint past the {} that top speed allows.",
            show_angle(allowed, 2)
        )),
        Some(Against::TooStraight { least }) => text.push_str(&format!(
            " Against it: a joint under {}, too straight for needle bearings.",
            show_angle(least, 2)
        )),
        Some(Against::Parallel { allowed }) => text
            .push_str(&format!(" Against it: parallel is for joints under {}.", show_angle(allowed, 0))),
        Some(Against::Shakes { allowed }) => {
            text.push_str(&format!(" Against it: still over {}.", show_acceleration(allowed)));
        }
        Some(Against::NoBetter) => text.push_str(" Against it: no better than it is now."),
        Some(Against::TooMuchForAWedge { most }) => text.push_str(&format!(
            " Against it: wedges are for {} at most; beyond, the pads are welded anew, and the pinion's bearing must still get oil.",
            show_angle(most, 0)
        )),
        None => {}
    }
    (value, Some(text))
}
