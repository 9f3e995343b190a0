SELECT id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at
FROM case_line
WHERE row IN (SELECT rowid FROM case_text WHERE case_text MATCH ?1)
ORDER BY coalesce(nullif(operation_date, ''), substr(saved_at, 1, 10)) DESC, saved_at DESC, row DESC;
