//! True: what a turn of the dial says, and what to do about it.

use super::amount::Amount;
use super::complaint::Complaint;
use super::field::{Fields, dial_division, read};
use super::finding::{Blocked, Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict, Why};
use crate::job::{Entry, Job, Material, PassKind, RunOutLimit, Stations};
use crate::mechanics::across::Across;
use crate::mechanics::runout::{FEWEST, NoFit, RunOut, Station, fit, without_drift};
use crate::mechanics::uncertainty::{combined, of_division};
use crate::quantity::{Angle, Base, Length, degrees, inches, millimetres};

/// From this many marks a turn may be called good: with fewer an oval tube or a seam passes for an offset.
const ENOUGH_STATIONS: usize = 6;
/// How many marks are advised.
const BETTER_STATIONS: usize = 8;

/// How far a new tube may be from round, and so the most of a total reading that no offset explains and
/// no dent either (ASTM A513: 0.015 to 0.020 in at 2 to 4 in of diameter).
fn most_ovality() -> Length {
    inches(0.020)
}

/// A limit of the total reading by its name, with its source; `None` for the mechanic's own.
pub fn named_limit(limit: RunOutLimit) -> Option<(Length, Source)> {
    match limit {
        RunOutLimit::HomeTruing => Some((inches(0.010), Source::CommonPractice)),
        RunOutLimit::ArmyTube => Some((inches(0.015), Source::ArmyTube)),
        RunOutLimit::NearWeld => Some((inches(0.020), Source::PassengerCarManual)),
        RunOutLimit::EightTenths => Some((millimetres(0.8), Source::SeveralCarManuals)),
        RunOutLimit::MiddleOfTube => Some((inches(0.025), Source::PassengerCarMiddle)),
        RunOutLimit::SlipNeck => Some((inches(0.005), Source::ArmyNeck)),
        RunOutLimit::Anywhere => Some((inches(0.035), Source::WorkshopManual)),
        RunOutLimit::Own => None,
    }
}

/// The limit in force.
pub(super) fn chosen_limit(job: &Job, fields: &mut Fields) -> Option<(Length, Source)> {
    named_limit(job.truing.limit)
        .or_else(|| fields.length(Entry::OwnLimit).map(|limit| (limit, Source::OwnLimit)))
}

/// The place of a station on the tube; `None` for a free one that has none that can be read.
pub fn station_at(job: &Job, pass: usize, place: usize, station: usize) -> Option<Angle> {
    let stations = job.truing.passes.get(pass)?.stations;
    match stations.evenly() {
        Some(count) => Some(degrees(360.0 * station as f64 / count as f64)),
        None => match read(job, Entry::StationAt(pass, place, station)) {
            Ok(Some(Amount::Clock(at))) => Some(at),
            _ => None,
        },
    }
}

/// A turn of the dial and what it holds.
#[derive(Clone, Debug)]
pub struct Turn {
    /// The stations that have a reading, drift taken out.
    pub stations: Vec<Station>,
    /// What they hold.
    pub run_out: RunOut,
    /// The dial came back more than one division away.
    pub drifted: Option<Length>,
    /// Marks that were laid out and have no reading yet.
    pub unread: usize,
    /// Taken after welding.
    pub welded: bool,
}

/// Reads a turn. Stations without a reading are left out; uneven ones are taken as they are.
///
/// # Errors
/// [`Blocked`].
pub fn turn(job: &Job, pass: usize, place: usize) -> Result<Turn, Blocked> {
    let mut wrong: Vec<Need> = Vec::new();
    let mut complain = |entry: Entry, complaint: Complaint| {
        wrong.push(Need { entry, why: Why::Wrong(complaint) });
    };
    let taken = job.truing.passes.get(pass);
    let count = taken.map_or(0, |p| p.count());
    let free = taken.is_some_and(|p| p.stations == Stations::Free);
    let welded = taken.is_some_and(|p| p.kind == PassKind::Welded);
    let mut at = Vec::new();
    let mut readings = Vec::new();
    let mut empty = Vec::new();
    for station in 0..count {
        let entry = Entry::StationReading(pass, place, station);
        match length(job, entry) {
            Ok(Some(reading)) => match station_at(job, pass, place, station) {
                Some(angle) => {
                    at.push(angle);
                    readings.push((station, reading));
                }
                None => match read(job, Entry::StationAt(pass, place, station)) {
                    Err(complaint) => complain(Entry::StationAt(pass, place, station), complaint),
                    _ => empty.push(Entry::StationAt(pass, place, station)),
                },
            },
            Ok(None) if free => {}
            Ok(None) => empty.push(entry),
            Err(complaint) => complain(entry, complaint),
        }
    }
    let closing = length(job, Entry::Closing(pass, place)).unwrap_or_else(|complaint| {
        complain(Entry::Closing(pass, place), complaint);
        None
    });
    if !wrong.is_empty() {
        return Err(Blocked::Missing(wrong));
    }
    if readings.len() < FEWEST {
        let first = empty.first().copied().unwrap_or(Entry::StationReading(pass, place, 0));
        return Err(Blocked::Missing(vec![Need { entry: first, why: Why::Empty }]));
    }
    let division = dial_division(job);
    let values: Vec<Length> = readings.iter().map(|(_, reading)| *reading).collect();
    let begins_at_first = readings.first().is_some_and(|(station, _)| *station == 0);
    let (values, drifted) = match closing.filter(|_| begins_at_first) {
        Some(closing) => match without_drift(&values, closing, division) {
            Ok(corrected) => (corrected, None),
            Err(drifted) => (values, Some(drifted.by)),
        },
        None => (values, None),
    };
    let stations: Vec<Station> =
        at.into_iter().zip(values).map(|(at, reading)| Station { at, reading }).collect();
    let run_out = fit(&stations, division).map_err(|no_fit| {
        Blocked::Impossible(match no_fit {
            NoFit::TooFew { got, needed } => Reason::TooFewStations { got, needed },
            NoFit::SamePlace { at } => Reason::SamePlace { at },
            NoFit::OneSided => Reason::OneSided,
            // No field takes such a number; the sums answer for it all the same.
            NoFit::NoNumber => Reason::NotComputable,
        })
    })?;
    Ok(Turn { stations, run_out, drifted, unread: empty.len(), welded })
}

fn length(job: &Job, entry: Entry) -> Result<Option<Length>, Complaint> {
    Ok(match read(job, entry)? {
        Some(Amount::FineLength(length) | Amount::PlainLength(length)) => Some(length),
        _ => None,
    })
}

/// The latest turn that has a reading: the last one begun, whatever state of the shaft it was taken in.
/// A weld that is cut off and tacked again is judged by its new turn.
pub fn latest(job: &Job) -> usize {
    job.truing.passes.iter().rposition(|pass| !pass.is_blank()).unwrap_or(0)
}

/// The first of what follows from a turn: what to do.
pub fn first(job: &Job, pass: usize, place: usize) -> Option<Finding> {
    findings(job, pass, place).into_iter().next()
}

/// What follows from a turn.
pub fn findings(job: &Job, pass: usize, place: usize) -> Vec<Finding> {
    const NAMES: [Name; 3] = [Name::Correction, Name::OffsetReading, Name::TotalReading];
    let turn = match turn(job, pass, place) {
        Ok(turn) => turn,
        Err(blocked) => {
            return NAMES.map(|name| Finding::blocked(name, blocked.clone())).to_vec();
        }
    };
    let mut fields = Fields::of(job);
    let limit = chosen_limit(job, &mut fields);
    let needs = fields.needs();
    let Some((limit, source)) = limit else {
        return NAMES.map(|name| Finding::missing(name, needs.clone())).to_vec();
    };
    let mut found = vec![
        correction(job, &turn, limit, source),
        offset(&turn, limit, source),
        until_welded(&turn, total(job, &turn, limit, source)),
    ];
    found.extend(shape(&turn));
    found.extend(weld_pull(job, &turn));
    found
}

/// A turn before welding can be as good as it likes: the weld will move the tube.
fn until_welded(turn: &Turn, mut finding: Finding) -> Finding {
    if !turn.welded && finding.verdict == Verdict::Good {
        finding.verdict = Verdict::Unjudged(Reason::NotWelded);
    }
    finding
}

/// A verdict waits while the dial has not come back to where it began or marks are unread, and is not
/// good where the marks are too few to tell an offset from an oval tube or a seam.
fn unless_doubtful(turn: &Turn, verdict: Verdict) -> Verdict {
    match (turn.drifted, verdict) {
        (Some(by), _) => Verdict::Stop(Reason::DialDrifted { by }),
        _ if turn.unread > 0 => Verdict::Unjudged(Reason::PartRead),
        (_, Verdict::Good) if turn.stations.len() < ENOUGH_STATIONS => {
            Verdict::Watch(Reason::FewStations { better: BETTER_STATIONS })
        }
        (_, verdict) => verdict,
    }
}

/// Whether a turn may say which way: not while something moved, marks are unread, or three marks fit
/// any circle.
fn may_say_where(turn: &Turn) -> bool {
    turn.drifted.is_none() && turn.unread == 0 && turn.stations.len() > FEWEST
}

fn total(job: &Job, turn: &Turn, limit: Length, source: Source) -> Finding {
    let line = of_division(dial_division(job));
    let total = turn.run_out.total;
    let shape = total - turn.run_out.offset.size() * 2.0;
    let verdict = if shape.base() > most_ovality().base() {
        Verdict::Stop(Reason::DentOrKink { most: most_ovality() })
    } else if total.base() > limit.base() {
        Verdict::Watch(Reason::TotalOverLimit { limit })
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::FineLength(total),
        plus_minus: Some(Amount::FineLength(combined(&[line, line]).expanded())),
        sense: None,
    };
    let readings = || turn.stations.iter().map(|station| station.reading.base());
    let most = Length::from_base(readings().fold(f64::NEG_INFINITY, f64::max));
    let least = Length::from_base(readings().fold(f64::INFINITY, f64::min));
    Finding::known(Name::TotalReading, value, unless_doubtful(turn, verdict))
        .step(
            Law::TotalReading,
            &[Amount::FineLength(most), Amount::FineLength(least)],
            Amount::FineLength(total),
        )
        .within(Amount::FineLength(limit), source)
        .from(&[Source::TotalReadingStandard])
}

/// How far the offset can be from nothing, as the dial shows it. A vector near nothing has no ± of its
/// own size; the circle round it says how large it may be.
fn offset_doubt(turn: &Turn) -> Length {
    let run_out = &turn.run_out;
    if run_out.offset_is_seen() { run_out.offset_plus_minus } else { run_out.offset_circle }
}

/// The offset against the limit: it shows twice on the dial, and so does its ±.
fn offset_verdict(turn: &Turn, limit: Length) -> Verdict {
    let twice = turn.run_out.offset.size() * 2.0;
    let verdict = if twice.base() > limit.base() {
        Verdict::Stop(Reason::OffsetOverLimit { limit })
    } else if (twice + offset_doubt(turn) * 2.0).base() <= limit.base() {
        Verdict::Good
    } else if turn.run_out.offset_is_seen() {
        Verdict::Watch(Reason::OffsetNearLimit { limit })
    } else {
        Verdict::Watch(Reason::OffsetNotSeen)
    };
    unless_doubtful(turn, verdict)
}

fn offset(turn: &Turn, limit: Length, source: Source) -> Finding {
    let (size, at) = (turn.run_out.offset.size(), turn.run_out.offset.at());
    let seen = turn.run_out.offset_is_seen();
    let fine = Amount::FineLength;
    let value = Value {
        amount: fine(size * 2.0),
        plus_minus: Some(fine(offset_doubt(turn) * 2.0)),
        sense: may_say_where(turn).then_some(if seen { Sense::At(at) } else { Sense::LeaveAlone }),
    };
    circle_step(turn, Finding::known(Name::OffsetReading, value, offset_verdict(turn, limit)))
        .step(Law::OffsetTwice, &[fine(size)], fine(size * 2.0))
        .within(fine(limit), source)
        .from(&[Source::LeastSquaresCircle, Source::Gum])
}

fn circle_step(turn: &Turn, finding: Finding) -> Finding {
    let (offset, fine) = (turn.run_out.offset, Amount::FineLength);
    finding.step(
        Law::Circle,
        &[Amount::Count(turn.run_out.stations), fine(offset.up), fine(offset.right)],
        fine(offset.size()),
    )
}

/// The one instruction: move the tube so far, or leave it alone. Judged by the offset it would mend.
fn correction(job: &Job, turn: &Turn, limit: Length, source: Source) -> Finding {
    let (size, at) = (turn.run_out.offset.size(), turn.run_out.offset.at());
    let seen = turn.run_out.offset_is_seen();
    let mend = match (turn.welded, job.tube.material) {
        (false, _) => Sense::MoveAwayFrom(at),
        (true, Material::Steel) => Sense::HeatAt(at),
        (true, Material::Aluminium) => Sense::LeaveToShop(at),
    };
    let value = Value {
        amount: Amount::FineLength(size),
        plus_minus: Some(Amount::FineLength(offset_doubt(turn))),
        sense: may_say_where(turn).then_some(if seen { mend } else { Sense::LeaveAlone }),
    };
    circle_step(turn, Finding::known(Name::Correction, value, offset_verdict(turn, limit)))
        .within(Amount::FineLength(limit), source)
        .from(&[Source::LeastSquaresCircle])
}

/// Ovality and what no order explains, where the stations can tell them.
fn shape(turn: &Turn) -> Vec<Finding> {
    let mut found = Vec::new();
    if let Some(oval) = turn.run_out.ovality {
        // The second order is as uncertain as the first: both are sums over the same readings.
        let seen = oval.size.base() > 3.0 * turn.run_out.offset_standard.base();
        let doubt = if seen { turn.run_out.offset_plus_minus } else { turn.run_out.offset_circle };
        let value = Value {
            amount: Amount::FineLength(oval.size * 2.0),
            plus_minus: Some(Amount::FineLength(doubt * 2.0)),
            sense: Some(if seen { Sense::LobesAt(oval.at) } else { Sense::LeaveAlone }),
        };
        found.push(
            Finding::known(Name::Ovality, value, Verdict::Figure)
                .from(&[Source::LeastSquaresCircle, Source::TubeOvality]),
        );
    }
    if let Some(leftover) = turn.run_out.leftover {
        let value = Value { amount: Amount::FineLength(leftover), plus_minus: None, sense: None };
        found.push(
            Finding::known(Name::Leftover, value, Verdict::Figure).from(&[Source::LeastSquaresCircle]),
        );
    }
    found
}

/// How far the weld pulled: the latest tacked turn against this one, if this one is after welding.
fn weld_pull(job: &Job, after: &Turn) -> Option<Finding> {
    if !after.welded {
        return None;
    }
    let tacked = job.truing.passes.iter().enumerate().rev().filter(|(_, p)| p.kind == PassKind::Tacked);
    let before = tacked.into_iter().find_map(|(i, _)| turn(job, i, 0).ok())?;
    let (from, to) = (before.run_out.offset, after.run_out.offset);
    let pull: Across<Length> = to - from;
    let both = |of: fn(&RunOut) -> Length| of(&before.run_out).base().hypot(of(&after.run_out).base());
    // The same rule as for one offset: seen over three times its standard uncertainty, else the circle.
    let seen = pull.size().base() > 3.0 * both(|run_out| run_out.offset_standard);
    let doubt =
        both(if seen { |run_out| run_out.offset_plus_minus } else { |run_out| run_out.offset_circle });
    let value = Value {
        amount: Amount::FineLength(pull.size()),
        plus_minus: Some(Amount::FineLength(Length::from_base(doubt))),
        sense: Some(if seen { Sense::At(pull.at()) } else { Sense::LeaveAlone }),
    };
    let fine = Amount::FineLength;
    Some(
        Finding::known(Name::WeldPull, value, Verdict::Figure)
            .step(
                Law::PullVector,
                &[fine(to.size()), Amount::Clock(to.at()), fine(from.size()), Amount::Clock(from.at())],
                fine(pull.size()),
            )
            .from(&[Source::LeastSquaresCircle]),
    )
}
