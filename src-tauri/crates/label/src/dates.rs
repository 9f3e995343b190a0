//! Dates as labels write them: two-digit years, months without a day, days of the year.

use chrono::{Datelike, NaiveDate};

use crate::LabelDate;

/// Widens a two-digit year to the four digits that lie nearest to the current year.
///
/// GS1 General Specifications, "Determination of century in dates": with d = YY − current YY, 51 and
/// more is the century before, −50 and less the century after. HIBC leaves it open; the same is used.
pub(crate) fn full_year(two_digits: u32, current_year: i32) -> i32 {
    let current_year = current_year.clamp(1000, 9000);
    let current = current_year % 100;
    let two_digits = i32::try_from(two_digits % 100).unwrap_or(0);
    let century = current_year - current;
    match two_digits - current {
        51.. => century - 100 + two_digits,
        ..=-50 => century + 100 + two_digits,
        _ => century + two_digits,
    }
}

/// Reads digits and nothing else as a number.
pub(crate) fn number(digits: &str) -> Option<u32> {
    if digits.is_empty() || digits.len() > 9 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    digits.parse().ok()
}

/// Reads `YYMMDD`; with `day_may_be_missing`, `DD` = 00 stands for the last day of the month.
pub(crate) fn yymmdd(digits: &str, current_year: i32, day_may_be_missing: bool) -> Option<LabelDate> {
    if digits.len() != 6 {
        return None;
    }
    let all = number(digits)?;
    let (year, month, day) = (full_year(all / 10_000, current_year), all / 100 % 100, all % 100);
    if day == 0 && day_may_be_missing { month_end(year, month) } else { stated(year, month, day) }
}

/// Reads `YYYYMMDD`.
pub(crate) fn yyyymmdd(digits: &str) -> Option<LabelDate> {
    if digits.len() != 8 {
        return None;
    }
    let all = number(digits)?;
    stated(i32::try_from(all / 10_000).ok()?, all / 100 % 100, all % 100)
}

/// Reads `MMYY` as the last day of that month.
pub(crate) fn mmyy(digits: &str, current_year: i32) -> Option<LabelDate> {
    let all = number(digits).filter(|_| digits.len() == 4)?;
    month_end(full_year(all % 100, current_year), all / 100)
}

/// Reads `MMDDYY`.
pub(crate) fn mmddyy(digits: &str, current_year: i32) -> Option<LabelDate> {
    let all = number(digits).filter(|_| digits.len() == 6)?;
    stated(full_year(all % 100, current_year), all / 10_000, all / 100 % 100)
}

/// Reads `YYJJJ`, the day counted from 1 January = 001.
pub(crate) fn yyjjj(digits: &str, current_year: i32) -> Option<LabelDate> {
    let all = number(digits).filter(|_| digits.len() == 5)?;
    let on = NaiveDate::from_yo_opt(full_year(all / 1000, current_year), all % 1000)?;
    Some(LabelDate { on, day_not_stated: false })
}

/// Tells whether `HHMM` is a time of day.
pub(crate) fn is_time(digits: &str) -> bool {
    digits.len() == 4 && number(digits).is_some_and(|all| all / 100 < 24 && all % 100 < 60)
}

/// Tells whether two dates can mean the same day: a month agrees with each of its days.
pub(crate) fn agree(first: LabelDate, second: LabelDate) -> bool {
    first.on == second.on
        || (first.day_not_stated || second.day_not_stated)
            && (first.on.year(), first.on.month()) == (second.on.year(), second.on.month())
}

/// Takes the first date, or the second where only that one states its day.
pub(crate) fn closer(first: Option<LabelDate>, second: Option<LabelDate>) -> Option<LabelDate> {
    match (first, second) {
        (Some(first), Some(second)) if first.day_not_stated && !second.day_not_stated => Some(second),
        (first, second) => first.or(second),
    }
}

fn stated(year: i32, month: u32, day: u32) -> Option<LabelDate> {
    NaiveDate::from_ymd_opt(year, month, day).map(|on| LabelDate { on, day_not_stated: false })
}

fn month_end(year: i32, month: u32) -> Option<LabelDate> {
    let first = NaiveDate::from_ymd_opt(year, month, 1)?;
    let on = first.with_day(u32::from(first.num_days_in_month()))?;
    Some(LabelDate { on, day_not_stated: true })
}
