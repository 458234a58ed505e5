//! Cut: where the tube ends, and whether it comes out.

use super::amount::{Amount, plain};
pub use super::cut_list::{CutList, Mark, MarkName, cut_list};
use super::cut_list::{FirstCut, is_off, weld_line_miss};
use super::face;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::length::{division, length_tolerance};
use super::measure::{agreement, loose};
use crate::job::{CutAt, Entry, Job};
use crate::mechanics::phase::arc;
use crate::mechanics::uncertainty::{Spread, combined, of_division, rectangular};
use crate::quantity::{Angle, Base, Length, degrees, inches};

/// How far a finished length reckoned back from the cut list may miss the wanted one: the last
/// thousandth of an inch. Rounding is a million times finer, so a miss is a mistake.
fn closing_tolerance() -> Length {
    inches(0.0005)
}

/// What follows for the cut.
pub fn findings(job: &Job) -> Vec<Finding> {
    let list = cut_list(job);
    let (known, needs): (_, &[Need]) = match &list {
        Ok(list) => (Some(list), &[]),
        Err(needs) => (None, needs),
    };
    let mut found = Vec::new();
    if let Some(list) = known {
        // A longer shaft takes a new tube: its length is what is sawn, so it comes first.
        if list.lengths.lengthens() {
            found.push(new_tube(job, list));
        }
        found.extend([removed_finding(job, list), finished_finding(job, list)]);
        found.extend(weld_line_finding(job, list));
        if list.saws() && !list.lengths.is_within_doubt() {
            found.push(scrap_ring(job, list));
        }
        found.extend(face::spigot_finding(job));
    } else {
        let missing = |name| Finding::missing(name, needs.to_vec());
        found.extend([missing(Name::TubeRemoved), missing(Name::FinishedLength)]);
    }
    found.push(face::allowed_finding(job, known, needs));
    found.extend(face::found_finding(job, known));
    found.push(clock_step(job));
    found
}

/// The new tube, or the piece to take out, alone.
pub(super) fn tube_finding(job: &Job) -> Finding {
    match cut_list(job) {
        Ok(list) if list.lengths.lengthens() => new_tube(job, &list),
        Ok(list) => removed_finding(job, &list),
        Err(needs) => Finding::missing(Name::TubeRemoved, needs),
    }
}

fn removed_finding(job: &Job, list: &CutList) -> Finding {
    let removed = list.removed.best;
    let mut optional = Fields::of(job);
    for entry in [Entry::FarWeldLine, Entry::Spigot, Entry::Shoulder, Entry::Trim] {
        optional.optional_length(entry);
    }
    let half_checked = !optional.needs().is_empty();
    let shorter_than_spigot = list.spigot.is_some_and(|spigot| removed.base() < spigot.base());
    let verdict = match list.stop {
        Some(reason) => Verdict::Stop(reason),
        None if list.lengths.is_within_doubt() => Verdict::Watch(Reason::DifferenceWithinDoubt),
        None if list.lengths.lengthens() => Verdict::Watch(Reason::Lengthened),
        None if removed.base() <= 0.0 => Verdict::Watch(Reason::WeldDrawsMore),
        None if shorter_than_spigot => Verdict::Watch(Reason::FaceOverSpigot),
        None if half_checked => Verdict::Unjudged(Reason::WrongField),
        None => match (list.first_cut(job), list.lengths.remark) {
            (Some(FirstCut::NotProved), _) => Verdict::Unjudged(Reason::FirstCutNotProved),
            (Some(FirstCut::Near(reason)), _) | (_, Some(reason)) => Verdict::Watch(reason),
            _ if list.weld_line.is_some() && weld_line_miss(job, list).is_none() => {
                Verdict::Watch(Reason::WeldLineNotProved)
            }
            _ => loose(list.removed.spread.expanded()),
        },
    };
    let sense = if removed.base() < 0.0 { Sense::Add } else { Sense::Remove };
    let value = Value {
        amount: Amount::Length(Length::from_base(removed.base().abs())),
        plus_minus: Some(plain(list.removed.spread.expanded())),
        sense: Some(sense),
    };
    let (old, wanted) = (list.lengths.old.best, list.lengths.wanted.best);
    Finding::known(Name::TubeRemoved, value, verdict)
        .step(
            Law::ClosingEquation,
            &[plain(old), plain(wanted), plain(list.gap), plain(list.shrinkage)],
            plain(removed),
        )
        .from(&[Source::Geometry, Source::WeldShrinkage, Source::Gum])
        .caused_by(&list.budget)
}

fn finished_finding(job: &Job, list: &CutList) -> Finding {
    let (Some(finished), Some(weld)) = (list.finished, list.weld_line) else {
        let mut fields = Fields::of(job);
        fields.length(Entry::WeldLine);
        return Finding::missing(Name::FinishedLength, fields.needs());
    };
    if let Some(reason) = list.stop {
        return Finding::impossible(Name::FinishedLength, reason);
    }
    let (gap, shrinkage) = (list.gap, list.shrinkage);
    // What was cut off is known by the old length; the tape is laid on twice, and the weld draws as
    // it will. The wanted length is the aim, and its own doubt stands with it.
    let laid_off = of_division(division(job));
    let old = list.lengths.old.spread;
    let doubt = combined(&[old, laid_off, laid_off, rectangular(shrinkage)]).expanded();
    let wanted = list.lengths.wanted.best;
    let miss = (finished - wanted).base().abs();
    let verdict = if miss > closing_tolerance().base() {
        Verdict::Stop(Reason::NotComputable)
    } else {
        loose(doubt)
    };
    let value = Value {
        amount: Amount::Length(finished),
        plus_minus: Some(plain(doubt)),
        sense: Some(Sense::Closes { wanted }),
    };
    let end = weld - list.removed.best;
    Finding::known(Name::FinishedLength, value, verdict)
        .step(Law::TubeEnd, &[plain(weld), plain(list.removed.best)], plain(end))
        .step(
            Law::FinishedBack,
            &[plain(end), plain(gap), plain(list.lengths.old.best), plain(weld), plain(shrinkage)],
            plain(finished),
        )
        .within(Amount::Length(length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry])
}

/// The old weld line against the yoke's own shoulder, where that was measured.
fn weld_line_finding(job: &Job, list: &CutList) -> Option<Finding> {
    let miss = weld_line_miss(job, list)?;
    let (by, doubt) = (Length::from_base(miss.best.base().abs()), miss.spread.expanded());
    let verdict = match miss {
        miss if is_off(&miss) => Verdict::Stop(Reason::WeldLineDisagrees { by }),
        _ => agreement(by, doubt, Reason::WeldLineDisagrees { by }),
    };
    let weld = list.weld_line?;
    let old = list.lengths.bench.best;
    let shoulder = old - weld - miss.best;
    let value = Value { amount: Amount::Length(by), plus_minus: Some(plain(doubt)), sense: None };
    let finding = Finding::known(Name::WeldLine, value, verdict)
        .step(Law::ShoulderSum, &[plain(old), plain(shoulder), plain(weld)], plain(miss.best))
        .within(plain(doubt), Source::Gum);
    Some(finding)
}

fn scrap_ring(job: &Job, list: &CutList) -> Finding {
    if let Some(reason) = list.stop {
        return Finding::impossible(Name::ScrapRing, reason);
    }
    let mut fields = Fields::of(job);
    let (kerf, trim) = (fields.length(Entry::Kerf), fields.optional_length(Entry::Trim));
    // The old weld is opened on the tube's side of its line, the tube cut clear of it on the yoke's
    // side: there only the cut to length leaves its slot between the lines.
    let (first, slots) = match job.cut.at {
        CutAt::ClearOfIt => (fields.length(Entry::ClearBy), 1.0),
        CutAt::OldWeld => (Some(Length::from_base(0.0)), 2.0),
    };
    let needs = fields.needs();
    let (Some(kerf), Some(first), true) = (kerf, first, needs.is_empty()) else {
        return Finding::missing(Name::ScrapRing, needs);
    };
    let between = list.removed.best - first - trim.unwrap_or(Length::from_base(0.0));
    let ring = between - kerf * slots;
    if ring.base() <= 0.0 {
        // What the first slot leaves before the new face is filed off, not sawn.
        let left = between - kerf * (slots - 1.0);
        let verdict = if left.base() < 0.0 {
            Verdict::Stop(Reason::SlotTakesTooMuch { kerf })
        } else {
            Verdict::Watch(Reason::LessThanAKerf { slots: kerf * slots })
        };
        let value = Value {
            amount: Amount::Length(if left.base() < 0.0 { list.removed.best } else { left }),
            plus_minus: Some(plain(list.removed.spread.expanded())),
            sense: Some(Sense::FileBack),
        };
        return Finding::known(Name::ScrapRing, value, verdict).from(&[Source::Geometry]);
    }
    let line = of_division(division(job));
    let sawn = Spread { standard: line.standard * slots, ..line };
    let doubt = combined(&[list.removed.spread, sawn]).expanded();
    let value = Value { amount: Amount::Length(ring), plus_minus: Some(plain(doubt)), sense: None };
    Finding::known(Name::ScrapRing, value, Verdict::Figure)
        .step(Law::RingLength, &[plain(between), plain(kerf * slots)], plain(ring))
        .from(&[Source::Geometry])
}

fn new_tube(job: &Job, list: &CutList) -> Finding {
    if let Some(reason) = list.stop {
        return Finding::impossible(Name::NewTube, reason);
    }
    let mut fields = Fields::of(job);
    let (weld, far) = (fields.length(Entry::WeldLine), fields.length(Entry::FarWeldLine));
    let (Some(weld), Some(far)) = (weld, far) else {
        return Finding::missing(Name::NewTube, fields.needs());
    };
    let tube = weld - far - list.removed.best;
    let value = Value {
        amount: Amount::Length(tube),
        plus_minus: Some(plain(list.removed.spread.expanded())),
        sense: None,
    };
    Finding::known(Name::NewTube, value, Verdict::Watch(Reason::Lengthened))
        .step(Law::NewTubeLength, &[plain(weld), plain(far), plain(-list.removed.best)], plain(tube))
        .from(&[Source::Geometry])
}

/// The arc from one clock mark to the next.
fn clock_step(job: &Job) -> Finding {
    let mut fields = Fields::of(job);
    let Some(diameter) = fields.length(Entry::TubeDiameter) else {
        return Finding::missing(Name::ClockStep, fields.needs());
    };
    let count = job.cut.marks.count();
    let step = arc(diameter, degrees(360.0 / count as f64));
    let value = Value { amount: Amount::Length(step), plus_minus: None, sense: None };
    Finding::known(Name::ClockStep, value, Verdict::Figure)
        .step(Law::ClockStep, &[plain(diameter), Amount::Count(count)], plain(step))
        .from(&[Source::Geometry])
}

/// Every clock mark with its arc from the witness line, clockwise; none while the diameter is not known.
pub fn clock_arcs(job: &Job) -> Vec<(Angle, Length)> {
    let Some(diameter) = Fields::of(job).length(Entry::TubeDiameter) else { return Vec::new() };
    let count = job.cut.marks.count();
    let at = |mark: usize| degrees(360.0 * mark as f64 / count as f64);
    (1..=count).map(|mark| (at(mark), arc(diameter, at(mark)))).collect()
}
