INSERT INTO entry
    (case_id, number, kind, author, written_at, schema, body, addendum_text, own_hash, previous_hash)
VALUES (?1, ?2, 'addendum', ?3, ?4, ?5, ?6, ?7, ?8, ?9);
