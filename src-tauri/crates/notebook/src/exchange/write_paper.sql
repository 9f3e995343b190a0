INSERT INTO paper
    (case_id, node, kind, language, page, template_name, template_version, unfinished, warnings, mark, made_at, sha256,
     bytes)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13);
