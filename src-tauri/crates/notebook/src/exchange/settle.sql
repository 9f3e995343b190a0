UPDATE aside SET settled_at = ?2, settled_by = ?3, kept = ?4 WHERE sequence = ?1 AND settled_at IS NULL;
