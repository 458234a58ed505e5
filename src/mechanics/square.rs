//! Square: a tube's cut face read round the clock, and what leans because of it.

use super::runout::{Station, fit};
use crate::quantity::{Angle, Base, Length};

/// How far a face is out of square.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Full height between the face's high side and its low side.
    pub out: Length,
    /// Place on the clock of the high side.
    pub high_at: Angle,
    /// The ± of that height at 95 %: the circle round the vector, doubled as the height is.
    pub doubt: Length,
    /// Whether the height stands clear of the readings' noise.
    pub is_seen: bool,
}

/// How far out of square a face is, from readings of how far it stands out at places round the clock,
/// + where it is high.
///
/// Formula: least squares of r(θ) = m + A·cos(θ − θ₀), with order 2 beside it from five readings on;
/// f = 2A, its high side at θ₀.
/// Symbols: θ place on the clock, r reading, f height between high and low side, lengths.
/// Range: `None` for fewer than 3 readings, two at one place, all on one side, or a division that is
/// not above 0. Source: geometry of a plane across a cylinder; the fit and its ± as in
/// [`fit`]. Assumes a flat face: what is torn or burred belongs to no order, or
/// to order 2.
pub fn face(readings: &[(Angle, Length)], division: Length) -> Option<Face> {
    let stations: Vec<_> =
        readings.iter().map(|(at, reading)| Station { at: *at, reading: *reading }).collect();
    let found = fit(&stations, division).ok().filter(|_| division.base() > 0.0)?;
    let out = found.offset.size() * 2.0;
    out.base().is_finite().then(|| Face {
        out,
        high_at: found.offset.at(),
        doubt: found.offset_circle * 2.0,
        is_seen: found.offset_is_seen(),
    })
}

/// How much to take off at a place on the clock so that the face comes square to its lowest point.
///
/// Formula: t = f/2·(1 + cos(θ − θ₀)): all of f at the high side, nothing at the low side.
/// Symbols: f height between high and low side; θ place, θ₀ that of the high side. Any angle.
/// Source: geometry of a plane across a cylinder. Assumes a flat face.
pub fn to_file(face: &Face, at: Angle) -> Length {
    face.out * (0.5 + 0.5 * (at.base() - face.high_at.base()).cos())
}

/// How far a yoke leans that sits on a face out of square.
///
/// Formula: φ = f/D.
/// Symbols: f height between high and low side, D diameter of the tube, lengths; φ angle.
/// Range: `None` unless D > 0 and 0 ≤ f < D. Source: geometry, to first order: at f = D/50 it is one
/// part in 7500 more than atan(f/D). Assumes that the yoke's shoulder rests on the whole face.
pub fn tilt(out: Length, diameter: Length) -> Option<Angle> {
    let (f, d) = (out.base(), diameter.base());
    (f >= 0.0 && f < d).then(|| Angle::from_base(f / d)).filter(|lean| lean.base().is_finite())
}

/// How far a loose spigot can lean in its bore, to one side from straight.
///
/// Formula: φ = atan((B − S)/ℓ).
/// Symbols: B bore of the tube, S diameter and ℓ length of the spigot inside it, lengths; φ angle.
/// Range: `None` unless S, ℓ > 0 and B ≥ S, all finite. Source: geometry, to first order: the two ends
/// of the spigot touch at opposite sides. Exactly, S·cos φ + ℓ·sin φ = B, so it leans further by about
/// S·φ/(2ℓ) of φ: a fiftieth for 72 mm, 14 mm deep and loose by 0.1 mm, and it may turn right over
/// where it is loose by ℓ²/(2S). Assumes a round bore and spigot, and no shoulder that holds the yoke.
pub fn spigot_tilt(bore: Length, spigot: Length, reach: Length) -> Option<Angle> {
    let (b, s, l) = (bore.base(), spigot.base(), reach.base());
    let in_range = s > 0.0 && l > 0.0 && b >= s && b.is_finite() && l.is_finite();
    in_range.then(|| Angle::from_base(((b - s) / l).atan()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, as_thousandths, degrees, in_inches, inches, millimetres};

    const LINE: f64 = 0.001;

    /// A face cut at a slant, read at these places with the dial set anywhere.
    fn slant(out: f64, high_at: f64, places: &[f64]) -> Option<Face> {
        let reading = |at: &f64| {
            let height = 0.031 + out / 2.0 * (at - high_at).to_radians().cos();
            (degrees(*at), inches(height))
        };
        face(&places.iter().map(reading).collect::<Vec<_>>(), inches(LINE))
    }

    #[test]
    fn a_slanted_cut() {
        // By construction: the height between the sides and the place of the high side come back,
        // from three places and from twelve, uneven ones among them.
        let twelve: Vec<f64> = (0..12).map(|i| f64::from(i) * 30.0).collect();
        for places in [
            &[0.0, 120.0, 240.0][..],
            &[0.0, 90.0, 180.0, 270.0],
            &[10.0, 75.0, 160.0, 200.0, 310.0],
            &twelve,
        ] {
            for (out, high_at) in [(0.012, 75.0), (0.030, 0.0), (0.250, 331.0)] {
                let got = slant(out, high_at, places).unwrap();
                assert!((in_inches(got.out) - out).abs() < 1e-12 && got.is_seen);
                let off = as_degrees(got.high_at) - high_at;
                assert!(off.abs() < 1e-9 || (off - 360.0).abs() < 1e-9);
                // Law: filed, all places stand as low as the lowest; none asks for metal to be added.
                for at in (0..360).map(f64::from) {
                    let height = out / 2.0 * (at - high_at).to_radians().cos();
                    let off = in_inches(to_file(&got, degrees(at)));
                    assert!((height - off + out / 2.0).abs() < 1e-12 && off > -1e-12);
                }
            }
        }
    }

    #[test]
    fn how_well_a_face_is_known() {
        // Derived by hand: four places read to 0.001 in: u(A) = δ/√12·√(2/4); the height is 2A; 95 %
        // of a plane's normal law lie within √5.991 (any table of chi-squared) of u.
        let got = slant(0.012, 75.0, &[0.0, 90.0, 180.0, 270.0]).unwrap();
        let expected = 2.0 * 5.991_f64.sqrt() * 1.0 / 12.0_f64.sqrt() * 0.5_f64.sqrt();
        assert!((as_thousandths(got.doubt) - expected).abs() < 5e-5);
        // The same rule as the run-out's: 0.001 in out by such a dial is not seen.
        assert!(!slant(0.001, 75.0, &[0.0, 90.0, 180.0, 270.0]).unwrap().is_seen);
        // Too few, all at one place, a division that is none, a reading that is none.
        assert!(slant(0.012, 75.0, &[0.0, 90.0]).is_none());
        assert!(slant(0.012, 75.0, &[0.0, 0.0, 180.0]).is_none());
        let read = |last: f64| {
            [(0.0, 0.0), (120.0, 0.001), (240.0, last)].map(|(at, r)| (degrees(at), inches(r)))
        };
        assert!(face(&read(0.002), inches(0.0)).is_none());
        assert!(face(&read(f64::NAN), inches(LINE)).is_none());
    }

    #[test]
    fn leaning() {
        // Derived in the handbook's sources: 0.005 in over 3 in = 0.0955°; and 0.1 mm over 76.2 mm
        // = 0.075°.
        assert!((as_degrees(tilt(inches(0.005), inches(3.0)).unwrap()) - 0.0955).abs() < 5e-5);
        assert!((as_degrees(tilt(millimetres(0.1), millimetres(76.2)).unwrap()) - 0.075).abs() < 5e-4);
        for (out, diameter) in [(0.1, 0.0), (-0.1, 3.0), (3.0, 3.0), (f64::NAN, 3.0), (0.1, f64::NAN)] {
            assert!(tilt(inches(out), inches(diameter)).is_none(), "{out} {diameter}");
        }
        let lean = |bore: f64, spigot: f64, reach: f64| {
            spigot_tilt(millimetres(bore), millimetres(spigot), millimetres(reach)).map(as_degrees)
        };
        // Derived by turning a rectangle until it is as wide as the bore (tests/handbook/face.py): the
        // term that the first order leaves out is as large as the doc block says, to a tenth of it.
        for (bore, wide, long, exact) in
            [(72.1, 72.0, 14.0, 0.417_065_800), (72.05, 72.0, 20.0, 0.143_890_046)]
        {
            let first = lean(bore, wide, long).unwrap();
            let left_out = wide * first.to_radians() / (2.0 * long);
            assert!(((exact / first - 1.0) / left_out - 1.0).abs() < 0.1, "{bore} {wide} {long}");
        }
        // Law: scale changes nothing; without play it stands upright; more play, more lean.
        assert!((lean(72.1, 72.0, 14.0).unwrap() - lean(721.0, 720.0, 140.0).unwrap()).abs() < 1e-9);
        assert!(lean(72.0, 72.0, 14.0).unwrap() < 1e-9);
        assert!(lean(72.2, 72.0, 14.0) > lean(72.1, 72.0, 14.0));
        for (bore, spigot, reach) in [
            (71.9, 72.0, 14.0),
            (72.1, 0.0, 14.0),
            (72.1, 72.0, 0.0),
            (f64::INFINITY, 72.0, 14.0),
            (f64::NAN, 72.0, 14.0),
        ] {
            assert!(lean(bore, spigot, reach).is_none(), "{bore} {spigot} {reach}");
        }
    }
}
