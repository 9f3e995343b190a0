SELECT node, stands, body, settled_at, settled_by, kept FROM tip WHERE case_id = ?1 ORDER BY stands DESC, node;
