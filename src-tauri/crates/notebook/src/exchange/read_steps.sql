SELECT
    step.sequence, node, parent, other_parent, kind, number, step.mark, person.name, written_at, addendum_text, back
FROM step
JOIN person ON person.mark = step.mark
WHERE case_id = ?1
ORDER BY step.sequence;
