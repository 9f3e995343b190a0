INSERT INTO ledger (position, what, case_id, number, hash, previous_hash, own_hash) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7);
