INSERT INTO template (kind, language, version, name, source, author, saved_at)
SELECT ?1, ?2, coalesce(max(version), 0) + 1, ?3, ?4, ?6, ?5 FROM template WHERE kind = ?1 AND language = ?2
RETURNING version;
