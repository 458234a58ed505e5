//! The shape of a turn beside its offset: oval, what is left over, what was set aside, what the dial moved.

use super::amount::Amount;
use super::dial::{AsideBy, Turn, line};
use super::finding::{Finding, Name, Reason, Sense, Source, Value, Verdict};
use super::judged::{is_over, most_ovality};
use crate::job::Job;
use crate::mechanics::runout::Station;
use crate::quantity::{Angle, Base, Length};

/// More than this many lines left over is no scatter of a dial any more. Our own choice.
const ROUGH_LINES: f64 = 3.0;

/// Ovality and what no order explains, where the stations can tell them.
pub(super) fn shape(job: &Job, turn: &Turn) -> Vec<Finding> {
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
        let rough = leftover.base() > ROUGH_LINES * line(job).base();
        let value = Value {
            amount: Amount::FineLength(leftover),
            plus_minus: None,
            sense: fits_least(turn).filter(|_| rough).map(Sense::FitsLeast),
        };
        let verdict = if rough { Verdict::Watch(Reason::Rough) } else { Verdict::Figure };
        found.push(Finding::known(Name::Leftover, value, verdict).from(&[Source::LeastSquaresCircle]));
    }
    found
}

/// The place of the reading that the others fit least, of those that count.
fn fits_least(turn: &Turn) -> Option<Angle> {
    let kept = turn.stations.iter().enumerate().filter(|(index, _)| !turn.run_out.aside.contains(index));
    let off = |(_, station): (usize, &Station)| (station.at, off_the_fit(turn, station));
    kept.map(off).reduce(farther).map(|(at, _)| at)
}

/// How far a reading stands off the fit of those that count.
fn off_the_fit(turn: &Turn, station: &Station) -> Length {
    station.reading - turn.run_out.mean - turn.run_out.fitted(station.at)
}

fn farther(one: (Angle, Length), other: (Angle, Length)) -> (Angle, Length) {
    if other.1.base().abs() > one.1.base().abs() { other } else { one }
}

/// What was set aside, and how far the most of it stands out of the fit of the others.
pub(super) fn aside(turn: &Turn) -> Option<Finding> {
    let out = |index: &usize| {
        let station = turn.stations.get(*index)?;
        Some((station.at, off_the_fit(turn, station)))
    };
    let (at, stands) = turn.run_out.aside.iter().filter_map(out).reduce(farther)?;
    let value = Value {
        amount: Amount::FineLength(Length::from_base(stands.base().abs())),
        plus_minus: None,
        sense: Some(Sense::SetAside {
            at,
            out: stands.base() > 0.0,
            count: turn.run_out.aside.len(),
            by: turn.aside_by,
        }),
    };
    // It is no offset, and may be a dent all the same: whoever marks it has looked.
    let deep = is_over(Length::from_base(stands.base().abs()), most_ovality());
    let dent = Reason::DentOrKink { most: most_ovality() };
    let verdict = match turn.aside_by {
        _ if !deep => Verdict::Figure,
        AsideBy::StoodOut => Verdict::Stop(dent),
        AsideBy::Mark => Verdict::Watch(dent),
    };
    Some(Finding::known(Name::SetAside, value, verdict).from(&[Source::SeamAside]))
}

/// What the dial had moved by the end of the turn.
pub(super) fn drift(turn: &Turn) -> Option<Finding> {
    let by = turn.drift.filter(|by| by.base() != 0.0)?;
    let value = Value {
        amount: Amount::FineLength(Length::from_base(by.base().abs())),
        plus_minus: None,
        sense: (!turn.drifted).then_some(Sense::TakenOut),
    };
    // That it is too much is said where the offset is.
    Some(Finding::known(Name::DialDrift, value, Verdict::Figure).from(&[Source::CommonPractice]))
}
