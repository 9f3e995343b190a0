-- The first one stays: it is what somebody may hold in the hand.
INSERT INTO kept_paper
    (case_id, entry_number, kind, language, page, template_name, template_version, unfinished, warnings, author, made_at,
     sha256, bytes)
SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?13, ?10, ?11, ?12
WHERE NOT EXISTS (
    SELECT 1 FROM kept_paper
    WHERE case_id = ?1 AND entry_number = ?2 AND kind = ?3 AND language = ?4 AND page = ?5
);
