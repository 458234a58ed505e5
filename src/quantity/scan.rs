//! Typed text cut into tokens, and the digits of one number read.

use super::Unreadable;

/// Longer text than this is no measurement.
const LONGEST: usize = 40;

/// A piece of typed text.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    /// Digits with their separators, as typed.
    Number(String),
    /// A fraction written as one character, such as ½.
    Fraction(u32, u32),
    /// `/`
    Slash,
    /// Any dash or minus.
    Dash,
    /// `+`
    Plus,
    /// `:`
    Colon,
    /// `'`
    Feet,
    /// `"`
    InchMark,
    /// Letters or `°`, in lower case.
    Word(String),
}

/// Cuts text into tokens.
pub(super) fn scan(text: &str) -> Result<Vec<Token>, Unreadable> {
    let unreadable = || Unreadable::NotUnderstood { given: text.trim().to_owned() };
    if text.trim().chars().count() > LONGEST {
        return Err(Unreadable::TooLong { most: LONGEST });
    }
    let mut tokens: Vec<Token> = Vec::new();
    let mut rest = text.trim().chars().peekable();
    while let Some(c) = rest.next() {
        let token = match c {
            _ if c.is_whitespace() => continue,
            '0'..='9' | '.' | ',' => {
                let mut digits = String::from(c);
                while let Some(&next) = rest.peek() {
                    if !matches!(next, '0'..='9' | '.' | ',') {
                        break;
                    }
                    digits.push(next);
                    rest.next();
                }
                Token::Number(digits)
            }
            '½' => Token::Fraction(1, 2),
            '¼' => Token::Fraction(1, 4),
            '¾' => Token::Fraction(3, 4),
            '⅛' => Token::Fraction(1, 8),
            '⅜' => Token::Fraction(3, 8),
            '⅝' => Token::Fraction(5, 8),
            '⅞' => Token::Fraction(7, 8),
            '/' | '⁄' | '∕' => Token::Slash,
            '-' | '−' | '–' | '—' | '‐' | '‑' => Token::Dash,
            '+' => Token::Plus,
            ':' => Token::Colon,
            '"' | '″' | '”' | '“' | '„' => Token::InchMark,
            '\'' | '′' | '’' | '‘' => {
                // Two single marks in a row are how many keyboards give an inch mark.
                if matches!(rest.peek(), Some('\'' | '′' | '’' | '‘')) {
                    rest.next();
                    Token::InchMark
                } else {
                    Token::Feet
                }
            }
            '°' | 'º' | '˚' => Token::Word("°".to_owned()),
            _ if is_letter(c) => {
                let mut word = String::from(c.to_ascii_lowercase());
                while let Some(&next) = rest.peek() {
                    if !is_letter(next) {
                        break;
                    }
                    word.push(next.to_ascii_lowercase());
                    rest.next();
                }
                Token::Word(word)
            }
            _ => return Err(unreadable()),
        };
        tokens.push(token);
    }
    if tokens.is_empty() { Err(Unreadable::Empty) } else { Ok(tokens) }
}

/// A letter of a unit. Both micro signs count; no unit taken here has another letter beyond ASCII.
fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || matches!(c, 'µ' | 'μ')
}

/// Reads the digits of one number. A point is a decimal point; a comma is a decimal comma unless it
/// could as well part thousands, and then the answer is a question.
pub(super) fn number(digits: &str, whole_text: &str) -> Result<f64, Unreadable> {
    let not_understood = || Unreadable::NotUnderstood { given: whole_text.trim().to_owned() };
    let commas = digits.matches(',').count();
    let points = digits.matches('.').count();
    let plain = match (commas, points) {
        (0, 0 | 1) => digits.to_owned(),
        (1, 0) => {
            let (before, after) = digits.split_once(',').unwrap_or((digits, ""));
            let grouped = format!("{before}{after}");
            let decimal = format!("{before}.{after}");
            if looks_grouped(digits, ',') && !before.starts_with('0') {
                return Err(Unreadable::Ambiguous {
                    given: whole_text.trim().to_owned(),
                    grouped: whole_text.trim().replacen(digits, &grouped, 1),
                    decimal: whole_text.trim().replacen(digits, &decimal, 1),
                });
            }
            decimal
        }
        _ => {
            // Several separators: the last kind, if it stands once, is the decimal one.
            let last_is_comma = digits.rfind(',') > digits.rfind('.');
            let (decimal, group) = if last_is_comma { (',', '.') } else { ('.', ',') };
            let (whole, part) = match (digits.matches(decimal).count(), commas, points) {
                (1, 1.., 1..) => digits.split_once(decimal).unwrap_or((digits, "")),
                (_, 0, _) | (_, _, 0) => (digits, ""),
                _ => return Err(not_understood()),
            };
            let group = if commas == 0 || points == 0 { decimal } else { group };
            if !looks_grouped(whole, group) {
                return Err(not_understood());
            }
            format!("{}.{part}", whole.replace(group, ""))
        }
    };
    exact(&plain).ok_or_else(not_understood)
}

/// Digits with at most one point, as the nearest double.
///
/// The digits make a whole number below 2⁵³ and the point a power of ten up to 10²², both exact as
/// doubles, so that the one division rounds once, to the nearest (Clinger 1990, "How to read
/// floating point numbers accurately", the fast path). No instrument shows more digits; `None` for
/// more, and for no digit at all. The general reader of the standard library would bring 14 kB of
/// tables for numbers that nobody measures.
fn exact(plain: &str) -> Option<f64> {
    const WHOLE_IN_A_DOUBLE: u64 = 1 << 53;
    let (whole, part) = plain.split_once('.').unwrap_or((plain, ""));
    let digits = whole.len() + part.len();
    if digits == 0 || part.len() > 22 {
        return None;
    }
    let mut value: u64 = 0;
    for digit in whole.bytes().chain(part.bytes()) {
        let digit = digit.checked_sub(b'0').filter(|digit| *digit <= 9)?;
        value = value.checked_mul(10)?.checked_add(u64::from(digit))?;
    }
    let scale = (0..part.len()).fold(1.0, |scale, _| scale * 10.0);
    (value <= WHOLE_IN_A_DOUBLE).then_some(value as f64 / scale)
}

/// One to three digits, then groups of exactly three.
fn looks_grouped(digits: &str, separator: char) -> bool {
    let mut groups = digits.split(separator);
    let first = groups.next().unwrap_or("");
    (1..=3).contains(&first.len()) && groups.all(|group| group.len() == 3)
}

#[cfg(test)]
mod tests {
    use super::exact;

    #[test]
    fn exact_is_the_nearest_double() {
        // Second route: the standard library's own reader, bit for bit.
        for text in [
            "0",
            "57.3125",
            "1455.7",
            ".5",
            "5.",
            "0.1",
            "0.3",
            "123456789.123456",
            "9007199254740992",
            "0.0000000000000000000001",
            "100000000000000.5",
        ] {
            assert_eq!(exact(text), Some(text.parse::<f64>().unwrap()), "{text}");
        }
        let mut seed = 7_u64;
        for _ in 0..20_000 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let text = format!("{}.{:05}", (seed >> 40) % 100_000, (seed >> 20) % 100_000);
            assert_eq!(exact(&text), Some(text.parse::<f64>().unwrap()), "{text}");
        }
        for text in [".", "", "9007199254740993", "1e5", "0.00000000000000000000001"] {
            assert_eq!(exact(text), None, "{text}");
        }
    }
}
