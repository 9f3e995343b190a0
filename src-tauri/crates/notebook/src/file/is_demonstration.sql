SELECT EXISTS (SELECT 1 FROM meta WHERE name = 'demonstration' AND value = 'yes');
