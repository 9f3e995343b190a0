PRAGMA journal_mode = DELETE;
PRAGMA synchronous = FULL;
PRAGMA foreign_keys = ON;
PRAGMA temp_store = MEMORY;
-- A row that is replaced is removed, and what forbids removing it has to hear of it.
PRAGMA recursive_triggers = ON;
