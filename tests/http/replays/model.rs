use hilum::db::FromRow;

/// What a form asks for. Bags are numbered through all members, forms through the round.
#[derive(Debug, Clone, Copy)]
pub enum What {
    Count { bag: usize, rooted: i64, dead: i64 },
    Leave { bag: usize, sort: &'static str, seeds: i64 },
    Move { from: usize, to: usize, seeds: i64 },
    Plant { bag: usize, seeds: i64 },
    Void { form: usize },
    Undo { form: usize },
}

/// Where a bag's seeds are.
#[derive(Debug, Clone, Copy, Default, PartialEq, FromRow)]
pub struct Sums {
    pub rooted: i64,
    pub dead: i64,
    pub lost: i64,
    pub moved_out: i64,
    pub moved_in: i64,
    pub ended: i64,
    pub on_paper: i64,
}

/// Seeds in one bag that an act tells of; an act stands or is taken back as a whole.
#[derive(Debug, Clone)]
struct Act {
    form: usize,
    told: Vec<(usize, Sums)>,
    stands: bool,
}

/// The club as it must stand, form by form.
#[derive(Debug)]
pub struct Model {
    bags: usize,
    seeds: i64,
    owners: Vec<usize>,
    kept: Vec<usize>,
    acts: Vec<Act>,
}

impl Model {
    /// So many bags with so many seeds each.
    pub fn new(bags: usize, seeds: i64) -> Self {
        Self { bags, seeds, owners: Vec::new(), kept: Vec::new(), acts: Vec::new() }
    }

    /// Who sends each form.
    pub fn owned_by(&mut self, owners: Vec<usize>) {
        self.owners = owners;
    }

    pub fn is_kept(&self, form: usize) -> bool {
        self.kept.contains(&form)
    }

    /// The form arrives; whether it is taken (now, or was before).
    pub fn send(&mut self, form: usize, what: What) -> bool {
        if self.is_kept(form) {
            return true;
        }
        match what {
            What::Undo { form: of } => self.may_see(form, of) && self.take_back(|act| act.form == of),
            What::Void { form: of } => {
                let first = self.acts.iter().position(|act| act.form == of);
                let stands = first.filter(|n| self.acts[*n].stands && self.may_see(form, of));
                let gone = stands.is_some_and(|first| {
                    let one = self.acts[first].clone();
                    self.take_back_one(first, one)
                });
                self.keep(form, gone)
            }
            _ => {
                let new = acts(form, what);
                let before = self.acts.len();
                self.acts.extend(new);
                let holds = self.holds();
                if !holds {
                    self.acts.truncate(before);
                }
                self.keep(form, holds)
            }
        }
    }

    /// Only who sent a form takes it back; here nobody else owns what it is about.
    fn may_see(&self, form: usize, of: usize) -> bool {
        self.owners[form] == self.owners[of] && self.is_kept(of)
    }

    fn keep(&mut self, form: usize, taken: bool) -> bool {
        if taken {
            self.kept.push(form);
        }
        taken
    }

    fn take_back(&mut self, which: impl Fn(&Act) -> bool) -> bool {
        let before = self.acts.clone();
        self.acts.iter_mut().filter(|act| which(act)).for_each(|act| act.stands = false);
        let holds = self.holds();
        if !holds {
            self.acts = before;
        }
        holds
    }

    fn take_back_one(&mut self, n: usize, was: Act) -> bool {
        self.acts[n].stands = false;
        let holds = self.holds();
        if !holds {
            self.acts[n] = was;
        }
        holds
    }

    fn holds(&self) -> bool {
        (0..self.bags).map(|bag| self.sums(bag)).all(|s| s.on_paper >= 0 && s.ended <= s.rooted)
    }

    pub fn sums(&self, bag: usize) -> Sums {
        let mut s = Sums::default();
        for (_, t) in self.acts.iter().filter(|a| a.stands).flat_map(|a| &a.told).filter(|(b, _)| *b == bag) {
            s.rooted += t.rooted;
            s.dead += t.dead;
            s.lost += t.lost;
            s.moved_out += t.moved_out;
            s.moved_in += t.moved_in;
            s.ended += t.ended;
        }
        s.on_paper = self.seeds + s.moved_in - s.rooted - s.dead - s.lost - s.moved_out;
        s
    }
}

/// The acts of a form; each planted seed is one of its own.
fn acts(form: usize, what: What) -> Vec<Act> {
    let none = Sums::default();
    let act = |told| Act { form, told, stands: true };
    match what {
        What::Count { bag, rooted, dead } => vec![act(vec![(bag, Sums { rooted, dead, ..none })])],
        What::Leave { bag, sort: "lost", seeds } => vec![act(vec![(bag, Sums { lost: seeds, ..none })])],
        What::Leave { bag, seeds, .. } => vec![act(vec![(bag, Sums { ended: seeds, ..none })])],
        What::Move { from, to, seeds } => {
            let (out, into) = (Sums { moved_out: seeds, ..none }, Sums { moved_in: seeds, ..none });
            vec![act(vec![(from, out), (to, into)])]
        }
        What::Plant { bag, seeds } => {
            (0..seeds).map(|_| act(vec![(bag, Sums { ended: 1, ..none })])).collect()
        }
        What::Void { .. } | What::Undo { .. } => Vec::new(),
    }
}
