SELECT
    body,
    written_at,
    CASE kind WHEN 'draft' THEN 'draft' ELSE 'signed' END AS state
FROM entry
WHERE case_id = ?1
ORDER BY number DESC
LIMIT 1;
