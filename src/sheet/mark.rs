//! The cut list in words: its lines, where each lies, what to do there, and in which order.

use crate::job::{CutAt, Job};
use crate::quantity::{Base, Length, LengthDisplay, show_length};
use crate::stage::cut::{Mark, MarkName};

/// The name of a line in the cut list.
pub const fn mark_title(name: MarkName) -> &'static str {
    match name {
        MarkName::FarWeld => "Far weld",
        MarkName::OldWeld => "Old weld line",
        MarkName::FirstCut => "First cut",
        MarkName::SawLine => "Saw in here",
        MarkName::TubeEnd => "New face of the tube",
        MarkName::SlotEnd => "Other side of the slot",
        MarkName::SpigotReach => "Spigot reaches to here",
        MarkName::NewWeld => "New weld",
        MarkName::NewJoint => "New joint centre",
        MarkName::OldJoint => "Old joint centre",
    }
}

/// Where a line lies from the nearer old weld, for a tape hooked on it.
pub fn mark_nearest(mark: &Mark, display: LengthDisplay) -> Option<String> {
    let (feature, out) = mark.nearest?;
    let way = if out.base() < 0.0 { "toward the far joint" } else { "away from the far joint" };
    let far = show_length(Length::from_base(out.base().abs()), display);
    Some(format!("{far} from the {}, {way}", mark_title(feature).to_ascii_lowercase()))
}

/// What to do at a line of the cut list; `longer`: the tube is replaced.
pub const fn mark_note(job: &Job, name: MarkName, longer: bool) -> &'static str {
    match name {
        MarkName::FarWeld if longer => "Open this weld too: the new tube is one piece.",
        MarkName::FarWeld => "Stays as it is.",
        MarkName::OldWeld if matches!(job.cut.at, CutAt::ClearOfIt) && !longer => {
            "Leave it; clean the stub off the yoke afterwards."
        }
        MarkName::OldWeld => "Saw through the wall only, on the tube's side of the line.",
        MarkName::FirstCut => "Right through, on the yoke's side of this line.",
        MarkName::SawLine => "What stands out past the face is filed off.",
        MarkName::TubeEnd => "Scribe right round. This line must stay: saw beside it.",
        MarkName::SlotEnd => "The kerf ends here, on the scrap side.",
        MarkName::SpigotReach => "Clear the inside seam up to here.",
        MarkName::NewWeld => "Tack in quarters, true, then weld opposite quarters in turn.",
        MarkName::NewJoint => "Where the joint's centre must come out when all is welded.",
        MarkName::OldJoint => "Where it was.",
    }
}

/// The order of the work at the cut; the list itself is in the order of the tape.
pub const fn order_of_work(job: &Job, longer: bool) -> &'static str {
    match job.cut.at {
        _ if longer => {
            "Order of work: scribe every line and the witness mark; open both welds and draw the yokes out; saw the new tube, both ends square; fit, true, tack, weld."
        }
        CutAt::OldWeld => {
            "Order of work: scribe every line and the witness mark; open the old weld and draw the yoke out; saw beside the new face; file it square; fit, true, tack, weld."
        }
        CutAt::ClearOfIt => {
            "Order of work: scribe every line and the witness mark; make the first cut; saw beside the new face; file it square; clean the stub and the old weld off the yoke; fit, true, tack, weld."
        }
    }
}
