//! The corrections as findings: what to put on, what is left with it, and how far it can be trusted.

use super::check::is_begun;
use super::found::{Agreement, OnTheCar, Plane, RunReason, RunSense};
use super::runs::{Runs, first_run, planes};
use super::solved::{Solved, Unsolved, as_mass, doubts, front, said};
use super::{reading, size, unsolved, why};
use crate::job::{BalanceBy, Entry, Job};
use crate::mechanics::trial::{
    Correction, Disagreement, FREEDOM_OF_FIVE, Vibration, changed_enough, enough,
};
use crate::quantity::Base;
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Sense, Source, Value, Verdict};

/// Two ends that are told apart worse than this are worth a word. Our own choice.
const WELL_TOLD: f64 = 10.0;

pub(super) type Outcome = Result<Solved, Unsolved>;

/// What to put on, how two clips make it and what is then left, plane by plane.
pub(super) fn put_on(job: &Job, outcome: &Outcome) -> Vec<Finding> {
    let solved = match outcome {
        Ok(solved) => solved,
        Err(why) => {
            return planes(job.balance.by)
                .iter()
                .map(|plane| unsolved(OnTheCar::PutOn(*plane), why))
                .collect();
        }
    };
    let all = || solved.corrections.iter().zip(planes(job.balance.by));
    let mut found: Vec<Finding> =
        all().map(|(correction, plane)| one_put_on(job, solved, *plane, correction)).collect();
    found.extend(size::screws(job, outcome));
    let worth = all().filter(|(correction, plane)| solved.is_worth(**plane, correction));
    found.extend(worth.map(|(correction, plane)| expected(solved, *plane, correction)));
    found
}

fn one_put_on(job: &Job, solved: &Solved, plane: Plane, correction: &Correction) -> Finding {
    let runs = &solved.runs;
    let (doubt, around) = doubts(correction);
    let mass = as_mass(correction.weight.size(), runs.radius);
    let worth = solved.is_worth(plane, correction);
    let unknown = solved.is_unknown(plane, correction);
    // A trial that stays on pulls with it.
    let (on, _) = solved.all_on(correction);
    let (pull, load) = size::pull(job, on.size());
    let too_hard = pull.zip(load).filter(|_| worth).and_then(|(pull, load)| size::too_hard(pull, load));
    // What must not be run is not sent to the check run.
    let may_run = !matches!(too_hard, Some(Verdict::Stop(_)));
    let sense = if solved.is_not_known(plane, correction) {
        RunSense::NotKnown { at: correction.weight.at(), doubt: as_mass(doubt, runs.radius) }
    } else if !worth {
        if around.is_none() { RunSense::Nothing } else { RunSense::StopHere }
    } else {
        RunSense::PutOn {
            end: runs.end,
            at: correction.weight.at(),
            doubt: around,
            radius: runs.radius,
            added: runs.left_on,
            pull,
            check_next: may_run && solved.last_worth() == Some(plane) && !is_begun(job),
        }
    };
    let unlikely = correction.disagreement.and_then(|found| hardly_agree(found, runs.scatter));
    let verdict = if let Some(stop @ Verdict::Stop(_)) = too_hard {
        stop
    } else if unknown {
        Verdict::Watch(why(RunReason::NotKnownEnough))
    } else if correction.effect < correction.needed {
        Verdict::Watch(why(RunReason::SmallEffect { least: correction.needed }))
    } else if let Some(watch) = unlikely {
        watch
    } else if worth && (pull.is_none() || load.is_none()) {
        // Not good before it is known that it can be run with.
        Verdict::Watch(why(RunReason::PullUnknown))
    } else {
        too_hard.unwrap_or(Verdict::Good)
    };
    let value = Value {
        amount: Amount::Mass(mass),
        // What is not known has it in its own sentence.
        plus_minus: (worth || !unknown).then_some(Amount::Mass(as_mass(doubt, runs.radius))),
        sense: Some(Sense::OnTheCar(sense)),
    };
    let finding = Finding::known(Name::OnTheCar(OnTheCar::PutOn(plane)), value, verdict);
    let mut finding = working(finding, solved, correction);
    if runs.by != BalanceBy::Phase && correction.condition <= WELL_TOLD {
        let most = [Amount::Reading(WELL_TOLD)];
        finding = finding.step(Law::LeastSure, &most, Amount::Reading(correction.condition));
    }
    if pull.is_some() { finding.from(&[Source::BalanceForce]) } else { finding }
}

/// The working of a correction, by the way it was found.
fn working(finding: Finding, solved: &Solved, correction: &Correction) -> Finding {
    let runs = &solved.runs;
    let mass = Amount::Mass(as_mass(correction.weight.size(), runs.radius));
    let vibration = |read: Vibration| [Amount::Reading(read.amplitude), Amount::Clock(read.phase)];
    let [first, first_rear] = runs.first;
    match (runs.by, runs.trials.as_slice()) {
        (BalanceBy::Phase, [trial, ..]) => {
            let mut put_in = vibration(first).to_vec();
            put_in.extend(vibration(front(trial.read)));
            put_in.extend([Amount::Mass(trial.mass), Amount::Clock(trial.at)]);
            let law = if runs.left_on { Law::InfluenceLeftOn } else { Law::Influence };
            finding.step(law, &put_in, mass).from(&[Source::TrialWithPhase, Source::DoubtOfRuns])
        }
        (BalanceBy::TwoPlanes, [one, two, ..]) => {
            let mut put_in = Vec::new();
            for read in [first, first_rear].iter().chain(&one.read).chain(&two.read) {
                put_in.extend(vibration(*read));
            }
            let sources = [Source::TrialWithPhase, Source::DoubtOfRuns];
            finding.step(Law::TwoPlaneRuns, &put_in, mass).from(&sources)
        }
        _ => {
            let mut finding = finding;
            let gain = fitted_gain(runs, correction);
            for (row, trial) in runs.trials.iter().enumerate() {
                let Some(gain) = gain else { break };
                let fitted = gain * (trial.weight - correction.weight).size().base();
                let put_in = [
                    Amount::Mass(trial.mass),
                    Amount::Clock(trial.at),
                    Amount::Reading(front(trial.read).amplitude),
                ];
                let law = if row == 0 { Law::TrialFits } else { Law::NextTrialFits };
                finding = finding.step(law, &put_in, Amount::Reading(fitted));
            }
            finding.from(&[Source::TrialWithoutPhase, Source::DoubtOfRuns])
        }
    }
}

/// Amplitude per unbalance that fits all runs best with this correction.
///
/// Formula: g = Σ T·d / Σ d², d = |w − c|, the first run with w = 0 among them. Symbols: T amplitudes, w weights,
/// c correction. Source: least squares. `None` where no run stands away from c.
fn fitted_gain(runs: &Runs, correction: &Correction) -> Option<f64> {
    let [first, _] = runs.first;
    let away = correction.weight.size().base();
    let (mut read, mut squares) = (first.amplitude * away, away * away);
    for trial in &runs.trials {
        let away = (trial.weight - correction.weight).size().base();
        read += front(trial.read).amplitude * away;
        squares += away * away;
    }
    (squares > 0.0).then(|| read / squares)
}

/// What is left to read with the correction on.
fn expected(solved: &Solved, plane: Plane, correction: &Correction) -> Finding {
    let value = Value {
        amount: Amount::Reading(said(correction.expected_left, correction.left_doubt)),
        plus_minus: Some(Amount::Reading(correction.left_doubt)),
        sense: Some(Sense::OnTheCar(RunSense::Was { first: solved.before(plane) })),
    };
    Finding::known(Name::OnTheCar(OnTheCar::Expected(plane)), value, Verdict::Figure)
        .from(&[Source::DoubtOfRuns])
}

/// How much the trials changed, against what is enough; before they are read, what that is.
pub(super) fn effect(job: &Job, outcome: &Outcome) -> Option<Finding> {
    let phase = job.balance.by != BalanceBy::Amplitudes;
    let sources: &[Source] =
        if phase { &[Source::TrialShows, Source::TrialChange] } else { &[Source::TrialShows] };
    let Ok(solved) = outcome else {
        if job.balance.made_for_others().is_some() {
            return None;
        }
        let scatter = Fields::of(job).reading(Entry::RunScatter).filter(|scatter| *scatter > 0.0)?;
        first_run(job)?;
        let least = enough(FREEDOM_OF_FIVE);
        let value = Value {
            amount: Amount::Reading(least * scatter),
            plus_minus: None,
            sense: Some(Sense::OnTheCar(RunSense::TimesScatter { least, phase })),
        };
        let name = Name::OnTheCar(OnTheCar::LeastChange);
        return Some(Finding::known(name, value, Verdict::Figure).from(sources));
    };
    let runs = &solved.runs;
    let correction = solved.corrections.first()?;
    let ends = planes(runs.by).len();
    let changed = |read: &[Vibration; 2]| {
        runs.first.iter().zip(read).take(ends).any(|(first, run)| changed_enough(*first, *run))
    };
    let verdict = if correction.effect < correction.needed {
        Verdict::Watch(why(RunReason::SmallEffect { least: correction.needed }))
    } else if phase && !runs.trials.iter().all(|trial| changed(&trial.read)) {
        Verdict::Watch(why(RunReason::SmallChange))
    } else {
        Verdict::Good
    };
    let finding = reading(OnTheCar::Effect, correction.effect * runs.scatter, None, verdict);
    Some(
        finding
            .within(Amount::Reading(correction.needed * runs.scatter), Source::TrialShows)
            .from(sources),
    )
}

/// What is said of readings that luck alone seldom leaves so far apart.
fn hardly_agree(found: Disagreement, scatter: f64) -> Option<Verdict> {
    let scatter = scatter * (found.chi_squared / found.unlikely).sqrt();
    found.is_unlikely().then_some(Verdict::Watch(why(RunReason::HardlyAgree { scatter })))
}

/// How far the readings disagree, where there are more than the answer needs: as the scatter of a reading from which
/// on luck leaves as much once in a hundred times.
///
/// Formula: s = σ·√(χ²/χ²₀.₉₉), since χ² is counted in σ². Symbols: σ scatter as typed, χ² squares left over, χ²₀.₉₉
/// what luck passes once in a hundred. Source: as `Disagreement`.
pub(super) fn apart(outcome: &Outcome) -> Option<Finding> {
    let (found, scatter, verdict) = match outcome {
        Ok(solved) => {
            let found = solved.corrections.first()?.disagreement?;
            let scatter = solved.runs.scatter;
            (found, scatter, hardly_agree(found, scatter).unwrap_or(Verdict::Good))
        }
        Err(Unsolved::Apart(found, reason, scatter)) => (*found, *scatter, Verdict::Stop(why(*reason))),
        Err(_) => return None,
    };
    let Disagreement { chi_squared, freedom, allowed, .. } = found;
    let agree = match verdict {
        Verdict::Stop(_) => Agreement::No,
        Verdict::Watch(_) => Agreement::Hardly,
        _ => Agreement::Agree,
    };
    let off = Amount::Reading(said(scatter * (chi_squared / allowed).sqrt(), scatter));
    let value = Value {
        amount: off,
        plus_minus: None,
        sense: Some(Sense::OnTheCar(RunSense::ByLuck { freedom, agree })),
    };
    let finding = Finding::known(Name::OnTheCar(OnTheCar::Apart), value, verdict);
    let put_in = [scatter, said(chi_squared, allowed), allowed].map(Amount::Reading);
    let limited = finding.within(Amount::Reading(scatter), Source::LuckOfRuns);
    Some(limited.step(Law::LeftOver, &put_in, off).from(&[Source::TrialWithoutPhase]))
}

/// How well the answer is told one way against the other, where that is worth a word.
pub(super) fn told(outcome: &Outcome) -> Option<Finding> {
    let Ok(solved) = outcome else { return None };
    let condition = solved.corrections.first()?.condition;
    if solved.runs.by == BalanceBy::Phase {
        return None;
    }
    // Where it is sure enough every way, it is a line of the correction's working.
    if condition <= WELL_TOLD {
        return None;
    }
    let verdict = Verdict::Watch(why(RunReason::BarelyTold { condition }));
    let value = Value {
        amount: Amount::Reading(condition),
        plus_minus: None,
        sense: Some(Sense::OnTheCar(RunSense::ToOne { ends: solved.runs.by == BalanceBy::TwoPlanes })),
    };
    let finding = Finding::known(Name::OnTheCar(OnTheCar::Told), value, verdict);
    Some(finding.within(Amount::Reading(WELL_TOLD), Source::DoubtOfRuns))
}
