-- Unless this very paper is here, kept or aside.
INSERT INTO aside_paper
    (case_id, node, kind, language, page, template_name, template_version, unfinished, warnings, author, made_at, sha256,
     bytes)
SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13
WHERE NOT EXISTS (
    SELECT 1
    FROM kept_paper
    JOIN entry ON entry.case_id = kept_paper.case_id AND entry.number = kept_paper.entry_number
    WHERE entry.case_id = ?1 AND entry.own_hash = ?2 AND kept_paper.kind = ?3 AND language = ?4 AND page = ?5
        AND sha256 = ?12
)
ON CONFLICT (node, kind, language, page, sha256) DO NOTHING;
