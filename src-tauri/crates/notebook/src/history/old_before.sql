SELECT own_hash, body FROM entry WHERE case_id = ?1 AND number < ?2 ORDER BY number DESC LIMIT 1;
