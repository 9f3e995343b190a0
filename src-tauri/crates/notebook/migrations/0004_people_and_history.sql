-- Several people, every state that an entry was ever saved in, and the ledger that shows a missing row.

-- mark is a UUID: the name of the person's place in the file's door, and the same person in an exchange.
-- role is surgeon, registrar, clinic or keeper; keeper says whether somebody with another role keeps the notebook too.
-- wrapped_key stays empty: wrapped keys lie in the door, outside of the encrypted pages.
-- A person from elsewhere wrote versions that came from another notebook, and cannot open this one.
ALTER TABLE person ADD COLUMN mark TEXT;
ALTER TABLE person ADD COLUMN keeper INTEGER NOT NULL DEFAULT 0 CHECK (keeper IN (0, 1));
ALTER TABLE person ADD COLUMN removed_at TEXT;
ALTER TABLE person ADD COLUMN from_elsewhere INTEGER NOT NULL DEFAULT 0 CHECK (from_elsewhere IN (0, 1));

UPDATE person SET role = 'surgeon', keeper = 1 WHERE id = 1;

CREATE UNIQUE INDEX person_mark ON person (mark);

-- One row for each state that was saved, of every branch. node is the SHA-256 of what the state holds, who wrote it
-- and when, and of the states that it follows; other_parent is the second one, where a conflict was settled.
-- back is the JSON Patch (RFC 6902) that makes the state of the parent out of this one; the first state has none.
CREATE TABLE step (
    sequence      INTEGER PRIMARY KEY,
    case_id       TEXT NOT NULL,
    node          BLOB NOT NULL UNIQUE CHECK (length(node) = 32),
    parent        BLOB CHECK (length(parent) = 32),
    other_parent  BLOB CHECK (length(other_parent) = 32),
    kind          TEXT NOT NULL CHECK (kind IN ('draft', 'signed', 'addendum')),
    number        INTEGER NOT NULL CHECK (number > 0),
    author        INTEGER NOT NULL REFERENCES person (id),
    written_at    TEXT NOT NULL,
    addendum_text TEXT,
    back          TEXT,
    CHECK ((parent IS NULL) = (back IS NULL))
) STRICT;

CREATE INDEX step_of_case ON step (case_id, sequence);

-- A version that came from another notebook and does not follow from ours, nor ours from it.
CREATE TABLE aside (
    sequence      INTEGER PRIMARY KEY,
    case_id       TEXT NOT NULL,
    node          BLOB NOT NULL UNIQUE REFERENCES step (node),
    body          TEXT NOT NULL,
    received_at   TEXT NOT NULL,
    settled_at    TEXT,
    settled_by    INTEGER REFERENCES person (id),
    kept          TEXT CHECK (kept IN ('ours', 'theirs')),
    CHECK ((settled_at IS NULL) = (settled_by IS NULL) AND (settled_at IS NULL) = (kept IS NULL))
) STRICT;

CREATE INDEX aside_open ON aside (case_id) WHERE settled_at IS NULL;

-- A kept paper from another notebook whose version is not in force here, or in whose place another one is kept.
CREATE TABLE aside_paper (
    sequence         INTEGER PRIMARY KEY,
    case_id          TEXT NOT NULL,
    node             BLOB NOT NULL REFERENCES step (node),
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
    UNIQUE (node, kind, language, page, sha256)
) STRICT;

CREATE INDEX aside_paper_of_case ON aside_paper (case_id);

-- What this notebook took in, in order: entries begun, signed versions, addenda, kept papers. hash is the node of the
-- state (of an entry begun: that of its first one), or of a kept paper the SHA-256 of everything that its row says but
-- its number and its bytes: which case, version, paper, language and sheet, the template's name and version, unfinished
-- and warnings as stored, the author's mark and name, the time, and sha256, which is that of the bytes. own_hash is the
-- SHA-256 of position, what, case_id, number and hash of this row and of the own_hash before it. Each part is summed up
-- after its length; the word before the first says what is summed up.
CREATE TABLE ledger (
    position      INTEGER PRIMARY KEY CHECK (position > 0),
    what          TEXT NOT NULL CHECK (what IN ('begun', 'signed', 'addendum', 'paper')),
    case_id       TEXT NOT NULL,
    number        INTEGER NOT NULL,
    hash          BLOB NOT NULL CHECK (length(hash) = 32),
    previous_hash BLOB CHECK (length(previous_hash) = 32),
    own_hash      BLOB NOT NULL CHECK (length(own_hash) = 32),
    CHECK ((position = 1) = (previous_hash IS NULL))
) STRICT;

CREATE INDEX ledger_of_case ON ledger (case_id, number);

CREATE TRIGGER step_stays BEFORE UPDATE ON step
BEGIN
    SELECT RAISE(ABORT, 'a saved state never changes');
END;

CREATE TRIGGER step_is_kept BEFORE DELETE ON step
BEGIN
    SELECT RAISE(ABORT, 'a saved state is never removed');
END;

CREATE TRIGGER step_is_not_replaced BEFORE INSERT ON step
WHEN EXISTS (SELECT 1 FROM step AS there WHERE there.sequence = NEW.sequence OR there.node = NEW.node)
BEGIN
    SELECT RAISE(ABORT, 'a saved state is never replaced');
END;

CREATE TRIGGER ledger_stays BEFORE UPDATE ON ledger
BEGIN
    SELECT RAISE(ABORT, 'the ledger never changes');
END;

CREATE TRIGGER ledger_is_kept BEFORE DELETE ON ledger
BEGIN
    SELECT RAISE(ABORT, 'the ledger is never shortened');
END;

CREATE TRIGGER ledger_is_not_replaced BEFORE INSERT ON ledger
WHEN EXISTS (SELECT 1 FROM ledger AS there WHERE there.position = NEW.position)
BEGIN
    SELECT RAISE(ABORT, 'the ledger never changes');
END;

-- Where a case stands in the list: the day of its operation, or of its last save, and its row. case_text uses it as its
-- rowid, so that a search meets the newest cases first and may stop. text_sum is the SHA-256 of what search knows of the
-- case, so that an answer that changes no word leaves the index alone. Both are filled by the rebuild that follows.
ALTER TABLE case_line ADD COLUMN place INTEGER;
ALTER TABLE case_line ADD COLUMN text_sum BLOB;

CREATE UNIQUE INDEX case_line_place ON case_line (place);

-- The index of search anew, with its own measures. It is filled by the rebuild that follows.
-- pgsz: a page of the index fits into one encrypted page of 4096 bytes, of which 4016 are the database's.
-- automerge, crisismerge: an autosave never merges more than the few pages that it is told to (text_merge.sql).
-- hashsize: many entries that come at once are sorted together.
DROP TABLE case_text;
CREATE VIRTUAL TABLE case_text USING fts5 (
    names, numbers, dates, components, texts,
    content = '', contentless_delete = 1, prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2'
);
INSERT INTO case_text (case_text, rank) VALUES ('pgsz', 3960);
INSERT INTO case_text (case_text, rank) VALUES ('automerge', 0);
INSERT INTO case_text (case_text, rank) VALUES ('crisismerge', 64);
INSERT INTO case_text (case_text, rank) VALUES ('hashsize', 33554432);

-- The words of letters a to z, four or more, that stand in case_text: search asks for the words themselves instead of for
-- everything that begins so, which the index cannot give in the order of the list. open: another sign follows, so that
-- the index knows a word that is not written out here. A word that no case holds any more may stay.
CREATE TABLE case_word (
    word TEXT NOT NULL,
    open INTEGER NOT NULL CHECK (open IN (0, 1)),
    PRIMARY KEY (word, open)
) STRICT, WITHOUT ROWID;
