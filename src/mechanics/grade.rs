//! What a tube can bear by what it is made of: constants with name, value, unit and source.
//!
//! Not to be taken for the grade of balance in `unbalance`.

use crate::quantity::{Pressure, ksi};

/// What a tube is sold as. Drawn steel stands with its stress-relieved figures, the lower of the two in
/// which it is sold; a piece marked otherwise has its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Carbon steel 1020, welded and drawn over a mandrel (DOM), stress-relieved.
    Drawn1020,
    /// Carbon steel 1026, welded and drawn over a mandrel (DOM), stress-relieved.
    Drawn1026,
    /// Carbon steel 1008 to 1010, as welded, not drawn.
    AsWelded,
    /// Aluminium alloy 6061 in temper T6.
    Aluminium6061,
}

/// Where a grade's strength comes from: a key, the words stand elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Published: ASTM A513 type 5, table of stress-relieved DOM tubing, as a steel merchant reproduces it.
    A513Drawn,
    /// From memory: ASTM A513 as-welded.
    A513Welded,
    /// From memory: ASTM B221 for the tube, the Aluminum Design Manual for its weld zone.
    Aluminium,
}

/// Lower bounds of a grade's strength, in tension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Yield strength that the tube has at least.
    pub yields_at: Pressure,
    /// Yield strength beside a weld, where welding softens the tube below its own.
    pub weld_zone: Option<Pressure>,
    /// Where these come from.
    pub source: Source,
}

impl Grade {
    /// All grades, in the order in which they are offered.
    pub const ALL: [Grade; 4] =
        [Grade::Drawn1020, Grade::Drawn1026, Grade::AsWelded, Grade::Aluminium6061];

    /// What the grade bears at least.
    ///
    /// | grade | yield, ksi | source |
    /// |---|---|---|
    /// | 1020 DOM, stress-relieved | 55 | published: ASTM A513 type 5 as reproduced |
    /// | 1026 DOM, stress-relieved | 65 | the same |
    /// | 1008 to 1010 as welded | 32 | from memory: ASTM A513, 1010; 1008 may be sold from 30 |
    /// | 6061-T6 | 35 | from memory: ASTM B221, extruded |
    /// | 6061-T6 beside a weld | 15 | from memory: Aluminum Design Manual |
    ///
    /// Steel is not taken to soften beside its weld: a drawn tube does lose what drawing gave it there, by
    /// an amount for which no figure is known here.
    pub fn strength(self) -> Strength {
        let (yields, source) = match self {
            Grade::Drawn1020 => (55.0, Source::A513Drawn),
            Grade::Drawn1026 => (65.0, Source::A513Drawn),
            Grade::AsWelded => (32.0, Source::A513Welded),
            Grade::Aluminium6061 => (35.0, Source::Aluminium),
        };
        Strength {
            yields_at: ksi(yields),
            weld_zone: (self == Grade::Aluminium6061).then(|| ksi(15.0)),
            source,
        }
    }
}

/// The share of the yield in tension at which a ductile metal yields in shear: 0.577, for 1/√3.
pub const SHEAR_SHARE: f64 = 0.577;

/// The shear stress at which a metal yields that yields at a stress in tension.
///
/// Formula: S_sy = 0.577·S_y. Symbols: S_y yield strength in tension.
/// Range: any; what is none stays none. Source: von Mises, distortion energy, any text on strength.
/// Assumes a ductile metal, alike in all directions, in pure shear.
pub fn shear_yield(yield_: Pressure) -> Pressure {
    yield_ * SHEAR_SHARE
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::quantity::{Base, as_ksi, as_megapascals};

    #[test]
    fn what_a_grade_bears() {
        // Published: ASTM A513 type 5 as a steel merchant reproduces it, which gives MPa too: 379 and 448. From
        // memory: as-welded 1010 32 ksi (221 MPa), 6061-T6 35 ksi (240 MPa in B221M), its weld zone 15 ksi (105 MPa, Aluminum Design Manual).
        for (grade, yields, zone, within) in [
            (Grade::Drawn1020, 379.0, None, 0.5),
            (Grade::Drawn1026, 448.0, None, 0.5),
            (Grade::AsWelded, 221.0, None, 0.5),
            (Grade::Aluminium6061, 240.0, Some(105.0), 2.5),
        ] {
            let got = grade.strength();
            let near = |a: Pressure, b: f64| (as_megapascals(a) - b).abs() < within;
            assert!(near(got.yields_at, yields), "{grade:?}");
            assert_eq!(got.weld_zone.map(|z| near(z, zone.unwrap())), zone.map(|_| true), "{grade:?}");
        }
        // Law: a weld never adds.
        for one in Grade::ALL.map(Grade::strength) {
            assert!(one.weld_zone.is_none_or(|z| z < one.yields_at));
        }
    }

    #[test]
    fn shear_yields_by_von_mises() {
        // By hand: 55 ksi yields at 31.7 ksi in shear.
        assert!((as_ksi(shear_yield(ksi(55.0))) - 31.7).abs() < 0.05);
        // Law, over seeded luck: the equivalent stress √(3·τ²) of what yields is the yield strength, to what
        // three digits leave.
        let mut next = luck(3);
        for _ in 0..100 {
            let strength = next(1.0, 200.0);
            let equivalent = 3.0_f64.sqrt() * as_ksi(shear_yield(ksi(strength)));
            assert!((equivalent / strength - 1.0).abs() < 0.001);
        }
        assert!(shear_yield(ksi(f64::NAN)).base().is_nan());
    }
}
