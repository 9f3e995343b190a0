INSERT INTO person (mark, name, role) VALUES (?1, ?2, ?3) ON CONFLICT (mark) DO NOTHING;
