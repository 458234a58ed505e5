//! Why a verdict is what it is, in one plain sentence or two.

use super::amount::amount;
use super::balance::run_reason;
use super::check::fit_reason;
use super::weights::weight_reason;
use crate::quantity::{
    Angle, Base, Length, LengthDisplay, inches, millimetres, show_acceleration, show_angle, show_clock,
    show_length, show_number,
};
use crate::stage::Reason;

/// The words of a reason.
pub(super) fn reason_words(reason: Reason, display: LengthDisplay) -> String {
    let long = |length| show_length(length, display);
    let fine = |length| amount(crate::stage::Amount::FineLength(length), display);
    let at_least = |length| amount(crate::stage::Amount::PlainLength(no_less(length, display)), display);
    let work = |unbalance| amount(crate::stage::Amount::Unbalance(unbalance), display);
    match reason {
        Reason::DifferenceWithinDoubt => {
            "The difference is inside its own ±: measure again before you cut.".to_owned()
        }
        Reason::OneReading => {
            "One reading only, of the old or the wanted length: measure again before you cut.".to_owned()
        }
        Reason::ReadAtSetPoint => {
            "Holds for the set point there was when it was read: say how far the slip was drawn out then, and a set point changed since is reckoned in.".to_owned()
        }
        Reason::LooseLength { allowed } => format!(
            "Not known to the ± {} that is wanted: take more readings, or a finer tape.",
            long(allowed)
        ),
        Reason::Lengthened => {
            "The shaft gets longer: new tube in one piece, welded at both ends. Whirl speed falls; phase, run-out at both welds and balance are to be proved again. Never judged good here.".to_owned()
        }
        Reason::ReadingApart { by, others, .. } => format!(
            "One reading stands {} from the others, which agree within {}: take it again.",
            long(Length::from_base(by.base().abs())),
            long(others)
        ),
        Reason::TwoReadingsDiffer { by } => {
            format!("Two readings differ by {}: take a third to see which to believe.", long(by))
        }
        Reason::AngleApart { by, others, .. } => format!(
            "One reading stands {} from the others, which agree within {}: take it again.",
            show_angle(Angle::from_base(by.base().abs()), 2),
            show_angle(others, 2)
        ),
        Reason::TwoAnglesDiffer { by } => {
            format!("Two readings differ by {}: take a third to see which to believe.", show_angle(by, 2))
        }
        Reason::RoutesDisagree { by, doubt } => format!(
            "Joint to joint and from the ends differ by {}, more than their ± {} together: one of the numbers is wrong, or the slip stood elsewhere. Measure both again.",
            long(by),
            amount(crate::stage::Amount::PlainLength(doubt), display)
        ),
        Reason::TooCloseToBump { least } => {
            format!("Less than {} of room left at bump: it can bottom and break a gearbox. Draw it out further.", long(least))
        }
        Reason::NearBump { least } => {
            format!("Within its ± of the {} of room wanted: measure lengths and travel again.", long(least))
        }
        Reason::TooLittleSpline { least } => format!(
            "Less than {} engaged at full droop: it can come apart. Push it in further, or fit a longer slip.",
            long(least)
        ),
        Reason::NearLeastSpline { least } => {
            format!("Within its ± of the {} engaged that is wanted: measure lengths and travel again.", long(least))
        }
        Reason::LipOffBarrel => {
            "At droop the seal can run off the barrel's end: the oil comes out. Push it in further.".to_owned()
        }
        Reason::LipInGroove { out, inward } => {
            let mut text = "The lip would run in the old groove or too near it, and leak.".to_owned();
            if let Some(out) = out {
                text.push_str(&format!(" Draw the slip out at least {} further to miss it.", at_least(out)));
            }
            if let Some(inward) = inward {
                text.push_str(&format!(" Push it in at least {} further to miss it.", at_least(inward)));
            }
            if out.is_some() || inward.is_some() {
                text.push_str("");
            } else {
                text.push_str(" Neither way leaves room and spline enough: sleeve the barrel or renew the yoke.");
            }
            text
        }
        Reason::NearGroove => "Off the groove, but within its ±: look for a leak after the first drive.".to_owned(),
        Reason::TravelUnfit => {
            "These distances do not go together: check the travel, and a link's length against its rise.".to_owned()
        }
        Reason::WeldLineDisagrees { by } => format!(
            "Old length less shoulder puts it {} elsewhere: measure both again, each from the right joint.",
            long(by)
        ),
        Reason::CutTooFarIn { removed } => format!(
            "The first cut must stay outside the new face: less than {} inside the old weld.",
            long(removed)
        ),
        Reason::CutOnSpigot { least } => format!(
            "The first cut would go through the spigot: at least {} inside the old weld.",
            long(no_less(least, display))
        ),
        Reason::CutNearSpigot { least } => format!(
            "Misses the spigot by less than the tape's ±: better {} inside the old weld, or more.",
            long(no_less(least, display))
        ),
        Reason::FirstCutNotProved => {
            "Not judged, and no cut list yet: the first cut's place, the kerf and the spigot's depth are all needed.".to_owned()
        }
        Reason::WeldLineNotProved => {
            "The weld line is not proved: measure the yoke from its shoulder to its joint centre too.".to_owned()
        }
        Reason::WeldLineFar { beyond } => format!(
            "That leaves a yoke of {} beyond the weld line: was it measured from the other joint?",
            long(beyond)
        ),
        Reason::OtherFace => {
            "A new tube has two faces: the far one must be as square, and is not read here.".to_owned()
        }
        Reason::OpenTheWeld => {
            "Spigot and slot together are longer than what comes out: open the old weld instead.".to_owned()
        }
        Reason::SpigotLoose => "Much too loose: is this the right tube for this yoke?".to_owned(),
        Reason::SpigotTight => "Larger than the bore by more than its ±: measure both again.".to_owned(),
        Reason::FaceOverLimit { allowed } => {
            format!("Over the {} allowed: file the high side and read again.", fine(allowed))
        }
        Reason::FaceNearLimit { allowed } => {
            format!("Within its ± of the {} allowed: read it by feeler under a square, at all eight places.", fine(allowed))
        }
        Reason::FaceLimitUnknown => {
            "Not judged: the allowed face error is not known yet.".to_owned()
        }
        Reason::FaceNotSeen => "Too few or too rough readings to say: read all eight places, or finer.".to_owned(),
        Reason::OverShake { allowed } => {
            format!("Over the {} allowed: see what to change.", show_acceleration(allowed))
        }
        Reason::OverShakeThere { allowed } => format!(
            "Over the {} allowed, for as long as it stands so. What can be changed is reckoned for driving under power.",
            show_acceleration(allowed)
        ),
        Reason::JointNearLeast { least } => {
            format!("Within its ± of the {} that needles want: read the slopes again.", show_angle(least, 2))
        }
        Reason::JointOverMaker { allowed } => format!(
            "A joint stands past the {} that it allows: it can bind and break. Limit the droop, or change the layout.",
            show_angle(allowed, 1)
        ),
        Reason::JointFar { angle } => format!(
            "A joint stands at {}: turn the shaft by hand there and look that no yoke touches, or type in what its maker allows.",
            show_angle(angle, 1)
        ),
        Reason::ParallelOver { allowed } => format!(
            "Gearbox and pinion parallel with both joints at {} or more: that layout is for less. Lean them to each other, or bring the shaft flatter.",
            show_angle(allowed, 0)
        ),
        Reason::NearShake { allowed } => format!(
            "Within its ± of the {} allowed: measure again what makes the most of the ±.",
            show_acceleration(allowed)
        ),
        Reason::JointOverMost { allowed } => format!(
            "Over {}: at top speed it shakes the shaft by more than is allowed. Bring the two shafts nearer in line, or keep the speed down.",
            show_angle(allowed, 2)
        ),
        Reason::JointNearMost { allowed } => {
            format!("Within its ± of the {} that top speed allows.", show_angle(allowed, 2))
        }
        Reason::JointTooStraight { least } => format!(
            "Under {}: needles that do not roll wear dents into the cross. Give it a little more angle.",
            show_angle(least, 2)
        ),
        Reason::JointTooSharp { rear, angle } => format!(
            "The {} joint would stand at {}: no such joint works at 45° or more. Check the slopes and their signs.",
            if rear { "rear" } else { "front" },
            show_angle(angle, 1)
        ),
        Reason::OutOfReach => {
            "The shaft is too short for these heights or this offset: check them against the new length.".to_owned()
        }
        Reason::NoRoomToReset => "No slope within 15° of the present one does it.".to_owned(),
        Reason::OverWhirlShare { allowed } => format!(
            "Over the allowed {}: too fast for this length. Larger tube, or a slower shaft.",
            show_number(allowed, 2)
        ),
        Reason::NearWhirlShare { allowed } => {
            format!("Within its ± of the allowed {}.", show_number(allowed, 2))
        }
        Reason::MoreThanTheTube => {
            "More than the tube there is: check the lengths and the weld lines.".to_owned()
        }
        Reason::LessThanAKerf { slots } => format!(
            "The saw's slots take {}: no ring is left between them, so do not saw twice. File or grind the face back by this much.",
            long(slots)
        ),
        Reason::SlotTakesTooMuch { kerf } => format!(
            "One slot of {} takes more than comes out: do not saw. Grind the old weld away and file the tube back to its line.",
            long(kerf)
        ),
        Reason::WeldDrawsMore => {
            "The new weld will draw the shaft shorter by more than comes off: no second cut. Leave a larger root gap.".to_owned()
        }
        Reason::FaceOverSpigot => {
            "The new face lies over the yoke's spigot: open the old weld and draw the yoke out first, then cut to length.".to_owned()
        }
        Reason::TravelNotChecked => "Not proven until the axle's travel is known.".to_owned(),
        Reason::PartRead => {
            "Not judged: some marks have no reading yet, or a reading has no place.".to_owned()
        }
        Reason::ThreeStations { better } => {
            format!("Three marks fit any circle and say nothing of where: take {better} or more.")
        }
        Reason::FewStations { better } => format!(
            "Enough to tap by, not to weld by: so few marks cannot tell an offset from an oval tube or a seam. Take {better} or more before welding."
        ),
        Reason::DentOrKink { most } => format!(
            "More than {} of it is no offset: a slip of the hand, a dent, a kink or a weld bead. Read it again, then look; a dented tube is scrap.",
            fine(most)
        ),
        Reason::SpigotWontGoIn => "What is left of the tube is too short for the spigots.".to_owned(),
        Reason::OutOfPhase { allowed } => {
            format!("Over the limit of {}: turn the yoke before it is tacked.", show_angle(allowed, 2))
        }
        Reason::PhaseWithinDoubt { allowed } => {
            format!("Within its ± of the limit of {}: turn it, or read finer.", show_angle(allowed, 2))
        }
        Reason::WeldedOutOfPhase { allowed } => format!(
            "Over the limit of {}, and welded: cut it off and start again, or live with it knowingly.",
            show_angle(allowed, 2)
        ),
        Reason::WeldedNearLimit { allowed } => {
            format!("Within its ± of the limit of {}: read again, or finer.", show_angle(allowed, 2))
        }
        Reason::PhaseNotWelded => "Welding can turn the yokes: measure again after welding.".to_owned(),
        Reason::QuarterTurn => {
            "The yokes look a quarter turn out: check that both were read the same way. If it is on purpose, choose it as the turn wanted.".to_owned()
        }
        Reason::OffsetOverLimit { limit, shows } => format!(
            "It swings the dial by {}, over the limit of {}: true it.",
            fine(shows),
            fine(limit)
        ),
        Reason::WorseAt { place } => {
            format!("Place {} along the tube is worse: look there first.", place + 1)
        }
        Reason::WeldedOffset { limit } => format!(
            "The offset alone is over the limit of {}, and welded.",
            fine(limit)
        ),
        Reason::HeatDoesNoMore => {
            "The last two passes of heat gained nothing: stop heating. Cut the weld off and start again, or leave it to a driveline shop.".to_owned()
        }
        Reason::CutItOff { times } => format!(
            "Over {} times the limit, and welded: too far for heat. Cut the weld off and start again.",
            show_number(times, 0)
        ),
        Reason::Rough => {
            "Too much for a dial's scatter: a slip of the hand, the seam or a dent. Read the turn again; at 12 marks or more one that stands out is found.".to_owned()
        }
        Reason::HighBelowLow => {
            "The highest place reads under the lowest, as this dial is said to count: are the two swapped, or is its way of counting chosen wrong?".to_owned()
        }
        Reason::NotOpposite { beside } => format!(
            "The lowest place is {} beside the one opposite the highest: no offset alone does that. The tube is oval or dented there: read it at 8 marks.",
            show_angle(Angle::from_base(beside.base().abs()), 0)
        ),
        Reason::TooFewPlaces { got, needed } => format!(
            "Read at {got} {} along the tube: {needed} or more are needed to tell a kink from a bow or a bent yoke. Add a place.",
            if got == 1 { "place" } else { "places" }
        ),
        Reason::SamePlaceAlong { z } => format!(
            "Two places stand at {}, or too near it to tell apart: correct one.",
            long(z)
        ),
        Reason::PlaceOffTheShaft { z } => format!(
            "The place at {} lies off the shaft: check its distance, and from which joint it was measured.",
            long(z)
        ),
        Reason::VeesOrWeldOff => {
            "The vee blocks must stand apart on the shaft, the front one in front, and the new weld between the joints: check their distances.".to_owned()
        }
        Reason::SetUpHides => {
            "Inside the limit, as far as this set-up shows it: a bent yoke, and what lies at its supports, it does not. Turn the shaft once on its own joints.".to_owned()
        }
        Reason::NothingToTell => {
            "These places cannot tell anything in this set-up: add one farther from the others.".to_owned()
        }
        Reason::OffsetNearLimit { limit } => {
            format!("Within its ± of the limit of {}: true it further, or read more marks.", fine(limit))
        }
        Reason::TotalOverLimit { limit } => format!(
            "Over the limit of {}. Look at the offset: an oval tube reads high and runs true.",
            fine(limit)
        ),
        Reason::OffsetNotSeen => {
            "Too few or too rough readings to say: read the turn again, at 8 marks or more.".to_owned()
        }
        Reason::DialDrifted { by } => format!(
            "The dial came back {} away, more than one line: something moved. Read the turn again.",
            fine(by)
        ),
        Reason::TooFewStations { got, needed } => {
            format!("Readings that count: {got}. At least {needed} are needed, better 8: read more marks, or set fewer aside.")
        }
        Reason::SamePlace { at } => {
            format!("Two readings stand at {}: correct one of the places.", show_clock(at))
        }
        Reason::OneSided => {
            "The marks lie too close together to tell an offset: read some on the other side of the tube.".to_owned()
        }
        Reason::OverGrade { permitted } => {
            format!("Over {}: a driveline shop should balance it.", work(permitted))
        }
        Reason::NearGrade { permitted } => format!("Within its ± of {}.", work(permitted)),
        Reason::GradeUnknown => {
            "To judge it: the mass of the whole shaft here, top speed and tube at Check, weld line at Cut.".to_owned()
        }
        Reason::OnTheWeld { keep } => {
            format!("Too near a weld: keep {} off it, on the same clock position.", long(keep))
        }
        Reason::OffTheShaft => "It would lie off the shaft: check its distance.".to_owned(),
        Reason::Weight(reason) => weight_reason(reason, display),
        Reason::WrongField => "Not judged: an entry that this is checked by is marked wrong.".to_owned(),
        Reason::NotWelded => {
            "Inside the limit so far. Welding moves the tube a few thousandths: judged by a turn taken after it.".to_owned()
        }
        Reason::OnTheCar(reason) => run_reason(reason),
        Reason::Fit(reason) => fit_reason(reason, display),
        Reason::NotComputable => {
            "These numbers do not go together: check the fields above.".to_owned()
        }
    }
}

/// A length that is said with "at least": rounded up in its last digit, or what is done as told falls
/// short by it. A hair under half a digit, so that what is even stays as it is.
fn no_less(length: Length, display: LengthDisplay) -> Length {
    length
        + match display {
            LengthDisplay::Millimetre => millimetres(0.005 - 1e-7),
            _ => inches(0.000_05 - 1e-8),
        }
}
