//! The curve of a turn read back from the plotter's text.
#![cfg(test)]

/// A piece of the curve's drawing: its tag, its opening text, its points and its words.
pub(super) struct Plotted {
    pub(super) tag: String,
    pub(super) head: String,
    pub(super) points: Vec<(f64, f64)>,
    pub(super) words: String,
}

pub(super) fn value<'a>(head: &'a str, name: &str) -> &'a str {
    let begins = head.find(&format!(" {name}=\"")).map(|at| at + name.len() + 3);
    begins.map_or("", |begins| head[begins..].split('"').next().unwrap())
}

pub(super) fn plotted(svg: &str) -> Vec<Plotted> {
    let mut found = Vec::new();
    for piece in svg.split('<').skip(1).filter(|piece| !piece.starts_with('/')) {
        let (head, words) = piece.split_once('>').unwrap();
        let number = |name: &str| value(head, name).parse::<f64>().ok();
        let mut points = Vec::new();
        for (x, y) in [("x", "y"), ("cx", "cy")] {
            points.extend(number(x).zip(number(y)));
        }
        let pairs = value(head, "points").split_whitespace();
        points.extend(pairs.map(|pair| pair.split_once(',').unwrap()).map(numbers));
        let steps = value(head, "d").split(['M', 'L']).filter(|step| !step.is_empty());
        points
            .extend(steps.map(|step| step.trim_end_matches("h0").split_once(' ').unwrap()).map(numbers));
        let tag = head.split(' ').next().unwrap();
        // The lines of the chart, the bars and the dots are drawn in a stroke each: each is read as the piece that is seen.
        if tag == "path" && !head.contains("vector-effect") {
            let (tag, head, ends) = match value(head, "class") {
                "dots" => {
                    let wide = value(head, "stroke-width").parse::<f64>().unwrap();
                    ("circle", format!("circle class=\"filled\" r=\"{}\"", 0.5 * wide), 1)
                }
                _ => ("polyline", String::new(), 2),
            };
            let piece = |ends: &[(f64, f64)]| Plotted {
                tag: tag.to_owned(),
                head: head.clone(),
                points: ends.to_vec(),
                words: String::new(),
            };
            found.extend(points.chunks(ends).map(piece));
            continue;
        }
        found.push(Plotted {
            tag: tag.to_owned(),
            head: head.to_owned(),
            points,
            words: words.trim().to_owned(),
        });
    }
    found
}

fn numbers((x, y): (&str, &str)) -> (f64, f64) {
    (x.parse().unwrap(), y.parse().unwrap())
}

/// The scale read off the drawing itself: from quarters of the clock and the dial's count to its units,
/// by the numbers on its left and the names at its foot.
pub(super) fn scale(all: &[Plotted]) -> impl Fn(f64, f64) -> (f64, f64) + use<> {
    let upright: Vec<(f64, f64)> = all
        .iter()
        .filter(|p| p.tag == "text" && value(&p.head, "text-anchor") == "end")
        .filter_map(|p| Some((p.words.replace('−', "-").parse().ok()?, p.points[0].1)))
        .collect();
    let (low, high) = (upright[0], *upright.last().unwrap());
    assert!(low.0 < high.0, "a scale of two numbers and more");
    let level = all.iter().filter(|p| p.tag == "polyline" && p.points.len() == 2);
    let width = level.into_iter().find(|p| p.points[0].1 == p.points[1].1).unwrap();
    let (left, right) = (width.points[0].0, width.points[1].0);
    // A number's own place is where its line is drawn.
    move |quarter: f64, lines: f64| {
        let y = low.1 + (high.1 - low.1) * (lines - low.0) / (high.0 - low.0);
        (left + (right - left) * quarter / 4.0, y)
    }
}
