PRAGMA journal_mode = DELETE;
-- EXTRA: with FULL the removal of the journal may be lost in a power cut, and a committed save undone by it.
PRAGMA synchronous = EXTRA;
PRAGMA foreign_keys = ON;
PRAGMA temp_store = MEMORY;
-- A row that is replaced is removed, and what forbids removing it has to hear of it.
PRAGMA recursive_triggers = ON;
-- Up to 64 MiB of pages that were opened once need no opening again while one types.
PRAGMA cache_size = -65536;
