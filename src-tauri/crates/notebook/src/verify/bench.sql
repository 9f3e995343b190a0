DROP TRIGGER entry_signed_is_kept;
DROP TRIGGER entry_signed_is_not_replaced;
