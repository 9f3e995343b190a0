//! Reading an exchange file into the notebook: all of it in one transaction, or nothing.

use std::path::Path;

use evengap_case::{CaseId, LocalTime};

use super::adopt::By;
use super::file::ExchangeFile;
use super::people::People;
use super::types::{CaseOutcome, ExchangeReport, Outcome};
use super::{incoming, papers, take};
use crate::gate::Changed;
use crate::{Notebook, NotebookError, Passphrase};

impl Notebook {
    /// Takes an exchange file into the notebook. Of each case the newer version stands afterwards; where neither follows
    /// from the other, ours stands and the other one lies aside until the conflict is settled. Reading a file again
    /// changes nothing.
    ///
    /// # Errors
    /// When the file is missing, damaged, of another sort or of a newer program, the passphrase is not its own, or
    /// anything in it is not what a notebook writes; then nothing is changed.
    pub fn read_exchange(
        &mut self,
        from: &Path,
        passphrase: &Passphrase,
        now: LocalTime,
    ) -> Result<ExchangeReport, NotebookError> {
        let file = ExchangeFile::open(from, passphrase)?;
        let mut report = ExchangeReport {
            written_by: file.about("written_by")?,
            written_at: file.about("written_at")?,
            ..ExchangeReport::default()
        };
        let ids = file.rows("SELECT DISTINCT case_id FROM step ORDER BY case_id", [], |row| row.get::<_, String>(0))?;
        let sql = "SELECT case_id FROM tip UNION SELECT case_id FROM paper EXCEPT SELECT case_id FROM step";
        if !file.rows(sql, [], |_| Ok(()))?.is_empty() {
            return Err(super::error::refused(from, "it has a case without any version"));
        }
        let mut people = People::of(&file, now)?;
        let at = now.to_string();
        let by = By { person: self.person.id, at: &at };
        let (report, outcomes) = self.write(|transaction| {
            let (mut changed, mut outcomes) = (Vec::new(), Vec::new());
            for id in ids {
                let incoming = incoming::read(&file, id)?;
                let (outcome, is_changed) = take::take(transaction, &file, &mut people, &incoming, by)?;
                report.papers += papers::take(transaction, &file, &mut people, &incoming)?;
                papers::keep(transaction, &incoming.case_id)?;
                if is_changed {
                    changed.push(incoming.case_id.clone());
                }
                outcomes.push((incoming.case_id, outcome));
            }
            Ok(Changed { result: (report, outcomes), cases: changed })
        })?;
        self.told(report, outcomes)
    }

    fn told(
        &self,
        mut report: ExchangeReport,
        outcomes: Vec<(String, Outcome)>,
    ) -> Result<ExchangeReport, NotebookError> {
        for (id, what) in outcomes {
            *match what {
                Outcome::New => &mut report.new,
                Outcome::Same => &mut report.same,
                Outcome::Newer => &mut report.newer,
                Outcome::Older => &mut report.older,
                Outcome::Conflict => &mut report.conflicts,
            } += 1;
            let name = self.read(|connection| {
                let sql = "SELECT name FROM case_line WHERE id = ?1";
                Ok(connection.prepare_cached(sql)?.query_row([&id], |row| row.get(0))?)
            })?;
            let id: CaseId = id.parse().map_err(|_| NotebookError::UnknownCase(CaseId::default()))?;
            report.cases.push(CaseOutcome { id, name, what });
        }
        Ok(report)
    }
}
