-- An exchange file: every saved state of some entries, what their ends hold, and their kept papers. Rows refer to
-- people by mark and to states by node, because row numbers differ from notebook to notebook.

CREATE TABLE about (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE person (
    mark TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    role TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE step (
    sequence      INTEGER PRIMARY KEY,
    case_id       TEXT NOT NULL,
    node          BLOB NOT NULL,
    parent        BLOB,
    other_parent  BLOB,
    kind          TEXT NOT NULL,
    number        INTEGER NOT NULL,
    mark          TEXT NOT NULL,
    written_at    TEXT NOT NULL,
    addendum_text TEXT,
    back          TEXT
) STRICT;

CREATE INDEX step_of_case ON step (case_id, sequence);

-- The version that stands, and those that lie aside. Without a settled_at, one that lies aside is an open conflict.
CREATE TABLE tip (
    case_id    TEXT NOT NULL,
    node       BLOB NOT NULL,
    stands     INTEGER NOT NULL,
    body       TEXT NOT NULL,
    settled_at TEXT,
    settled_by TEXT,
    kept       TEXT,
    PRIMARY KEY (case_id, node)
) STRICT, WITHOUT ROWID;

CREATE TABLE paper (
    sequence         INTEGER PRIMARY KEY,
    case_id          TEXT NOT NULL,
    node             BLOB NOT NULL,
    kind             TEXT NOT NULL,
    language         TEXT NOT NULL,
    page             TEXT NOT NULL,
    template_name    TEXT NOT NULL,
    template_version INTEGER NOT NULL,
    unfinished       TEXT NOT NULL,
    warnings         TEXT NOT NULL,
    mark             TEXT NOT NULL,
    made_at          TEXT NOT NULL,
    sha256           BLOB NOT NULL,
    bytes            BLOB NOT NULL
) STRICT;

CREATE INDEX paper_of_case ON paper (case_id, sequence);
