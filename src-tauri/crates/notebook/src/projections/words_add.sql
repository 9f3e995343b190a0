INSERT INTO case_word (word, open) VALUES (?1, ?2) ON CONFLICT DO NOTHING;
