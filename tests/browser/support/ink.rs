//! Where the lines of a printed page are, read from its drawing by poppler's `pdftocairo -svg`.

const MM: f64 = 25.4 / 72.0;

/// A straight-sided box: left, top, width, height, in mm from the page's left upper corner.
pub type Box4 = [f64; 4];

/// The paths of one page; each has the points it goes through, in mm.
pub struct Ink {
    paths: Vec<Vec<(f64, f64)>>,
}

impl Ink {
    /// Reads every path with its own transformation. Points are in the page's points.
    pub fn read(svg: &str) -> Self {
        let paths = svg.split("<path ").skip(1).filter_map(|rest| {
            let tag = rest.split('>').next()?;
            let t = attribute(tag, "transform").and_then(matrix).unwrap_or([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
            let on_page =
                |(x, y): (f64, f64)| ((t[0] * x + t[2] * y + t[4]) * MM, (t[1] * x + t[3] * y + t[5]) * MM);
            // a stroke has a width; what is filled are letters and codes
            tag.contains("stroke-width").then_some(())?;
            Some(points(attribute(tag, "d")?).into_iter().map(on_page).collect())
        });
        Self { paths: paths.collect() }
    }

    /// Every rectangle that is drawn with a line.
    pub fn boxes(&self) -> Vec<Box4> {
        self.paths.iter().filter_map(|p| rectangle(p)).collect()
    }

    /// The largest distance from the left to the right end of one path, in mm, of those that `long` takes.
    pub fn widths(&self) -> Vec<f64> {
        let ends = |p: &Vec<(f64, f64)>| {
            let xs = || p.iter().map(|(x, _)| *x);
            xs().fold(f64::MIN, f64::max) - xs().fold(f64::MAX, f64::min)
        };
        self.paths.iter().map(ends).collect()
    }
}

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let (_, rest) =
        tag.split_once(&format!(" {name}=\"")).or_else(|| tag.split_once(&format!("{name}=\"")))?;
    rest.split('"').next()
}

fn matrix(text: &str) -> Option<[f64; 6]> {
    let inner = text.strip_prefix("matrix(")?.strip_suffix(')')?;
    let numbers: Vec<f64> = inner.split([',', ' ']).filter_map(|n| n.trim().parse().ok()).collect();
    numbers.try_into().ok()
}

/// The points of a path made of moves, lines and curves (of which the ends).
fn points(d: &str) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut numbers: Vec<f64> = Vec::new();
    for word in d.split_whitespace() {
        if let Ok(n) = word.parse() {
            numbers.push(n);
            if numbers.len() == 2 {
                found.push((numbers[0], numbers[1]));
                numbers.clear();
            }
        } else {
            numbers.clear();
        }
    }
    found
}

/// The box of four corners, whichever comes first; the first may come again at the end.
fn rectangle(points: &[(f64, f64)]) -> Option<Box4> {
    let near = |a: f64, b: f64| (a - b).abs() < 0.01;
    let corners = match points {
        [a, rest @ .., z] if near(a.0, z.0) && near(a.1, z.1) => &points[..rest.len() + 1],
        all => all,
    };
    let [a, b, c, d] = corners else { return None };
    let square = |p: &(f64, f64), q: &(f64, f64)| near(p.0, q.0) || near(p.1, q.1);
    if !(square(a, b) && square(b, c) && square(c, d) && square(d, a)) {
        return None;
    }
    let (left, top) = (a.0.min(c.0), a.1.min(c.1));
    let found = [left, top, (a.0 - c.0).abs(), (a.1 - c.1).abs()];
    (found[2] > 1.0 && found[3] > 1.0).then_some(found)
}
