//! Where to cut: the closing equation and how square a face must be.

use crate::quantity::{Base, Length};

/// The tube to take out so that the finished shaft has its wanted length; negative: tube to add.
///
/// Formula: R = (L₀ − L₁) + g − s.
/// Symbols: L₀ old and L₁ wanted joint-to-joint length, both at the same slip position; g root gaps
/// left at the new weld; s shrinkage of the new weld along the shaft. All lengths.
/// Valid for any sizes; signs are kept. Source: geometry; the shrinkage allowance is a welding
/// institute's (TWI job-knowledge FAQ on shrinkage allowance). Assumes one new weld.
pub fn tube_removed(old: Length, wanted: Length, root_gap: Length, shrinkage: Length) -> Length {
    old - wanted + root_gap - shrinkage
}

/// The joint-to-joint length that a cut list gives, reckoned forward from its own numbers.
///
/// Formula: L = z_e + g + (L₀ − z_w) − s.
/// Symbols: z_e new tube end and z_w old weld line, both from the far datum; L₀ old length; g root
/// gap; s shrinkage. Source: geometry. It is the second route to [`tube_removed`].
pub fn finished_length(
    tube_end: Length,
    weld_line: Length,
    old: Length,
    root_gap: Length,
    shrinkage: Length,
) -> Length {
    tube_end + root_gap + (old - weld_line) - shrinkage
}

/// How far out of square the tube's face may be before the tilted yoke alone uses up a total reading.
///
/// Formula: f = D·T·L / (2·z·(L − z)).
/// Symbols: D tube diameter; T total reading allowed, read at the weld; L joint-to-joint length; z
/// weld line from either joint. All lengths, z between 0 and L.
/// Range: `None` unless 0 < z < L and D, T > 0. Source: geometry of a kink f/D between two joints on
/// the axis of rotation, whose offset at the weld is (f/D)·z·(L−z)/L and whose total reading is twice
/// that (ASME Y14.5 total reading).
pub fn allowed_face_error(
    diameter: Length,
    total_reading: Length,
    length: Length,
    weld_line: Length,
) -> Option<Length> {
    let (d, t, l, z) = (diameter.base(), total_reading.base(), length.base(), weld_line.base());
    let in_range = d > 0.0 && t > 0.0 && z > 0.0 && z < l;
    in_range.then(|| Length::from_base(d * t * l / (2.0 * z * (l - z)))).filter(|f| f.base().is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_inches, inches};

    #[test]
    fn two_routes_close() {
        // Law: the finished length reckoned forward from the cut list is the wanted length.
        for (old, wanted, gap, shrink, weld) in [
            (57.3125, 55.5, 0.0, 0.0156, 53.875),
            (48.0, 50.25, 0.0625, 0.03, 44.5),
            (40.0, 40.0, 0.0, 0.0, 37.0),
        ] {
            let [old, wanted, gap, shrink, weld] = [old, wanted, gap, shrink, weld].map(inches);
            let removed = tube_removed(old, wanted, gap, shrink);
            let back = finished_length(weld - removed, weld, old, gap, shrink);
            assert!((in_inches(back) - in_inches(wanted)).abs() < 1e-9);
        }
    }

    #[test]
    fn the_closing_equation_closes() {
        // Law, over seeded luck: whatever is typed, of either sign, the length reckoned forward from
        // the cut list is the wanted one; and what is removed to get there is put back on the way
        // back, less what two new welds open and pull.
        let mut seed: u64 = 57;
        // A linear congruential generator (constants of Knuth's MMIX, from memory), high bits only.
        let mut between = |least: f64, most: f64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            least + (most - least) * (seed >> 11) as f64 / (1_u64 << 53) as f64
        };
        let (mut shorter, mut longer) = (0, 0);
        for _ in 0..2000 {
            let (old, change) = (between(10.0, 120.0), between(-30.0, 30.0));
            let [old, wanted, gap, shrink, weld] =
                [old, old - change, between(-0.5, 0.5), between(-0.5, 0.5), between(-5.0, old)]
                    .map(inches);
            let removed = tube_removed(old, wanted, gap, shrink);
            if removed.base() > 0.0 {
                shorter += 1
            } else {
                longer += 1
            }
            let finished = finished_length(weld - removed, weld, old, gap, shrink);
            assert!((in_inches(finished) - in_inches(wanted)).abs() < 1e-9);
            let back = tube_removed(wanted, old, gap, shrink);
            assert!((in_inches(removed + back) - 2.0 * in_inches(gap - shrink)).abs() < 1e-9);
        }
        assert!(shorter > 500 && longer > 500);
    }

    #[test]
    fn face_error_undoes_the_dial() {
        // Derived by the way back: a face out by f tilts f/D, shows (f/D)·z(L−z)/L at the weld, and
        // the dial reads twice that.
        let (d, l, z) = (3.0, 55.5, 52.0);
        let f = allowed_face_error(inches(d), inches(0.010), inches(l), inches(z)).unwrap();
        let dial = 2.0 * (in_inches(f) / d) * z * (l - z) / l;
        assert!((dial - 0.010).abs() < 1e-12);
        // Symmetry: counting from the other joint changes nothing.
        let other = allowed_face_error(inches(d), inches(0.010), inches(l), inches(l - z)).unwrap();
        assert!((in_inches(f) - in_inches(other)).abs() < 1e-12);
        assert!(allowed_face_error(inches(3.0), inches(0.01), inches(55.5), inches(0.0)).is_none());
        assert!(allowed_face_error(inches(3.0), inches(0.01), inches(55.5), inches(60.0)).is_none());
    }
}
