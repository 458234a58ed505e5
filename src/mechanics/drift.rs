//! Drift: a dial that did not come back to where it began.

use crate::quantity::{Base, Length};

/// The dial did not come back to where it began.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drifted {
    /// Closing reading less first reading.
    pub by: Length,
}

/// Takes a small drift out of a turn, spread evenly from the first station to the closing one.
///
/// Formula: rᵢ − (closing − first)·i/N. Range: a drift of at most one division. Source: common
/// practice.
///
/// # Errors
/// [`Drifted`] where the dial came back more than one division away: read the turn again.
pub fn without_drift(
    readings: &[Length],
    closing: Length,
    division: Length,
) -> Result<Vec<Length>, Drifted> {
    let Some(first) = readings.first() else {
        return Ok(Vec::new());
    };
    let drift = closing.base() - first.base();
    // A division typed as text and a difference of readings may miss each other in the last bit.
    if drift.abs() > division.base() * (1.0 + 1e-9) {
        return Err(Drifted { by: Length::from_base(drift) });
    }
    let count = readings.len() as f64;
    let corrected = readings.iter().enumerate();
    Ok(corrected.map(|(i, r)| Length::from_base(r.base() - drift * i as f64 / count)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_thousandths, inches};

    #[test]
    fn drift() {
        // By hand: 0, 2, 4, 2 closing at 1 with a division of 1: 0.25 comes off per station.
        let readings = [0.0, 2.0, 4.0, 2.0].map(|r| inches(r / 1000.0));
        let got = without_drift(&readings, inches(0.001), inches(0.001)).unwrap();
        for (value, expected) in got.iter().zip([0.0, 1.75, 3.5, 1.25]) {
            assert!((as_thousandths(*value) - expected).abs() < 1e-9);
        }
        assert!(without_drift(&readings, inches(0.003), inches(0.001)).is_err());
    }
}
