/// Days since 1970-01-01 of a date written `YYYY-MM-DD`, years 1900 to 2199; `None` for anything else.
#[must_use]
pub fn day_number(text: &str) -> Option<i32> {
    let digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit()).then(|| part.parse::<i32>().ok())?;
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts[..] else { return None };
    if (year.len(), month.len(), day.len()) != (4, 2, 2) {
        return None;
    }
    let (year, month, day) = (digits(year)?, digits(month)?, digits(day)?);
    let good = (1900..2200).contains(&year) && (1..=12).contains(&month) && day >= 1;
    (good && day <= days_in(year, month)).then(|| civil(year, month, day))
}

fn days_in(year: i32, month: i32) -> i32 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 => 28 + i32::from(leap),
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// The usual count of days with the year begun in March.
fn civil(year: i32, month: i32, day: i32) -> i32 {
    let (y, m) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 719_469
}

#[cfg(test)]
mod tests {
    use super::day_number;

    #[test]
    fn days_since_the_epoch() {
        // date -u -d DATE +%s / 86400, GNU coreutils
        for (text, days) in
            [("1970-01-01", 0), ("2000-02-29", 11_016), ("2024-12-31", 20_088), ("1969-12-31", -1)]
        {
            assert_eq!(day_number(text), Some(days), "{text}");
        }
        for text in ["2023-02-29", "2024-13-01", "2024-1-01", "24-01-01", "2024/01/01", "", "2024-01-0x"] {
            assert_eq!(day_number(text), None, "{text}");
        }
    }
}
