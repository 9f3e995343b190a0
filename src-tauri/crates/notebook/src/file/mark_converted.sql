INSERT OR REPLACE INTO meta (name, value) VALUES ('converted_at', ?1);
