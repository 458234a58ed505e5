//! What stands in a PDF file that Chromium wrote, in millimetres on the paper.
//!
//! A reader for just these files: a plain table of objects, streams packed with Flate, drawings without
//! forms in forms. Lines and boxes are read from the operators of each page's own stream, with every
//! matrix applied (ISO 32000-1, 8.3 to 8.5), so what is measured is what a printer is told.

use miniz_oxide::inflate::decompress_to_vec_zlib;

/// Millimetres in a point of 1/72 in, by definition.
const POINT: f64 = 25.4 / 72.0;

/// A place on the page, from its lower left corner.
pub type Place = (f64, f64);

/// A page.
#[derive(Debug, Default)]
pub struct Sheet {
    /// Width and height of its paper.
    pub paper: (f64, f64),
    /// Straight lines that are drawn; what is only filled, such as letters and grounds, is left out.
    pub lines: Vec<[Place; 2]>,
    /// Boxes that are drawn: two opposite corners.
    pub boxes: Vec<[Place; 2]>,
}

/// The pages of a file that comes in base 64.
pub fn sheets(base64: &str) -> Vec<Sheet> {
    let file = File { bytes: from_base64(base64) };
    let text = String::from_utf8_lossy(&file.bytes).into_owned();
    let root = reference(text.rsplit_once("trailer").expect("no trailer").1, "/Root ");
    let mut found = Vec::new();
    file.walk(reference(&file.dictionary(root), "/Pages "), &mut found);
    found
}

fn from_base64(text: &str) -> Vec<u8> {
    let (mut bytes, mut bits, mut count) = (Vec::new(), 0_u32, 0);
    for letter in text.bytes().filter(|letter| *letter != b'=') {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => panic!("{letter} is no letter of base 64"),
        };
        (bits, count) = (bits << 6 | u32::from(value), count + 6);
        if count >= 8 {
            count -= 8;
            bytes.push((bits >> count) as u8);
        }
    }
    bytes
}

/// What stands behind a key, up to the end of the line or the next key.
fn value<'a>(dictionary: &'a str, key: &str) -> &'a str {
    let (_, behind) = dictionary.split_once(key).unwrap_or_else(|| panic!("{key} in {dictionary}"));
    behind.split(['\n', '>', '/']).next().unwrap()
}

fn reference(dictionary: &str, key: &str) -> usize {
    value(dictionary, key).split(' ').next().unwrap().parse().unwrap()
}

fn numbers(list: &str) -> Vec<f64> {
    let words = list.split([' ', '[', ']']);
    words.filter_map(|word| word.parse().ok()).collect()
}

struct File {
    bytes: Vec<u8>,
}

impl File {
    /// An object's place, from the table that the end of the file points to.
    fn object(&self, number: usize) -> &[u8] {
        let end = String::from_utf8_lossy(&self.bytes[self.bytes.len() - 64..]).into_owned();
        let table: usize = value(&end, "startxref\n").parse().unwrap();
        let text = String::from_utf8_lossy(&self.bytes[table..]).into_owned();
        let entry = text.lines().nth(number + 2).unwrap();
        let place: usize = entry.split(' ').next().unwrap().parse().unwrap();
        let object = &self.bytes[place..];
        assert!(object.starts_with(format!("{number} 0 obj").as_bytes()), "object {number}");
        object
    }

    fn dictionary(&self, number: usize) -> String {
        let text = String::from_utf8_lossy(self.object(number)).into_owned();
        let end = text.find("endobj").into_iter().chain(text.find("stream")).min().unwrap();
        text[..end].to_owned()
    }

    fn stream(&self, number: usize) -> String {
        let (object, dictionary) = (self.object(number), self.dictionary(number));
        let start = dictionary.len() + "stream\n".len();
        let length: usize = value(&dictionary, "/Length ").trim().parse().unwrap();
        let packed = &object[start..start + length];
        assert!(dictionary.contains("/FlateDecode"), "{dictionary}");
        String::from_utf8_lossy(&decompress_to_vec_zlib(packed).unwrap()).into_owned()
    }

    fn walk(&self, number: usize, found: &mut Vec<Sheet>) {
        let dictionary = self.dictionary(number);
        if dictionary.contains("/Type /Pages") {
            let kids = numbers(value(&dictionary, "/Kids "));
            // Each is written as `12 0 R`.
            kids.chunks(2).for_each(|kid| self.walk(kid[0] as usize, found));
            return;
        }
        let corner = numbers(value(&dictionary, "/MediaBox "));
        let mut sheet = Sheet { paper: (corner[2] * POINT, corner[3] * POINT), ..Sheet::default() };
        Painter::default().paint(&self.stream(reference(&dictionary, "/Contents ")), &mut sheet);
        found.push(sheet);
    }
}

/// x' = a·x + c·y + e, y' = b·x + d·y + f, as ISO 32000-1, 8.3.3 writes it.
type Matrix = [f64; 6];

struct Painter {
    matrix: Matrix,
    kept: Vec<Matrix>,
    start: Place,
    at: Place,
    path: Sheet,
}

impl Default for Painter {
    fn default() -> Painter {
        let (start, at) = ((0.0, 0.0), (0.0, 0.0));
        let matrix = [POINT, 0.0, 0.0, POINT, 0.0, 0.0];
        Painter { matrix, kept: Vec::new(), start, at, path: Sheet::default() }
    }
}

impl Painter {
    fn place(&self, x: f64, y: f64) -> Place {
        let [a, b, c, d, e, f] = self.matrix;
        (a * x + c * y + e, b * x + d * y + f)
    }

    fn paint(&mut self, stream: &str, onto: &mut Sheet) {
        let mut given: Vec<f64> = Vec::new();
        for word in stream.split_ascii_whitespace() {
            if let Ok(number) = word.parse() {
                given.push(number);
                continue;
            }
            match (word, given.as_slice()) {
                ("q", []) => self.kept.push(self.matrix),
                ("Q", []) => self.matrix = self.kept.pop().expect("Q without q"),
                ("cm", &[a, b, c, d, e, f]) => {
                    let (origin, x, y) =
                        (self.place(e, f), self.place(a + e, b + f), self.place(c + e, d + f));
                    self.matrix = [
                        x.0 - origin.0,
                        x.1 - origin.1,
                        y.0 - origin.0,
                        y.1 - origin.1,
                        origin.0,
                        origin.1,
                    ];
                }
                ("m", &[x, y]) => (self.start, self.at) = (self.place(x, y), self.place(x, y)),
                ("l", &[x, y]) => self.line(self.place(x, y)),
                // A curve is no straight line, but it goes on from where it ends.
                ("c", &[.., x, y]) => self.at = self.place(x, y),
                ("h", []) => self.line(self.start),
                ("re", &[x, y, width, height]) => {
                    self.path.boxes.push([self.place(x, y), self.place(x + width, y + height)]);
                }
                ("S" | "s" | "B" | "B*" | "b" | "b*", _) => {
                    onto.lines.append(&mut self.path.lines);
                    onto.boxes.append(&mut self.path.boxes);
                }
                ("n" | "f" | "f*", _) => self.path = Sheet::default(),
                ("q" | "Q" | "cm" | "m" | "l" | "c" | "h" | "re", given) => panic!("{given:?} {word}"),
                _ => {}
            }
            given.clear();
        }
    }

    fn line(&mut self, to: Place) {
        self.path.lines.push([self.at, to]);
        self.at = to;
    }
}

#[test]
fn lines_and_boxes_come_out_where_the_matrices_put_them() {
    // By hand: one point is 25.4/72 mm, so 72 of them are an inch, and twice as far doubled.
    let mut sheet = Sheet::default();
    let stream = "q 2 0 0 -2 0 720 cm q 1 0 0 1 36 0 cm 0 0 m 36 0 l S Q 36 36 72 18 re n 36 36 72 18 re f 0 36 36 18 re S Q \
                  0 72 m 72 72 l h S";
    Painter::default().paint(stream, &mut sheet);
    let inches = |place: Place| ((place.0 / 2.54).round() / 10.0, (place.1 / 2.54).round() / 10.0);
    let lines: Vec<_> = sheet.lines.iter().map(|[from, to]| (inches(*from), inches(*to))).collect();
    assert_eq!(lines[0], ((1.0, 10.0), (2.0, 10.0)));
    assert_eq!(lines[1..], [((0.0, 1.0), (1.0, 1.0)), ((1.0, 1.0), (0.0, 1.0))]);
    let boxes: Vec<_> = sheet.boxes.iter().map(|[from, to]| (inches(*from), inches(*to))).collect();
    assert_eq!(boxes, [((0.0, 9.0), (1.0, 8.5))], "what clips and what is filled is not drawn");
    // RFC 4648, section 10.
    assert_eq!(from_base64("Zm9vYmE="), b"fooba");
    assert_eq!(from_base64("Zm9vYmFy"), b"foobar");
}
