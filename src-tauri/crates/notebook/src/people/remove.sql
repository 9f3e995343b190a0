UPDATE person SET removed_at = ?2 WHERE mark = ?1 AND removed_at IS NULL;
