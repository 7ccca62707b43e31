use serde::Deserialize;
use serde::de::DeserializeOwned;

macro_rules! file {
    ($name:literal) => {
        include_str!(concat!("../../../seed-demo/", $name))
    };
}

const LISTS: &[(&str, &str)] = &[
    ("AM", file!("lists/am.csv")),
    ("BW", file!("lists/bw.csv")),
    ("CA", file!("lists/ca.csv")),
    ("DF", file!("lists/df.csv")),
    ("EL", file!("lists/el.csv")),
    ("FH", file!("lists/fh.csv")),
    ("GP", file!("lists/gp.csv")),
    ("HM", file!("lists/hm.csv")),
    ("IK", file!("lists/ik.csv")),
    ("JA", file!("lists/ja.csv")),
];

#[derive(Debug, Deserialize)]
pub struct Club {
    pub name: String,
    pub time_zone: String,
}

#[derive(Debug, Deserialize)]
pub struct Member {
    pub name: String,
    pub sign_in: String,
    pub letters: String,
    pub role: String,
    pub measures: String,
}

#[derive(Debug, Deserialize)]
pub struct Trial {
    pub trial: String,
    pub letters: String,
    pub number: i64,
    pub routine: String,
    pub days_ago: i64,
    pub hour: i64,
    pub seeds: i64,
    pub sank: Option<i64>,
    pub floated: Option<i64>,
    pub floaters: String,
}

#[derive(Debug, Deserialize)]
pub struct Bag {
    pub trial: String,
    pub seeds: i64,
    pub floaters: i64,
    pub hours_after_start: i64,
    pub warmth_c: f64,
    pub place: String,
}

#[derive(Debug, Deserialize)]
pub struct Look {
    pub trial: String,
    pub bag: usize,
    pub hours: i64,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
}

#[derive(Debug, Deserialize)]
pub struct Closing {
    pub trial: String,
    pub bag: usize,
    pub hours: i64,
    pub fresh: i64,
    pub hard: i64,
    pub dead: i64,
}

#[derive(Debug, Deserialize)]
pub struct Tray {
    pub letters: String,
    pub rows: i64,
    pub cols: i64,
    pub name: String,
    pub place: String,
}

#[derive(Debug, Deserialize)]
pub struct Planting {
    pub trial: String,
    pub bag: usize,
    pub hours: i64,
    pub letters: String,
    pub seeds: i64,
    pub up: i64,
}

fn rows<T: DeserializeOwned>(text: &str) -> Vec<T> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader.deserialize().map(|row| row.expect("the files of the invented club are in order")).collect()
}

pub fn club() -> Club {
    rows(file!("club.csv")).remove(0)
}

pub fn members() -> Vec<Member> {
    rows(file!("members.csv"))
}

/// The season list of the member with `letters`.
pub fn list(letters: &str) -> &'static str {
    LISTS.iter().find(|(l, _)| *l == letters).map_or("", |(_, text)| text)
}

pub fn trials() -> Vec<Trial> {
    rows(file!("trials.csv"))
}

pub fn bags() -> Vec<Bag> {
    rows(file!("bags.csv"))
}

pub fn looks() -> Vec<Look> {
    rows(file!("looks.csv"))
}

pub fn closings() -> Vec<Closing> {
    rows(file!("closings.csv"))
}

pub fn trays() -> Vec<Tray> {
    rows(file!("trays.csv"))
}

pub fn plantings() -> Vec<Planting> {
    rows(file!("plantings.csv"))
}
