//! Papers of many cases: into one folder, or into one PDF.
//!
//! A batch goes one case at a time, so that whoever holds the desk can let others at it in between. One case
//! that cannot be printed never stops the others, and no file is replaced unless that was asked for.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use evengap_case::LocalTime;
use evengap_papers::document::Document;
use evengap_papers::{Kind as PaperKind, Language, pdf};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;
use unicode_normalization::UnicodeNormalization;

use super::{AddendumAsked, PageSize, PaperAsked, PaperFormat, Printed, fits, names};
use crate::{Desk, DeskError, ErrorCode, Right, files};

/// Said of one PDF for all in which a signed entry has a part.
const SET_ANEW: &str = "One PDF for all is set anew, with the templates and settings of now. The papers kept with signed \
                        entries are not in it byte for byte; choose a folder for those.";

/// Said when the open notebook is not the one with which a batch began.
const OTHER_NOTEBOOK: &str = "The notebook was closed or another one opened before the batch came to its end, so it \
                              stopped there. Open the notebook again and print the rest.";

/// Where the papers of a batch go.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "lowercase")]
pub enum BatchTo {
    /// One PDF for each paper, in this folder; it is made where needed.
    Folder(String),
    /// One PDF for all.
    File(String),
}

/// Papers of many cases that are asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct BatchAsked {
    /// Identifiers of cases in the open notebook, in the order of the papers.
    pub ids: Vec<String>,
    /// Which papers of each case. The addendum stands for every addendum that a case has.
    pub kinds: Vec<PaperKind>,
    /// Their language.
    pub language: Language,
    /// The sheet.
    pub page: PageSize,
    /// Where they go.
    pub to: BatchTo,
    /// Whether files that exist may be replaced.
    pub replace: bool,
}

/// How far a batch has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
pub struct BatchProgress {
    /// Cases that are done.
    pub done: u32,
    /// All cases.
    pub total: u32,
}

/// A paper that a batch wrote.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BatchWritten {
    /// The case.
    pub id: String,
    /// Which paper.
    pub kind: PaperKind,
    /// The file.
    pub path: String,
    /// Why the paper cannot be finished; empty when it can.
    pub unfinished: Vec<String>,
}

/// A case or paper that a batch could not write.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BatchFailed {
    /// The case.
    pub id: String,
    /// Why, and what to do.
    pub message: String,
}

/// What came of a batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct BatchReport {
    /// The papers that are now in files.
    pub written: Vec<BatchWritten>,
    /// Those that are not.
    pub failed: Vec<BatchFailed>,
    /// What the papers do not show as it was typed, and what was done otherwise than asked.
    pub warnings: Vec<String>,
    /// Whether it was stopped before its end. One PDF for all is then not written; papers in a folder stay.
    pub cancelled: bool,
}

/// The open notebook, and who opened it.
type Opened = (PathBuf, String);

fn open_notebook(desk: &Desk) -> Option<Opened> {
    desk.notebook.as_ref().map(|notebook| (notebook.path().to_owned(), notebook.person().mark.to_string()))
}

/// A file name as a system compares it that tells neither capitals nor composed accents apart.
fn folded(name: &str) -> String {
    let composed: String = name.nfc().collect();
    composed.to_uppercase().to_lowercase().nfc().collect()
}

/// What the papers of a batch are of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BatchOf {
    /// Cases in the open notebook.
    Cases(Vec<String>),
    /// Case files.
    Files(Vec<PathBuf>),
}

/// A batch under way.
pub struct Batch {
    of: BatchOf,
    kinds: Vec<PaperKind>,
    /// The paper without its case.
    like: PaperAsked,
    to: BatchTo,
    replace: bool,
    now: LocalTime,
    done: usize,
    /// The open notebook when it began.
    notebook: Option<Opened>,
    /// Names that this batch has given, folded: on some systems neither capitals nor the way in which an accent is
    /// written make a difference.
    taken: HashSet<String>,
    documents: Vec<Document>,
    /// Whether one of the documents is of a signed entry.
    some_signed: bool,
    /// Papers that were kept before this batch.
    printed_again: usize,
    /// Whether another notebook was opened half-way.
    stopped: bool,
    report: BatchReport,
}

impl Desk {
    /// Writes papers of many cases of the open notebook. `progress` is told after each case and says whether to go on.
    ///
    /// # Errors
    /// When a paper does not exist so (`refused`), the one PDF exists and may not be replaced (`exists`), or a folder or
    /// file cannot be written. What is wrong with a single case is in the report.
    pub fn papers_batch(
        &mut self,
        asked: BatchAsked,
        now: LocalTime,
        mut progress: impl FnMut(BatchProgress) -> bool,
    ) -> Result<BatchReport, DeskError> {
        let mut batch = Batch::begin(self, asked, now)?;
        let mut go_on = progress(batch.progress());
        while go_on && batch.step(self) {
            go_on = progress(batch.progress());
        }
        batch.finish(self)
    }
}

impl Batch {
    /// Begins a batch of cases of the open notebook.
    ///
    /// # Errors
    /// As for [`Desk::papers_batch`].
    pub fn begin(desk: &Desk, asked: BatchAsked, now: LocalTime) -> Result<Self, DeskError> {
        let BatchAsked { ids, kinds, language, page, to, replace } = asked;
        let like = PaperAsked { language, page, ..PaperAsked::new(Value::Null, PaperKind::OperativeNote) };
        Self::of(desk, BatchOf::Cases(ids), kinds, like, (to, replace), now)
    }

    /// Begins a batch of anything; `like` says everything about its papers but case and kind.
    ///
    /// # Errors
    /// As for [`Desk::papers_batch`].
    pub fn of(
        desk: &Desk,
        of: BatchOf,
        kinds: Vec<PaperKind>,
        like: PaperAsked,
        (to, replace): (BatchTo, bool),
        now: LocalTime,
    ) -> Result<Self, DeskError> {
        if kinds.is_empty() {
            return Err(DeskError::new(ErrorCode::Refused, "Choose at least one paper."));
        }
        for kind in &kinds {
            match &of {
                BatchOf::Cases(_) => desk.open_as(Right::to_print(*kind)).map(drop)?,
                BatchOf::Files(_) => desk.may(Right::AllPapers)?,
            }
            fits(*kind, like.language, like.page)?;
        }
        match &to {
            BatchTo::Folder(folder) => files::make_folder(Path::new(folder))?,
            BatchTo::File(file) => {
                let file = Path::new(file);
                if PaperFormat::of_file(file)? != PaperFormat::Pdf {
                    return Err(DeskError::failed(format!(
                        "{}: several papers in one file are a PDF; choose a name that ends in .pdf, or a folder.",
                        file.display()
                    )));
                }
                desk.may_become(file, PaperFormat::Pdf)?;
                // Said before the work, and asked again when the file is written.
                if !replace && file.exists() {
                    return Err(files::exists(file));
                }
            }
        }
        let report = BatchReport { written: Vec::new(), failed: Vec::new(), warnings: Vec::new(), cancelled: false };
        Ok(Self {
            of,
            kinds,
            like,
            to,
            replace,
            now,
            done: 0,
            notebook: open_notebook(desk),
            taken: HashSet::new(),
            documents: Vec::new(),
            some_signed: false,
            printed_again: 0,
            stopped: false,
            report,
        })
    }

    /// Tells how far it has come.
    pub fn progress(&self) -> BatchProgress {
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        BatchProgress { done: count(self.done), total: count(self.total()) }
    }

    fn total(&self) -> usize {
        match &self.of {
            BatchOf::Cases(ids) => ids.len(),
            BatchOf::Files(files) => files.len(),
        }
    }

    /// Does the next case. Gives false when there was none, or the notebook is no longer the one with which it began.
    pub fn step(&mut self, desk: &mut Desk) -> bool {
        if self.done < self.total() && open_notebook(desk) != self.notebook {
            if !self.stopped {
                self.stopped = true;
                self.report.warnings.push(OTHER_NOTEBOOK.to_owned());
            }
            return false;
        }
        let read = match &self.of {
            BatchOf::Cases(ids) => ids.get(self.done).map(|id| (id.clone(), desk.stored(id).map(|stored| stored.case))),
            BatchOf::Files(files) => files.get(self.done).map(|file| {
                let read = desk.case_from_file(file);
                if let Some(words) = read.as_ref().ok().and_then(crate::FileRead::not_known) {
                    self.report.warnings.push(words);
                }
                (file.display().to_string(), read.map(|read| read.case))
            }),
        };
        let Some((id, case)) = read else { return false };
        self.done += 1;
        if let Err(error) = case.and_then(|case| self.papers_of(desk, &id, &case)) {
            self.failed(&id, &error);
        }
        true
    }

    /// Ends the batch: writes the one PDF, if there is to be one, and gives the report.
    ///
    /// # Errors
    /// When the one PDF cannot be written.
    pub fn finish(mut self, desk: &Desk) -> Result<BatchReport, DeskError> {
        self.report.cancelled = self.done < self.total();
        match self.printed_again {
            0 => {}
            1 => self.report.warnings.push("1 paper was kept before and is printed again unchanged.".to_owned()),
            n => self.report.warnings.push(format!("{n} papers were kept before and are printed again unchanged.")),
        }
        if let BatchTo::File(file) = &self.to {
            if self.report.cancelled {
                self.report.written.clear();
            } else if !self.documents.is_empty() {
                let documents: Vec<&Document> = self.documents.iter().collect();
                let made = pdf::write_all(&documents, desk.fonts()?).map_err(evengap_papers::PapersError::from)?;
                self.report.warnings.extend(made.warnings.iter().map(|warning| format!("{warning}.")));
                if self.some_signed {
                    self.report.warnings.push(SET_ANEW.to_owned());
                }
                files::put(Path::new(file), &made.bytes, self.replace)?;
            }
        }
        Ok(self.report)
    }

    fn papers_of(&mut self, desk: &mut Desk, id: &str, case: &evengap_case::Case) -> Result<(), DeskError> {
        let addenda = match (&self.of, self.kinds.contains(&PaperKind::Addendum)) {
            (BatchOf::Cases(_), true) => desk.stored(id)?.number.saturating_sub(1),
            _ => 0,
        };
        let mut some = false;
        for kind in self.kinds.clone() {
            let numbers: Vec<Option<u32>> = match kind {
                PaperKind::Addendum => (1..=addenda).map(Some).collect(),
                _ => vec![None],
            };
            for number in numbers {
                some = true;
                let addendum = number.map(AddendumAsked::Stored);
                let asked = PaperAsked { case: case.to_value(), kind, addendum, ..self.like.clone() };
                if let Err(error) = self.paper(desk, id, case, asked, number) {
                    self.failed(id, &error);
                }
            }
        }
        if some { Ok(()) } else { Err(DeskError::failed("There is no addendum to this entry, so nothing to print.")) }
    }

    /// Makes one paper: a file of its own, or a part of the one PDF.
    fn paper(
        &mut self,
        desk: &mut Desk,
        id: &str,
        case: &evengap_case::Case,
        asked: PaperAsked,
        number: Option<u32>,
    ) -> Result<(), DeskError> {
        let kind = asked.kind;
        let (path, unfinished) = match self.to.clone() {
            BatchTo::Folder(folder) => {
                let stem = names::stem_with_number(case, kind, asked.language, asked.page, number);
                let path = self.free(Path::new(&folder), &stem);
                desk.may_become(&path, PaperFormat::Pdf)?;
                let Printed { bytes, unfinished, warnings, kept, .. } =
                    desk.print(asked, PaperFormat::Pdf, self.now)?;
                files::put(&path, &bytes, self.replace)?;
                self.printed_again += usize::from(kept.is_some());
                self.report.warnings.extend(warnings.into_iter().map(|words| format!("{}: {words}", path.display())));
                (path.to_string_lossy().into_owned(), unfinished)
            }
            BatchTo::File(file) => {
                let (paper, warnings) = desk.paper_for_batch(asked, self.now)?;
                self.report.warnings.extend(warnings.into_iter().map(|words| format!("{id}: {words}")));
                // Only what is not signed carries the mark of a draft.
                self.some_signed |= paper.document.mark.is_none();
                self.documents.push(paper.document);
                (file, paper.unfinished)
            }
        };
        self.report.written.push(BatchWritten { id: id.to_owned(), kind, path, unfinished });
        Ok(())
    }

    /// A name that no other paper of this batch has.
    fn free(&mut self, folder: &Path, stem: &str) -> PathBuf {
        let mut name = format!("{stem}.pdf");
        let mut n = 2_usize;
        while !self.taken.insert(folded(&name)) {
            name = format!("{stem}-{n}.pdf");
            n += 1;
        }
        folder.join(name)
    }

    fn failed(&mut self, id: &str, error: &DeskError) {
        self.report.failed.push(BatchFailed { id: id.to_owned(), message: error.message.clone() });
    }
}
