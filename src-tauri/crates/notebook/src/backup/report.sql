SELECT
    (SELECT count(*) FROM case_line) AS cases,
    (SELECT count(*) FROM case_line WHERE state = 'draft') AS drafts,
    (SELECT count(*) FROM entry WHERE kind = 'signed') AS signed,
    (SELECT count(*) FROM entry WHERE kind = 'addendum') AS addenda,
    (SELECT count(*) FROM kept_paper) AS papers,
    (SELECT count(*) FROM person WHERE removed_at IS NULL AND from_elsewhere = 0
        AND mark IS NOT (SELECT value FROM meta WHERE name = 'recovery.mark')) AS people,
    (SELECT max(written_at) FROM entry) AS newest;
