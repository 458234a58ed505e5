//! The weight that is kept: what is welded on in place of the clips, plane by plane.

use core::f64::consts::TAU;

use super::found::{OnTheCar, Plane, RunReason, RunSense};
use super::judged::Outcome;
use super::runs::planes;
use super::solved::{Solved, as_mass, doubts, rim};
use super::why;
use crate::job::{End, Entry, Job};
use crate::mechanics::across::Across;
use crate::mechanics::trial::Correction;
use crate::mechanics::unbalance::Spot;
use crate::quantity::{Angle, Base, Length, Unbalance};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use crate::stage::weights::{
    Cut, Piece, Standing, Told, cut, ears_by_eye, in_its_way, made, parted, place, placed, spans, told,
};

/// A weight that is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// Its place on the clock.
    pub clock: Angle,
    /// The ± of that at 95 %; `None` where every place is possible.
    pub around: Option<Angle>,
    /// Distance of its centre of mass from the axis.
    pub radius: Length,
    /// Where the clips are taken to sit, from the far datum; `None` while that cannot be told.
    pub distance: Option<Length>,
    /// Nobody said where they sit: so far inside the weld.
    pub inside_weld: Option<Length>,
    /// The strip for it.
    pub cut: Cut,
    /// Where it must not stand: the two that do its work beside that place.
    pub split: Option<[Piece; 2]>,
    /// Beside those: all of it where the nearer one stands is as near as the ± tells.
    pub alone: Option<Angle>,
    /// Nobody said where the ears of its end are: so far to keep off them by eye. Of the first weight alone.
    pub by_eye: Option<Angle>,
    /// The check run was read, and was good.
    pub checked: bool,
    /// A trial weight stays on the car with the clips: it comes off with them.
    pub trial: bool,
}

/// What the check run says of it.
#[derive(Clone, Copy, PartialEq)]
enum Checked {
    NotRead,
    Good,
    Bad,
}

fn checked(check: &[Finding]) -> Checked {
    let bad = |one: &Finding| matches!(one.verdict, Verdict::Watch(_) | Verdict::Stop(_));
    match check {
        check if check.iter().any(bad) => Checked::Bad,
        [_, ..] if check.iter().all(|one| one.verdict == Verdict::Good) => Checked::Good,
        _ => Checked::NotRead,
    }
}

/// What is welded on for each plane whose correction is worth it. `put_on` are the findings that told the clips:
/// what must not even be run is not kept; `check` are those of the check run, which must be good first.
pub(super) fn findings(
    job: &Job,
    outcome: &Outcome,
    put_on: &[Finding],
    check: &[Finding],
) -> Vec<Finding> {
    let Ok(solved) = outcome else { return Vec::new() };
    let there = told(job);
    let (checked, mut said) = (checked(check), false);
    let mut found = Vec::new();
    for (correction, plane) in solved.corrections.iter().zip(planes(job.balance.by)) {
        let clips = Name::OnTheCar(OnTheCar::PutOn(*plane));
        let stopped =
            put_on.iter().any(|one| one.name == clips && matches!(one.verdict, Verdict::Stop(_)));
        if stopped || !solved.is_worth(*plane, correction) {
            continue;
        }
        let name = Name::OnTheCar(OnTheCar::Kept(*plane));
        if checked == Checked::Bad {
            found.push(Finding::later(name, why(RunReason::NotKept)));
            continue;
        }
        let end = end_of(job, *plane);
        let by_eye = ears_by_eye(job, end).filter(|_| !said);
        said |= by_eye.is_some();
        found.push(one(job, solved, name, end, correction, &there, (checked, by_eye)));
    }
    found
}

const fn end_of(job: &Job, plane: Plane) -> End {
    match plane {
        Plane::One => job.balance.end,
        Plane::Front => End::Front,
        Plane::Rear => End::Rear,
    }
}

/// The ± of its place: the farthest point of the correction's region, moved by the trial that stays.
fn around(correction: &Correction, on: Across<Unbalance>, trial: Across<Unbalance>) -> Option<Angle> {
    let aside = |point: Across<Unbalance>| {
        let turned = (point + trial).turned(-on.at());
        turned.right.base().atan2(turned.up.base()).abs()
    };
    let widest = rim(&correction.region).into_iter().map(aside).fold(0.0, f64::max);
    (!correction.region.holds(-trial)).then(|| Angle::from_base(widest))
}

/// The nearer of two places beside one, where it lies within the ± of that.
fn nearest(at: Angle, pieces: [Piece; 2], around: Angle) -> Option<Angle> {
    let off = |piece: &Piece| {
        let turn = (piece.clock - at).base().rem_euclid(TAU);
        turn.min(TAU - turn)
    };
    let [before, after] = &pieces;
    let near = if off(before) < off(after) { before } else { after };
    (off(near) <= around.base()).then_some(near.clock)
}

fn one(
    job: &Job,
    solved: &Solved,
    name: Name,
    own: End,
    correction: &Correction,
    there: &[Told],
    (checked, by_eye): (Checked, Option<Angle>),
) -> Finding {
    let mut fields = Fields::of(job);
    let Some(tube) = fields.length(Entry::TubeDiameter) else {
        return Finding::missing(name, fields.needs());
    };
    // What else is not known here holds nothing up: it is the weights' own, and asked for there. What is wrong of
    // it leaves this unjudged.
    let thick = fields.length(Entry::StripThickness).unwrap_or(Length::from_base(0.0));
    let at = place(job, &mut fields, own);
    let (on, trial) = solved.all_on(correction);
    let spot = Spot { unbalance: on, z: Length::from_base(0.0) };
    let Some(weight) = made(job, spot, (tube + thick) * 0.5) else {
        return Finding::impossible(name, Reason::NotComputable);
    };
    let (reach, half_width) = spans(job, None, on.size());
    let distance = at.map(|at| at.distance);
    let standing = Standing { own, unbalance: on, radius: weight.radius, distance, reach, half_width };
    let others = in_its_way(there, own, distance, half_width);
    let (verdict, split) = placed(job, &standing, &others);
    let verdict = match verdict {
        Verdict::Watch(Reason::Weight(_)) if split.is_none() => {
            Verdict::Watch(why(RunReason::NoPlaceToKeep))
        }
        Verdict::Good if checked == Checked::NotRead => Verdict::Figure,
        verdict => verdict,
    };
    let around = around(correction, on, trial);
    let kept = Kept {
        clock: weight.at,
        around,
        radius: weight.radius,
        distance,
        inside_weld: at.and_then(|at| at.inside_weld),
        cut: cut(job, on.size()),
        split,
        alone: split.zip(around).and_then(|(pieces, around)| nearest(weight.at, pieces, around)),
        by_eye,
        checked: checked == Checked::Good,
        trial: solved.runs.left_on,
    };
    let (doubt, _) = doubts(correction);
    let value = Value {
        amount: Amount::Mass(weight.mass),
        plus_minus: Some(Amount::Mass(as_mass(doubt, weight.radius))),
        sense: Some(Sense::OnTheCar(RunSense::Kept(kept))),
    };
    let finding = Finding::known(name, value, verdict).step(
        Law::Unbalance,
        &[Amount::Mass(weight.mass), Amount::PlainLength(weight.radius)],
        Amount::Unbalance(on.size()),
    );
    let mut sources = vec![Source::DoubtOfRuns];
    if kept.cut != Cut::NotAsked {
        sources.push(Source::PlateOnTube);
    }
    if kept.split.is_some() {
        sources.push(Source::KeepOff);
    }
    sources.push(Source::CommonPractice);
    parted(finding, &weight, kept.cut, &kept.split).from(&sources)
}
