INSERT INTO case_line
    (id, name, hospital_number, birth_date, operation_date, side, procedure, state, saved_at)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)
ON CONFLICT (id) DO UPDATE SET
    name = excluded.name,
    hospital_number = excluded.hospital_number,
    birth_date = excluded.birth_date,
    operation_date = excluded.operation_date,
    side = excluded.side,
    procedure = excluded.procedure,
    state = excluded.state,
    saved_at = excluded.saved_at
RETURNING row, place, text_sum;
