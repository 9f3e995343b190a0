INSERT INTO entry (case_id, number, kind, author, written_at, schema, body, addendum_text)
SELECT ?1, max(number) + 1, 'addendum', 1, ?2, ?3, ?4, ?5 FROM entry WHERE case_id = ?1;
