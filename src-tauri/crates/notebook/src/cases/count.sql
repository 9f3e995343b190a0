SELECT count(*) FROM case_line;
