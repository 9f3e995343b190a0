-- The draft keeps its number and its place; only what it says and when it was written change.
INSERT INTO entry (case_id, number, kind, author, written_at, schema, body)
VALUES (?1, 1, 'draft', 1, ?2, ?3, ?4)
ON CONFLICT (case_id) WHERE kind = 'draft' DO UPDATE SET
    author = excluded.author,
    written_at = excluded.written_at,
    schema = excluded.schema,
    body = excluded.body;
