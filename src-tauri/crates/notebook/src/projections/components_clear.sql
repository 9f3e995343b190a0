DELETE FROM component_line WHERE case_row = ?1;
