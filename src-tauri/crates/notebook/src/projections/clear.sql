DELETE FROM case_text;
DELETE FROM case_word;
DELETE FROM component_line;
DELETE FROM case_line;
