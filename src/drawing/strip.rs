//! The wrap strip as pages to print: true to size, in millimetres, black on nothing.
//!
//! Each piece of the strip has a page of its own, and each page a bar to measure the printing by. The
//! other drawings are pictures, rounded to a tenth of their unit; here a degree is half a millimetre, so
//! places are written to thousandths of one, and each page carries its own looks: on paper there is no
//! dark or light.

use core::fmt::Write;

use crate::job::{End, Job};
use crate::quantity::{Length, LengthDisplay, as_millimetres, show_plain_length};
use crate::stage::strip::{Mark, MarkKind, Piece, Strip, strip};

/// Where the strip lies on its page, from the top. All in millimetres.
const TOP: f64 = 36.0;
const BOTTOM: f64 = 104.0;
/// Height of the letters: capitals of 3 mm.
const SMALL: f64 = 4.3;
/// Width of a letter as a part of its height, on the average of a sentence in a wide font.
const LETTER: f64 = 0.52;
/// Room without end.
const ANY: f64 = f64::INFINITY;
/// A ring round a number, its radius.
const RING: f64 = 3.1;
/// A box round a weight's number, half its side.
const BOX: f64 = 2.7;

const TOWARD_FRONT: &str = "this edge toward the front (gearbox)";
const TOWARD_REAR: &str = "this edge toward the rear (axle)";
const ON_THE_FACE: &str = "this edge on the new face";
/// What to do with the strip, below it: it is cut off with the rest of the page.
const WORDS: [&str; 3] = [
    "Cut along the outline, tape pieces edge to edge. Wrap it tight, print outward: both ends meet at 12.",
    "A gap or an overlap there: measure the tube again, and the bar below.",
    "Large: hours, clockwise seen from the rear. Ringed: marks to scribe. Boxed: weights. Dashed: seam.",
];
const MEASURE: &str = "Measure this bar. If it is not right, print at 100 %, not 'fit to page'.";

/// Every page of the strip. `None` while the tube's diameter is not known.
pub fn strip_pages(job: &Job) -> Option<String> {
    let strip = strip(job).ok()?;
    Some(strip.pieces.iter().enumerate().map(|(place, piece)| page(&strip, place, piece)).collect())
}

/// A page in the making.
#[derive(Default)]
struct Page {
    /// One path for all plain strokes.
    strokes: String,
    /// One path for all that is black.
    black: String,
    /// Bars, bands, rings and boxes.
    shapes: String,
    /// Texts, over all strokes.
    words: String,
}

/// Writes an element, or its beginning: what is fixed, its numbers, and how it goes on.
fn element(out: &mut String, begin: &str, numbers: &[(&str, f64)], end: &str) {
    out.push_str(begin);
    for (name, number) in numbers {
        // Writing to a String cannot fail; the results in this file are dropped for that reason.
        let _ = write!(out, " {name}=\"{number:.3}\"");
    }
    out.push_str(end);
}

impl Page {
    fn stroke(&mut self, from: (f64, f64), to: (f64, f64)) {
        let _ = write!(self.strokes, "M{:.3} {:.3}L{:.3} {:.3}", from.0, from.1, to.0, to.1);
    }

    fn rect(&mut self, begin: &str, (left, top): (f64, f64), (right, bottom): (f64, f64)) {
        let numbers = [("x", left), ("y", top), ("width", right - left), ("height", bottom - top)];
        element(&mut self.shapes, begin, &numbers, "/>");
    }

    /// Words within so much room: where there is less, their letters are drawn narrower.
    fn text(&mut self, size: f64, anchor: &str, (x, y): (f64, f64), room: f64, words: &str) {
        let out = &mut self.words;
        element(out, "<text", &[("x", x), ("y", y), ("font-size", size)], " text-anchor=\"");
        out.push_str(anchor);
        let tight = words.chars().count() as f64 * LETTER * size > room;
        let end = if tight { "\" lengthAdjust=\"spacingAndGlyphs\"" } else { "\"" };
        let length = [("textLength", room)];
        element(out, end, if tight { &length } else { &[] }, ">");
        element(out, words, &[], "</text>");
    }

    /// A number in its ring or box.
    fn number(&mut self, (x, y): (f64, f64), number: usize) {
        const BEGIN: &str = r#"<text text-anchor="middle" fill="black" stroke="none""#;
        element(&mut self.shapes, BEGIN, &[("x", x), ("y", y + 1.5)], ">");
        element(&mut self.shapes, &number.to_string(), &[], "</text>");
    }

    /// A bar of so many equal parts, for a rule to be laid on.
    fn bar(&mut self, begin: &str, (left, y): (f64, f64), part: f64, parts: u8, words: &str) {
        let right = left + part * f64::from(parts);
        element(&mut self.shapes, begin, &[("x1", left), ("y1", y), ("x2", right), ("y2", y)], "/>");
        for i in 0..=parts {
            let x = left + part * f64::from(i);
            let height = if i == 0 || i == parts { 5.0 } else { 2.5 };
            self.stroke((x, y), (x, y - height));
        }
        self.text(SMALL, "start", (right + 3.0, y), ANY, words);
    }
}

/// The page of the piece at this place.
fn page(strip: &Strip, place: usize, piece: &Piece) -> String {
    let mut page = Page::default();
    draw(&mut page, strip, piece, place);
    let (width, height) = (as_millimetres(strip.page.0), as_millimetres(strip.page.1));
    let Page { strokes, black, shapes, words } = page;
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="paper" width="{width:.1}mm" height="{height:.1}mm" viewBox="0 0 {width:.1} {height:.1}" font-family="sans-serif" font-size="4.3" fill="none" stroke="black" stroke-width=".25"><path d="{strokes}"/><path fill="black" d="{black}"/>{shapes}<g fill="black" stroke="white" paint-order="stroke" stroke-width="1">{words}</g></svg>"#
    )
}

fn draw(page: &mut Page, strip: &Strip, piece: &Piece, place: usize) {
    let count = strip.pieces.len();
    let left = as_millimetres(strip.margin);
    let right = left + as_millimetres(piece.to - piece.from);
    let (middle, room) = (0.5 * (left + right), right - left - 4.0);
    let sheet = as_millimetres(strip.page.0) - 2.0 * left;
    page.rect(r#"<rect class="strip-outline""#, (left, TOP), (right, BOTTOM));

    let shown = |display| show_plain_length(strip.diameter, display);
    let whose = format!(
        "tube {} ({}) · piece {} of {count}",
        shown(LengthDisplay::Millimetre),
        shown(LengthDisplay::DecimalInch),
        place + 1
    );
    page.text(6.0, "start", (left, TOP - 10.0), ANY, &format!("Wrap strip, {whose}"));
    page.text(SMALL, "middle", (middle, TOP + 17.0), room, &whose);
    let on_the_face = |edge: &str| format!("{edge} · {ON_THE_FACE}");
    let (front, rear) = match strip.cut {
        End::Rear => (TOWARD_FRONT.to_owned(), on_the_face(TOWARD_REAR)),
        End::Front => (on_the_face(TOWARD_FRONT), TOWARD_REAR.to_owned()),
    };
    page.text(SMALL, "middle", (middle, TOP + 11.0), room, &front);
    page.text(SMALL, "middle", (middle, BOTTOM - 8.0), room, &rear);

    let first = if place == 0 { "witness mark".to_owned() } else { format!("joins piece {place}") };
    let last =
        if place + 1 == count { "meets 12".to_owned() } else { format!("joins piece {}", place + 2) };
    page.text(SMALL, "start", (left + 1.5, TOP + 22.5), ANY, &first);
    page.text(SMALL, "end", (right - 1.5, TOP + 22.5), ANY, &last);

    for mark in &piece.marks {
        put(page, strip, (left, right), mark);
    }
    for (i, words) in WORDS.iter().enumerate() {
        page.text(SMALL, "start", (left, BOTTOM + 8.0 + 6.0 * i as f64), sheet, words);
    }
    page.bar(r#"<line class="check-mm""#, (left, BOTTOM + 36.0), 10.0, 10, "100 mm");
    page.bar(r#"<line class="check-in""#, (left, BOTTOM + 49.0), 25.4, 4, "4 in");
    page.text(SMALL, "start", (left, BOTTOM + 59.0), sheet, MEASURE);
}

/// So many of a row of numbers are left out after each, for them to stand so far apart.
fn every(spacing: Length, apart: f64) -> usize {
    (apart / as_millimetres(spacing)).ceil().max(1.0) as usize
}

/// Draws a mark of a piece that lies between two ends.
fn put(page: &mut Page, strip: &Strip, (left, right): (f64, f64), mark: &Mark) {
    let x = left + as_millimetres(mark.at);
    let within = |x: f64, half: f64| x.min(right - half).max(left + half);
    let tick = |page: &mut Page, height: f64| {
        page.stroke((x, TOP), (x, TOP + height));
        page.stroke((x, BOTTOM - height), (x, BOTTOM));
    };
    match mark.kind {
        MarkKind::Five => tick(page, 2.5),
        MarkKind::Ten => tick(page, 4.0),
        MarkKind::Hour(hour) => {
            tick(page, 6.0);
            // At an end the number stands inside it, since the outline is where the paper is cut.
            let (anchor, at) = if x - left < 1.0 {
                ("start", left + 1.5)
            } else if right - x < 1.0 {
                ("end", right - 1.5)
            } else {
                ("middle", x)
            };
            if hour % every(strip.hour, 9.0) == 0 {
                let size = (0.48 * as_millimetres(strip.hour)).clamp(SMALL, 7.0);
                page.text(size, anchor, (at, TOP + 30.0), ANY, &hour.to_string());
            }
            if hour % every(strip.hour, 11.0) == 0 {
                page.text(SMALL, anchor, (at, TOP + 35.5), ANY, &format!("{}°", hour % 12 * 30));
            }
        }
        MarkKind::Clock(number) => {
            page.stroke((x, TOP), (x, BOTTOM));
            let (tip, foot) = match strip.cut {
                End::Rear => (BOTTOM, BOTTOM - 5.0),
                End::Front => (TOP, TOP + 5.0),
            };
            let (from, to) = (within(x - 1.5, 0.0), within(x + 1.5, 0.0));
            let _ = write!(page.black, "M{x:.3} {tip:.3}L{from:.3} {foot:.3}L{to:.3} {foot:.3}Z");
            // The ring at an end stands inside it and may leave no room for its neighbour.
            let at_an_end = within(x, 1.0) != x;
            let has_room = within(x, 3.0 * RING + 0.4) == x;
            if (number - 1) % every(strip.step, 2.0 * RING + 0.2) == 0 && (at_an_end || has_room) {
                let (x, y) = (within(x, RING + 0.3), TOP + 40.6);
                let ring = [("cx", x), ("cy", y), ("r", RING)];
                element(&mut page.shapes, "<circle fill=\"white\"", &ring, "/>");
                page.number((x, y), number);
            }
        }
        MarkKind::Seam => {
            let how = r#"<rect stroke-dasharray="3 2""#;
            page.rect(how, (within(x - 2.0, 0.0), TOP), (within(x + 2.0, 0.0), BOTTOM));
            page.text(SMALL, "middle", (within(x, 6.0), TOP + 54.2), ANY, "seam");
        }
        MarkKind::Weight(row) => {
            // Two that sat at one hour stand one above the other.
            let y = if row % 2 == 0 { TOP + 47.0 } else { TOP + 52.7 };
            page.stroke((x, y), (x, BOTTOM));
            let at = within(x, BOX + 0.5);
            page.rect(r#"<rect fill="white""#, (at - BOX, y - BOX), (at + BOX, y + BOX));
            page.number((at, y), row + 1);
        }
    }
}
