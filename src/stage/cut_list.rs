//! The cut list: every place on one line from the far datum, in its order.

use super::field::Fields;
use super::finding::{Need, Reason};
use super::length::{LAST_BIT, LengthChange, division, length_change, length_tolerance};
use crate::job::{CutAt, Entry, Job};
use crate::mechanics::budget::Budget;
use crate::mechanics::cut::{finished_length, tube_removed};
use crate::mechanics::uncertainty::{Measured, combined, of_division, rectangular};
use crate::quantity::{Base, Length, inches};

/// A line of the cut list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkName {
    /// The weld at the far end.
    FarWeld,
    /// The old weld line.
    OldWeld,
    /// First cut where the old weld is not opened but left on a stub.
    FirstCut,
    /// The new face of the tube.
    TubeEnd,
    /// Where the saw goes in, when something is left on to be filed.
    SawLine,
    /// The far side of the slot that the cut to length leaves.
    SlotEnd,
    /// How deep the spigot will reach into the tube.
    SpigotReach,
    /// Middle of the new weld.
    NewWeld,
    /// Centre of the joint at the cut end when all is welded.
    NewJoint,
    /// Centre of the joint at the cut end before.
    OldJoint,
}

/// A line of the cut list with its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What is there.
    pub name: MarkName,
    /// Distance from the far datum.
    pub from_far: Length,
    /// The nearer of the two old welds, and how far out from it, + away from the far joint: what a
    /// tape can be hooked on or laid against.
    pub nearest: Option<(MarkName, Length)>,
}

/// The cut, with every place on one line from the far datum.
#[derive(Clone, Debug)]
pub struct CutList {
    /// Lengths.
    pub lengths: LengthChange,
    /// New welds: one where the tube is cut, two where it is replaced.
    pub new_welds: f64,
    /// Root gap of all new welds together.
    pub gap: Length,
    /// Shrinkage of all new welds together.
    pub shrinkage: Length,
    /// Tube to take out; negative to add.
    pub removed: Measured<Length>,
    /// The same with what each measurement does to it.
    pub budget: Budget<Entry>,
    /// Old weld line.
    pub weld_line: Option<Length>,
    /// Depth of the spigot.
    pub spigot: Option<Length>,
    /// Marks in the order of the far datum; none while something is wrong with the places.
    pub marks: Vec<Mark>,
    /// Finished length reckoned back.
    pub finished: Option<Length>,
    /// What forbids cutting by these places.
    pub stop: Option<Reason>,
}

/// The cut list. Without the old weld line it holds the tube to take out and no places.
///
/// # Errors
/// The fields that are needed.
pub fn cut_list(job: &Job) -> Result<CutList, Vec<Need>> {
    let mut fields = Fields::of(job);
    let lengths = fields.sum(length_change(job));
    // A longer shaft gets new tube, and new tube has a new weld at both ends.
    let new_welds = if lengths.as_ref().is_some_and(LengthChange::lengthens) { 2.0 } else { 1.0 };
    let (gap, shrinkage) = (fields.length(Entry::RootGap), fields.length(Entry::Shrinkage));
    let (Some(lengths), Some(gap), Some(shrinkage)) = (lengths, gap, shrinkage) else {
        return Err(fields.needs());
    };
    let (gap, shrinkage) = (gap * new_welds, shrinkage * new_welds);
    // How much a weld draws is known no better than between nothing and twice the usual.
    let draw = Measured { best: shrinkage, spread: rectangular(shrinkage) };
    let budget = lengths
        .budget
        .clone()
        .plus(1.0, &Budget::exact(gap))
        .plus(-1.0, &Budget::of(Entry::Shrinkage, draw));
    let removed = Measured {
        best: tube_removed(lengths.old.best, lengths.wanted.best, gap, shrinkage),
        ..budget.measured()
    };
    // What is wrong with these is said by the findings that rest on them alone.
    let mut optional = Fields::of(job);
    let mut list = CutList {
        lengths,
        new_welds,
        gap,
        shrinkage,
        removed,
        budget,
        weld_line: optional.length(Entry::WeldLine),
        spigot: optional.length(Entry::Spigot),
        marks: Vec::new(),
        finished: None,
        stop: None,
    };
    let far_weld = optional.length(Entry::FarWeldLine);
    list.stop = list.why_not(job, far_weld);
    if let Some(weld) = list.weld_line {
        let end = weld - removed.best;
        list.finished = Some(finished_length(end, weld, list.lengths.old.best, gap, shrinkage));
        let proved = !matches!(list.first_cut(job), Some(FirstCut::NotProved));
        if proved && list.stop.is_none() && !list.lengths.is_within_doubt() {
            list.lay_off(job, weld, far_weld);
        }
    }
    Ok(list)
}

/// How a first cut clear of the old weld lies.
pub(super) enum FirstCut {
    /// It misses spigot and new face.
    Free,
    /// It misses the spigot by less than its ±.
    Near(Reason),
    /// It must not be made.
    Forbidden(Reason),
    /// Not known: a size is missing.
    NotProved,
}

/// The longest yoke there is likely to be, weld line to joint centre. Our own choice; beyond it the weld
/// line was measured from the wrong joint.
fn longest_yoke() -> Length {
    inches(16.0)
}

/// Whether a miss of the weld line is more than its ± and than a finished length may be off.
pub(super) fn is_off(miss: &Measured<Length>) -> bool {
    miss.best.base().abs() > miss.spread.expanded().base().max(length_tolerance().base())
}

/// By how much the old weld line misses the place that the yoke's own shoulder says it has, and how
/// well that is known; `None` where the shoulder was not measured.
pub(super) fn weld_line_miss(job: &Job, list: &CutList) -> Option<Measured<Length>> {
    let mut fields = Fields::of(job);
    let (weld, shoulder) = (list.weld_line?, fields.optional_length(Entry::Shoulder)?);
    let line = of_division(division(job));
    // Both were measured on the bench, with a slip in the shaft as it was there.
    let bench = list.lengths.bench;
    let spread = combined(&[bench.spread, line, line]);
    Some(Measured { best: bench.best - shoulder - weld, spread })
}

impl CutList {
    /// The place of a mark.
    pub fn place(&self, name: MarkName) -> Option<Length> {
        self.marks.iter().find(|mark| mark.name == name).map(|mark| mark.from_far)
    }

    /// Where the new weld will be, from the far datum: for tube that is replaced, at the new shoulder.
    pub fn new_weld(&self) -> Option<Length> {
        self.weld_line.map(|weld| weld - self.removed.best)
    }

    /// There is a piece to saw out.
    pub fn saws(&self) -> bool {
        !self.lengths.lengthens() && self.removed.best.base() > 0.0
    }

    /// What forbids cutting by these places, the gravest first.
    fn why_not(&self, job: &Job, far_weld: Option<Length>) -> Option<Reason> {
        let zero = Length::from_base(0.0);
        if self.lengths.misleads() {
            return self.lengths.remark;
        }
        let weld = self.weld_line?;
        let left = weld - self.removed.best - far_weld.unwrap_or(zero);
        let two_spigots = self.spigot.unwrap_or(zero) * 2.0;
        let miss = weld_line_miss(job, self);
        let beyond = self.lengths.bench.best - weld;
        if beyond.base() > longest_yoke().base() {
            Some(Reason::WeldLineFar { beyond })
        } else if let Some(miss) = miss.filter(is_off) {
            Some(Reason::WeldLineDisagrees { by: Length::from_base(miss.best.base().abs()) })
        } else if left.base() <= 0.0 {
            Some(Reason::MoreThanTheTube)
        } else if left.base() <= two_spigots.base() {
            Some(Reason::SpigotWontGoIn)
        } else {
            match self.first_cut(job) {
                Some(FirstCut::Forbidden(reason)) => Some(reason),
                _ => None,
            }
        }
    }

    /// How a first cut clear of the old weld lies; `None` where none is made.
    pub(super) fn first_cut(&self, job: &Job) -> Option<FirstCut> {
        if job.cut.at == CutAt::OldWeld || !self.saws() {
            return None;
        }
        let mut fields = Fields::of(job);
        let (clear, kerf) = (fields.length(Entry::ClearBy), fields.length(Entry::Kerf));
        let (Some(clear), Some(kerf), Some(spigot)) = (clear, kerf, self.spigot) else {
            return Some(FirstCut::NotProved);
        };
        // The slot lies on the yoke's side of its line, and the spigot ends short of it.
        let (least, removed) = (spigot + kerf, self.removed.best);
        let line = of_division(division(job));
        let doubt = combined(&[line, line, line]).expanded();
        let spare = (clear - least).base();
        Some(if least.base() > removed.base() {
            FirstCut::Forbidden(Reason::OpenTheWeld)
        } else if clear.base() > removed.base() {
            FirstCut::Forbidden(Reason::CutTooFarIn { removed })
        } else if spare < -LAST_BIT {
            FirstCut::Forbidden(Reason::CutOnSpigot { least })
        } else if spare < doubt.base() {
            FirstCut::Near(Reason::CutNearSpigot { least: least + doubt })
        } else {
            FirstCut::Free
        })
    }

    /// Lays the marks off, each in its order.
    fn lay_off(&mut self, job: &Job, weld: Length, far_weld: Option<Length>) {
        let mut optional = Fields::of(job);
        let [kerf, trim, clear] =
            [Entry::Kerf, Entry::Trim, Entry::ClearBy].map(|entry| optional.optional_length(entry));
        let (end, pushed_in) = (weld - self.removed.best, self.lengths.pushed_in);
        let mut places = vec![
            (MarkName::OldWeld, Some(weld)),
            (MarkName::OldJoint, Some(self.lengths.bench.best)),
            (MarkName::NewJoint, self.finished.map(|finished| finished - pushed_in)),
            (MarkName::FarWeld, far_weld),
        ];
        // With nothing to take out there is no second cut to mark.
        if self.saws() {
            let trim = trim.filter(|trim| trim.base() > 0.0);
            let saw = end + trim.unwrap_or(Length::from_base(0.0));
            let first = clear.filter(|_| job.cut.at == CutAt::ClearOfIt).map(|clear| weld - clear);
            places.extend([
                (MarkName::TubeEnd, Some(end)),
                (MarkName::SawLine, trim.map(|_| saw)),
                (MarkName::SlotEnd, kerf.map(|kerf| saw + kerf)),
                (MarkName::FirstCut, first),
                (MarkName::SpigotReach, self.spigot.map(|spigot| end + self.gap - spigot)),
            ]);
        }
        if self.saws() || self.lengths.lengthens() {
            // Middle of the last gap: new tube has one more gap before it, at its far end.
            let middle = self.gap - self.gap / (2.0 * self.new_welds);
            places.push((MarkName::NewWeld, Some(end + middle)));
        }
        for (name, from_far) in places.into_iter().filter_map(|(name, place)| Some((name, place?))) {
            let welds = [(MarkName::FarWeld, far_weld), (MarkName::OldWeld, Some(weld))];
            let mut nearest: Option<(MarkName, Length)> = None;
            for (feature, at) in welds.into_iter().filter_map(|(feature, at)| Some((feature, at?))) {
                let out = from_far - at;
                let nearer = nearest.is_none_or(|(_, known)| out.base().abs() < known.base().abs());
                if nearer && feature != name {
                    nearest = Some((feature, out));
                }
            }
            let at = self.marks.partition_point(|known| known.from_far.base() <= from_far.base());
            self.marks.insert(at, Mark { name, from_far, nearest });
        }
    }
}
