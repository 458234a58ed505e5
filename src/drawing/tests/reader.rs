//! A drawing read back from its text, and what is wrong with it as a picture.
#![cfg(test)]

/// A piece of a drawing as it stands in its text.
pub(super) struct Piece {
    pub(super) tag: String,
    pub(super) class: String,
    /// Points: ends of a line, of a path's strokes, centre, place of a text.
    pub(super) points: Vec<(f64, f64)>,
    pub(super) radius: f64,
    pub(super) anchor: String,
    pub(super) text: String,
}

fn attribute<'a>(head: &'a str, name: &str) -> Option<&'a str> {
    let begins = head.find(&format!(" {name}=\""))? + name.len() + 3;
    head[begins..].split('"').next()
}

/// The dots of a stroke that is nothing but its round ends, as the circles that are seen.
fn dots(head: &str, at: &[(f64, f64)]) -> Vec<Piece> {
    let radius = 0.5 * attribute(head, "stroke-width").unwrap().parse::<f64>().unwrap();
    let dot = |at: &(f64, f64)| Piece {
        tag: "circle".to_owned(),
        class: "thin filled".to_owned(),
        points: vec![*at],
        radius,
        anchor: String::new(),
        text: String::new(),
    };
    at.iter().map(dot).collect()
}

pub(super) fn pieces(svg: &str) -> (f64, f64, Vec<Piece>) {
    let mut size = (0.0, 0.0);
    let mut found = Vec::new();
    for piece in svg.split('<').skip(1).filter(|piece| !piece.starts_with('/')) {
        let (head, text) = piece.split_once('>').unwrap();
        let number = |name| attribute(head, name).map(|text| text.parse::<f64>().unwrap());
        if let Some(view) = attribute(head, "viewBox") {
            let sides: Vec<f64> = view.split(' ').map(|side| side.parse().unwrap()).collect();
            size = (sides[2], sides[3]);
            continue;
        }
        let mut points: Vec<(f64, f64)> = [("x1", "y1"), ("x2", "y2"), ("cx", "cy"), ("x", "y")]
            .into_iter()
            .filter_map(|(x, y)| Some((number(x)?, number(y)?)))
            .collect();
        for point in attribute(head, "d").unwrap_or("").split(['M', 'L', 'Z']).filter(|p| !p.is_empty())
        {
            // A stroke of no length is a dot.
            let (x, y) = point.trim_end_matches("h0").split_once(' ').unwrap();
            points.push((x.parse().unwrap(), y.parse().unwrap()));
        }
        if attribute(head, "class") == Some("dots") {
            found.extend(dots(head, &points));
            continue;
        }
        found.push(Piece {
            tag: head.split(' ').next().unwrap().to_owned(),
            class: attribute(head, "class").unwrap().to_owned(),
            points,
            radius: number("r").unwrap_or(0.0),
            anchor: attribute(head, "text-anchor").unwrap_or("").to_owned(),
            text: text.to_owned(),
        });
    }
    (size.0, size.1, found)
}

impl Piece {
    /// Left, top, right, bottom; a text's at the larger size, in a wide face.
    pub(super) fn bounds(&self) -> [f64; 4] {
        if self.tag == "text" {
            let narrow = |c: char| "il.,'()/- :".contains(c);
            let width: f64 = self.text.chars().map(|c| if narrow(c) { 8.5 } else { 13.5 }).sum();
            let (x, y) = self.points[0];
            let left = match self.anchor.as_str() {
                "start" => x,
                "end" => x - width,
                _ => x - 0.5 * width,
            };
            return [left, y - 17.0, left + width, y + 5.0];
        }
        let side = |of: fn(f64, f64) -> f64, from: f64, x: bool| {
            self.points.iter().map(|p| if x { p.0 } else { p.1 }).fold(from, of)
        };
        let r = self.radius;
        let (high, low) = (f64::INFINITY, f64::NEG_INFINITY);
        [
            side(f64::min, high, true) - r,
            side(f64::min, high, false) - r,
            side(f64::max, low, true) + r,
            side(f64::max, low, false) + r,
        ]
    }
}

fn overlap(one: [f64; 4], other: [f64; 4]) -> bool {
    one[0] < other[2] && other[0] < one[2] && one[1] < other[3] && other[1] < one[3]
}

/// What is wrong with a drawing as a picture.
pub(super) fn complaints(svg: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for word in ["NaN", "inf", "no figure"] {
        if svg.contains(word) {
            wrong.push(format!("says {word}"));
        }
    }
    let (width, height, all) = pieces(svg);
    for piece in &all {
        let [left, top, right, bottom] = piece.bounds();
        if piece.points.is_empty() && piece.tag != "path" {
            wrong.push(format!("{} without a place", piece.tag));
        }
        if !piece.points.is_empty() && (left < 0.0 || top < 0.0 || right > width || bottom > height) {
            wrong.push(format!("{} {} leaves the frame: {:?}", piece.tag, piece.text, piece.bounds()));
        }
    }
    let texts: Vec<&Piece> = all.iter().filter(|piece| piece.tag == "text").collect();
    for (i, text) in texts.iter().enumerate() {
        for other in &texts[i + 1..] {
            // A number sits in its circle; its box is larger than it.
            let numbers =
                [text, other].iter().all(|piece| piece.anchor == "middle" && piece.text.len() < 3);
            if !numbers && overlap(text.bounds(), other.bounds()) {
                wrong.push(format!("{} lies on {}", text.text, other.text));
            }
        }
        for line in all.iter().filter(|piece| piece.tag == "line") {
            let [(x, top), (x2, bottom)] = [line.points[0], line.points[1]];
            let [left, high, right, low] = text.bounds();
            let crosses = x == x2 && x > left && x < right && top.min(bottom) < low - 7.0;
            if text.anchor == "start" && crosses && top.max(bottom) > high + 2.0 {
                wrong.push(format!("a line at {x} crosses {}", text.text));
            }
        }
    }
    let numbers: Vec<&Piece> = all.iter().filter(|p| p.tag == "circle" && p.radius > 12.0).collect();
    for (i, one) in numbers.iter().enumerate() {
        for other in &numbers[i + 1..] {
            let ((x, y), (u, v)) = (one.points[0], other.points[0]);
            if (x - u).hypot(y - v) < one.radius + other.radius {
                wrong.push(format!("two numbers touch at {x}, {y}"));
            }
        }
    }
    wrong
}

/// Pixels a millimetre by the bar at the foot of a drawing.
pub(super) fn by_the_bar(all: &[Piece]) -> f64 {
    let at_the_edge = |p: &&Piece| p.tag == "path" && p.points.len() == 5 && p.points[0].0 == 8.0;
    let bar = all.iter().find(at_the_edge).unwrap();
    let said = all.iter().find_map(|piece| {
        let sizes = [("12 in", 304.8), ("4 in", 101.6), ("1 in", 25.4), ("1/4 in", 6.35)];
        let metric = [("300 mm", 300.0), ("100 mm", 100.0), ("20 mm", 20.0), ("5 mm", 5.0)];
        sizes.into_iter().chain(metric).find(|(text, _)| *text == piece.text)
    });
    (bar.points[2].0 - bar.points[0].0) / said.unwrap().1
}
