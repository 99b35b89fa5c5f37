-- Photos that were taken off or deleted: numbers and days alone, so that a backup from before does not show them again.
CREATE TABLE photo_gone (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  gone_on TEXT NOT NULL CHECK (gone_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]')
) STRICT;
-- However it goes: by hand, with somebody who is erased, or by the clearing away.
CREATE TRIGGER photo_is_gone AFTER DELETE ON photo BEGIN INSERT OR IGNORE INTO photo_gone (id, gone_on) VALUES (OLD.id, date('now')); END;
