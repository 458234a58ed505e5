//! The new weld: what the places along the tube say of it, how far it opens, from which side it is tacked,
//! and how it pulled.

use super::amount::Amount;
use super::bent::{SURELY_NOT, axis, begun, bent, place_along, shaft, vees};
use super::dial::{Turn, turn};
use super::field::Fields;
use super::finding::{Finding, Law, Name, Reason, Sense, Source, TackSide, Value, Verdict};
use super::judged::{may_say_where, offset_doubt, offset_verdict, vector_step};
use crate::job::{End, Entry, Job, PassKind, SetUp};
use crate::mechanics::across::Across;
use crate::mechanics::centreline::{Cause, Suspect, opening};
use crate::mechanics::runout::RunOut;
use crate::quantity::{Base, Length, degrees};

/// What the places of a pass say of the new weld.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AtWeld {
    /// The shaft is bent, and the places leave open whether there.
    Open,
    /// Surely it is straight there; this bends the shaft.
    Straight(Cause),
    /// The two pieces stand side by side, at no angle.
    Step,
    /// They meet at an angle.
    Kink {
        /// The offset that it makes at the weld about the joints' centres, toward its high side.
        size: Across<Length>,
        /// Radius of the 95 % circle round that.
        circle: Length,
        /// What it makes at the place that was asked for, as the set-up shows it.
        here: Across<Length>,
        /// What there is beside it.
        beside: Option<Cause>,
    },
}

/// What the places of a pass say of the new weld; `None` where they are too
/// few to ask, or find the shaft straight.
pub(super) fn at_weld(job: &Job, pass: usize, place: usize) -> Option<AtWeld> {
    if begun(job, pass).len() < 2 {
        return None;
    }
    let explained = bent(job, pass).ok()?.explained.ok().filter(|explained| !explained.straight)?;
    let z = place_along(job, place).ok();
    let kink = |kink: &Suspect, beside: Option<Cause>| AtWeld::Kink {
        size: kink.size,
        circle: kink.circle,
        here: z.map_or(Across::zero(), |z| kink.own(z)),
        beside,
    };
    let possible = |cause: Cause| explained.possible().find(|suspect| suspect.cause == cause);
    if let Some(alone) = possible(Cause::Kink) {
        return Some(if alone.is_seen() { kink(alone, None) } else { AtWeld::Open });
    }
    if possible(Cause::Step).is_some() {
        return Some(AtWeld::Step);
    }
    if let Some(pair) = explained.pair.filter(|_| explained.pairs == 1) {
        let both = [(pair.one, pair.other), (pair.other, pair.one)];
        let found = both.iter().find(|(one, _)| one.cause == Cause::Kink && one.is_seen());
        return Some(found.map_or(AtWeld::Open, |(one, other)| kink(one, Some(other.cause))));
    }
    // What these places do not show is not ruled out by them.
    let ruled_out = |cause: Cause| {
        explained.single.iter().any(|suspect| suspect.cause == cause && suspect.luck < SURELY_NOT)
    };
    let sure = ruled_out(Cause::Kink) && ruled_out(Cause::Step);
    let best = explained.possible().next().filter(|_| sure);
    Some(best.map_or(AtWeld::Open, |best| AtWeld::Straight(best.cause)))
}

/// Whether a kink at the new weld reads low on its high side at a place, since the dial stands on the piece
/// that swings beyond both vees. Only where vees, place and weld are known.
fn kink_is_reversed(job: &Job, place: usize) -> bool {
    let vees = vees(job, &mut Fields::of(job));
    let (Some(_), Ok(shaft), Ok(z)) = (vees, shaft(job), place_along(job, place)) else { return false };
    shaft.kink_shown(axis(job, shaft.length, vees), z) < 0.0
}

/// How much the joint opens at the rim while the tube is moved. By the kink, where the places along the tube
/// tell it; else by this place alone, where it is typed: without it nothing can be said, and it is asked
/// for at its field.
pub(super) fn opens(job: &Job, place: usize, weld: Option<AtWeld>, turn: &Turn) -> Option<Finding> {
    if turn.welded() {
        return None;
    }
    let kink = match weld {
        // What no tilting mends, or may not mend, has no joint to open for it.
        Some(AtWeld::Open | AtWeld::Straight(_) | AtWeld::Step) => return None,
        Some(AtWeld::Kink { size, circle, .. }) => Some((size, circle)),
        None => None,
    };
    let typed = job.typed(Entry::PlaceAlong(place)).is_some_and(|typed| !typed.is_blank());
    // The rule is for a shaft read about its joints. In vees and on centres it is not, and beyond a tail
    // that is held by the tube the end with a rear weld swings the other way.
    let about_joints = match job.truing.set_up {
        SetUp::Joints => true,
        SetUp::Gearbox => job.cut.end == End::Front,
        SetUp::Vees | SetUp::Centres => false,
    };
    let seen = turn.run_out.offset_is_seen() && may_say_where(turn);
    if kink.is_none() && !(typed && about_joints && seen) {
        return None;
    }
    let mut fields = Fields::of(job);
    let shaft = fields.sum(shaft(job));
    let along = match kink {
        Some(_) => shaft.map(|shaft| shaft.weld),
        None => fields.sum(place_along(job, place)),
    };
    let diameter = fields.length(Entry::TubeDiameter);
    let (Some(shaft), Some(along), Some(diameter)) = (shaft, along, diameter) else {
        // A help, and no more: the stage does not wait for it.
        return Some(Finding {
            verdict: Verdict::Figure,
            ..Finding::missing(Name::JointOpens, fields.needs())
        });
    };
    let (high, doubt) = kink.unwrap_or((turn.run_out.offset, offset_doubt(turn)));
    let offset = high.size();
    let of = |length: Length| opening(length, along, &shaft, diameter);
    let (Some(opens), Some(doubt)) = (of(offset), of(doubt)) else {
        return Some(Finding {
            verdict: Verdict::Figure,
            ..Finding::impossible(Name::JointOpens, Reason::OffTheShaft)
        });
    };
    let fine = Amount::FineLength;
    let value = Value {
        amount: fine(opens),
        plus_minus: Some(fine(doubt)),
        // However the taps are aimed, a straight joint is open no more on the low side than on the high.
        sense: Some(Sense::OpenAt((-high).at())),
    };
    let plain = Amount::PlainLength;
    Some(
        Finding::known(Name::JointOpens, value, Verdict::Figure)
            .step(
                Law::JointOpens,
                &[plain(diameter), fine(offset), plain(shaft.length), plain(along), plain(shaft.weld)],
                fine(opens),
            )
            .from(&[Source::Geometry]),
    )
}

/// From which side to tack, and to weld.
pub(super) fn order_of_welding(
    job: &Job,
    place: usize,
    weld: Option<AtWeld>,
    turn: &Turn,
    limit: Length,
) -> Option<Finding> {
    // What is not true yet, or cannot be told, is not tacked.
    if matches!(offset_verdict(turn, limit), Verdict::Stop(_) | Verdict::Watch(Reason::OffsetNotSeen)) {
        return None;
    }
    let name = match turn.kind {
        PassKind::AsFitted => Name::TackFrom,
        PassKind::Tacked => Name::WeldFrom,
        PassKind::Welded => return None,
    };
    if !may_say_where(turn) {
        return None;
    }
    let seen = turn.run_out.offset_is_seen();
    let (from, side) = match weld {
        // A weld that draws one side in would bend what is straight there.
        Some(AtWeld::Straight(_) | AtWeld::Step) => (degrees(0.0), TackSide::Any),
        Some(AtWeld::Kink { size, .. }) => (size.at(), TackSide::Kink),
        Some(AtWeld::Open) | None if !seen => (degrees(0.0), TackSide::Any),
        Some(AtWeld::Open) | None if kink_is_reversed(job, place) => {
            ((-turn.run_out.offset).at(), TackSide::Kink)
        }
        Some(AtWeld::Open) | None => (turn.run_out.offset.at(), TackSide::High),
    };
    let value = Value {
        amount: Amount::Clock(from),
        plus_minus: None,
        sense: Some(Sense::InThisOrder { from, side }),
    };
    Some(Finding::known(name, value, Verdict::Figure).from(&[Source::CommonPractice]))
}

/// How far the weld pulled: the last turn when it was tacked against the first one after that weld. Turns after
/// that one are heat's, and a weld that was tacked again begins anew.
pub(super) fn weld_pull(job: &Job, pass: usize, place: usize) -> Option<Finding> {
    let is = |kind: PassKind| {
        move |pass: &usize| job.truing.passes.get(*pass).is_some_and(|pass| pass.kind == kind)
    };
    let first = (0..=pass).rev().take_while(is(PassKind::Welded)).last()?;
    let tacked = (0..first).rev().take_while(is(PassKind::Tacked));
    let before = tacked.into_iter().find_map(|pass| turn(job, pass, place).ok())?;
    let after = &(first..=pass).find_map(|pass| turn(job, pass, place).ok())?;
    let (from, to) = (before.run_out.offset, after.run_out.offset);
    let pull: Across<Length> = to - from;
    let both = |of: fn(&RunOut) -> Length| of(&before.run_out).base().hypot(of(&after.run_out).base());
    // The same rule as for one offset: seen over three times its standard uncertainty, else the circle.
    let seen = pull.size().base() > 3.0 * both(|run_out| run_out.offset_standard);
    let doubt =
        both(if seen { |run_out| run_out.offset_plus_minus } else { |run_out| run_out.offset_circle });
    let value = Value {
        amount: Amount::FineLength(pull.size()),
        plus_minus: Some(Amount::FineLength(Length::from_base(doubt))),
        sense: (may_say_where(&before) && may_say_where(after)).then_some(if seen {
            Sense::At(pull.at())
        } else {
            Sense::LeaveAlone
        }),
    };
    let finding = Finding::known(Name::WeldPull, value, Verdict::Figure);
    Some(vector_step(finding, Law::PullVector, to, from).from(&[Source::LeastSquaresCircle]))
}
