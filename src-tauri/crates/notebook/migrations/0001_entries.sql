-- What people wrote. Everything else in the file can be made again from these tables.

CREATE TABLE meta (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- The first person is the writer who began the notebook.
-- role and wrapped_key stay empty until a notebook can hold several people.
CREATE TABLE person (
    id          INTEGER PRIMARY KEY,
    name        TEXT NOT NULL,
    role        TEXT,
    wrapped_key BLOB,
    added_at    TEXT NOT NULL
) STRICT;

-- Versions of entries. A case has at most one draft, which autosave replaces; a signed version or an
-- addendum never changes. The two hashes stay empty until entries are signed.
CREATE TABLE entry (
    sequence      INTEGER PRIMARY KEY,
    case_id       TEXT NOT NULL,
    number        INTEGER NOT NULL CHECK (number > 0),
    kind          TEXT NOT NULL CHECK (kind IN ('draft', 'signed', 'addendum')),
    author        INTEGER NOT NULL REFERENCES person (id),
    written_at    TEXT NOT NULL,
    schema        INTEGER NOT NULL,
    body          TEXT NOT NULL,
    previous_hash BLOB,
    own_hash      BLOB,
    UNIQUE (case_id, number)
) STRICT;

CREATE UNIQUE INDEX entry_one_draft ON entry (case_id) WHERE kind = 'draft';

CREATE TRIGGER entry_signed_stays BEFORE UPDATE ON entry WHEN OLD.kind <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'a signed entry never changes');
END;

CREATE TRIGGER entry_signed_is_kept BEFORE DELETE ON entry WHEN OLD.kind <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'a signed entry is never removed');
END;
