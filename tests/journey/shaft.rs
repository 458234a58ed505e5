//! The invented shaft of tests/handbook/shaft.py, as a mechanic may type it: the script's own numbers,
//! in inch fractions, millimetres, feet and decimal commas. Equal by definition: 25.4 mm to the inch,
//! 12 inches to the foot, 30° to the hour.

use crate::page::Page;

/// Fields of a stage by their ids, and what is typed into each.
pub type Fields = [(&'static str, &'static str)];

/// Old and wanted length, set point.
pub const MEASURE: &Fields = &[
    ("old-0", "57-5/16"),
    ("old-1", "57 9/32\""),
    ("old-2", "4' 9-5/16\""),
    ("wanted-0", "1409.7 mm"),
    ("wanted-1", "55-17/32"),
    ("wanted-2", "55,5"),
    ("taken-at", "22.225 mm"),
    ("set-point", "7/8"),
];

/// The slip and the axle's travel, reckoned; the seal.
pub const SLIP: &Fields = &[
    ("spline", "4"),
    ("bump-travel", "3"),
    ("droop-travel", "11,43 cm"),
    ("shaft-slope", "5"),
    ("bottomed", "1/2"),
    ("lip-depth", "6.35 mm"),
    ("barrel", "5-1/2"),
    ("groove-place", "1-1/8"),
    ("groove-width", "1/8"),
];

/// How gearbox, shaft and pinion lie.
pub const ANGLES: &Fields = &[
    ("gearbox-slope-0", "2.4"),
    ("gearbox-slope-1", "2,5"),
    ("gearbox-slope-2", "2.4°"),
    ("pinion-slope-0", "1.7"),
    ("pinion-slope-1", "1.6 deg"),
    ("pinion-slope-2", "1.6"),
    ("front-height", "628.65 mm"),
    ("rear-height", "1' 7-7/8\""),
    ("one-way", "2.5"),
    ("turned-round", "2.3"),
    ("pinion-arm", "241.3 mm"),
    ("bump-rise", "0.4"),
    ("droop-rise", "0.9"),
];

/// The cut.
pub const CUT: &Fields = &[
    ("weld-line", "53-7/8"),
    ("far-weld-line", "8,5725 cm"),
    ("kerf", "3/32"),
    ("root-gap", "1/16"),
    ("shrinkage", "1/32"),
    ("spigot", "31,75 mm"),
    ("shoulder", "3-7/16"),
    ("tube-diameter", "3"),
];

/// Levels across the yokes; the rear one's sign comes from its own key.
pub const PHASE: &Fields = &[("front-level-1-0", "0,4"), ("rear-level-1-0", "0.2")];

/// The same after welding.
pub const WELDED: &Fields = &[("front-level-2-0", "0.3"), ("rear-level-2-0", "0")];

/// Three turns of the dial, in lines of 0.001 in, each closed at its first mark again.
pub const TURNS: [[&str; 8]; 3] = [
    ["0", "5", "11", "15", "14", "9", "3", "-1"],
    ["0", "1", "3", "4", "4", "3", "1", "0"],
    ["0", "2", "4", "6", "6", "4", "2", "0"],
];

/// Two weights, and the yoke at the cut end.
pub const WEIGHTS: &Fields = &[
    ("weight-mass-0", "9"),
    ("weight-clock-0", "2:00"),
    ("weight-distance-0", "5-1/4"),
    ("weight-radius-0", "1-9/16"),
    ("weight-mass-1", "14,5 g"),
    ("weight-clock-1", "225°"),
    ("weight-distance-1", "4' 4\""),
    ("weight-radius-1", "39.6875 mm"),
    ("yoke-turned", "3"),
    ("shaft-mass", "18.5"),
];

/// The tube's wall and the speed; its diameter is known from the cut.
pub const CHECK: &Fields = &[
    ("tube-wall", "0,083"),
    ("top-speed", "3500"),
    ("gear-ratio-0", "3.4"),
    ("engine-torque", "200"),
    ("weld-leg", "1/8"),
];

impl Page {
    /// Goes to a stage by its station on the rail.
    pub fn stage(&self, slug: &str) {
        self.tap(&format!(".rail a[href$=\"/{slug}\"]"));
        self.at_stage(slug);
    }

    /// Waits until this stage is shown.
    pub fn at_stage(&self, slug: &str) {
        let shown = format!("!!document.querySelector('section.stage[data-stage={slug}]')");
        self.until(&format!("the stage {slug}"), &shown);
    }

    /// Types into fields of the stage that is shown.
    pub fn fill(&self, fields: &Fields) {
        for (id, text) in fields {
            self.write(id, text);
        }
    }

    /// Every field of the stage that is shown holds what was typed.
    pub fn holds(&self, fields: &Fields) {
        for (id, text) in fields {
            assert_eq!(self.value(id), *text, "{id}");
        }
    }

    /// Types a turn of the dial.
    pub fn fill_turn(&self, turn: usize) {
        for (station, text) in TURNS[turn].iter().enumerate() {
            self.write(&format!("station-{turn}-0-{station}"), text);
        }
        self.write(&format!("closing-{turn}-0"), "0");
    }
}
