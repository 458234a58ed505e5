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
            "An estimate, not an approval: thin yokes, stiff supports, straight tube. A driveline shop, and your local vehicle rules, have the last word; in competition a loop round the shaft may be required."
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
    }
}
