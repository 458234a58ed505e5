//! Strip: the paper that is wrapped round the tube to carry its marks.

use super::phase::arc;
use crate::quantity::{Angle, Base, Length, millimetres};

/// Most pages a strip is split on; more would go round a drum.
const MOST_PIECES: f64 = 8.0;
/// A strip as long as its pages to the last bit is not given one more.
const LAST_BIT: f64 = 1e-9;

/// Once round a tube.
///
/// Formula: c = π·D. Symbols: D diameter, a length, any of 0 and up. Source: geometry of the circle.
pub fn circumference(diameter: Length) -> Length {
    arc(diameter, Angle::from_base(core::f64::consts::TAU))
}

/// How long a strip of paper is that closes on itself round a tube.
///
/// Formula: s = π·(D + t).
/// Symbols: D diameter of the tube, t thickness of the paper, lengths of 0 and up.
/// Source: geometry of the circle; paper bends about its middle, which is neither stretched nor
/// squeezed, so marks printed on it flat are laid out on this length. Assumes paper that lies tight
/// and in one layer.
pub fn strip_length(diameter: Length, paper: Length) -> Length {
    circumference(diameter + paper)
}

/// The thickness of office paper of 80 g/m²: 0.10 mm (from memory).
pub fn office_paper() -> Length {
    millimetres(0.1)
}

/// On how many pages a strip is split.
///
/// Formula: n = ⌈s/p⌉. Symbols: s length of the strip, p what one page can hold of it, lengths.
/// Range: `None` unless s, p > 0 and n ≤ 8, which is our own bound. Source: counting. Assumes that
/// the pieces are butted, with no overlap counted in p.
pub fn pieces(length: Length, page: Length) -> Option<usize> {
    let (length, page) = (length.base(), page.base());
    let count = (length / page - LAST_BIT).ceil().max(1.0);
    (length > 0.0 && page > 0.0 && count <= MOST_PIECES).then_some(count as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_millimetres, degrees, in_inches, inches};

    #[test]
    fn once_round() {
        // By definition of π to the digits of any table: 3.14159265 diameters.
        assert!((in_inches(circumference(inches(3.0))) - 9.424_777_96).abs() < 5e-9);
        // Law: 360 arcs of a degree, and arcs of any angle, are marked on the circumference.
        assert!((arc(inches(3.5), degrees(360.0)) - circumference(inches(3.5))).base().abs() < 1e-12);
        // Law: the paper makes the strip longer by π of its thickness, whatever the tube.
        for diameter in [50.0, 76.2, 101.6] {
            let more = strip_length(millimetres(diameter), office_paper())
                - circumference(millimetres(diameter));
            assert!((as_millimetres(more) - 0.314_159_265).abs() < 5e-9);
        }
        let bare = strip_length(millimetres(76.2), millimetres(0.0));
        assert!((bare - circumference(millimetres(76.2))).base().abs() < 1e-15);
    }

    #[test]
    fn pages() {
        // By counting.
        let ask = |length: f64, page: f64| pieces(millimetres(length), millimetres(page));
        for (length, page, count) in [
            (239.7, 277.0, 1),
            (277.0, 277.0, 1),
            (277.1, 277.0, 2),
            (0.3, 0.1, 3),
            (1.0, 100.0, 1),
            (8.0, 1.0, 8),
        ] {
            assert_eq!(ask(length, page), Some(count), "{length} {page}");
        }
        let bad = f64::NAN;
        for (length, page) in [
            (8.1, 1.0),
            (0.0, 1.0),
            (-1.0, 1.0),
            (1.0, 0.0),
            (1.0, -1.0),
            (bad, 1.0),
            (1.0, bad),
            (f64::INFINITY, 1.0),
        ] {
            assert_eq!(ask(length, page), None, "{length} {page}");
        }
    }
}
