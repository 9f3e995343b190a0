SELECT
    (SELECT count(DISTINCT case_id) FROM entry),
    (SELECT count(*) FROM case_line),
    (SELECT count(*) FROM entry WHERE kind <> 'draft'),
    (SELECT count(*) FROM ledger),
    (SELECT coalesce(max(position), 0) FROM ledger);
