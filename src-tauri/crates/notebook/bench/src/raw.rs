//! The peer: a plain FTS5 table as somebody would make it who only searches. Same words, columns, tokenizer and prefix
//! index; what a list shows lies in it, and it is asked for the newest that match. No encryption, no second table.

use std::path::Path;

use evengap_case::Case;
use rusqlite::{Connection, params};

use crate::text;

pub struct Raw(Connection);

impl Raw {
    pub fn new(path: &Path) -> rusqlite::Result<Self> {
        let connection = Connection::open(path)?;
        connection.execute_batch(
            "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -65536;
             CREATE VIRTUAL TABLE raw USING fts5(
                 id UNINDEXED, name UNINDEXED, hospital_number UNINDEXED, birth_date UNINDEXED, operation_date UNINDEXED,
                 side UNINDEXED, procedure UNINDEXED, state UNINDEXED, saved_at UNINDEXED,
                 names, numbers, dates, components, texts,
                 prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2');",
        )?;
        Ok(Self(connection))
    }

    pub fn open(path: &Path) -> rusqlite::Result<Self> {
        let connection = Connection::open(path)?;
        connection.execute_batch("PRAGMA cache_size = -65536;")?;
        Ok(Self(connection))
    }

    /// Adds cases; `first` is the number of the first one. A row's number is its day and then its own.
    pub fn add(&mut self, cases: &[Case], first: i64) -> rusqlite::Result<()> {
        let transaction = self.0.transaction()?;
        {
            let mut insert =
                transaction.prepare("INSERT INTO raw (rowid, id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at, names, numbers, dates, components, texts) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,'draft',?9,?10,?11,?12,?13,?14)")?;
            for (n, case) in (first..).zip(cases) {
                let words = text::of(case);
                let day = case.setting.operation_date.map(|day| day.to_string()).unwrap_or_default();
                let place = day.replace('-', "").parse::<i64>().unwrap_or(0) * (1 << 24) + n;
                let name =
                    [&case.patient.family_name, &case.patient.given_name].map(|name| name.clone().unwrap_or_default());
                insert.execute(params![
                    place,
                    case.id.to_string(),
                    name.join(", "),
                    case.patient.hospital_number,
                    case.patient.birth_date.map(|day| day.to_string()),
                    day,
                    case.knee.side.map(|side| side.words()),
                    case.choice.procedure.map(|procedure| procedure.words()),
                    "2026-11-20T14:05",
                    words.names,
                    words.numbers,
                    words.dates,
                    words.components,
                    words.texts
                ])?;
            }
        }
        transaction.commit()
    }

    /// Every word is a beginning; the newest that hold all of them, and how many lines that were.
    pub fn find(&self, typed: &str, most: u32) -> rusqlite::Result<usize> {
        let expression = typed.split_whitespace().map(|word| format!("\"{word}\"*")).collect::<Vec<_>>().join(" ");
        let mut statement = self.0.prepare_cached(
            "SELECT id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at
             FROM raw WHERE raw MATCH ?1 ORDER BY rowid DESC LIMIT ?2",
        )?;
        let lines: Vec<[Option<String>; 9]> = statement
            .query_map(params![expression, most + 1], |row| {
                let mut line: [Option<String>; 9] = Default::default();
                line.iter_mut().enumerate().try_for_each(|(n, cell)| row.get(n).map(|text| *cell = text))?;
                Ok(line)
            })?
            .collect::<Result<_, _>>()?;
        Ok(lines.len())
    }
}
