//! What a key of the pad for dial readings makes of the text in a field: whole lines of the dial, half
//! lines, and a sign; or the place of a mark by the clock.

use super::{Entry, Job, Pass};

/// Most figures before the point: the longest dial has under a thousand lines each way.
const MOST_FIGURES: usize = 4;
/// Half a line, as it is typed.
const HALF: &str = ".5";

impl Job {
    /// Puts typed text into a field. The first reading of a pass says when the pass was begun, `now` in
    /// milliseconds since 1970; one emptied again was not begun.
    pub fn put_at(&mut self, entry: Entry, text: &str, now: u64) {
        let (Entry::StationReading(at, ..) | Entry::Closing(at, _)) = entry else {
            return self.put(entry, text);
        };
        let blank = |job: &Job| job.truing.passes.get(at).is_some_and(Pass::is_blank);
        let was_blank = blank(self);
        self.put(entry, text);
        let is_blank = blank(self);
        if is_blank != was_blank
            && let Some(pass) = self.truing.passes.get_mut(at)
        {
            pass.begun = was_blank.then_some(now);
        }
    }
}

/// A key of the pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PadKey {
    /// A figure.
    Figure(char),
    /// Half a line more, or not.
    Half,
    /// Between the hours and the minutes of a place by the clock.
    Colon,
    /// Turns the sign.
    Sign,
    /// Takes the last key back.
    Delete,
}

/// What the next key does to the field that was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct PadHand {
    /// It begins anew in place of what stands there: the field was only just chosen.
    pub replaces: bool,
    /// The sign was typed first.
    pub minus: bool,
}

impl PadHand {
    /// The hand on a field just chosen.
    pub const fn fresh() -> Self {
        PadHand { replaces: true, minus: false }
    }

    /// The text after a key; `None` where it changes nothing.
    pub fn press(&mut self, text: &str, key: PadKey) -> Option<String> {
        let anew = self.replaces || text.is_empty();
        let sign = if self.minus { "-" } else { "" };
        if key == PadKey::Sign {
            if text.is_empty() {
                self.minus = !self.minus;
                return None;
            }
            let turned = sign_turned(text);
            // A figure typed now replaces the number and keeps the sign that was asked for.
            self.minus = self.replaces && turned.starts_with('-');
            return Some(turned);
        }
        if key == PadKey::Colon && (anew || text.contains([':', '.', ','])) {
            return None;
        }
        *self = PadHand::default();
        match (key, text.strip_suffix(HALF)) {
            (PadKey::Figure(figure), _) if anew => Some(format!("{sign}{figure}")),
            (PadKey::Figure(figure), Some(whole)) => figure_after(whole, figure, HALF),
            (PadKey::Figure(figure), None) => figure_after(text, figure, ""),
            (PadKey::Half, _) if anew => Some(format!("{sign}0{HALF}")),
            (PadKey::Half, Some(whole)) => Some(whole.to_owned()),
            (PadKey::Half, None) if text.contains(['.', ',']) => None,
            (PadKey::Half, None) => Some(format!("{text}{HALF}")),
            (PadKey::Colon, _) => Some(format!("{text}:")),
            (_, _) if text.is_empty() => None,
            (_, _) if anew => Some(String::new()),
            (_, Some(whole)) => Some(if is_nothing(whole) { String::new() } else { whole.to_owned() }),
            (_, None) => {
                let mut shorter = text.to_owned();
                shorter.pop();
                Some(if shorter == "-" { String::new() } else { shorter })
            }
        }
    }
}

fn is_nothing(whole: &str) -> bool {
    matches!(whole, "0" | "-0")
}

/// A figure behind the whole lines; in place of a 0, since 05 is no number that anyone writes.
fn figure_after(whole: &str, figure: char, behind: &str) -> Option<String> {
    let before = if is_nothing(whole) { whole.trim_end_matches('0') } else { whole };
    let figures = before.chars().filter(char::is_ascii_digit).count();
    (figures < MOST_FIGURES).then(|| format!("{before}{figure}{behind}"))
}

/// A number's text with its sign turned.
pub fn sign_turned(text: &str) -> String {
    let bare = text.trim_start();
    match bare.strip_prefix(['-', '−']) {
        Some(positive) => positive.trim_start().to_owned(),
        None => format!("-{bare}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A field that holds `text`, just chosen, after these keys; `h` is the half line, `<` deletes.
    fn after(text: &str, keys: &str) -> String {
        let (mut hand, mut text) = (PadHand::fresh(), text.to_owned());
        for key in keys.chars() {
            let key = match key {
                'h' => PadKey::Half,
                ':' => PadKey::Colon,
                '-' => PadKey::Sign,
                '<' => PadKey::Delete,
                figure => PadKey::Figure(figure),
            };
            text = hand.press(&text, key).unwrap_or(text);
        }
        text
    }

    // What is expected in these tests is the rule itself: what a hand that pressed these keys meant.

    #[test]
    fn a_reading_is_typed_with_its_sign_before_or_after() {
        for (keys, text) in [
            ("12", "12"),
            ("-12", "-12"),
            ("12-", "-12"),
            ("1-2", "-12"),
            ("--7", "7"),
            ("0", "0"),
            ("05", "5"),
            ("-05", "-5"),
            ("h", "0.5"),
            ("-h", "-0.5"),
            ("3h", "3.5"),
            ("3hh", "3"),
            ("h4", "4.5"),
            ("12345", "1234"),
        ] {
            assert_eq!(after("", keys), text, "{keys}");
        }
    }

    #[test]
    fn the_first_key_replaces_what_stands_in_a_field_just_chosen() {
        for (stood, keys, text) in [
            ("12", "7", "7"),
            ("-12", "7", "7"),
            ("12", "78", "78"),
            ("12", "h", "0.5"),
            ("5 apples", "7", "7"),
            ("12", "<", ""),
            // The sign alone is corrected in one touch; a figure behind it keeps it.
            ("12", "-", "-12"),
            ("−12", "-", "12"),
            ("12", "-5", "-5"),
            ("-12", "-5", "5"),
        ] {
            assert_eq!(after(stood, keys), text, "{stood}, then {keys}");
        }
    }

    #[test]
    fn a_place_is_typed_by_the_clock() {
        for (stood, keys, text) in [
            ("", "4:30", "4:30"),
            ("", "12:05", "12:05"),
            ("", ":", ""),
            ("", "4::3", "4:3"),
            ("", "4:<", "4"),
            ("", "4:3<<", "4"),
            // Behind a colon that means nothing, the first figure still replaces what stood there.
            ("4:30", ":7", "7"),
            ("4:30", "7", "7"),
            ("", "112h", "112.5"),
            ("", "4h:", "4.5"),
        ] {
            assert_eq!(after(stood, keys), text, "{stood}, then {keys}");
        }
    }

    #[test]
    fn a_pass_is_begun_by_its_first_reading() {
        let mut job = Job::default();
        let begun = |job: &Job| job.truing.passes[0].begun;
        let mark = |mark: usize| Entry::StationReading(0, 0, mark);
        for (entry, text, now, expected) in [
            (Entry::PlaceAlong(0), "52", 1, None),
            (mark(2), "7", 20, Some(20)),
            (mark(2), "75", 30, Some(20)),
            (mark(3), "4", 40, Some(20)),
            (mark(2), "", 50, Some(20)),
            (mark(3), "", 60, None),
            (Entry::Closing(0, 0), "0", 70, Some(70)),
            (Entry::StationReading(5, 0, 0), "0", 80, Some(70)),
        ] {
            job.put_at(entry, text, now);
            assert_eq!(begun(&job), expected, "{text} at {now}");
        }
        // Read by an earlier page, which did not say when: a correction is no beginning.
        job.truing.passes[0].begun = None;
        job.put_at(Entry::Closing(0, 0), "1", 90);
        assert_eq!(begun(&job), None);
    }

    #[test]
    fn a_key_is_taken_back() {
        for (keys, text) in [("12<", "1"), ("1<", ""), ("-1<", ""), ("3h<", "3"), ("h<", ""), ("<", "")]
        {
            assert_eq!(after("", keys), text, "{keys}");
        }
    }
}
