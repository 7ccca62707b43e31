//! What the security standard asks of the whole app (tests/reference/asvs.csv): walked over every page and form that
//! members reach, so that one that is added later is looked at too.

mod browsers;
mod data;
mod encoding;
mod gates;
mod inputs;
mod logging;
mod methods;
mod outsiders;
mod pace;
mod packages;
mod sessions;
mod walk;
mod way_in;

use crate::api::Shed;
use crate::support::Browser;

/// A club in which Jo, a grower, has one thing of each sort; Lea is an organiser.
async fn club() -> (Shed, Browser) {
    let shed = Shed::new().await;
    let lea = shed.club.organiser("Lea", "LM").await;
    (shed, lea)
}
