SELECT position, what, case_id, number, hash, previous_hash, own_hash FROM ledger ORDER BY position;
