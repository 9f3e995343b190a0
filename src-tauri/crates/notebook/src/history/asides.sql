SELECT node, body FROM aside WHERE case_id = ?1 ORDER BY sequence;
