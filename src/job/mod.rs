//! The record of a job: what was measured, as typed. No sums here: what follows from it is found
//! anew by the stages at every change.

mod choice;
mod disk;
mod entry;
mod sample;
mod typed;

pub use choice::{
    Choice, Dial, Display, Division, End, LevelDivision, Material, PassKind, PhaseMethod, RunOutLimit,
    Side, Stations, WhirlShare, YokeAt,
};
pub use disk::{NotAJob, from_text, to_text};
pub use entry::Entry;
pub use sample::sample;
use serde::{Deserialize, Serialize};
pub use typed::Typed;

/// Most repeat readings of one length.
pub const MOST_READINGS: usize = 12;
/// Most turns of the dial kept in one job.
pub const MOST_PASSES: usize = 20;
/// Most stations in one turn.
pub const MOST_STATIONS: usize = 36;
/// Most weights logged.
pub const MOST_WEIGHTS: usize = 24;
/// Longest name of a job, in characters.
pub const LONGEST_NAME: usize = 80;

/// One shaft, from first measurement to the weights.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Job {
    /// What the mechanic calls it.
    pub name: String,
    /// How lengths are shown, and the unit of a bare number typed from now on.
    pub display: Display,
    /// The tube.
    pub tube: TubeForm,
    /// Old and wanted length.
    pub measure: MeasureForm,
    /// Speed.
    pub check: CheckForm,
    /// The cut.
    pub cut: CutForm,
    /// Phase of the yokes.
    pub phase: PhaseForm,
    /// Dial readings.
    pub truing: TruingForm,
    /// Balance weights.
    pub weights: WeightsForm,
}

/// The tube, asked once and used by several stages.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct TubeForm {
    /// Outer diameter.
    pub diameter: Typed,
    /// Wall.
    pub wall: Typed,
    /// Material.
    pub material: Material,
}

/// Old and wanted length between joint centres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct MeasureForm {
    /// Readings of the old shaft, joint centre to joint centre.
    pub old: Vec<Typed>,
    /// Readings of the distance the new shaft must bridge.
    pub wanted: Vec<Typed>,
    /// Lines of the tape or rule.
    pub division: Division,
    /// Where the slip yoke stood while the wanted distance was taken.
    pub yoke_at: YokeAt,
    /// How far the slip yoke is drawn out from bottomed at ride height.
    pub set_point: Typed,
}

/// Speed of the shaft.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CheckForm {
    /// Top speed of the shaft.
    pub top_speed: Typed,
    /// Share of the whirl speed that may be used.
    pub whirl_share: WhirlShare,
}

/// The cut.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CutForm {
    /// The end that is cut; the joint at the other end is the far datum.
    pub end: End,
    /// Old weld line at the cut end, from the far datum.
    pub weld_line: Typed,
    /// Weld line at the far end, from the far datum.
    pub far_weld_line: Typed,
    /// Width of the slot the wheel or blade leaves.
    pub kerf: Typed,
    /// Gap left between tube and shoulder at the new weld.
    pub root_gap: Typed,
    /// How much the new weld will draw the shaft shorter.
    pub shrinkage: Typed,
    /// Length of the yoke's spigot inside the tube.
    pub spigot: Typed,
}

/// Phase of the yokes.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PhaseForm {
    /// How it was measured.
    pub method: PhaseMethod,
    /// Lift under one ear of the rear yoke, the front yoke's cups flat on the bench.
    pub lift: Typed,
    /// Span between the ears.
    pub span: Typed,
    /// The ear with the gap under it, seen from the rear.
    pub lifted: Side,
    /// Level across the front yoke's ears.
    pub front_level: Typed,
    /// Level across the rear yoke's ears.
    pub rear_level: Typed,
    /// Lines of the level.
    pub level_division: LevelDivision,
    /// Most turn allowed.
    pub limit: Typed,
}

/// Dial readings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct TruingForm {
    /// The dial.
    pub dial: Dial,
    /// The limit chosen for the total reading.
    pub limit: RunOutLimit,
    /// The mechanic's own limit.
    pub own_limit: Typed,
    /// Turns taken, oldest first.
    pub passes: Vec<Pass>,
}

/// One turn of the dial.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pass {
    /// When in the job it was taken.
    pub kind: PassKind,
    /// Where its stations are.
    pub stations: Stations,
    /// Places of free stations, clockwise from the witness mark seen from the rear.
    pub at: Vec<Typed>,
    /// Readings, one a station.
    pub readings: Vec<Typed>,
    /// The first station read again at the end of the turn.
    pub closing: Typed,
}

/// Balance weights.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct WeightsForm {
    /// Weights that came off.
    pub rows: Vec<WeightRow>,
    /// How far the yoke at the cut end was turned against its own witness mark, clockwise from the rear.
    pub yoke_turned: Typed,
    /// Mass of the whole shaft.
    pub shaft_mass: Typed,
}

/// One weight that came off.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct WeightRow {
    /// Mass.
    pub mass: Typed,
    /// Place on the clock.
    pub clock: Typed,
    /// Distance from the far datum.
    pub distance: Typed,
    /// Distance of its middle from the shaft's axis.
    pub radius: Typed,
}

impl Pass {
    /// An empty turn.
    pub fn new(kind: PassKind, stations: Stations) -> Self {
        let count = stations.fixed_count().unwrap_or(FREE_STATIONS);
        Pass {
            kind,
            stations,
            at: vec![Typed::default(); count],
            readings: vec![Typed::default(); count],
            closing: Typed::default(),
        }
    }

    /// How many stations it shows.
    pub fn count(&self) -> usize {
        self.stations.fixed_count().unwrap_or(self.readings.len())
    }

    /// Takes other stations, keeping every reading that was typed.
    pub fn set_stations(&mut self, stations: Stations) {
        self.stations = stations;
        let count = stations.fixed_count().unwrap_or(FREE_STATIONS).max(self.readings.len());
        self.readings.resize_with(count, Typed::default);
        self.at.resize_with(count, Typed::default);
    }

    /// Shows one more free station.
    pub fn add_station(&mut self) {
        if self.readings.len() < MOST_STATIONS {
            self.readings.push(Typed::default());
            self.at.resize_with(self.readings.len(), Typed::default);
        }
    }
}

/// Free stations that a new turn starts with.
const FREE_STATIONS: usize = 6;

impl Default for Pass {
    fn default() -> Self {
        Pass::new(PassKind::AsFitted, Stations::Eight)
    }
}

impl Default for MeasureForm {
    fn default() -> Self {
        // Three empty places ask for three readings without a word.
        MeasureForm {
            old: vec![Typed::default(); 3],
            wanted: vec![Typed::default(); 3],
            division: Division::default(),
            yoke_at: YokeAt::default(),
            set_point: Typed::default(),
        }
    }
}

impl Default for TruingForm {
    fn default() -> Self {
        TruingForm {
            dial: Dial::default(),
            limit: RunOutLimit::default(),
            own_limit: Typed::default(),
            passes: vec![Pass::default()],
        }
    }
}

impl Default for Job {
    fn default() -> Self {
        Job::new(Display::default())
    }
}

impl Job {
    /// An empty job: nothing measured, and the usual values filled in where the trade has one, so
    /// that they are seen and can be changed.
    pub fn new(display: Display) -> Self {
        let mut job = Job {
            name: String::new(),
            display,
            tube: TubeForm::default(),
            measure: MeasureForm::default(),
            check: CheckForm::default(),
            cut: CutForm::default(),
            phase: PhaseForm::default(),
            truing: TruingForm::default(),
            weights: WeightsForm::default(),
        };
        if display == Display::Millimetre {
            job.measure.division = Division::Millimetre;
            job.truing.dial = Dial::Hundredth;
        }
        job.put(Entry::RootGap, "0");
        job.put(Entry::Shrinkage, if display == Display::Millimetre { "0.4" } else { "1/64" });
        job.put(Entry::PhaseLimit, "1");
        job.put(Entry::YokeTurned, "0");
        job.weights.rows.push(WeightRow::default());
        job
    }

    /// Puts typed text into a field. Text that replaces text keeps that text's unit, so a bare number
    /// corrected after the display was switched does not change its meaning; an empty field takes the
    /// unit in force now. A field that is not there is left alone.
    pub fn put(&mut self, entry: Entry, text: &str) {
        let in_force = self.unit_in_force(entry);
        if let Some(slot) = self.slot(entry) {
            if slot.text.trim().is_empty() {
                slot.unit = in_force;
            }
            slot.text = text.to_owned();
        }
    }

    /// The unit that a bare number in this field has: the one kept with its text, or for an empty
    /// field the one in force now.
    pub fn unit_of(&self, entry: Entry) -> crate::quantity::Unit {
        match self.typed(entry) {
            Some(typed) if !typed.text.trim().is_empty() => typed.unit,
            _ => self.unit_in_force(entry),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    #[test]
    fn a_switch_of_display_leaves_typed_text_alone() {
        // The rule itself: the unit stays with the text.
        let mut job = Job::new(Display::Sixteenth);
        job.put(Entry::OldReading(0), "57-5/16");
        job.display = Display::Millimetre;
        job.put(Entry::OldReading(0), "57-1/4");
        job.put(Entry::OldReading(1), "1454");
        assert_eq!(job.unit_of(Entry::OldReading(0)), Unit::Inch);
        assert_eq!(job.unit_of(Entry::OldReading(1)), Unit::Millimetre);
        job.put(Entry::OldReading(0), "");
        assert_eq!(job.unit_of(Entry::OldReading(0)), Unit::Millimetre);
    }

    #[test]
    fn changing_stations_keeps_readings() {
        let mut job = Job::default();
        job.put(Entry::StationReading(0, 7), "5");
        job.truing.passes[0].set_stations(Stations::Twelve);
        job.truing.passes[0].set_stations(Stations::Four);
        assert_eq!(job.truing.passes[0].count(), 4);
        job.truing.passes[0].set_stations(Stations::Eight);
        assert_eq!(job.typed(Entry::StationReading(0, 7)).unwrap().text, "5");
    }

    #[test]
    fn a_field_that_is_not_there_is_left_alone() {
        let mut job = Job::default();
        let before = job.clone();
        job.put(Entry::OldReading(99), "1");
        job.put(Entry::StationReading(7, 0), "1");
        assert_eq!(job, before);
    }
}
