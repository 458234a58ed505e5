//! Whirl by finite elements: yokes, supports and all that hangs on the shaft counted.

use super::build::{Built, built};
use super::found::{Fit, FitReason, FitSense};
use super::speeds::top_speed;
use super::whirl::allowed_share;
use super::{name, sense, why};
use crate::job::{Entry, Job, TubeMaterial};
use crate::mechanics::beam::Support;
use crate::mechanics::drive_shaft::DriveShaft;
use crate::mechanics::tube::Tube;
use crate::mechanics::uncertainty::{Spread, combined, rectangular, swing};
use crate::quantity::{AngularVelocity, Base, Length, SpringRate, newtons_per_millimetre};
use crate::stage::amount::Amount;
use crate::stage::field::tube_doubt;
use crate::stage::finding::{Finding, Law, Reason, Source, Value, Verdict};

/// Elements of one shaft: within 0.01 % of the exact first speed (`tests` of the elements).
pub(super) const ELEMENTS: usize = 16;
/// How well Young's modulus of steel and of aluminium is known, ±: 200 to 210 GPa about 205 (common handbook
/// figures, from memory). By hand it is as good as its paper: our own choice.
const MODULUS_DOUBT: f64 = 0.024;
const MODULUS_BY_HAND_DOUBT: f64 = 0.05;
/// How well a yoke's mass is known, ±: on a kitchen scale, or as half of what is left. Our own choices.
const WEIGHED_DOUBT: f64 = 0.02;
const HALVED_DOUBT: f64 = 0.3;
/// A yoke may be half as stiff as a solid bar. Our own choice.
const SOFT_YOKE: f64 = 0.5;
/// What holds a joint is looked for between these.
const SOFTEST_NEWTONS_PER_MILLIMETRE: f64 = 50.0;
const STIFFEST_NEWTONS_PER_MILLIMETRE: f64 = 1_000_000.0;
/// Halvings of that range's ratio: within one part in a hundred.
const HALVINGS: u32 = 10;

/// The first bending speed of a shaft.
pub(super) fn first(shaft: &DriveShaft) -> Option<AngularVelocity> {
    shaft.beam()?.first(ELEMENTS).ok()
}

/// The first bending speed with its spread, and what each measurement brings to it as a share of its square.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct First {
    pub speed: AngularVelocity,
    pub doubt: AngularVelocity,
    pub causes: Vec<(Entry, f64)>,
}

/// What the measurements leave open of the first speed: each is moved by its own doubt, and the speed reckoned
/// anew.
pub(super) fn with_doubt(job: &Job, built: &Built, shaft: &DriveShaft) -> Option<First> {
    let speed = first(shaft)?;
    let (diameter, wall) = (shaft.tube.outer(), (shaft.tube.outer() - shaft.tube.inner()) * 0.5);
    let (d, w) = tube_doubt();
    let (d, w) = (rectangular(d).standard, rectangular(w).standard);
    let tube = |diameter: Length, wall: Length| Tube::new(diameter, wall).unwrap_or(shaft.tube);
    let modulus = |factor: f64| {
        let mut of = shaft.stiffness;
        of.modulus *= factor;
        of.shear *= factor;
        DriveShaft { stiffness: of, ..*shaft }
    };
    let mass = |factor: f64| {
        let mut yokes = shaft.yokes;
        yokes.iter_mut().for_each(|yoke| yoke.mass *= factor);
        DriveShaft { yokes, ..*shaft }
    };
    let length = built.length.spread;
    let by_hand = job.tube.material == TubeMaterial::ByHand;
    let e = rectangular_share(if by_hand { MODULUS_BY_HAND_DOUBT } else { MODULUS_DOUBT });
    let m = rectangular_share(if built.halved { HALVED_DOUBT } else { WEIGHED_DOUBT });
    let part = |up: DriveShaft, down: DriveShaft, freedom: f64| -> Spread<AngularVelocity> {
        swing(first(&up).unwrap_or(speed), first(&down).unwrap_or(speed), freedom)
    };
    let sure = f64::INFINITY;
    let longer = |by: Length| DriveShaft { length: shaft.length + by, ..*shaft };
    let parts = [
        (
            Entry::TubeDiameter,
            part(
                DriveShaft { tube: tube(diameter + d, wall), ..*shaft },
                DriveShaft { tube: tube(diameter - d, wall), ..*shaft },
                sure,
            ),
        ),
        (
            Entry::TubeWall,
            part(
                DriveShaft { tube: tube(diameter, wall + w), ..*shaft },
                DriveShaft { tube: tube(diameter, wall - w), ..*shaft },
                sure,
            ),
        ),
        (
            Entry::WantedReading(0),
            part(longer(length.standard), longer(-length.standard), length.freedom),
        ),
        (Entry::FrontYokeMass, part(mass(1.0 + m), mass(1.0 - m), sure)),
    ];
    let stiffness = part(modulus(1.0 + e), modulus(1.0 - e), sure);
    let yoke = DriveShaft { yoke_share: shaft.yoke_share * SOFT_YOKE, ..*shaft };
    let yoke = rectangular(speed - first(&yoke).unwrap_or(speed));
    let mut spreads: Vec<Spread<AngularVelocity>> = parts.iter().map(|(_, part)| *part).collect();
    spreads.extend([stiffness, yoke]);
    let whole = combined(&spreads);
    let mut causes: Vec<(Entry, f64)> = Vec::new();
    for (entry, part) in parts.into_iter().chain(by_hand.then_some((Entry::Modulus, stiffness))) {
        let share = (part.standard.base() / whole.standard.base()).powi(2);
        let before = causes.iter().take_while(|(_, other)| *other >= share).count();
        if share > 0.0 {
            causes.insert(before, (entry, share));
        }
    }
    Some(First { speed, doubt: whole.expanded(), causes })
}

/// The standard uncertainty of a share that lies within ± so much.
fn rectangular_share(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
}

/// A share of the whirl speed, judged.
pub(super) fn judged(share: Option<f64>, doubt: f64, allowed: f64) -> Verdict {
    match share {
        None => Verdict::Figure,
        Some(share) if share > allowed => Verdict::Stop(Reason::OverWhirlShare { allowed }),
        Some(share) if share + doubt > allowed => Verdict::Watch(Reason::NearWhirlShare { allowed }),
        Some(_) => Verdict::Good,
    }
}

/// The first speeds by elements: of the new shaft, of the old one, and as it is held.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let built = match built(job) {
        Ok(built) => built,
        Err(blocked) => return vec![Finding::blocked(name(Fit::Elements), blocked)],
    };
    let modes = built.new.beam().and_then(|beam| beam.modes(ELEMENTS).ok());
    let (Some(modes), Some(first)) = (modes, with_doubt(job, &built, &built.new)) else {
        return vec![Finding::impossible(name(Fit::Elements), why(FitReason::NotReckoned))];
    };
    let top = top_speed(job).ok().map(|top| top.speed);
    let (allowed, source) = allowed_share(job);
    let of = |first: &First| {
        let share = top.map(|top| top.base() / first.speed.base());
        let doubt = share.unwrap_or(0.0) * first.doubt.base() / first.speed.base();
        (share, judged(share, doubt, allowed))
    };
    let (share, verdict) = of(&first);
    let [_, second, third] = modes.speeds;
    let said = FitSense::Modes { next: [second, third], share };
    let [front, rear] = built.new.yokes;
    let put_in = [
        Amount::PlainLength(front.length),
        Amount::Mass(front.mass),
        Amount::PlainLength(built.new.length - front.length - rear.length),
        Amount::PlainLength(rear.length),
        Amount::Mass(rear.mass),
    ];
    let mut finding = speed(Fit::Elements, first.speed, Some(first.doubt), said, verdict)
        .step(Law::Elements, &put_in, Amount::EstimatedSpeed(first.speed))
        .within(Amount::Share(allowed), source)
        .from(&[Source::BeamElements, Source::MaterialFromMemory, Source::DoubtOfElements]);
    finding.causes = first.causes;
    let mut found = vec![finding];
    if let Some(before) = self::first(&built.old) {
        let said = FitSense::OldLength(built.old.length);
        let before = speed(Fit::ElementsBefore, before, None, said, Verdict::Figure);
        found.push(before.from(&[Source::BeamElements]));
    }
    if built.soft.iter().any(Option::is_some) {
        let Some(soft) = with_doubt(job, &built, &built.softly()) else { return found };
        let (share, verdict) = of(&soft);
        let said = FitSense::Held { by: built.soft, share };
        let finding = speed(Fit::Soft, soft.speed, Some(soft.doubt), said, verdict);
        found.push(finding.within(Amount::Share(allowed), source).from(&[Source::BeamElements]));
    } else if let Some(rate) = top.and_then(|top| softest(&built.new, top, allowed)) {
        let value = Value {
            amount: Amount::Rate(rate),
            plus_minus: None,
            sense: Some(sense(FitSense::UsedUp { allowed })),
        };
        let finding = Finding::known(name(Fit::Softest), value, Verdict::Figure);
        found.push(finding.from(&[Source::BeamElements]));
    }
    found
}

/// A speed as a finding.
fn speed(
    fit: Fit,
    speed: AngularVelocity,
    doubt: Option<AngularVelocity>,
    said: FitSense,
    verdict: Verdict,
) -> Finding {
    let value = Value {
        amount: Amount::EstimatedSpeed(speed),
        plus_minus: doubt.map(Amount::EstimatedSpeed),
        sense: Some(sense(said)),
    };
    Finding::known(name(fit), value, verdict)
}

/// How soft both supports may be before the top speed is as large a share of the whirl speed as is allowed;
/// `None` where it is already so held rigidly, or not even at the softest.
///
/// The first speed never rises as a support softens, so that a bracket halved by its ratio finds the place.
fn softest(shaft: &DriveShaft, top: AngularVelocity, allowed: f64) -> Option<SpringRate> {
    let wanted = top / allowed;
    let holds = |rate: f64| {
        let held = [Support::Spring(newtons_per_millimetre(rate)); 2];
        first(&DriveShaft { held, ..*shaft }).is_some_and(|speed| speed >= wanted)
    };
    let (mut low, mut high) = (SOFTEST_NEWTONS_PER_MILLIMETRE, STIFFEST_NEWTONS_PER_MILLIMETRE);
    if holds(low) || !holds(high) {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle = (low * high).sqrt();
        if holds(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(newtons_per_millimetre(high))
}
