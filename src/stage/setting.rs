//! How well a slope is known that is set to make two others agree.

use super::line::{MeasuredLine, axle_spread, of_length, rise_spread};
use crate::job::Entry;
use crate::mechanics::uncertainty::{Spread, combined};
use crate::quantity::{Angle, Base, Length};

/// A slope that is set to make two others agree.
pub(super) struct Setting {
    /// How often the shaft's slope comes in: not at all where both ends shall be parallel, twice where
    /// they shall lean to each other.
    pub(super) times: f64,
    /// From what the end is turned about to its joint.
    pub(super) lever: Length,
    /// From the axle's centre forward to the rear joint.
    pub(super) arm: Length,
    /// How far the pinion's nose has risen then, under power.
    pub(super) nose: Angle,
}

impl MeasuredLine {
    /// The spread of such a setting, to first order.
    ///
    /// Formula: c·(1 + n·l/L) = n·(σ₁ − p·ν/L) ∓ σ₀ − σ₂ − r; each slope counts as in that. The
    /// instrument's own error cancels between what it read, so it counts where heights stand for its
    /// reading of the shaft.
    /// Symbols: c change; n times, l lever, p arm, ν nose of the [`Setting`]; L joint to joint; σ slopes of
    /// gearbox, shaft and pinion; r rise under power.
    pub(super) fn spread_of_setting(&self, setting: &Setting) -> Spread<Angle> {
        let length = self.readings.length.base();
        let with = |lever: Length| 1.0 + setting.times * lever.base() / length;
        let one = 1.0 / with(setting.lever);
        let times = setting.times * one;
        let share = |entry| match entry {
            Entry::GearboxSlope(_) | Entry::PinionSlope(_) => one,
            Entry::ShaftSlopeRead(_) => times,
            Entry::OneWay if self.heights.is_some() => times,
            Entry::FrontHeight | Entry::RearHeight => times / length,
            _ => 0.0,
        };
        let counted = |standard: Angle, freedom, share| Spread { standard: standard * share, freedom };
        let mut parts: Vec<Spread<Angle>> = self
            .causes
            .iter()
            .map(|cause| counted(cause.spread.standard, cause.spread.freedom, share(cause.entry)))
            .collect();
        let (rise, axle) = (rise_spread(), of_length(axle_spread()));
        parts.push(counted(rise.standard, rise.freedom, with(setting.arm) * one));
        parts.push(counted(axle.standard, axle.freedom, times * setting.nose.base() / length));
        combined(&parts)
    }
}
