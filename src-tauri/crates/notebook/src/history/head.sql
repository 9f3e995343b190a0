SELECT number, kind, written_at, own_hash, body
FROM entry
WHERE case_id = ?1
ORDER BY number DESC
LIMIT 1;
