//! Whirl by finite elements: yokes, supports and all that hangs on the shaft counted.

use super::build::{Built, built};
use super::found::{Fit, FitReason, FitSense};
use super::speeds::top_speed;
use super::whirl::allowed_share;
use super::{name, sense, why};
use crate::job::{Entry, Job, TubeMaterial};
use crate::mechanics::beam::Support;
use crate::mechanics::drive_shaft::{DriveShaft, YokeEnd};
use crate::mechanics::material::Stiffness;
use crate::mechanics::tube::Tube;
use crate::mechanics::uncertainty::{Spread, combined, rectangular, swing};
use crate::quantity::{AngularVelocity, Base, Length, SpringRate, newtons_per_millimetre};
use crate::stage::amount::Amount;
use crate::stage::field::{Fields, tube_doubt};
use crate::stage::finding::{Finding, Law, Reason, Source, Value, Verdict};
use crate::stage::joint::worse;

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
/// anew. `None` where a moved shaft has none.
pub(super) fn with_doubt(job: &Job, built: &Built, shaft: &DriveShaft) -> Option<First> {
    let speed = first(shaft)?;
    let (d, w) = tube_doubt();
    let [d, w] = [d, w].map(|half| rectangular(half).standard);
    // Both tubes of a shaft of two sizes are measured with the same calliper.
    let tubes = |diameter: Length, wall: Length| {
        let tube = |tube: Tube| Tube::new(tube.outer() + diameter, tube.wall() + wall).ok();
        let step = match shaft.step {
            None => None,
            Some((at, other)) => Some((at, tube(other)?)),
        };
        Some(DriveShaft { tube: tube(shaft.tube)?, step, ..*shaft })
    };
    let stiffer = |factor: f64| {
        let of = shaft.stiffness;
        let stiffness = Stiffness { modulus: of.modulus * factor, shear: of.shear * factor, ..of };
        Some(DriveShaft { stiffness, ..*shaft })
    };
    let heavier = |factor: f64| {
        let yokes = shaft.yokes.map(|yoke| YokeEnd { mass: yoke.mass * factor, ..yoke });
        Some(DriveShaft { yokes, ..*shaft })
    };
    let longer = |by: Length| Some(DriveShaft { length: shaft.length + by, ..*shaft });
    let none = Length::from_base(0.0);
    let by_hand = job.tube.material == TubeMaterial::ByHand;
    let share = |half: f64| half / 3.0_f64.sqrt();
    let e = share(if by_hand { MODULUS_BY_HAND_DOUBT } else { MODULUS_DOUBT });
    let (m, weighed) = match built.halved {
        true => (share(HALVED_DOUBT), Entry::ShaftMass),
        false => (share(WEIGHED_DOUBT), Entry::FrontYokeMass),
    };
    let length = built.length.spread;
    let sure = f64::INFINITY;
    let moved = [
        (Entry::TubeDiameter, tubes(d, none), tubes(-d, none), sure),
        (Entry::TubeWall, tubes(none, w), tubes(none, -w), sure),
        (Entry::WantedReading(0), longer(length.standard), longer(-length.standard), length.freedom),
        (weighed, heavier(1.0 + m), heavier(1.0 - m), sure),
        (Entry::Modulus, stiffer(1.0 + e), stiffer(1.0 - e), sure),
    ];
    let mut parts = Vec::with_capacity(moved.len());
    for (entry, up, down, freedom) in moved {
        parts.push((entry, swing(first(&up?)?, first(&down?)?, freedom)));
    }
    let soft_yoke = DriveShaft { yoke_share: shaft.yoke_share * SOFT_YOKE, ..*shaft };
    let mut spreads: Vec<Spread<AngularVelocity>> = parts.iter().map(|(_, part)| *part).collect();
    spreads.push(rectangular(speed - first(&soft_yoke)?));
    let whole = combined(&spreads);
    let mut causes: Vec<(Entry, f64)> = Vec::new();
    for (entry, part) in parts {
        let share = (part.standard.base() / whole.standard.base()).powi(2);
        let before = causes.iter().take_while(|(_, other)| *other >= share).count();
        if share > 0.0 {
            causes.insert(before, (entry, share));
        }
    }
    Some(First { speed, doubt: whole.expanded(), causes })
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
    let new = built.wanted();
    let unreckoned = |fit: Fit| Finding::impossible(name(fit), why(FitReason::NotReckoned));
    let modes = new.beam().and_then(|beam| beam.modes(ELEMENTS).ok());
    let (Some(modes), Some(first)) = (modes, with_doubt(job, &built, &new)) else {
        return vec![unreckoned(Fit::Elements)];
    };
    let top = top_speed(job).ok();
    let (allowed, source) = allowed_share(job);
    let of = |first: &First| {
        let share = top.map(|top| top.share_of(first.speed, first.doubt));
        let (share, doubt) = share.unzip();
        (share, judged(share, doubt.unwrap_or(0.0), allowed))
    };
    let (share, verdict) = of(&first);
    let verdict = worse(verdict, weighed(job, &built));
    let [_, second, third] = modes.speeds;
    let said = FitSense::Modes { next: [second, third], share };
    let [front, rear] = new.yokes;
    let put_in = [
        Amount::PlainLength(front.length),
        Amount::Mass(front.mass),
        Amount::PlainLength(new.length - front.length - rear.length),
        Amount::PlainLength(rear.length),
        Amount::Mass(rear.mass),
    ];
    let mut finding = speed(Fit::Elements, first.speed, Some(first.doubt), said, verdict)
        .step(Law::Elements, &put_in, Amount::EstimatedSpeed(first.speed))
        .within(Amount::Share(allowed), source)
        .from(&[Source::BeamElements, Source::MaterialFromMemory, Source::DoubtOfElements]);
    finding.causes = first.causes;
    let mut found = vec![finding];
    found.push(match self::first(&built.old) {
        Some(before) => {
            let said = FitSense::OldLength(built.old.length);
            let before = speed(Fit::ElementsBefore, before, None, said, Verdict::Figure);
            before.from(&[Source::BeamElements])
        }
        None => unreckoned(Fit::ElementsBefore),
    });
    if built.soft.iter().any(Option::is_some) {
        found.push(match with_doubt(job, &built, &built.softly(new)) {
            Some(soft) => {
                let (share, verdict) = of(&soft);
                // Where a rigid hold would do, it is the hold that is wrong.
                let least = top.and_then(|top| softest(&new, top.speed, allowed));
                let verdict = match (verdict, least) {
                    (Verdict::Stop(_), Some(least)) => Verdict::Stop(why(FitReason::SoftHold { least })),
                    (verdict, _) => verdict,
                };
                let said = FitSense::Held { by: built.soft, share };
                let finding = speed(Fit::Soft, soft.speed, Some(soft.doubt), said, verdict);
                finding.within(Amount::Share(allowed), source).from(&[Source::BeamElements])
            }
            None => unreckoned(Fit::Soft),
        });
    } else if let Some(rate) = top.and_then(|top| softest(&new, top.speed, allowed)) {
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

/// Yokes that weigh more than the whole shaft are weighed wrong, or it is.
fn weighed(job: &Job, built: &Built) -> Verdict {
    let [front, rear] = built.old.yokes;
    let yokes = front.mass + rear.mass;
    match Fields::of(job).optional(Entry::ShaftMass) {
        Some(whole) if yokes > whole => Verdict::Watch(why(FitReason::YokesHeavier { yokes, whole })),
        _ => Verdict::Good,
    }
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
