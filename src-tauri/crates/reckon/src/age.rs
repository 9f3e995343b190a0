//! Age in completed calendar years. Not elapsed days over 365.25: on a birthday the two can differ by a year.

use chrono::Datelike;

use crate::given::Given;
use crate::moment::Day;
use crate::{Answer, Input, Limits, Reckoning, Refusal, Source};

/// Older than this is a slip of the keyboard; nobody on record reached it.
const OLDEST_YEARS: u32 = 130;

/// Age on a day.
pub const RECKONING: Reckoning = Reckoning {
    name: "age",
    title: "Age",
    formula: "age = year of the day − year of birth, less 1 before the birthday of that year; \
              a birthday on 29 February falls on 1 March in years without one",
    inputs: &[
        Input::required("birth_date", "", "date of birth, YYYY-MM-DD"),
        Input::required("on_date", "", "day on which the age is asked for, YYYY-MM-DD"),
    ],
    sources: &[Source::common_practice("Completed calendar years; 29 February turns on 1 March in common years")],
    answer,
};

/// Counts the completed calendar years from birth to a day; nothing for a day before birth.
///
/// Somebody born on 29 February completes a year on 1 March where the year has no 29 February.
pub fn age_years(birth: Day, on: Day) -> Option<u32> {
    let (birth, on) = (birth.0, on.0);
    if on < birth {
        return None;
    }
    let before_birthday = (on.month(), on.day()) < (birth.month(), birth.day());
    u32::try_from(on.year() - birth.year() - i32::from(before_birthday)).ok()
}

fn answer(given: &mut Given<'_>, _: &Limits) -> Result<Answer, Refusal> {
    let (birth, on) = (given.take::<Day>("birth_date"), given.take::<Day>("on_date"));
    let (Some(birth), Some(on)) = (birth, on) else {
        return Ok(given.needs());
    };
    let Some(years) = age_years(birth, on) else {
        return Err(Refusal::of("on_date", format!("this day lies before the birth on {}.", birth.0)));
    };
    if years > OLDEST_YEARS {
        return Err(Refusal::of("birth_date", format!("this would make an age of {years} years; check the year.")));
    }
    let mut answer = Answer::of(&RECKONING);
    answer.push("age_years", years.into(), "years");
    answer.note("Completed years; months and days are left off.");
    if (birth.0.month(), birth.0.day()) == (2, 29) {
        answer.note("Born on 29 February: in years without that day a year is completed on 1 March.");
    }
    Ok(answer)
}
