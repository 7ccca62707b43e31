//! What may be labelled, and what its label says.

use super::draw::Label;
use super::store::{self, Pot};
use crate::app::App;
use crate::bags::model::Bag;
use crate::bags::store as bags;
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::marks;
use crate::routines::said;
use crate::trays::cells::Geometry;
use crate::trays::model::Tray;
use crate::trays::store::tray as trays;
use crate::trials::store::{self as trials, Listed};
use crate::web::chrome::Chrome;
use crate::web::{code, words};

/// Days for which what was potted on is offered.
const POTTED_DAYS: i64 = 60;

/// What labels are wanted of: trials, plantings that were potted on, trays. Strangers' things are not found.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    pub trials: Vec<TrialId>,
    pub pots: Vec<String>,
    pub trays: Vec<String>,
}

impl Wanted {
    pub fn asked(query: &[(String, String)]) -> Self {
        let of =
            |name: &str| query.iter().filter(|(n, _)| n == name).map(|(_, v)| v.clone()).collect::<Vec<_>>();
        Self { trials: of("trial").into_iter().map(TrialId).collect(), pots: of("pot"), trays: of("tray") }
    }

    /// Names and values of the fields that ask for the same again.
    pub fn fields(&self) -> Vec<(&'static str, &str)> {
        let trials = self.trials.iter().map(|t| ("trial", t.0.as_str()));
        let pots = self.pots.iter().map(|p| ("pot", p.as_str()));
        trials.chain(pots).chain(self.trays.iter().map(|t| ("tray", t.as_str()))).collect()
    }
}

/// A thing to be ticked, with what it has.
pub struct Choice {
    pub name: &'static str,
    pub value: String,
    pub mark: String,
    pub words: String,
    pub ticked: bool,
}

/// What of the member's may be labelled, in groups with their headings: seeds in vials and bags, pots, trays.
pub async fn choices(app: &App, chrome: &Chrome) -> Result<Vec<(&'static str, Vec<Choice>)>, AppError> {
    let mut conn = app.db.read().await?;
    let member = &chrome.member.id;
    let running = trials::running(&mut conn, member).await?;
    let open = bags::open(&mut conn, member).await?;
    let pots = store::pots(&mut conn, member).await?;
    let trays = trays::open(&mut conn, member).await?;
    let since = chrome.now.plus_days(-POTTED_DAYS);
    let groups = [
        (t!("labels-for-which-trials"), running.into_iter().filter_map(|t| of_trial(t, &open)).collect()),
        (t!("labels-pots"), pots.iter().filter(|p| p.at >= since).map(|p| of_pot(p, chrome)).collect()),
        (t!("labels-ends-of-trays"), trays.iter().map(of_tray).collect::<Vec<_>>()),
    ];
    Ok(groups.into_iter().filter(|(_, choices)| !choices.is_empty()).collect())
}

fn of_trial(trial: Listed, open: &[Bag]) -> Option<Choice> {
    let bags = open.iter().filter(|b| b.trial_id == trial.id).count() as i64;
    let vial = (trial.soaking > 0).then(|| t!("labels-one-vial").to_owned());
    let bags = (bags > 0).then(|| t!("labels-so-many-bags", n = bags));
    let has: Vec<String> = vial.into_iter().chain(bags).collect();
    (!has.is_empty()).then(|| Choice {
        name: "trial",
        words: format!("{}, {}: {}", trial.variety, said::name(&trial.routine), words::and(&has)),
        value: trial.id.0,
        mark: trial.mark,
        ticked: true,
    })
}

fn of_pot(pot: &Pot, chrome: &Chrome) -> Choice {
    Choice {
        name: "pot",
        value: pot.id.0.clone(),
        mark: pot.bag.clone(),
        words: t!(
            "labels-pots-of",
            variety = pot.variety,
            cell = cell(pot),
            n = pot.potted,
            day = day(pot, chrome),
        ),
        ticked: false,
    }
}

fn of_tray(tray: &Tray) -> Choice {
    let cells = cells(tray);
    let parts = [tray.name.as_str(), cells.as_str(), tray.place.as_str()];
    Choice {
        name: "tray",
        value: tray.id.0.clone(),
        mark: tray.mark.clone(),
        words: parts.iter().filter(|p| !p.is_empty()).copied().collect::<Vec<_>>().join(", "),
        ticked: false,
    }
}

/// For each of the wanted trials a vial where seeds are in the soak, then its open bags; then a label for each
/// pot, and two for each tray.
pub async fn labels(app: &App, chrome: &Chrome, wanted: &Wanted) -> Result<Vec<Label>, AppError> {
    let mut conn = app.db.read().await?;
    let member = &chrome.member.id;
    let running = trials::running(&mut conn, member).await?;
    let open = bags::open(&mut conn, member).await?;
    let pots = store::pots(&mut conn, member).await?;
    let trays = trays::every(&mut conn, member).await?;
    drop(conn);
    let mut running: Vec<&Listed> = running.iter().filter(|t| wanted.trials.contains(&t.id)).collect();
    running.sort_by_key(|t| (marks::fold(&t.mark).len(), marks::fold(&t.mark), t.id.clone()));
    let mut labels = Vec::new();
    for trial in running {
        labels.extend((trial.soaking > 0).then(|| vial(app, trial)));
        labels.extend(open.iter().filter(|b| b.trial_id == trial.id).map(|b| bag(app, chrome, b)));
    }
    for pot in pots.iter().filter(|p| wanted.pots.contains(&p.id.0)) {
        labels.extend((0..pot.potted).map(|_| potted(app, chrome, pot)));
    }
    for tray in trays.iter().filter(|t| wanted.trays.contains(&t.id.0)) {
        labels.extend([t!("labels-first-row"), t!("labels-last-row")].map(|end| tray_end(app, tray, end)));
    }
    Ok(labels)
}

fn vial(app: &App, trial: &Listed) -> Label {
    let address = format!("{}/V/{}-{}", app.config.base(), marks::fold(&trial.mark), trial.vial.number);
    let seeds = words::seeds(trial.soaking) + trial.vial.words().as_str();
    Label {
        mark: trial.mark.clone(),
        variety: trial.variety.clone(),
        words: vec![said::name(&trial.routine).to_owned(), seeds],
        code: code::symbol(&address),
        damp: false,
    }
}

fn bag(app: &App, chrome: &Chrome, bag: &Bag) -> Label {
    let address = format!("{}/L/{}", app.config.base(), marks::fold(&bag.mark));
    let day = words::date(bag.on_paper_at.day(chrome.member.zone()));
    let seeds =
        if bag.floaters { t!("labels-so-many-floaters", n = bag.seeds) } else { words::seeds(bag.seeds) };
    Label {
        mark: bag.mark.clone(),
        variety: bag.variety.clone(),
        words: vec![seeds, day],
        code: code::symbol(&address),
        damp: true,
    }
}

fn potted(app: &App, chrome: &Chrome, pot: &Pot) -> Label {
    let address = format!("{}/P/{}-{}", app.config.base(), marks::fold(&pot.bag), pot.number);
    Label {
        mark: pot.bag.clone(),
        variety: pot.variety.clone(),
        words: vec![cell(pot), t!("labels-potted", day = day(pot, chrome))],
        code: code::symbol(&address),
        damp: false,
    }
}

/// One end of a tray, so that it is put back the right way round.
fn tray_end(app: &App, tray: &Tray, end: &str) -> Label {
    let words = [tray.name.clone(), cells(tray)];
    Label {
        mark: tray.mark.clone(),
        // the first line is what a small label keeps
        variety: end.to_owned(),
        words: words.into_iter().filter(|w| !w.is_empty()).collect(),
        code: code::symbol(&format!("{}/T/{}", app.config.base(), tray.mark_key)),
        damp: false,
    }
}

/// `JB T1, cell C4`
fn cell(pot: &Pot) -> String {
    let geometry = Geometry { rows: pot.tray_rows, cols: pot.tray_cols };
    t!("labels-tray-and-cell", tray = pot.tray, cell = geometry.name(pot.cell))
}

fn cells(tray: &Tray) -> String {
    t!("labels-so-many-cells", n = tray.geometry().cells())
}

fn day(pot: &Pot, chrome: &Chrome) -> String {
    words::date(pot.at.day(chrome.member.zone()))
}
