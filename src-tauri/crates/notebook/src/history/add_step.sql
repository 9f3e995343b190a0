INSERT INTO step (case_id, node, parent, other_parent, kind, number, author, written_at, addendum_text, back)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10);
