use crate::support::Club;

#[tokio::test]
async fn a_look_is_kept_in_the_bags_sums() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let packet = club.packet(&jo, "Kestrel", 25).await;
    let trial = club.trial(&jo, &packet, 10).await;
    let bag = club.bag(&jo, &trial, 10).await;
    club.pass_days(3);
    club.look(&jo, &bag, 4, 1).await;
    let mut conn = club.app.db.read().await.unwrap();
    let sums = hilum::notebook::bag::sums(&mut conn, &bag).await.unwrap().unwrap();
    assert_eq!((sums.rooted, sums.dead, sums.on_paper), (4, 1, 5));
}
