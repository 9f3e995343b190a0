SELECT step.kind, step.number, person.name, step.written_at, step.addendum_text
FROM step
JOIN person ON person.id = step.author
WHERE step.node = ?1;
