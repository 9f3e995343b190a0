INSERT INTO person (id, name, added_at) VALUES (1, ?1, ?2);
