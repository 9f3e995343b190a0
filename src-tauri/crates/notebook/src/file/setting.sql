SELECT value FROM meta WHERE name = 'setting.' || ?1
