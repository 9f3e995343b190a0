-- The draft keeps its number and its place; only what it says, who wrote it and when change.
UPDATE entry
SET kind = ?2, author = ?3, written_at = ?4, schema = ?5, body = ?6, own_hash = ?7, previous_hash = ?8
WHERE case_id = ?1 AND kind = 'draft';
