//! A day of the calendar, as it stands in files and on prints. The clock is read elsewhere.

/// A day that the Gregorian calendar has, of the years 0 to 9999.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day {
    year: u16,
    month: u8,
    of_month: u8,
}

impl Day {
    /// `None` for what the calendar has not.
    #[must_use]
    pub const fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => 0,
        };
        if year > 9999 || day == 0 || day > days {
            return None;
        }
        Some(Self { year, month, of_month: day })
    }

    /// From `2026-10-02`; `None` for another form and for what the calendar has not.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts.as_slice() else { return None };
        let number = |part: &str, digits: usize| -> Option<u16> {
            if part.len() == digits && part.bytes().all(|b| b.is_ascii_digit()) { part.parse().ok() } else { None }
        };
        Self::new(number(year, 4)?, u8::try_from(number(month, 2)?).ok()?, u8::try_from(number(day, 2)?).ok()?)
    }

    /// The day on which so many seconds have passed since the beginning of 1970 in universal time.
    ///
    /// Method: days into years of 400, 100, 4 and 1 years counted from the first of March, so that the leap day is the
    /// last of its year (E. G. Richards, *Calendars*, in *Explanatory Supplement to the Astronomical Almanac*, 3rd ed.
    /// 2013, ch. 15).
    #[must_use]
    pub fn of_unix_seconds(seconds: u64) -> Option<Self> {
        const DAYS_OF_400_YEARS: u64 = 146_097;
        // From 0000-03-01 to 1970-01-01.
        const UP_TO_1970: u64 = 719_468;
        let days = (seconds / 86_400).checked_add(UP_TO_1970)?;
        let (cycle, left) = (days / DAYS_OF_400_YEARS, days % DAYS_OF_400_YEARS);
        let year_of_cycle = (left - left / 1460 + left / 36_524 - left / 146_096) / 365;
        let day_of_year = left - (365 * year_of_cycle + year_of_cycle / 4 - year_of_cycle / 100);
        // Months from March have 31, 30, 31, 30, 31 days over and over: 153 in five.
        let month_from_march = (5 * day_of_year + 2) / 153;
        let day = day_of_year - (153 * month_from_march + 2) / 5 + 1;
        let month = if month_from_march < 10 { month_from_march + 3 } else { month_from_march - 9 };
        let year = year_of_cycle + 400 * cycle + u64::from(month <= 2);
        Self::new(u16::try_from(year).ok()?, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
    }

    /// The year.
    #[must_use]
    pub const fn year(self) -> u16 {
        self.year
    }

    /// The month, 1 to 12.
    #[must_use]
    pub const fn month(self) -> u8 {
        self.month
    }

    /// The day of the month, from 1.
    #[must_use]
    pub const fn day(self) -> u8 {
        self.of_month
    }
}

impl std::fmt::Display for Day {
    /// As in files: `2026-10-02` (ISO 8601).
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.of_month)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seconds as POSIX.1-2017 counts them (§4.16): 86,400 a day since 1970-01-01. Well-known instants: one thousand
    /// million seconds (2001-09-09), the end of 31 bits (2038-01-19); leap days by counting.
    #[test]
    fn seconds_become_days() {
        let is = |seconds: u64, text: &str| assert_eq!(Day::of_unix_seconds(seconds).unwrap().to_string(), text);
        is(0, "1970-01-01");
        is(86_399, "1970-01-01");
        is(86_400, "1970-01-02");
        is(1_000_000_000, "2001-09-09");
        is(2_147_483_647, "2038-01-19");
        is(951_782_400, "2000-02-29");
        is(951_868_800, "2000-03-01");
        is(946_684_799, "1999-12-31");
        is(4_107_542_400, "2100-03-01");
        assert_eq!(Day::of_unix_seconds(u64::MAX), None);
    }

    #[test]
    fn every_day_follows_the_one_before() {
        let mut before = Day::of_unix_seconds(0).unwrap();
        for day in 1..60_000 {
            let next = Day::of_unix_seconds(day * 86_400).unwrap();
            let (y, m, d) = (before.year, before.month, before.of_month);
            let expected = Day::new(y, m, d + 1).or_else(|| Day::new(y, m + 1, 1)).or_else(|| Day::new(y + 1, 1, 1));
            assert_eq!(Some(next), expected);
            before = next;
        }
    }

    #[test]
    fn text_is_read_in_one_form() {
        assert_eq!(Day::read("2026-10-02").unwrap().to_string(), "2026-10-02");
        for wrong in
            ["2026-2-3", "2026-13-01", "2026-02-29", "2026-00-10", "26-10-02", "2026-10-02 ", "+026-10-02", "2026/10/02", ""]
        {
            assert_eq!(Day::read(wrong), None, "{wrong}");
        }
    }
}
