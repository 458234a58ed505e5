//! Keeping clear: the seam, the lines through the ears, the welds and other weights, and two weights beside
//! them. What goes back and what is kept after balancing are judged alike.

use super::back::{GoesBack, cut};
use super::keep_from_weld;
use super::place::plane;
use super::sense::{Piece, WeightReason};
use crate::job::{End, Entry, Job};
use crate::mechanics::across::Across;
use crate::mechanics::apportion::on_clock;
use crate::mechanics::keep_off::{Band, Obstacle, Sector, beside, ears, hit_along, hit_on_clock};
use crate::mechanics::unbalance::Weight;
use crate::quantity::{Angle, Base, Length, Mass, Unbalance, degrees};
use crate::stage::cut_list::cut_list;
use crate::stage::field::{Fields, read};
use crate::stage::finding::{Reason, Verdict};
use crate::stage::measure::length_change;
use crate::stage::turn::in_force;

/// How far a weight keeps from the tube's seam, to either side: its edge, where its length is known, else
/// its middle. Our own choice.
pub(super) fn keep_from_seam() -> Angle {
    degrees(10.0)
}

/// How far it keeps from the line through the ears, to either side. Our own choice.
pub(super) fn keep_from_ears() -> Angle {
    degrees(15.0)
}

/// A weight as it is to stand on the new shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::stage) struct Standing {
    /// The end it belongs to.
    pub own: End,
    /// What it works.
    pub unbalance: Across<Unbalance>,
    /// Distance of its centre of mass from the axis.
    pub radius: Length,
    /// Distance from the far datum, where that is known.
    pub distance: Option<Length>,
    /// How far it reaches on the clock to either side.
    pub reach: Angle,
    /// How far it reaches along the shaft to either side.
    pub half_width: Length,
}

impl Standing {
    pub(super) fn of(one: &GoesBack, weight: &Weight) -> Standing {
        Standing {
            own: one.own,
            unbalance: weight.unbalance(),
            radius: weight.radius,
            distance: Some(one.distance),
            reach: one.reach,
            half_width: one.half_width,
        }
    }
}

/// The line through the ears of an end's yoke, on the clock: as typed of the cut end's; of the other as far
/// off it as the yokes stand to each other, or are to. `None` while either is not known.
pub(super) fn ear_line(job: &Job, end: End) -> Option<Angle> {
    let line = Fields::of(job).angle(Entry::EarClock)?;
    if end == job.cut.end {
        return Some(line);
    }
    // The turn is that of the rear yoke against the front one.
    let turn = in_force(job).ok()?.best;
    Some(if end == End::Rear { line + turn } else { line - turn })
}

/// How far to keep off an end's ears by eye, where nobody said where they are. What was said and is wrong is
/// to be put right instead.
pub(in crate::stage) fn ears_by_eye(job: &Job, end: End) -> Option<Angle> {
    let wrong = read(job, Entry::EarClock).is_err();
    (!wrong && ear_line(job, end).is_none()).then(keep_from_ears)
}

/// What a weight must keep off round the tube: the seam all along it, the ears of its own end's yoke.
fn sectors(job: &Job, end: End) -> Vec<Sector> {
    let mut all = Vec::new();
    if let Some(at) = Fields::of(job).angle(Entry::SeamClock) {
        all.push(Sector { obstacle: Obstacle::Seam, at, half: keep_from_seam() });
    }
    if let Some(line) = ear_line(job, end) {
        let obstacle = if end == End::Front { Obstacle::FrontEar } else { Obstacle::RearEar };
        all.extend(ears(obstacle, line, keep_from_ears()));
    }
    all
}

/// An entry that a weight is to be kept clear by is wrong: what it must keep off, how far it reaches, and where
/// along the shaft it goes, while that is not known.
fn wrong(job: &Job, one: &Standing) -> bool {
    let wrong = |entry: Entry| read(job, entry).is_err();
    let off = [Entry::SeamClock, Entry::EarClock, Entry::FarWeldLine, Entry::WeldLine];
    let reach = [Entry::StripWidth, Entry::StripThickness];
    off.into_iter().chain(reach).any(wrong) || one.distance.is_none() && wrong(plane(one.own))
}

/// What a weight would stand on round the tube, other weights among it, and the two beside it that do its
/// work.
pub(super) fn forbidden(
    job: &Job,
    one: &Standing,
    others: &[Sector],
) -> Option<(WeightReason, Option<[Piece; 2]>)> {
    let mut all = sectors(job, one.own);
    all.extend(others);
    let at = one.unbalance.at();
    let hit = hit_on_clock(&all, at, one.reach)?;
    let first = hit.first()?;
    let places = beside(&all, at, one.reach);
    let split = places.and_then(|[before, after]| {
        let parts = on_clock(one.unbalance, before, after).ok()?;
        let piece = |clock: Angle, part: Unbalance| Piece {
            clock,
            mass: Mass::from_base(part.base() / one.radius.base()),
            cut: cut(job, part),
        };
        let [one, other] = parts;
        Some([piece(before, one), piece(after, other)])
    });
    let found = split.is_some();
    let reason = match first {
        Obstacle::Seam => WeightReason::OnTheSeam { keep: keep_from_seam(), split: found },
        Obstacle::Weight => WeightReason::OnAWeight { split: found },
        _ => WeightReason::OnTheEars { keep: keep_from_ears(), split: found },
    };
    Some((reason, split))
}

/// Whether a weight stands too near one of these welds.
fn near_a_weld(distance: Length, half_width: Length, welds: [Option<Length>; 2]) -> bool {
    let band = |z: Length| Band { obstacle: Obstacle::RearWeld, z, half: keep_from_weld() };
    let bands: Vec<Band> = welds.into_iter().flatten().map(band).collect();
    hit_along(&bands, distance, half_width).is_none_or(|hit| !hit.is_empty())
}

/// What is wrong with a weight's place along the new shaft, where that is known.
fn along(job: &Job, one: &Standing) -> Option<Verdict> {
    let distance = one.distance?;
    let lengths = length_change(job).ok()?;
    let new_weld = cut_list(job).ok().and_then(|list| list.new_weld());
    let far_weld = Fields::of(job).length(Entry::FarWeldLine);
    // Shortened past the middle, even a weight that stays where it was may stand on thin air.
    if !(0.0..=lengths.wanted.best.base()).contains(&distance.base()) {
        return Some(Verdict::Stop(Reason::OffTheShaft));
    }
    // A weight is welded to the tube: beyond its ends there is a yoke.
    let (place, half) = (distance.base(), one.half_width.base());
    let before = far_weld.is_some_and(|weld| place - half < weld.base());
    if before || new_weld.is_some_and(|weld| place + half > weld.base()) {
        return Some(Verdict::Stop(Reason::Weight(WeightReason::OffTheTube)));
    }
    near_a_weld(distance, one.half_width, [far_weld, new_weld])
        .then(|| Verdict::Watch(Reason::OnTheWeld { keep: keep_from_weld() }))
}

/// What is said of a weight's place on the new shaft, and the two beside it where it must not stand there.
pub(in crate::stage) fn placed(
    job: &Job,
    one: &Standing,
    others: &[Sector],
) -> (Verdict, Option<[Piece; 2]>) {
    if let Some(verdict) = along(job, one) {
        return (verdict, None);
    }
    match forbidden(job, one, others) {
        Some((reason, split)) => (Verdict::Watch(Reason::Weight(reason)), split),
        None if wrong(job, one) => (Verdict::Unjudged(Reason::WrongField), None),
        None => (Verdict::Good, None),
    }
}

/// The same of a weight that goes back.
pub(super) fn judged(job: &Job, one: &GoesBack, weight: &Weight) -> (Verdict, Option<[Piece; 2]>) {
    let Ok(lengths) = length_change(job) else { return (Verdict::Figure, None) };
    match placed(job, &Standing::of(one, weight), &[]) {
        // These weights balanced a tube that is now scrap.
        (Verdict::Good, _) if lengths.lengthens() => (Verdict::Watch(Reason::Lengthened), None),
        other => other,
    }
}
