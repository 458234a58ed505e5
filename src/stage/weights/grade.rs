//! The run-out judged: the grade reached at top speed, what a bow makes of it, what would cancel it, and
//! whether to drive.

use super::back::{cut, made, strip};
use super::left::{PLANES, half_of};
use super::log::{behind_front, weight_doubt};
use super::run_out::{From, OutOfBalance, run_out};
use super::sense::{Drive, There, WeightReason, WeightSense};
use crate::job::{Entry, Job};
use crate::mechanics::apportion::at_places;
use crate::mechanics::unbalance::{Grade, grade_reached};
use crate::mechanics::whirl::{RIGID_SHARE, growth, is_rigid};
use crate::quantity::{AngularVelocity, Base, Length, Mass, Unbalance, centrifugal_force, inches};
use crate::stage::amount::Amount;
use crate::stage::check::whirl_speed;
use crate::stage::field::Fields;
use crate::stage::finding::{
    Answer, Blocked, Finding, Law, Name, Reason, Sense, Source, Value, Verdict,
};

/// Where a weight goes that nobody gave a place: so far inside the weld. Our own choice.
fn inside_weld() -> Length {
    inches(1.0)
}

/// What the run-out adds, from whether to drive down to the weights that would cancel it. It waits for
/// nothing: what is missing for it holds nothing up, since the dial's limit judges the tube.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let figure = |finding: Finding| Finding { verdict: Verdict::Figure, ..finding };
    let found = match run_out(job) {
        Ok(found) => found,
        Err(blocked) => return vec![figure(Finding::blocked(Name::RunOutGrade, blocked))],
    };
    let mut all = vec![match judged_by(job) {
        Ok(by) => grade(&found, &by),
        Err(blocked) => figure(Finding::blocked(Name::RunOutGrade, blocked)),
    }];
    let top = Fields::of(job).speed(Entry::TopSpeed);
    let names = [Name::RunOutFront, Name::RunOutRear];
    for ((name, plane), doubt) in names.into_iter().zip(PLANES).zip(found.doubt) {
        let share = plane(found.shares);
        let (size, seen) = (share.size(), share.size().base() > doubt.base());
        let value = Value {
            amount: Amount::Unbalance(size),
            plus_minus: Some(Amount::Unbalance(doubt)),
            sense: seen.then(|| Sense::At(share.at())),
        };
        let mut finding = Finding::known(name, value, Verdict::Figure);
        if let Some(top) = top {
            finding = pull(finding, size, top);
        }
        all.push(finding.from(&[Source::RunOutAdds, Source::DoubtOfRunOut]));
    }
    if let Ok(by) = judged_by(job) {
        all.extend(grown(&found, &by));
    }
    all.extend(cancelling(job, &found));
    all
}

/// What the grade is reckoned with.
struct By {
    mass: Mass,
    top: AngularVelocity,
    whirl: AngularVelocity,
}

fn judged_by(job: &Job) -> Result<By, Blocked> {
    let mut fields = Fields::of(job);
    let (mass, top) = (fields.mass(Entry::ShaftMass), fields.speed(Entry::TopSpeed));
    let whirl = match whirl_speed(job) {
        Ok(whirl) => Some(whirl),
        Err(Blocked::Missing(needs)) => {
            fields.also(&needs);
            None
        }
        Err(blocked) => return Err(blocked),
    };
    match (mass, top, whirl) {
        (Some(mass), Some(top), Some(whirl)) => Ok(By { mass, top, whirl }),
        _ => Err(Blocked::Missing(fields.needs())),
    }
}

fn pull(finding: Finding, size: Unbalance, top: AngularVelocity) -> Finding {
    finding.step(
        Law::PullForce,
        &[Amount::Unbalance(size), Amount::Speed(top)],
        Amount::Force(centrifugal_force(size, top)),
    )
}

/// The worse of both planes, with half of the mass: its unbalance, its ±, and both as grades.
fn worse(found: &OutOfBalance, by: &By) -> Option<(Unbalance, f64, f64)> {
    let of = |unbalance: Unbalance| grade_reached(unbalance, by.mass * 0.5, by.top);
    let mut worst: Option<(Unbalance, f64, f64)> = None;
    for (plane, doubt) in PLANES.into_iter().zip(found.doubt) {
        let size = plane(found.shares).size();
        let (reached, doubt) = (of(size)?, of(doubt)?);
        if worst.is_none_or(|(_, most, more)| reached + doubt > most + more) {
            worst = Some((size, reached, doubt));
        }
    }
    worst
}

/// Whether to drive it, by the grade that the worse plane comes to.
fn grade(found: &OutOfBalance, by: &By) -> Finding {
    let name = Name::RunOutGrade;
    let (Some((size, reached, doubt)), Some(rigid)) = (worse(found, by), is_rigid(by.top, by.whirl))
    else {
        return Finding::impossible(name, Reason::NotComputable);
    };
    let (verdict, drive) = verdict(found, rigid, reached, doubt);
    let value = Value {
        amount: Amount::Grade(reached),
        plus_minus: Some(Amount::Grade(doubt)),
        sense: drive.map(|drive| Sense::Weight(WeightSense::Drive(drive))),
    };
    let mut finding = Finding::known(name, value, verdict)
        .step(
            Law::MassOfParts,
            &[Amount::Mass(found.tube_mass), Amount::Mass(found.yokes)],
            Amount::Mass(by.mass),
        )
        .step(
            Law::GradeReached,
            &[Amount::Unbalance(size), Amount::Speed(by.top), Amount::Mass(by.mass)],
            Amount::Grade(reached),
        )
        .step(
            Law::WhirlShare,
            &[Amount::Speed(by.top), Amount::EstimatedSpeed(by.whirl)],
            Amount::Share(by.top.base() / by.whirl.base()),
        );
    finding = pull(finding, size, by.top);
    if let Some(half) = half_of(Grade::G16, by.mass, by.top) {
        let put_in = [Amount::Mass(by.mass), Amount::Speed(by.top)];
        finding = finding.step(Law::PermittedShare, &put_in, Amount::Unbalance(half));
    }
    let sixteen = Grade::G16.millimetres_per_second();
    finding.within(Amount::Grade(sixteen), Source::BalanceGrades).from(&[
        Source::RunOutAdds,
        Source::DoubtOfRunOut,
        Source::RigidShaft,
    ])
}

/// The verdict, and what to do; nothing to do yet where it is to be read again first.
fn verdict(found: &OutOfBalance, rigid: bool, reached: f64, doubt: f64) -> (Verdict, Option<Drive>) {
    let (sixteen, forty) = (Grade::G16.millimetres_per_second(), Grade::G40.millimetres_per_second());
    let watch = |reason| (Verdict::Watch(Reason::Weight(reason)), Some(Drive::Gently));
    if !rigid {
        let reason = Reason::Weight(WeightReason::NotRigid { share: RIGID_SHARE });
        return (Verdict::Unjudged(reason), Some(Drive::Shop));
    }
    let good = reached + doubt <= sixteen;
    match found.from {
        _ if good && !found.welded => (Verdict::Unjudged(Reason::NotWelded), None),
        From::OtherAxis if good => (Verdict::Watch(Reason::SetUpHides), Some(Drive::Gently)),
        _ if good => (Verdict::Good, Some(Drive::Freely)),
        // A guess judges nothing: it says where to read.
        From::OnePlace => (Verdict::Figure, Some(Drive::Guess)),
        _ if reached > forty => {
            (Verdict::Stop(Reason::Weight(WeightReason::OverForty)), Some(Drive::Shop))
        }
        _ if reached + doubt > forty => watch(WeightReason::NearForty),
        _ if reached > sixteen => watch(WeightReason::OverSixteen),
        _ => watch(WeightReason::NearSixteen),
    }
}

/// What a bow makes of it at top speed; nothing at the whirl speed and past it, where there is no such
/// figure.
fn grown(found: &OutOfBalance, by: &By) -> Option<Finding> {
    let times = growth(by.top, by.whirl)?;
    let (_, still, _) = worse(found, by)?;
    let value = Value {
        amount: Amount::Times(times),
        plus_minus: None,
        sense: Some(Sense::Weight(WeightSense::Grows { still, grown: still * times })),
    };
    let put_in = [Amount::Speed(by.top), Amount::EstimatedSpeed(by.whirl)];
    let finding = Finding::known(Name::BowGrows, value, Verdict::Figure);
    Some(finding.step(Law::Growth, &put_in, Amount::Times(times)).from(&[Source::FirstMode]))
}

/// The two weights that would cancel it, where there is something to be seen to cancel. A guess is none.
fn cancelling(job: &Job, found: &OutOfBalance) -> Vec<Finding> {
    let seen = |(plane, doubt): (super::left::Plane, Unbalance)| {
        plane(found.shares).size().base() > doubt.base()
    };
    if found.from == From::OnePlace || !PLANES.into_iter().zip(found.doubt).any(seen) {
        return Vec::new();
    }
    let [from, to] = found.tube;
    let mut fields = Fields::of(job);
    let typed = [Entry::FrontPlane, Entry::RearPlane]
        .map(|entry| fields.length(entry).map(|distance| behind_front(job, distance, found.length)));
    let [front, rear] = typed;
    let places = [front.unwrap_or(from + inside_weld()), rear.unwrap_or(to - inside_weld())];
    let on_tube = |place: &Length| (from.base()..=to.base()).contains(&place.base());
    let Some(spots) =
        at_places(-found.shares, found.length, places).filter(|_| places.iter().all(on_tube))
    else {
        let reason = Reason::OffTheShaft;
        return vec![Finding {
            verdict: Verdict::Figure,
            ..Finding::impossible(Name::CancelFront, reason)
        }];
    };
    let thick = strip(job).map_or(0.0, |(stock, _)| stock.thickness.base());
    let radius = Length::from_base((found.diameter.base() + thick) / 2.0);
    let names = [Name::CancelFront, Name::CancelRear];
    let each = names.into_iter().zip(spots).zip(typed);
    let finding = |((name, spot), typed): ((Name, _), Option<Length>)| {
        let weight = made(job, spot, radius)?;
        let there = There {
            clock: weight.at,
            distance: behind_front(job, weight.z, found.length),
            thick: None,
            cut: cut(job, spot.unbalance.size()),
            split: None,
            inside_weld: typed.is_none().then(inside_weld),
        };
        let (least, ..) = weight_doubt();
        let sense = if weight.mass.base() < least.base() {
            WeightSense::TooLight
        } else {
            WeightSense::There(there)
        };
        let value = Value {
            amount: Amount::Mass(weight.mass),
            plus_minus: None,
            sense: Some(Sense::Weight(sense)),
        };
        let put_in = [Amount::Mass(weight.mass), Amount::PlainLength(weight.radius)];
        let work = Amount::Unbalance(spot.unbalance.size());
        let finding = Finding::known(name, value, Verdict::Figure);
        Some(finding.step(Law::Unbalance, &put_in, work).from(&[Source::TwoPlanes]))
    };
    each.filter_map(finding).filter(|one| !matches!(one.answer, Answer::Impossible(_))).collect()
}
