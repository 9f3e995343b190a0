-- A table that takes every free page and is as large as all of them: no page is read before it is filled.
DROP TABLE IF EXISTS filling_of_free_pages;
CREATE TABLE filling_of_free_pages (filling BLOB) STRICT;
INSERT INTO filling_of_free_pages
SELECT zeroblob(freelist_count * page_size) FROM pragma_freelist_count, pragma_page_size;
