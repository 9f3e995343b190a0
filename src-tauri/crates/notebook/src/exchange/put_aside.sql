INSERT INTO aside (case_id, node, body, received_at, settled_at, settled_by, kept) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)
ON CONFLICT (node) DO NOTHING;
