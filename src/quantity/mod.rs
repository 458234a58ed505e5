//! Text to quantity and back. The only room that names `uom`: everything else in the house speaks
//! of [`Length`], [`Angle`], [`Mass`] and the functions below, so a change of that library stays here.
//!
//! A quantity is stored in SI base units, so a value typed in millimetres or inches may come back
//! one last bit away. The typed text stays the truth; a quantity is rounded once, when it is shown,
//! and never compared with equality.

mod fraction;
mod kind;
mod parse;
mod scan;
mod show;
mod system;
mod unit;

pub use fraction::{Denominator, InchFraction, inch_fraction};
pub use kind::{
    Angle, AngularAcceleration, AngularVelocity, Base, Force, Inertia, Length, Mass, MassDensity,
    Pressure, RoadSpeed, SpringRate, Torque, TurnsPerLength, Unbalance, as_degrees, as_gigapascals,
    as_gram_millimetres, as_grams, as_kilograms, as_kilograms_per_cubic_metre, as_kilometres_per_hour,
    as_ksi, as_megapascals, as_miles_per_hour, as_millimetres, as_newton_metres, as_newtons,
    as_newtons_per_millimetre, as_ounce_inches, as_pound_feet, as_pounds, as_pounds_force,
    as_pounds_per_inch, as_radians_per_second_squared, as_rpm, as_thousandths, as_turns_per_kilometre,
    as_turns_per_mile, centrifugal_force, clockwise_angle, degrees, gigapascals, gram_millimetres,
    grams, half_open_half_turn, in_inches, inches, kilograms, kilograms_per_cubic_metre,
    kilometres_per_hour, ksi, megapascals, miles_per_hour, millimetres, newton_metres,
    newtons_per_millimetre, pound_feet, pounds_per_inch, radians_per_second_squared, rpm,
    turn_rate_squared, turns_per_kilometre, turns_per_mile, weight_of,
};
pub use parse::{
    Unreadable, parse_acceleration, parse_angle, parse_clock, parse_length, parse_mass, parse_number,
    parse_road_speed, parse_speed,
};
pub use show::{
    LengthDisplay, show_acceleration, show_angle, show_clock, show_fine_length, show_force, show_length,
    show_mass, show_number, show_plain_length, show_road_speed, show_speed, show_unbalance,
    three_figures,
};
pub use system::{
    parse_density, parse_modulus, parse_rate, parse_stress, parse_torque, parse_turns, show_density,
    show_modulus, show_rate, show_stress, show_torque, show_turns,
};
pub use unit::Unit;
