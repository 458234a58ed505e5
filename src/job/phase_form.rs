//! The part of a job on the yokes' phase.

use super::{LevelDivision, PHASE_READINGS, PHASE_SITTINGS, PhaseMethod, PhaseTarget, Side, Typed};

/// Phase of the yokes.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct PhaseForm {
    /// How it was measured.
    pub method: PhaseMethod,
    /// Span between the rear yoke's ears.
    pub span: Typed,
    /// Span between the front yoke's ears.
    pub front_span: Typed,
    /// Lines of the level.
    pub level_division: LevelDivision,
    /// How the yokes shall stand to each other.
    pub target: PhaseTarget,
    /// The turn wanted, where it is the mechanic's own.
    pub own_target: Typed,
    /// Most turn allowed.
    pub limit: Typed,
    /// Each time it was measured: before the cut, before tacking, after welding.
    pub sittings: [Sitting; PHASE_SITTINGS],
}

/// The yokes measured once.
#[derive(Clone, Debug, PartialEq)]
pub struct Sitting {
    /// Lifts under one ear of the rear yoke.
    pub lift: Vec<Typed>,
    /// The rear yoke's ear with the gap under it, seen from the rear.
    pub lifted: Side,
    /// Lifts under one ear of the front yoke.
    pub front_lift: Vec<Typed>,
    /// The front yoke's ear with the gap under it, seen from the rear.
    pub front_lifted: Side,
    /// Level across the front yoke's ears.
    pub front_level: Vec<Typed>,
    /// Level across the rear yoke's ears.
    pub rear_level: Vec<Typed>,
    /// From the front yoke's line round the tube to the rear yoke's.
    pub arc: Vec<Typed>,
}

impl Default for Sitting {
    fn default() -> Self {
        let empty = vec![Typed::default(); PHASE_READINGS];
        Sitting {
            lift: empty.clone(),
            lifted: Side::default(),
            front_lift: empty.clone(),
            front_lifted: Side::default(),
            front_level: empty.clone(),
            rear_level: empty.clone(),
            arc: empty,
        }
    }
}
