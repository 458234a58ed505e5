//! High and low: what the two extreme readings of a turn tell by themselves.

use super::across::Across;
use super::ellipse::Ellipse;
use super::runout::{RunOut, Station};
use super::student::circle_95;
use super::uncertainty::{of_division, rectangular};
use crate::quantity::{Angle, Base, Length, as_degrees, degrees};

/// An offset has its highest and its lowest place opposite each other; more than this beside that, and
/// the tube's own shape makes the extremes. Our own choice, two hours of the clock, with the last bits of a
/// place: whole hours are what is typed.
const MOST_BESIDE_DEGREES: f64 = 60.0 + 1e-6;
/// How well the top of so flat a curve is found by hand, ±. Our own choice: half a clock hour.
const PLACE_DOUBT_DEGREES: f64 = 15.0;

/// Why two extremes tell no offset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoOffset {
    /// The highest reading is under the lowest.
    Swapped,
    /// They are not opposite each other.
    NotOpposite {
        /// How far the lowest is from the place opposite the highest.
        beside: Angle,
    },
    /// A number that is none.
    NotFinite,
}

/// The offset that the highest and the lowest reading of a turn tell.
///
/// Formula: A = (h − l)/2 toward the middle between the highest place and the one opposite the lowest.
/// u² = δ²/24 + (A·15°/√3)²/2, the second for places found by hand, twice of them.
/// Symbols: h, l readings, δ the dial's division, lengths.
/// Range: places at most 60° beside opposite. Source: geometry; JCGM 100:2008 4.3.7. That a place is found
/// to ±15° is our own choice. Assumes that an oval tube stands alike at both places, as it does where they
/// are opposite; ovality, seam and scatter cannot be told.
///
/// # Errors
/// [`NoOffset`].
pub fn of_extremes(high: Station, low: Station, division: Length) -> Result<RunOut, NoOffset> {
    let total = high.reading.base() - low.reading.base();
    let from_opposite = low.at.base() + core::f64::consts::PI - high.at.base();
    let beside = (from_opposite + core::f64::consts::PI).rem_euclid(core::f64::consts::TAU)
        - core::f64::consts::PI;
    let line = of_division(division);
    if !(total.is_finite() && beside.is_finite() && line.standard.base() > 0.0) {
        return Err(NoOffset::NotFinite);
    }
    if total < 0.0 {
        return Err(NoOffset::Swapped);
    }
    let beside = Angle::from_base(beside);
    if as_degrees(beside).abs() > MOST_BESIDE_DEGREES {
        return Err(NoOffset::NotOpposite { beside });
    }
    let offset = Across::toward(Length::from_base(total / 2.0), high.at + beside * 0.5);
    let place = rectangular(degrees(PLACE_DOUBT_DEGREES)).standard.base() * total / 2.0;
    let standard = (line.standard.base().powi(2) + place * place).sqrt() / 2.0_f64.sqrt();
    let share = (standard / line.standard.base()).powi(2);
    let circle = Length::from_base(standard * circle_95(f64::INFINITY));
    Ok(RunOut {
        mean: Length::from_base((high.reading.base() + low.reading.base()) / 2.0),
        total: Length::from_base(total),
        offset,
        offset_standard: Length::from_base(standard),
        offset_plus_minus: circle,
        offset_circle: circle,
        scatter: line,
        unit_covariance: [share, 0.0, share],
        ellipse: Ellipse { long: circle, short: circle, at: degrees(0.0) },
        ovality: None,
        leftover: None,
        stations: 2,
        aside: Vec::new(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_thousandths, inches};

    fn station(at: f64, thousandths: f64) -> Station {
        Station { at: degrees(at), reading: inches(thousandths / 1000.0) }
    }

    #[test]
    fn half_the_total_toward_the_high_side() {
        // By construction: ASME Y14.5: an offset shows twice; the direction is the mean of both.
        for (high, low, at) in [
            (90.0, 270.0, 90.0),
            (90.0, 250.0, 80.0),
            (350.0, 190.0, 0.0),
            (10.0, 170.0, 0.0),
            (0.0, 240.0, 30.0),
        ] {
            let got = of_extremes(station(high, 7.0), station(low, -5.0), inches(0.001)).unwrap();
            assert!((as_thousandths(got.offset.size()) - 6.0).abs() < 1e-9);
            let off = (as_degrees(got.offset.at()) - at + 180.0).rem_euclid(360.0) - 180.0;
            assert!(off.abs() < 1e-7, "{high} {low}");
            assert!((as_thousandths(got.total) - 12.0).abs() < 1e-9 && got.offset_is_seen());
        }
    }

    #[test]
    fn an_oval_tube_drops_out() {
        // Law: order 2 stands alike at opposite places, so it does not change what opposite extremes tell.
        let reading = |at: f64, oval: f64| {
            let order = |order: f64, phase: f64| (order * (at - phase).to_radians()).cos();
            station(at, 6.0 * order(1.0, 40.0) + oval * order(2.0, 75.0))
        };
        let told = |oval| of_extremes(reading(40.0, oval), reading(220.0, oval), inches(0.001)).unwrap();
        for oval in [0.5, 3.0] {
            assert!((as_thousandths(told(oval).offset.size()) - 6.0).abs() < 1e-9);
        }
    }

    #[test]
    fn what_tells_no_offset() {
        let of = |high, low| of_extremes(high, low, inches(0.001));
        assert_eq!(of(station(0.0, 1.0), station(180.0, 2.0)), Err(NoOffset::Swapped));
        assert!(matches!(of(station(0.0, 5.0), station(90.0, 0.0)), Err(NoOffset::NotOpposite { .. })));
        assert_eq!(of(station(0.0, f64::NAN), station(180.0, 0.0)), Err(NoOffset::NotFinite));
        assert!(of_extremes(station(0.0, 1.0), station(180.0, 0.0), inches(0.0)).is_err());
        // Nothing between them is no offset that can be seen.
        assert!(!of(station(0.0, 0.0), station(180.0, 0.0)).unwrap().offset_is_seen());
    }
}
