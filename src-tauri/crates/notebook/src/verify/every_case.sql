SELECT case_id FROM entry
UNION
SELECT case_id FROM step;
