//! What an answer must say, and numbers read back out of the page's text.
//!
//! The reader knows only how a mechanic reads: a mixed fraction with what is left over, decimals, a
//! unit. How exactly a number can be read back is half a unit of the last digit that is shown.

use std::fs;
use std::path::Path;

use crate::page::{Page, quoted};

/// What the script tests/handbook/shaft.py printed for a key. Inches, degrees, rpm, grams or g·mm.
pub fn by_hand(key: &str) -> f64 {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/shaft.txt");
    let text = fs::read_to_string(path).unwrap();
    let line = text.lines().find_map(|line| line.rsplit_once(' ').filter(|(known, _)| *known == key));
    line.unwrap_or_else(|| panic!("shaft.txt has no line {key}")).1.parse().unwrap()
}

/// A number as read, and half a unit of its last digit.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Read {
    number: f64,
    half: f64,
}

/// The first number of a text; millimetres come as inches.
fn read(text: &str) -> Option<Read> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let sign = if text[..start].ends_with('−') { -1.0 } else { 1.0 };
    let rest = &text[start..];
    let end = rest.find(|c: char| !(c.is_ascii_digit() || ".-/".contains(c))).unwrap_or(rest.len());
    let (digits, unit) = (&rest[..end], rest[end..].trim_start());
    // A tape's fraction stands with its leftover in ten-thousandths, which are left out below half of one.
    let tape = Read { number: mixed(digits)?, half: 0.000_05 };
    let plain = match digits.split_once('.') {
        Some((_, decimals)) => Read { half: 0.5 / 10_f64.powi(decimals.len() as i32), ..tape },
        None => Read { half: 0.5, ..tape },
    };
    let read = match unit {
        unit if unit.starts_with("mm") => Read { number: plain.number / 25.4, half: plain.half / 25.4 },
        // Three figures, as an estimate is shown.
        unit if unit.starts_with("rpm") => {
            Read { half: 0.5 * 10_f64.powf(plain.number.log10().floor() - 2.0), ..plain }
        }
        unit if unit.starts_with("in (") => Read { number: tape.number + leftover(unit)?, ..tape },
        unit if unit.starts_with("in") && !digits.contains('.') => tape,
        _ => plain,
    };
    Some(Read { number: sign * read.number, ..read })
}

/// `1-13/16`, `13/16`, `57` or `0.0157`.
fn mixed(digits: &str) -> Option<f64> {
    let (whole, part) = match digits.split_once('-') {
        Some((whole, part)) => (whole.parse().ok()?, part),
        None if digits.contains('/') => (0.0, digits),
        None => return digits.parse().ok(),
    };
    let (upper, lower) = part.split_once('/')?;
    Some(whole + upper.parse::<f64>().ok()? / lower.parse::<f64>().ok()?)
}

/// `in (−0.0208)`.
fn leftover(unit: &str) -> Option<f64> {
    unit.strip_prefix("in (")?.split(')').next()?.replace('−', "-").parse().ok()
}

fn agrees(what: &str, text: &str, wanted: f64) -> Result<(), String> {
    let read = read(text).ok_or_else(|| format!("{what}: no number in “{text}”"))?;
    // A hair for the script's nine printed decimals.
    let close = (read.number - wanted).abs() <= read.half + 1e-8;
    if close { Ok(()) } else { Err(format!("{what}: “{text}” where {wanted} is wanted")) }
}

/// What a card shows.
#[derive(Debug, serde::Deserialize)]
pub struct Card {
    /// The number, large.
    pub value: String,
    /// Its ±.
    pub doubt: String,
    /// Which way, or where.
    pub sense: String,
    /// One word.
    pub verdict: String,
    /// All of it.
    pub all: String,
}

/// What a card must show.
pub struct Answer {
    name: &'static str,
    value: f64,
    doubt: Option<f64>,
    verdict: Option<&'static str>,
    at: Option<f64>,
    distance: Option<f64>,
    words: &'static str,
}

impl Answer {
    /// An answer of this name and number: inches, degrees, rpm, grams, g·mm or a share.
    pub fn of(name: &'static str, value: f64) -> Answer {
        Answer { name, value, doubt: None, verdict: None, at: None, distance: None, words: "" }
    }

    /// The same from a line of the script's output.
    pub fn by_hand(name: &'static str, key: &str) -> Answer {
        Answer::of(name, by_hand(key))
    }

    /// With this ±.
    pub fn doubt(self, doubt: f64) -> Answer {
        Answer { doubt: Some(doubt), ..self }
    }

    /// With this verdict.
    pub fn judged(self, verdict: &'static str) -> Answer {
        Answer { verdict: Some(verdict), ..self }
    }

    /// With this place on the clock, in degrees.
    pub fn at(self, degrees: f64) -> Answer {
        Answer { at: Some(degrees), ..self }
    }

    /// With this distance behind the place on the clock.
    pub fn distance(self, inches: f64) -> Answer {
        Answer { distance: Some(inches), ..self }
    }

    /// With these words somewhere on the card.
    pub fn says(self, words: &'static str) -> Answer {
        Answer { words, ..self }
    }

    fn against(&self, card: &Card) -> Result<(), String> {
        agrees("value", &card.value, self.value)?;
        if let Some(doubt) = self.doubt {
            agrees("±", &card.doubt, doubt)?;
        }
        if let Some(degrees) = self.at {
            let behind = card.sense.split_once('(').map_or("", |(_, behind)| behind);
            agrees("clock", behind, degrees)?;
        }
        if let Some(inches) = self.distance {
            let behind = card.sense.split_once(", ").map_or("", |(_, behind)| behind);
            agrees("distance", behind, inches)?;
        }
        if let Some(verdict) = self.verdict.filter(|verdict| *verdict != card.verdict) {
            return Err(format!("verdict {} where {verdict} is wanted", card.verdict));
        }
        if card.all.contains(self.words) { Ok(()) } else { Err(format!("no “{}”", self.words)) }
    }
}

impl Page {
    /// What a card shows now; an empty one where there is none.
    pub fn card(&self, name: &str) -> Card {
        let selector = quoted(&format!(".card[data-name=\"{name}\"]"));
        self.ask(&format!(
            "(() => {{
                const card = document.querySelector({selector});
                const text = (part) => card?.querySelector(part)?.innerText.trim() ?? '';
                return {{ value: text('.value'), doubt: text('.doubt'), sense: text('.sense'),
                    verdict: text('.verdict'), all: card?.innerText ?? '' }};
            }})()"
        ))
    }

    /// Waits until a card shows this answer.
    pub fn answers(&self, answer: Answer) {
        self.look(&format!("the answer {}", answer.name), || {
            let card = self.card(answer.name);
            answer.against(&card).map_err(|why| format!("{why}\n{card:#?}"))
        });
    }

    /// Waits until a card has no answer and asks for this field.
    pub fn wants(&self, name: &str, field: &str) {
        self.look(&format!("{name} to ask for “{field}”"), || {
            let card = self.card(name);
            let wants = card.verdict == "Missing" && card.value.is_empty() && card.all.contains(field);
            if wants { Ok(()) } else { Err(format!("{card:#?}")) }
        });
    }

    /// Waits until an element shows this number.
    pub fn number(&self, selector: &str, wanted: f64) {
        self.number_behind(selector, "", wanted);
    }

    /// Waits until an element shows this number behind these words.
    pub fn number_behind(&self, selector: &str, words: &str, wanted: f64) {
        self.look(&format!("{wanted} in {selector}"), || {
            let text = self.text(selector);
            let behind = text.split_once(words).map_or("", |(_, behind)| behind);
            agrees(selector, if words.is_empty() { &text } else { behind }, wanted)
        });
    }

    /// The line on the shaft as a whole.
    pub fn whole(&self) -> String {
        self.text(".rail .shaft")
    }
}

#[test]
fn the_reader_reads_as_a_mechanic_does() {
    // By definition: sums of the parts shown.
    let near = |text: &str, number: f64, half: f64| {
        let read = read(text).unwrap();
        let close = |a: f64, b: f64| (a - b).abs() < 1e-12;
        assert!(close(read.number, number) && close(read.half, half), "{text}: {read:?}");
    };
    near("Remove 1-13/16 in (−0.0208)", 1.7917, 0.000_05);
    near("13/16 in (+0.0010)", 0.8135, 0.000_05);
    near("57 in", 57.0, 0.000_05);
    near("± 0.0354 in", 0.0354, 0.000_05);
    near("25.40 mm", 1.0, 0.005 / 25.4);
    near("6350 rpm", 6350.0, 5.0);
    near("± 93.0 rpm", 93.0, 0.05);
    near("−0.60°", -0.6, 0.005);
    near("2.8 g·mm (0.004 oz·in)", 2.8, 0.05);
    assert_eq!(read("nothing"), None);
}
