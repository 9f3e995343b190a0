UPDATE person SET role = ?2, keeper = ?3 WHERE mark = ?1;
