SELECT
    step.sequence, step.node, step.parent, step.other_parent, step.kind, step.number, step.written_at,
    step.addendum_text, step.back, coalesce(person.mark, '00000000-0000-0000-0000-000000000000') AS mark, coalesce(person.name, '') AS name
FROM step
LEFT JOIN person ON person.id = step.author
WHERE step.case_id = ?1
ORDER BY step.sequence;
