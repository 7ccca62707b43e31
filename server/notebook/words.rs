//! The fixed words that stand in the notebook, as pages say them.

/// The note of the look that finds what rooted in the soak, as stored.
pub const ROOTED_IN_SOAK: &str = "rooted during the soak";

/// What became of seeds or happened to a thing, by the `sort` that is stored of it.
pub fn sort(stored: &str) -> &str {
    seeds(stored).or_else(|| event(stored)).or_else(|| end(stored)).unwrap_or(stored)
}

fn seeds(stored: &str) -> Option<&'static str> {
    Some(match stored {
        "received" => t!("notebook-received"),
        "taken" => t!("notebook-taken"),
        "returned" => t!("notebook-returned"),
        "found" => t!("notebook-found"),
        "given" => t!("notebook-given"),
        "spoiled" => t!("notebook-spoiled"),
        "recount" => t!("notebook-recount"),
        "to paper" => t!("notebook-to-paper"),
        "thrown out" => t!("notebook-thrown-out"),
        "lost" => t!("notebook-lost"),
        "sown" => t!("notebook-sown"),
        "on paper" => t!("notebook-on-paper"),
        "moved out" => t!("notebook-moved-out"),
        "moved in" => t!("notebook-moved-in"),
        "sown unrooted" => t!("notebook-sown-unrooted"),
        _ => return None,
    })
}

fn event(stored: &str) -> Option<&'static str> {
    Some(match stored {
        "damped" => t!("notebook-damped"),
        "paper changed" => t!("notebook-paper-changed"),
        "rinsed" => t!("notebook-rinsed"),
        "soaked again" => t!("notebook-soaked-again"),
        "mould seen" => t!("notebook-mould-seen"),
        "mouldy removed" => t!("notebook-mouldy-removed"),
        "dried out" => t!("notebook-dried-out"),
        "overheated" => t!("notebook-overheated"),
        "moved" => t!("notebook-moved"),
        "into holder" => t!("notebook-into-holder"),
        "out of holder" => t!("notebook-out-of-holder"),
        "handed on" => t!("notebook-handed-on"),
        "look weekly" => t!("notebook-look-weekly"),
        "look daily" => t!("notebook-look-daily"),
        "in doubt" => t!("notebook-in-doubt"),
        "resolved" => t!("notebook-resolved"),
        "treated again" => t!("notebook-treated-again"),
        "note" => t!("notebook-note"),
        _ => return None,
    })
}

fn end(stored: &str) -> Option<&'static str> {
    Some(match stored {
        "final count" => t!("notebook-final-count"),
        "kept on" => t!("notebook-kept-on"),
        "abandoned" => t!("notebook-abandoned"),
        "planted" => t!("notebook-planted"),
        "surplus" => t!("notebook-surplus"),
        "root broken" => t!("notebook-root-broken"),
        "rotted" => t!("notebook-rotted"),
        "up" => t!("notebook-up"),
        "thinned" => t!("notebook-thinned"),
        "potted on" => t!("notebook-potted-on"),
        "ended" => t!("notebook-ended"),
        _ => return None,
    })
}

/// What an entry is, by the `what` that is stored of it.
pub fn what(stored: &str) -> &str {
    match stored {
        "ledger" => t!("notebook-ledger"),
        "trial seeds" => t!("notebook-trial-seeds"),
        "float tally" => t!("notebook-float-tally"),
        "step" => t!("notebook-step"),
        "trial event" => t!("notebook-trial-event"),
        "look" => t!("notebook-look"),
        "closing" => t!("notebook-closing"),
        "bag seeds" => t!("notebook-bag-seeds"),
        "bag event" => t!("notebook-bag-event"),
        "rooted end" => t!("notebook-rooted-end"),
        "planting" => t!("notebook-planting"),
        "outcome" => t!("notebook-outcome"),
        other => other,
    }
}

/// A note or a reason: what the app itself wrote as a page says it, what members wrote as it is.
pub fn written(text: &str) -> &str {
    match text {
        "undone" => t!("notebook-undone"),
        "rooted after closing" => t!("notebook-rooted-after-closing"),
        "mouldy seeds removed" => t!("notebook-mouldy-seeds-removed"),
        ROOTED_IN_SOAK => t!("notebook-rooted-during-the-soak"),
        other => other,
    }
}
