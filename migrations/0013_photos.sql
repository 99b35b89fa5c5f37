-- Photos of bins and of visitors. The picture itself lies in a file beside the store, under a name of ours.
CREATE TABLE photo (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  bin_id TEXT NOT NULL REFERENCES bin (id),
  -- no reference: a photo may come before its entry, which a phone sends by itself
  entry_id TEXT CHECK (length(entry_id) = 36),
  person_id TEXT NOT NULL REFERENCES person (id),
  kind TEXT NOT NULL CHECK (kind IN ('bin', 'visitor')),
  alt TEXT NOT NULL DEFAULT '' CHECK (length(alt) <= 200),
  taken_at TEXT NOT NULL,
  received_at TEXT NOT NULL,
  file TEXT NOT NULL UNIQUE CHECK (file GLOB '*.jpg' AND length(file) = 36),
  bytes INTEGER NOT NULL CHECK (bytes > 0),
  width INTEGER NOT NULL CHECK (width BETWEEN 1 AND 1600),
  height INTEGER NOT NULL CHECK (height BETWEEN 1 AND 1600),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64)
) STRICT;
CREATE INDEX photo_of_bin ON photo (bin_id, taken_at);
CREATE INDEX photo_of_person ON photo (person_id);

CREATE TRIGGER photo_added AFTER INSERT ON photo BEGIN INSERT INTO change (topic, subject) VALUES ('entry', NEW.bin_id); END;
CREATE TRIGGER photo_taken_off AFTER DELETE ON photo BEGIN INSERT INTO change (topic, subject) VALUES ('entry', OLD.bin_id); END;
