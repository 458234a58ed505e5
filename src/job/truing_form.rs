//! The part of a job on the dial: how it was set up, where it stood, and every turn that was read.

use super::{
    Dial, MOST_PASSES, MOST_PLACES, MOST_STATIONS, MarkNames, PassKind, Plunger, RunOutLimit, SeamBy,
    SetUp, Stations, TurnedHow, Typed,
};
use crate::quantity::Unit;

/// A whole turn in half degrees.
const ROUND: usize = 720;
/// Free stations that a new turn starts with.
const FREE_STATIONS: usize = 6;

/// Dial readings.
#[derive(Clone, Debug, PartialEq)]
pub struct TruingForm {
    /// What the shaft turns on.
    pub set_up: SetUp,
    /// Far datum to the vee block nearer the gearbox.
    pub front_vee: Typed,
    /// Far datum to the vee block nearer the axle.
    pub rear_vee: Typed,
    /// The dial.
    pub dial: Dial,
    /// Which way it counts.
    pub plunger: Plunger,
    /// What it loses when it turns back.
    pub backlash: Typed,
    /// What the marks round the tube are called.
    pub marks: MarkNames,
    /// How a reading's place on the tube is known.
    pub turned: TurnedHow,
    /// What is done about the tube's own seam.
    pub seam: SeamBy,
    /// The limit chosen for the total reading.
    pub limit: RunOutLimit,
    /// The mechanic's own limit.
    pub own_limit: Typed,
    /// Places along the tube at which the dial stands, from the far datum; there is always one.
    pub places: Vec<Typed>,
    /// Passes taken, oldest first; there is always one.
    pub passes: Vec<Pass>,
}

/// The dial taken round once, at one place along the tube or at several.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// When in the job it was taken.
    pub kind: PassKind,
    /// Where its stations are.
    pub stations: Stations,
    /// When its first reading was typed, in milliseconds since 1970.
    pub begun: Option<u64>,
    /// One turn a place.
    pub turns: Vec<DialTurn>,
}

/// One turn of the dial at one place along the tube.
#[derive(Clone, Debug, PartialEq)]
pub struct DialTurn {
    /// Places of stations that the mechanic lays out, clockwise from the witness mark seen from the rear.
    pub at: Vec<Typed>,
    /// Readings, one a station.
    pub readings: Vec<Typed>,
    /// The first station read again at the end of the turn.
    pub closing: Typed,
    /// Stations that the mechanic has set aside.
    pub aside: Vec<bool>,
}

impl TruingForm {
    /// Begins a pass; false where there are as many as a job can hold.
    pub fn begin(&mut self, kind: PassKind, stations: Stations) -> bool {
        let room = self.passes.len() < MOST_PASSES;
        if room {
            let mut pass = Pass::new(kind, stations);
            pass.set_places(self.places.len());
            self.passes.push(pass);
        }
        room
    }

    /// Adds a place along the tube, to every pass.
    pub fn add_place(&mut self) {
        if self.places.len() < MOST_PLACES {
            self.places.push(Typed::default());
            self.match_places();
        }
    }

    /// Takes the last place away with all that was read there; the first one stays.
    pub fn drop_place(&mut self) {
        if self.places.len() > 1 {
            self.places.pop();
            self.match_places();
        }
    }

    /// Whether the mechanic has set a mark aside.
    pub fn is_aside(&self, pass: usize, place: usize, mark: usize) -> bool {
        let turn = self.passes.get(pass).and_then(|pass| pass.turns.get(place));
        turn.and_then(|turn| turn.aside.get(mark)).is_some_and(|aside| *aside)
    }

    /// Takes other marks round the tube in a pass; every reading goes with its place, and so does that it was
    /// set aside. Where a reading has no place among the new marks nothing is changed and `false` comes back:
    /// those marks want a pass of their own.
    #[must_use]
    pub fn set_stations(&mut self, pass: usize, stations: Stations) -> bool {
        let turned = self.turned;
        self.passes.get_mut(pass).is_none_or(|pass| pass.set_stations(stations, turned))
    }

    /// Gives every pass one turn a place.
    pub(super) fn match_places(&mut self) {
        let count = self.places.len();
        self.passes.iter_mut().for_each(|pass| pass.set_places(count));
    }
}

impl Pass {
    /// An empty pass at one place.
    pub fn new(kind: PassKind, stations: Stations) -> Self {
        Pass { kind, stations, begun: None, turns: vec![DialTurn::new(stations.first_count())] }
    }

    /// How many stations it shows.
    pub fn count(&self) -> usize {
        let readings = self.turns.first().map_or(0, |turn| turn.readings.len());
        self.stations.fixed_count().unwrap_or(readings)
    }

    /// Nothing was read in it.
    pub fn is_blank(&self) -> bool {
        self.turns.iter().all(DialTurn::is_blank)
    }

    fn set_places(&mut self, count: usize) {
        let stations = self.turns.first().map_or(0, |turn| turn.readings.len());
        self.turns.resize_with(count.max(1), || DialTurn::new(stations));
    }

    fn set_stations(&mut self, stations: Stations, turned: TurnedHow) -> bool {
        // The same marks again: free ones keep their places, and no pass is begun for them.
        if stations == self.stations {
            return true;
        }
        // Marks without a reading may go anywhere, unless both old and new ones have places by themselves.
        let unread = self.turns.iter().all(|turn| turn.readings.iter().all(Typed::is_blank));
        let laid_anew = unread && (self.stations.evenly().is_none() || stations.evenly().is_none());
        let fresh = |turn: &DialTurn| DialTurn {
            closing: turn.closing.clone(),
            ..DialTurn::new(stations.first_count())
        };
        let moved = |turn: &DialTurn| {
            if laid_anew {
                Some(fresh(turn))
            } else {
                turn.moved([self.stations, stations], fresh(turn), turned)
            }
        };
        let turns: Option<Vec<DialTurn>> = self.turns.iter().map(moved).collect();
        let fits = turns.is_some();
        if let Some(turns) = turns {
            self.turns = turns;
            self.stations = stations;
        }
        fits
    }

    /// Shows one more free station.
    pub fn add_station(&mut self) {
        for turn in self.turns.iter_mut().filter(|turn| turn.readings.len() < MOST_STATIONS) {
            turn.resize(turn.readings.len() + 1);
        }
    }
}

impl DialTurn {
    fn new(stations: usize) -> Self {
        let mut turn = DialTurn {
            at: Vec::new(),
            readings: Vec::new(),
            closing: Typed::default(),
            aside: Vec::new(),
        };
        turn.resize(stations);
        turn
    }

    pub(super) fn resize(&mut self, stations: usize) {
        self.at.resize_with(stations, Typed::default);
        self.readings.resize_with(stations, Typed::default);
        self.aside.resize(stations, false);
    }

    /// Nothing was read in it.
    pub fn is_blank(&self) -> bool {
        self.readings.iter().all(Typed::is_blank) && self.closing.is_blank()
    }

    /// The same readings at other marks; `None` where one has no place among them.
    fn moved(
        &self,
        [from, to]: [Stations; 2],
        mut new: DialTurn,
        turned: TurnedHow,
    ) -> Option<DialTurn> {
        let old_count = from.evenly()?;
        // Readings of a finer division that wait behind these marks have no place among any others.
        if !self.readings.iter().skip(old_count).all(Typed::is_blank) {
            return None;
        }
        for (index, reading) in self.readings.iter().enumerate().take(old_count) {
            let place = match to.evenly() {
                Some(count) => (0..count)
                    .find(|place| half_degrees(*place, count) == half_degrees(index, old_count)),
                None if to == Stations::Free => {
                    new.resize(new.readings.len().max(index + 1));
                    let counted = half_degrees(index, old_count);
                    // Turned clockwise, the marks came under the dial the other way round the tube.
                    let at = match turned {
                        TurnedHow::Clockwise => (ROUND - counted) % ROUND,
                        TurnedHow::ByMarks | TurnedHow::Counterclockwise => counted,
                    };
                    let text = format!("{}°", at as f64 / 2.0);
                    if let Some(at) = new.at.get_mut(index) {
                        *at = Typed { text, unit: Unit::Hour };
                    }
                    Some(index)
                }
                None => None,
            };
            match place.and_then(|place| Some((new.readings.get_mut(place)?, new.aside.get_mut(place)?)))
            {
                Some((slot, aside)) => {
                    slot.clone_from(reading);
                    *aside = self.aside.get(index).is_some_and(|aside| *aside);
                }
                None if reading.is_blank() => {}
                None => return None,
            }
        }
        Some(new)
    }
}

/// The place of a mark among evenly spread ones; in half degrees it is a whole number for all of them.
const fn half_degrees(index: usize, count: usize) -> usize {
    ROUND * index / count
}

impl Stations {
    /// How many there are, evenly spread; `None` where the mechanic says.
    pub const fn evenly(self) -> Option<usize> {
        match self {
            Stations::Four => Some(4),
            Stations::Eight => Some(8),
            Stations::Twelve => Some(12),
            Stations::Sixteen => Some(16),
            Stations::TwentyFour => Some(24),
            Stations::ThirtySix => Some(36),
            Stations::Free | Stations::HighLow => None,
        }
    }

    /// How many there are; `None` where there can be more.
    pub const fn fixed_count(self) -> Option<usize> {
        match self {
            Stations::HighLow => Some(2),
            other => other.evenly(),
        }
    }

    /// How many a new turn shows.
    const fn first_count(self) -> usize {
        match self.fixed_count() {
            Some(count) => count,
            None => FREE_STATIONS,
        }
    }
}

impl Default for Pass {
    fn default() -> Self {
        Pass::new(PassKind::AsFitted, Stations::Eight)
    }
}

impl Default for TruingForm {
    fn default() -> Self {
        TruingForm {
            set_up: SetUp::default(),
            front_vee: Typed::default(),
            rear_vee: Typed::default(),
            dial: Dial::default(),
            plunger: Plunger::default(),
            backlash: Typed::default(),
            marks: MarkNames::default(),
            turned: TurnedHow::default(),
            seam: SeamBy::default(),
            limit: RunOutLimit::default(),
            own_limit: Typed::default(),
            places: vec![Typed::default()],
            passes: vec![Pass::default()],
        }
    }
}

#[cfg(test)]
mod tests;
