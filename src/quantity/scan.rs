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
    if text.chars().count() > LONGEST {
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
            _ if c.is_alphabetic() => {
                let mut word: String = c.to_lowercase().collect();
                while let Some(&next) = rest.peek() {
                    if !next.is_alphabetic() {
                        break;
                    }
                    word.extend(next.to_lowercase());
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
    // Only digits and one point can be left, so no "inf" or "nan" gets this far; the check stays
    // because a parse that could give one must never reach a sum.
    let value: f64 = plain.parse().map_err(|_| not_understood())?;
    if value.is_finite() { Ok(value) } else { Err(not_understood()) }
}

/// One to three digits, then groups of exactly three.
fn looks_grouped(digits: &str, separator: char) -> bool {
    let mut groups = digits.split(separator);
    let first = groups.next().unwrap_or("");
    (1..=3).contains(&first.len()) && groups.all(|group| group.len() == 3)
}
