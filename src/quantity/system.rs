//! Quantities with one usual unit in each system: torque, stress, modulus, density, spring rate, turns of
//! a wheel on a length of road.

use super::kind::{
    MassDensity, Pressure, SpringRate, Torque, TurnsPerLength, as_gigapascals,
    as_kilograms_per_cubic_metre, as_ksi, as_megapascals, as_newton_metres, as_newtons_per_millimetre,
    as_pound_feet, as_pounds_per_inch, as_turns_per_kilometre, as_turns_per_mile, gigapascals,
    kilograms_per_cubic_metre, ksi, megapascals, newton_metres, newtons_per_millimetre, pound_feet,
    pounds_per_inch, turns_per_kilometre, turns_per_mile,
};
use super::parse::{Unreadable, before_unit};
use super::show::{LengthDisplay, show_number, three_figures};
use super::unit::Unit;

/// Kilograms per cubic metre in a pound per cubic inch, exact by definition of both.
const DENSITY_OF_POUND: f64 = 0.453_592_37 / (0.0254 * 0.0254 * 0.0254);

/// How a unit is written, and whether it is the metric one. Longer names before those they end in.
type Names = &'static [(&'static str, bool)];

const TORQUES: Names = &[
    ("n·m", true),
    ("n m", true),
    ("nm", true),
    ("lbf·ft", false),
    ("lbf ft", false),
    ("lb·ft", false),
    ("lb-ft", false),
    ("lb ft", false),
    ("ft·lbf", false),
    ("ft-lb", false),
    ("ft lb", false),
    ("ftlb", false),
    ("lbft", false),
];
const STRESSES: Names = &[("mpa", true), ("n/mm²", true), ("n/mm2", true), ("ksi", false)];
const MODULI: Names = &[("gpa", true), ("mpsi", false), ("msi", false)];
const DENSITIES: Names =
    &[("kg/m³", true), ("kg/m3", true), ("lb/in³", false), ("lb/in3", false), ("lb/cu in", false)];
const RATES: Names = &[("n/mm", true), ("lbf/in", false), ("lb/in", false)];
const TURNS: Names =
    &[("/km", true), ("per km", true), ("/mile", false), ("/mi", false), ("per mile", false)];

/// The number before its unit, in the quantity of that unit's system.
fn read<Q>(
    text: &str,
    in_force: Unit,
    names: Names,
    metric: (Unit, fn(f64) -> Q),
    inch: fn(f64) -> Q,
) -> Result<Q, Unreadable> {
    let (value, unit) = before_unit(text, names)?;
    Ok(if unit.unwrap_or(in_force == metric.0) { metric.1(value) } else { inch(value) })
}

/// A torque: `280 lbf·ft`, `380 N·m`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_torque(text: &str, in_force: Unit) -> Result<Torque, Unreadable> {
    read(text, in_force, TORQUES, (Unit::NewtonMetre, newton_metres), pound_feet)
}

/// A stress: `55 ksi`, `380 MPa`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_stress(text: &str, in_force: Unit) -> Result<Pressure, Unreadable> {
    read(text, in_force, STRESSES, (Unit::Megapascal, megapascals), ksi)
}

/// An elastic modulus: `205 GPa`, `29.7 Mpsi`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_modulus(text: &str, in_force: Unit) -> Result<Pressure, Unreadable> {
    let mpsi = |value: f64| ksi(value * 1000.0);
    read(text, in_force, MODULI, (Unit::Gigapascal, gigapascals), mpsi)
}

/// A density: `1550 kg/m³`, `0.056 lb/in³`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_density(text: &str, in_force: Unit) -> Result<MassDensity, Unreadable> {
    let pound = |value: f64| kilograms_per_cubic_metre(value * DENSITY_OF_POUND);
    read(text, in_force, DENSITIES, (Unit::KilogramPerCubicMetre, kilograms_per_cubic_metre), pound)
}

/// A spring rate: `5000 N/mm`, `30000 lbf/in`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_rate(text: &str, in_force: Unit) -> Result<SpringRate, Unreadable> {
    read(text, in_force, RATES, (Unit::NewtonPerMillimetre, newtons_per_millimetre), pounds_per_inch)
}

/// Turns on a length of road: `780 /mi`, `485 per km`.
///
/// # Errors
/// [`Unreadable`].
pub fn parse_turns(text: &str, in_force: Unit) -> Result<TurnsPerLength, Unreadable> {
    read(text, in_force, TURNS, (Unit::TurnPerKilometre, turns_per_kilometre), turns_per_mile)
}

/// Three figures with the unit of the display's system.
fn show(display: LengthDisplay, metric: (f64, &str), inch: (f64, &str)) -> String {
    let (value, unit) = if display == LengthDisplay::Millimetre { metric } else { inch };
    format!("{} {unit}", three_figures(value))
}

/// A torque, to three figures.
pub fn show_torque(value: Torque, display: LengthDisplay) -> String {
    show(display, (as_newton_metres(value), "N·m"), (as_pound_feet(value), "lbf·ft"))
}

/// A stress, to three figures.
pub fn show_stress(value: Pressure, display: LengthDisplay) -> String {
    show(display, (as_megapascals(value), "MPa"), (as_ksi(value), "ksi"))
}

/// An elastic modulus in gigapascals: each material's table has them.
pub fn show_modulus(value: Pressure) -> String {
    format!("{} GPa", show_number(as_gigapascals(value), 1))
}

/// A density in kg/m³.
pub fn show_density(value: MassDensity) -> String {
    format!("{} kg/m³", show_number(as_kilograms_per_cubic_metre(value), 0))
}

/// A spring rate, to three figures.
pub fn show_rate(value: SpringRate, display: LengthDisplay) -> String {
    show(display, (as_newtons_per_millimetre(value), "N/mm"), (as_pounds_per_inch(value), "lbf/in"))
}

/// Turns on a length of road, whole ones.
pub fn show_turns(value: TurnsPerLength, display: LengthDisplay) -> String {
    match display {
        LengthDisplay::Millimetre => {
            format!("{} turns a km", show_number(as_turns_per_kilometre(value), 0))
        }
        _ => format!("{} turns a mile", show_number(as_turns_per_mile(value), 0)),
    }
}

#[cfg(test)]
mod tests {
    use super::super::kind::Base;
    use super::super::{Denominator, LengthDisplay};
    use super::*;

    const INCH: LengthDisplay = LengthDisplay::Fraction(Denominator::Sixteenth);
    const METRIC: LengthDisplay = LengthDisplay::Millimetre;

    #[test]
    fn read_in_both_systems() {
        // By definition of the units; 1 lbf·ft = 1.355818 N·m, 1 ksi = 6.894757 MPa, 1 lb/in³ =
        // 27 679.90 kg/m³, 1 lbf/in = 0.1751268 N/mm (published: NIST SP 811, appendix B.8, from memory).
        let near = |got: f64, expected: f64| assert!((got / expected - 1.0).abs() < 1e-6, "{got}");
        let torque = |text| as_newton_metres(parse_torque(text, Unit::PoundFoot).unwrap());
        near(torque("100"), 135.5818);
        for text in ["380 N·m", "380Nm", "380 n m"] {
            near(torque(text), 380.0);
        }
        for text in ["100 lbf·ft", "100 lb-ft", "100 ft-lb", "100 LBFT"] {
            near(torque(text), 135.5818);
        }
        near(as_newton_metres(parse_torque("100", Unit::NewtonMetre).unwrap()), 100.0);
        near(as_megapascals(parse_stress("55", Unit::Ksi).unwrap()), 379.211_7);
        near(as_megapascals(parse_stress("55 n/mm2", Unit::Ksi).unwrap()), 55.0);
        near(as_gigapascals(parse_modulus("30 Mpsi", Unit::Gigapascal).unwrap()), 206.842_7);
        near(as_gigapascals(parse_modulus("205", Unit::Gigapascal).unwrap()), 205.0);
        let density = parse_density("0.0560 lb/in³", Unit::KilogramPerCubicMetre).unwrap();
        near(as_kilograms_per_cubic_metre(density), 1550.0744);
        near(as_newtons_per_millimetre(parse_rate("1000", Unit::PoundPerInch).unwrap()), 175.1268);
        near(
            as_turns_per_kilometre(parse_turns("1609.344 /mi", Unit::TurnPerKilometre).unwrap()),
            1000.0,
        );
        near(as_turns_per_mile(parse_turns("780", Unit::TurnPerMile).unwrap()), 780.0);
    }

    #[test]
    fn what_cannot_be_read() {
        for text in ["12 apples", "x", "5 N", "1.2.3 N·m", "N·m"] {
            assert!(parse_torque(text, Unit::PoundFoot).is_err(), "{text}");
        }
        assert_eq!(parse_stress("  ", Unit::Ksi), Err(Unreadable::Empty));
        assert!(parse_rate("5 /mi", Unit::PoundPerInch).is_err());
    }

    #[test]
    fn shown_in_the_system_in_force() {
        // By definition of the units, to three figures.
        assert_eq!(show_torque(newton_metres(917.0), METRIC), "917 N·m");
        assert_eq!(show_torque(newton_metres(917.0), INCH), "676 lbf·ft");
        assert_eq!(show_stress(ksi(22.2318), INCH), "22.2 ksi");
        assert_eq!(show_stress(ksi(22.2318), METRIC), "153 MPa");
        assert_eq!(show_rate(newtons_per_millimetre(5000.0), METRIC), "5000 N/mm");
        assert_eq!(show_turns(turns_per_mile(780.4), INCH), "780 turns a mile");
        assert_eq!(show_turns(turns_per_mile(780.4), METRIC), "485 turns a km");
        assert_eq!(show_modulus(gigapascals(205.0)), "205.0 GPa");
        assert_eq!(show_density(kilograms_per_cubic_metre(7850.0)), "7850 kg/m³");
        assert_eq!(show_torque(Torque::from_base(f64::NAN), INCH), "no figure lbf·ft");
    }
}
