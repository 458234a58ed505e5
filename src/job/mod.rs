//! The record of a job: what was measured, as typed. No sums here: what follows from it is found
//! anew by the stages at every change.

mod angles_form;
mod balance_form;
mod check_form;
mod choice;
mod disk;
mod entry;
mod field_unit;
mod forms;
mod name;
mod pad;
mod phase_form;
mod place;
mod sample;
mod truing_form;
mod typed;

pub use angles_form::AnglesForm;
pub use balance_form::{BalanceForm, MOST_RUNS, PLANES, Run, RunReading};
pub use check_form::{BuildForm, CheckForm, LoadForm, MOST_GEARS, SpeedsForm};
pub use choice::{
    BalanceBy, Choice, ClockMarks, CutAt, Datum, Dial, Display, Division, Drives, End, Gearbox, Grade,
    Groove, Guide, Joined, LevelDivision, MarkNames, Material, Paper, PassKind, PhaseMethod,
    PhaseTarget, PickUp, PlanBy, Plunger, PutBack, Ready, Route, RunOutLimit, RunsMade, SeamBy, SetUp,
    ShaftBy, ShaftKind, Side, Spin, SquareBy, Stations, TravelBy, TrialLeft, TubeMaterial, TurnedHow,
    TyreBy, Weighed, WeightsCame, WhirlShare, YokeAt,
};
pub use disk::{NotAJob, from_text, to_text};
pub use entry::Entry;
pub use forms::{CutForm, DatumPair, MeasureForm, SlipForm, TubeForm, WeightRow, WeightsForm};
pub use pad::{PadHand, PadKey, sign_turned};
pub use phase_form::{PhaseForm, Sitting};
pub use sample::sample;
pub use truing_form::{DialTurn, Pass, TruingForm};
pub use typed::Typed;

/// Most repeat readings of one length.
pub const MOST_READINGS: usize = 12;
/// Places round the tube at which its face is proved square: every 45°.
pub const FACE_PLACES: usize = 8;
/// Times the yokes are measured: before the cut, before tacking, after welding.
pub const PHASE_SITTINGS: usize = 3;
/// The sitting before the cut.
pub const BEFORE_CUT: usize = 0;
/// The sitting before tacking.
pub const BEFORE_TACKING: usize = 1;
/// The sitting after welding.
pub const AFTER_WELDING: usize = 2;
/// Repeat readings of each yoke at a sitting.
pub const PHASE_READINGS: usize = 3;
/// Repeat readings of one slope.
pub const SLOPE_READINGS: usize = 3;
/// Most places along the tube at which the dial stands.
pub const MOST_PLACES: usize = 12;
/// Most passes of the dial kept in one job.
pub const MOST_PASSES: usize = 20;
/// Most marks round the tube.
pub const MOST_STATIONS: usize = 36;
/// Most weights logged.
pub const MOST_WEIGHTS: usize = 24;
/// Longest name of a job, in characters.
pub const LONGEST_NAME: usize = 80;

/// One shaft, from first measurement to the weights.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What the mechanic calls it.
    pub name: String,
    /// How lengths are shown, and the unit of a bare number typed from now on.
    pub display: Display,
    /// The tube.
    pub tube: TubeForm,
    /// Old and wanted length.
    pub measure: MeasureForm,
    /// The slip and the axle's travel.
    pub slip: SlipForm,
    /// How gearbox, shaft and pinion lie.
    pub angles: AnglesForm,
    /// Speed and load.
    pub check: CheckForm,
    /// The cut.
    pub cut: CutForm,
    /// Phase of the yokes.
    pub phase: PhaseForm,
    /// Dial readings.
    pub truing: TruingForm,
    /// Balance weights.
    pub weights: WeightsForm,
    /// Balance on the car.
    pub balance: BalanceForm,
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
        let mut job = Job::blank(display);
        if display == Display::Millimetre {
            job.measure.division = Division::Millimetre;
            job.truing.dial = Dial::Hundredth;
        }
        job.put(Entry::RootGap, "0");
        job.put(Entry::Shrinkage, if display == Display::Millimetre { "0.4" } else { "1/64" });
        job.put(Entry::PhaseLimit, "1");
        job.put(Entry::YokeTurned, "0");
        job.usual_since_2();
        job.usual_since_3();
        job.usual_since_6();
        // Where the slip stood is asked: a set point changed afterwards then moves the wanted length.
        job.measure.yoke_at = YokeAt::Drawn;
        job
    }

    /// Shows lengths another way. Nothing that was typed changes; a dial that nothing was read by yet is the
    /// one that goes with it.
    pub fn take_display(&mut self, display: Display) {
        self.display = display;
        if self.truing.passes.iter().all(Pass::is_blank) {
            self.truing.dial = if display.is_inch() { Dial::Thousandth } else { Dial::Hundredth };
        }
    }

    /// The usual values of the fields that came with version 2 of the saved form.
    fn usual_since_2(&mut self) {
        let inch = self.display.is_inch();
        let mut usual =
            |entry, inches, millimetres| self.put(entry, if inch { inches } else { millimetres });
        usual(Entry::LeastEngaged, "1-1/2", "38");
        usual(Entry::BumpRoom, "1/4", "6.5");
        usual(Entry::GrooveMargin, "1/16", "1.6");
        usual(Entry::Trim, "0", "0");
    }

    /// The usual values of the fields that came with version 3 of the saved form.
    fn usual_since_3(&mut self) {
        for (entry, usual) in [
            (Entry::PowerRise, "1"),
            (Entry::BumpRise, "0"),
            (Entry::DroopRise, "0"),
            (Entry::TorsionalLimit, "400"),
            (Entry::InertiaLimit, "1000"),
            (Entry::LeastAngle, "1"),
        ] {
            self.put(entry, usual);
        }
    }

    /// The usual values of the fields that came with version 6 of the saved form.
    fn usual_since_6(&mut self) {
        self.put(Entry::Friction, "0.71");
        let inch = self.display.is_inch();
        self.put(Entry::ElectrodeStrength, if inch { "70" } else { "480" });
    }

    /// A job with nothing in any field: what a saved job is read into, since a usual value that the
    /// mechanic emptied must stay empty.
    fn blank(display: Display) -> Self {
        Job {
            name: String::new(),
            display,
            tube: TubeForm::default(),
            measure: MeasureForm::default(),
            slip: SlipForm::default(),
            angles: AnglesForm::default(),
            check: CheckForm::default(),
            cut: CutForm::default(),
            phase: PhaseForm::default(),
            truing: TruingForm::default(),
            weights: WeightsForm::default(),
            balance: BalanceForm::default(),
        }
    }

    /// Puts typed text into a field. Text that replaces text keeps that text's unit, so a bare number
    /// corrected after the display was switched does not change its meaning; an empty field takes the
    /// unit in force now, and an emptied one has none of its own. A field that is not there is left
    /// alone. The first text of a run says which ends the runs are made for.
    pub fn put(&mut self, entry: Entry, text: &str) {
        let of_a_run = balance_form::is_of_a_run(entry).then(|| self.balance.any_run());
        self.put_text(entry, text);
        if let Some(any_before) = of_a_run {
            self.say_runs_made(any_before);
        }
    }

    fn put_text(&mut self, entry: Entry, text: &str) {
        let in_force = self.unit_in_force(entry);
        let Some(slot) = self.slot(entry) else { return };
        if text.is_empty() {
            // One empty field is like another, so a job is the same before and after the disk.
            *slot = Typed::default();
            return;
        }
        if slot.is_blank() {
            slot.unit = in_force;
        }
        slot.text = text.to_owned();
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
    fn a_new_job_has_the_usual_values_in_its_own_unit() {
        // Common practice, no source: 1-1/2 in engaged, 1/4 in of room, 1/16 in off the groove, 0 to
        // 1/32 in drawn by a weld against a shoulder; a nose that rises by 1 to 2° on leaf springs.
        // Published: yokes within 1°, 400 rad/s² (two-joint table of the AE-7 kind), 1° for needles
        // (J3311-1), friction 0.71 (the same). From memory: 1000 rad/s², E70 weld metal 70 ksi.
        let usual = |display: Display| {
            let job = Job::new(display);
            let filled = |entry: &Entry| !job.typed(*entry).unwrap().is_blank();
            let text = |entry: Entry| (entry.name(), job.typed(entry).unwrap().text.clone());
            job.entries().into_iter().filter(filled).map(text).collect::<Vec<_>>()
        };
        let pairs = |list: [(&str, &str); 8], electrode| {
            let angles = [
                ("power-rise", "1"),
                ("bump-rise", "0"),
                ("droop-rise", "0"),
                ("torsional-limit", "400"),
                ("inertia-limit", "1000"),
                ("least-angle", "1"),
                ("friction", "0.71"),
                electrode,
            ];
            let all = list.into_iter().chain(angles);
            all.map(|(name, text)| (name.to_owned(), text.to_owned())).collect::<Vec<_>>()
        };
        let [inches, millimetres] = [
            [
                ("electrode-strength", "70"),
                ("shrinkage", "1/64"),
                ("least-engaged", "1-1/2"),
                ("bump-room", "1/4"),
                ("groove-margin", "1/16"),
            ],
            [
                ("electrode-strength", "480"),
                ("shrinkage", "0.4"),
                ("least-engaged", "38"),
                ("bump-room", "6.5"),
                ("groove-margin", "1.6"),
            ],
        ]
        .map(|[electrode, shrinkage, engaged, room, margin]| {
            let [gap, limit, turned, trim] =
                [("root-gap", "0"), ("phase-limit", "1"), ("yoke-turned", "0"), ("trim", "0")];
            pairs([gap, shrinkage, limit, turned, engaged, room, margin, trim], electrode)
        });
        assert_eq!(usual(Display::Sixteenth), inches);
        assert_eq!(usual(Display::Millimetre), millimetres);
    }

    #[test]
    fn a_dial_goes_with_the_display_until_it_is_read() {
        let mut job = Job::new(Display::Sixteenth);
        job.take_display(Display::Millimetre);
        assert_eq!((job.display, job.truing.dial), (Display::Millimetre, Dial::Hundredth));
        job.put(Entry::StationReading(0, 0, 3), "5");
        job.take_display(Display::DecimalInch);
        assert_eq!((job.display, job.truing.dial), (Display::DecimalInch, Dial::Hundredth));
    }

    #[test]
    fn a_weight_is_taken_away_and_nothing_else_moves() {
        // The rule itself: one row always stays.
        let mut job = Job::default();
        job.weights.rows = vec![WeightRow::default(); 3];
        for (row, mass) in ["9", "14.5", "3"].into_iter().enumerate() {
            job.put(Entry::WeightMass(row), mass);
            job.put(Entry::WeightNote(row), mass);
        }
        let mut expected = job.clone();
        expected.weights.rows.remove(1);
        job.weights.take_away(1);
        assert_eq!(job, expected);
        job.weights.take_away(7);
        assert_eq!(job, expected);
        job.weights.take_away(0);
        assert_eq!(job.typed(Entry::WeightMass(0)).unwrap().text, "3");
        job.weights.take_away(0);
        assert_eq!(job.weights.rows, [WeightRow::default()]);
    }

    #[test]
    fn a_field_that_is_not_there_is_left_alone() {
        let mut job = Job::default();
        let before = job.clone();
        job.put(Entry::OldReading(99), "1");
        job.put(Entry::StationReading(7, 0, 0), "1");
        assert_eq!(job, before);
    }
}
