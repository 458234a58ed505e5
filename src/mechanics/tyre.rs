//! A tyre by the size on its side, and how often it turns on the road.

use core::f64::consts::PI;

use crate::quantity::{Base, Length, TurnsPerLength, inches, millimetres};

/// A tyre's size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tyre {
    diameter: Length,
    width: Length,
    rim: Length,
}

/// A part of a size's marking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// What a size in inches begins with.
    Diameter,
    /// The width of the section.
    Width,
    /// Height of the side as a share of the width, in per cent.
    Aspect,
    /// The letter before the rim: R, B or D, or a dash.
    Construction,
    /// The rim's diameter in inches.
    Rim,
}

/// Why a marking is no tyre's size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSuchTyre {
    /// There is no text.
    Empty,
    /// The text is longer than any marking.
    TooLong,
    /// Up to here it was understood; then this part should have come and did not.
    Missing(Part),
    /// This part is a number that no road tyre has.
    OutOfRange(Part),
    /// What stands behind the size is neither a load and speed mark nor one of a van's or lorry's tyre.
    Behind,
}

/// How far a loaded tyre rolls in a turn, as a share of its own circumference: 0.97, the middle of the 0.96 to
/// 0.98 that vehicle manuals' tables of turns a mile come to (published there).
pub const LOADED_SHARE: f64 = 0.97;

/// How far that share may lie to either side: ±0.01, so that the turns are known to ±1 %.
pub const LOADED_HALF_WIDTH: f64 = 0.01;

/// Longer than any marking, in bytes.
const LONGEST: usize = 40;

impl Tyre {
    /// Diameter of the tyre without load.
    pub fn diameter(self) -> Length {
        self.diameter
    }

    /// Width of its section.
    pub fn width(self) -> Length {
        self.width
    }

    /// Diameter of its rim.
    pub fn rim(self) -> Length {
        self.rim
    }

    /// How often the tyre turns on a length of road.
    ///
    /// Formula: n = 1/(π·D·s).
    /// Symbols: D diameter; s share of its circumference that it rolls in a turn, 1 as a plain wheel.
    /// Range: `None` unless 0 < s ≤ 1. Source: geometry.
    pub fn turns(self, share: f64) -> Option<TurnsPerLength> {
        let turns = turning(self.diameter, share);
        (share > 0.0 && share <= 1.0 && turns.is_finite()).then_some(turns)
    }
}

/// Turns of a wheel of this diameter that rolls such a share of its round in each.
fn turning(diameter: Length, share: f64) -> TurnsPerLength {
    TurnsPerLength::from_base(1.0 / (PI * diameter.base() * share))
}

/// How often a tyre turns on a length of road under its load, ±[`LOADED_HALF_WIDTH`] of it.
///
/// Formula: n = 1/(0.97·π·D). Symbols: D diameter of the tyre without load. Source: [`LOADED_SHARE`].
/// Assumes a radial tyre at its pressure. The maker's own figure, or [`rolled_out`], goes before it.
pub fn loaded(tyre: Tyre) -> TurnsPerLength {
    turning(tyre.diameter, LOADED_SHARE)
}

/// How often a tyre turns on a length of road, from a distance rolled out on the floor.
///
/// Formula: n = N/s. Symbols: N turns of the wheel, s distance.
/// Range: `None` unless both are above 0 and finite. Source: definition. Assumes the car's weight on the
/// wheel and its own pressure in the tyre.
pub fn rolled_out(turns: f64, distance: Length) -> Option<TurnsPerLength> {
    let each = turns / distance.base();
    let in_range = turns > 0.0 && distance.base() > 0.0 && each > 0.0 && each.is_finite();
    in_range.then(|| TurnsPerLength::from_base(each))
}

/// Reads the size on a tyre's side.
///
/// In millimetres, as `205/55R16`, `P205/55 ZR16 91V`, `LT245/75R16`, `215/65R16C 109/107T`:
/// width / aspect, letter, rim in inches; D = rim + 2·width·aspect/100. In inches, as
/// `31x10.50R15` or `31x10.50R15LT`: diameter × width, letter, rim. Large or small letters, spaces between
/// the parts; a dash for the letter, as on older cross-ply tyres; a decimal comma as a point.
/// Range, our own choice: width 100 to 500 mm or 3 to 25 in, aspect 15 to 100, rim 8 to 30 in, diameter 15 to
/// 60 in and more than the rim.
/// Source: ISO 4000-1, designation (from memory); the size in inches by common practice of light trucks.
///
/// # Errors
/// [`NoSuchTyre`]: which part is missing or cannot be.
pub fn parse_tyre(text: &str) -> Result<Tyre, NoSuchTyre> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NoSuchTyre::Empty);
    }
    if text.len() > LONGEST {
        return Err(NoSuchTyre::TooLong);
    }
    let mut reader = Reader { rest: text.as_bytes() };
    if !reader.word(b"LT") {
        reader.word(b"P");
    }
    let first = reader.number(Part::Width)?;
    let tyre = if reader.word(b"/") {
        let width = within(Part::Width, first, 100.0, 500.0)?;
        let aspect = within(Part::Aspect, reader.number(Part::Aspect)?, 15.0, 100.0)?;
        let rim = reader.rim()?;
        let width = millimetres(width);
        Tyre { diameter: rim + width * (2.0 * aspect / 100.0), width, rim }
    } else if reader.word(b"X") || reader.word("×".as_bytes()) {
        let across = within(Part::Diameter, first, 15.0, 60.0)?;
        let width = within(Part::Width, reader.number(Part::Width)?, 3.0, 25.0)?;
        let (diameter, rim) = (inches(across), reader.rim()?);
        if rim >= diameter {
            return Err(NoSuchTyre::OutOfRange(Part::Rim));
        }
        Tyre { diameter, width: inches(width), rim }
    } else {
        return Err(NoSuchTyre::Missing(Part::Aspect));
    };
    reader.behind().then_some(tyre).ok_or(NoSuchTyre::Behind)
}

/// A part's number, if a road tyre can have it.
fn within(part: Part, number: f64, least: f64, most: f64) -> Result<f64, NoSuchTyre> {
    if (least..=most).contains(&number) { Ok(number) } else { Err(NoSuchTyre::OutOfRange(part)) }
}

/// What is left of a marking. Bytes are enough: every letter of one is ASCII, and what is not matches nothing.
struct Reader<'a> {
    rest: &'a [u8],
}

impl Reader<'_> {
    /// Whether this stands next, in large or small letters, behind any spaces; goes past it if so.
    fn word(&mut self, word: &[u8]) -> bool {
        let from = self.rest.trim_ascii_start();
        let Some((head, tail)) = from.split_at_checked(word.len()) else {
            return false;
        };
        let found = head.eq_ignore_ascii_case(word);
        if found {
            self.rest = tail;
        }
        found
    }

    /// One digit, with nothing before it.
    fn digit(&mut self) -> Option<u8> {
        let (first, tail) = self.rest.split_first()?;
        let digit = first.checked_sub(b'0').filter(|digit| *digit <= 9)?;
        self.rest = tail;
        Some(digit)
    }

    /// Digits with at most one point or comma among them; a marking has no other numbers.
    fn number(&mut self, part: Part) -> Result<f64, NoSuchTyre> {
        self.rest = self.rest.trim_ascii_start();
        let missing = NoSuchTyre::Missing(part);
        let mut value = f64::from(self.digit().ok_or(missing)?);
        while let Some(digit) = self.digit() {
            value = value * 10.0 + f64::from(digit);
        }
        if let Some((b'.' | b',', tail)) = self.rest.split_first() {
            self.rest = tail;
            let mut scale = 10.0;
            let mut decimals = f64::from(self.digit().ok_or(missing)?);
            while let Some(digit) = self.digit() {
                decimals = decimals * 10.0 + f64::from(digit);
                scale *= 10.0;
            }
            value += decimals / scale;
        }
        Ok(value)
    }

    /// The letter of the construction and the rim behind it.
    fn rim(&mut self) -> Result<Length, NoSuchTyre> {
        let fast = self.word(b"Z");
        let known = self.word(b"R") || !fast && (self.word(b"B") || self.word(b"D") || self.word(b"-"));
        if !known {
            return Err(NoSuchTyre::Missing(Part::Construction));
        }
        let rim = self.number(Part::Rim)?;
        within(Part::Rim, rim, 8.0, 30.0).map(inches)
    }

    /// Whether what stands behind the size belongs there: nothing, `LT` or `C`, and a load and speed mark such as
    /// `91V`, `109/107T` or `(95Y)`.
    fn behind(&mut self) -> bool {
        if !self.word(b"LT") {
            self.word(b"C");
        }
        if self.rest.trim_ascii().is_empty() {
            return true;
        }
        let open = self.word(b"(");
        let load = self.load() && (!self.word(b"/") || self.load());
        self.rest = self.rest.trim_ascii_start();
        let speed = match self.rest.split_first() {
            Some((letter, tail)) if letter.is_ascii_alphabetic() => {
                self.rest = tail;
                true
            }
            _ => false,
        };
        // A8 is a speed too.
        self.digit();
        load && speed && (!open || self.word(b")")) && self.rest.is_empty()
    }

    /// Two or three digits: a load's mark.
    fn load(&mut self) -> bool {
        self.rest = self.rest.trim_ascii_start();
        let two = self.digit().is_some() && self.digit().is_some();
        self.digit();
        two
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::quantity::{as_millimetres, as_turns_per_mile, in_inches};

    #[test]
    fn sizes() {
        // By hand, from the definition of the marking: 16 in + 2·205·0.55 = 631.9 mm; others likewise. A
        // size in inches says its diameter itself.
        for (text, diameter, width, rim) in [
            ("205/55R16", 631.9, 205.0, 16.0),
            (" 205/55r16 ", 631.9, 205.0, 16.0),
            ("P205/55 ZR16 91V", 631.9, 205.0, 16.0),
            ("p 205 / 55 R 16 (91Y)", 631.9, 205.0, 16.0),
            ("205/55R16 91 V", 631.9, 205.0, 16.0),
            ("LT245/75R16 120/116S", 773.9, 245.0, 16.0),
            ("215/65R16C 109/107T", 685.9, 215.0, 16.0),
            ("165/80-13", 594.2, 165.0, 13.0),
            ("225/75B15", 718.5, 225.0, 15.0),
            ("31x10.50R15", 787.4, 266.7, 15.0),
            ("31X10,50 R15LT 109Q", 787.4, 266.7, 15.0),
            ("35×12.5R16.5", 889.0, 317.5, 16.5),
            ("33x12.50D15 LT", 838.2, 317.5, 15.0),
        ] {
            let got = parse_tyre(text);
            let got = got.unwrap_or_else(|why| panic!("{text}: {why:?}"));
            assert!((as_millimetres(got.diameter()) - diameter).abs() < 1e-9, "{text} {got:?}");
            assert!((as_millimetres(got.width()) - width).abs() < 1e-9, "{text} {got:?}");
            assert!((in_inches(got.rim()) - rim).abs() < 1e-9, "{text} {got:?}");
        }
    }

    #[test]
    fn no_size() {
        use NoSuchTyre::{Behind, Empty, Missing, OutOfRange, TooLong};
        use Part::{Aspect, Construction, Diameter, Rim, Width};
        // What the doc block says is a marking, broken at each of its parts.
        for (text, why) in [
            ("", Empty),
            ("  ", Empty),
            ("banana", Missing(Width)),
            ("P", Missing(Width)),
            ("-205/55R16", Missing(Width)),
            ("٢٠٥/55R16", Missing(Width)),
            ("NaN/55R16", Missing(Width)),
            ("205", Missing(Aspect)),
            ("205/", Missing(Aspect)),
            ("205/-55R16", Missing(Aspect)),
            ("205:55R16", Missing(Aspect)),
            ("205./55R16", Missing(Width)),
            ("205/55", Missing(Construction)),
            ("205/55Q16", Missing(Construction)),
            ("205/55ZB16", Missing(Construction)),
            ("205/55 16", Missing(Construction)),
            ("205/55Я16", Missing(Construction)),
            ("205/55R", Missing(Rim)),
            ("205/55R-16", Missing(Rim)),
            ("205/55RR16", Missing(Rim)),
            ("31x", Missing(Width)),
            ("31x10.50", Missing(Construction)),
            ("31x10.50R", Missing(Rim)),
            ("0/0R0", OutOfRange(Width)),
            ("205/0R16", OutOfRange(Aspect)),
            ("205/55R0", OutOfRange(Rim)),
            ("205/55R390", OutOfRange(Rim)),
            ("99999999999999999999/55R16", OutOfRange(Width)),
            ("205/55R99999999999999999999999999", OutOfRange(Rim)),
            ("0x0R0", OutOfRange(Diameter)),
            ("31x0R15", OutOfRange(Width)),
            ("205x55R16", OutOfRange(Diameter)),
            ("16x6R16", OutOfRange(Rim)),
            ("205/55R16 banana", Behind),
            ("205/55R16 91", Behind),
            ("205/55R16 9V", Behind),
            ("205/55R16 (91V", Behind),
            ("205/55R16 91V 5", Behind),
            ("205/55R16 91VV", Behind),
            ("205/55R16/", Behind),
            ("205/55R16½", Behind),
            ("205/55R16.5.5", Behind),
            ("205/55R16 91V 205/55R16 91V 205/55R16 91V", TooLong),
        ] {
            assert_eq!(parse_tyre(text), Err(why), "{text}");
        }
    }

    #[test]
    fn any_text_is_read_or_refused() {
        // Law, over seeded luck: whatever stands there, it is a tyre of a size that can be or an error; and a
        // whole size of any numbers in range comes back as its own numbers.
        let mut next = luck(31);
        let letters = ['2', '0', '5', '/', 'R', 'x', ' ', '.', 'é', '×', 'L', 'T', '1', '6', '(', 'V'];
        for _ in 0..20_000 {
            let long = next(0.0, 14.0) as usize;
            let text: String = (0..long).map(|_| letters[next(0.0, 15.999) as usize]).collect();
            if let Ok(tyre) = parse_tyre(&text) {
                let (d, rim) = (in_inches(tyre.diameter()), in_inches(tyre.rim()));
                assert!(d > rim && d < 75.0 && rim >= 8.0, "{text}");
            }
        }
        for _ in 0..500 {
            let [width, aspect, rim] =
                [(100.0, 500.0), (15.0, 100.0), (8.0, 30.0)].map(|(a, b)| next(a, b).floor());
            let tyre = parse_tyre(&format!("{width}/{aspect}R{rim}")).unwrap();
            let wall = (as_millimetres(tyre.diameter()) - as_millimetres(tyre.rim())) / 2.0;
            assert!((wall / as_millimetres(tyre.width()) - aspect / 100.0).abs() < 1e-9);
            assert!((in_inches(tyre.rim()) - rim).abs() < 1e-9);
        }
    }

    #[test]
    fn how_often_it_turns() {
        // Derived by rolling a polygon of many sides (tests/handbook/strength.py): 205/55R16 turns
        // 810.68 times a mile as a plain wheel, 835.75 times at 0.97 of its circumference.
        let tyre = parse_tyre("205/55R16").unwrap();
        assert!((as_turns_per_mile(tyre.turns(1.0).unwrap()) - 810.68).abs() < 0.005);
        assert!((as_turns_per_mile(loaded(tyre)) - 835.75).abs() < 0.005);
        // Published: vehicle manuals' tables lie between 1/0.96 and 1/0.98 of the plain wheel's turns, and
        // the half-width reaches from one to the other.
        for end in [-LOADED_HALF_WIDTH, LOADED_HALF_WIDTH] {
            let share = loaded(tyre).base() * (1.0 + end) / tyre.turns(1.0).unwrap().base();
            let there = 1.0 / if end > 0.0 { 0.96 } else { 0.98 };
            assert!((share - there).abs() < 0.0005, "{share}");
        }
        // By hand: one turn over 2 m is 804.67 a mile.
        let rolled = rolled_out(1.0, millimetres(2000.0)).unwrap();
        assert!((as_turns_per_mile(rolled) - 804.67).abs() < 0.005);
        // Law, over seeded luck: a plain wheel of the diameter that a distance tells turns as often.
        let mut next = luck(37);
        for _ in 0..100 {
            let (n, share) = (next(1.0, 10.0).floor(), next(0.5, 1.0));
            let way = n * PI * as_millimetres(tyre.diameter()) * share;
            let off =
                rolled_out(n, millimetres(way)).unwrap().base() / tyre.turns(share).unwrap().base();
            assert!((off - 1.0).abs() < 1e-12);
        }
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(tyre.turns(bad).is_none() && rolled_out(bad, inches(80.0)).is_none());
            assert!(rolled_out(1.0, inches(bad)).is_none());
        }
        assert!(tyre.turns(1.01).is_none());
    }
}
