//! Tilt: a slope read by the tablet or phone itself, laid on the part.

use crate::quantity::{Angle, Base, degrees};

/// Samples of which at least so many make a reading. Our own choice: below, a scatter says little.
pub const LEAST_SAMPLES: usize = 20;

/// The widest scatter of a device that lies still, in degrees. Our own choice: a sensor on a bench
/// scatters by a few hundredths of a degree, and a hand that holds it by more than this.
const STILL_DEGREES: f64 = 0.25;

/// Many browsers tell a tilt in steps of so much, in degrees, so that a device cannot be known again by
/// its sensor: Chromium, services/device/generic_sensor/platform_sensor_util.h. Some tell it finer.
const STEP_DEGREES: f64 = 0.1;

/// Which way the device lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Its top edge toward the rear; across a yoke, toward the right-hand side.
    Along,
    /// End for end: its top edge toward the front; across a yoke, toward the left-hand side.
    Turned,
}

/// What a device read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Mean slope, + falling toward the rear; across a yoke, + where the right-hand side is low.
    pub slope: Angle,
    /// Standard deviation of one sample.
    pub scatter: Angle,
    /// How many samples.
    pub count: usize,
}

/// Why samples make no reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unread {
    /// Fewer than [`LEAST_SAMPLES`].
    TooFew,
    /// A sample is no number, or the device lies on its face.
    NotFaceUp,
    /// The device moved: its scatter.
    Moved(Angle),
}

/// The slope that a device's tilt means.
///
/// Formula: s = −β along, s = +β turned end for end.
/// Symbols: β the event's `beta`; s slope of the part under the device. Angles.
/// Range: `None` unless |β| ≤ 90°, beyond which the screen looks down.
/// Source: W3C Device Orientation Event Specification: the device's axes stand at Rz(α)·Rx(β)·Ry(γ),
/// turned about z, then the new x, then the new y, with z up and y in the screen toward its top edge as
/// made, however the page in it is turned. Ry leaves y where it is and Rz leaves heights as they are,
/// so y stands at Rx(β)·(0, 1, 0) = (0, cos β, sin β): its height is sin β and its elevation β, whatever
/// α and γ. What falls toward the top edge has β < 0. Assumes that the screen is parallel to the part;
/// what a case or a camera adds is the same both ways round, and half the difference of two such
/// readings is that error.
pub fn slope(beta: Angle, way: Way) -> Option<Angle> {
    let face_up = beta.base().abs() <= degrees(90.0).base();
    face_up.then_some(match way {
        Way::Along => -beta,
        Way::Turned => beta,
    })
}

/// The mean of samples and their scatter, however wide.
///
/// Formula: s̄ = Σs/n; S = √(Σ(s − s̄)²/(n − 1)).
/// Symbols: s slope of each sample, n their count.
/// Range: `None` for fewer than 2 samples, or where [`slope`] has none.
/// Source: JCGM 100:2008, 4.2.1 and 4.2.2.
pub fn average(betas: &[Angle], way: Way) -> Option<Reading> {
    let count = betas.len();
    if count < 2 {
        return None;
    }
    let (n, mut sum, mut squares) = (count as f64, 0.0, 0.0);
    for beta in betas {
        sum += slope(*beta, way)?.base();
    }
    let mean = sum / n;
    for beta in betas {
        let off = slope(*beta, way)?.base() - mean;
        squares += off * off;
    }
    let scatter = Angle::from_base((squares / (n - 1.0)).sqrt());
    Some(Reading { slope: Angle::from_base(mean), scatter, count })
}

/// A reading of a device that lay still, from what it told at even moments.
///
/// Formula: as [`average`]. Symbols: β each sample.
///
/// # Errors
/// Why the samples make no reading: [`Unread`]; too wide a scatter is one above 0.25°.
pub fn reading(betas: &[Angle], way: Way) -> Result<Reading, Unread> {
    if betas.len() < LEAST_SAMPLES {
        return Err(Unread::TooFew);
    }
    let found = average(betas, way).ok_or(Unread::NotFaceUp)?;
    if found.scatter.base() > degrees(STILL_DEGREES).base() {
        return Err(Unread::Moved(found.scatter));
    }
    Ok(found)
}

/// The finest division that such a reading may be taken for: 0.1°, the step of many browsers. A device
/// that lies still within one step does not scatter, and is not known better for it.
pub fn step() -> Angle {
    degrees(STEP_DEGREES)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::as_degrees;

    /// Samples about a tilt, up and down by turns: their mean is the tilt.
    fn about(beta: f64, swing: f64, count: usize) -> Vec<Angle> {
        (0..count).map(|i| degrees(if i % 2 == 0 { beta + swing } else { beta - swing })).collect()
    }

    /// Height of the top edge's direction over the horizon by the specification's whole matrix.
    fn elevation(alpha: f64, beta: f64, gamma: f64) -> f64 {
        let turn = |axis: usize, degrees: f64, v: [f64; 3]| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            let (a, b) = ((axis + 1) % 3, (axis + 2) % 3);
            let mut turned = v;
            turned[a] = cos * v[a] - sin * v[b];
            turned[b] = sin * v[a] + cos * v[b];
            turned
        };
        turn(2, alpha, turn(0, beta, turn(1, gamma, [0.0, 1.0, 0.0])))[2].asin().to_degrees()
    }

    #[test]
    fn the_top_edge_stands_at_beta() {
        // Derived: the three turns of the W3C specification, one after the other, on the y axis.
        for alpha in [0.0, 77.0, 301.0] {
            for beta in [-90.0, -41.5, -3.0, 0.0, 0.1, 12.0, 89.0] {
                for gamma in [-90.0, -8.0, 0.0, 33.0] {
                    let stands = elevation(alpha, beta, gamma);
                    assert!((stands - beta).abs() < 1e-6, "{alpha} {beta} {gamma}: {stands}");
                    let along = as_degrees(slope(degrees(beta), Way::Along).unwrap());
                    assert!((along + stands).abs() < 1e-6);
                }
            }
        }
    }

    #[test]
    fn turned_end_for_end() {
        // By construction: a part that falls 3° to the rear under a device that reads 0.4° too much
        // of its top edge: −3 + 0.4 along, 3 + 0.4 turned. The mean of both slopes is the part's, and
        // half their difference the device's own error.
        let read = |beta: f64, way| as_degrees(reading(&about(beta, 0.02, 40), way).unwrap().slope);
        let (one, turned) = (read(-2.6, Way::Along), read(3.4, Way::Turned));
        assert!((one - 2.6).abs() < 1e-9 && (turned - 3.4).abs() < 1e-9);
        assert!(((one + turned) / 2.0 - 3.0).abs() < 1e-9);
        assert!(((one - turned) / 2.0 + 0.4).abs() < 1e-9);
    }

    #[test]
    fn mean_and_scatter() {
        // By hand: 1, 2, 3, 4 have the mean 2.5 and the deviation √(5/3).
        let four: Vec<Angle> = [1.0, 2.0, 3.0, 4.0].map(degrees).to_vec();
        let found = average(&four, Way::Turned).unwrap();
        assert!((as_degrees(found.slope) - 2.5).abs() < 1e-12 && found.count == 4);
        assert!((as_degrees(found.scatter) - (5.0_f64 / 3.0).sqrt()).abs() < 1e-12);
        // Law: the other way round changes the sign and nothing else; a constant does not scatter.
        let along = average(&four, Way::Along).unwrap();
        assert!((along.slope + found.slope).base().abs() < 1e-15);
        assert!((along.scatter - found.scatter).base().abs() < 1e-15);
        assert!(average(&[degrees(3.1); 40], Way::Along).unwrap().scatter.base() < 1e-12);
        assert!(average(&four[..1], Way::Along).is_none());
    }

    #[test]
    fn what_is_no_reading() {
        let read = |betas: &[Angle]| reading(betas, Way::Along);
        // Our own bounds: 20 samples, and a scatter of 0.25°. Of samples up and down by turns the
        // scatter is the swing times √(n/(n − 1)), by hand.
        assert_eq!(read(&about(3.0, 0.0, 19)), Err(Unread::TooFew));
        assert_eq!(read(&[]), Err(Unread::TooFew));
        assert!(read(&about(3.0, 0.0, 20)).is_ok());
        assert!(read(&about(3.0, 0.24, 40)).is_ok());
        let Err(Unread::Moved(scatter)) = read(&about(3.0, 0.26, 40)) else { panic!("it moved") };
        assert!((as_degrees(scatter) - 0.26 * (40.0_f64 / 39.0).sqrt()).abs() < 1e-9);
        // A device lifted half way through.
        let mut lifted = about(3.0, 0.0, 20);
        lifted.extend(about(8.0, 0.0, 20));
        assert!(matches!(read(&lifted), Err(Unread::Moved(_))));
        for bad in [f64::NAN, f64::INFINITY, 90.01, -179.0] {
            let mut betas = about(3.0, 0.0, 40);
            betas[17] = degrees(bad);
            assert_eq!(read(&betas), Err(Unread::NotFaceUp), "{bad}");
        }
        assert!(slope(degrees(90.0), Way::Along).is_some());
        assert!(slope(degrees(-90.1), Way::Turned).is_none());
    }
}
