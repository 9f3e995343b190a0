UPDATE entry SET kind = 'signed', author = 1, written_at = ?2 WHERE case_id = ?1 AND kind = 'draft';
