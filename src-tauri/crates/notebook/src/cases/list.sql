SELECT id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at
FROM case_line
ORDER BY coalesce(nullif(operation_date, ''), substr(saved_at, 1, 10)) DESC, saved_at DESC, row DESC;
