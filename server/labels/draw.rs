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
/// Sizes of a module that are a whole number of dots at 203 dpi (8 to the mm); a code that does not fit with the
/// least of them is left off.
const MODULES: [f64; 3] = [0.75, 0.625, 0.5];
/// Where two codes stand on a label the mark needs the room more than they do.
const MODULE_OF_TWO: f64 = 0.5;
/// Modules of light around a code. They may reach into what stays free at the label's edges.
const QUIET: f64 = 4.0;
/// The least width of words between two codes.
const BETWEEN: f64 = 16.0;
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

/// What a label says.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    pub mark: String,
    /// The first line below the mark: the last to be left off.
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

/// The label drawn, in mm from its own left upper corner.
pub struct Drawn {
    pub svg: String,
    /// Whether it should have a code, for which there is no room.
    pub left_off: bool,
}

/// A code with its place: where it begins, the size of a module.
#[derive(Clone, Copy)]
struct Placed {
    x: f64,
    y: f64,
    module: f64,
    side: f64,
}

/// The label as SVG.
pub fn label(stock: Stock, label: &Label) -> Drawn {
    let mut svg = String::new();
    let Some(code) = &label.code else {
        column(&mut svg, stock.inner(), label, false);
        return Drawn { svg, left_off: false };
    };
    let drawn =
        label.damp && two_codes(&mut svg, stock, label, code) || one_code(&mut svg, stock, label, code);
    if !drawn {
        column(&mut svg, stock.inner(), label, false);
    }
    Drawn { svg, left_off: !drawn }
}

impl Stock {
    fn inner(self) -> Room {
        Room {
            x: self.beside,
            y: self.above,
            width: self.width - 2.0 * self.beside,
            height: self.height - 2.0 * self.above,
        }
    }

    /// The code at the right edge, at this height of the label (0 above, 0.5 in the middle, 1 below). Its dark
    /// modules keep to the printed part, its quiet zone to the label.
    fn code(self, code: &Symbol, module: f64, at: f64) -> Option<Placed> {
        let side = f64::from(code.side) * module;
        let (quiet, inner) = (QUIET * module, self.inner());
        let dark = side - 2.0 * quiet;
        if dark > inner.height + 1e-9
            || dark > inner.width + 1e-9
            || side > self.height.min(self.width) + 1e-9
        {
            return None;
        }
        let (right, top) = (self.beside.min(quiet), self.above.min(quiet));
        let free = self.height - 2.0 * (self.above - top) - side;
        let y = self.above - top + free * at;
        Some(Placed { x: self.width - self.beside + right - side, y, module, side })
    }
}

/// One code at the right, with the largest module that leaves room for the mark; whether there was one.
fn one_code(out: &mut String, stock: Stock, label: &Label, code: &Symbol) -> bool {
    let inner = stock.inner();
    let beside = |placed: &Placed| Room { width: placed.x - inner.x, ..inner };
    let placed = MODULES.iter().filter_map(|m| stock.code(code, *m, 0.5));
    let Some(placed) = placed.into_iter().find(|p| takes_mark(beside(p), &label.mark)) else { return false };
    symbol(out, code, placed);
    column(out, beside(&placed), label, false);
    true
}

/// A code at either end, the mark above them where there is height, else between; whether there was room.
fn two_codes(out: &mut String, stock: Stock, label: &Label, code: &Symbol) -> bool {
    let (inner, module) = (stock.inner(), MODULE_OF_TWO);
    let Some(low) = stock.code(code, module, 1.0) else { return false };
    let above = low.y - inner.y;
    let stacked = above >= ABOVE;
    let Some(right) = (if stacked { Some(low) } else { stock.code(code, module, 0.5) }) else { return false };
    let left = Placed { x: stock.width - right.x - right.side, ..right };
    let x = left.x + left.side;
    let between = Room { x, width: right.x - x, ..inner };
    if between.width < BETWEEN || !stacked && !takes_mark(between, &label.mark) {
        return false;
    }
    symbol(out, code, left);
    symbol(out, code, right);
    if stacked {
        mark(out, Room { height: above, ..inner }, &label.mark, true);
        let below = Room { y: right.y, height: right.side, ..between };
        words(out, below, &wrapped(between, label, MOST_LINES), true);
    } else {
        column(out, between, label, true);
    }
    true
}

/// Whether the mark stands in this room at 9 pt or more.
fn takes_mark(room: Room, mark: &str) -> bool {
    fitted(room.width, room.height, mark).1 >= TEXT - 1e-9
}

fn symbol(out: &mut String, code: &Symbol, Placed { x, y, module, .. }: Placed) {
    let _ = write!(
        out,
        r#"<path class="code" transform="translate({x:.3} {y:.3}) scale({module})" d="{}" shape-rendering="crispEdges"/>"#,
        code.path
    );
}

/// The mark with its words below, in the middle of the height.
fn column(out: &mut String, room: Room, label: &Label, centred: bool) {
    // the mark matters more than a long name
    let most = if room.height < LOW { MOST_LINES - 1 } else { MOST_LINES };
    let beneath = ((room.height - fitted_low(room, &label.mark)) / LINE).max(0.0) as usize;
    let lines = wrapped(room, label, most.min(beneath));
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

/// The height that a mark needs at 9 pt in a room as wide as this.
fn fitted_low(room: Room, mark: &str) -> f64 {
    let (lines, size, tall) = fitted(room.width, room.height, mark);
    if lines.len() > 1 { tall } else { tall * (TEXT / size).min(1.0) }
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
fn wrapped(room: Room, label: &Label, most: usize) -> Vec<(bool, String)> {
    let chars = |share: f64| ((room.width - 1.2) / (TEXT * share)).max(4.0) as usize;
    let (plain, bold) = (chars(TEXT_CHAR), chars(BOLD_CHAR));
    let joined = label.words.join(", ");
    let rest: Vec<String> = if joined.chars().count() <= plain {
        vec![joined]
    } else {
        label.words.iter().map(|piece| cut(piece, plain)).collect()
    };
    let variety = wrap(&label.variety, bold, most.saturating_sub(rest.len()).max(1));
    let rest = rest.into_iter().map(|line| (false, line));
    variety.into_iter().map(|line| (true, line)).chain(rest).take(most).collect()
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

pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::web::code;

    const A4: Stock = Stock { width: 70.0, height: 37.0, beside: 5.0, above: 3.7 };
    const LETTER: Stock = Stock { width: 66.675, height: 25.4, beside: 1.5, above: 1.5 };
    const LEAST: Stock = Stock { width: 28.0, height: 12.0, beside: 2.8, above: 1.2 };

    fn codes() -> Vec<Symbol> {
        let hosts = ["a.example", "seed.example.org", "hilum.growing-club.example.org:8420"];
        hosts.map(|h| code::symbol(&format!("https://{h}/L/JB42A")).unwrap()).to_vec()
    }

    fn labelled(mark: &str, code: Option<Symbol>, damp: bool) -> Label {
        let words = vec!["10 seeds".to_owned(), "2 Mar 2026".to_owned()];
        Label { mark: mark.into(), variety: "Kestrel".into(), words, code, damp }
    }

    /// Sizes of letters in a drawing.
    fn letters(svg: &str) -> Vec<f64> {
        let sizes = svg.split("font-size=\"").skip(1);
        sizes.map(|rest| rest.split('"').next().unwrap().parse().unwrap()).collect()
    }

    #[test]
    fn a_module_is_half_a_millimetre_or_more_at_addresses_of_usual_length() {
        for code in codes() {
            for (stock, damp, drawn) in [(A4, false, 1), (A4, true, 2), (LETTER, false, 1), (LETTER, true, 2)]
            {
                let label = label(stock, &labelled("JB 42 a", Some(code.clone()), damp));
                assert!(!label.left_off, "{stock:?}");
                let scales: Vec<f64> = label
                    .svg
                    .split("scale(")
                    .skip(1)
                    .map(|s| s.split(')').next().unwrap().parse().unwrap())
                    .collect();
                assert_eq!(scales.len(), drawn, "{stock:?} {damp}");
                assert!(scales.iter().all(|m| *m >= 0.5), "{scales:?}");
            }
        }
    }

    #[test]
    fn a_code_keeps_to_the_printed_part_and_its_light_to_the_label() {
        for code in codes() {
            for (stock, at) in [A4, LETTER].into_iter().flat_map(|s| [0.0, 0.5, 1.0].map(|at| (s, at))) {
                let p = stock.code(&code, 0.5, at).unwrap();
                let quiet = QUIET * p.module;
                assert!(p.y >= -1e-9 && p.y + p.side <= stock.height + 1e-9, "{stock:?} {at}");
                assert!(p.x + p.side <= stock.width + 1e-9);
                assert!(p.y + quiet >= stock.above - 1e-9);
                assert!(p.y + p.side - quiet <= stock.height - stock.above + 1e-9);
                assert!(p.x + p.side - quiet <= stock.width - stock.beside + 1e-9);
            }
        }
    }

    #[test]
    fn nothing_is_smaller_than_nine_points_on_any_label() {
        for code in codes() {
            for stock in [A4, LETTER, LEAST] {
                for mark in ["JB 1", "JB 42 a", "ABCD 1234 aa"] {
                    for damp in [false, true] {
                        let drawn = label(stock, &labelled(mark, Some(code.clone()), damp));
                        let least = letters(&drawn.svg).into_iter().fold(f64::MAX, f64::min);
                        assert!(least >= TEXT - 0.006, "{mark} {least} on {stock:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_code_without_room_is_left_off_and_said() {
        let drawn = label(LEAST, &labelled("JB 42 a", codes().pop(), true));
        assert!(drawn.left_off && !drawn.svg.contains("scale("));
        assert!(!label(LEAST, &labelled("JB 42 a", None, true)).left_off);
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
        let label = labelled("JB 1 a", None, true);
        let room = |width| Room { x: 0.0, y: 0.0, width, height: 30.0 };
        let lines =
            |width, most| wrapped(room(width), &label, most).into_iter().map(|(_, l)| l).collect::<Vec<_>>();
        assert_eq!(lines(60.0, 4), ["Kestrel", "10 seeds, 2 Mar 2026"]);
        assert_eq!(lines(24.0, 4), ["Kestrel", "10 seeds", "2 Mar 2026"]);
    }
}
