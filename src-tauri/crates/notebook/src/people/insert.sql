INSERT INTO person (name, role, keeper, mark, added_at) VALUES (?1, ?2, ?3, ?4, ?5);
