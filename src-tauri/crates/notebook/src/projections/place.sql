UPDATE case_line SET place = ?2, text_sum = ?3 WHERE row = ?1;
