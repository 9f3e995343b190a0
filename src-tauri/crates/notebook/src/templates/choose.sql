INSERT INTO template_choice (kind, language, version, author, chosen_at) VALUES (?1, ?2, ?3, ?5, ?4);
