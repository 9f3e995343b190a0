INSERT INTO entry (case_id, number, kind, author, written_at, schema, body, own_hash)
VALUES (?1, 1, 'draft', ?2, ?3, ?4, ?5, ?6);
