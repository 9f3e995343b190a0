SELECT name FROM person WHERE id = 1;
