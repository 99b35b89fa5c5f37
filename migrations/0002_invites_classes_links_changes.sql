-- A way in that somebody was given: used up by one press, never by being looked at.
CREATE TABLE invite (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  token_hash TEXT NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  -- Set: one more device for somebody who is there already.
  person_id TEXT REFERENCES person (id) ON DELETE CASCADE,
  name TEXT CHECK (name IS NULL OR length(name) BETWEEN 1 AND 80),
  role TEXT NOT NULL CHECK (role IN ('volunteer', 'site-lead', 'coordinator')),
  site_ids TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(site_ids)),
  created_by TEXT REFERENCES person (id) ON DELETE SET NULL,
  created_at TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  used_at TEXT,
  used_by TEXT REFERENCES person (id) ON DELETE SET NULL,
  revoked_at TEXT
) STRICT;

-- Six digits that bring another device in: ten minutes, once, and dead after five wrong tries by anybody.
CREATE TABLE device_code (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  code_hash TEXT NOT NULL CHECK (length(code_hash) = 64),
  created_by TEXT REFERENCES person (id) ON DELETE SET NULL,
  created_at TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  tries INTEGER NOT NULL DEFAULT 0 CHECK (tries >= 0),
  used_at TEXT
) STRICT;

-- A school class or group of pupils. The code stands on the classroom wall and opens nothing without a picture card.
CREATE TABLE class (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  code TEXT NOT NULL UNIQUE CHECK (length(code) = 5),
  age_band TEXT NOT NULL CHECK (age_band IN ('4-8', '9-12', '13-18')),
  archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
  created_at TEXT NOT NULL,
  UNIQUE (site_id, name)
) STRICT;

-- All that is kept of a pupil: first name and initial (person), this class with its age band, and the card's hash (credential).
CREATE TABLE class_pupil (
  person_id TEXT PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
  class_id TEXT NOT NULL REFERENCES class (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX class_pupil_class ON class_pupil (class_id);

-- Addresses that show something without signing in: read-only, without names, gone at once when revoked.
CREATE TABLE link (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  kind TEXT NOT NULL CHECK (kind IN ('board', 'calendar', 'season')),
  token_hash TEXT NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  person_id TEXT REFERENCES person (id) ON DELETE CASCADE,
  site_id TEXT REFERENCES site (id) ON DELETE CASCADE,
  label TEXT NOT NULL DEFAULT '' CHECK (length(label) <= 80),
  created_by TEXT REFERENCES person (id) ON DELETE SET NULL,
  created_at TEXT NOT NULL,
  revoked_at TEXT
) STRICT;

-- The newest time step that opened a second step: a code that was seen over a shoulder does not work again.
ALTER TABLE credential ADD COLUMN last_step INTEGER;

-- What changed, in order, for open pages to catch up from. Triggers write it, so that no way of writing can forget to.
-- Numbers are never used twice, even after old rows were cleared away.
CREATE TABLE change (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  topic TEXT NOT NULL CHECK (topic IN ('entry', 'bin', 'site', 'shift', 'stuff', 'people', 'programme')),
  subject TEXT NOT NULL
) STRICT;

CREATE TRIGGER entry_added AFTER INSERT ON entry BEGIN INSERT INTO change (topic, subject) VALUES ('entry', NEW.bin_id); END;
CREATE TRIGGER entry_changed AFTER UPDATE ON entry BEGIN INSERT INTO change (topic, subject) VALUES ('entry', NEW.bin_id); END;
CREATE TRIGGER bin_added AFTER INSERT ON bin BEGIN INSERT INTO change (topic, subject) VALUES ('bin', NEW.id); END;
CREATE TRIGGER bin_changed AFTER UPDATE ON bin BEGIN INSERT INTO change (topic, subject) VALUES ('bin', NEW.id); END;
CREATE TRIGGER site_added AFTER INSERT ON site BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.id); END;
CREATE TRIGGER site_changed AFTER UPDATE ON site BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.id); END;
CREATE TRIGGER shift_added AFTER INSERT ON shift BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.id); END;
CREATE TRIGGER shift_changed AFTER UPDATE ON shift BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.id); END;
CREATE TRIGGER sign_up_added AFTER INSERT ON sign_up BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER sign_up_changed AFTER UPDATE ON sign_up BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER material_added AFTER INSERT ON material BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER material_changed AFTER UPDATE ON material BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER container_added AFTER INSERT ON container BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER container_changed AFTER UPDATE ON container BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER person_added AFTER INSERT ON person BEGIN INSERT INTO change (topic, subject) VALUES ('people', NEW.id); END;
CREATE TRIGGER person_changed AFTER UPDATE ON person BEGIN INSERT INTO change (topic, subject) VALUES ('people', NEW.id); END;
CREATE TRIGGER programme_changed AFTER UPDATE ON programme BEGIN INSERT INTO change (topic, subject) VALUES ('programme', NEW.id); END;
