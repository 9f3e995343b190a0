-- What signing needs, the surgeon's own templates, and papers that are kept as they were first made.

-- What an addendum says and why it was added; its body is the whole entry as it is since then.
ALTER TABLE entry ADD COLUMN addendum_text TEXT CHECK ((kind = 'addendum') = (addendum_text IS NOT NULL));

CREATE UNIQUE INDEX entry_one_signed ON entry (case_id) WHERE kind = 'signed';

-- INSERT OR REPLACE removes the row in its way, and says so to no trigger unless recursive triggers are on. So the
-- file refuses a row that would take the place of one that stays, whoever connects to it.
CREATE TRIGGER entry_signed_is_not_replaced BEFORE INSERT ON entry
WHEN EXISTS (
    SELECT 1 FROM entry AS there
    WHERE there.kind <> 'draft'
        AND (there.sequence = NEW.sequence OR (there.case_id = NEW.case_id AND there.number = NEW.number))
)
BEGIN
    SELECT RAISE(ABORT, 'a signed entry is never replaced');
END;

-- Every version of every own template. kind and language are those of the paper.
CREATE TABLE template (
    sequence INTEGER PRIMARY KEY,
    kind     TEXT NOT NULL,
    language TEXT NOT NULL,
    version  INTEGER NOT NULL CHECK (version > 0),
    name     TEXT NOT NULL,
    source   TEXT NOT NULL,
    author   INTEGER NOT NULL REFERENCES person (id),
    saved_at TEXT NOT NULL,
    UNIQUE (kind, language, version)
) STRICT;

-- Which version was put in force, by whom and when; the newest row counts. Without a version it is the
-- built-in template.
CREATE TABLE template_choice (
    sequence  INTEGER PRIMARY KEY,
    kind      TEXT NOT NULL,
    language  TEXT NOT NULL,
    version   INTEGER,
    author    INTEGER NOT NULL REFERENCES person (id),
    chosen_at TEXT NOT NULL,
    FOREIGN KEY (kind, language, version) REFERENCES template (kind, language, version)
) STRICT;

CREATE INDEX template_choice_of ON template_choice (kind, language, sequence);

-- A signed entry's PDF as it was first made. unfinished and warnings are JSON lists of sentences.
CREATE TABLE kept_paper (
    sequence         INTEGER PRIMARY KEY,
    case_id          TEXT NOT NULL,
    entry_number     INTEGER NOT NULL,
    kind             TEXT NOT NULL,
    language         TEXT NOT NULL,
    page             TEXT NOT NULL,
    template_name    TEXT NOT NULL,
    template_version INTEGER NOT NULL,
    unfinished       TEXT NOT NULL,
    warnings         TEXT NOT NULL,
    author           INTEGER NOT NULL REFERENCES person (id),
    made_at          TEXT NOT NULL,
    sha256           BLOB NOT NULL CHECK (length(sha256) = 32),
    bytes            BLOB NOT NULL,
    UNIQUE (case_id, entry_number, kind, language, page),
    FOREIGN KEY (case_id, entry_number) REFERENCES entry (case_id, number)
) STRICT;

CREATE TRIGGER template_stays BEFORE UPDATE ON template
BEGIN
    SELECT RAISE(ABORT, 'a version of a template never changes');
END;

CREATE TRIGGER template_is_kept BEFORE DELETE ON template
BEGIN
    SELECT RAISE(ABORT, 'a version of a template is never removed');
END;

CREATE TRIGGER template_choice_stays BEFORE UPDATE ON template_choice
BEGIN
    SELECT RAISE(ABORT, 'what was once in force never changes');
END;

CREATE TRIGGER template_choice_is_kept BEFORE DELETE ON template_choice
BEGIN
    SELECT RAISE(ABORT, 'what was once in force is never removed');
END;

CREATE TRIGGER kept_paper_stays BEFORE UPDATE ON kept_paper
BEGIN
    SELECT RAISE(ABORT, 'a kept paper never changes');
END;

CREATE TRIGGER kept_paper_is_kept BEFORE DELETE ON kept_paper
BEGIN
    SELECT RAISE(ABORT, 'a kept paper is never removed');
END;

CREATE TRIGGER template_is_not_replaced BEFORE INSERT ON template
WHEN EXISTS (
    SELECT 1 FROM template AS there
    WHERE there.sequence = NEW.sequence
        OR (there.kind = NEW.kind AND there.language = NEW.language AND there.version = NEW.version)
)
BEGIN
    SELECT RAISE(ABORT, 'a version of a template is never replaced');
END;

CREATE TRIGGER template_choice_is_not_replaced BEFORE INSERT ON template_choice
WHEN EXISTS (SELECT 1 FROM template_choice AS there WHERE there.sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'what was once in force is never replaced');
END;

CREATE TRIGGER kept_paper_is_not_replaced BEFORE INSERT ON kept_paper
WHEN EXISTS (
    SELECT 1 FROM kept_paper AS there
    WHERE there.sequence = NEW.sequence
        OR (there.case_id = NEW.case_id AND there.entry_number = NEW.entry_number AND there.kind = NEW.kind
            AND there.language = NEW.language AND there.page = NEW.page)
)
BEGIN
    SELECT RAISE(ABORT, 'a kept paper is never replaced');
END;
