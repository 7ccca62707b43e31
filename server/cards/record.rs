//! Writes what was typed of a card into the notebook, each look an act of its own.

use super::model::{self, Card, Counted, Line, Typed};
use super::store;
use crate::bags::model::{Bag, beside};
use crate::bags::store as bags;
use crate::db::Conn;
use crate::error::AppError;
use crate::notebook::Act;
use crate::notebook::bag::{self, Look};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::words;

/// What one save came to.
#[derive(Default)]
pub struct Sums {
    changed: i64,
    same: i64,
    rooted: i64,
    dead: i64,
}

impl Sums {
    fn add(&mut self, look: Look) {
        self.changed += i64::from(look != Look::default());
        self.same += i64::from(look == Look::default());
        self.rooted += look.rooted;
        self.dead += look.dead;
    }

    pub fn said(&self, card: &Card) -> Said {
        Said::new(t!(
            "cards-in-the-book",
            card = card.number,
            counts = self.changed,
            rooted = self.rooted,
            dead = self.dead,
            looks = self.same,
        ))
    }
}

/// Records every look; what does not fit is noted beside its cell, and then nothing may be kept.
pub async fn all(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &mut Form,
    card: &Card,
    (lines, typed): (&[Line], &[Typed]),
) -> Result<Sums, AppError> {
    let counted = store::counted(conn, &card.id).await?;
    let mut sums = Sums::default();
    // the order of locks
    let mut order: Vec<&Line> = lines.iter().collect();
    order.sort_by(|a, b| a.bag_id.cmp(&b.bag_id));
    for line in order {
        let mut looks: Vec<&Typed> = typed.iter().filter(|t| t.place == line.place).collect();
        looks.sort_by_key(|t| t.day);
        if let Some(first) = looks.first() {
            let opened = open(conn, chrome, form, line).await;
            let Some(mut bag) = noted(form, &model::rooted(line.place, first.column), opened)? else {
                continue;
            };
            for look in looks {
                sums.add(look.look);
                if !one(conn, chrome, form, (&mut bag, &counted), look).await? {
                    break;
                }
            }
        }
    }
    Ok(sums)
}

/// Locks the bag and reads it as it is now.
async fn open(conn: &mut Conn, chrome: &Chrome, form: &Form, line: &Line) -> Result<Bag, AppError> {
    let gone = || AppError::refused("entry", t!("cards-not-with-you", bag = line.mark));
    bag::lock(conn, &line.bag_id).await?;
    let found = bags::bag(conn, &chrome.member.id, &line.bag_id).await;
    let b = found.map_err(|e| if matches!(e, AppError::NotFound) { gone() } else { e })?;
    b.must_be_open()?;
    b.must_be_as(form.value(&format!("seen-{}", line.place)))?;
    Ok(b)
}

/// The result, or `None` with the broken rule noted beside `field`.
fn noted<T>(form: &mut Form, field: &str, result: Result<T, AppError>) -> Result<Option<T>, AppError> {
    match result {
        Ok(value) => Ok(Some(value)),
        Err(AppError::Refused { message, .. }) => {
            form.refuse(field, message);
            Ok(None)
        }
        Err(other) => Err(other),
    }
}

/// Whether the bag's later looks are worth a try.
async fn one(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &mut Form,
    (bag, counted): (&mut Bag, &[Counted]),
    typed: &Typed,
) -> Result<bool, AppError> {
    let (zone, now) = (chrome.member.zone(), chrome.now);
    let again = model::again(typed.place, typed.column);
    let before = model::counted_already(counted, &bag.id, typed.day, zone, now.day(zone));
    if let Some(before) = before.filter(|_| !form.ticked(&again)) {
        form.refuse(&again, before);
        return Ok(true);
    }
    let field = model::rooted(typed.place, typed.column);
    let Some(at) = model::moment(typed.day, bag, zone, now) else {
        let since = words::day(bag.on_paper_at.day(zone), now.day(zone));
        form.refuse(&field, t!("cards-on-paper-only-since", bag = bag.mark, day = since));
        return Ok(true);
    };
    let act = Act::new(&chrome.member.id, form.key(), at, now);
    let written = write(conn, &act, bag, typed.look).await;
    bag.on_paper -= typed.look.rooted + typed.look.dead;
    Ok(noted(form, &field, written)?.is_some())
}

async fn write(conn: &mut Conn, act: &Act<'_>, bag: &Bag, look: Look) -> Result<(), AppError> {
    bag.must_hold(look)?;
    bag::add_look(conn, act, bag.about(), look, "").await?;
    beside(bag::keep(conn, &bag.id).await, "entry")?;
    Ok(())
}
