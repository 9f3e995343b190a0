SELECT * FROM component_line WHERE case_row = ?1 ORDER BY position;
