SELECT value FROM meta WHERE name = ?1;
