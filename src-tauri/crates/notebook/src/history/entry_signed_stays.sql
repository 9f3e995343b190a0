CREATE TRIGGER entry_signed_stays BEFORE UPDATE ON entry WHEN OLD.kind <> 'draft'
BEGIN
    SELECT RAISE(ABORT, 'a signed entry never changes');
END;
