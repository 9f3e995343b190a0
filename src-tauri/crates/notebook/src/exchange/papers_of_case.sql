SELECT
    kept_paper.case_id, entry.own_hash, kept_paper.kind, language, page, template_name, template_version, unfinished,
    warnings, person.mark, made_at, sha256, bytes
FROM kept_paper
JOIN entry ON entry.case_id = kept_paper.case_id AND entry.number = kept_paper.entry_number
JOIN person ON person.id = kept_paper.author
WHERE kept_paper.case_id = ?1
UNION ALL
SELECT
    case_id, node, kind, language, page, template_name, template_version, unfinished, warnings, person.mark, made_at,
    sha256, bytes
FROM aside_paper
JOIN person ON person.id = aside_paper.author
WHERE case_id = ?1;
