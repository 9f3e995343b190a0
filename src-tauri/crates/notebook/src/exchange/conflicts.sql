SELECT
    aside.sequence, aside.case_id, coalesce(case_line.name, '') AS name, person.name AS "by", step.written_at,
    aside.received_at
FROM aside
JOIN step ON step.node = aside.node
JOIN person ON person.id = step.author
LEFT JOIN case_line ON case_line.id = aside.case_id
WHERE aside.settled_at IS NULL
ORDER BY aside.sequence;
