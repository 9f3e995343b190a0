INSERT INTO tip (case_id, node, stands, body, settled_at, settled_by, kept) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)
ON CONFLICT (case_id, node) DO NOTHING;
