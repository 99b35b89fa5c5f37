-- What a coordinator says to a flag: seen, or put aside for a reason until a day. It never changes what the flag is.
CREATE TABLE flag_note (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  bin_id TEXT NOT NULL REFERENCES bin (id),
  signal TEXT NOT NULL CHECK (length(signal) BETWEEN 1 AND 40),
  kind TEXT NOT NULL CHECK (kind IN ('seen', 'aside')),
  -- how bad it was: what gets worse speaks up again
  band TEXT NOT NULL CHECK (band IN ('unknown', 'watch', 'act')),
  reason TEXT NOT NULL DEFAULT '' CHECK (length(reason) <= 200),
  -- last day on which it stays aside
  until_on TEXT CHECK (until_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  made_on TEXT NOT NULL CHECK (made_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  made_at TEXT NOT NULL,
  person_id TEXT NOT NULL REFERENCES person (id),
  ended_at TEXT,
  CHECK ((kind = 'aside') = (until_on IS NOT NULL)),
  CHECK (kind = 'seen' OR length(reason) > 0)
) STRICT;
CREATE INDEX flag_note_of_bin ON flag_note (bin_id, signal) WHERE ended_at IS NULL;

CREATE TRIGGER flag_note_added AFTER INSERT ON flag_note BEGIN INSERT INTO change (topic, subject) VALUES ('bin', NEW.bin_id); END;
CREATE TRIGGER flag_note_changed AFTER UPDATE ON flag_note BEGIN INSERT INTO change (topic, subject) VALUES ('bin', NEW.bin_id); END;
