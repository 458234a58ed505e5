//! Whirl by the closed form: of the new length, against the shaft's top speed.

use super::build::tubes;
use super::elements::judged;
use super::speeds::{ShaftSpeed, top_speed};
use crate::job::{Entry, Job, TubeMaterial, WhirlShare};
use crate::mechanics::material::{Stiffness, aluminium, steel};
use crate::mechanics::tube::Tube;
use crate::mechanics::uncertainty::{Measured, Spread, combined, rectangular, swing};
use crate::mechanics::whirl::first_pinned;
use crate::quantity::{AngularVelocity, Length};
use crate::stage::amount::Amount;
use crate::stage::field::{Fields, tube_doubt};
use crate::stage::finding::{Blocked, Finding, Law, Name, Need, Reason, Source, Value, Verdict};
use crate::stage::measure::length_change;

/// Half the spread of the constants that makers publish for steel tube, 4.68 to 4.80 ×10⁶ in inches,
/// as a share of the middle: what the closed form itself leaves open.
const CONSTANT_DOUBT: f64 = 0.0127;

/// Poisson's ratio of what is given by hand: it only says how shear is spread over the section, which moves the
/// whirl speed by less than a thousandth. Our own choice.
const BY_HAND_RATIO: f64 = 0.3;

/// The share of the whirl speed that is allowed, with its source.
pub fn allowed_share(job: &Job) -> (f64, Source) {
    match job.check.whirl_share {
        WhirlShare::Light => (0.70, Source::ShaftMakerLight),
        WhirlShare::Industrial => (0.65, Source::ShaftMakerIndustrial),
        WhirlShare::CardanMaker => (0.75, Source::CardanMaker),
    }
}

/// The stiffness and density of what the tube is made of.
///
/// # Errors
/// The fields that are needed, where they are given by hand.
pub fn stiffness(job: &Job) -> Result<Stiffness, Vec<Need>> {
    match job.tube.material {
        TubeMaterial::Steel => Ok(steel()),
        TubeMaterial::Aluminium => Ok(aluminium()),
        TubeMaterial::ByHand => {
            let mut fields = Fields::of(job);
            let modulus = fields.quantity(Entry::Modulus);
            let shear = fields.quantity(Entry::ShearModulus);
            let density = fields.quantity(Entry::Density);
            match (modulus, shear, density) {
                (Some(modulus), Some(shear), Some(density)) => {
                    Ok(Stiffness { modulus, shear, density, ratio: BY_HAND_RATIO })
                }
                _ => Err(fields.needs()),
            }
        }
    }
}

struct Whirl {
    speed: Measured<AngularVelocity>,
    before: Option<(Length, AngularVelocity)>,
    tube: Tube,
    of: Stiffness,
    length: Length,
    lengthened: bool,
}

/// The whirl speed of the new length.
///
/// # Errors
/// [`Blocked`].
pub fn whirl_speed(job: &Job) -> Result<AngularVelocity, Blocked> {
    whirl(job).map(|whirl| whirl.speed.best)
}

/// The whirl speed with its ±.
///
/// # Errors
/// [`Blocked`].
pub(super) fn whirl_with_doubt(job: &Job) -> Result<(AngularVelocity, AngularVelocity), Blocked> {
    whirl(job).map(|whirl| (whirl.speed.best, whirl.speed.spread.expanded()))
}

/// Of two sizes the one that bends sooner stands for both: the safe side.
fn sooner(first: Tube, step: Option<(Length, Tube)>) -> Tube {
    let bends_sooner = |other: &Tube| other.bending_diameter() < first.bending_diameter();
    step.map(|(_, other)| other).filter(bends_sooner).unwrap_or(first)
}

/// The whirl speed, or what stands in the way.
fn whirl(job: &Job) -> Result<Whirl, Blocked> {
    let mut fields = Fields::of(job);
    let tubes = fields.sum(tubes(job));
    let lengths = fields.sum(length_change(job));
    let of = fields.sum(stiffness(job));
    let (Some(lengths), Some((first, step)), Some(of)) = (lengths, tubes, of) else {
        return Err(Blocked::Missing(fields.needs()));
    };
    let tube = sooner(first, step);
    let (diameter, wall) = (tube.outer(), tube.wall());
    let at = |diameter: Length, wall: Length, length: Length| {
        Tube::new(diameter, wall).ok().and_then(|tube| first_pinned(tube, of, length))
    };
    let length = lengths.wanted.best;
    let Some(speed) = at(diameter, wall, length) else {
        return Err(Blocked::Impossible(Reason::NotComputable));
    };
    let (d, w) = tube_doubt();
    let (d, w) = (rectangular(d).standard, rectangular(w).standard);
    let u = lengths.wanted.spread;
    let part = |up: Option<AngularVelocity>, down: Option<AngularVelocity>, freedom: f64| {
        swing(up.unwrap_or(speed), down.unwrap_or(speed), freedom)
    };
    let constant: Spread<AngularVelocity> = rectangular(speed * CONSTANT_DOUBT);
    let spread = combined(&[
        part(at(diameter + d, wall, length), at(diameter - d, wall, length), f64::INFINITY),
        part(at(diameter, wall + w, length), at(diameter, wall - w, length), f64::INFINITY),
        part(
            at(diameter, wall, length + u.standard),
            at(diameter, wall, length - u.standard),
            u.freedom,
        ),
        constant,
    ]);
    Ok(Whirl {
        speed: Measured { best: speed, spread },
        before: at(diameter, wall, lengths.old.best).map(|speed| (lengths.old.best, speed)),
        tube,
        of,
        length,
        lengthened: lengths.lengthens(),
    })
}

fn working(finding: Finding, whirl: &Whirl, length: Length, speed: AngularVelocity) -> Finding {
    let stiffness = whirl.of;
    finding.step(
        Law::Whirl,
        &[
            Amount::Modulus(stiffness.modulus),
            Amount::Density(stiffness.density),
            Amount::PlainLength(whirl.tube.outer()),
            Amount::PlainLength(whirl.tube.inner()),
            Amount::PlainLength(length),
        ],
        Amount::EstimatedSpeed(speed),
    )
}

pub(super) fn whirl_finding(job: &Job) -> Finding {
    let whirl = match whirl(job) {
        Ok(whirl) => whirl,
        Err(blocked) => return Finding::blocked(Name::WhirlSpeed, blocked),
    };
    let value = Value {
        amount: Amount::EstimatedSpeed(whirl.speed.best),
        plus_minus: Some(Amount::EstimatedSpeed(whirl.speed.spread.expanded())),
        sense: None,
    };
    let finding = Finding::known(Name::WhirlSpeed, value, Verdict::Figure).from(&[
        Source::WhirlBeam,
        Source::MaterialFromMemory,
        Source::DoubtOfTube,
        Source::DoubtOfWhirl,
    ]);
    let finding = working(finding, &whirl, whirl.length, whirl.speed.best);
    match whirl.before {
        Some((length, speed)) => working(finding, &whirl, length, speed),
        None => finding,
    }
}

/// The whirl speed of this job's tube at another length.
pub fn whirl_at(job: &Job, length: Length) -> Option<AngularVelocity> {
    let (first, step) = tubes(job).ok()?;
    first_pinned(sooner(first, step), stiffness(job).ok()?, length)
}

/// A speed as a share of the whirl speed, with what is allowed.
pub struct OfWhirl {
    pub share: f64,
    pub doubt: f64,
    pub allowed: f64,
    pub source: Source,
    pub whirl: AngularVelocity,
}

/// A speed against the whirl speed; `None` while that is not known.
pub fn of_whirl(job: &Job, speed: AngularVelocity) -> Option<OfWhirl> {
    let (whirl, doubt) = whirl_with_doubt(job).ok()?;
    let (share, doubt) = ShaftSpeed::typed(speed).share_of(whirl, doubt);
    let (allowed, source) = allowed_share(job);
    Some(OfWhirl { share, doubt, allowed, source, whirl })
}

pub(super) fn share_finding(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let top = fields.sum(top_speed(job));
    let whirl = match whirl(job) {
        Ok(whirl) => Some(whirl),
        Err(Blocked::Missing(needs)) => {
            fields.also(&needs);
            None
        }
        Err(blocked) => return Finding::blocked(Name::SpeedShare, blocked),
    };
    let (Some(top), Some(whirl)) = (top, whirl) else {
        return Finding::missing(Name::SpeedShare, fields.needs());
    };
    let (share, doubt) = top.share_of(whirl.speed.best, whirl.speed.spread.expanded());
    let (allowed, source) = allowed_share(job);
    let verdict = match judged(Some(share), doubt, allowed) {
        Verdict::Good if whirl.lengthened => Verdict::Watch(Reason::Lengthened),
        verdict => verdict,
    };
    let value =
        Value { amount: Amount::Share(share), plus_minus: Some(Amount::Share(doubt)), sense: None };
    Finding::known(Name::SpeedShare, value, verdict)
        .step(
            Law::WhirlShare,
            &[Amount::Speed(top.speed), Amount::EstimatedSpeed(whirl.speed.best)],
            Amount::Share(share),
        )
        .step(
            Law::AllowedSpeed,
            &[Amount::Share(allowed), Amount::EstimatedSpeed(whirl.speed.best)],
            Amount::EstimatedSpeed(whirl.speed.best * allowed),
        )
        .within(Amount::Share(allowed), source)
        .from(&[Source::WhirlBeam])
}
