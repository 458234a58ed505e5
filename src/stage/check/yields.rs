//! What the tube yields at, by its grade or by its paper.

use crate::job::{Entry, Grade, Job, TubeMaterial};
use crate::mechanics::grade;
use crate::quantity::Pressure;
use crate::stage::field::Fields;
use crate::stage::finding::{Need, Source};

/// What the tube yields at in tension beside its weld, where it is weakest, and where that comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Yield {
    /// Beside the weld.
    pub at_weld: Pressure,
    /// Where it comes from.
    pub source: Source,
}

/// What the tube yields at.
///
/// # Errors
/// The field that is needed.
pub fn tube_yield(job: &Job) -> Result<Yield, Vec<Need>> {
    let mut fields = Fields::of(job);
    let by_table = |of: grade::Grade| {
        let strength = of.strength();
        let source = match strength.source {
            grade::Source::A513Drawn => Source::YieldDrawn,
            grade::Source::A513Welded => Source::YieldAsWelded,
            grade::Source::Aluminium => Source::YieldAluminium,
        };
        Yield { at_weld: strength.weld_zone.unwrap_or(strength.yields_at), source }
    };
    let steel = match job.check.load.grade {
        Grade::AsWelded => Some(grade::Grade::AsWelded),
        Grade::Drawn1020 => Some(grade::Grade::Drawn1020),
        Grade::Drawn1026 => Some(grade::Grade::Drawn1026),
        Grade::OwnYield => None,
    };
    match (job.tube.material, steel) {
        (TubeMaterial::Steel, Some(grade)) => return Ok(by_table(grade)),
        (TubeMaterial::Aluminium, _) if fields.is_empty(Entry::OwnYield) => {
            return Ok(by_table(grade::Grade::Aluminium6061));
        }
        _ => {}
    }
    let own = fields.quantity(Entry::OwnYield);
    let own: Pressure = own.ok_or_else(|| fields.needs())?;
    let softened = by_table(grade::Grade::Aluminium6061).at_weld;
    let is_aluminium = job.tube.material == TubeMaterial::Aluminium;
    let at_weld = if is_aluminium && softened < own { softened } else { own };
    Ok(Yield { at_weld, source: Source::OwnLimit })
}
