-- One version of an entry, the newest where no number is given.
SELECT
    entry.number,
    entry.body,
    entry.written_at,
    entry.addendum_text,
    entry.own_hash,
    CASE entry.kind WHEN 'draft' THEN 'draft' ELSE 'signed' END AS state,
    author.name AS author,
    signer.name AS signed_by,
    signed.written_at AS signed_at
FROM entry
JOIN person AS author ON author.id = entry.author
LEFT JOIN entry AS signed ON signed.case_id = entry.case_id AND signed.kind = 'signed'
LEFT JOIN person AS signer ON signer.id = signed.author
WHERE entry.case_id = ?1 AND (?2 IS NULL OR entry.number = ?2)
ORDER BY entry.number DESC
LIMIT 1;
