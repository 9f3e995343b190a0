SELECT id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at
FROM case_line
ORDER BY place DESC
LIMIT ?1;
