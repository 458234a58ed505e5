//! How the dial is set up: in one line, and what each way of doing it can and cannot show.

use super::label::Worded;
use crate::job::{Job, MarkNames, Plunger, SeamBy, SetUp, TurnedHow};

/// The whole set-up in one line, for when its questions are folded away.
pub fn set_up_line(job: &Job) -> String {
    let asked = &job.truing;
    let plunger = match asked.plunger {
        Plunger::InIsPlus => "plunger in is plus",
        Plunger::InIsMinus => "plunger in is minus",
    };
    let seam = match asked.seam {
        SeamBy::Found => "seam looked for",
        SeamBy::Known => "seam left out",
        SeamBy::Counted => "seam counted",
    };
    let turned = match asked.turned {
        TurnedHow::ByMarks => "read by marks",
        TurnedHow::Clockwise => "turned clockwise",
        TurnedHow::Counterclockwise => "turned counter-clockwise",
    };
    let marks = match asked.marks {
        MarkNames::Clock => "marks by the clock",
        MarkNames::Degrees => "marks in degrees",
        MarkNames::Numbers => "marks by number",
    };
    [asked.set_up.word(), asked.dial.word(), plunger, marks, turned, seam, asked.limit.word()]
        .join(" · ")
}

/// What a set-up can show and what it cannot (handbook: the axis that each turns the shaft about).
pub const fn set_up_shows(set_up: SetUp) -> &'static str {
    match set_up {
        SetUp::Joints => {
            "Shows all of it as it will run: a bent tube, a kink at the weld, and a yoke bent or welded off."
        }
        SetUp::Gearbox => {
            "Shows the tube and the front yoke; a kink at a rear weld only where the dial stands behind that weld too. A bent rear yoke it cannot show: hold the tail by the tube, close to its weld."
        }
        SetUp::Vees => {
            "Shows how the tube runs between the vees: nothing at a vee itself, and no bent yoke. A tube that is oval lifts in the vees, so part of what is read is not an offset."
        }
        SetUp::Centres => {
            "Shows the tube against the two centres. Whether a yoke is bent, or a centre off its joint, it cannot show."
        }
    }
}

/// What to do so that a reading's place on the tube is known.
pub const fn turned_shows(turned: TurnedHow) -> &'static str {
    match turned {
        TurnedHow::ByMarks => {
            "Turn it either way, and read each mark as it comes to stand under the dial."
        }
        TurnedHow::Clockwise => {
            "Seen from the rear. The tube passes the dial the other way round: after 12 comes 11. Each reading is put where it belongs."
        }
        TurnedHow::Counterclockwise => {
            "Seen from the rear. The tube passes the dial clockwise: after 12 comes 1. Each reading is put where it belongs."
        }
    }
}
