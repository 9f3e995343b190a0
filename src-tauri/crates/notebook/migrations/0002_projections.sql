-- What lists and search read. Made from the entries; emptied and filled again by a rebuild.

-- Blank text means "not recorded"; side and procedure are words, dates are YYYY-MM-DD.
CREATE TABLE case_line (
    row             INTEGER PRIMARY KEY,
    id              TEXT NOT NULL UNIQUE,
    name            TEXT NOT NULL,
    hospital_number TEXT NOT NULL,
    birth_date      TEXT NOT NULL,
    operation_date  TEXT NOT NULL,
    side            TEXT NOT NULL,
    procedure       TEXT NOT NULL,
    state           TEXT NOT NULL CHECK (state IN ('draft', 'signed')),
    saved_at        TEXT NOT NULL
) STRICT;

-- role and fate are codes; position is the zero-based place in the entry.
CREATE TABLE component_line (
    case_row          INTEGER NOT NULL REFERENCES case_line (row) ON DELETE CASCADE,
    position          INTEGER NOT NULL,
    role              TEXT NOT NULL,
    maker             TEXT NOT NULL,
    name              TEXT NOT NULL,
    reference         TEXT NOT NULL,
    lot               TEXT NOT NULL,
    serial            TEXT NOT NULL,
    device_identifier TEXT NOT NULL,
    fate              TEXT NOT NULL,
    PRIMARY KEY (case_row, position)
) STRICT, WITHOUT ROWID;

-- rowid is case_line.row. Texts arrive folded; the words themselves stay in the entries only.
CREATE VIRTUAL TABLE case_text USING fts5 (
    names, numbers, dates, components, texts,
    content = '', contentless_delete = 1, prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2'
);
