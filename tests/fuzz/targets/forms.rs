//! Forms as browsers send them, and what the models read of them.

use super::lists::today;
use chrono_tz::Europe::Berlin;
use hilum::accounts::model::{self as accounts, NewMember, NewToken, Role, Settings};
use hilum::cards::model as cards;
use hilum::db::ids::At;
use hilum::db::ids::{KindId, PacketId};
use hilum::planning::entry::{Names, pasted};
use hilum::rates::choice::Choice;
use hilum::routines::mixing::Wanted;
use hilum::routines::model::{NewRoutine, read_warmth};
use hilum::routines::solutions::Made;
use hilum::stock::form as packets;
use hilum::stock::store::Kind;
use hilum::web::forms::Form;

/// Monday 2026-03-02, 18:00 in Berlin.
pub const NOW: At = At(1_772_470_800);

/// A form body and each sort of field.
pub fn forms(data: &[u8]) {
    let Ok(mut form) = Form::from_body(data) else { return };
    let names: Vec<String> = form.pairs().take(8).map(|(name, _)| name.clone()).collect();
    for name in &names {
        let text = form.text(name, 24);
        assert!(text.chars().count() <= 24 || form.failed());
        assert!(form.whole(name, -5..=1000).is_none_or(|n| (-5..=1000).contains(&n)));
        assert!((1..=9).contains(&form.must_whole(name, 1..=9)));
        assert!(form.decimal(name, 0.5..=99.5).is_none_or(|x| (0.5..=99.5).contains(&x)));
        assert!(form.moment(name, Berlin, NOW) <= NOW);
        assert!(["a", "b"].contains(&form.one_of(name, &["a", "b"])));
        let _ = (form.day(name), form.ticked(name), form.values(name).len(), form.key().len());
        form.about(name, "It");
    }
    assert!(form.errors().iter().all(|(name, _)| names.contains(name)));
}

/// A form body, read by each model that takes one.
pub fn models(data: &[u8]) {
    let Ok(form) = Form::from_body(data) else { return };
    for read in [people, growing, stock] {
        let mut form = form.clone();
        read(&mut form);
        assert!(form.errors().iter().all(|(name, why)| !name.is_empty() && !why.is_empty()));
    }
    plans(form.value("lines"));
}

fn people(form: &mut Form) {
    let new = NewMember::parse(form, "grower", "Fuzz Club");
    assert!(form.failed() || !new.name.is_empty() && (1..=4).contains(&new.letters.len()));
    let _ = (Role::parse(form), NewToken::parse(form), Settings::parse(form));
    assert!(accounts::safe_next(form.value("next")).starts_with('/'));
    let _ = Choice::read(form);
}

fn growing(form: &mut Form) {
    for us in [false, true] {
        let routine = NewRoutine::parse(form, us);
        assert!(routine.steps.len() <= 20);
        assert!(read_warmth(form, "warmth", us, 100.0).is_none_or(|c| (-30.1..=100.1).contains(&c)));
    }
    let wanted = Wanted::parse(form);
    if let Ok(mix) = wanted.mix() {
        assert!(mix.all.2.is_finite() && mix.all.2 > 0.0);
    }
    let _ = Made::parse(form, Berlin, NOW);
    let looks = cards::parse(form, &[1, 2, 3], 4, today());
    assert!(form.failed() || looks.iter().all(|l| l.day <= today()));
}

fn stock(form: &mut Form) {
    let packet = packets::new_packet(form, today());
    assert!(form.failed() || !packet.naming.kind.is_empty());
    let _ = packets::saved_from(form, PacketId("packet".to_owned()));
}

/// Lines of a plan, pasted.
fn plans(text: &str) {
    let kind = |name: &str| Kind {
        id: KindId(name.to_owned()),
        name: name.to_owned(),
        name_key: name.to_owned(),
        built_in: true,
        varieties: 0,
    };
    let names = Names {
        kinds: vec![kind("pepper"), kind("tomato")],
        varieties: Vec::new(),
        sources: Vec::new(),
        today: today(),
        us: text.len() % 2 == 1,
    };
    for (_, typed) in pasted(text) {
        match names.read(&typed) {
            Ok(line) => assert!(line.plants > 0),
            Err(faults) => assert!(!faults.is_empty()),
        }
    }
}
