SELECT EXISTS (SELECT 1 FROM template WHERE kind = ?1 AND language = ?2 AND version = ?3);
