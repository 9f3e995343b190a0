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

-- What this notebook took in, in order: entries begun, signed versions, addenda, kept papers. hash is the node, or the
-- SHA-256 of the paper; own_hash is the SHA-256 of this row's values and of the own_hash before it.
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
