//! The whole job as plain text: what a screen reader, a printer or a driveline shop can use.

use super::caution::caution;
use super::finding::{causes, need, shaft_line, shown, title, verdict_reason, verdict_word};
use super::label::{Worded, cut_yoke, far_datum, stage_title};
use super::mark::{mark_nearest, mark_note, mark_title};
use super::source::source;
use super::working::working;
use crate::job::{Entry, Job};
use crate::quantity::show_length;
use crate::stage::{Answer, Finding, Name, Stage, Standing, cut::cut_list, standing, whole};

/// The job in plain text, stage by stage.
pub fn report(job: &Job) -> String {
    let mut lines = vec![
        format!("Drive shaft job: {}", job.name),
        format!("Kind of shaft: {}", job.measure.kind.word()),
        format!(
            "Wanted length measured {}. The slip, while a length was taken: {}",
            job.measure.route.word(),
            job.measure.yoke_at.word()
        ),
        format!("Lengths shown in {}", job.display.word()),
        format!("Cut at the {} end. Every place counts from {}.", cut_yoke(job), far_datum(job)),
        "Clock positions: clockwise from the witness mark at 12, seen from the rear.".to_owned(),
        String::new(),
    ];
    for stage in Stage::ALL {
        lines.push(stage_title(stage).to_ascii_uppercase());
        let found = stage.findings(job);
        // What nobody asked for hurts nobody.
        let cautions = if standing(&found) == Standing::IfWanted { &[] } else { stage.cautions() };
        for which in cautions {
            lines.push(format!("  ! {}", caution(*which)));
        }
        for finding in &found {
            finding_lines(job, finding, &mut lines);
        }
        if stage == Stage::Cut {
            cut_lines(job, &mut lines);
        }
        lines.push(String::new());
    }
    lines.push(shaft_line(&whole(job)));
    lines.join("\n")
}

fn finding_lines(job: &Job, finding: &Finding, lines: &mut Vec<String>) {
    let display = job.display.lengths();
    let mut line = format!("  {}:", title(finding.name));
    if let Some(shown) = shown(finding, job) {
        line.push_str(&format!(" {}", shown.value));
        if let Some(doubt) = shown.plus_minus {
            line.push_str(&format!(" {doubt}"));
        }
        if let Some(sense) = shown.sense {
            line.push_str(&format!(". {sense}"));
        }
    }
    line.push_str(&format!(" [{}]", verdict_word(&finding.verdict)));
    lines.push(line);
    // What the mechanic noted of a weight stands beside it.
    if let Name::PutBack(row) = finding.name
        && let Some(note) = job.typed(Entry::WeightNote(row)).filter(|note| !note.is_blank())
    {
        lines.push(format!("      note: {}", note.text));
    }
    if let Some(reason) = verdict_reason(finding, display) {
        lines.push(format!("      {reason}"));
    }
    if let Answer::Missing(needs) = &finding.answer {
        for missing in needs {
            lines.push(format!("      needs {}", need(job, missing)));
        }
    }
    if let Some(line) = causes(job, finding) {
        lines.push(format!("      {line}"));
    }
    for step in &finding.working {
        let line = working(step, display);
        lines.push(format!("      {}", line.law));
        lines.push(format!("        {}", line.numbers));
    }
    for which in finding.all_sources() {
        lines.push(format!("      from: {}", source(which)));
    }
}

fn cut_lines(job: &Job, lines: &mut Vec<String>) {
    let Ok(list) = cut_list(job) else { return };
    let display = job.display.lengths();
    for mark in &list.marks {
        lines.push(format!(
            "  | {} {}: {}",
            show_length(mark.from_far, display),
            mark_title(mark.name),
            mark_note(job, mark.name, list.lengths.lengthens())
        ));
        if let Some(nearest) = mark_nearest(mark, display) {
            lines.push(format!("  |     {nearest}"));
        }
    }
}
