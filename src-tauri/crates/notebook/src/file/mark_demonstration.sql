INSERT OR REPLACE INTO meta (name, value) VALUES ('demonstration', 'yes');
