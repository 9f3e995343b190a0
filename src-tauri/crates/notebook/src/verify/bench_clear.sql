DELETE FROM entry;
DELETE FROM case_text;
DELETE FROM component_line;
DELETE FROM case_line;
