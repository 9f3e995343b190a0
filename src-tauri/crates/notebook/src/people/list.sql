SELECT id, mark, name, role, keeper, added_at, removed_at, from_elsewhere FROM person ORDER BY id;
