//! Mend: which pinion slope, gearbox slope or phase leaves the line turning most evenly, and what to put
//! under a pad or a mount for it.

use super::attitude::{Attitude, Leaning, Ties};
use super::extremes::least_and_greatest;
use crate::quantity::{Angle, Base, Length, half_open_half_turn};

#[cfg(test)]
mod tests;

/// Halvings of the bracket for where an axis meets the shaft's slope: half a turn down to the last bits.
const HALVINGS: u32 = 55;

/// The two ways for two joints to undo each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Layout {
    /// Gearbox and pinion parallel: both on one side of the shaft's slope.
    Parallel,
    /// Gearbox and pinion meet below or above the middle of the shaft: on different sides of its slope.
    Intersecting,
}

/// A change and what it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mend {
    /// The line when it is done.
    pub attitude: Attitude,
    /// What was changed, from what it was.
    pub change: Angle,
    /// Peak gain that is left between gearbox and pinion.
    pub residual: f64,
}

/// A line changed by so much, in radians, with the slopes that lie on one side of the shaft's or the other.
struct Changed {
    attitude: Attitude,
    /// The end that is turned, above the shaft's slope.
    own: f64,
    /// The other end, above the shaft's slope.
    other: f64,
}

impl Changed {
    fn residual(&self) -> Option<f64> {
        self.attitude.line().ok().map(|line| line.peaks().pinion_gain)
    }
}

/// The pinion slope with the least residual on the side of the shaft's slope where the gearbox's lies
/// (parallel) or on the other (intersecting), at most `most` away from where it is now. Where the least
/// lies at that bound, or at the shaft's own slope, that is the answer.
///
/// Formula: least peak gain over the slopes, the best of an even grid and the golden section beside it,
/// to a billionth of a radian.
/// Range: `None` where that side has no room within the bound or no line below 45°, or the bound is
/// not at least 0. In space, with plan angles, the least is not nothing.
/// Source: SAE AE-7, Universal Joint and Driveshaft Design Manual, §3.1, for the two layouts; the search
/// as in [`extremes`](super::travel::extremes). A gearbox at the shaft's own slope counts as above it. The
/// axle turns about its own centre, and moves the rear joint and the shaft's slope with it, as in
/// [`Attitude::raised`].
pub fn pinion(attitude: &Attitude, layout: Layout, most: Angle, ties: Ties) -> Option<Mend> {
    let turned = |change: f64| {
        let change = Angle::from_base(change);
        let moved = attitude.moved(Length::from_base(0.0), change, ties);
        // What the shaft does not reach has no line, but lies on its side all the same.
        let attitude = moved.unwrap_or_else(|_| {
            let pinion = Leaning { slope: attitude.pinion.slope + change, ..attitude.pinion };
            Attitude { pinion, phase: Angle::from_base(f64::NAN), ..*attitude }
        });
        let shaft = attitude.shaft.slope;
        Changed {
            own: (attitude.pinion.slope - shaft).base(),
            other: (attitude.gearbox.slope - shaft).base(),
            attitude,
        }
    };
    best(&turned, layout, most.base())
}

/// The gearbox slope with the least residual, the gearbox turned about a cross-axis `arm` ahead of the
/// front joint: + is its tail down, its slope growing. The front joint moves with it, and the shaft's
/// slope changes.
///
/// Formula: Δz = −A·(sin(σ₀ + c) − sin σ₀) for the front joint, so the shaft runs along
/// L·a₁ − Δz·ẑ, and its side slope is atan2(−L·a₁z + Δz, L·a₁x); the rest as for [`pinion`].
/// Symbols: A arm, L joint to joint, lengths; σ₀ gearbox slope, c change; a₁ unit axis of the shaft.
/// Range: as [`pinion`], the pinion's side of the shaft in place of the gearbox's, L > 0 and A ≥ 0.
/// Source: as [`pinion`], and geometry. Assumes that the joint goes straight down: fore and aft it moves
/// by A·(cos σ₀ − cos(σ₀ + c)), which the slip takes up and a hundredth of a degree does not show.
pub fn gearbox(
    attitude: &Attitude,
    layout: Layout,
    arm: Length,
    length: Length,
    most: Angle,
) -> Option<Mend> {
    let lever = arm.base() / length.base();
    if !(length.base() > 0.0 && lever >= 0.0 && lever.is_finite()) {
        return None;
    }
    // Seen from the side the shaft has run 1 rearward when it has fallen by its tangent, and to the right
    // by the other; only its fall changes, so its plan angle stays.
    let (fall, right) = (attitude.shaft.slope.base().tan(), attitude.shaft.plan.base().tan());
    let reach = (1.0 + fall * fall + right * right).sqrt();
    let slope = attitude.gearbox.slope;
    let turned = |change: f64| {
        let mut attitude = *attitude;
        let change = Angle::from_base(change);
        attitude.gearbox.slope += change;
        let down = mount_drop(Length::from_base(lever), slope, change).base();
        attitude.shaft.slope = Angle::from_base((fall - down * reach).atan());
        let shaft = attitude.shaft.slope;
        Changed {
            own: (attitude.gearbox.slope - shaft).base(),
            other: (attitude.pinion.slope - shaft).base(),
            attitude,
        }
    };
    best(&turned, layout, most.base())
}

/// The phase with the least residual, in (−90°, 90°]: the turn that puts the rear yoke to the rear joint's
/// plane as the front yoke is to the front joint's.
///
/// Formula: ψ = [`twist`](super::line::Line::twist). Of q = k₂·e^(−2iψ) against k₁ the residual
/// |k₁ − q|/|1 − k̄₁·q| is least where both point one way, exactly and at any angle.
/// Range: `None` where there is no line. Where a joint is straight every phase is as good, and it is 0.
/// The change is the shortest: a yoke looks the same half a turn on.
/// Source: derived from [`Line`](super::line::Line).
pub fn phase(attitude: &Attitude) -> Option<Mend> {
    let twist = attitude.line().ok()?.twist();
    let phase = twist.unwrap_or_else(|| Angle::from_base(0.0));
    let change = half_open_half_turn(phase - attitude.phase);
    let attitude = Attitude { phase, ..*attitude };
    let residual = attitude.line().ok()?.peaks().pinion_gain;
    Some(Mend { attitude, change, residual })
}

/// The change within ±`most` with the least residual on the side of the shaft that the layout asks for.
fn best(turned: &dyn Fn(f64) -> Changed, layout: Layout, most: f64) -> Option<Mend> {
    if !(most >= 0.0 && most.is_finite()) {
        return None;
    }
    // Both slopes less the shaft's grow with the change or stay: each meets it once at most. The other end
    // has to stay on its side, or a layout would turn into the other one underway.
    let (own, other) = (crossing(&|c| turned(c).own, most), crossing(&|c| turned(c).other, most));
    let above = turned(0.0).other >= 0.0;
    let (mut low, mut high) = if above { (other.max(-most), most) } else { (-most, other.min(most)) };
    if above == (layout == Layout::Parallel) {
        low = low.max(own);
    } else {
        high = high.min(own);
    }
    if low > high {
        return None;
    }
    // No line there is worse than any.
    let residual = |change: f64| Some(turned(change).residual().unwrap_or(f64::INFINITY));
    let [[_, change], _] = least_and_greatest(&residual, low, high)?;
    let changed = turned(change);
    let residual = changed.residual()?;
    Some(Mend { attitude: changed.attitude, change: Angle::from_base(change), residual })
}

/// Where within ±`most` a growing value passes through nothing; without end below where it lies above
/// nothing throughout, without end above where it lies below.
fn crossing(value: &dyn Fn(f64) -> f64, most: f64) -> f64 {
    if value(-most) > 0.0 {
        return f64::NEG_INFINITY;
    }
    if value(most) < 0.0 {
        return f64::INFINITY;
    }
    let (mut low, mut high) = (-most, most);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if value(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// Thickness at the thick end of a wedge over a pad.
///
/// Formula: t = w·tan φ.
/// Symbols: w length of the pad along the wedge, t thickness, lengths; φ angle, below 90°.
/// Source: geometry. Assumes a wedge that runs out to nothing.
pub fn wedge(pad: Length, angle: Angle) -> Length {
    Length::from_base(pad.base() * angle.base().tan())
}

/// How far a mount behind the cross-axis goes down as the gearbox is turned.
///
/// Formula: d = A·(sin(σ + c) − sin σ) = 2A·cos(σ + c/2)·sin(c/2).
/// Symbols: A distance of the mount behind the axis, along the gearbox, d drop, lengths; σ slope, c
/// change, + tail down. Any angle. Source: geometry.
pub fn mount_drop(arm: Length, slope: Angle, change: Angle) -> Length {
    let half = change.base() / 2.0;
    Length::from_base(2.0 * arm.base() * (slope.base() + half).cos() * half.sin())
}
