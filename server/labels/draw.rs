//! One label as inline SVG, one unit to the mm, so that it prints to scale. All lengths in mm.

use crate::web::code::Symbol;
use std::fmt::Write;

/// 9 pt, the smallest that is printed.
const TEXT: f64 = 3.175;
/// Widths of a character, as shares of the size: of a mark, of text and of bold text, on the safe side.
const MARK_CHAR: f64 = 0.602;
const TEXT_CHAR: f64 = 0.56;
const BOLD_CHAR: f64 = 0.66;
const LINE: f64 = 1.3 * TEXT;
/// The largest letters of a mark, 24 pt, and the height of its outline as a share of them.
const LARGEST: f64 = 8.5;
const TALL: f64 = 1.7;
/// What the outline needs besides the letters, as a share of their size.
const AROUND: f64 = 1.3;
/// Sizes of a module that are a whole number of dots at 203 dpi (8 to the mm), but for the last: the least that
/// is read at arm's length.
const MODULES: [f64; 4] = [0.75, 0.625, 0.5, 0.4];
/// Where two codes stand on a label the mark needs the room more than they do.
const MODULES_OF_TWO: [f64; 2] = [0.5, 0.4];
/// Height left above the codes from which on the mark stands there, over the whole width.
const ABOVE: f64 = 7.5;
/// Lines of words below a mark, one fewer on labels lower than this.
const MOST_LINES: usize = 4;
const LOW: f64 = 25.0;

/// A label's size, and what printers leave free at its edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stock {
    pub width: f64,
    pub height: f64,
    pub beside: f64,
    pub above: f64,
}

/// 3 by 8 on A4.
pub const A4: Stock = Stock { width: 70.0, height: 37.0, beside: 5.0, above: 4.0 };
/// 3 by 10 on US Letter.
pub const LETTER: Stock = Stock { width: 66.675, height: 25.4, beside: 2.5, above: 1.5 };

/// What a label says.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    pub mark: String,
    pub variety: String,
    /// What else stands below the mark: in one line where there is room, else in one each.
    pub words: Vec<String>,
    pub code: Option<Symbol>,
    /// Damp blots: a second code at the other end.
    pub damp: bool,
}

/// A place on the label.
#[derive(Debug, Clone, Copy)]
struct Room {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

/// The label as SVG.
pub fn label(stock: Stock, label: &Label) -> String {
    let inner = Room {
        x: stock.beside,
        y: stock.above,
        width: stock.width - 2.0 * stock.beside,
        height: stock.height - 2.0 * stock.above,
    };
    let mut out = format!(
        r#"<svg width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" role="img"><title>{}</title>"#,
        escape(&format!("Label of {}", label.mark)),
        w = stock.width,
        h = stock.height,
    );
    match (&label.code, label.damp) {
        (None, _) => column(&mut out, inner, label, false),
        (Some(code), false) => one_code(&mut out, inner, label, code),
        (Some(code), true) => two_codes(&mut out, inner, label, code),
    }
    out.push_str("</svg>");
    out
}

fn one_code(out: &mut String, inner: Room, label: &Label, code: &Symbol) {
    let module = module(&MODULES, code, inner.height);
    let side = f64::from(code.side) * module;
    symbol(out, code, module, (inner.x + inner.width - side, inner.y + (inner.height - side) / 2.0));
    column(out, Room { width: inner.width - side, ..inner }, label, false);
}

fn two_codes(out: &mut String, inner: Room, label: &Label, code: &Symbol) {
    let module = module(&MODULES_OF_TWO, code, inner.height);
    let side = f64::from(code.side) * module;
    let above = inner.height - side;
    let bottom = inner.y + above;
    let stacked = above >= ABOVE;
    let y = if stacked { bottom } else { inner.y + above / 2.0 };
    symbol(out, code, module, (inner.x, y));
    symbol(out, code, module, (inner.x + inner.width - side, y));
    let between = Room { x: inner.x + side, width: inner.width - 2.0 * side, ..inner };
    if stacked {
        mark(out, Room { height: above, ..inner }, &label.mark, true);
        let below = Room { y: bottom, height: side, ..between };
        words(out, below, &wrapped(between.width, label, MOST_LINES), true);
    } else {
        column(out, between, label, true);
    }
}

/// The largest module with which the code fits into `height`; the least where none does.
fn module(sizes: &[f64], code: &Symbol, height: f64) -> f64 {
    let fits = |m: &&f64| f64::from(code.side) * **m <= height + 1e-9;
    sizes.iter().find(fits).or(sizes.last()).copied().unwrap_or(0.5)
}

fn symbol(out: &mut String, code: &Symbol, module: f64, (x, y): (f64, f64)) {
    let _ = write!(
        out,
        r#"<path transform="translate({x:.3} {y:.3}) scale({module})" d="{}" shape-rendering="crispEdges"/>"#,
        code.path
    );
}

/// The mark with its words below, in the middle of the height.
fn column(out: &mut String, room: Room, label: &Label, centred: bool) {
    // the mark matters more than a long name
    let most = if room.height < LOW { MOST_LINES - 1 } else { MOST_LINES };
    let lines = wrapped(room.width, label, most);
    let below = lines.len() as f64 * LINE;
    let left = room.height - below;
    let (_, _, tall) = fitted(room.width, left, &label.mark);
    let y = room.y + (left - tall) / 2.0;
    mark(out, Room { y, height: tall, ..room }, &label.mark, centred);
    words(out, Room { y: y + tall, height: below, ..room }, &lines, centred);
}

/// The lines of a mark, the size of its letters and the height of its outline, in this room.
fn fitted(width: f64, height: f64, mark: &str) -> (Vec<&str>, f64, f64) {
    let size = |lines: &[&str]| {
        let longest = lines.iter().map(|l| l.chars().count()).max().unwrap_or(1) as f64;
        let tall = TALL + 1.05 * (lines.len() as f64 - 1.0);
        let size = LARGEST.min(width / (longest * MARK_CHAR + AROUND)).min(height / tall);
        (size, size * tall)
    };
    let (one, tall) = size(&[mark]);
    let broken = mark.rsplit_once(' ').map(|(first, rest)| vec![first, rest]);
    match broken {
        Some(lines) if one < TEXT && size(&lines).0 > one => {
            let (two, tall) = size(&lines);
            (lines, two, tall)
        }
        _ => (vec![mark], one, tall),
    }
}

/// The mark in its outline: a plant label, its text running towards the point.
fn mark(out: &mut String, room: Room, mark: &str, centred: bool) {
    let (lines, size, tall) = fitted(room.width, room.height, mark);
    let longest = lines.iter().map(|l| l.chars().count()).max().unwrap_or(1) as f64;
    let body = size * (longest * MARK_CHAR + 0.55);
    let point = size * 0.6;
    let spare = if centred { (room.width - body - point) / 2.0 } else { 0.3 };
    let (x, y) = (room.x + spare.max(0.3), room.y + (room.height - tall) / 2.0 + 0.3);
    let (half, stroke) = (tall / 2.0 - 0.3, (size * 0.1).max(0.35));
    let _ = write!(
        out,
        r#"<path d="M{x:.2} {y:.2}h{body:.2}l{point:.2} {half:.2}l-{point:.2} {half:.2}h-{body:.2}z" fill="none" stroke="black" stroke-width="{stroke:.2}" stroke-linejoin="miter"/>"#
    );
    let first = y + half - size * 1.05 * (lines.len() as f64 - 1.0) / 2.0;
    for (n, line) in (0..).zip(lines) {
        let base = first + size * (0.35 + 1.05 * f64::from(n));
        let _ = write!(
            out,
            r#"<text class="m" x="{:.2}" y="{base:.2}" font-size="{size:.2}">{}</text>"#,
            x + size * 0.38,
            escape(line)
        );
    }
}

fn words(out: &mut String, room: Room, lines: &[(bool, String)], centred: bool) {
    let top = room.y + (room.height - lines.len() as f64 * LINE) / 2.0;
    let (x, anchor) = if centred { (room.x + room.width / 2.0, "middle") } else { (room.x + 0.3, "start") };
    for (n, (strong, line)) in (0..).zip(lines) {
        let (y, class) = (top + LINE * (0.75 + f64::from(n)), if *strong { r#" class="b""# } else { "" });
        let _ = write!(
            out,
            r#"<text{class} x="{x:.2}" y="{y:.2}" font-size="{TEXT}" text-anchor="{anchor}">{}</text>"#,
            escape(line)
        );
    }
}

/// The words in at most `most` lines that fit, and whether each is of the variety, which is set bold.
fn wrapped(width: f64, label: &Label, most: usize) -> Vec<(bool, String)> {
    let chars = |share: f64| ((width - 1.2) / (TEXT * share)).max(4.0) as usize;
    let (plain, bold) = (chars(TEXT_CHAR), chars(BOLD_CHAR));
    let joined = label.words.join(", ");
    let rest: Vec<String> = if joined.chars().count() <= plain {
        vec![joined]
    } else {
        label.words.iter().map(|piece| cut(piece, plain)).collect()
    };
    let variety = wrap(&label.variety, bold, most.saturating_sub(rest.len()).max(1));
    variety.into_iter().map(|line| (true, line)).chain(rest.into_iter().map(|line| (false, line))).collect()
}

/// At most `most` lines of `chars` characters; what does not fit ends in three dots.
fn wrap(text: &str, chars: usize, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let last = lines.len() == most;
        match lines.last_mut() {
            Some(line) if last || line.chars().count() + 1 + word.chars().count() <= chars => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.into_iter().map(|line| cut(&line, chars)).collect()
}

fn cut(line: &str, chars: usize) -> String {
    if line.chars().count() <= chars {
        return line.to_owned();
    }
    let kept: String = line.chars().take(chars.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::web::code;

    fn sides() -> Vec<Symbol> {
        let hosts = ["a.example", "seed.example.org", "hilum.growing-club.example.org:8420"];
        hosts.map(|h| code::symbol(&format!("https://{h}/L/JB42A")).unwrap()).to_vec()
    }

    #[test]
    fn a_module_is_half_a_millimetre_or_more_at_addresses_of_usual_length() {
        for code in sides() {
            for stock in [A4, LETTER] {
                let height = stock.height - 2.0 * stock.above;
                for sizes in [&MODULES[..], &MODULES_OF_TWO[..]] {
                    let module = module(sizes, &code, height);
                    assert!(module >= 0.5 && f64::from(code.side) * module <= height, "{stock:?} {module}");
                }
            }
        }
    }

    #[test]
    fn a_mark_is_never_smaller_than_nine_points() {
        for code in sides() {
            for stock in [A4, LETTER] {
                let between = stock.width - 2.0 * stock.beside - f64::from(code.side);
                for mark in ["JB 1", "JB 42 a", "ABCD 1234 aa"] {
                    let (_, size, tall) = fitted(between, 12.0, mark);
                    assert!(size >= TEXT, "{mark} {size} in {between}");
                    assert!(tall <= 12.0);
                }
            }
        }
    }

    #[test]
    fn words_wrap_and_end_in_dots() {
        assert_eq!(wrap("Kestrel", 10, 2), ["Kestrel"]);
        assert_eq!(wrap("Red Kestrel Long Fruited Late", 12, 2), ["Red Kestrel", "Long Fruite…"]);
        assert!(wrap("", 12, 2).is_empty());
        assert_eq!(wrap("Antidisestablishment", 8, 1), ["Antidis…"]);
    }

    #[test]
    fn seeds_and_date_share_a_line_where_there_is_room() {
        let words = vec!["10 seeds".to_owned(), "2 Mar 2026".to_owned()];
        let label = Label { mark: "JB 1 a".into(), variety: "Kestrel".into(), words, code: None, damp: true };
        let lines =
            |width, most| wrapped(width, &label, most).into_iter().map(|(_, l)| l).collect::<Vec<_>>();
        assert_eq!(lines(60.0, 4), ["Kestrel", "10 seeds, 2 Mar 2026"]);
        assert_eq!(lines(24.0, 4), ["Kestrel", "10 seeds", "2 Mar 2026"]);
    }
}
