//! Phase: where on the shaft a vibration points, whichever way it was read.

use crate::quantity::{Angle, clockwise_angle};

/// How the phase was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PickUp {
    /// The place of the witness mark on the room's clock, seen from the rear, when the light flashes.
    Strobe,
    /// The angle on the shaft itself, clockwise seen from the rear, from its witness mark to where a
    /// pick-up finds the high spot.
    Mark,
    /// How far the shaft turns on, in degrees of its own turn, from where its mark passes a fixed eye until
    /// the vibration peaks: what an instrument with an eye at the mark calls the phase lag.
    Lag,
}

/// Which way the shaft turns, seen from the rear, looking forward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spin {
    /// As a clock does.
    Clockwise,
    /// Against the clock.
    Counter,
}

/// The phase in the sense of the weights, from 0° up to 360°: an angle on the shaft, clockwise seen from
/// the rear, up to a constant that is the same for every run.
///
/// Formula: φ = read for an angle on the shaft; φ = −read for a strobe; φ = −s·read for a lag.
/// Symbols: read angle; s +1 where the shaft turns clockwise, −1 where it turns the other way.
/// Range: any angle; one that is no number stays none, and what asks for it refuses it.
/// Source: geometry. A point at the shaft's angle σ stands at the room's ρ + σ while its mark stands at ρ.
/// The light flashes when the vibration peaks, so the high spot stands at one place K of the room then:
/// σ = K − ρ, whichever way the shaft turns. After a lag λ the mark has gone on from its eye at E to
/// E + s·λ: σ = K − E − s·λ. The constants go out of the correction, since all runs carry the same.
/// Assumes the same pick-up in the same place, the same direction and speed in all runs.
pub fn shaft_phase(read: Angle, pick_up: PickUp, spin: Spin) -> Angle {
    clockwise_angle(match (pick_up, spin) {
        (PickUp::Mark, _) | (PickUp::Lag, Spin::Counter) => read,
        (PickUp::Strobe, _) | (PickUp::Lag, Spin::Clockwise) => -read,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, degrees};

    #[test]
    fn three_ways_to_read_one_shaft() {
        // By construction: the high spot passes a pick-up at the room's `sensor`; the shaft is turned step
        // by step until it stands there, and what each way would read then is noted.
        for (spin, sense) in [(Spin::Clockwise, 1.0), (Spin::Counter, -1.0)] {
            for (sensor, eye) in [(90.0, 0.0), (17.0, 250.0)] {
                let mut constants = [Vec::new(), Vec::new(), Vec::new()];
                for high in [0.0, 33.0, 140.0, 275.0] {
                    // The mark begins at the eye.
                    let stands = |turned: f64| eye + sense * turned + high - sensor;
                    let turned =
                        (0..360).map(f64::from).find(|t| stands(*t).rem_euclid(360.0) < 1e-9).unwrap();
                    let mark = eye + sense * turned;
                    for ((pick_up, read), kept) in
                        [(PickUp::Strobe, mark), (PickUp::Mark, high), (PickUp::Lag, turned)]
                            .into_iter()
                            .zip(&mut constants)
                    {
                        let got = as_degrees(shaft_phase(degrees(read), pick_up, spin));
                        assert!((0.0..360.0).contains(&got));
                        kept.push((got - high).rem_euclid(360.0));
                    }
                }
                // Law: each differs from the high spot's own angle by one constant.
                for kept in constants {
                    let first = kept.first().unwrap();
                    for other in &kept {
                        let apart = (other - first + 180.0).rem_euclid(360.0) - 180.0;
                        assert!(apart.abs() < 1e-9, "{spin:?} {sensor} {kept:?}");
                    }
                }
            }
        }
    }
}
