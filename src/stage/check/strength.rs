//! Whether tube, weld, splined part and joints carry the torque: with their factors, not only a verdict.

use super::build::tubes;
use super::found::{Fit, FitReason, FitSense};
use super::torque::torque;
use super::whirl::stiffness;
use super::{name, sense, why};
use crate::job::{End, Entry, Grade, Job, TubeMaterial};
use crate::mechanics::grade::{self, shear_yield};
use crate::mechanics::torsion::{TESTED_SHARE, buckling, shear, twist};
use crate::mechanics::tube::Tube;
use crate::mechanics::weld::{THROAT_SHARE, allowable, fillet_shear, leg_needed};
use crate::quantity::{Angle, Base, Length, Pressure, Torque};
use crate::stage::amount::Amount;
use crate::stage::angles::{At, line};
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Finding, Law, Need, Reason, Source, Value, Verdict};
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
    /// The tube's parts with their lengths: one, or two sizes.
    parts: Vec<(Tube, Length)>,
    /// The tube that the new weld is laid on.
    welded: Tube,
    length: Length,
    /// What carries it yields as metals do.
    is_metal: bool,
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

/// The leg of a fillet round the tube: what is needed, and what the given one is worth.
///
/// The throat bears 0.30 of the weld metal's strength, but is called no stronger than the tube beside it, which
/// yields in shear at 0.577 of its yield there; and a throat counts up to the wall. Both our own choice: the
/// formula knows nothing of what the weld is laid on.
fn weld(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Weld);
    if !load.is_metal {
        return Finding::if_wanted(fit, why(FitReason::NotWelded));
    }
    let mut fields = Fields::of(job);
    let electrode = fields.quantity(Entry::ElectrodeStrength);
    let given = fields.optional_length(Entry::WeldLeg);
    let yields = fields.sum(tube_yield(job));
    let needs = fields.needs();
    let (Some(electrode), Some(yields), true) = (electrode, yields, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let (radius, wall) = (load.welded.outer() * 0.5, (load.welded.outer() - load.welded.inner()) * 0.5);
    let beside = shear_yield(yields.at_weld);
    let most = wall / THROAT_SHARE;
    let bears = allowable(electrode).map(|throat| if throat < beside { throat } else { beside });
    let needed = bears.and_then(|bears| leg_needed(load.torque, radius, bears));
    let (Some(bears), Some(needed)) = (bears, needed) else {
        return Finding::impossible(fit, Reason::NotComputable);
    };
    let counts = given.map(|leg| if leg < most { leg } else { most });
    let stress = counts.and_then(|leg| fillet_shear(load.torque, leg, radius));
    let factor = stress.map(|stress| bears.base() / stress.base());
    let verdict = match factor {
        _ if needed > most => Verdict::Stop(why(FitReason::WallTooThin { wall })),
        None => Verdict::Watch(why(FitReason::LegNotGiven)),
        Some(factor) if factor < 1.0 => Verdict::Stop(why(FitReason::SmallWeld { needed })),
        Some(factor) if factor < SHOCK && needed * SHOCK > most => {
            Verdict::Watch(why(FitReason::WallNotTwice { wall }))
        }
        Some(factor) if factor < SHOCK => {
            Verdict::Watch(why(FitReason::WeldNotTwice { needed: needed * SHOCK }))
        }
        Some(_) => Verdict::Good,
    };
    let value = Value {
        amount: Amount::PlainLength(needed),
        plus_minus: None,
        sense: Some(sense(FitSense::Leg { given: counts, factor })),
    };
    let put_in = [Amount::Torque(load.torque), Amount::PlainLength(radius), Amount::Stress(bears)];
    let mut finding =
        Finding::known(fit, value, verdict).step(Law::LegNeeded, &put_in, Amount::PlainLength(needed));
    if let (Some(leg), Some(stress)) = (counts, stress) {
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
        return Finding::impossible(fit, Reason::NotComputable);
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
    let factor = rating.base() / torque.base();
    let verdict = match (by_factor(factor), rated_to, works_at) {
        (Verdict::Stop(_), ..) => Verdict::Stop(why(FitReason::OverRating { rating })),
        (_, Some(to), Some(at)) if at > to => Verdict::Watch(why(FitReason::OverRatedAngle)),
        (_, Some(_), None) => Verdict::Watch(why(FitReason::AngleUnknown)),
        (verdict, ..) => verdict,
    };
    let value = Value {
        amount: Amount::Torque(rating),
        plus_minus: None,
        sense: Some(sense(FitSense::Rated { factor, works_at, rated_to })),
    };
    Finding::known(fit, value, verdict).from(&[Source::JointMaker])
}
