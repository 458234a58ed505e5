//! Where each weight goes back.

use super::back::{GoesBack, cut, going_back};
use super::clear::{ears_by_eye, judged};
use super::sense::{Cut, Piece, There, WeightReason, WeightSense};
use super::told::{Told, told, touching};
use crate::job::{End, Job, PutBack};
use crate::mechanics::unbalance::Weight;
use crate::quantity::{Angle, Base, Mass};
use crate::stage::amount::Amount;
use crate::stage::finding::{Blocked, Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use crate::stage::measure::length_change;

/// Each weight that goes back.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let all = told(job);
    let mut said = false;
    let each = |(name, found): (Name, Result<GoesBack, Blocked>)| match found {
        Ok(one) => {
            // Once is enough.
            let by_eye = ears_by_eye(job, one.own).filter(|_| !said && one.weight.is_some());
            said |= by_eye.is_some();
            finding(job, &one, &all, by_eye)
        }
        Err(blocked) => Finding::blocked(name, blocked),
    };
    going_back(job).into_iter().map(each).collect()
}

fn finding(job: &Job, one: &GoesBack, all: &[Told], by_eye: Option<Angle>) -> Finding {
    let Some(weight) = one.weight else { return cancelled(one) };
    let (mut verdict, split) = judged(job, one, &weight);
    // One of both stands on the same place along the shaft: what is said of that goes before it.
    if may_be_one_of_both(verdict)
        && let Some(reason) = touching(job, all, one.name)
    {
        verdict = Verdict::Watch(Reason::Weight(reason));
    }
    let work = weight.mass * weight.radius;
    let there = There {
        clock: weight.at,
        distance: one.distance,
        thick: one.thick,
        cut: cut(job, work),
        split,
        inside_weld: one.inside_weld,
        around: one.around,
        by_eye,
    };
    let value = Value {
        amount: Amount::Mass(weight.mass),
        plus_minus: Some(Amount::Mass(one.doubt)),
        sense: Some(Sense::Weight(WeightSense::There(there))),
    };
    let mut finding = of_size(Finding::known(one.name, value, verdict), one).step(
        Law::Unbalance,
        &[Amount::Mass(weight.mass), Amount::PlainLength(weight.radius)],
        Amount::Unbalance(work),
    );
    finding = joined(job, finding, one, &weight);
    finding = moved(job, finding, one);
    finding = parted(finding, &weight, there.cut, &there.split);
    let mut sources = vec![Source::TwoPlanes, Source::DoubtOfWeights];
    if one.of.iter().any(|logged| logged.size.is_some()) || there.cut != Cut::NotAsked {
        sources.push(Source::PlateOnTube);
    }
    if matches!(split, Some([_, _])) {
        sources.push(Source::KeepOff);
    }
    sources.push(Source::CommonPractice);
    finding.from(&sources)
}

/// Nothing is said of a weight that one of two would not mend: it is good, or stands on the seam or the ears.
fn may_be_one_of_both(verdict: Verdict) -> bool {
    let seam_or_ears = |reason: &WeightReason| {
        matches!(reason, WeightReason::OnTheSeam { .. } | WeightReason::OnTheEars { .. })
    };
    match verdict {
        Verdict::Good => true,
        Verdict::Watch(Reason::Weight(reason)) => seam_or_ears(&reason),
        _ => false,
    }
}

/// Nothing goes back where the weights of an end cancel each other.
fn cancelled(one: &GoesBack) -> Finding {
    let value = Value {
        amount: Amount::Mass(Mass::from_base(0.0)),
        plus_minus: Some(Amount::Mass(one.doubt)),
        sense: Some(Sense::Weight(WeightSense::Cancelled)),
    };
    Finding::known(one.name, value, Verdict::Figure).from(&[Source::TwoPlanes])
}

/// The mass from the size, where that is what was logged.
fn of_size(mut finding: Finding, one: &GoesBack) -> Finding {
    let plain = Amount::PlainLength;
    for (stock, length, plate) in one.of.iter().filter_map(|logged| logged.size.as_ref()) {
        finding = finding
            .step(
                Law::PlateMass,
                &[
                    Amount::Density(stock.density),
                    plain(*length),
                    plain(stock.width),
                    plain(stock.thickness),
                ],
                Amount::Mass(plate.mass),
            )
            .step(Law::PlateRadius, &[Amount::Share(plate.share)], plain(plate.radius));
    }
    finding
}

/// What one for several is the sum of.
fn joined(job: &Job, mut finding: Finding, one: &GoesBack, weight: &Weight) -> Finding {
    let is_one = matches!(one.name, Name::PutBack(_));
    for logged in one.of.iter().filter(|_| !is_one) {
        let own = logged.turned;
        finding = finding.step(
            Law::OneOfThem,
            &[Amount::Count(logged.row + 1), Amount::Clock(own.at)],
            Amount::Unbalance(own.mass * own.radius),
        );
    }
    if is_one {
        return finding;
    }
    let law = if job.weights.put_back == PutBack::BothShares { Law::PartOfAll } else { Law::VectorSum };
    finding.step(law, &[Amount::Clock(weight.at)], Amount::Unbalance(weight.mass * weight.radius))
}

/// How a weight that goes with its yoke has moved.
fn moved(job: &Job, finding: Finding, one: &GoesBack) -> Finding {
    let stays = (one.own == End::Rear) != (job.cut.end == End::Rear);
    let by_yoke = job.weights.put_back == PutBack::OwnYoke;
    match (length_change(job), one.of.as_slice()) {
        (Ok(lengths), [logged]) if by_yoke && !stays => {
            let plain = Amount::PlainLength;
            finding.step(
                Law::NewDistance,
                &[plain(logged.distance), plain(lengths.old.best), plain(lengths.wanted.best)],
                plain(one.distance),
            )
        }
        _ => finding,
    }
}

/// The strip, and the two beside a place that is forbidden.
pub(in crate::stage) fn parted(
    mut finding: Finding,
    weight: &Weight,
    cut: Cut,
    split: &Option<[Piece; 2]>,
) -> Finding {
    let work = weight.mass * weight.radius;
    if let Cut::Long(length) = cut {
        finding =
            finding.step(Law::StripLength, &[Amount::Unbalance(work)], Amount::PlainLength(length));
    }
    for Piece { clock, mass, .. } in split.iter().flatten() {
        finding = finding.step(
            Law::PartOfIt,
            &[Amount::Mass(weight.mass), Amount::Clock(weight.at), Amount::Clock(*clock)],
            Amount::Mass(*mass),
        );
    }
    finding
}
