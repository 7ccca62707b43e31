use super::*;

#[tokio::test]
async fn a_double_tap_hands_out_once() {
    let ring = Ring::new(400).await;
    let path = ring.plan(&[]).await.path;
    ring.send(&path, &format!("{path}/numbers"), &[("bags", "2"), ("bag_seeds", "10")]).await;
    let page = ring.lea.get(&path).await;
    let draw = format!("{path}/draw");
    let (a, b) = tokio::join!(ring.lea.submit(&page, &draw, &[]), ring.lea.submit(&page, &draw, &[]));
    assert_eq!((a.status, b.status), (StatusCode::OK, StatusCode::OK));
    let page = ring.lea.get(&path).await;
    let (out, to) = (format!("{path}/hand-out"), [("to", "all")]);
    let (a, b) = tokio::join!(ring.lea.submit(&page, &out, &to), ring.lea.submit(&page, &out, &to));
    assert_eq!((a.status, b.status), (StatusCode::OK, StatusCode::OK));
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM ring_packets").await, 9);
    let out =
        number(&ring.club, "SELECT CAST(SUM(seeds) AS BIGINT) AS n FROM ledger WHERE sort = 'given'").await;
    assert_eq!(out, -180);
    sound(&ring.club).await;
}

#[tokio::test]
async fn two_organisers_at_once_do_it_once() {
    let ring = Ring::new(400).await;
    let max = ring.club.organiser("Max", "MX").await;
    let path = ring.plan(&[]).await.path;
    ring.send(&path, &format!("{path}/numbers"), &[("bags", "2"), ("bag_seeds", "10")]).await;
    for (action, fields, second) in [
        ("draw", vec![], StatusCode::CONFLICT),
        ("hand-out", vec![("to", "all")], StatusCode::UNPROCESSABLE_ENTITY),
        ("open", vec![("why", "tired")], StatusCode::CONFLICT),
    ] {
        let from = if action == "open" { format!("{path}/open") } else { path.clone() };
        let (one, two) = (ring.lea.get(&from).await, max.get(&from).await);
        let action = format!("{path}/{action}");
        let (a, b) =
            tokio::join!(ring.lea.submit(&one, &action, &fields), max.submit(&two, &action, &fields));
        let mut answers = [a.status, b.status];
        answers.sort();
        assert_eq!(answers, [StatusCode::OK, second], "{action}: {} {}", a.text(), b.text());
    }
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM ring_packets").await, 9);
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM ledger WHERE sort = 'given'").await, 9);
    sound(&ring.club).await;
}

#[tokio::test]
async fn a_hand_out_taken_back_can_be_made_again() {
    let ring = Ring::new(400).await;
    let path = ring.handed_out().await;
    let page = ring.lea.get(&path).await;
    page.says_not("everybody who has none yet");
    let key = number_of_save(&ring.club).await;
    let undone = ring.lea.post("/undo", &[("save", &key)]).await;
    assert_eq!(undone.status, StatusCode::OK, "{}", undone.text());
    ring.lea.get(&path).await.says("not handed out").says("everybody who has none yet");
    assert_eq!(number(&ring.club, "SELECT MIN(balance) AS n FROM packets").await, 0);
    let again = ring.send(&path, &format!("{path}/hand-out"), &[("to", "all")]).await;
    again.says("Handed out: 9 packets");
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM packets").await, 12);
    sound(&ring.club).await;
}

async fn number_of_save(club: &Club) -> String {
    #[derive(FromRow)]
    struct Key {
        key: String,
    }
    let sql = "SELECT key FROM once WHERE action = 'hand out ring trial'";
    let row: Key = club.app.db.read().await.unwrap().one(sql, args![]).await.unwrap();
    row.key
}

#[tokio::test]
async fn a_packet_that_ran_low_is_named() {
    let ring = Ring::new(100).await;
    let path = ring.plan(&[]).await.path;
    ring.send(&path, &format!("{path}/numbers"), &[("bags", "2"), ("bag_seeds", "10")]).await;
    ring.send(&path, &format!("{path}/draw"), &[]).await.says("Drawn.");
    ring.club.trial(&ring.lea, &ring.packets[1], 50).await;
    let refused = ring.send(&path, &format!("{path}/hand-out"), &[("to", "all")]).await;
    refused.refuses("to", "LM 2 of Lea does not hold enough seed any more");
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM ledger WHERE sort = 'given'").await, 0);
    sound(&ring.club).await;
}
