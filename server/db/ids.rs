//! Identities: time-ordered text ids made here, never by the database, and moments.

use serde::{Deserialize, Serialize};
use std::fmt;

macro_rules! ids {
    ($($name:ident),* $(,)?) => {$(
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, sqlx::Type)]
        #[sqlx(transparent)]
        #[serde(transparent)]
        pub struct $name(pub String);

        impl $name {
            /// A new identity, ordered by the time of its making.
            pub fn new() -> Self {
                Self(uuid::Uuid::now_v7().simple().to_string())
            }
        }

        impl Default for $name {
            fn default() -> Self { Self::new() }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(&self.0) }
        }

        impl From<&$name> for super::Arg {
            fn from(id: &$name) -> Self { Self::Text(Some(id.0.clone())) }
        }

        impl From<Option<&$name>> for super::Arg {
            fn from(id: Option<&$name>) -> Self { Self::Text(id.map(|id| id.0.clone())) }
        }
    )*};
}

ids! {
    MemberId, KindId, VarietyId, SourceId, LotId, PacketId, RoutineId, RoutineVersionId, SolutionId,
    TrialId, HolderId, BagId, TrayId, PlantingId, EntryId, ActId, LinkId, MergeId, RingId, PhotoId,
    PlanId, LineId, PromiseId,
    SheetId, CardId, TokenId, BackupId,
    DeedId, PasskeyId,
}

/// A moment: whole seconds since 1970-01-01 00:00 UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, sqlx::Type)]
#[sqlx(transparent)]
#[serde(transparent)]
pub struct At(pub i64);

impl At {
    /// Decimal hours from `earlier` to this moment; negative where it is the other way round.
    pub fn hours_since(self, earlier: Self) -> f64 {
        (self.0 - earlier.0) as f64 / 3600.0
    }

    /// This moment and `minutes` more.
    pub fn plus_minutes(self, minutes: i64) -> Self {
        Self(self.0 + minutes * 60)
    }

    /// This moment and `days` times 24 hours more.
    pub fn plus_days(self, days: i64) -> Self {
        Self(self.0 + days * 86_400)
    }

    /// The same moment on a clock in `zone`.
    pub fn local(self, zone: chrono_tz::Tz) -> chrono::DateTime<chrono_tz::Tz> {
        chrono::DateTime::from_timestamp(self.0, 0).unwrap_or_default().with_timezone(&zone)
    }

    /// `2026-03-02T06:30:00Z`, as RFC 3339 has it.
    pub fn in_utc(self) -> String {
        self.local(chrono_tz::UTC).format("%Y-%m-%dT%H:%M:%SZ").to_string()
    }

    /// The calendar day of this moment in `zone`.
    pub fn day(self, zone: chrono_tz::Tz) -> chrono::NaiveDate {
        self.local(zone).date_naive()
    }
}
