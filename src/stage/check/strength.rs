//! Whether tube, weld, splined part and joints carry the torque: with their factors, not only a verdict.

use super::found::{Fit, FitReason, FitSense};
use super::torque::torque;
use super::whirl::stiffness;
use super::{name, sense, why};
use crate::job::{Entry, Grade, Job, TubeMaterial};
use crate::mechanics::drive::rating_left;
use crate::mechanics::grade::{self, shear_yield};
use crate::mechanics::torsion::{TESTED_SHARE, buckling, shear, twist};
use crate::mechanics::tube::Tube;
use crate::mechanics::weld::{allowable, fillet_shear, leg_needed};
use crate::quantity::{Angle, Base, Length, Pressure, Torque};
use crate::stage::amount::Amount;
use crate::stage::angles::{At, line};
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Need, Source, Value, Verdict};
use crate::stage::measure::length_change;

/// A dropped clutch can double the torque for a moment. Common practice, no source.
const SHOCK: f64 = 2.0;

/// What the tube yields at in tension, where it comes from, and the same beside its weld where welding softens
/// it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Yield {
    /// The tube's.
    pub tube: Pressure,
    /// Beside the weld.
    pub at_weld: Pressure,
    /// Where it comes from.
    pub source: Source,
}

/// What the tube yields at.
///
/// # Errors
/// The field that is needed.
pub fn tube_yield(job: &Job) -> Result<Yield, Vec<Need>> {
    let mut fields = Fields::of(job);
    let by_table = |of: grade::Grade| {
        let strength = of.strength();
        let source = match strength.source {
            grade::Source::A513Drawn => Source::YieldDrawn,
            grade::Source::A513Welded => Source::YieldAsWelded,
            grade::Source::Aluminium => Source::YieldAluminium,
        };
        let tube = strength.yields_at;
        Yield { tube, at_weld: strength.weld_zone.unwrap_or(tube), source }
    };
    let steel = match job.check.load.grade {
        Grade::AsWelded => Some(grade::Grade::AsWelded),
        Grade::Drawn1020 => Some(grade::Grade::Drawn1020),
        Grade::Drawn1026 => Some(grade::Grade::Drawn1026),
        Grade::OwnYield => None,
    };
    match (job.tube.material, steel) {
        (TubeMaterial::Steel, Some(grade)) => return Ok(by_table(grade)),
        (TubeMaterial::Aluminium, _) if fields.is_empty(Entry::OwnYield) => {
            return Ok(by_table(grade::Grade::Aluminium6061));
        }
        _ => {}
    }
    let own = fields.quantity(Entry::OwnYield);
    let own: Pressure = own.ok_or_else(|| fields.needs())?;
    let softened = by_table(grade::Grade::Aluminium6061).at_weld;
    let is_aluminium = job.tube.material == TubeMaterial::Aluminium;
    let at_weld = if is_aluminium && softened < own { softened } else { own };
    Ok(Yield { tube: own, at_weld, source: Source::OwnLimit })
}

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
struct Load {
    torque: Torque,
    tube: Tube,
    length: Length,
}

fn load(job: &Job) -> Result<Load, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (diameter, wall) = (fields.length(Entry::TubeDiameter), fields.length(Entry::TubeWall));
    let torque = fields.sum(torque(job));
    let lengths = fields.sum(length_change(job));
    let tube = diameter.zip(wall).and_then(|(diameter, wall)| Tube::new(diameter, wall).ok());
    match (tube, torque, lengths) {
        (Some(tube), Some(torque), Some(lengths)) => {
            Ok(Load { torque, tube, length: lengths.wanted.best })
        }
        _ => Err(fields.needs()),
    }
}

/// Tube, weld, splined part and joints.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let load = match load(job) {
        Ok(load) => load,
        Err(needs) => return vec![Finding::missing(name(Fit::Shear), needs)],
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
fn stressed(fit: Fit, stress: Pressure, bears: Pressure, limit: Source) -> Finding {
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
    let Some(stress) = shear(load.tube, load.torque) else {
        return Finding::impossible(fit, crate::stage::Reason::NotComputable);
    };
    // Beside the weld the same torque is carried by what welding left.
    let bears = shear_yield(yields.at_weld);
    let put_in = [
        Amount::Torque(load.torque),
        Amount::PlainLength(load.tube.outer()),
        Amount::PlainLength(load.tube.inner()),
    ];
    stressed(Fit::Shear, stress, bears, yields.source)
        .step(Law::ShearInTube, &put_in, Amount::Stress(stress))
        .step(Law::ShearYield, &[Amount::Stress(yields.at_weld)], Amount::Stress(bears))
        .from(&[Source::Torsion, Source::ShearYield])
}

/// Thin walls fold before they yield; of others nothing is said.
fn folds(job: &Job, load: &Load) -> Option<Finding> {
    let of = stiffness(job).ok()?;
    // A mill's tube reaches no more of it than this.
    let folds = buckling(load.tube, load.length, of.modulus, of.ratio)? * TESTED_SHARE;
    let stress = shear(load.tube, load.torque)?;
    Some(stressed(Fit::Folds, stress, folds, Source::FoldingTube))
}

fn winds_up(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Twist);
    let of = match stiffness(job) {
        Ok(of) => of,
        Err(needs) => return Finding::missing(fit, needs),
    };
    let Some(angle) = twist(load.tube, load.torque, load.length, of.shear) else {
        return Finding::impossible(fit, crate::stage::Reason::NotComputable);
    };
    let put_in =
        [Amount::Torque(load.torque), Amount::PlainLength(load.length), Amount::Modulus(of.shear)];
    let value = Value { amount: Amount::Angle(angle), plus_minus: None, sense: None };
    Finding::known(fit, value, Verdict::Figure)
        .step(Law::TwistOfTube, &put_in, Amount::Angle(angle))
        .from(&[Source::Torsion, Source::MaterialFromMemory])
}

/// The leg of a fillet round the tube: what is needed, and what the given one is worth.
fn weld(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Weld);
    let mut fields = Fields::of(job);
    let electrode = fields.quantity(Entry::ElectrodeStrength);
    let given = fields.optional_length(Entry::WeldLeg);
    let needs = fields.needs();
    let (Some(electrode), true) = (electrode, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let radius = load.tube.outer() * 0.5;
    let bears = allowable(electrode);
    let needed = bears.and_then(|bears| leg_needed(load.torque, radius, bears));
    let (Some(bears), Some(needed)) = (bears, needed) else {
        return Finding::impossible(fit, crate::stage::Reason::NotComputable);
    };
    let stress = given.and_then(|leg| fillet_shear(load.torque, leg, radius));
    let factor = stress.map(|stress| bears.base() / stress.base());
    let verdict = match factor {
        None => Verdict::Figure,
        Some(factor) if factor < 1.0 => Verdict::Stop(why(FitReason::SmallWeld { needed })),
        Some(factor) if factor < SHOCK => {
            Verdict::Watch(why(FitReason::WeldNotTwice { needed: needed * SHOCK }))
        }
        Some(_) => Verdict::Good,
    };
    let value = Value {
        amount: Amount::PlainLength(needed),
        plus_minus: None,
        sense: Some(sense(FitSense::Leg { given, factor })),
    };
    let put_in = [Amount::Torque(load.torque), Amount::PlainLength(radius), Amount::Stress(bears)];
    let mut finding =
        Finding::known(fit, value, verdict).step(Law::LegNeeded, &put_in, Amount::PlainLength(needed));
    if let (Some(leg), Some(stress)) = (given, stress) {
        let put_in =
            [Amount::Torque(load.torque), Amount::PlainLength(leg), Amount::PlainLength(radius)];
        finding = finding.step(Law::ShearInWeld, &put_in, Amount::Stress(stress));
    }
    finding.from(&[Source::FilletWeld])
}

/// The splined part, where its figures are known.
fn spline(job: &Job, torque: Torque) -> Finding {
    let fit = name(Fit::Spline);
    let mut fields = Fields::of(job);
    let all = [Entry::SplineRoot, Entry::SplineBore, Entry::SplineYield];
    if all.iter().all(|entry| fields.is_empty(*entry)) {
        return Finding::if_wanted(fit, why(FitReason::SplineNotAsked));
    }
    let root = fields.length(Entry::SplineRoot);
    let bore = fields.optional_length(Entry::SplineBore);
    let yields: Option<Pressure> = fields.quantity(Entry::SplineYield);
    let needs = fields.needs();
    let (Some(root), Some(yields), true) = (root, yields, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let bore = bore.unwrap_or(Length::from_base(0.0));
    let stress = Tube::new(root, (root - bore) * 0.5).ok().and_then(|part| shear(part, torque));
    let Some(stress) = stress else {
        return Finding::impossible(fit, crate::stage::Reason::NotComputable);
    };
    let bears = shear_yield(yields);
    let put_in = [Amount::Torque(torque), Amount::PlainLength(root), Amount::PlainLength(bore)];
    stressed(Fit::Spline, stress, bears, Source::OwnLimit)
        .step(Law::ShearInTube, &put_in, Amount::Stress(stress))
        .step(Law::ShearYield, &[Amount::Stress(yields)], Amount::Stress(bears))
        .from(&[Source::Torsion, Source::ShearYield])
}

/// The joints, by their maker's rating.
fn joints(job: &Job, torque: Torque) -> Finding {
    let fit = name(Fit::Joints);
    let mut fields = Fields::of(job);
    if fields.is_empty(Entry::JointRating) {
        return Finding::if_wanted(fit, why(FitReason::JointsNotAsked));
    }
    let rating: Option<Torque> = fields.quantity(Entry::JointRating);
    let rated_to: Option<Angle> = fields.optional(Entry::JointRatedTo);
    let needs = fields.needs();
    let (Some(rating), true) = (rating, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let works_at = line(job, At::Power).map(|line| {
        let (front, rear) = (line.front_joint(), line.rear_joint());
        if front > rear { front } else { rear }
    });
    // Past the angle it is rated up to, less of the rating is left.
    let left = rated_to.zip(works_at).and_then(|(to, at)| rating_left(rating, to, at)).unwrap_or(rating);
    let factor = left.base() / torque.base();
    let verdict = match (factor < 1.0, rated_to, works_at) {
        (true, ..) => Verdict::Stop(why(FitReason::OverRating { rating: left })),
        (false, Some(to), Some(at)) if at > to => Verdict::Watch(why(FitReason::OverRatedAngle)),
        (false, Some(_), None) => Verdict::Watch(why(FitReason::AngleUnknown)),
        _ => Verdict::Good,
    };
    let value = Value {
        amount: Amount::Torque(left),
        plus_minus: None,
        sense: Some(sense(FitSense::Rated { factor, works_at, rated_to })),
    };
    Finding::known(fit, value, verdict).from(&[Source::JointMaker])
}
