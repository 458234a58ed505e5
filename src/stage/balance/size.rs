//! How heavy a trial may be, and what two clips make.

use super::found::{OnTheCar, RunReason, RunSense};
use super::runs::{planes, trial_masses};
use super::solved::{as_mass, doubts};
use super::why;
use crate::job::{Entry, Job};
use crate::mechanics::trial::{clips, most_trial as most_unbalance};
use crate::quantity::{Angle, Base, Force, Length, Mass, Unbalance, centrifugal_force};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Need, Sense, Source, Value, Verdict};

/// Acceleration of a falling body in m/s², exact by definition (standard gravity, 1901).
const FALL: f64 = 9.806_65;
/// Times the usual most: a trial then pulls as hard as its end of the shaft weighs.
const ALL_OF_THE_LOAD: f64 = 10.0;

/// What rests on one end: half of the shaft's weight.
fn load(mass: Mass) -> Force {
    Force::from_base(0.5 * mass.base() * FALL)
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

pub(super) fn most_trial_finding(job: &Job) -> Finding {
    let name = Name::OnTheCar(OnTheCar::MostTrial);
    let most = match most_trial(job) {
        Ok(Some(most)) => most,
        Ok(None) => return Finding::impossible(name, crate::stage::Reason::NotComputable),
        Err(needs) => return Finding::missing(name, needs),
    };
    let trials = trial_masses(job);
    let heavier = |times: f64| trials.iter().any(|trial| trial.base() > most.base() * times);
    let verdict = if trials.is_empty() {
        Verdict::Figure
    } else if heavier(ALL_OF_THE_LOAD) {
        Verdict::Stop(why(RunReason::TooHeavyTrial { most }))
    } else if heavier(1.0) {
        Verdict::Watch(why(RunReason::HeavyTrial { most }))
    } else {
        Verdict::Good
    };
    let mut fields = Fields::of(job);
    let head = fields.mass(Entry::ClipMass);
    let radius = fields.length(Entry::ClipRadius);
    let sense = head.zip(radius).map(|(head, radius)| {
        let half = half_angle(head, radius, most * radius);
        Sense::OnTheCar(RunSense::AsClips { head, half })
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
pub(super) fn screws(job: &Job, outcome: &Result<super::Solved, super::Unsolved>) -> Vec<Finding> {
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
                let sense = RunSense::Screws { at: clips.at, middle: wanted.at(), alone };
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
