use crate::support::{Phone, Program};

#[tokio::test]
async fn a_club_is_set_up_on_a_phone() {
    let program = Program::start().await;
    let phone = Phone::open(&program.base).await;
    phone.goto(&program.set_up).await;
    phone.look("set-up").await;
    phone.fill("#f-club", "Moorland Growers").await;
    phone.fill("#f-time_zone", "Europe/Berlin").await;
    phone.fill("#f-name", "Ines Brandt").await;
    phone.fill("#f-sign_in", "ines").await;
    phone.fill("#f-letters", "IB").await;
    phone.fill("#f-password", "four words quite unrelated").await;
    phone.tap("button.main").await;
    phone.says("Go to what is due now").await;
    phone.close().await;
}
