-- CROSS JOIN: the index gives the places from the newest on, and nothing is sorted.
SELECT id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at
FROM case_text
CROSS JOIN case_line ON case_line.place = case_text.rowid
WHERE case_text MATCH ?1
ORDER BY case_text.rowid DESC
LIMIT ?2;
