SELECT case_id, number, kind, author, written_at, body, addendum_text FROM entry WHERE sequence = ?1;
