SELECT case_text.rowid FROM case_line JOIN case_text ON case_text.rowid = case_line.place WHERE case_line.row = ?1;
