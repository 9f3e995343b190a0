INSERT INTO entry (case_id, number, kind, author, written_at, schema, body, addendum_text)
VALUES (?1, 1, ?2, 1, ?3, 1, ?4, CASE ?2 WHEN 'addendum' THEN '' END);
