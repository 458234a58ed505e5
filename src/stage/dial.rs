//! A turn of the dial as it was read: which readings count, and what they hold.

use super::amount::Amount;
use super::complaint::Complaint;
use super::field::{dial_division, read};
use super::finding::{Blocked, Need, Reason, Why};
use crate::job::{Entry, Job, PassKind, Plunger, SeamBy, Stations, TurnedHow};
use crate::mechanics::drift::without_drift;
use crate::mechanics::high_low::{NoOffset, of_extremes};
use crate::mechanics::runout::{FEWEST, NoFit, RunOut, Station, fit_without};
use crate::mechanics::seam::fit_but_seam;
use crate::quantity::{Angle, Base, Length, as_degrees, clockwise_angle, degrees};

/// Half the width of tube that a known seam takes from the readings. Our own choice: half of what is
/// looked for where it is not known. With the last bits of a place, so that a mark on the edge counts the
/// same wherever on the clock it is.
const SEAM_HALF_WIDTH_DEGREES: f64 = 10.0 + 1e-6;

/// A line of the dial may not come to more than so many in the offset, or the marks stand too close
/// together to tell one: three of them within 57°. Our own choice.
const MOST_MAGNIFIED: f64 = 10.0;

/// A highest and a lowest place nearer each other than half a degree are one.
const SAME_PLACE_DEGREES: f64 = 179.5;

/// Who set readings aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AsideBy {
    /// The mechanic, or the known place of the seam.
    Mark,
    /// They stood out of the others.
    StoodOut,
}

/// A turn of the dial and what it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// The stations that have a reading, drift taken out, + where the tube stands out.
    pub stations: Vec<Station>,
    /// Which mark each of them is.
    pub marks: Vec<usize>,
    /// What they hold.
    pub run_out: RunOut,
    /// Who set aside what `run_out` names.
    pub aside_by: AsideBy,
    /// What the dial had moved by the end of the turn, where the first mark was read again.
    pub drift: Option<Length>,
    /// It is more than one division.
    pub drifted: bool,
    /// Marks that were laid out and have no reading yet.
    pub unread: usize,
    /// When in the job it was taken.
    pub kind: PassKind,
    /// Only the highest and the lowest place were read.
    pub quick: bool,
}

impl Turn {
    /// Taken after welding.
    pub fn welded(&self) -> bool {
        self.kind == PassKind::Welded
    }
}

/// How finely the dial tells a reading: its division, and what it loses in turning back beside it.
///
/// Both are widths within which any value is as likely, so they add as squares.
pub fn line(job: &Job) -> Length {
    let backlash = length(job, Entry::Backlash).ok().flatten().map_or(0.0, Base::base);
    Length::from_base(dial_division(job).base().hypot(backlash))
}

/// The place of a station on the tube, clockwise from the witness mark; `None` for one that has none that
/// can be read.
pub fn station_at(job: &Job, pass: usize, place: usize, station: usize) -> Option<Angle> {
    let stations = job.truing.passes.get(pass)?.stations;
    let typed = |place: usize| match read(job, Entry::StationAt(pass, place, station)) {
        Ok(Some(Amount::Clock(at))) => Some(at),
        _ => None,
    };
    match (stations, stations.evenly()) {
        (_, Some(count)) => {
            let step = degrees(360.0 * station as f64 / count as f64);
            // Turned clockwise, what was a step counter-clockwise of the dial comes under it.
            Some(match job.truing.turned {
                TurnedHow::Clockwise => clockwise_angle(-step),
                TurnedHow::ByMarks | TurnedHow::Counterclockwise => step,
            })
        }
        (Stations::HighLow, _) => typed(place),
        // Marks laid out by hand run along the whole tube: they are typed once.
        _ => typed(0),
    }
}

/// Reads a turn. Stations without a reading are left out; uneven ones are taken as they are.
///
/// # Errors
/// [`Blocked`].
pub fn turn(job: &Job, pass: usize, place: usize) -> Result<Turn, Blocked> {
    let taken = job.truing.passes.get(pass);
    let stations = taken.map_or(Stations::Eight, |pass| pass.stations);
    let quick = stations == Stations::HighLow;
    let raw = Raw::read(job, pass, place, stations)?;
    let line = line(job);
    let needed = if quick { 2 } else { FEWEST };
    if raw.readings.len() < needed {
        let next = raw.empty.first().map(|entry| Need { entry: *entry, why: Why::Empty });
        return Err(match next {
            Some(next) => Blocked::Missing(vec![next]),
            None => Blocked::Impossible(Reason::TooFewStations { got: raw.readings.len(), needed }),
        });
    }
    let drift = raw.drift().filter(|_| !quick);
    let (readings, drifted) = match raw.closing.filter(|_| drift.is_some()) {
        Some(closing) => match without_drift(&raw.readings, closing, dial_division(job)) {
            Ok(corrected) => (corrected, false),
            Err(_) => (raw.readings.clone(), true),
        },
        None => (raw.readings.clone(), false),
    };
    let stations: Vec<Station> =
        raw.at.iter().zip(readings).map(|(at, reading)| Station { at: *at, reading }).collect();
    let mut aside_by = AsideBy::Mark;
    let run_out = match (quick, stations.as_slice()) {
        (true, [high, low, ..]) => of_extremes(*high, *low, line).map_err(|no| match no {
            NoOffset::Swapped => Reason::HighBelowLow,
            // Half a turn beside opposite is one place for both.
            NoOffset::NotOpposite { beside } if as_degrees(beside).abs() > SAME_PLACE_DEGREES => {
                Reason::SamePlace { at: high.at }
            }
            NoOffset::NotOpposite { beside } => Reason::NotOpposite { beside },
            NoOffset::NotFinite => Reason::NotComputable,
        }),
        _ => {
            let marked = raw.marked(job, pass, place)?;
            let found = if marked.is_empty() && job.truing.seam == SeamBy::Found {
                aside_by = AsideBy::StoodOut;
                fit_but_seam(&stations, line)
            } else {
                fit_without(&stations, &marked, line)
            };
            found.map_err(|no_fit| match no_fit {
                NoFit::TooFew { got, needed } => Reason::TooFewStations { got, needed },
                NoFit::SamePlace { at } => Reason::SamePlace { at },
                NoFit::OneSided => Reason::OneSided,
                NoFit::NoNumber => Reason::NotComputable,
            })
        }
    }
    .map_err(Blocked::Impossible)?;
    // A turn that is only begun is read on before its marks are blamed.
    let magnified = run_out.offset_standard.base() > MOST_MAGNIFIED * run_out.scatter.standard.base();
    if magnified && !quick && raw.empty.is_empty() {
        return Err(Blocked::Impossible(Reason::OneSided));
    }
    Ok(Turn {
        stations,
        marks: raw.marks,
        run_out,
        aside_by,
        drift,
        drifted,
        unread: raw.empty.len(),
        kind: taken.map_or(PassKind::AsFitted, |pass| pass.kind),
        quick,
    })
}

/// What stands in the fields of a turn.
struct Raw {
    at: Vec<Angle>,
    readings: Vec<Length>,
    marks: Vec<usize>,
    empty: Vec<Entry>,
    closing: Option<Length>,
}

impl Raw {
    fn read(job: &Job, pass: usize, place: usize, stations: Stations) -> Result<Raw, Blocked> {
        let mut wrong: Vec<Need> = Vec::new();
        let mut complain = |entry: Entry, complaint: Complaint| {
            wrong.push(Need { entry, why: Why::Wrong(complaint) });
        };
        let mut raw = Raw {
            at: Vec::new(),
            readings: Vec::new(),
            marks: Vec::new(),
            empty: Vec::new(),
            closing: None,
        };
        // Which way the dial counts is taken out here, so that + is a high side from here on.
        let sign = match job.truing.plunger {
            Plunger::InIsPlus => 1.0,
            Plunger::InIsMinus => -1.0,
        };
        let count = job.truing.passes.get(pass).map_or(0, |pass| pass.count());
        for station in 0..count {
            let entry = Entry::StationReading(pass, place, station);
            let at_entry = match stations {
                Stations::HighLow => Entry::StationAt(pass, place, station),
                _ => Entry::StationAt(pass, 0, station),
            };
            match length(job, entry) {
                Ok(Some(reading)) => match station_at(job, pass, place, station) {
                    Some(at) => {
                        raw.at.push(at);
                        raw.readings.push(reading * sign);
                        raw.marks.push(station);
                    }
                    None => match read(job, at_entry) {
                        Err(complaint) => complain(at_entry, complaint),
                        _ => raw.empty.push(at_entry),
                    },
                },
                // What is set aside counts for nothing, so nothing waits for it.
                Ok(None) if stations == Stations::Free || job.truing.is_aside(pass, place, station) => {}
                Ok(None) => raw.empty.push(entry),
                Err(complaint) => complain(entry, complaint),
            }
        }
        let closing = Entry::Closing(pass, place);
        match length(job, closing) {
            _ if stations == Stations::HighLow => {}
            Ok(reading) => raw.closing = reading.map(|reading| reading * sign),
            Err(complaint) => complain(closing, complaint),
        }
        // Read again without having been read first, it says nothing of the dial: not passed over in silence.
        let first = Entry::StationReading(pass, place, 0);
        if raw.closing.is_some() && !raw.marks.contains(&0) && !raw.empty.contains(&first) {
            raw.empty.push(first);
        }
        if let Err(complaint) = read(job, Entry::Backlash) {
            complain(Entry::Backlash, complaint);
        }
        if wrong.is_empty() { Ok(raw) } else { Err(Blocked::Missing(wrong)) }
    }

    /// What the dial moved from the first mark to the same mark at the end.
    fn drift(&self) -> Option<Length> {
        let first = self.marks.first().filter(|mark| **mark == 0).and(self.readings.first());
        Some(self.closing? - *first?)
    }

    /// The readings, by their place among them, that the mechanic set aside or that lie on the seam.
    fn marked(&self, job: &Job, pass: usize, place: usize) -> Result<Vec<usize>, Blocked> {
        let seam = match (job.truing.seam, read(job, Entry::SeamClock)) {
            (SeamBy::Known, Ok(Some(Amount::Clock(seam)))) => Some(seam),
            (SeamBy::Known, outcome) => {
                let why = outcome.map_or_else(Why::Wrong, |_| Why::Empty);
                return Err(Blocked::Missing(vec![Need { entry: Entry::SeamClock, why }]));
            }
            _ => None,
        };
        let on_seam = |at: Angle| {
            seam.is_some_and(|seam| {
                let apart = as_degrees(clockwise_angle(at - seam));
                apart.min(360.0 - apart) <= SEAM_HALF_WIDTH_DEGREES
            })
        };
        let each = self.marks.iter().zip(&self.at).enumerate();
        Ok(each
            .filter(|(_, (mark, at))| job.truing.is_aside(pass, place, **mark) || on_seam(**at))
            .map(|(index, _)| index)
            .collect())
    }
}

fn length(job: &Job, entry: Entry) -> Result<Option<Length>, Complaint> {
    Ok(match read(job, entry)? {
        Some(Amount::FineLength(length) | Amount::PlainLength(length)) => Some(length),
        _ => None,
    })
}
