//! Whether tube, weld, splined part and joints carry the torque: with their factors, not only a verdict.

use super::build::tubes;
use super::found::{Fit, FitReason, FitSense};
use super::parts::{joints, spline};
use super::torque::torque;
use super::weld::weld;
use super::whirl::stiffness;
use super::yields::tube_yield;
use super::{name, sense, why};
use crate::job::{End, Job, TubeMaterial};
use crate::mechanics::grade::{self, shear_yield};
use crate::mechanics::torsion::{TESTED_SHARE, buckling, shear, twist};
use crate::mechanics::tube::Tube;
use crate::quantity::{Angle, Base, Length, Pressure, Torque};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Finding, Law, Reason, Source, Value, Verdict};
use crate::stage::measure::length_change;

/// A dropped clutch can double the torque for a moment. Common practice, no source.
pub(super) const SHOCK: f64 = 2.0;

/// Good from twice the torque on, since a dropped clutch doubles it.
pub(super) fn by_factor(factor: f64) -> Verdict {
    if factor < 1.0 {
        Verdict::Stop(why(FitReason::Fails))
    } else if factor < SHOCK {
        Verdict::Watch(why(FitReason::NotTwice))
    } else {
        Verdict::Good
    }
}

/// What all of it is reckoned from.
pub(super) struct Load {
    pub torque: Torque,
    /// The tube's parts with their lengths: one, or two sizes.
    parts: Vec<(Tube, Length)>,
    /// The tube that the new weld is laid on.
    pub welded: Tube,
    length: Length,
    /// What carries it yields as metals do.
    pub is_metal: bool,
}

fn load(job: &Job) -> Result<Load, Blocked> {
    let mut fields = Fields::of(job);
    let tubes = fields.sum(tubes(job));
    let lengths = fields.sum(length_change(job));
    let torque = match torque(job) {
        Ok(torque) => Some(torque),
        Err(Blocked::Missing(needs)) => {
            fields.also(&needs);
            None
        }
        Err(blocked) => return Err(blocked),
    };
    let (Some((first, step)), Some(torque), Some(lengths)) = (tubes, torque, lengths) else {
        return Err(Blocked::Missing(fields.needs()));
    };
    let length = lengths.wanted.best;
    let parts = match step {
        None => vec![(first, length)],
        Some((at, other)) => {
            // Cut at the front, it comes nearer to the front joint.
            let at = match job.cut.end {
                End::Front => at + (length - lengths.old.best),
                End::Rear => at,
            };
            vec![(first, at), (other, length - at)]
        }
    };
    let welded = match (job.cut.end, step) {
        (End::Rear, Some((_, other))) => other,
        _ => first,
    };
    let is_metal = job.tube.material != TubeMaterial::ByHand;
    Ok(Load { torque, parts, welded, length, is_metal })
}

impl Load {
    /// The greatest shear in the tube, and the part that it is in.
    fn shear(&self) -> Option<(Tube, Pressure)> {
        let mut worst: Option<(Tube, Pressure)> = None;
        for (tube, _) in &self.parts {
            let stress = shear(*tube, self.torque)?;
            if worst.is_none_or(|(_, known)| stress > known) {
                worst = Some((*tube, stress));
            }
        }
        worst
    }
}

/// Tube, weld, splined part and joints.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let load = match load(job) {
        Ok(load) => load,
        Err(blocked) => return vec![Finding::blocked(name(Fit::Shear), blocked)],
    };
    let mut found = vec![in_tube(job, &load)];
    found.extend(folds(job, &load));
    found.push(winds_up(job, &load));
    found.push(weld(job, &load));
    found.push(spline(job, load.torque));
    found.push(joints(job, load.torque));
    found
}

/// A stress with its factor and what it is judged by.
pub(super) fn stressed(fit: Fit, stress: Pressure, bears: Pressure, limit: Source) -> Finding {
    let factor = bears.base() / stress.base();
    let value = Value {
        amount: Amount::Stress(stress),
        plus_minus: None,
        sense: Some(sense(FitSense::Factor(factor))),
    };
    Finding::known(name(fit), value, by_factor(factor)).within(Amount::Stress(bears), limit)
}

fn in_tube(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Shear);
    let yields = match tube_yield(job) {
        Ok(yields) => yields,
        Err(needs) => return Finding::missing(fit, needs),
    };
    let Some((tube, stress)) = load.shear() else {
        return Finding::impossible(fit, Reason::NotComputable);
    };
    // Beside the weld the same torque is carried by what welding left.
    let bears = shear_yield(yields.at_weld);
    let put_in = [
        Amount::Torque(load.torque),
        Amount::PlainLength(tube.outer()),
        Amount::PlainLength(tube.inner()),
    ];
    let mut finding = stressed(Fit::Shear, stress, bears, yields.source);
    // A drawn tube loses beside its weld what drawing gave it, down to a welded one's at the least.
    let welded = shear_yield(grade::Grade::AsWelded.strength().yields_at);
    if yields.source == Source::YieldDrawn && finding.verdict == Verdict::Good && welded < stress * SHOCK
    {
        finding.verdict = Verdict::Watch(why(FitReason::DrawnSoftens));
    }
    if !load.is_metal {
        finding.verdict = Verdict::Figure;
    }
    finding
        .step(Law::ShearInTube, &put_in, Amount::Stress(stress))
        .step(Law::ShearYield, &[Amount::Stress(yields.at_weld)], Amount::Stress(bears))
        .from(&[Source::Torsion, Source::ShearYield])
}

/// Thin walls fold before they yield; of others, and of what is no metal, nothing is said.
fn folds(job: &Job, load: &Load) -> Option<Finding> {
    let of = stiffness(job).ok().filter(|_| load.is_metal)?;
    let mut worst: Option<(Pressure, Pressure)> = None;
    for (tube, _) in &load.parts {
        // A mill's tube reaches no more of it than this.
        let Some(folds) = buckling(*tube, load.length, of.modulus, of.ratio) else { continue };
        let (folds, stress) = (folds * TESTED_SHARE, shear(*tube, load.torque)?);
        if worst.is_none_or(|(known, at)| folds.base() * at.base() < known.base() * stress.base()) {
            worst = Some((folds, stress));
        }
    }
    worst.map(|(folds, stress)| stressed(Fit::Folds, stress, folds, Source::FoldingTube))
}

fn winds_up(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Twist);
    let of = match stiffness(job) {
        Ok(of) => of,
        Err(needs) => return Finding::missing(fit, needs),
    };
    let mut whole = Angle::from_base(0.0);
    for (tube, length) in &load.parts {
        let Some(angle) = twist(*tube, load.torque, *length, of.shear) else {
            return Finding::impossible(fit, why(FitReason::NoSuchShaft));
        };
        whole += angle;
    }
    let put_in =
        [Amount::Torque(load.torque), Amount::PlainLength(load.length), Amount::Modulus(of.shear)];
    let value = Value { amount: Amount::Angle(whole), plus_minus: None, sense: None };
    Finding::known(fit, value, Verdict::Figure)
        .step(Law::TwistOfTube, &put_in, Amount::Angle(whole))
        .from(&[Source::Torsion, Source::MaterialFromMemory])
}
