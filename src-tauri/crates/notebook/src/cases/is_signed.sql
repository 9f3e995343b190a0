SELECT EXISTS (SELECT 1 FROM entry WHERE case_id = ?1 AND kind = 'signed');
