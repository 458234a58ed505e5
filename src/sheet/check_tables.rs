//! The tables of Check: what each gear comes to, and which tube would do.

use super::amount::amount;
use crate::job::Job;
use crate::quantity::{
    Length, LengthDisplay, as_kilograms, as_millimetres, as_pounds, in_inches, show_number,
    show_road_speed, show_speed, three_figures,
};
use crate::stage::check::{Choice, choices, gears, road_at};
use crate::stage::{Amount, Need, Verdict};

/// A row of the table of gears.
#[derive(Clone, Debug, PartialEq)]
pub struct GearRow {
    /// The gear.
    pub gear: String,
    /// The shaft's speed at the engine's top speed.
    pub shaft: String,
    /// What that is on the road, where tyre and axle are known.
    pub road: String,
}

/// What each gear comes to at the engine's top speed.
pub fn gear_table(job: &Job) -> Vec<GearRow> {
    let display = job.display.lengths();
    let row = |(gear, speed)| GearRow {
        gear: format!("Gear {}", gear + 1),
        shaft: show_speed(speed),
        road: road_at(job, speed).map_or(String::new(), |road| show_road_speed(road, display)),
    };
    gears(job).into_iter().map(row).collect()
}

/// A row of the table of tubes.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeRow {
    /// Diameter and wall, and whether it is the tube of this job.
    pub size: String,
    /// Whirl speed, share, strength and mass, as far as known.
    pub figures: String,
    /// What to make of it.
    pub verdict: Verdict,
}

/// Common tubes with what each comes to in this job, the best first.
///
/// # Errors
/// The fields that are needed.
pub fn tube_table(job: &Job) -> Result<Vec<TubeRow>, Vec<Need>> {
    let display = job.display.lengths();
    Ok(choices(job)?.iter().map(|choice| tube_row(choice, display)).collect())
}

fn tube_row(choice: &Choice, display: LengthDisplay) -> TubeRow {
    let (unit, of): (&str, fn(Length) -> f64) = match display {
        LengthDisplay::Millimetre => ("mm", as_millimetres),
        _ => ("in", in_inches),
    };
    let own = if choice.own { " (yours)" } else { "" };
    let [diameter, wall] = [choice.diameter, choice.wall].map(|size| plain_figures(of(size)));
    let mut figures = format!("whirl speed {}", amount(Amount::EstimatedSpeed(choice.whirl), display));
    if let Some(share) = choice.share {
        figures.push_str(&format!(", top speed {} of it", show_number(share, 2)));
    }
    if let Some(factor) = choice.factor {
        figures.push_str(&format!("; bears {} times the torque", three_figures(factor)));
    }
    let mass = match display {
        LengthDisplay::Millimetre => format!("{} kg", show_number(as_kilograms(choice.mass), 2)),
        _ => format!("{} lb", show_number(as_pounds(choice.mass), 2)),
    };
    figures.push_str(&format!("; {mass} of tube"));
    TubeRow { size: format!("{diameter} × {wall} {unit}{own}"), figures, verdict: choice.verdict }
}

/// A number as a merchant writes it: no zeros that say nothing.
pub(super) fn plain_figures(value: f64) -> String {
    let text = show_number(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
