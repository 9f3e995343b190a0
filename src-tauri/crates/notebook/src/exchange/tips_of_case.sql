SELECT case_id, own_hash, 1, body, NULL, NULL, NULL
FROM entry
WHERE case_id = ?1 AND number = (SELECT max(number) FROM entry WHERE case_id = ?1)
UNION ALL
SELECT aside.case_id, aside.node, 0, aside.body, aside.settled_at, person.mark, aside.kept
FROM aside
LEFT JOIN person ON person.id = aside.settled_by
WHERE aside.case_id = ?1;
