use super::ids::At;
use chrono::NaiveDate;
use sqlx::Arguments;
use sqlx::error::BoxDynError;
use sqlx::postgres::PgArguments;
use sqlx::sqlite::SqliteArguments;

/// One parameter. Each is optional, so that a NULL keeps its type.
#[derive(Debug, Clone, PartialEq)]
pub enum Arg {
    Int(Option<i64>),
    Real(Option<f64>),
    Text(Option<String>),
    Bool(Option<bool>),
    Date(Option<NaiveDate>),
    Bytes(Option<Vec<u8>>),
}

macro_rules! bind {
    ($arguments:ty, $args:expr) => {{
        let mut out = <$arguments>::default();
        for arg in $args {
            match arg {
                Arg::Int(v) => out.add(v)?,
                Arg::Real(v) => out.add(v)?,
                Arg::Text(v) => out.add(v.map(kept))?,
                Arg::Bool(v) => out.add(v)?,
                Arg::Date(v) => out.add(v)?,
                Arg::Bytes(v) => out.add(v)?,
            }
        }
        Ok(out)
    }};
}

/// PostgreSQL takes no text with a zero in it, and SQLite counts its characters up to there: nothing has such a name.
fn kept(text: String) -> String {
    if text.contains('\0') { text.replace('\0', "\u{fffd}") } else { text }
}

pub(super) fn sqlite(args: Vec<Arg>) -> Result<SqliteArguments, BoxDynError> {
    bind!(SqliteArguments, args)
}

pub(super) fn postgres(args: Vec<Arg>) -> Result<PgArguments, BoxDynError> {
    bind!(PgArguments, args)
}

macro_rules! from {
    ($($ty:ty => $variant:ident($value:ident) $into:expr;)*) => {$(
        impl From<$ty> for Arg {
            fn from($value: $ty) -> Self { Self::$variant(Some($into)) }
        }
        impl From<Option<$ty>> for Arg {
            fn from(value: Option<$ty>) -> Self { Self::$variant(value.map(|$value| $into)) }
        }
    )*};
}

from! {
    i64 => Int(v) v;
    i32 => Int(v) i64::from(v);
    u32 => Int(v) i64::from(v);
    f64 => Real(v) v;
    bool => Bool(v) v;
    NaiveDate => Date(v) v;
    String => Text(v) v;
    &str => Text(v) v.to_owned();
    &String => Text(v) v.clone();
    At => Int(v) v.0;
    Vec<u8> => Bytes(v) v;
}
