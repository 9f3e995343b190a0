INSERT INTO kept_paper
    (case_id, entry_number, kind, language, page, template_name, template_version, unfinished, warnings, author, made_at,
     sha256, bytes)
SELECT
    waiting.case_id, entry.number, waiting.kind, waiting.language, waiting.page, waiting.template_name,
    waiting.template_version, waiting.unfinished, waiting.warnings, waiting.author, waiting.made_at, waiting.sha256,
    waiting.bytes
FROM aside_paper AS waiting
JOIN entry ON entry.case_id = waiting.case_id AND entry.own_hash = waiting.node AND entry.kind <> 'draft'
WHERE waiting.sequence = ?1 AND NOT EXISTS (
    SELECT 1 FROM kept_paper AS kept
    WHERE kept.case_id = waiting.case_id AND kept.entry_number = entry.number AND kept.kind = waiting.kind
        AND kept.language = waiting.language AND kept.page = waiting.page
);
