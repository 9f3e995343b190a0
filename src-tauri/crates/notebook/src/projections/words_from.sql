SELECT word, open FROM case_word WHERE word >= ?1 AND word < ?1 || '{' LIMIT ?2;
