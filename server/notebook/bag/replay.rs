use super::Finding;
use crate::notebook::Broken;
use sqlx::FromRow;

/// One unvoided entry of a bag.
#[derive(Debug, Clone, Default, FromRow)]
pub struct Entry {
    pub id: String,
    pub at: i64,
    pub what: String,
    pub sort: Option<String>,
    pub seeds: Option<i64>,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
    pub fresh: i64,
    pub hard: i64,
    pub not_examined: i64,
    pub lost: i64,
    pub place: Option<String>,
    pub warmth_c: Option<f64>,
    pub holder_id: Option<String>,
    pub to_member: Option<String>,
}

/// Where a bag's seeds are, and how the bag stands.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sums {
    pub voided: bool,
    pub seeds: i64,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
    pub fresh: i64,
    pub hard: i64,
    pub not_examined: i64,
    pub lost: i64,
    pub sown_unrooted: i64,
    pub moved_out: i64,
    pub moved_in: i64,
    pub on_paper: i64,
    /// Rooted seeds that were planted or otherwise ended.
    pub ended: i64,
    /// Each [`Finding`], as it is kept.
    pub findings: String,
    pub on_paper_at: i64,
    pub looked_at: Option<i64>,
    pub closed_at: Option<i64>,
    pub ending: String,
    pub weekly: bool,
    pub in_doubt: bool,
    pub place: String,
    pub warmth_c: Option<f64>,
    pub holder_id: Option<String>,
    pub owner_id: String,
}

/// Replays `entries` in order of time; at one moment seeds come in before they are counted, and rooted seeds
/// are counted before they are planted. `owner` and `began` are the trial's.
pub fn replay(owner: &str, began: i64, entries: &[Entry]) -> Result<Sums, Broken> {
    let mut order: Vec<&Entry> = entries.iter().collect();
    order.sort_by_key(|e| (e.at, rank(e), e.id.clone()));
    let mut s = Sums { voided: true, owner_id: owner.to_owned(), ..Sums::default() };
    for e in order {
        if e.at < began {
            return Err(Broken::new(&e.id, t!("notebook-before-the-trial")));
        }
        s.apply(e)?;
        if let Some(found) = Finding::of(e) {
            found.put(&mut s.findings);
        }
        s.holds(e)?;
    }
    Ok(s)
}

fn rank(e: &Entry) -> u8 {
    match (e.what.as_str(), e.sort.as_deref()) {
        ("bag seeds", Some("on paper")) => 0,
        ("bag seeds", Some("recount" | "moved in")) => 1,
        ("look", _) => 2,
        ("bag seeds" | "bag event", _) => 3,
        ("rooted end", _) => 4,
        _ => 5,
    }
}

impl Sums {
    fn apply(&mut self, e: &Entry) -> Result<(), Broken> {
        match e.what.as_str() {
            "bag seeds" => self.moved(e),
            "look" => self.looked(e),
            "closing" => return self.closed(e),
            "bag event" => self.happened(e),
            _ => self.ended += e.seeds.unwrap_or(0),
        }
        Ok(())
    }

    fn moved(&mut self, e: &Entry) {
        let n = e.seeds.unwrap_or(0);
        match e.sort.as_deref() {
            Some("on paper") => {
                self.voided = false;
                self.on_paper_at = e.at;
                self.seeds += n;
            }
            Some("recount") => self.seeds += n,
            Some("lost") => self.lost += n,
            Some("moved out") => self.moved_out += n,
            Some("moved in") => self.moved_in += n,
            _ => self.sown_unrooted += n,
        }
    }

    fn looked(&mut self, e: &Entry) {
        self.rooted += e.rooted;
        self.abnormal += e.abnormal;
        self.dead += e.dead;
        self.looked_at = Some(e.at);
    }

    fn closed(&mut self, e: &Entry) -> Result<(), Broken> {
        let there = self.left();
        self.fresh += e.fresh;
        self.hard += e.hard;
        self.dead += e.dead;
        self.abnormal += e.abnormal;
        self.not_examined += e.not_examined;
        self.lost += e.lost;
        self.closed_at = Some(e.at);
        self.looked_at = Some(e.at);
        self.ending = e.sort.clone().unwrap_or_default();
        match self.left() {
            0 => Ok(()),
            left => {
                Err(Broken::new(&e.id, t!("notebook-closing-tells-of", there = there, told = there - left)))
            }
        }
    }

    fn happened(&mut self, e: &Entry) {
        match e.sort.as_deref() {
            Some("moved") => {
                self.place = e.place.clone().unwrap_or_default();
                self.warmth_c = e.warmth_c;
            }
            Some("into holder") => self.holder_id.clone_from(&e.holder_id),
            Some("out of holder") => self.holder_id = None,
            Some("handed on") => self.owner_id = e.to_member.clone().unwrap_or_default(),
            Some("look weekly") => self.weekly = true,
            Some("look daily") => self.weekly = false,
            Some("in doubt") => self.in_doubt = true,
            Some("resolved") => self.in_doubt = false,
            _ => {}
        }
    }

    fn left(&self) -> i64 {
        self.seeds + self.moved_in
            - self.rooted
            - self.abnormal
            - self.dead
            - self.fresh
            - self.hard
            - self.not_examined
            - self.lost
            - self.sown_unrooted
            - self.moved_out
    }

    /// What must hold after each entry.
    fn holds(&mut self, e: &Entry) -> Result<(), Broken> {
        self.on_paper = self.left();
        let why = if self.voided {
            t!("notebook-not-on-paper-yet")
        } else if self.on_paper < 0 {
            t!("notebook-more-than-in-bag")
        } else if self.ended > self.rooted {
            t!("notebook-more-than-rooted")
        } else if self.after_closing(e) {
            t!("notebook-closed-before-it")
        } else {
            return Ok(());
        };
        Err(Broken::new(&e.id, why))
    }

    fn after_closing(&self, e: &Entry) -> bool {
        self.closed_at.is_some() && matches!(e.what.as_str(), "look" | "bag seeds")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn paper(at: i64, seeds: i64) -> Entry {
        Entry {
            id: format!("paper{at}"),
            at,
            what: "bag seeds".into(),
            sort: Some("on paper".into()),
            seeds: Some(seeds),
            ..Entry::default()
        }
    }

    fn look(at: i64, rooted: i64, dead: i64) -> Entry {
        Entry { id: format!("look{at}"), at, what: "look".into(), rooted, dead, ..Entry::default() }
    }

    fn seeds(at: i64, sort: &str, seeds: i64) -> Entry {
        Entry {
            id: format!("{sort}{at}"),
            at,
            what: "bag seeds".into(),
            sort: Some(sort.into()),
            seeds: Some(seeds),
            ..Entry::default()
        }
    }

    fn end(at: i64, seeds: i64) -> Entry {
        Entry {
            id: format!("end{at}"),
            at,
            what: "rooted end".into(),
            sort: Some("planted".into()),
            seeds: Some(seeds),
            ..Entry::default()
        }
    }

    fn closing(at: i64, fresh: i64, dead: i64) -> Entry {
        Entry {
            id: format!("closing{at}"),
            at,
            what: "closing".into(),
            sort: Some("final count".into()),
            fresh,
            dead,
            ..Entry::default()
        }
    }

    #[test]
    fn every_seed_is_somewhere() {
        let s = replay(
            "m",
            0,
            &[paper(1, 10), look(2, 3, 1), seeds(3, "lost", 1), look(4, 2, 0), closing(5, 2, 1)],
        )
        .unwrap();
        assert_eq!((s.rooted, s.dead, s.lost, s.fresh, s.on_paper), (5, 2, 1, 2, 0));
        assert_eq!(s.ending, "final count");
    }

    #[test]
    fn eleven_not_ten_is_a_recount_at_the_same_moment() {
        let ok = replay("m", 0, &[paper(1, 10), look(2, 11, 0), seeds(2, "recount", 1)]).unwrap();
        assert_eq!((ok.seeds, ok.on_paper), (11, 0));
        assert_eq!(replay("m", 0, &[paper(1, 10), look(2, 11, 0)]).unwrap_err().entry, "look2");
    }

    #[test]
    fn a_late_look_between_others_counts_in_its_place() {
        let s = replay("m", 0, &[paper(1, 10), look(4, 2, 0), look(2, 3, 0), end(3, 3)]).unwrap();
        assert_eq!((s.rooted, s.ended, s.looked_at), (5, 3, Some(4)));
        assert_eq!(replay("m", 0, &[paper(1, 10), look(4, 3, 0), end(3, 3)]).unwrap_err().entry, "end3");
    }

    #[test]
    fn a_closing_uses_up_the_paper_and_nothing_is_counted_after_it() {
        assert_eq!(replay("m", 0, &[paper(1, 10), closing(5, 9, 0)]).unwrap_err().entry, "closing5");
        assert_eq!(
            replay("m", 0, &[paper(1, 10), closing(5, 10, 0), look(6, 0, 0)]).unwrap_err().entry,
            "look6"
        );
    }

    #[test]
    fn order_of_rows_does_not_matter() {
        let mut rows = vec![paper(1, 10), look(2, 1, 0), look(3, 2, 1), end(3, 2), closing(9, 5, 1)];
        let straight = replay("m", 0, &rows).unwrap();
        rows.reverse();
        assert_eq!(replay("m", 0, &rows).unwrap(), straight);
    }
}
