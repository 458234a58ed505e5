//! The tube as the drawings need it: where the welds, the seam and the ears are, old places and new.

use super::back::{GoesBack, going_back};
use super::clear::{ear_line, keep_from_ears, keep_from_seam};
use super::keep_from_weld;
use super::log::{Logged, all_logged};
use super::told::{Told, told};
use crate::job::{End, Entry, Job};
use crate::quantity::{Angle, Length};
use crate::stage::cut_list::cut_list;
use crate::stage::field::Fields;
use crate::stage::measure::length_change;

/// The tube and the weights on it. Distances are from the far datum.
#[derive(Clone, Debug, PartialEq)]
pub struct Lay {
    /// Joint to joint, old and new.
    pub lengths: [Length; 2],
    /// The weld that stays, and the new one.
    pub welds: [Option<Length>; 2],
    /// How far weights keep off a weld.
    pub weld_keep: Length,
    /// The tube's seam, and how far weights keep off it.
    pub seam: Option<(Angle, Angle)>,
    /// The line through the ears of the front yoke and of the rear one, and how far weights keep off it.
    pub ears: [Option<(Angle, Angle)>; 2],
    /// What came off.
    pub old: Vec<Logged>,
    /// What goes back.
    pub new: Vec<GoesBack>,
    /// The same where it is told to stand: the two that do its work where it must not stand itself.
    pub told: Vec<Told>,
}

/// The tube as it lies; `None` while the lengths are not known.
pub fn lay(job: &Job) -> Option<Lay> {
    let lengths = length_change(job).ok()?;
    let mut fields = Fields::of(job);
    let far = fields.length(Entry::FarWeldLine);
    let new = cut_list(job).ok().and_then(|list| list.new_weld());
    let (old, _) = all_logged(job);
    Some(Lay {
        lengths: [lengths.old.best, lengths.wanted.best],
        welds: [far, new],
        weld_keep: keep_from_weld(),
        seam: fields.angle(Entry::SeamClock).map(|at| (at, keep_from_seam())),
        ears: [End::Front, End::Rear].map(|end| ear_line(job, end).map(|at| (at, keep_from_ears()))),
        old,
        told: told(job),
        new: going_back(job).into_iter().filter_map(|(_, found)| found.ok()).collect(),
    })
}
