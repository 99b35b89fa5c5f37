-- Scraps on offer for a day, and how they would be shared among a site's bins.
CREATE TABLE intake_plan (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  local_date TEXT NOT NULL CHECK (local_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  -- what was worked out when the plan was made: it stays what it was, whatever the bins do since
  plan TEXT NOT NULL CHECK (json_valid(plan)),
  made_by TEXT REFERENCES person (id),
  made_at TEXT NOT NULL,
  accepted_at TEXT,
  shift_id TEXT REFERENCES shift (id),
  CHECK ((accepted_at IS NULL) = (shift_id IS NULL))
) STRICT;
CREATE INDEX intake_plan_of ON intake_plan (site_id, local_date);

-- A source is a place such as a cafe, named as people know it; no person and no way to reach one.
CREATE TABLE intake_stream (
  plan_id TEXT NOT NULL REFERENCES intake_plan (id) ON DELETE CASCADE,
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 19),
  source TEXT NOT NULL CHECK (length(source) BETWEEN 1 AND 80),
  material_id TEXT NOT NULL CHECK (length(material_id) BETWEEN 1 AND 80),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  PRIMARY KEY (plan_id, seq)
) STRICT, WITHOUT ROWID;

-- What an accepted plan puts on the card of a shift.
CREATE TABLE shift_feeding (
  shift_id TEXT NOT NULL REFERENCES shift (id) ON DELETE CASCADE,
  bin_id TEXT NOT NULL REFERENCES bin (id),
  part TEXT NOT NULL CHECK (part IN ('scraps', 'bedding')),
  material_id TEXT NOT NULL CHECK (length(material_id) BETWEEN 1 AND 80),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 5000000),
  plan_id TEXT NOT NULL REFERENCES intake_plan (id),
  PRIMARY KEY (shift_id, bin_id, part, material_id)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER intake_plan_added AFTER INSERT ON intake_plan BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER intake_plan_changed AFTER UPDATE ON intake_plan BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
