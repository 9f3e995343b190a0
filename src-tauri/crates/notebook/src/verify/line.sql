SELECT * FROM case_line WHERE row = ?1;
