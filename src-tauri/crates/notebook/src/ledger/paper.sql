SELECT
    case_id, entry_number, kind, language, page, template_name, template_version, unfinished,
    warnings, coalesce(person.mark, '00000000-0000-0000-0000-000000000000') AS mark, coalesce(person.name, '') AS name, made_at, sha256
FROM kept_paper
LEFT JOIN person ON person.id = kept_paper.author
WHERE kept_paper.sequence = ?1;
