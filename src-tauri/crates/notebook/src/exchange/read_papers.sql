SELECT
    sequence, node, kind, language, page, template_name, template_version, unfinished, warnings, mark, made_at, sha256
FROM paper
WHERE case_id = ?1
ORDER BY sequence;
