SELECT template_name, template_version, unfinished, warnings, person.name AS author, made_at, sha256, bytes
FROM kept_paper
JOIN person ON person.id = kept_paper.author
WHERE case_id = ?1 AND entry_number = ?2 AND kind = ?3 AND language = ?4 AND page = ?5;
