INSERT INTO case_line (row, id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at)
VALUES (?1, ?2, '', '', '', '', '', '', 'draft', '');
