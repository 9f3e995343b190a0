SELECT id, mark, name, role, keeper FROM person
WHERE mark = ?1 AND removed_at IS NULL AND from_elsewhere = 0;
