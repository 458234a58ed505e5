//! How heavy a trial may be, and what two clips make.

use super::found::{OnTheCar, RunReason, RunSense};
use super::judged::Outcome;
use super::runs::{planes, trial_masses};
use super::solved::{Unsolved, as_mass, doubts};
use super::why;
use crate::job::{Entry, Job};
use crate::mechanics::trial::{Correction, clips, most_trial as most_unbalance};
use crate::quantity::{
    Angle, Base, Force, Length, Mass, Unbalance, centrifugal_force, degrees, weight_of,
};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Need, Sense, Source, Value, Verdict};

/// Times the usual most: a trial then pulls as hard as its end of the shaft weighs.
const ALL_OF_THE_LOAD: f64 = 10.0;
/// How far from the middle two heads can be set so that what they make is known: beyond it a degree astray is over a
/// tenth of it (tan 80° = 5.7 a radian). Our own choice.
const WIDEST_DEGREES: f64 = 80.0;

/// What rests on one end: half of the shaft's weight.
fn load(mass: Mass) -> Force {
    weight_of(mass) * 0.5
}

/// The heaviest trial at the clips' radius.
///
/// # Errors
/// The fields that are needed.
pub fn most_trial(job: &Job) -> Result<Option<Mass>, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (mass, speed) = (fields.mass(Entry::ShaftMass), fields.speed(Entry::RunSpeed));
    let radius = fields.length(Entry::ClipRadius);
    let (Some(mass), Some(speed), Some(radius)) = (mass, speed, radius) else {
        return Err(fields.needs());
    };
    Ok(most_unbalance(load(mass), speed).map(|most| as_mass(most, radius)))
}

/// The trial from which on readings show enough, by what the trials did so far; `None` before they did.
///
/// Formula: U = needed·σ/|H|, or the heaviest trial as many times as its effect was too small. Symbols: σ scatter
/// of a reading, H effect of a weight. Source: proportion.
fn shows_from(job: &Job, outcome: &Outcome) -> Option<Mass> {
    match outcome {
        Ok(solved) => {
            let runs = &solved.runs;
            let least = |correction: &Correction| {
                Unbalance::from_base(correction.needed * runs.scatter / correction.response)
            };
            let masses = solved.corrections.iter().map(|one| as_mass(least(one), runs.radius));
            masses.reduce(|one, other| if other > one { other } else { one })
        }
        Err(Unsolved::Later(RunReason::NoEffect { times, needed })) if *times > 0.0 => {
            let masses = trial_masses(job).into_iter();
            let heaviest = masses.reduce(|one, other| if other > one { other } else { one })?;
            Some(heaviest * (needed / times))
        }
        Err(_) => None,
    }
}

/// What is possible where two heads come down to the most that is allowed only when turned nearly against each other.
///
/// Formula: m = U/(2·r·cos 80°), n′ = n·√(U′/U), since the most goes by 1/n². Symbols: U most allowed, U′ what two
/// heads make at 80°, r their distance from the axis, n speed of the runs. Source: as [`clips::together`].
fn out_of_reach(job: &Job, head: Mass, radius: Length, most: Mass) -> Option<RunReason> {
    let least = as_mass(clips::together(head * radius, degrees(WIDEST_DEGREES))?, radius);
    let share = most.base() / least.base();
    let speed = Fields::of(job).speed(Entry::RunSpeed)?;
    (share < 1.0).then(|| RunReason::NoTrialByHeads { head: head * share, speed: speed * share.sqrt() })
}

pub(super) fn most_trial_finding(job: &Job, outcome: &Outcome) -> Finding {
    let name = Name::OnTheCar(OnTheCar::MostTrial);
    let most = match most_trial(job) {
        Ok(Some(most)) => most,
        Ok(None) => return Finding::impossible(name, crate::stage::Reason::NotComputable),
        Err(needs) => return Finding::missing(name, needs),
    };
    let trials = trial_masses(job);
    let heavier = |times: f64| trials.iter().any(|trial| trial.base() > most.base() * times);
    let mut fields = Fields::of(job);
    let head = fields.mass(Entry::ClipMass);
    let radius = fields.length(Entry::ClipRadius);
    let by_heads = head.zip(radius).and_then(|(head, radius)| out_of_reach(job, head, radius, most));
    let shows = shows_from(job, outcome).filter(|least| *least > most);
    let verdict = if heavier(ALL_OF_THE_LOAD) {
        Verdict::Stop(why(RunReason::TooHeavyTrial { most }))
    } else if let Some(reason) = by_heads {
        Verdict::Watch(why(reason))
    } else if let Some(least) = shows {
        Verdict::Watch(why(RunReason::NoTrialShows { least }))
    } else if heavier(1.0) {
        Verdict::Watch(why(RunReason::HeavyTrial { most }))
    } else if trials.is_empty() {
        Verdict::Figure
    } else {
        Verdict::Good
    };
    let sense = head.zip(radius).map(|(head, radius)| {
        let half = half_angle(head, radius, most * radius);
        Sense::OnTheCar(RunSense::AsClips { head, half, far: by_heads.is_some() })
    });
    let value = Value { amount: Amount::Mass(most), plus_minus: None, sense };
    let mut finding = Finding::known(name, value, verdict);
    let (mass, speed) = (fields.mass(Entry::ShaftMass), fields.speed(Entry::RunSpeed));
    if let (Some(mass), Some(speed), Some(radius)) = (mass, speed, radius) {
        let put_in = [Amount::Mass(mass), Amount::Speed(speed), Amount::PlainLength(radius)];
        finding = finding.step(Law::MostTrial, &put_in, Amount::Mass(most));
    }
    finding.from(&[Source::CommonPractice, Source::BalanceForce])
}

/// What pulls at an end at the runs' speed, and what rests on that end; each where it is known.
pub(super) fn pull(job: &Job, on: Unbalance) -> (Option<Force>, Option<Force>) {
    let mut fields = Fields::of(job);
    let speed = fields.speed(Entry::RunSpeed);
    (speed.map(|speed| centrifugal_force(on, speed)), fields.mass(Entry::ShaftMass).map(load))
}

/// What to say of a correction's pull: the same bounds as a trial's, since a misread one does the same.
pub(super) fn too_hard(pull: Force, load: Force) -> Option<Verdict> {
    let tenth = load / ALL_OF_THE_LOAD;
    if pull > load {
        Some(Verdict::Stop(why(RunReason::TooHeavyCorrection { load })))
    } else if pull > tenth {
        Some(Verdict::Watch(why(RunReason::HeavyCorrection { tenth })))
    } else {
        None
    }
}

/// How far each of two heads stands from the middle between them; `None` where they are lighter together.
fn half_angle(head: Mass, radius: Length, wanted: Unbalance) -> Option<Angle> {
    let toward = crate::mechanics::across::Across::toward(wanted, Angle::from_base(0.0));
    clips::clips(head, radius, toward).ok().map(|clips| clips.half)
}

/// What two heads make together at some half-angles; `None` while a head's mass or radius is not known.
pub fn heads_together(job: &Job) -> Option<Vec<(Angle, Mass)>> {
    let mut fields = Fields::of(job);
    let (head, radius) = (fields.mass(Entry::ClipMass), fields.length(Entry::ClipRadius));
    let (head, radius) = (head?, radius?);
    let rows = clips::table(head * radius)?;
    Some(rows.into_iter().map(|(half, made)| (half, as_mass(made, radius))).collect())
}

/// Where the two screw heads of a plane go, and the middle between them.
pub fn clip_places(job: &Job, number: usize) -> Option<([Angle; 2], Angle)> {
    let solved = super::solved(job).ok()?;
    let (correction, plane) = solved.corrections.iter().zip(planes(job.balance.by)).nth(number)?;
    if !solved.is_worth(*plane, correction) {
        return None;
    }
    let head = Fields::of(job).mass(Entry::ClipMass)?;
    let clips = clips::clips(head, solved.runs.radius, correction.weight).ok()?;
    Some((clips.at, correction.weight.at()))
}

/// How two clips make a correction, for every plane.
pub(super) fn screws(job: &Job, outcome: &Outcome) -> Vec<Finding> {
    let Ok(solved) = outcome else { return Vec::new() };
    let mut fields = Fields::of(job);
    let head = fields.mass(Entry::ClipMass);
    let needs = fields.needs();
    let radius = solved.runs.radius;
    let worth = solved.corrections.iter().zip(planes(job.balance.by));
    let worth = worth.filter(|(correction, plane)| solved.is_worth(**plane, correction));
    let each = worth.map(|(correction, plane)| {
        let name = Name::OnTheCar(OnTheCar::Screws(*plane));
        let Some(head) = head else { return Finding::missing(name, needs.clone()) };
        let wanted = correction.weight;
        match clips::clips(head, radius, wanted) {
            Ok(clips) => {
                let (doubt, _) = doubts(correction);
                let off = (wanted.size() - head * radius).base().abs();
                let alone = off <= doubt.base();
                let sense =
                    RunSense::Screws { half: clips.half, at: clips.at, middle: wanted.at(), alone };
                let value = Value {
                    amount: Amount::Angle(clips.half),
                    plus_minus: None,
                    sense: Some(Sense::OnTheCar(sense)),
                };
                let put_in = [Amount::Mass(as_mass(wanted.size(), radius)), Amount::Mass(head)];
                Finding::known(name, value, Verdict::Figure).step(
                    Law::HeadsApart,
                    &put_in,
                    Amount::Angle(clips.half),
                )
            }
            Err(clips::NoClips::TooLight { .. }) => {
                let needed = as_mass(wanted.size(), radius) * 0.5;
                let reason = why(RunReason::LightHeads { needed });
                Finding { verdict: Verdict::Watch(reason), ..Finding::impossible(name, reason) }
            }
            Err(clips::NoClips::NotComputable) => {
                Finding::impossible(name, crate::stage::Reason::NotComputable)
            }
        }
        .from(&[Source::Geometry])
    });
    each.collect()
}
