SELECT case_id, kind, sha256, bytes FROM aside_paper ORDER BY sequence;
