//! Made files of counts: sound ones, changed ones, and text by chance.

use crate::dice::Dice;
use crate::numbers::{chance, length, name, pick, whole};
use hilum_calc::analyse::Options;
use hilum_calc::table::{At, Of};

const HEADER: [&str; 19] = [
    "kind",
    "variety",
    "source",
    "grower",
    "trial",
    "bag",
    "seeds",
    "hours",
    "rooted",
    "abnormal",
    "dead",
    "soaked",
    "floated",
    "lot_year",
    "routine",
    "warmth_c",
    "age_years",
    "put_on_paper",
    "closed",
];

pub fn options(dice: &mut Dice) -> Options {
    Options {
        of: if chance(dice, 0.7) { Of::Started } else { Of::Paper },
        at: if chance(dice, 0.7) { At::Day } else { At::Close },
        as_of: chance(dice, 0.3).then(|| *pick(dice, &[0, 19_800, 20_000, -100_000, i32::MIN, i32::MAX])),
    }
}

pub fn text(dice: &mut Dice) -> String {
    match dice.below(20) {
        0 => noise(dice),
        1..=8 => {
            let sound = written(&lines(dice), dice);
            scratched(&sound, dice)
        }
        9..=11 => {
            let mut lines = lines(dice);
            muddle(&mut lines, dice);
            written(&lines, dice)
        }
        _ => written(&lines(dice), dice),
    }
}

/// Cells of a sound file with its header.
fn lines(dice: &mut Dice) -> Vec<Vec<String>> {
    let columns = if chance(dice, 0.5) { 11 } else { 11 + dice.below(9) };
    let mut lines = vec![HEADER[..columns].iter().map(|name| (*name).to_owned()).collect()];
    let most = *pick(dice, &[1.0, 20.0, 100.0, 1e6]);
    let trials = if chance(dice, 0.02) { dice.below(200) } else { dice.below(8) };
    for trial in 0..trials {
        let kind = *pick(dice, &["pepper", "pepper", "Tomato ", "onion", "unheard of", "=kind", "\"x\""]);
        let about = [kind.to_owned(), variety(dice), variety(dice), variety(dice), format!("T{trial}")];
        let about_trial = [format!("{}", 1900 + dice.below(300)), "soak".to_owned(), "0.5".to_owned()];
        for bag in 0..=dice.below(3) {
            for look in bag_of(dice, most, &about_trial) {
                let cells = about.iter().cloned().chain([format!("b{bag}")]).chain(look);
                lines.push(cells.take(columns).collect());
            }
        }
    }
    lines
}

fn variety(dice: &mut Dice) -> String {
    if chance(dice, 0.9) { format!("v{}", dice.below(4)) } else { name(dice).replace('\0', "0") + "." }
}

/// The cells from `seeds` on, for each look of one bag.
fn bag_of(dice: &mut Dice, most: f64, trial: &[String; 3]) -> Vec<Vec<String>> {
    let seeds = whole(dice, most).max(1.0);
    let soaked = if chance(dice, 0.7) { seeds } else { 1e6_f64.min(seeds + whole(dice, 1e6)) };
    let warmth = ["-20", "24.5", "70", ""][dice.below(4)];
    let date = ["", "1970-01-01", "2024-03-31", "2199-12-31"][dice.below(4)];
    let (floated, closed) = (dice.below(2), dice.below(2));
    let (mut left, mut hours, mut looks) = (seeds, 0.0, Vec::new());
    for _ in 0..=length(dice, 60) {
        hours += *pick(dice, &[1e-9, 0.5, 24.0, 24.0, 24.0, 72.0, 336.0, 1000.0]);
        let mut gone = |dice: &mut Dice, share: f64| {
            let n = if chance(dice, share) { whole(dice, left) } else { 0.0 };
            left -= n;
            n
        };
        let (rooted, abnormal, dead) = (gone(dice, 0.6), gone(dice, 0.1), gone(dice, 0.1));
        let numbers = [seeds, hours, rooted, abnormal, dead, soaked].map(|x| x.to_string());
        let more =
            [floated.to_string(), trial[0].clone(), trial[1].clone(), warmth.to_owned(), trial[2].clone()];
        looks.push(numbers.into_iter().chain(more).chain([date.to_owned(), closed.to_string()]).collect());
    }
    looks
}

/// Some cells wrong, lines twice, in another order, or short.
fn muddle(lines: &mut Vec<Vec<String>>, dice: &mut Dice) {
    let odd = [
        "",
        "0",
        "-1",
        "1.5",
        "NaN",
        "1e3",
        "99999999999999999999",
        "2024-02-30",
        "x",
        "=1",
        "\u{feff}",
        "٣",
    ];
    for _ in 0..=dice.below(3) {
        let at = dice.below(lines.len());
        let cell = dice.below(lines[at].len().max(1));
        match dice.below(6) {
            0 => lines.push(lines[at].clone()),
            1 => dice.shuffle(&mut lines[1..]),
            2 => drop(lines[at].pop()),
            3 => lines[at].push("1".to_owned()),
            _ if cell < lines[at].len() => lines[at][cell] = (*pick(dice, &odd)).to_owned(),
            _ => {}
        }
    }
}

fn written(lines: &[Vec<String>], dice: &mut Dice) -> String {
    let end = *pick(dice, &["\n", "\n", "\r\n"]);
    let start = if chance(dice, 0.1) { "\u{feff}" } else { "" };
    let cell = |cell: &String| {
        if cell.contains([',', '"', '\n', '\r']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell.clone()
        }
    };
    let line = |line: &Vec<String>| line.iter().map(cell).collect::<Vec<_>>().join(",");
    start.to_owned() + &lines.iter().map(line).collect::<Vec<_>>().join(end) + end
}

/// Some letters replaced by others.
fn scratched(text: &str, dice: &mut Dice) -> String {
    let scraps =
        [",", "\"", "\n", "\r", "0", "9", "-", ".", "1e9", "\0", "é", "", ",,", "\"\"", "'", ";", "\t"];
    let mut letters: Vec<char> = text.chars().collect();
    for _ in 0..=dice.below(4) {
        let at = dice.below(letters.len());
        letters.splice(at..(at + dice.below(6)).min(letters.len()), pick(dice, &scraps).chars());
    }
    letters.into_iter().collect()
}

/// Any bytes as text, with or without a good header above.
fn noise(dice: &mut Dice) -> String {
    let n = whole(dice, 3_000.0) as usize;
    let separators = *b",,,\n\n\"\r;0123456789";
    let byte =
        |dice: &mut Dice| if chance(dice, 0.5) { *pick(dice, &separators) } else { dice.below(256) as u8 };
    let bytes: Vec<u8> = (0..n).map(|_| byte(dice)).collect();
    let header = if chance(dice, 0.5) { HEADER[..11].join(",") + "\n" } else { String::new() };
    header + &String::from_utf8_lossy(&bytes)
}
