//! A turn of the dial judged: against its limit, and by how well it is known.

use super::amount::Amount;
use super::dial::{Turn, line};
use super::field::Fields;
use super::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use crate::job::{Entry, Job, RunOutLimit, SetUp};
use crate::mechanics::across::Across;
use crate::mechanics::runout::{FEWEST, Station};
use crate::mechanics::uncertainty::{combined, of_division};
use crate::quantity::{Base, Length, inches, millimetres};

/// From this many marks a turn may be called good: with fewer an oval tube or a seam passes for an offset.
const ENOUGH_STATIONS: usize = 6;
/// How many marks are advised.
const BETTER_STATIONS: usize = 8;

/// How far a new tube may be from round, and so the most of a total reading that no offset explains and
/// no dent either (ASTM A513: 0.015 to 0.020 in at 2 to 4 in of diameter).
pub(super) fn most_ovality() -> Length {
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

/// The limit in force, where it can be read.
pub fn limit(job: &Job) -> Option<Length> {
    chosen_limit(job, &mut Fields::of(job)).map(|(limit, _)| limit)
}

/// A turn before welding can be as good as it likes: the weld will move the tube. And away from its own
/// joints a shaft is not seen to run as it will on the car.
pub(super) fn as_proven(job: &Job, turn: &Turn, mut finding: Finding) -> Finding {
    match finding.verdict {
        Verdict::Good if !turn.welded() => finding.verdict = Verdict::Unjudged(Reason::NotWelded),
        Verdict::Good if job.truing.set_up != SetUp::Joints => {
            finding.verdict = Verdict::Watch(Reason::SetUpHides);
        }
        _ => {}
    }
    finding
}

/// A verdict waits while the dial has not come back to where it began or marks are unread, and is not
/// good where the marks are too few to tell an offset from an oval tube or a seam.
fn unless_doubtful(turn: &Turn, verdict: Verdict) -> Verdict {
    match (turn.drift.filter(|_| turn.drifted), verdict) {
        (Some(by), _) => Verdict::Stop(Reason::DialDrifted { by }),
        _ if turn.unread > 0 => Verdict::Unjudged(Reason::PartRead),
        (_, Verdict::Good) if turn.run_out.stations < ENOUGH_STATIONS => {
            let any_circle = !turn.quick && turn.run_out.stations <= FEWEST;
            let better = BETTER_STATIONS;
            Verdict::Watch(if any_circle {
                Reason::ThreeStations { better }
            } else {
                Reason::FewStations { better }
            })
        }
        (_, verdict) => verdict,
    }
}

/// Whether a turn may say which way: not while something moved, marks are unread, or three marks fit
/// any circle.
pub fn may_say_where(turn: &Turn) -> bool {
    !turn.drifted && turn.unread == 0 && (turn.quick || turn.run_out.stations > FEWEST)
}

/// Whether a length is over a limit. Whole lines of a dial often come to the limit itself, and miss it by the
/// last bits either way.
pub(super) fn is_over(length: Length, limit: Length) -> bool {
    length.base() > limit.base() * (1.0 + 1e-9)
}

pub(super) fn total(job: &Job, turn: &Turn, limit: Length, source: Source) -> Finding {
    let line = of_division(line(job));
    let total = turn.run_out.total;
    let shape = total - turn.run_out.offset.size() * 2.0;
    let verdict = if is_over(shape, most_ovality()) {
        Verdict::Stop(Reason::DentOrKink { most: most_ovality() })
    } else if is_over(total, limit) {
        Verdict::Watch(Reason::TotalOverLimit { limit })
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::FineLength(total),
        plus_minus: Some(Amount::FineLength(combined(&[line, line]).expanded())),
        sense: None,
    };
    let kept = |(index, _): &(usize, &Station)| !turn.run_out.aside.contains(index);
    let each = || turn.stations.iter().enumerate().filter(kept);
    let readings = || each().map(|(_, station)| station.reading.base());
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
pub(super) fn offset_doubt(turn: &Turn) -> Length {
    let run_out = &turn.run_out;
    if run_out.offset_is_seen() { run_out.offset_plus_minus } else { run_out.offset_circle }
}

/// The offset against the limit: it shows twice on the dial, and so does its ±.
pub(super) fn offset_verdict(turn: &Turn, limit: Length) -> Verdict {
    let twice = turn.run_out.offset.size() * 2.0;
    let seen = turn.run_out.offset_is_seen();
    let verdict = if is_over(twice, limit) && !seen {
        // What scatter alone can make is nothing to true, and nothing to go on with either.
        Verdict::Stop(Reason::OffsetNotSeen)
    } else if is_over(twice, limit) {
        Verdict::Stop(if turn.welded() {
            Reason::WeldedOffset { limit }
        } else {
            Reason::OffsetOverLimit { limit, shows: twice }
        })
    } else if !is_over(twice + offset_doubt(turn) * 2.0, limit) {
        Verdict::Good
    } else if seen {
        Verdict::Watch(Reason::OffsetNearLimit { limit })
    } else {
        Verdict::Watch(Reason::OffsetNotSeen)
    };
    unless_doubtful(turn, verdict)
}

pub(super) fn offset(turn: &Turn, limit: Length, source: Source) -> Finding {
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

pub(super) fn circle_step(turn: &Turn, finding: Finding) -> Finding {
    let (offset, fine) = (turn.run_out.offset, Amount::FineLength);
    finding.step(
        Law::Circle,
        &[Amount::Count(turn.run_out.stations), fine(offset.up), fine(offset.right)],
        fine(offset.size()),
    )
}

/// The working of a difference of two offsets.
pub(super) fn vector_step(
    finding: Finding,
    law: Law,
    to: Across<Length>,
    from: Across<Length>,
) -> Finding {
    let fine = Amount::FineLength;
    let put_in = [fine(to.size()), Amount::Clock(to.at()), fine(from.size()), Amount::Clock(from.at())];
    finding.step(law, &put_in, fine((to - from).size()))
}
