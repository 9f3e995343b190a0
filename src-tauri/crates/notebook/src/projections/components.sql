INSERT INTO component_line
    (case_row, position, role, maker, name, reference, lot, serial, device_identifier, fate)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10);
