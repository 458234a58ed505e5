//! Measure: how much to take out or add.

use super::amount::{Amount, plain};
use super::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use super::length::{LAST_BIT, length_tolerance, routes, wanted_length};
pub use super::length::{LengthChange, length_change, reading_apart, wanted};
use super::{seal, slip};
use crate::job::{Job, Route, ShaftKind};
use crate::mechanics::uncertainty::{Measured, Spread};
use crate::quantity::{Base, Length};

/// What follows from the measurements.
pub fn findings(job: &Job) -> Vec<Finding> {
    let mut found = vec![change_finding(job), wanted_finding(job)];
    if job.measure.route == Route::Both {
        found.push(routes_finding(job));
    }
    let travel = slip::travel(job);
    found.extend(slip::findings(job, &travel));
    if job.measure.kind == ShaftKind::SlipInGearbox {
        found.push(seal::finding(job, &travel));
    }
    found
}

/// What comes off or is added.
pub(super) fn change_finding(job: &Job) -> Finding {
    let both = match length_change(job) {
        Ok(both) => both,
        Err(needs) => return Finding::missing(Name::LengthChange, needs),
    };
    let (change, doubt) = (both.change.best, both.change.spread.expanded());
    let verdict = match both.remark {
        Some(reason) if both.misleads() => Verdict::Stop(reason),
        _ if both.is_within_doubt() => Verdict::Watch(Reason::DifferenceWithinDoubt),
        _ if both.lengthens() => Verdict::Watch(both.remark.unwrap_or(Reason::Lengthened)),
        remark => remark.map_or_else(|| loose(doubt), Verdict::Watch),
    };
    let sense = if both.is_within_doubt() {
        Sense::LeaveAlone
    } else if both.lengthens() {
        Sense::Add
    } else {
        Sense::Remove
    };
    let value = Value {
        amount: Amount::Length(Length::from_base(change.base().abs())),
        plus_minus: Some(plain(doubt)),
        sense: Some(sense),
    };
    let finding = Finding::known(Name::LengthChange, value, verdict);
    let mut finding = brought_to_centres(finding, both.old_read, both.old.best, false)
        .step(Law::OldLength, &[], plain(both.old.best))
        .step(Law::NewLength, &[], plain(both.wanted.best))
        .step(Law::Difference, &[plain(both.old.best), plain(both.wanted.best)], plain(change))
        .step(
            Law::CombinedDoubt,
            &[plain(both.old.spread.expanded()), plain(both.wanted.spread.expanded())],
            plain(doubt),
        );
    let Spread { standard, freedom } = both.change.spread;
    // Where no scatter was estimated the factor is the normal law's, and there is nothing to say.
    if freedom.is_finite() {
        let factor = doubt.base() / standard.base();
        finding = finding.step(Law::Coverage, &[Amount::Count(freedom as usize)], Amount::Share(factor));
    }
    finding
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
        .caused_by(&both.budget)
}

fn wanted_finding(job: &Job) -> Finding {
    let traced = match wanted_length(job) {
        Ok(traced) => traced,
        Err(needs) => return Finding::missing(Name::WantedLength, needs),
    };
    let Measured { best, spread } = traced.sum.measured();
    let value =
        Value { amount: Amount::Length(best), plus_minus: Some(plain(spread.expanded())), sense: None };
    let verdict = traced.remark.map_or_else(|| loose(spread.expanded()), Verdict::Watch);
    let finding = Finding::known(Name::WantedLength, value, verdict);
    brought_to_centres(finding, traced.read, best, job.measure.route == Route::Ends)
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry, Source::Gum])
}

/// The working from the mean of the readings to the length between cup centres. What comes off is said
/// as such, what is added likewise, so that no line has two signs.
fn brought_to_centres(finding: Finding, read: Length, best: Length, from_ends: bool) -> Finding {
    let law = if from_ends { Law::LessTheEnds } else { Law::ToJointCentres };
    let off = read - best;
    let finding = finding.step(Law::MeanRead, &[], plain(read));
    if off.base() > LAST_BIT {
        finding.step(law, &[plain(read), plain(off)], plain(best))
    } else if off.base() < -LAST_BIT {
        finding.step(Law::OutToJointCentres, &[plain(read), plain(-off)], plain(best))
    } else {
        finding
    }
}

/// Both ways to the wanted length, held against each other.
fn routes_finding(job: &Job) -> Finding {
    let routes = match routes(job) {
        Ok(routes) => routes,
        Err(needs) => return Finding::missing(Name::RoutesDiffer, needs),
    };
    let (by, doubt) = (routes.by(), routes.doubt());
    let value = Value { amount: Amount::Length(by), plus_minus: Some(plain(doubt)), sense: None };
    let put_in = [plain(routes.joints), plain(routes.ends)];
    Finding::known(Name::RoutesDiffer, value, agreement(by, doubt, routes.apart()))
        .step(Law::Routes, &put_in, plain(routes.difference.best))
        .within(plain(doubt), Source::Gum)
}

/// Whether a length is known well enough to cut by.
pub(super) fn loose(doubt: Length) -> Verdict {
    if doubt.base() <= length_tolerance().base() {
        Verdict::Good
    } else {
        Verdict::Watch(Reason::LooseLength { allowed: length_tolerance() })
    }
}

/// Whether two ways to one length agree: within their ±, and that no wider than a finished length's,
/// or anything would agree with anything.
pub(super) fn agreement(by: Length, doubt: Length, apart: Reason) -> Verdict {
    if by.base() > doubt.base() { Verdict::Watch(apart) } else { loose(doubt) }
}
