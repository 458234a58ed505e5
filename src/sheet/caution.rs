//! What can hurt someone, short and plain, on the stage where it bites.

use crate::stage::Caution;

/// The words of a caution: what to do, then why.
pub const fn caution(which: Caution) -> &'static str {
    match which {
        Caution::LoadedSuspension => {
            "Measure with the suspension loaded: rated stands under the axle, ramps, or four posts, on level floor, never on a jack alone. On frame stands the axle hangs, and every length is wrong. Check wheel-arch height against the ground first."
        }
        Caution::ChockBothWays => {
            "Chock the wheels both ways before the first bolt. With the shaft out, Park and the gears hold nothing."
        }
        Caution::EstimateOnly => {
            "An estimate, not an approval: a straight tube, joints that bend freely, a sound weld, and every figure as you gave it. A driveline shop, and your local vehicle rules, have the last word; in competition a loop round the shaft may be required."
        }
        Caution::SupportTheShaft => {
            "Hold the shaft's weight up, keep the needle cups from falling, catch the gearbox oil. No grinding near fuel or brake lines."
        }
        Caution::CuttingThinTube => {
            "Eyes, face and ears covered, nothing loose near a turning wheel, no gloves that it can catch; clamp the tube without crushing it. In the old weld cut only as deep as the tube's wall: the yoke's spigot is under it."
        }
        Caution::ScrapTube => {
            "A tube that is dented, cracked, rust-pitted or spliced before is scrap. Do not shorten it."
        }
        Caution::MarkFirst => {
            "The witness mark, scribed across both yokes and the tube before the first cut, is 12 o'clock for everything here."
        }
        Caution::OutOfPhaseOnPurpose => {
            "Some two-piece and steering-axle shafts are out of phase on purpose. If the marks before the cut say so, copy the original: measure it before the cut, and choose that here."
        }
        Caution::TurnByHand => "Turn the shaft by hand only while a dial is on it.",
        Caution::BeforeWelding => {
            "Weld with the shaft off the car or the joints out; earth clamp on the tube beside the weld; battery disconnected. Bare metal, no paint, plating or galvanising, fumes drawn off; no solvent in the tube, never a chlorinated one. A closed tube needs a vent until the last pass. Welded by a person qualified to weld, or not at all."
        }
        Caution::HeatSparingly => {
            "Heat only the high side, in small spots, cooled and read again. Never on aluminium or high-strength tube, nor near joints, seals or the seam."
        }
        Caution::NotABalancingMachine => {
            "This puts weights back where they did their work. It cannot know what the cut ring weighed on each side, nor what the yoke's own end carried. If it shakes, a driveline shop balances it."
        }
        Caution::NobodyInThePlane => {
            "Gloves off near anything that turns, and nobody in the plane of a weight while the shaft runs."
        }
        Caution::AxleLoaded => {
            "Axle loaded: rated stands under its tubes, on level floor, so that it stands as it does on the road; never on a jack alone, never the frame on stands. Hung down, the joints work at angles they never have."
        }
        Caution::BothWheelsOn => {
            "Both wheels on, alike in tyre and pressure, nuts tight, clear of the floor and of all else. Front wheels that the engine drives too: not this way at all."
        }
        Caution::ChockWhatStands => {
            "Chock the wheels that stand, before and behind. Parking brake off if it acts on those that turn."
        }
        Caution::SpeedCap => {
            "At most 55 mph (88 km/h) on the speedometer. And never more than half of what a wheel and its tyre may do: should the other wheel stop, this one turns twice as fast."
        }
        Caution::ControlsOff => {
            "Stability and traction control off: with two wheels standing still they brake by themselves."
        }
        Caution::FumesOut => "Exhaust led outside, doors open. Fumes kill without a smell.",
        Caution::StopSignal => {
            "Two people. One at the pedals; the other where both can see each other, beside the front of the vehicle. Agree a sign for stop and try it before. Nobody under the vehicle, before it or behind it, nor in the plane of a wheel, a clip or a weight."
        }
        Caution::ClipsLookedAt => {
            "Worm-drive clips tight, heads clear of floor, pipes and lines: turn the shaft once by hand. Look at each clip after every run. They are for testing, not for keeps: a weight that stays is welded on, with the shaft off the car."
        }
        Caution::ShortRuns => {
            "Short runs, and time to cool in between: joints get hot without the wind of the road. The first one only to warm them; cold grease shakes too."
        }
    }
}
