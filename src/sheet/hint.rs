//! What to know while filling in a field: usual values with where they come from.

use super::balance::balance_hint;
use crate::job::Entry;
use crate::quantity::Base;
use crate::stage::Amount;

/// What to know while filling in a field; empty where the label says it all.
pub const fn hint(entry: Entry) -> &'static str {
    match entry {
        Entry::SetPoint => {
            "Usual: 3/4 to 1 in, 19 to 25 mm (common practice, no source); industrial: a third of the slip's travel (published, cardan-shaft maker's handbook)."
        }
        Entry::SplineLength => "The shorter of yoke's and output shaft's.",
        Entry::LeastEngaged => {
            "Usual: one spline diameter; 1-1/2 in, 38 mm, on small cars (common practice, no source)."
        }
        Entry::BumpRoom => "Usual: 1/4 in, 6.5 mm (common practice, no source).",
        Entry::GrooveMargin => "Usual: 1/16 in, 1.6 mm (common practice, no source).",
        Entry::AtBump => "Seal face or flange to axle yoke, the same two marks all three times.",
        Entry::ShaftSlope => "+ falling toward the rear.",
        Entry::LinkRise => "At ride; − when it is below.",
        Entry::BarrelLength => "Ground surface that the seal runs on.",
        Entry::Shoulder => "Proves the weld line; empty: not proved.",
        Entry::ClearBy => "Far enough to miss the spigot.",
        Entry::Trim => "Saw this far outside the line, then file to it.",
        Entry::SpigotDiameter => "By calliper; shows whether it sits tight in the tube.",
        Entry::SeamClock => "Empty: a seamless tube.",
        Entry::TubeDiameter => "By calliper.",
        Entry::TopSpeed => {
            "Your own figure. Empty: by engine and gears, or by axle, tyre and road speed, at Check. Overdrive makes the shaft faster than the engine."
        }
        Entry::WeldLine => "Where the tube meets the yoke's shoulder.",
        Entry::FarWeldLine => {
            "Needed when the shaft gets longer; otherwise it proves that enough tube is left."
        }
        Entry::Kerf => "Cut a scrap of tube and measure the slot. It always goes on the scrap side.",
        Entry::RootGap => "Usual: 0, the tube against the shoulder (common practice, no source).",
        Entry::Shrinkage => {
            "Usual: 0 to 1/32 in against a shoulder, so 1/64 in, 0.4 mm (common practice, no source); about 0.8 mm a fillet (published, TWI)."
        }
        Entry::Spigot => "How far it reaches into the tube.",
        Entry::Lift(_, 0) | Entry::FrontLift(_, 0) => "Feelers or shims under the ear that stands off.",
        Entry::FrontLevel(_, 0) | Entry::RearLevel(_, 0) => {
            "Across the ears, seen from the rear; + when the right-hand ear is low."
        }
        Entry::Span | Entry::FrontSpan => "Between the two places where the ears would touch the bench.",
        Entry::LineArc(_, 0) => "Round the tube, + clockwise seen from the rear.",
        Entry::OwnTarget => "+ clockwise seen from the rear.",
        Entry::GearboxSlope(0) => "On a machined face or along the output; + falling toward the rear.",
        Entry::PinionSlope(0) => {
            "+ falling toward the rear, which is nose up. On the flange's face: from plumb, + when its top leans rearward."
        }
        Entry::ShaftSlopeRead(0) => "+ falling toward the rear.",
        Entry::FrontHeight => "On level floor, vehicle loaded as driven.",
        Entry::TurnedRound => {
            "Still + falling toward the rear. Half the difference is the instrument's own error, and is taken off every slope."
        }
        Entry::SideOffset => "+ to the right, looking forward.",
        Entry::GearboxPlan | Entry::ShaftPlan | Entry::PinionPlan => {
            "+ when its rear end lies further to the vehicle's right, looking forward."
        }
        Entry::PowerRise => "Leaf springs: 1 to 2° (common practice, no source); links: near 0.",
        Entry::PinionArm => {
            "The axle turns about its centre: a nose that rises lifts the joint with it."
        }
        Entry::JointMost => "By their maker. Empty: past 15° you are told to look.",
        Entry::JointOverhang => "Empty: the joint is taken to sit at the mount.",
        Entry::BumpRise => "0 where the axle goes up without turning.",
        Entry::TorsionalLimit => {
            "400 rad/s² (published two-joint table of the AE-7 kind); heavy duty 300 (from memory)."
        }
        Entry::InertiaLimit => "1000 rad/s²; for quiet running 500 (both from memory).",
        Entry::LeastAngle => {
            "1° (published, driveshaft installation manual J3311-1); 1/2° (published, vehicle service manual)."
        }
        Entry::RoadSpeed => "Only to draw the chart against road speed.",
        Entry::SpringPad => "To give a wedge's thickness as well as its angle.",
        Entry::MountArm => "To give a shim's height under the gearbox's rear mount.",
        Entry::PhaseLimit => "1° (published, US Army TM 5-4210-230-14&P-1).",
        Entry::StationAt(_, _, 0) => {
            "Clockwise from the witness mark, seen from the rear: 4:30 or 135°."
        }
        Entry::Closing(..) => "Closes the turn: shows whether the dial moved.",
        Entry::Backlash => {
            "Push the plunger past a mark and let it back: what the two ways differ by. Empty: none."
        }
        Entry::PlaceAlong(0) => {
            "Leave it empty if you read one place only: it tells how far the joint opens, and with more places what bends the shaft."
        }
        Entry::WeightClock(_) => "7:30, or 225°.",
        Entry::WeightRadius(0) => {
            "Shaft's axis to the weight's centre of mass, not to its outer face: half the tube's diameter and half the thickness; a long strip has it further in, choose its size then. Empty: by the tube and the thickness."
        }
        Entry::WeightLength(0) => "Flat, or along its middle.",
        Entry::EarClock => "The other yoke's follow by Phase. Empty: keep clear of the ears by eye.",
        Entry::FrontPlane | Entry::RearPlane => {
            "Where the weight's middle goes on the new shaft. Empty: 1 in, 25 mm, inside the weld."
        }
        Entry::StripThickness => "To be told how long to cut it.",
        Entry::YokeTurned => "+ clockwise seen from the rear. Usual: 0, back in its own marks.",
        Entry::ShaftMass => {
            "As it will be, after the cut, by scale. It sets the grade, what the yokes weigh and the heaviest trial."
        }
        _ => balance_hint(entry),
    }
}

/// What the sign of a slope means, so that one that was lost shows at once; empty where a sign says nothing.
pub fn which_way(entry: Entry, value: Amount) -> &'static str {
    let Amount::Angle(angle) = value else { return "" };
    let (above, below) = match entry {
        Entry::GearboxSlope(_) => (", tail down", ", tail up"),
        Entry::PinionSlope(_) => (", nose up", ", nose down"),
        Entry::ShaftSlopeRead(_) => (", falling toward the rear", ", rising toward the rear"),
        _ => ("", ""),
    };
    if angle.base() > 0.0 {
        above
    } else if angle.base() < 0.0 {
        below
    } else {
        ""
    }
}
