//! The parts of a job, one a stage, and the rows of its lists.

use crate::quantity::Unit;

use super::{
    Dial, Division, End, LevelDivision, MOST_STATIONS, Material, PassKind, PhaseMethod, RunOutLimit,
    Side, Stations, Typed, WeightsCame, WhirlShare, YokeAt,
};

/// The tube, asked once and used by several stages.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct TubeForm {
    /// Outer diameter.
    pub diameter: Typed,
    /// Wall.
    pub wall: Typed,
    /// Material.
    pub material: Material,
}

/// Old and wanted length between joint centres.
#[derive(Clone, Debug, PartialEq)]
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
#[derive(Clone, Debug, PartialEq, Default)]
pub struct CheckForm {
    /// Top speed of the shaft.
    pub top_speed: Typed,
    /// Share of the whirl speed that may be used.
    pub whirl_share: WhirlShare,
}

/// The cut.
#[derive(Clone, Debug, PartialEq, Default)]
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
#[derive(Clone, Debug, PartialEq, Default)]
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
#[derive(Clone, Debug, PartialEq)]
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
#[derive(Clone, Debug, PartialEq)]
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
#[derive(Clone, Debug, PartialEq)]
pub struct WeightsForm {
    /// Whether weights came off at all.
    pub came: WeightsCame,
    /// Weights that came off.
    pub rows: Vec<WeightRow>,
    /// How far the yoke at the cut end was turned against its own witness mark, clockwise from the rear.
    pub yoke_turned: Typed,
    /// Mass of the whole shaft.
    pub shaft_mass: Typed,
}

/// One weight that came off.
#[derive(Clone, Debug, PartialEq, Default)]
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

    /// Takes other marks round the tube; every reading goes with its place. Where a reading has no place
    /// among the new marks nothing is changed and `false` comes back: those marks want a turn of their own.
    #[must_use]
    pub fn set_stations(&mut self, stations: Stations) -> bool {
        let mut new = Pass::new(self.kind, stations);
        new.closing = self.closing.clone();
        let typed = |slot: &Typed| !slot.is_blank();
        let old_count = self.count();
        for (index, reading) in self.readings.iter().enumerate().filter(|(_, slot)| typed(slot)) {
            let Some(degrees) = self.place(index, old_count) else { return false };
            let found = match new.stations.fixed_count() {
                Some(count) => (0..count).find(|to| new.place(*to, count) == Some(degrees)),
                None => {
                    let free = new.readings.iter().position(|slot| !typed(slot));
                    let to = free.unwrap_or(new.readings.len());
                    new.readings.resize_with(new.readings.len().max(to + 1), Typed::default);
                    new.at.resize_with(new.readings.len(), Typed::default);
                    if let Some(at) = new.at.get_mut(to) {
                        *at = Typed { text: format!("{degrees}°"), unit: Unit::Hour };
                    }
                    Some(to)
                }
            };
            match found.and_then(|to| new.readings.get_mut(to)) {
                Some(slot) => *slot = reading.clone(),
                None => return false,
            }
        }
        *self = new;
        true
    }

    /// The place of a fixed mark in whole degrees; `None` for a free one, whose place is typed.
    fn place(&self, index: usize, count: usize) -> Option<usize> {
        (self.stations != Stations::Free && count > 0 && index < count).then(|| 360 * index / count)
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

impl Default for WeightsForm {
    fn default() -> Self {
        WeightsForm {
            came: WeightsCame::default(),
            rows: vec![WeightRow::default()],
            yoke_turned: Typed::default(),
            shaft_mass: Typed::default(),
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
