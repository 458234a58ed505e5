//! A tube on the bench that the tests know the truth of, and the pad that its readings are typed with.
//!
//! The tube is an offset and nothing else: round, and turning about a centre that lies beside its own.
//! A dial that stands on it shows at each mark what the geometry of two circles says; the hand sets it
//! to 0 at the first mark, and the eye reads whole lines of it.

use std::f64::consts::TAU;

use crate::page::Page;

/// Marks round the tube.
pub const MARKS: usize = 8;

/// How far a tube runs off its own centre, in lines of 0.001 in: toward 12 o'clock and toward 3, seen from
/// the rear.
#[derive(Clone, Copy, Debug)]
pub struct Tube {
    up: f64,
    right: f64,
}

impl Tube {
    /// So many lines toward a place on the clock, in degrees.
    pub fn toward(size: f64, at: f64) -> Tube {
        let at = at.to_radians();
        Tube { up: size * at.cos(), right: size * at.sin() }
    }

    /// Moved by so many lines toward a place on the clock.
    pub fn moved(self, by: f64, toward: f64) -> Tube {
        let step = Tube::toward(by, toward);
        Tube { up: self.up + step.up, right: self.right + step.right }
    }

    /// From one tube to another.
    pub fn since(self, before: Tube) -> Tube {
        Tube { up: self.up - before.up, right: self.right - before.right }
    }

    /// Half of what a dial shows from its highest to its lowest.
    pub fn size(self) -> f64 {
        self.up.hypot(self.right)
    }

    /// The high side, in degrees on the clock.
    pub fn at(self) -> f64 {
        self.right.atan2(self.up).rem_euclid(TAU).to_degrees()
    }

    /// What the eye reads at the marks: whole lines from where the dial was set to 0.
    pub fn readings(self) -> [i32; MARKS] {
        let shows = |mark: usize| {
            let at = TAU * mark as f64 / MARKS as f64;
            self.up * at.cos() + self.right * at.sin()
        };
        std::array::from_fn(|mark| (shows(mark) - shows(0)).round() as i32)
    }
}

/// The most by which readings to whole lines can set an offset off, in lines. By definition of the fit
/// through n even marks: the sum of readings times 2/n times the cosine of their place, so each reading,
/// half a line off at most, moves the offset by so much; the sum of |cos| is greatest half way between
/// marks.
pub fn most_off() -> f64 {
    let cosines = (0..MARKS).map(|mark| (TAU * (mark as f64 + 0.5) / MARKS as f64).cos().abs());
    2.0 / MARKS as f64 * 0.5 * cosines.sum::<f64>()
}

/// How far two places on the clock are apart, in degrees.
pub fn apart(one: f64, other: f64) -> f64 {
    let between = (one - other).rem_euclid(360.0);
    between.min(360.0 - between)
}

/// The first place on the clock behind these words, in whole degrees: `3:20 (100°)`.
pub fn clock_behind(text: &str, words: &str) -> Option<f64> {
    text.split_once(words)?.1.split_once('(')?.1.split_once('°')?.0.parse().ok()
}

/// The lines of 0.001 in behind these words: `0.0150 in`.
pub fn lines_behind(text: &str, words: &str) -> Option<f64> {
    let inches: f64 = text.split_once(words)?.1.split_once(" in")?.0.trim().parse().ok()?;
    Some(inches * 1000.0)
}

impl Page {
    /// Taps a key of the pad.
    pub fn pad(&self, key: &str) {
        self.tap_word(".pad button", key);
    }

    /// Taps the keys of a number of lines.
    pub fn pad_number(&self, lines: i32) {
        if lines < 0 {
            self.pad("±");
        }
        for figure in lines.abs().to_string().chars() {
            self.pad(&figure.to_string());
        }
    }

    /// Waits until the next key goes into this field.
    pub fn chosen(&self, id: &str) {
        self.look(&format!("{id} chosen"), || {
            let chosen: Vec<String> = self
                .ask("[...document.querySelectorAll('.reading.chosen input')].map((field) => field.id)");
            if chosen == [id] { Ok(()) } else { Err(format!("{chosen:?}")) }
        });
    }

    /// Waits until this stands in a field.
    pub fn stands(&self, id: &str, text: &str) {
        self.look(&format!("“{text}” in {id}"), || {
            let value = self.value(id);
            if value == text { Ok(()) } else { Err(format!("“{value}”")) }
        });
        self.no_bad_number();
    }

    /// Types a turn with the pad from its first mark to the first mark again; nothing else is tapped.
    pub fn pad_turn(&self, pass: usize, along: usize, readings: &[i32]) {
        for (mark, lines) in readings.iter().enumerate() {
            let id = format!("station-{pass}-{along}-{mark}");
            self.chosen(&id);
            self.pad_number(*lines);
            self.stands(&id, &lines.to_string());
            self.pad("Next mark");
        }
        let closing = format!("closing-{pass}-{along}");
        self.chosen(&closing);
        self.pad("0");
        self.stands(&closing, "0");
        self.pad("Next mark");
        self.reads(".pad .mark-name", "Turn read");
    }

    /// How many elements the selector finds.
    pub fn count(&self, selector: &str) -> usize {
        self.ask(&format!("document.querySelectorAll({}).length", crate::page::quoted(selector)))
    }
}
