INSERT INTO person (name, role, keeper, mark, added_at, from_elsewhere) VALUES (?1, ?2, 0, ?3, ?4, 1);
