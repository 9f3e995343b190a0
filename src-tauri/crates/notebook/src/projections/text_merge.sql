INSERT INTO case_text (case_text, rank) VALUES ('merge', ?1);
