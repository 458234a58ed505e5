//! A few strokes of SVG.

use core::fmt::Write;

/// How a stroke looks; the page's style sheet gives each its colour and width.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Pen {
    /// The part itself.
    Part,
    /// A thin line: dimensions, ticks.
    Thin,
    /// What was there before.
    Ghost,
    /// What to do.
    Accent,
}

impl Pen {
    const fn class(self) -> &'static str {
        match self {
            Pen::Part => "part",
            Pen::Thin => "thin",
            Pen::Ghost => "ghost",
            Pen::Accent => "accent",
        }
    }
}

/// Between two strokes of a shape.
pub(super) const LIFT: (i8, i8) = (i8::MIN, i8::MIN);

/// Where a text hangs.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    /// Begins there.
    Start,
    /// Is centred there.
    Middle,
    /// Ends there.
    End,
}

/// A drawing in the making.
pub(super) struct Svg {
    body: String,
}

impl Svg {
    /// An empty sheet of this size.
    pub(super) fn new(width: f64, height: f64) -> Svg {
        // Writing to a String cannot fail; the results below are dropped for that reason.
        let mut body = String::new();
        let _ = write!(
            body,
            r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0} {height:.0}">"#
        );
        Svg { body }
    }

    pub(super) fn line(&mut self, pen: Pen, from: (f64, f64), to: (f64, f64)) {
        let _ = write!(
            self.body,
            r#"<line class="{}" x1="{:.1}" y1="{:.1}" x2="{:.1}" y2="{:.1}"/>"#,
            pen.class(),
            from.0,
            from.1,
            to.0,
            to.1
        );
    }

    pub(super) fn circle(&mut self, pen: Pen, centre: (f64, f64), radius: f64, filled: bool) {
        let fill = if filled { " filled" } else { "" };
        let _ = write!(
            self.body,
            r#"<circle class="{}{fill}" cx="{:.1}" cy="{:.1}" r="{radius:.1}"/>"#,
            pen.class(),
            centre.0,
            centre.1
        );
    }

    /// Lines from point to point in one stroke.
    pub(super) fn lines(&mut self, pen: Pen, all: &[[(f64, f64); 2]]) {
        self.open_path(pen, "");
        for [from, to] in all {
            self.step(false, *from);
            self.step(true, *to);
        }
        self.body.push_str("\"/>");
    }

    /// Filled dots in one stroke: the page has one piece to lay out, however many there are.
    pub(super) fn dots(&mut self, radius: f64, at: &[(f64, f64)]) {
        let _ = write!(self.body, r#"<path class="dots" stroke-width="{:.1}" d=""#, 2.0 * radius);
        dots(&mut self.body, at);
        self.body.push_str("\"/>");
    }

    /// A line through points, closed and filled where asked.
    pub(super) fn path(&mut self, pen: Pen, points: &[(f64, f64)], filled: bool) {
        self.open_path(pen, if filled { " filled" } else { "" });
        for (i, point) in points.iter().enumerate() {
            self.step(i > 0, *point);
        }
        self.body.push_str(if filled { "Z\"/>" } else { "\"/>" });
    }

    fn open_path(&mut self, pen: Pen, more: &str) {
        let _ = write!(self.body, r#"<path class="{}{more}" d=""#, pen.class());
    }

    /// On to a point of a path: with the pen down, or lifted.
    fn step(&mut self, down: bool, to: (f64, f64)) {
        let _ = write!(self.body, "{}{:.1} {:.1}", if down { 'L' } else { 'M' }, to.0, to.1);
    }

    /// Strokes that never change, put at a place and stretched: [`LIFT`] lifts the pen between two.
    pub(super) fn shape(&mut self, pen: Pen, at: (f64, f64), by: (f64, f64), points: &[(i8, i8)]) {
        self.open_path(pen, "");
        let mut down = false;
        for point in points {
            if *point != LIFT {
                let (x, y) = (f64::from(point.0), f64::from(point.1));
                self.step(down, (at.0 + by.0 * x, at.1 + by.1 * y));
            }
            down = *point != LIFT;
        }
        self.body.push_str("\"/>");
    }

    /// A box from corner to corner.
    pub(super) fn frame(&mut self, pen: Pen, from: (f64, f64), to: (f64, f64)) {
        let sides = [(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)];
        self.shape(pen, from, (to.0 - from.0, to.1 - from.1), &sides);
    }

    /// Lines at half a right angle over a box from its left upper to its right lower corner, rising to
    /// the right or falling.
    pub(super) fn hatch(&mut self, pen: Pen, from: (f64, f64), to: (f64, f64), rising: bool) {
        const APART: f64 = 9.0;
        let height = to.1 - from.1;
        let (foot, up) = if rising { (to.1, -1.0) } else { (from.1, 1.0) };
        let mut begins = from.0 - height + 0.5 * APART;
        self.open_path(pen, "");
        while begins < to.0 && from.0 < to.0 {
            for (down, x) in [(false, begins.max(from.0)), (true, (begins + height).min(to.0))] {
                self.step(down, (x, foot + up * (x - begins)));
            }
            begins += APART;
        }
        self.body.push_str("\"/>");
    }

    /// An arrow with its head at `to`.
    pub(super) fn arrow(&mut self, pen: Pen, from: (f64, f64), to: (f64, f64)) {
        self.line(pen, from, to);
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy).max(1e-6);
        let (ux, uy) = (dx / length, dy / length);
        let (bx, by) = (to.0 - 12.0 * ux, to.1 - 12.0 * uy);
        self.path(pen, &[to, (bx - 5.0 * uy, by + 5.0 * ux), (bx + 5.0 * uy, by - 5.0 * ux)], true);
    }

    pub(super) fn text(&mut self, pen: Pen, at: (f64, f64), anchor: Anchor, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let _ = write!(
            self.body,
            r#"<text class="{}" x="{:.1}" y="{:.1}" text-anchor="{anchor}">{}</text>"#,
            pen.class(),
            at.0,
            at.1,
            escaped(text)
        );
    }

    pub(super) fn finish(mut self) -> String {
        self.body.push_str("</svg>");
        self.body
    }
}

/// Steps of a path that draws nothing but the round ends of its strokes.
pub(super) fn dots(path: &mut String, at: &[(f64, f64)]) {
    for (x, y) in at {
        let _ = write!(path, "M{x:.1} {y:.1}h0");
    }
}

/// Text that can do nothing but be read.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_cannot_become_markup() {
        let mut svg = Svg::new(10.0, 10.0);
        svg.text(Pen::Part, (0.0, 0.0), Anchor::Start, "</text><script>1 & 2</script>\"'");
        let text = svg.finish();
        assert!(!text.contains("<script"));
        assert!(text.contains("&lt;script&gt;1 &amp; 2"));
        assert_eq!(text.matches("<text").count(), text.matches("</text>").count());
    }
}
