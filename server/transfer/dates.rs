//! Days as spreadsheets and people write them.

use chrono::{Days, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

/// Whether `3/4/2026` is the third of April or the fourth of March.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    DayFirst,
    MonthFirst,
}

/// Serial numbers of spreadsheets count days from here (the usual 1900 system from March 1900 on).
const ZERO: NaiveDate = match NaiveDate::from_ymd_opt(1899, 12, 30) {
    Some(day) => day,
    None => NaiveDate::MIN,
};
/// Serial numbers that may be a day: 1954 to 2119.
const SERIAL: std::ops::Range<f64> = 20_000.0..80_000.0;
const WORDS: [&str; 6] = ["%d %B %Y", "%d %b %Y", "%B %d, %Y", "%b %d, %Y", "%B %d %Y", "%d. %B %Y"];

/// The day of a cell, and the time of day where it says one.
pub fn day(cell: &str, order: Order) -> Option<(NaiveDate, Option<NaiveTime>)> {
    let cell = cell.trim();
    if let Ok(serial) = cell.parse::<f64>() {
        return SERIAL.contains(&serial).then(|| of_serial(serial)).flatten();
    }
    let (date, time) = match cell.split_once('T').filter(|(day, _)| numbers(day).is_some()) {
        Some(both) => both,
        None => cell.rsplit_once(' ').filter(|(_, time)| time.contains(':')).unwrap_or((cell, "")),
    };
    let time = match time.trim() {
        "" => None,
        typed => Some(["%H:%M:%S", "%H:%M"].iter().find_map(|f| NaiveTime::parse_from_str(typed, f).ok())?),
    };
    Some((calendar(date.trim(), order)?, time))
}

fn of_serial(serial: f64) -> Option<(NaiveDate, Option<NaiveTime>)> {
    let day = ZERO.checked_add_days(Days::new(serial.trunc() as u64))?;
    let seconds = (serial.fract() * 86_400.0).round() as i64;
    let time = (NaiveDateTime::new(day, NaiveTime::MIN) + TimeDelta::seconds(seconds)).time();
    Some((day, (seconds > 0).then_some(time)))
}

fn calendar(date: &str, order: Order) -> Option<NaiveDate> {
    let Some([a, b, c]) = numbers(date) else {
        return WORDS.iter().find_map(|f| NaiveDate::parse_from_str(date, f).ok());
    };
    if a >= 1000 {
        return NaiveDate::from_ymd_opt(i32::try_from(a).ok()?, b, c);
    }
    let year = i32::try_from(if c < 100 { 2000 + c } else { c }).ok()?;
    let dotted = date.contains('.');
    let (day, month) = if dotted || order == Order::DayFirst { (a, b) } else { (b, a) };
    NaiveDate::from_ymd_opt(year, month, day)
}

fn numbers(date: &str) -> Option<[u32; 3]> {
    let parts: Vec<u32> =
        date.split(['-', '/', '.']).map(|p| p.trim().parse()).collect::<Result<_, _>>().ok()?;
    parts.try_into().ok()
}

/// What the cells themselves say of the order; `None` where each would do.
pub fn told<'c>(cells: impl Iterator<Item = &'c str>) -> Option<Order> {
    for cell in cells {
        let date = cell.trim().split(' ').next().unwrap_or_default();
        if date.contains('.') {
            continue;
        }
        match numbers(date) {
            Some([a, b, _]) if a < 1000 && a > 12 && b <= 12 => return Some(Order::DayFirst),
            Some([a, b, _]) if a <= 12 && b > 12 => return Some(Order::MonthFirst),
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(cell: &str, order: Order) -> Option<String> {
        let (day, time) = day(cell, order)?;
        Some(time.map_or_else(|| day.to_string(), |t| format!("{day} {t}")))
    }

    #[test]
    fn days_are_read_as_people_write_them() {
        for (cell, wanted) in [
            ("2026-04-03", "2026-04-03"),
            ("2026-04-03T07:30", "2026-04-03 07:30:00"),
            ("2026-04-03 07:30:05", "2026-04-03 07:30:05"),
            ("3.4.2026", "2026-04-03"),
            ("3/4/26", "2026-04-03"),
            ("03-04-2026 18:05", "2026-04-03 18:05:00"),
            ("3 April 2026", "2026-04-03"),
            ("Apr 3, 2026", "2026-04-03"),
        ] {
            assert_eq!(read(cell, Order::DayFirst).as_deref(), Some(wanted), "{cell}");
        }
        assert_eq!(read("3/4/2026", Order::MonthFirst).as_deref(), Some("2026-03-04"));
        assert_eq!(read("3.4.2026", Order::MonthFirst).as_deref(), Some("2026-04-03"));
        for bad in ["", "soon", "31/2/2026", "12", "2026-13-01", "3/4/2026 25:00", "-46115"] {
            assert_eq!(read(bad, Order::DayFirst), None, "{bad}");
        }
    }

    /// 45000 is 15 March 2023 and 1 January 1970 is 25569: from memory of the serial numbers of spreadsheets.
    #[test]
    fn serial_numbers_are_days() {
        assert_eq!(read("45000", Order::DayFirst).as_deref(), Some("2023-03-15"));
        assert_eq!(read("25569.5", Order::DayFirst).as_deref(), Some("1970-01-01 12:00:00"));
    }

    #[test]
    fn one_cell_may_tell_the_order_of_all() {
        assert_eq!(told(["3/4/2026", "13/4/2026"].into_iter()), Some(Order::DayFirst));
        assert_eq!(told(["3/4/2026", "4/13/2026"].into_iter()), Some(Order::MonthFirst));
        assert_eq!(told(["3/4/2026", "2026-04-13", "13.4.2026"].into_iter()), None);
    }
}
