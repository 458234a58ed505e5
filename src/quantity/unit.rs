//! The units a bare number may have.

use super::{Angle, Length, Mass, degrees, grams, inches, kind::ounces, millimetres};

/// The unit in force for a bare number: what "57.3" means when nothing stands behind it. It is
/// kept with the text, so a later change of the display never changes what was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Inch of 25.4 mm.
    Inch,
    /// Millimetre.
    Millimetre,
    /// Thousandth of an inch, as a dial counts it.
    Thousandth,
    /// Hundredth of a millimetre, as a dial counts it.
    Hundredth,
    /// Degree of angle.
    Degree,
    /// Hour on a clock face: 30°.
    Hour,
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
    /// Avoirdupois ounce.
    Ounce,
    /// Avoirdupois pound of 16 ounces.
    Pound,
    /// Revolution per minute.
    Rpm,
    /// Mile per hour.
    MilePerHour,
    /// Kilometre per hour.
    KilometrePerHour,
    /// Radian per second squared.
    RadianPerSquareSecond,
    /// A bare number of whatever an instrument counts.
    Plain,
    /// Newton-metre.
    NewtonMetre,
    /// Pound-foot of force.
    PoundFoot,
    /// Megapascal.
    Megapascal,
    /// Thousand pounds-force a square inch.
    Ksi,
    /// Gigapascal.
    Gigapascal,
    /// Kilogram per cubic metre.
    KilogramPerCubicMetre,
    /// Newton per millimetre.
    NewtonPerMillimetre,
    /// Pound-force per inch.
    PoundPerInch,
    /// Turn on a kilometre.
    TurnPerKilometre,
    /// Turn on a mile.
    TurnPerMile,
}

impl Unit {
    /// Every unit, for walking through them.
    pub const ALL: [Unit; 25] = [
        Unit::Inch,
        Unit::Millimetre,
        Unit::Thousandth,
        Unit::Hundredth,
        Unit::Degree,
        Unit::Hour,
        Unit::Gram,
        Unit::Kilogram,
        Unit::Ounce,
        Unit::Pound,
        Unit::Rpm,
        Unit::MilePerHour,
        Unit::KilometrePerHour,
        Unit::RadianPerSquareSecond,
        Unit::Plain,
        Unit::NewtonMetre,
        Unit::PoundFoot,
        Unit::Megapascal,
        Unit::Ksi,
        Unit::Gigapascal,
        Unit::KilogramPerCubicMetre,
        Unit::NewtonPerMillimetre,
        Unit::PoundPerInch,
        Unit::TurnPerKilometre,
        Unit::TurnPerMile,
    ];

    /// The symbol, as written behind a number and in a saved job.
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::Inch => "in",
            Unit::Millimetre => "mm",
            Unit::Thousandth => "thou",
            Unit::Hundredth => "0.01 mm",
            Unit::Degree => "°",
            Unit::Hour => "h",
            Unit::Gram => "g",
            Unit::Kilogram => "kg",
            Unit::Ounce => "oz",
            Unit::Pound => "lb",
            Unit::Rpm => "rpm",
            Unit::MilePerHour => "mph",
            Unit::KilometrePerHour => "km/h",
            Unit::RadianPerSquareSecond => "rad/s²",
            Unit::Plain => "",
            Unit::NewtonMetre => "N·m",
            Unit::PoundFoot => "lbf·ft",
            Unit::Megapascal => "MPa",
            Unit::Ksi => "ksi",
            Unit::Gigapascal => "GPa",
            Unit::KilogramPerCubicMetre => "kg/m³",
            Unit::NewtonPerMillimetre => "N/mm",
            Unit::PoundPerInch => "lbf/in",
            Unit::TurnPerKilometre => "/km",
            Unit::TurnPerMile => "/mi",
        }
    }

    /// The unit with this symbol.
    pub fn from_symbol(symbol: &str) -> Option<Unit> {
        Unit::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// One of this unit as a length; `None` for a unit of something else.
    pub(super) fn one_length(self) -> Option<Length> {
        match self {
            Unit::Inch => Some(inches(1.0)),
            Unit::Millimetre => Some(millimetres(1.0)),
            Unit::Thousandth => Some(inches(0.001)),
            Unit::Hundredth => Some(millimetres(0.01)),
            _ => None,
        }
    }

    /// One of this unit as an angle; `None` for a unit of something else.
    pub(super) fn one_angle(self) -> Option<Angle> {
        match self {
            Unit::Degree => Some(degrees(1.0)),
            Unit::Hour => Some(degrees(30.0)),
            _ => None,
        }
    }

    /// One of this unit as a mass; `None` for a unit of something else.
    pub(super) fn one_mass(self) -> Option<Mass> {
        match self {
            Unit::Gram => Some(grams(1.0)),
            Unit::Kilogram => Some(grams(1000.0)),
            Unit::Ounce => Some(ounces(1.0)),
            Unit::Pound => Some(ounces(16.0)),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Unit;

    #[test]
    fn symbols_come_back() {
        // Round trip, no outside value.
        for unit in Unit::ALL {
            assert_eq!(Unit::from_symbol(unit.symbol()), Some(unit));
        }
        assert_eq!(Unit::from_symbol("cubit"), None);
    }
}
