UPDATE person SET mark = ?1 WHERE id = 1;
