UPDATE entry SET own_hash = ?2, previous_hash = ?3 WHERE sequence = ?1;
