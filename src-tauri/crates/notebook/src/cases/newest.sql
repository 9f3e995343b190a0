SELECT
    body,
    written_at,
    CASE WHEN EXISTS (SELECT 1 FROM entry AS signed WHERE signed.case_id = ?1 AND signed.kind = 'signed')
        THEN 'signed' ELSE 'draft' END AS state
FROM entry
WHERE case_id = ?1 AND kind <> 'addendum'
ORDER BY number DESC
LIMIT 1;
