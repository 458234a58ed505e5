//! Text to quantity, as a tape, a rule, a dial, a scale and a clock face give it.

use super::kind::{
    Angle, AngularAcceleration, AngularVelocity, Length, Mass, RoadSpeed, inches, kilometres_per_hour,
    miles_per_hour, millimetres, radians_per_second_squared, rpm,
};
use super::scan::{Token, number, scan};
use super::{Unit, degrees, grams, kind::ounces};

/// Why typed text is not a quantity. Worded for people elsewhere.
#[derive(Clone, Debug, PartialEq)]
pub enum Unreadable {
    /// Nothing was typed.
    Empty,
    /// The text is longer than any measurement.
    TooLong {
        /// The most characters allowed.
        most: usize,
    },
    /// The text follows no way of writing this quantity.
    NotUnderstood {
        /// The text as given.
        given: String,
    },
    /// One comma or gap with three digits behind it: thousands or decimals.
    Ambiguous {
        /// The text as given.
        given: String,
        /// The text if the mark parts thousands.
        grouped: String,
        /// The text if the mark is the decimal mark.
        decimal: String,
    },
    /// The word behind the number is not a unit of this kind.
    UnknownUnit {
        /// The word.
        unit: String,
    },
    /// A fraction whose lower number no tape has, or whose upper number is not below it.
    OddFraction {
        /// Upper number as given.
        upper: f64,
        /// Lower number as given.
        lower: f64,
    },
    /// Inches behind feet reach or pass a foot.
    InchesPassFoot {
        /// The inches as given.
        inches: f64,
    },
    /// Minutes on a clock face reach or pass an hour.
    MinutesPassHour {
        /// The minutes as given.
        minutes: f64,
    },
}

/// Reads a length: `57-5/16`, `57 5/16"`, `4' 9-5/16"`, `57.3125`, `1455.7 mm`, `145,57 cm`.
/// A bare number has the unit in force.
///
/// # Errors
/// Any [`Unreadable`]; a point is always decimal, a comma with three digits behind it is asked about.
pub fn parse_length(text: &str, in_force: Unit) -> Result<Length, Unreadable> {
    let mut reader = Reader::new(text)?;
    let sign = reader.sign();
    let first = reader.mixed_number()?;
    let length = match reader.next() {
        None => first * in_force.one_length().ok_or_else(|| reader.not_understood())?,
        Some(Token::Feet) => reader.inches_behind(first)?,
        Some(Token::InchMark) => inches(first),
        Some(Token::Word(word)) => match word.as_str() {
            "ft" | "foot" | "feet" => reader.inches_behind(first)?,
            "in" | "inch" | "inches" => inches(first),
            "mm" => millimetres(first),
            "cm" => millimetres(first * 10.0),
            "m" => millimetres(first * 1000.0),
            "thou" => inches(first / 1000.0),
            "µm" | "μm" | "um" => millimetres(first / 1000.0),
            _ => return Err(Unreadable::UnknownUnit { unit: word }),
        },
        Some(_) => return Err(reader.not_understood()),
    };
    reader.end()?;
    Ok(length * sign)
}

/// Reads an angle in degrees, with or without its sign and unit: `1.5`, `−2,25°`, `3 deg`.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_angle(text: &str, in_force: Unit) -> Result<Angle, Unreadable> {
    let mut reader = Reader::new(text)?;
    let sign = reader.sign();
    let value = reader.mixed_number()?;
    let unit = reader.angle_unit(in_force)?;
    reader.end()?;
    Ok(unit.one_angle().ok_or_else(|| reader.not_understood())? * (value * sign))
}

/// Reads a place on the clock face as an angle clockwise from 12: `7:30`, `7.5`, `4 o'clock`, `225°`.
/// A bare number has the unit in force: hours or degrees. The hour after twelve counts from nothing,
/// so `12:30` is 15°.
///
/// # Errors
/// Any [`Unreadable`]. The range is left to the caller.
pub fn parse_clock(text: &str, in_force: Unit) -> Result<Angle, Unreadable> {
    let lower = text.trim().to_ascii_lowercase().replace('’', "'");
    let (text, in_force) = match lower.strip_suffix("o'clock").or(lower.strip_suffix("oclock")) {
        Some(hours) => (hours, Unit::Hour),
        None => (lower.as_str(), in_force),
    };
    let mut reader = Reader::new(text)?;
    let sign = reader.sign();
    let value = reader.mixed_number()?;
    if reader.peek() == Some(&Token::Colon) {
        reader.next();
        let minutes = reader.mixed_number()?;
        reader.end()?;
        if minutes >= 60.0 {
            return Err(Unreadable::MinutesPassHour { minutes });
        }
        return Ok(degrees(DEGREES_PER_HOUR * sign * past_twelve(value + minutes / 60.0)));
    }
    let unit = reader.angle_unit(in_force)?;
    reader.end()?;
    match unit {
        Unit::Hour => Ok(degrees(DEGREES_PER_HOUR * sign * past_twelve(value))),
        other => Ok(other.one_angle().ok_or_else(|| reader.not_understood())? * (value * sign)),
    }
}

/// Degrees of a dial that an hour covers.
const DEGREES_PER_HOUR: f64 = 30.0;

/// Hours past twelve: a clock's first hour is written 12:30, not 0:30.
fn past_twelve(hours: f64) -> f64 {
    if (12.0..13.0).contains(&hours) { hours - 12.0 } else { hours }
}

/// Reads a mass: `14`, `14.2 g`, `1/2 oz`, `9.5 kg`, `21 lb`.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_mass(text: &str, in_force: Unit) -> Result<Mass, Unreadable> {
    let mut reader = Reader::new(text)?;
    let sign = reader.sign();
    let value = reader.mixed_number()?;
    let one = match reader.next() {
        None => in_force.one_mass().ok_or_else(|| reader.not_understood())?,
        Some(Token::Word(word)) => match word.as_str() {
            "g" | "gram" | "grams" => grams(1.0),
            "kg" | "kilo" | "kilogram" | "kilograms" => grams(1000.0),
            "oz" | "ounce" | "ounces" => ounces(1.0),
            "lb" | "lbs" | "pound" | "pounds" => ounces(16.0),
            _ => return Err(Unreadable::UnknownUnit { unit: word }),
        },
        Some(_) => return Err(reader.not_understood()),
    };
    reader.end()?;
    Ok(one * (value * sign))
}

/// Reads a speed of rotation in revolutions per minute: `4200`, `4200 rpm`.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_speed(text: &str) -> Result<AngularVelocity, Unreadable> {
    let mut reader = Reader::new(text)?;
    let sign = reader.sign();
    let value = reader.mixed_number()?;
    match reader.next() {
        None => {}
        Some(Token::Word(word)) if word == "rpm" => {}
        Some(Token::Word(word)) => return Err(Unreadable::UnknownUnit { unit: word }),
        Some(_) => return Err(reader.not_understood()),
    }
    reader.end()?;
    Ok(rpm(value * sign))
}

/// Reads a road speed: `70 mph`, `110 km/h`. A bare number has the unit in force.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_road_speed(text: &str, in_force: Unit) -> Result<RoadSpeed, Unreadable> {
    let units = [("mph", false), ("km/h", true), ("kmh", true), ("kph", true)];
    let (value, unit) = before_unit(text, &units)?;
    let metric = unit.unwrap_or(in_force == Unit::KilometrePerHour);
    Ok(if metric { kilometres_per_hour(value) } else { miles_per_hour(value) })
}

/// Reads an angular acceleration in radians per second squared: `400`, `400 rad/s²`.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_acceleration(text: &str) -> Result<AngularAcceleration, Unreadable> {
    let (value, _) = before_unit(text, &[("rad/s²", true), ("rad/s2", true), ("rad/s^2", true)])?;
    Ok(radians_per_second_squared(value))
}

/// Reads a bare number of whatever an instrument counts: `4.2`, `0,35`.
///
/// # Errors
/// Any [`Unreadable`].
pub fn parse_number(text: &str) -> Result<f64, Unreadable> {
    before_unit(text, &[]).map(|(value, _)| value)
}

/// The number before one of a few units whose names are no single word, and what goes with that unit. What
/// is said of a text quotes all of it, and the two readings of a comma keep its unit.
pub(super) fn before_unit(
    text: &str,
    units: &[(&str, bool)],
) -> Result<(f64, Option<bool>), Unreadable> {
    let whole = text.trim();
    let lower = whole.to_ascii_lowercase();
    let found = units.iter().find_map(|(name, is)| {
        let number = whole.get(..lower.strip_suffix(name)?.len())?;
        Some((number, *name, *is))
    });
    let number = || {
        let mut reader = Reader::new(found.map_or(whole, |(number, ..)| number))?;
        let sign = reader.sign();
        let value = reader.mixed_number()?;
        match reader.next() {
            None => Ok(value * sign),
            Some(Token::Word(word)) => Err(Unreadable::UnknownUnit { unit: word }),
            Some(_) => Err(reader.not_understood()),
        }
    };
    match (number(), found) {
        (Ok(value), _) => Ok((value, found.map(|(.., is)| is))),
        (Err(Unreadable::Ambiguous { grouped, decimal, .. }), Some((_, unit, _))) => {
            Err(Unreadable::Ambiguous {
                given: whole.to_owned(),
                grouped: format!("{grouped} {unit}"),
                decimal: format!("{decimal} {unit}"),
            })
        }
        (Err(Unreadable::NotUnderstood { .. }), _) => {
            Err(Unreadable::NotUnderstood { given: whole.to_owned() })
        }
        (Err(why), _) => Err(why),
    }
}

/// A walk over the tokens of one text.
struct Reader<'a> {
    text: &'a str,
    tokens: Vec<Token>,
    at: usize,
}

impl<'a> Reader<'a> {
    fn new(text: &'a str) -> Result<Self, Unreadable> {
        Ok(Reader { text, tokens: scan(text)?, at: 0 })
    }

    fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at)
    }

    fn peek_after(&self, ahead: usize) -> Option<&Token> {
        self.tokens.get(self.at + ahead)
    }

    fn next(&mut self) -> Option<Token> {
        let token = self.tokens.get(self.at).cloned();
        self.at += 1;
        token
    }

    fn not_understood(&self) -> Unreadable {
        Unreadable::NotUnderstood { given: self.text.trim().to_owned() }
    }

    fn end(&self) -> Result<(), Unreadable> {
        if self.peek().is_none() { Ok(()) } else { Err(self.not_understood()) }
    }

    fn sign(&mut self) -> f64 {
        match self.peek() {
            Some(Token::Dash) => {
                self.at += 1;
                -1.0
            }
            Some(Token::Plus) => {
                self.at += 1;
                1.0
            }
            _ => 1.0,
        }
    }

    /// A number, a fraction, or a whole number with a fraction behind it.
    fn mixed_number(&mut self) -> Result<f64, Unreadable> {
        let first = match self.next() {
            Some(Token::Fraction(upper, lower)) => return Ok(f64::from(upper) / f64::from(lower)),
            Some(Token::Number(digits)) => digits,
            _ => return Err(self.not_understood()),
        };
        if self.peek() == Some(&Token::Slash) {
            self.at += 1;
            return self.fraction(&first);
        }
        // "57-5/16", "57 5/16", "57½": the dash only joins where a fraction follows it.
        let dash = usize::from(self.peek() == Some(&Token::Dash));
        if let Some(Token::Fraction(upper, lower)) = self.peek_after(dash) {
            let part = f64::from(*upper) / f64::from(*lower);
            self.at += dash + 1;
            return Ok(self.whole(&first)? + part);
        }
        if let Some(Token::Number(upper)) = self.peek_after(dash) {
            let upper = upper.clone();
            if self.peek_after(dash + 1) == Some(&Token::Slash) {
                self.at += dash + 2;
                return Ok(self.whole(&first)? + self.fraction(&upper)?);
            }
            // Only one gap asks the question, and only where both answers can be written down.
            let three_digits = upper.len() == 3 && self.whole(&upper).is_ok();
            let whole_before = first.len() <= 3 && self.whole(&first).is_ok();
            let ends_there = !matches!(self.peek_after(1), Some(Token::Number(_)));
            if dash == 0 && three_digits && whole_before && ends_there {
                return Err(self.gap_or_point(&first, &upper));
            }
        }
        number(&first, self.text)
    }

    /// "1 455": a gap with three digits behind it may part thousands or stand for a point. What
    /// stands before and behind, a sign or a unit, stays.
    fn gap_or_point(&self, first: &str, behind: &str) -> Unreadable {
        let given = self.text.trim();
        let with = |mark: &str| {
            given.match_indices(first).find_map(|(at, _)| {
                let (before, rest) = given.split_at_checked(at)?;
                let gap = rest.strip_prefix(first)?;
                let tail = gap.trim_start().strip_prefix(behind)?;
                let parted = gap.starts_with(char::is_whitespace);
                parted.then(|| format!("{before}{first}{mark}{behind}{tail}"))
            })
        };
        match (with(""), with(".")) {
            (Some(grouped), Some(decimal)) => {
                Unreadable::Ambiguous { given: given.to_owned(), grouped, decimal }
            }
            _ => self.not_understood(),
        }
    }

    /// Digits alone, no separators: what may stand before a fraction.
    fn whole(&self, digits: &str) -> Result<f64, Unreadable> {
        if digits.bytes().all(|b| b.is_ascii_digit()) {
            number(digits, self.text)
        } else {
            Err(self.not_understood())
        }
    }

    /// The fraction whose upper number was just read; stands on its lower number.
    fn fraction(&mut self, upper: &str) -> Result<f64, Unreadable> {
        let upper = self.whole(upper)?;
        let lower = match self.next() {
            Some(Token::Number(digits)) => self.whole(&digits)?,
            _ => return Err(self.not_understood()),
        };
        // A tape's lines halve the inch again and again; anything else is a slip of the finger.
        if [2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0].contains(&lower) && upper < lower {
            Ok(upper / lower)
        } else {
            Err(Unreadable::OddFraction { upper, lower })
        }
    }

    /// Feet were read: the inches that may follow them.
    fn inches_behind(&mut self, feet: f64) -> Result<Length, Unreadable> {
        if self.peek().is_none() {
            return Ok(inches(feet * 12.0));
        }
        if self.peek() == Some(&Token::Dash) {
            self.at += 1;
        }
        let behind = self.mixed_number()?;
        if behind >= 12.0 {
            return Err(Unreadable::InchesPassFoot { inches: behind });
        }
        match self.next() {
            None | Some(Token::InchMark) => {}
            Some(Token::Word(word)) if ["in", "inch", "inches"].contains(&word.as_str()) => {}
            Some(Token::Word(unit)) => return Err(Unreadable::UnknownUnit { unit }),
            Some(_) => return Err(self.not_understood()),
        }
        Ok(inches(feet * 12.0 + behind))
    }

    /// The unit of an angle, or the one in force.
    fn angle_unit(&mut self, in_force: Unit) -> Result<Unit, Unreadable> {
        match self.next() {
            None => Ok(in_force),
            Some(Token::Word(word)) => match word.as_str() {
                "°" | "deg" | "degree" | "degrees" => Ok(Unit::Degree),
                "h" | "hour" | "hours" => Ok(Unit::Hour),
                _ => Err(Unreadable::UnknownUnit { unit: word }),
            },
            Some(_) => Err(self.not_understood()),
        }
    }
}
