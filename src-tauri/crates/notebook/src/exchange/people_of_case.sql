-- Everybody whose name a state, a settled conflict or a paper of a case bears.
SELECT mark, name, coalesce(role, 'clinic')
FROM person
WHERE mark IS NOT NULL AND id IN (
    SELECT author FROM step WHERE case_id = ?1
    UNION SELECT settled_by FROM aside WHERE case_id = ?1
    UNION SELECT author FROM kept_paper WHERE case_id = ?1
    UNION SELECT author FROM aside_paper WHERE case_id = ?1
);
