SELECT entry.case_id, entry.kind, entry.written_at, entry.body, case_line.row
FROM entry
LEFT JOIN case_line ON case_line.id = entry.case_id
WHERE entry.number = (SELECT max(number) FROM entry AS of_case WHERE of_case.case_id = entry.case_id)
ORDER BY entry.sequence;
