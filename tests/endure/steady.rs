//! Nothing happens to the program: the harness itself, shown to see what is there.

use crate::support::{Client, Program, START, key};
use hilum::args;
use hilum::db::FromRow;
use hilum::db::ids::At;

#[derive(FromRow)]
struct Bag {
    id: String,
}

#[derive(FromRow)]
struct Tally {
    n: i64,
}

#[tokio::test]
async fn a_save_that_was_answered_is_there_once() {
    let mut program = Program::demo().await;
    let db = program.db().await;
    let sql = "SELECT b.id FROM bags b JOIN trials t ON t.id = b.trial_id JOIN members m ON m.id = t.owner_id
        WHERE m.sign_in = 'agnes' AND b.closed_at IS NULL ORDER BY b.id";
    let bag: Bag = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
    let key = key();
    for _ in 0..2 {
        let answer = agnes
            .post(&format!("/bags/{}/count", bag.id), &key, &[("rooted", "0"), ("note", "endured")])
            .await
            .unwrap();
        assert_eq!((answer.status.as_u16(), answer.location), (303, format!("/bags/{}", bag.id)));
    }
    let page = agnes.get(&format!("/bags/{}", bag.id)).await.unwrap();
    assert!(page.status == 200 && page.body.contains("endured"), "{page:?}");
    program.stop();
    assert!(program.check().contains("No breach"), "{}", program.check());
    let sql = "SELECT COUNT(*) AS n FROM entries WHERE note = 'endured'";
    let tally: Tally = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    assert_eq!(tally.n, 1);
}

#[tokio::test]
async fn a_program_that_stood_still_goes_on() {
    let program = Program::start().await;
    assert!(program.set_up.contains("/join/"), "{}", program.set_up);
    program.hang(true);
    let waits = tokio::spawn(reqwest::get(format!("{}/sign-in", program.base)));
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    assert!(!waits.is_finished());
    program.hang(false);
    assert_eq!(waits.await.unwrap().unwrap().status(), 200);
}
