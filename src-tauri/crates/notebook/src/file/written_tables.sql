-- The tables in which people write; lists and search are made from them.
SELECT name FROM sqlite_schema
WHERE type = 'table' AND name IN ('meta', 'person', 'entry', 'template', 'template_choice', 'kept_paper');
