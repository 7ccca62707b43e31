//! What must hold for any looks, and published values: the curve, event times, warmth, ageing.

mod ageing;
mod curve;
mod event_time;
mod hostile;
mod support;
mod thermal;
