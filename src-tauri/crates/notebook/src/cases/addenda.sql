SELECT entry.number, person.name AS author, entry.written_at, entry.addendum_text
FROM entry
JOIN person ON person.id = entry.author
WHERE entry.case_id = ?1 AND entry.kind = 'addendum'
ORDER BY entry.number;
