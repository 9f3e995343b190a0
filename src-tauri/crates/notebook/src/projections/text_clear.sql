DELETE FROM case_text WHERE rowid = ?1;
