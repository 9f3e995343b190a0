SELECT position, own_hash FROM ledger ORDER BY position DESC LIMIT 1;
