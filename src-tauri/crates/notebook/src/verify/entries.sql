SELECT
    entry.number, entry.kind, entry.author, entry.written_at, entry.body, entry.addendum_text, entry.own_hash,
    entry.previous_hash, step.author AS step_author
FROM entry
LEFT JOIN step ON step.node = entry.own_hash
WHERE entry.case_id = ?1
ORDER BY entry.number;
