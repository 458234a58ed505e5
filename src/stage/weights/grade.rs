//! The run-out judged: the grade reached at top speed, what a bow makes of it, what would cancel it, and
//! whether to drive.

use super::back::{cut, made, strip};
use super::left::{PLANES, half_of, pull};
use super::log::{behind_front, weight_doubt};
use super::place::{Place, place};
use super::run_out::{From, OutOfBalance, run_out};
use super::sense::{Drive, There, WeightReason, WeightSense};
use crate::job::{End, Entry, Job};
use crate::mechanics::residual;
use crate::mechanics::unbalance::{Grade, grade_reached};
use crate::mechanics::whirl::{RIGID_SHARE, growth, is_rigid};
use crate::quantity::{AngularVelocity, Base, Length, Mass, Unbalance};
use crate::stage::amount::Amount;
use crate::stage::check::whirl_speed;
use crate::stage::field::Fields;
use crate::stage::finding::{
    Answer, Blocked, Finding, Law, Name, Reason, Sense, Source, Value, Verdict,
};
use crate::stage::truing;

/// What the run-out adds, from whether to drive down to the weights that would cancel it. It waits for
/// nothing: what is missing for it holds nothing up, since the dial's limit judges the tube.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let figure = |finding: Finding| Finding { verdict: Verdict::Figure, ..finding };
    let found = match run_out(job) {
        Ok(found) => found,
        Err(blocked) => return vec![figure(Finding::blocked(Name::RunOutGrade, blocked))],
    };
    let by = judged_by(job);
    let mut all = vec![match &by {
        Ok(by) => grade(&found, by),
        Err(blocked) => figure(Finding::blocked(Name::RunOutGrade, blocked.clone())),
    }];
    let top = Fields::of(job).top_speed();
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
    if let Ok(by) = by {
        all.extend(grown(&found, &by));
        // Before welding it is read again, and a shaft that bows is not cancelled by two weights.
        if found.welded && is_rigid(by.top, by.whirl) == Some(true) {
            all.extend(cancelling(job, &found));
        }
    }
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
    let (mass, top) = (fields.mass(Entry::ShaftMass), fields.top_speed());
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

/// How grave a plane's grade is, the gravest last.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Level {
    /// Inside G 16 with its ±, bowed out too.
    Good,
    /// Inside it as it was read, but not bowed out.
    Grows,
    NearSixteen,
    OverSixteen,
    NearForty,
    OverForty,
}

/// A plane's unbalance, what it comes to as a grade with half of the mass, and how grave that is.
#[derive(Clone, Copy)]
struct Plane {
    size: Unbalance,
    reached: f64,
    doubt: f64,
    level: Level,
}

fn level(from: From, reached: f64, doubt: f64, times: f64) -> Level {
    let (sixteen, forty) = (Grade::G16.millimetres_per_second(), Grade::G40.millimetres_per_second());
    let most = reached + doubt;
    // A guess is over only where all that its ± leaves open is.
    let surely = if from.is_guess() { reached - doubt } else { reached };
    match () {
        () if surely > forty => Level::OverForty,
        () if most > forty => Level::NearForty,
        () if surely > sixteen => Level::OverSixteen,
        () if most > sixteen => Level::NearSixteen,
        () if most * times > sixteen => Level::Grows,
        () => Level::Good,
    }
}

/// The graver of both planes: of two as grave, the one that may come to more.
fn worse(found: &OutOfBalance, by: &By) -> Option<Plane> {
    let of = |unbalance: Unbalance| grade_reached(unbalance, by.mass * 0.5, by.top);
    // Past the whirl speed there is no such figure, and nothing is judged.
    let times = growth(by.top, by.whirl).unwrap_or(1.0);
    let mut worst: Option<Plane> = None;
    for (plane, doubt) in PLANES.into_iter().zip(found.doubt) {
        let size = plane(found.shares).size();
        let (reached, doubt) = (of(size)?, of(doubt)?);
        let level = level(found.from, reached, doubt, times);
        let graver = |known: Plane| {
            level > known.level || level == known.level && reached + doubt > known.reached + known.doubt
        };
        if worst.is_none_or(graver) {
            worst = Some(Plane { size, reached, doubt, level });
        }
    }
    worst
}

/// Whether to drive it, by the grade that the worse plane comes to.
fn grade(found: &OutOfBalance, by: &By) -> Finding {
    let name = Name::RunOutGrade;
    let (Some(plane), Some(rigid)) = (worse(found, by), is_rigid(by.top, by.whirl)) else {
        return Finding::impossible(name, Reason::NotComputable);
    };
    let Plane { size, reached, doubt, level } = plane;
    let (verdict, drive) = verdict(found, rigid, level);
    let value = Value {
        amount: Amount::Grade(reached),
        plus_minus: Some(Amount::Grade(doubt)),
        sense: Some(Sense::Weight(WeightSense::RunOut {
            drive,
            pass: found.pass,
            welded: found.welded,
        })),
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

/// The verdict, and what to do; nothing to do before it is welded, for then it is read again.
fn verdict(found: &OutOfBalance, rigid: bool, level: Level) -> (Verdict, Option<Drive>) {
    let drive = |drive: Drive| found.welded.then_some(drive);
    let watch = |reason| (Verdict::Watch(Reason::Weight(reason)), drive(Drive::Gently));
    if !rigid {
        let reason = Reason::Weight(WeightReason::NotRigid { share: RIGID_SHARE });
        return (Verdict::Unjudged(reason), Some(Drive::Shop));
    }
    match (level, found.from) {
        (Level::OverForty, _) => {
            (Verdict::Stop(Reason::Weight(WeightReason::OverForty)), drive(Drive::Shop))
        }
        (Level::Good, _) if !found.welded => (Verdict::Unjudged(Reason::NotWelded), None),
        _ if !found.welded => (Verdict::Unjudged(Reason::Weight(WeightReason::AfterWelding)), None),
        (Level::Good, From::OtherAxis) => (Verdict::Watch(Reason::SetUpHides), drive(Drive::Gently)),
        (Level::Good, From::Places(_) | From::OnePlace) => (Verdict::Good, drive(Drive::Freely)),
        // A guess judges nothing else: it says where to read.
        (_, From::OnePlace) => (Verdict::Figure, drive(Drive::Guess)),
        (_, From::Ends) => (Verdict::Figure, drive(Drive::Ends)),
        (Level::NearForty, _) => watch(WeightReason::NearForty),
        (Level::OverSixteen, _) => watch(WeightReason::OverSixteen),
        (Level::NearSixteen, _) => watch(WeightReason::NearSixteen),
        (Level::Grows, _) => watch(WeightReason::GrowsPastSixteen),
    }
}

/// What a bow makes of it at top speed; nothing at the whirl speed and past it, where there is no such
/// figure.
fn grown(found: &OutOfBalance, by: &By) -> Option<Finding> {
    let times = growth(by.top, by.whirl)?;
    let Plane { reached: still, .. } = worse(found, by)?;
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
    if found.from.is_guess() || !PLANES.into_iter().zip(found.doubt).any(seen) {
        return Vec::new();
    }
    let held = |reason| {
        let finding = Finding::impossible(Name::CancelFront, reason);
        vec![Finding { verdict: Verdict::Figure, ..finding }]
    };
    // A crooked tube is trued, not hidden behind weights.
    let read = truing::first_read(job, found.pass);
    let is_stop = |finding: &Finding| matches!(finding.verdict, Verdict::Stop(_));
    if truing::findings(job, found.pass, read).iter().any(is_stop) {
        return held(Reason::Weight(WeightReason::TrueItFirst));
    }
    let mut fields = Fields::of(job);
    let ends = [End::Front, End::Rear].map(|end| place(job, &mut fields, end));
    // What cannot be read stands at its field, and the two wait for it.
    let [Some(front), Some(rear)] = ends else { return Vec::new() };
    let places = [front, rear].map(|place| behind_front(job, place.distance, found.length));
    let Some(spots) = residual::cancelling(found.shares, found.length, found.tube, places) else {
        return held(Reason::OffTheShaft);
    };
    let thick = strip(job).map_or(0.0, |(stock, _)| stock.thickness.base());
    let radius = Length::from_base((found.diameter.base() + thick) / 2.0);
    let names = [Name::CancelFront, Name::CancelRear];
    let each = names.into_iter().zip(spots).zip([front, rear]);
    let finding = |((name, spot), place): ((Name, _), Place)| {
        let weight = made(job, spot, radius)?;
        let there = There {
            clock: weight.at,
            distance: place.distance,
            thick: None,
            cut: cut(job, spot.unbalance.size()),
            split: None,
            inside_weld: place.inside_weld,
            around: None,
            by_eye: None,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::across::Across;
    use crate::mechanics::unbalance::Shares;
    use crate::quantity::{as_gram_millimetres, gram_millimetres, grams, millimetres, rpm};

    /// The size in the plane that is judged by, of planes with these sizes and ±, in g·mm.
    fn judged(front: (f64, f64), rear: (f64, f64)) -> f64 {
        let up = |size: f64| Across::toward(gram_millimetres(size), crate::quantity::degrees(0.0));
        let found = OutOfBalance {
            shares: Shares { front: up(front.0), rear: up(rear.0) },
            doubt: [front.1, rear.1].map(gram_millimetres),
            from: From::Places(3),
            pass: 0,
            welded: true,
            length: millimetres(1500.0),
            tube: [100.0, 1400.0].map(millimetres),
            tube_mass: grams(6000.0),
            yokes: grams(4000.0),
            diameter: millimetres(80.0),
        };
        let by = By { mass: grams(10_000.0), top: rpm(3000.0), whirl: rpm(6000.0) };
        as_gram_millimetres(worse(&found, &by).unwrap().size)
    }

    #[test]
    fn the_graver_plane_tells() {
        // From U = 9549.30·G·m/n, half of 10 kg at 3000 rpm: G 16 is 254.6 g·mm, G 40 is 636.6. Surely
        // over goes before what may be further over, over before near, and of two as grave the larger.
        assert_eq!(judged((640.0, 1.0), (400.0, 500.0)).round(), 640.0);
        assert_eq!(judged((400.0, 500.0), (640.0, 1.0)).round(), 640.0);
        assert_eq!(judged((260.0, 1.0), (200.0, 200.0)).round(), 260.0);
        assert_eq!(judged((100.0, 10.0), (90.0, 30.0)).round(), 90.0);
    }
}
