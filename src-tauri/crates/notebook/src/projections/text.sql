INSERT INTO case_text (rowid, names, numbers, dates, components, texts) VALUES (?1, ?2, ?3, ?4, ?5, ?6);
