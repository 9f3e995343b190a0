SELECT case_id FROM entry GROUP BY case_id ORDER BY min(sequence);
